// How quick live rigs are for a reader, on the clock of a browser's page: the first picture of a page that was never open
// here, then keys, verdicts and drifts. It tells, and holds nothing: the machine may be busy.
//
//   node web-speed.mjs MODULES PAGE chromium|firefox PROGRAM
import { createReadStream, existsSync, readFileSync } from 'node:fs';
import http from 'node:http';
import { createRequire } from 'node:module';
import path from 'node:path';

const [modules, page, kind, program] = process.argv.slice(2);
const { chromium, firefox } = createRequire(path.join(path.resolve(modules), 'node_modules', 'x'))('playwright-core');
const ROUNDS = 60;
const STARTS = 5;
const TYPES = { '.js': 'text/javascript', '.wasm': 'application/wasm', '.html': 'text/html', '.css': 'text/css' };

const harrow = readFileSync('examples/harrow.rig', 'utf8');
const escaped = harrow.replace(/[&<>]/g, (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;' })[sign]);
const article = `<!doctype html><html lang="en"><meta charset="utf-8"><title>Speed</title><script>
addEventListener('rig-look', () => { window.first ??= performance.now(); });</script>
<rig-card><pre><code class="language-rig">${escaped}</code></pre></rig-card><script type="module" src="rig-card.js"></script></html>`;
const server = http.createServer((request, response) => {
  const name = new URL(request.url, 'http://x').pathname;
  if (name === '/speed.html') return response.writeHead(200, { 'content-type': 'text/html' }).end(article);
  const file = path.join(page, name);
  if (!existsSync(file)) return response.writeHead(404).end();
  response.writeHead(200, { 'content-type': TYPES[path.extname(file)] ?? 'text/plain' });
  createReadStream(file).pipe(response);
});
await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
const top = `http://127.0.0.1:${server.address().port}`;
const browser = kind === 'firefox'
  ? await firefox.launch({ executablePath: program, channel: 'moz-firefox' })
  : await chromium.launch({ executablePath: program, args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'] });

const firsts = [];
let tab;
for (let start = 0; start < STARTS; start += 1) {
  tab = await (await browser.newContext()).newPage();
  await tab.goto(`${top}/speed.html`);
  await tab.waitForFunction(() => window.first, undefined, { timeout: 30000 });
  firsts.push(await tab.evaluate(() => window.first));
}

const { keys, verdicts } = await tab.evaluate(async (rounds) => {
  const card = document.querySelector('rig-card');
  const before = card.text;
  const told = (event) => new Promise((resolve) => card.addEventListener(event, resolve, { once: true }));
  const [keys, verdicts] = [[], []];
  for (let key = 0; key < rounds; key += 1) {
    const from = performance.now();
    const [picture, verdict] = [told('rig-look'), told('rig-verdict')];
    card.text = before.replace('tippet  32 in', `tippet  ${33 + key} in`);
    await picture;
    keys.push(performance.now() - from);
    await verdict;
    verdicts.push(performance.now() - from);
  }
  return { keys, verdicts };
}, ROUNDS);

const bank = await (await browser.newContext()).newPage();
await bank.goto(`${top}/offline/index.html`);
const { waters, drifts } = await bank.evaluate(async ([harrow, rounds]) => {
  const { slow } = await import('./rig-card.js');
  const [waters, drifts] = [[], []];
  for (let turn = 0; turn < rounds; turn += 1) {
    slow.put('harrow.rig', harrow.replace('tippet  32 in', `tippet  ${33 + turn} in`));
    for (const [all, ...asked] of [[waters, 'draw', 'harrow.rig', 'harrow-low', true], [drifts, 'drift', 'harrow.rig', 'harrow-low']]) {
      const from = performance.now();
      await slow.ask('speed', ...asked);
      all.push(performance.now() - from);
    }
  }
  // The first of them waits for its module.
  return { waters: waters.slice(1), drifts: drifts.slice(1) };
}, [harrow, ROUNDS]);
await browser.close();
server.close();

const share = (all, part) => [...all].sort((one, other) => one - other)[Math.min(all.length - 1, Math.floor(all.length * part))];
const told = (all) => `half within ${share(all, 0.5).toFixed(1)} ms, 95 of 100 within ${share(all, 0.95).toFixed(1)} ms`;
console.log(`from opening a page to its first picture, ${STARTS} times: half within ${share(firsts, 0.5).toFixed(0)} ms, all within ${Math.max(...firsts).toFixed(0)} ms`);
console.log(`a key to the picture and the findings: ${told(keys)}`);
console.log(`a key to the verdict: ${told(verdicts)}`);
console.log(`a drift in its water, as a page asks for it, in its worker: ${told(waters)}`);
console.log(`all that is told of a drift, in its worker: ${told(drifts)}`);
