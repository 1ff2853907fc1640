// The page for the bank: the last notebook is there again, and cards, drifts and fits are worked out on the phone.
import { slow } from './rig-card.js';

const KEPT = 'snell-notebook';
/** What is tapped for the water; common practice, no source: waters that are waded. */
const WATERS = {
  imperial: { depths: ['1 ft', '2 ft', '3 ft', '4 ft', '5 ft'], speeds: ['1 ft/s', '2 ft/s', '3 ft/s', '4 ft/s'] },
  metric: { depths: ['30 cm', '60 cm', '90 cm', '120 cm', '150 cm'], speeds: ['0.3 m/s', '0.6 m/s', '0.9 m/s', '1.2 m/s'] },
};

const part = (id) => document.getElementById(id);
const said = part('said');
const card = document.querySelector('rig-card');
/** The fit that was told last: what it is for, and the rig that comes of it. */
let fitted;
let waters;

const kept = localStorage.getItem(KEPT);
if (kept !== null) card.text = kept;
card.addEventListener('rig-change', ({ detail }) => {
  localStorage.setItem(KEPT, detail.text);
  forget();
});
card.addEventListener('rig-look', offer);

part('file').addEventListener('change', async ({ target }) => {
  const [file] = target.files;
  if (file) card.text = await file.text();
});

function element(name, properties = {}, ...children) {
  const made = Object.assign(document.createElement(name), properties);
  made.append(...children);
  return made;
}

/** What was fitted is of an earlier text. */
function forget() {
  fitted = undefined;
  part('ways').replaceChildren();
  for (const tapped of document.querySelectorAll('fieldset :checked')) tapped.checked = false;
}

/** Waters in the units that the rig is written in. */
function offer() {
  const system = /\d\s*(?:cm|m|m\/s)\b/.test(card.text) && !/\d\s*(?:in|ft|ft\/s)\b/.test(card.text) ? 'metric' : 'imperial';
  if (waters === system) return;
  waters = system;
  for (const what of ['depths', 'speeds']) {
    const field = part(what);
    field.replaceChildren(field.firstElementChild, ...WATERS[system][what].map((value) => {
      const input = element('input', { type: 'radio', name: what, value });
      input.addEventListener('change', fit);
      return element('label', {}, input, ` ${value}`);
    }));
  }
}

/** Asks of the rig that is shown, by the worker for long questions. */
async function ask(what, ...more) {
  const rig = card.look?.rig;
  if (!rig) {
    said.textContent = 'There is no rig to work out.';
    return undefined;
  }
  said.textContent = 'Working …';
  try {
    const { told } = await card.ask(slow, what, rig, ...more);
    if (told !== undefined) said.textContent = '';
    return told;
  } catch (error) {
    said.textContent = `Not worked out: ${error.message}.`;
    return undefined;
  }
}

/** Two taps, a depth and a speed, and the fewest changes are told. */
async function fit() {
  const [depth, speed] = ['depths', 'speeds'].map((name) => document.querySelector(`input[name=${name}]:checked`)?.value);
  if (!depth || !speed) return;
  const text = card.text;
  const told = await ask('fit', depth, speed);
  if (told === undefined || text !== card.text) return;
  const [shown] = JSON.parse(told).rigs;
  if (!shown) return;
  fitted = shown.ways[0]?.addition ?? shown.addition;
  part('ways').replaceChildren(...shown.answer.map((line) => element('p', { textContent: line })));
  if (!fitted) return;
  const { name, lines } = fitted;
  const button = element('button', { type: 'button', textContent: 'Keep it as a rig' });
  button.addEventListener('click', () => {
    card.setAttribute('rig', name);
    card.text = `${card.text.trimEnd()}\n\n${lines}`;
  });
  part('ways').append(element('pre', { textContent: lines }), button);
}

function show(what, ...more) {
  return async () => {
    const told = await ask(what, ...more);
    if (told === undefined) return;
    const image = element('img', { alt: `${what} of ${card.look.rig}` });
    image.src = `data:image/svg+xml,${encodeURIComponent(told)}`;
    part('drawn').replaceChildren(image);
  };
}

/** An outing of today with the rig as it is fished, to be pasted into a log. */
async function entry() {
  const rig = fitted?.name ?? card.look?.rig;
  if (!rig) {
    said.textContent = 'There is no rig to fish.';
    return;
  }
  const now = new Date();
  const day = [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, '0')).join('-');
  const lines = `${fitted ? `${fitted.lines.trimEnd()}\n\n` : ''}outing on-${day}\n  day     ${day}\n  rig     ${rig}\n`;
  Object.assign(part('log'), { textContent: lines, hidden: false });
  try {
    await navigator.clipboard.writeText(lines);
    said.textContent = 'Copied.';
  } catch {
    said.textContent = 'Copy it from below.';
  }
}

part('card').addEventListener('click', show('card'));
part('water').addEventListener('click', show('draw', true));
part('entry').addEventListener('click', entry);

if ('serviceWorker' in navigator) navigator.serviceWorker.register('service-worker.js');
