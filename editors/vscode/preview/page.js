// What stands in the preview: a picture, a verdict and sliders. It draws what it is sent, and sends what is slid.
import { picture } from '../../../crates/snell-web/page/src/picture.js';
import css from './page.css';

const host = acquireVsCodeApi();
const [undrawn, drawn, verdict, box] = ['undrawn', 'picture', 'verdict', 'sliders'].map(id => document.getElementById(id));
const sheet = new CSSStyleSheet();
sheet.replaceSync(css);
const colours = new CSSStyleSheet();
document.adoptedStyleSheets = [sheet, colours];

/** What the picture and the verdict are of. */
let shown;
let judged;
let held;

function element(name, properties = {}, ...children) {
  const made = Object.assign(document.createElement(name), properties);
  made.append(...children);
  return made;
}

/** While a line is half written the picture before it stays, dimmed, under the reason why it is not drawn anew. */
function draw({ name, picture: svg, undrawn: why }) {
  const made = svg && picture(svg);
  undrawn.textContent = made ? '' : why ?? '';
  drawn.classList.toggle('old', !made);
  if (!made) return drawn.dataset.name === name ? undefined : drawn.replaceChildren();
  drawn.dataset.name = name;
  colours.replaceSync(made.style);
  drawn.replaceChildren(made.node);
}

/** A verdict that is not of the picture is dimmed. */
function dim() {
  verdict.classList.toggle('old', judged !== shown);
  verdict.setAttribute('aria-busy', String(judged !== shown));
}

function row({ name }) {
  const input = element('input', { type: 'range' });
  input.addEventListener('input', () => {
    held = name;
    host.postMessage({ slide: { name, value: Number(input.value) } });
  });
  for (const end of ['change', 'blur']) {
    input.addEventListener(end, () => {
      held = undefined;
      host.postMessage({ released: true });
    });
  }
  const label = element('label', {}, element('span', { textContent: name }), input, element('output'));
  label.dataset.name = name;
  return label;
}

function slides(sliders) {
  const same = box.children.length === sliders.length && sliders.every(({ name }, index) => box.children[index].dataset.name === name);
  if (!same) box.replaceChildren(...sliders.map(row));
  sliders.forEach(({ name, least, most, step, value, unit }, index) => {
    const input = box.children[index].querySelector('input');
    if (held !== name) Object.assign(input, { min: least, max: most, step, value });
    const told = `${+value.toFixed(3)} ${unit}`;
    input.setAttribute('aria-valuetext', told);
    box.children[index].querySelector('output').textContent = told;
  });
}

addEventListener('message', ({ data: { look, verdict: lines, of } }) => {
  if (look) {
    shown = of;
    draw(look);
    slides(look.sliders);
  }
  if (lines) {
    judged = of;
    verdict.replaceChildren(...lines.map(line => element('p', { textContent: line })));
  }
  dim();
});

// What was sent before this script was there is lost, which happens where it comes in late.
host.postMessage({ ready: true });
