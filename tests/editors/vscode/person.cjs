// What a person does in VS Code, and sees there. Nothing here waits for a time: every deed is done again until what it
// should lead to is seen, for a key that is pressed while the page is busy may be lost.

const fs = require('node:fs');
const path = require('node:path');

/** Longer than anything takes on a machine that is busy with other things. */
const LONGEST = 60_000;

/** How long a deed may take to show before it is done once more. */
const PATIENCE = 4_000;

function hold(what, ok, seen) {
  if (!ok) throw new Error(`${what} does not hold; seen: ${JSON.stringify(seen)}`);
  console.log(`holds: ${what}`);
}

class Person {
  constructor(page, water, out) {
    this.page = page;
    this.water = water;
    this.out = out;
    this.keys = page.keyboard;
  }

  picture(name) {
    return this.page.screenshot({ path: path.join(this.out, `${name}.png`) });
  }

  onDisk(name, line) {
    return fs.readFileSync(path.join(this.water, name), 'utf8').split('\n')[line - 1];
  }

  /** Waits until `test` gives something, and gives that. */
  async wait(what, test, longest = LONGEST) {
    const until = Date.now() + longest;
    for (;;) {
      const found = await test();
      if (found) return found;
      if (Date.now() > until) throw new Error(`waited in vain for ${what}`);
      await this.page.waitForTimeout(50);
    }
  }

  /** Does something, again where nothing comes of it, until `test` gives something. */
  async until(what, deed, test) {
    const end = Date.now() + LONGEST;
    for (;;) {
      await deed();
      try {
        return await this.wait(what, test, PATIENCE);
      } catch (error) {
        if (Date.now() > end) throw error;
      }
    }
  }

  texts(selector) {
    return this.page.$$eval(selector, found => found.map(one => one.innerText.replace(/\u00a0/g, ' ')));
  }

  labels(selector) {
    return this.page.$$eval(selector, found => found.map(one => one.getAttribute('aria-label') ?? ''));
  }

  seen(selector) {
    return this.page.locator(selector).first().isVisible();
  }

  /** Opens the box at the top by keys, and answers it once it offers what fits. */
  async answer(keys, words, offered) {
    const box = this.page.locator('.quick-input-widget .quick-input-box input');
    await this.until(`the box to offer ${offered}`, async () => {
      await this.keys.press('Escape');
      await this.keys.press(keys);
      await box.fill(words, { timeout: PATIENCE }).catch(() => {});
    }, async () => {
      // Until its list has followed the words, Enter would choose something else.
      const [first] = await this.labels('.quick-input-list .monaco-list-row');
      return offered.test(first ?? '') && (await box.inputValue()) === words;
    });
    await box.press('Enter');
    await this.page.waitForSelector('.quick-input-widget', { state: 'hidden', timeout: LONGEST });
  }

  choose(command) {
    return this.answer('F1', `>${command}`, new RegExp(`^${command}`));
  }

  /** Puts the cursor somewhere; columns are VS Code's own, from 1, and one too large is the line's end. */
  async go(line, column) {
    await this.until(`the cursor in line ${line}`, async () => {
      await this.keys.press('Control+1');
      await this.answer('Control+g', `:${line}:${column}`, new RegExp(`line ${line}\\b`));
    }, async () => {
      const [place] = await this.texts('#status\\.editor\\.selection');
      // Its column is none to compare with: there, an emoji counts once.
      return Number(/Ln (\d+),/.exec(place ?? '')?.[1]) === line;
    });
  }

  open(name) {
    const row = `.explorer-folders-view .monaco-list-row[aria-label*="${name}"]`;
    return this.until(`${name} in front`, () => this.page.dblclick(row, { timeout: PATIENCE }).catch(() => {}), async () =>
      (await this.seen(`.tab.active[data-resource-name="${name}"]`)) && this.seen('.monaco-editor .view-line'));
  }

  /** The places of the problems that are listed. */
  async problems() {
    const labels = await this.labels('.markers-panel .monaco-list-row');
    return labels.map(label => / at line (\d+) and character (\d+)/.exec(label)).filter(Boolean)
      .map(([, line, character]) => [Number(line), Number(character)]);
  }

  async listProblems() {
    const panel = '.markers-panel';
    await this.until('the list of problems', async () => {
      if (!(await this.seen(panel))) await this.keys.press('Control+Shift+m');
    }, () => this.seen(panel));
  }

  shown(places) {
    const wanted = JSON.stringify(places);
    return this.wait(`problems at ${wanted}`, async () => {
      const found = (await this.problems()).map(one => JSON.stringify(one));
      return places.every(place => found.includes(JSON.stringify(place)));
    });
  }

  /** Where a word is drawn, and the marks of errors. */
  async drawn(word) {
    const text = await this.page.evaluate(wanted => {
      for (const row of document.querySelectorAll('.monaco-editor .view-line')) {
        const walker = document.createTreeWalker(row, NodeFilter.SHOW_TEXT);
        for (let node = walker.nextNode(); node; node = walker.nextNode()) {
          const from = node.data.indexOf(wanted);
          if (from < 0) continue;
          const range = document.createRange();
          range.setStart(node, from);
          range.setEnd(node, from + wanted.length);
          const box = range.getBoundingClientRect();
          return { left: box.left, right: box.right, top: box.top };
        }
      }
      return undefined;
    }, word);
    const marks = await this.page.$$eval('.monaco-editor .squiggly-error', found =>
      found.map(mark => mark.getBoundingClientRect()).map(box => ({ left: box.left, right: box.right, top: box.top })));
    return { text, marks };
  }

  /** Holds that a word is underlined, to the pixel. */
  async underlined(word) {
    await this.wait(`a line under \`${word}\` that stands under the word`, async () => {
      const { text, marks } = await this.drawn(word);
      return text && marks.some(mark =>
        Math.abs(mark.left - text.left) < 2 && Math.abs(mark.right - text.right) < 2 && Math.abs(mark.top - text.top) < 12);
    });
    console.log(`holds: the line under \`${word}\` stands under the word`);
  }

  /** Holds that a word has another colour than plain text. */
  async coloured(word) {
    const classes = () => this.page.$$eval(
      '.monaco-editor .view-line span[class^="mtk"]',
      (spans, wanted) => spans.filter(span => span.textContent.trim() === wanted).map(span => span.className),
      word,
    );
    await this.wait(`a colour of \`${word}\``, async () => {
      const found = await classes();
      return found.length > 0 && found.every(name => name.split(' ')[0] !== 'mtk1');
    });
    console.log(`holds: \`${word}\` is a word with a colour of its own`);
  }

  /** Hovers by keys, and gives what is told. */
  hover(wanted) {
    const box = this.page.locator('.monaco-hover:visible .monaco-hover-content');
    return this.until(`a hover with ${wanted}`, async () => {
      await this.keys.press('Escape');
      await this.keys.press('Control+k');
      await this.keys.press('Control+i');
    }, async () => {
      const told = (await box.count()) > 0 ? await box.first().innerText() : '';
      return told.includes(wanted) && told;
    });
  }

  /** Asks for words at the cursor until one is offered that begins as wanted. */
  words(wanted) {
    const list = '.suggest-widget.visible .monaco-list-row';
    return this.until(`words like ${wanted}`, async () => {
      // Asked for while the list is there, its details would open instead.
      if (!(await this.seen(list))) await this.keys.press('Control+Space');
    }, async () => (await this.labels(list)).some(label => label.startsWith(wanted)));
  }

  /** Takes a mend of what is under the cursor from the list, until `done`. */
  mend(title, done, picture) {
    const row = this.page.locator('.action-widget .monaco-list-row', { hasText: title }).first();
    // The list closes by itself when findings come in while it opens.
    return this.until(`a mend that says ${title}`, async () => {
      if (await done()) return;
      await this.keys.press('Escape');
      await this.keys.press('Control+.');
      try {
        await row.waitFor({ state: 'visible', timeout: PATIENCE });
        if (picture) await this.picture(picture);
        await row.click({ timeout: PATIENCE });
      } catch (error) {
        if (error.name !== 'TimeoutError') throw error;
      }
    }, done);
  }

  /** Gives what is under the cursor another name. */
  async rename(old, fresh, picture) {
    const box = this.page.locator('.rename-box input');
    await this.until(`a box to rename ${old} in`, async () => {
      await this.keys.press('Escape');
      await this.keys.press('F2');
    }, async () => (await box.isVisible()) && (await box.inputValue()) === old);
    await box.fill(fresh);
    if (picture) await this.picture(picture);
    await box.press('Enter');
    await this.page.waitForSelector('.rename-box', { state: 'hidden', timeout: LONGEST });
  }

  /** Holds what stands in a line of a file, which VS Code saves of itself. */
  async lineIs(what, name, line, wanted) {
    try {
      await this.wait(what, () => this.onDisk(name, line) === wanted);
    } catch {
      hold(what, false, this.onDisk(name, line));
    }
    console.log(`holds: ${what}`);
  }
}

module.exports = { Person, hold, LONGEST };
