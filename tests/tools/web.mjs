// What the module tells of every example, held against the program: pictures and words to the letter, numbers to 1e-9.
//
//   node web.mjs SNELL PAGE
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

const [snell, page] = process.argv.slice(2).map((one) => path.resolve(one));
// Node loads what it fetches with when it is first named; a browser has it.
assert.ok(Request && Response);
const [begun, opened] = [process.cpuUsage(), performance.now()];
async function module(folder) {
  const { default: init, Rigs } = await import(pathToFileURL(path.join(folder, 'snell.js')));
  await init({ module_or_path: readFileSync(path.join(folder, 'snell_bg.wasm')) });
  return Rigs;
}
const Element = await module(page);

const folder = path.resolve('examples');
const files = readdirSync(folder).filter((name) => name.endsWith('.rig') || name.endsWith('.md')).sort();
function filled(Rigs) {
  const rigs = new Rigs();
  for (const name of files) rigs.put(name, readFileSync(path.join(folder, name), 'utf8'));
  return rigs;
}
const element = filled(Element);
const cpu = ({ user, system }) => (user + system) / 1000;
element.look('harrow.rig', undefined, 0, 1e6);
console.log(`the first answer: ${(performance.now() - opened).toFixed(0)} ms, and ${cpu(process.cpuUsage(begun)).toFixed(0)} of CPU with what is compiled behind it`);
const Bank = await module(path.join(page, 'bank'));
const bank = filled(Bank);

function program(...words) {
  try {
    return execFileSync(snell, words, { cwd: folder, encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });
  } catch (error) {
    // With findings it ends with 1, and tells all the same.
    assert.ok(error.status === 1, `snell ${words.join(' ')} ends with ${error.status}`);
    return error.stdout;
  }
}

/** Equal, but for what the last digits of a machine's numbers may be. */
function same(one, other, where) {
  if (typeof one === 'number' && typeof other === 'number') {
    const off = Math.abs(one - other);
    assert.ok(off <= 1e-9 * Math.max(1, Math.abs(other)), `${where}: ${one} and ${other}`);
  } else if (one && other && typeof one === 'object') {
    assert.deepEqual(Object.keys(one), Object.keys(other), where);
    for (const key of Object.keys(one)) same(one[key], other[key], `${where}.${key}`);
  } else {
    assert.equal(one, other, where);
  }
}

const work = mkdtempSync(path.join(tmpdir(), 'web-'));
let pictures = 0;
let drifts = 0;
let cards = 0;
for (const file of files) {
  const found = JSON.parse(bank.check(file));
  same(found, JSON.parse(program('check', '--form', 'json', file)), `check ${file}`);
  const { rigs: own } = JSON.parse(element.look(file, undefined, 0, 1e9));
  const shown = JSON.parse(bank.show(file));
  if (shown.rigs.length === 0) continue;
  same(shown, JSON.parse(program('show', '--form', 'json', file)), `show ${file}`);
  assert.deepEqual(own.map(({ name }) => name), shown.rigs.map(({ name }) => name));
  for (const { name, verdict } of shown.rigs) {
    const said = JSON.parse(element.judge(file, name, 0, 1e9));
    assert.deepEqual(said.verdict, verdict.answer, `the verdict on ${name} of ${file}`);
    for (const inWater of [false, true]) {
      let picture;
      try {
        picture = bank.draw(file, name, inWater);
      } catch {
        continue;
      }
      if (!inWater) assert.equal(JSON.parse(element.look(file, name, 0, 1e9)).picture, picture, `${name} of ${file} as the element draws it`);
      const out = path.join(work, 'rig.svg');
      program('draw', ...(inWater ? ['--in-water'] : []), `${file}:${name}`, '-o', out);
      assert.equal(picture, readFileSync(out, 'utf8'), `the picture of ${name} of ${file}`);
      pictures += 1;
    }
    const drift = JSON.parse(bank.drift(file, name));
    same(drift, JSON.parse(program('drift', '--form', 'json', `${file}:${name}`)), `drift ${file}:${name}`);
    drifts += 1;
  }
}
// A fit to another water says what the program says.
const fit = JSON.parse(bank.fit('harrow.rig', 'harrow-low', '4 ft', '2 ft/s'));
same(fit, JSON.parse(program('fit', '--form', 'json', 'harrow.rig:harrow-low', '--depth', '4 ft', '--speed', '2 ft/s')), 'the fit of harrow-low');
// A card is the longest of all questions: one is enough.
const card = bank.card('harrow.rig', 'harrow-low');
const out = path.join(work, 'card.svg');
program('card', 'harrow.rig:harrow-low', '-o', out);
assert.equal(card, readFileSync(out, 'utf8'), 'the card of harrow-low');
cards += 1;
rmSync(work, { recursive: true });
assert.ok(pictures > 3 && drifts > 3);
console.log(`holds: ${files.length} files, ${pictures} pictures, ${drifts} drifts and ${cards} card are the program's own`);

// A key, then what a card shows at once, what it says a little later, and what a button asks for.
const text = readFileSync(path.join(folder, 'harrow.rig'), 'utf8');
const [looks, verdicts, waters, slow] = [[], [], [], []];
const judging = filled(Element);
function timed(all, ask) {
  const from = performance.now();
  ask();
  all.push(performance.now() - from);
}
for (let key = 0; key < 60; key += 1) {
  const typed = text.replace('tippet  32 in', `tippet  ${33 + key} in`);
  element.put('harrow.rig', typed);
  bank.put('harrow.rig', typed);
  timed(looks, () => element.look('harrow.rig', 'harrow-low', 0, text.length));
  timed(verdicts, () => {
    judging.put('harrow.rig', typed);
    judging.judge('harrow.rig', 'harrow-low', 0, text.length);
  });
  timed(waters, () => bank.draw('harrow.rig', 'harrow-low', true));
  timed(slow, () => bank.drift('harrow.rig', 'harrow-low'));
}
const share = (all, part) => [...all].sort((one, other) => one - other)[Math.min(all.length - 1, Math.floor(all.length * part))];
const told = (all) => `half within ${share(all, 0.5).toFixed(1)} ms, 95 of 100 within ${share(all, 0.95).toFixed(1)} ms`;
console.log(`a key to the picture and the findings: ${told(looks)}`);
console.log(`a key to the verdict, in a worker of its own: ${told(verdicts)}`);
console.log(`a drift in its water, as the page for the bank asks for it: ${told(waters)}`);
console.log(`all that is told of a drift: ${told(slow)}`);
