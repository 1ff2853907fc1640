// Drives VS Code in Chromium as a person would, and holds what is shown against what must be.
//   node vscode.cjs PORT WATER OUT

const fs = require('node:fs');
const path = require('node:path');
const { chromium } = require('playwright-core');

const [port, water, out] = process.argv.slice(2);
const LONGEST = 30_000;
let page;

function hold(what, ok, seen) {
  if (!ok) throw new Error(`${what} does not hold; seen: ${JSON.stringify(seen)}`);
  console.log(`holds: ${what}`);
}

const same = (what, seen, wanted) => hold(what, JSON.stringify(seen) === JSON.stringify(wanted), seen);

async function wait(what, test) {
  const until = Date.now() + LONGEST;
  for (;;) {
    const found = await test();
    if (found) return found;
    if (Date.now() > until) throw new Error(`waited in vain for ${what}`);
    await page.waitForTimeout(100);
  }
}

const picture = name => page.screenshot({ path: path.join(out, `${name}.png`) });

const onDisk = (name, line) => fs.readFileSync(path.join(water, name), 'utf8').split('\n')[line - 1];

/** Answers what is asked at the top: a command behind `>`, or a place behind `:`. */
async function answered(words) {
  const box = page.locator('.quick-input-widget .quick-input-box input');
  await box.waitFor({ state: 'visible', timeout: LONGEST });
  await box.fill(words);
  await page.waitForSelector('.quick-input-list .monaco-list-row', { timeout: LONGEST });
  await box.press('Enter');
  await page.waitForSelector('.quick-input-widget', { state: 'hidden', timeout: LONGEST });
}

async function chosen(command) {
  await page.keyboard.press('F1');
  await answered(`>${command}`);
}

/** Puts the cursor somewhere; columns are VS Code's own, from 1. */
async function go(line, column) {
  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+1');
  await page.keyboard.press('Control+g');
  await answered(`:${line}:${column}`);
}

async function open(name) {
  const row = `.explorer-folders-view .monaco-list-row[aria-label*="${name}"]`;
  await page.waitForSelector(row, { timeout: LONGEST });
  await page.dblclick(row);
  await page.waitForSelector(`.tab.active[data-resource-name="${name}"]`, { timeout: LONGEST });
  await page.waitForSelector('.monaco-editor .view-line', { timeout: LONGEST });
}

/** The rows of the panel of problems that tell a finding in a file. */
async function problems() {
  const labels = await page.$$eval('.markers-panel .monaco-list-row', rows => rows.map(row => row.getAttribute('aria-label') ?? ''));
  return labels.filter(label => / at line \d+ and character \d+/.test(label));
}

const at = label => label.match(/ at line (\d+) and character (\d+)/).slice(1).map(Number);

/** The problems of the file that is open, with their places. */
async function shown(places) {
  const wanted = JSON.stringify(places);
  return wait(`problems at ${wanted}`, async () => {
    const found = (await problems()).map(at);
    return places.every(place => found.some(one => JSON.stringify(one) === JSON.stringify(place))) && found;
  });
}

/** Whether what is underlined stands under a word, to the pixel. */
async function underlined(line, word) {
  const text = await page.evaluate(wanted => {
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
  const marks = await page.$$eval('.monaco-editor .squiggly-error', found =>
    found.map(mark => mark.getBoundingClientRect()).map(box => ({ left: box.left, right: box.right, top: box.top })));
  const fits = text && marks.some(mark =>
    Math.abs(mark.left - text.left) < 2 && Math.abs(mark.right - text.right) < 2 && Math.abs(mark.top - text.top) < 12);
  hold(`the line under \`${word}\` stands under the word`, fits, { text, marks });
}

async function told(line, column) {
  await go(line, column);
  await page.keyboard.press('Control+k');
  await page.keyboard.press('Control+i');
  const text = await wait('a hover', async () => {
    const found = page.locator('.monaco-hover:visible .monaco-hover-content');
    const words = (await found.count()) > 0 ? await found.first().innerText() : '';
    return words.includes('mm') && words;
  });
  hold('hover tells of the size under the cursor', text.includes('mm'), text);
}

async function completes(line) {
  await go(line, 100);
  await page.keyboard.press('Enter');
  await page.keyboard.type('tip');
  // In Markdown nothing is offered before it is asked for.
  await page.keyboard.press('Control+Space');
  const row = '.suggest-widget.visible .monaco-list-row';
  const labels = await wait('completions', async () => {
    const found = await page.$$eval(row, rows => rows.map(one => one.getAttribute('aria-label') ?? ''));
    return found.some(label => label.startsWith('tippet')) && found;
  });
  hold('completion knows `tippet`', labels.length > 0, labels);
}

/** Takes the line that completion was tried on away. */
async function forget() {
  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+Shift+k');
}

async function mend(line, column, wanted, name) {
  await go(line, column);
  const row = page.locator('.action-widget .monaco-list-row', { hasText: wanted }).first();
  // The list closes by itself when findings come in while it opens.
  await wait(`a mend that says ${wanted}`, async () => {
    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+.');
    return row.waitFor({ state: 'visible', timeout: 2000 }).then(() => true, () => false);
  });
  if (name) await picture(name);
  await row.click();
}

async function saved() {
  await page.keyboard.press('Control+k');
  await page.keyboard.press('s');
}

async function lineIs(what, name, line, wanted) {
  await saved();
  let seen;
  try {
    await wait(what, async () => (seen = onDisk(name, line)) === wanted);
  } catch {
    hold(what, false, seen);
  }
  console.log(`holds: ${what}`);
}

async function coloured(word) {
  const classes = await page.$$eval(
    '.monaco-editor .view-line span[class^="mtk"]',
    (spans, wanted) => spans.filter(span => span.textContent.trim() === wanted).map(span => span.className),
    word,
  );
  hold(`\`${word}\` is a word with a colour of its own`, classes.length > 0 && classes.every(name => name !== 'mtk1'), classes);
}

async function notebook() {
  await open('beck.rig');
  await page.keyboard.press('Control+Shift+m');
  // Characters as VS Code counts them: an emoji is two.
  await shown([[11, 22], [26, 21]]);
  console.log('holds: problems stand behind an emoji where they should');
  await picture('notebook');
  await underlined(11, 'lenght');
  await coloured('tippet');
  await told(20, 21);
  await picture('hover');
  await completes(23);
  await picture('completion');
  await forget();
  await chosen('Format Document');
  await lineIs('the file is laid out', 'beck.rig', 23, '  point   bracken');
  await mend(11, 24, 'length', 'mends');
  await lineIs('a word behind an emoji is mended', 'beck.rig', 11, '  say     "🎣🐟 {gap.length} is too close"');
  await mend(26, 22, '6X');
  await lineIs('a size is mended', 'beck.rig', 26, '  tippet  40 in  of 6X fluoro');
  await wait('the problems to go', async () => (await problems()).map(at).every(([line]) => line !== 11 && line !== 26));
  console.log('holds: problems go once they are mended');

  await go(21, 25);
  await page.keyboard.press('F2');
  const box = page.locator('.rename-box input');
  await box.waitFor({ state: 'visible', timeout: LONGEST });
  await box.fill('pewter');
  await picture('rename');
  await box.press('Enter');
  await page.waitForSelector('.rename-box', { state: 'hidden', timeout: LONGEST });
  await lineIs('the rig takes the fly by its new name', 'beck.rig', 21, '  dropper 6 in   with pewter');
  await lineIs('the fly in the other file has it', 'flies.rig', 3, 'fly pewter "slate spider"');
  await picture('mended');
}

async function article() {
  await open('article.md');
  await shown([[14, 22], [33, 21]]);
  console.log('holds: problems of a page stand behind an emoji where they should');
  // The fences of a page are coloured by the injected grammar alone: see the settings in vscode.sh.
  await coloured('say');
  await picture('page');
  await underlined(14, 'lenght');
  await told(27, 21);
  await picture('page-hover');
  await completes(30);
  await picture('page-completion');
  await forget();
  await chosen('Format Document');
  await lineIs('the fences of a page are laid out', 'article.md', 30, '  point   bracken');
  await mend(14, 24, 'length');
  await lineIs('a word of a page is mended', 'article.md', 14, '  say     "🎣🐟 {gap.length} is too close"');
  await mend(33, 22, '6X');
  await lineIs('a size in a page is mended', 'article.md', 33, '  tippet  40 in  of 6X fluoro');
}

async function main() {
  const browser = await chromium.launch({
    executablePath: '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
      '--disable-component-update', '--disable-sync'],
  });
  try {
    const context = await browser.newContext({ viewport: { width: 1400, height: 900 } });
    page = await context.newPage();
    await page.goto(`http://127.0.0.1:${port}/?folder=${encodeURIComponent(water)}`);
    await page.waitForSelector('.monaco-workbench', { timeout: 60_000 });
    await notebook();
    await article();
  } catch (error) {
    if (page) await picture('failed');
    throw error;
  } finally {
    await browser.close();
  }
}

main().catch(error => {
  console.error(`vscode: ${error.message}`);
  process.exit(1);
});
