// An evening with VS Code in Chromium: two pages are opened, read, mended, renamed in and laid out, and what is shown must
// be right.
//
//   node story.cjs CHROMIUM PORT WATER OUT

const { chromium } = require('playwright-core');
const { Person, hold, LONGEST } = require('./person.cjs');

const [executablePath, port, water, out] = process.argv.slice(2);

async function told(person, line, column) {
  await person.go(line, column);
  const text = await person.hover('mm');
  hold('hover tells of the size under the cursor', text.includes('0.127 mm'), text);
}

/** Tries a half-written key on a new line, and takes that away again. */
async function completes(person, name, line, picture) {
  const below = person.onDisk(name, line + 1);
  await person.go(line, 100);
  await person.keys.press('Enter');
  await person.keys.type('tip');
  await person.wait('a new line', () => person.onDisk(name, line + 1) === '  tip');
  await person.words('tippet');
  console.log('holds: completion knows `tippet`');
  await person.picture(picture);
  await person.keys.press('Escape');
  await person.go(line + 1, 1);
  await person.until('the line to go', async () => {
    if (person.onDisk(name, line + 1) === '  tip') await person.keys.press('Control+Shift+k');
  }, () => person.onDisk(name, line + 1) === below);
}

async function laidOut(person, name, line) {
  const wanted = '  point   bracken';
  await person.until('the layout', () => person.choose('Format Document'), () => person.onDisk(name, line) === wanted);
  console.log(`holds: ${name} is laid out`);
}

async function mended(person, name, [line, column], title, wanted, picture) {
  await person.go(line, column);
  await person.mend(title, () => person.onDisk(name, line) === wanted, picture);
  console.log(`holds: line ${line} of ${name} is mended`);
}

/** What stands beside the lines: the size in millimetres, and above the rig its total. */
async function noted(person) {
  await person.wait('a size in millimetres', async () => (await person.texts('.monaco-editor .view-line')).some(line => line.includes('0.127 mm')));
  await person.wait('the total of a rig', async () => (await person.texts('.codelens-decoration')).some(lens => lens.includes('52 in')));
  console.log('holds: sizes and totals stand beside the lines');
}

async function notebook(person) {
  await person.open('beck.rig');
  await person.listProblems();
  // Characters as VS Code counts them: an emoji is two.
  await person.shown([[11, 22], [26, 21]]);
  console.log('holds: problems stand behind an emoji where they should');
  await noted(person);
  await person.picture('notebook');
  await person.underlined('lenght');
  await person.coloured('tippet');
  await told(person, 20, 21);
  await person.picture('hover');
  await completes(person, 'beck.rig', 23, 'completion');
  await laidOut(person, 'beck.rig', 23);
  await mended(person, 'beck.rig', [11, 24], 'length', '  say     "🎣🐟 {gap.length} is too close"', 'mends');
  await mended(person, 'beck.rig', [26, 22], '6X', '  tippet  40 in  of 6X fluoro');
  await person.wait('the problems to go', async () => (await person.problems()).every(([line]) => line !== 11 && line !== 26));
  console.log('holds: problems go once they are mended');
}

async function renamed(person) {
  await person.go(21, 25);
  await person.rename('slate', 'pewter', 'rename');
  await person.lineIs('the rig takes the fly by its new name', 'beck.rig', 21, '  dropper 6 in   with pewter');
  await person.lineIs('the fly in the other file has it', 'flies.rig', 3, 'fly pewter "slate spider"');
  await person.lineIs('a rig on a page has it', 'article.md', 28, '  dropper 6 in   with pewter');
  await person.wait('no trouble with the new name', async () => (await person.problems()).every(([line]) => line !== 21 && line !== 27));
  await person.picture('mended');
}

async function article(person) {
  await person.open('article.md');
  await person.shown([[14, 22], [33, 21]]);
  console.log('holds: problems of a page stand behind an emoji where they should');
  // The fences of a page are coloured by the injected grammar alone: see the settings in run.sh.
  await person.coloured('say');
  await person.picture('page');
  await person.underlined('lenght');
  await told(person, 27, 21);
  await noted(person);
  await person.picture('page-hover');
  await completes(person, 'article.md', 30, 'page-completion');
  await laidOut(person, 'article.md', 30);
  await mended(person, 'article.md', [14, 24], 'length', '  say     "🎣🐟 {gap.length} is too close"');
  await mended(person, 'article.md', [33, 22], '6X', '  tippet  40 in  of 6X fluoro');
}

async function days(person) {
  await person.open('days.rig');
  for (const word of ['outing', 'caught', '2026-05-14']) await person.coloured(word);
  await person.picture('days');
}

/** The page of the preview, which stands in frames of its own. */
function previewed(person) {
  return person.wait('the preview', async () => {
    for (const frame of person.page.frames()) {
      if (await frame.locator('#picture svg').count().catch(() => 0)) return frame;
    }
    return undefined;
  });
}

/** What is drawn follows the keys; a slider writes into the text, and one undo takes it back. */
async function preview(person) {
  await person.open('beck.rig');
  const line = 20;
  await person.go(line, 1);
  const before = person.onDisk('beck.rig', line);
  await person.choose('Rigs: Show the Rig Beside');
  const frame = await previewed(person);
  await frame.locator('#verdict p').first().waitFor({ timeout: LONGEST });
  await person.picture('preview');

  await person.go(line, before.indexOf(' in') + 1);
  await frame.evaluate(() => {
    window.drawn = [];
    new MutationObserver(() => window.drawn.push(performance.timeOrigin + performance.now()))
      .observe(document.getElementById('picture'), { childList: true });
  });
  await person.page.evaluate(() => addEventListener('keydown', () => { window.pressed = performance.timeOrigin + performance.now(); }, true));
  const longer = before.replace(' in', '5 in');
  // What the editor shows tells whether a key came in; the file follows later.
  const shows = async text => (await person.texts('.monaco-editor .view-line')).some(one => one.includes(text.split(' in')[0].trim() + ' in'));
  await person.until('the picture to follow the key', async () => {
    if (await shows(before)) await person.keys.press('5');
  }, async () => (await frame.locator('#picture svg').textContent()).includes(longer.trim().split(/\s+/)[1]));
  const pressed = await person.page.evaluate(() => window.pressed);
  const took = (await frame.evaluate(() => window.drawn)).find(when => when > pressed) - pressed;
  console.log(`holds: the preview follows a key, here after ${took.toFixed(0)} ms`);
  // The picture may follow before the editor draws the line: until the key is in the file, nothing tells that it is gone.
  await person.lineIs('the key is in the file', 'beck.rig', line, longer);
  await person.until('the key to be taken back', async () => {
    if (await shows(longer)) await person.keys.press('Backspace');
  }, async () => (await shows(before)) && person.onDisk('beck.rig', line) === before);

  const slider = frame.locator('#sliders input').nth(await frame.evaluate(() =>
    [...document.querySelectorAll('#sliders label')].findIndex(label => label.dataset.name.includes('upper'))));
  const slid = await person.until('the slider to write', async () => {
    if (await shows(before)) await slider.press('ArrowRight');
  }, () => {
    // While the file is written, it has no such line.
    const now = person.onDisk('beck.rig', line);
    return now !== before && now;
  });
  console.log(`holds: a slider writes \`${slid.trim()}\` into the text`);
  await person.go(line, 1);
  await person.until('undo to take it back', async () => {
    if (await shows(slid)) await person.keys.press('Control+z');
  }, () => person.onDisk('beck.rig', line) === before);
  console.log('holds: undo takes it back');
}

async function main() {
  const browser = await chromium.launch({
    executablePath,
    // A container has little shared memory, and the sandbox is not to be had there.
    args: ['--no-sandbox', '--disable-dev-shm-usage', '--disable-gpu', '--disable-quic', '--no-first-run',
      '--disable-background-networking', '--disable-component-update', '--disable-sync'],
    timeout: LONGEST,
  });
  let person;
  try {
    const context = await browser.newContext({ viewport: { width: 1400, height: 900 } });
    const page = await context.newPage();
    person = new Person(page, water, out);
    await page.goto(`http://127.0.0.1:${port}/?folder=${encodeURIComponent(water)}`, { timeout: LONGEST });
    await page.waitForSelector('.monaco-workbench', { timeout: LONGEST });
    await notebook(person);
    await renamed(person);
    await article(person);
    await days(person);
    await preview(person);
  } catch (error) {
    if (person) await person.picture('failed').catch(() => {});
    throw error;
  } finally {
    await browser.close();
  }
}

main().catch(error => {
  console.error(`vscode: ${error.message}`);
  process.exit(1);
});
