// The element and its two pages in a browser without a screen: equal to the program, clean for axe, whole in print, by
// keyboard alone, on a narrow screen, under a strict policy, with hostile rigs, without a network, and when a module dies.
//
//   node web-pages.mjs MODULES SNELL PAGE PANDOC chromium|firefox PROGRAM [SHOTS]
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import http from 'node:http';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

const [modules, snell, page, pandoc, kind, program, shots] = process.argv.slice(2).map((one, index) => (index === 4 ? one : path.resolve(one)));
const { chromium, firefox } = createRequire(path.join(modules, 'node_modules', 'x'))('playwright-core');
const axe = readFileSync(path.join(modules, 'node_modules', 'axe-core', 'axe.min.js'), 'utf8');
const work = mkdtempSync(path.join(tmpdir(), 'web-pages-'));
const served = path.join(work, 'served');
cpSync(page, served, { recursive: true });

const RIG = `water tail "tail of the long pool"
  depth   2 ft to 3 ft
  surface 2.2 ft/s
  bed     cobble

rig low "Harrow Beck, low and clear"
  method  tight-line
  water   tail
  butt    60 in  of 0.28 mm nylon
  tippet  32 in  of 6X fluoro as upper
  dropper 8 in   with #16 2 mm tungsten
  tippet  20 in  of 6X fluoro
  point   #14 2.8 mm tungsten`;
const escaped = (text) => text.replace(/[&<>]/g, (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;' })[sign]);
const article = (...rigs) => `<!doctype html><html lang="en"><meta charset="utf-8"><title>Two evenings</title>
<meta name="viewport" content="width=device-width, initial-scale=1"><meta name="color-scheme" content="light dark">
<main><h1>Two evenings</h1>${rigs.map((rig) => `<rig-card><pre><code class="language-rig">${escaped(rig)}
</code></pre></rig-card>`).join('\n')}</main><script type="module" src="rig-card.js"></script></html>`;
writeFileSync(path.join(served, 'one.html'), article(RIG));
writeFileSync(path.join(served, 'two.html'), article(RIG, 'rig high from low\n  change upper to 44 in'));
const hostile = `rig evil "<img src=x onerror=window.hurt=1>"
  note "</style></svg><script>window.hurt=1</script>"
  tippet 20 in of 6X fluoro as x
  point #14 2.8 mm tungsten
rig javascript:alert(1) "\${'x'}"
  sighter <b onclick=1> \`\`\` ~~~`;
writeFileSync(path.join(served, 'hostile.html'), article(hostile));
writeFileSync(path.join(served, 'book.html'), `<!doctype html><html lang="en"><meta charset="utf-8"><title>A book</title><main>
<pre><code class="language-rig">${escaped(RIG)}\n</code></pre><pre class="rig"><code>rig high from low
  change upper to 44 in</code></pre><pre><code class="language-rig bad">rig wrong\n  tippet 3</code></pre></main>
<script type="module" src="live.js"></script></html>`);
// A chapter of a book that uses other files, as `snell mdbook` hands it on.
const chapter = `# The beck

<!-- rig: use "../notebook/flies.rig" -->

\`\`\`rig
use "../notebook/more.rig"

rig low
  tippet  32 in of 6X fluoro
  dropper 8 in with shale
  tippet  20 in of 6X fluoro
  point   slate
\`\`\`
`;
const book = path.join(work, 'book');
for (const [name, text] of [['.git/HEAD', ''], ['src/beck.md', chapter], ['notebook/flies.rig', 'fly slate "slate </script><!--"\n  hook #14\n  bead 2.8 mm tungsten\n'],
  ['notebook/more.rig', 'fly shale "shale"\n  hook #16\n  bead 2 mm tungsten\n']]) {
  mkdirSync(path.dirname(path.join(book, name)), { recursive: true });
  writeFileSync(path.join(book, name), text);
}
const handed = JSON.stringify([{ root: book, renderer: 'html', config: { book: { src: 'src' }, preprocessor: { snell: { live: '.' } } } },
  { items: [{ Chapter: { name: 'The beck', content: chapter, path: 'beck.md', source_path: 'beck.md', sub_items: [] } }] }]);
const [{ Chapter: { content: filled } }] = JSON.parse(execFileSync(snell, ['mdbook'], { input: handed, encoding: 'utf8' })).items;
writeFileSync(path.join(work, 'beck.md'), filled);
execFileSync(pandoc, ['-f', 'commonmark', '-s', '--metadata', 'title=The beck', path.join(work, 'beck.md'), '-o', path.join(served, 'beck.html')]);
// An article that pandoc converts, its markers filled on the way.
writeFileSync(path.join(work, 'evening.md'), `# An evening

The tippet is <!-- rig: tippet of low --><!-- rig: end --> long.

\`\`\`rig
${RIG}
\`\`\`
`);
const converted = execFileSync(pandoc, ['-f', 'gfm', '-t', 'json', path.join(work, 'evening.md')]);
const withFigures = execFileSync(snell, ['pandoc'], { input: converted });
execFileSync(pandoc, ['-f', 'json', '-s', '--metadata', 'title=An evening', '--metadata', 'lang=en',
  '--variable', 'header-includes=<script type="module" src="live.js"></script>', '-o', path.join(served, 'evening.html')], { input: withFigures });

const STRICT = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; connect-src 'self'; worker-src 'self'; img-src 'self' data:";
const FORBIDS = STRICT.replace(" 'wasm-unsafe-eval'", '');
const SCRIPTLESS = FORBIDS.replace("script-src 'self'", "script-src 'none'");
const TYPES = { '.js': 'text/javascript', '.wasm': 'application/wasm', '.html': 'text/html', '.css': 'text/css' };
let policy = STRICT;
const asked = [];
const server = http.createServer((request, response) => {
  const name = new URL(request.url, 'http://x').pathname.replace(/\/$/, '/index.html');
  asked.push(name);
  const file = path.join(served, name);
  if (!file.startsWith(served) || !existsSync(file)) return response.writeHead(404).end();
  response.writeHead(200, { 'content-type': TYPES[path.extname(file)] ?? 'text/plain', 'cache-control': 'no-store',
    'content-security-policy': policy });
  response.end(readFileSync(file));
});
await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
const top = `http://127.0.0.1:${server.address().port}`;

const browser = kind === 'firefox'
  ? await firefox.launch({ executablePath: program, channel: 'moz-firefox' })
  : await chromium.launch({ executablePath: program, args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'] });
const outside = [];
async function open(name, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1000, height: 900 }, bypassCSP: false, ...options });
  await context.addInitScript(() => {
    const Own = window.Worker;
    window.workers = [];
    window.Worker = class extends Own { constructor(...how) { super(...how); window.workers.push(this); } };
  });
  const tab = await context.newPage();
  tab.wrong = [];
  tab.on('pageerror', (error) => tab.wrong.push(error.message));
  tab.on('request', (request) => {
    if (!/^(http:\/\/127\.0\.0\.1|data:|blob:|file:)/.test(request.url())) outside.push(request.url());
  });
  await tab.goto(name.includes(':') ? name : `${top}/${name}`);
  return tab;
}
const live = (tab, index = 0) => tab.waitForFunction((index) =>
  document.querySelectorAll('rig-card')[index]?.shadowRoot.querySelector('svg'), index, { timeout: 30000 });
const judged = (tab, index = 0) => tab.waitForFunction((index) =>
  document.querySelectorAll('rig-card')[index]?.verdict, index, { timeout: 30000 });
const card = (tab, ask, ...more) => tab.evaluate(([ask, more]) =>
  new Function('card', 'more', `return ${ask}`)(document.querySelector('rig-card'), more), [ask, more]);
async function shoot(tab, name) {
  if (!shots) return;
  mkdirSync(shots, { recursive: true });
  await tab.screenshot({ path: path.join(shots, `${name}.png`), fullPage: true });
}

let failed = 0;
async function holds(what, test) {
  try {
    const unseen = await test();
    console.log(unseen ? `not seen in ${kind}: ${what}: ${unseen}` : `holds: ${what}`);
  } catch (error) {
    failed += 1;
    console.log(`FAILS: ${what}\n${String(error.stack ?? error).slice(0, 1500)}`);
  }
}

/** Without what a page may do to a picture: where its styles stand, and in which order a browser writes. */
const bones = (svg) => [...svg.matchAll(/<text[^>]* x="([\d.-]+)" y="([\d.-]+)"|<(?:title|desc)[^>]*>([^<]*)|points="([^"]*)"|<tspan[^>]*>([^<]*)/g)]
  .map((found) => found.slice(1).filter((one) => one !== undefined).join(' '));

await holds('the element shows what the program draws and says, under a strict policy', async () => {
  const tab = await open('one.html');
  await live(tab);
  const file = path.join(work, 'page.rig');
  writeFileSync(file, RIG);
  execFileSync(snell, ['draw', `${file}:low`, '-o', path.join(work, 'low.svg')]);
  const drawn = await card(tab, "card.shadowRoot.querySelector('svg').outerHTML");
  const own = bones(readFileSync(path.join(work, 'low.svg'), 'utf8'));
  assert.ok(own.length > 20);
  assert.deepEqual(bones(drawn), own);
  const shown = JSON.parse(execFileSync(snell, ['show', '--form', 'json', file], { encoding: 'utf8' }));
  await judged(tab);
  const said = await card(tab, "[...card.shadowRoot.querySelectorAll('.verdict')].map((one) => one.textContent)");
  assert.deepEqual(said, shown.rigs[0].verdict.answer);
  assert.deepEqual(tab.wrong, []);
  await shoot(tab, 'light');
});

await holds('the module is not needed for what stands in the page', async () => {
  policy = FORBIDS;
  const tab = await open('one.html');
  policy = STRICT;
  await tab.waitForTimeout(800);
  await tab.locator('code.language-rig').waitFor({ timeout: 15000 });
  // A policy keeps scripts out of every browser; that it is to run none is an order which a new Firefox ignores.
  policy = SCRIPTLESS;
  const plain = await open('one.html');
  policy = STRICT;
  await plain.waitForTimeout(800);
  assert.equal(await plain.evaluate(() => customElements.get('rig-card') === undefined), true);
  await plain.locator('code.language-rig').waitFor({ timeout: 15000 });
});

await holds('a slider changes the text, the picture follows, and the verdict after it', async () => {
  const tab = await open('one.html');
  await live(tab);
  const slider = tab.locator('label.slider', { hasText: 'upper' }).locator('input');
  await slider.focus();
  await tab.keyboard.press('ArrowRight');
  await tab.waitForFunction(() => /tippet  33 in/.test(document.querySelector('rig-card').text));
  await tab.waitForFunction(() => document.querySelector('rig-card').look.sliders.some(({ value }) => value === 33));
  assert.match(await card(tab, "card.shadowRoot.querySelector('svg').outerHTML"), /33 in/);
  await judged(tab);
  // What is seen at every look: a verdict that is not of the picture is dimmed.
  const seen = await tab.evaluate(async () => {
    const one = document.querySelector('rig-card');
    const box = one.shadowRoot.querySelector('[role=status]');
    const before = box.textContent;
    const dims = [];
    one.addEventListener('rig-look', () => dims.push([one.verdict === undefined, box.classList.contains('old')]));
    const verdict = new Promise((resolve) => one.addEventListener('rig-verdict', resolve, { once: true }));
    one.text = one.text.replace('depth   2 ft to 3 ft', 'depth   4 ft to 6 ft');
    await verdict;
    return { dims, changed: box.textContent !== before, dimmed: box.classList.contains('old') };
  });
  assert.ok(seen.dims.length > 0 && seen.dims.every(([unjudged, old]) => unjudged === old), JSON.stringify(seen));
  assert.ok(seen.changed && !seen.dimmed, JSON.stringify(seen));
});

await holds('with the keyboard alone one writes, completes and leaves the editor', async () => {
  const tab = await open('one.html');
  await live(tab);
  await tab.locator('summary').focus();
  await tab.keyboard.press('Enter');
  await tab.locator('textarea').focus();
  await tab.locator('.cm-content').waitFor({ timeout: 15000 });
  await tab.keyboard.press('Control+End');
  await tab.keyboard.type('\n  tipet 3 in');
  await tab.waitForFunction(() => document.querySelector('rig-card').look.findings.some(({ level }) => level === 'fault'));
  await tab.locator('.rig-keyword').first().waitFor();
  assert.equal(await tab.locator('svg.old').count(), 1, 'the picture stays while a line is half written');
  assert.match(await card(tab, 'card.text'), /tipet 3 in/);
  // The editor's own styles stay when the picture is drawn anew.
  assert.equal(await tab.locator('.cm-content').evaluate((node) => getComputedStyle(node).whiteSpace), 'break-spaces');
  await tab.keyboard.press('Control+z');
  await tab.keyboard.press('Tab');
  assert.notEqual(await card(tab, "card.shadowRoot.activeElement?.className ?? ''"), 'cm-content');
  assert.deepEqual(tab.wrong, []);
  // Last, since a browser's driver hides the cursor by a style that the policy refuses.
  await shoot(tab, 'editor');
});

await holds('a rig of one card is in sight of another, and follows it', async () => {
  const tab = await open('two.html');
  await live(tab, 1);
  await tab.evaluate(() => { const [one] = document.querySelectorAll('rig-card'); one.text = one.text.replace('20 in', '26 in'); });
  await tab.waitForFunction(() => /26 in/.test(document.querySelectorAll('rig-card')[1].look.picture));
});

await holds('blocks that a book or an article has are live, but for those that it calls wrong', async () => {
  const tab = await open('book.html');
  await live(tab, 1);
  assert.equal(await tab.locator('rig-card').count(), 2);
  assert.deepEqual(tab.wrong, []);
});

// What pandoc's own page puts in as a style is refused by the policy that pages are served with, which Firefox keeps here.
const ours = (tab) => tab.wrong.filter((said) => !/inline style/.test(said));

await holds('an article that pandoc converted is live, with its figures filled', async () => {
  const tab = await open('evening.html', { bypassCSP: true });
  assert.match(await tab.locator('p', { hasText: 'The tippet is' }).textContent(), /52 in\s+long/);
  await live(tab);
  await judged(tab);
  const slider = tab.locator('label.slider', { hasText: 'upper' }).locator('input');
  await slider.focus();
  await tab.keyboard.press('ArrowRight');
  await tab.waitForFunction(() => /33 in/.test(document.querySelector('rig-card').look.picture));
  assert.deepEqual(ours(tab), []);
  await shoot(tab, 'pandoc');
});

await holds('a rig takes what its chapter uses out of other files, and asks for none', async () => {
  const from = asked.length;
  const tab = await open('beck.html', { bypassCSP: true });
  await live(tab);
  await judged(tab);
  const { findings, picture } = await card(tab, 'card.look');
  assert.deepEqual(findings.filter(({ level }) => level === 'fault'), []);
  assert.match(picture, /slate/);
  assert.match(picture, /shale/);
  assert.deepEqual(asked.slice(from).filter((name) => name.endsWith('.rig')), []);
  assert.deepEqual(ours(tab), []);
  await shoot(tab, 'uses');
});

for (const [name, options] of [['light', {}], ['dark', { colorScheme: 'dark' }], ['narrow', { viewport: { width: 390, height: 844 } }]]) {
  await holds(`axe finds nothing (${name}), and nothing runs over the side`, async () => {
    const tab = await open('one.html', { ...options, bypassCSP: true });
    await live(tab);
    await judged(tab);
    if (options.colorScheme && !(await tab.evaluate(() => matchMedia('(prefers-color-scheme: dark)').matches))) return 'it cannot be told to be dark';
    await tab.locator('summary').click();
    await tab.evaluate(axe);
    const { violations } = await tab.evaluate(() => window.axe.run());
    assert.deepEqual(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html.slice(0, 160)).join(' | ')}`), []);
    assert.ok(await tab.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
    await shoot(tab, name);
  });
}

await holds('keys for units serve a narrow screen', async () => {
  const tab = await open('one.html', { viewport: { width: 390, height: 844 } });
  await live(tab);
  await tab.locator('summary').click();
  await tab.locator('textarea').evaluate((field) => { field.focus(); const at = field.value.indexOf('32 in'); field.setSelectionRange(at, at); });
  await tab.getByRole('button', { name: 'more, where' }).click();
  await tab.waitForFunction(() => /33 in/.test(document.querySelector('rig-card').text));
  assert.equal(await tab.locator('.cm-content').count(), 0);
});

await holds('print shows the picture and the verdict, and nothing to press', async () => {
  const tab = await open('one.html');
  await live(tab);
  await judged(tab);
  await tab.emulateMedia({ media: 'print' });
  if (!(await tab.evaluate(() => matchMedia('print').matches))) return 'it cannot be told to print';
  assert.ok(await tab.locator('svg').isVisible());
  assert.ok(!(await tab.locator('.sliders').isVisible()));
  await shoot(tab, 'print');
});

await holds('a hostile rig puts nothing in', async () => {
  const tab = await open('hostile.html', { bypassCSP: true });
  await tab.waitForFunction(() => document.querySelector('rig-card').look);
  await tab.waitForTimeout(300);
  assert.equal(await tab.evaluate(() => window.hurt), undefined);
  assert.equal(await card(tab, "card.shadowRoot.querySelectorAll('script, img, foreignObject, a, [onclick], [onerror]').length"), 0);
});

await holds('endless input does not hold up the page, and a module that dies is replaced within half a second', async () => {
  const tab = await open('one.html');
  await live(tab);
  const longest = await tab.evaluate(async () => {
    let longest = 0;
    new PerformanceObserver((list) => { for (const one of list.getEntries()) longest = Math.max(longest, one.duration); }).observe({ entryTypes: ['longtask'] });
    const card = document.querySelector('rig-card');
    const before = card.text;
    for (let key = 0; key < 200; key += 1) {
      card.text = `${before}\n  note "${'x'.repeat(key * 20)}"`;
      await new Promise((resolve) => setTimeout(resolve, 5));
    }
    card.text = before;
    await new Promise((resolve) => setTimeout(resolve, 500));
    return longest;
  });
  console.log(`the longest task while 200 keys came in: ${longest} ms`);
  const back = await tab.evaluate(async () => {
    const { quick } = await import('./rig-card.js');
    const card = document.querySelector('rig-card');
    window.workers[0].dispatchEvent(new ErrorEvent('error', { message: 'dead', cancelable: true }));
    const from = performance.now();
    const told = new Promise((resolve) => card.addEventListener('rig-look', resolve, { once: true }));
    card.text = `${card.text} `;
    await told;
    return { ms: performance.now() - from, replaced: quick.replaced };
  });
  assert.equal(back.replaced, 1);
  assert.equal(await tab.evaluate(() => window.workers.length), 3);
  console.log(`a dead module answers again after ${back.ms.toFixed(0)} ms`);
});

await holds('the page in one file opens from a disk, and its link holds the rig', async () => {
  const address = pathToFileURL(path.join(served, 'share.html')).href;
  const tab = await open(address);
  await live(tab);
  await tab.evaluate(() => { const card = document.querySelector('rig-card'); card.text = card.text.replace('32 in', '41 in') + '\n// é漁🎣'; });
  await tab.locator('#copy').click();
  await tab.waitForFunction(() => location.hash.startsWith('#v1='));
  const text = await card(tab, 'card.text');
  const other = await open(tab.url());
  await live(other);
  await other.waitForFunction((text) => document.querySelector('rig-card').text === text, text);
  await judged(other);
  await shoot(other, 'share');
  const later = await open(`${address}#v9=abc`);
  await later.waitForFunction(() => /later version/.test(document.getElementById('said').textContent));
});

await holds('the page for the bank works without a network, and takes a new state whole', async () => {
  policy = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; img-src 'self' data:";
  const tab = await open('offline/');
  await live(tab);
  await tab.waitForFunction(() => navigator.serviceWorker.getRegistration().then((one) => Boolean(one?.active)), undefined, { timeout: 30000 });
  await tab.context().setOffline(true);
  await tab.reload();
  await live(tab);
  await tab.getByRole('button', { name: 'In its water' }).click();
  await tab.locator('#drawn img').waitFor({ timeout: 30000 });
  // The water in front of one in two taps, and an entry for the log.
  await tab.getByLabel('3 ft', { exact: true }).check();
  await tab.getByLabel('2 ft/s', { exact: true }).check();
  await tab.locator('#ways p').first().waitFor({ timeout: 60000 });
  await tab.getByRole('button', { name: 'Entry for the log' }).click();
  const entry = await tab.locator('#log').textContent();
  assert.match(entry, /^water low-3ft-2ft-s[^]*\nrig low-3ft-2ft-s from low\n[^]*\nouting on-\d{4}-\d\d-\d\d\n/);
  const log = path.join(work, 'log.rig');
  writeFileSync(log, `${await card(tab, 'card.text')}\n\n${entry}`);
  execFileSync(snell, ['check', '--bar', 'fault', log], { stdio: 'ignore' });
  await shoot(tab, 'bank');
  await tab.getByRole('button', { name: 'Keep it as a rig' }).click();
  assert.match(await card(tab, 'card.text'), /rig low-3ft-2ft-s from low/);
  await tab.waitForFunction(() => document.querySelector('rig-card').look.rig === 'low-3ft-2ft-s');
  await tab.context().setOffline(false);
  // A new state, of which one file does not come as it was promised: the old one stays whole.
  const worker = path.join(served, 'offline/service-worker.js');
  const html = path.join(served, 'offline/index.html');
  const [code, old] = [readFileSync(worker, 'utf8'), readFileSync(html, 'utf8')];
  writeFileSync(html, old.replace('Rigs at the bank</h1>', 'Half of it</h1>'));
  writeFileSync(worker, code.replace(/const STATE = "\w+"/, 'const STATE = "broken"'));
  await tab.evaluate(async () => { await (await navigator.serviceWorker.ready).update().catch(() => {}); });
  await tab.waitForTimeout(1000);
  await tab.reload();
  assert.equal(await tab.locator('h1').textContent(), 'Rigs at the bank');
  // The same with its sum is taken at the next start.
  const sum = await import('node:crypto').then(({ createHash }) => createHash('sha256').update(readFileSync(html)).digest('base64'));
  writeFileSync(worker, code.replace(/const STATE = "\w+"/, 'const STATE = "whole"').replace(/("index.html":")[^"]*/, `$1sha256-${sum}`));
  await tab.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    await registration.update();
    const next = registration.installing ?? registration.waiting;
    if (next?.state === 'installing') await new Promise((resolve) => next.addEventListener('statechange', resolve, { once: true }));
  });
  const context = tab.context();
  await tab.close();
  const again = await context.newPage();
  await again.goto(`${top}/offline/`);
  await again.waitForTimeout(500);
  await again.reload();
  assert.equal(await again.locator('h1').textContent(), 'Half of it');
});

await holds('nothing is asked of elsewhere', async () => assert.deepEqual(outside, []));

await browser.close();
server.close();
rmSync(work, { recursive: true });
process.exit(failed ? 1 : 0);
