// <rig-card>: wraps the block of a rig that a page already has, and makes it live.
// What stands in the page stays until the first answer is there, and for good where none comes.
import { Engine } from './engine.js';
import { PageText } from './page-text.js';
import { picture } from './picture.js';
import css from './card.css';

export { source } from './engine.js';

const page = new PageText();
/** Pictures, findings and words, at every key. */
export const quick = new Engine();
/** The verdict, which follows the picture. */
export const judging = new Engine();
/** What is asked for by a button: drifts and cards for the pocket. */
export const slow = new Engine();

const KEYS = ['#', ' X', ' in', ' ft', ' mm', ' cm', ' m', ' of ', ' with '];
/** So long nobody types before other cards of the page follow. */
const PAUSE = 300;
let cards = 0;

const sheet = new CSSStyleSheet();
sheet.replaceSync(css);

function element(name, properties = {}, ...children) {
  const made = Object.assign(document.createElement(name), properties);
  made.append(...children);
  return made;
}

export class RigCard extends HTMLElement {
  #text;
  #asker = `card ${(cards += 1)}`;
  #root = this.attachShadow({ mode: 'open' });
  /** Those of the picture; the editor brings sheets of its own beside them. */
  #colours = new CSSStyleSheet();
  #parts;
  #look;
  #judged;
  /** The rig that the picture is of. */
  #drawn;
  #pause;
  #editor;
  #held;

  constructor() {
    super();
    this.#root.append(element('slot'));
  }

  /** The rig's text. */
  get text() {
    return this.#text ?? '';
  }

  set text(text) {
    this.#text = text;
    if (this.#parts && this.#parts.field.value !== text) this.#parts.field.value = text;
    this.#editor?.set(text);
    this.#changed();
  }

  /** What was told last; `undefined` before the first answer. */
  get look() {
    return this.#look;
  }

  /** The verdict on the rig as it is shown; `undefined` until it is worked out. */
  get verdict() {
    return this.#isJudged() ? this.#judged.verdict : undefined;
  }

  connectedCallback() {
    if (this.#text === undefined) {
      const code = this.querySelector('code.language-rig, pre code, script[type="text/x-rig"], pre');
      this.#text = (code ?? this).textContent.replace(/^\n|\n$/g, '');
    }
    page.add(this);
    this.#ask();
  }

  disconnectedCallback() {
    page.remove(this);
  }

  /** Asks of this card's text as it is now. `whole` is the text of the page that the answer is of. */
  async ask(engine, what, ...args) {
    const { text: whole, starts } = page.whole();
    for (const [name, text] of page.files) engine.put(name, text);
    engine.put(page.file, whole);
    const start = starts.get(this);
    const told = await engine.ask(`${this.#asker} ${what}`, what, page.file, ...args.map((one) => (typeof one === 'function' ? one(start) : one)));
    return { told, start, whole };
  }

  #ask() {
    this.#looked();
    this.#judge();
  }

  async #looked() {
    const asked = this.text;
    await this.#told(quick, 'look', ({ told, start, whole }) => {
      if (asked !== this.text) return;
      this.#look = { ...this.#own(JSON.parse(told), start, asked.length), whole };
      this.#show();
      this.dispatchEvent(new CustomEvent('rig-look', { detail: this.#look, bubbles: true }));
    });
  }

  async #judge() {
    await this.#told(judging, 'judge', ({ told, whole }) => {
      this.#judged = { ...JSON.parse(told), whole };
      this.#say();
    });
  }

  /** Asks of the rig that is shown, and hands on what is told, unless it was asked again meanwhile. */
  async #told(engine, what, take) {
    try {
      const end = this.text.length;
      const answer = await this.ask(engine, what, this.getAttribute('rig') ?? undefined,
        (start) => start, (start) => start + end);
      if (answer.told !== undefined) take(answer);
    } catch (error) {
      if (this.#parts) this.#parts.trouble.textContent = `Not worked out: ${error.message}.`;
      this.dispatchEvent(new CustomEvent('rig-trouble', { detail: error, bubbles: true }));
    }
  }

  /** Of an answer on the whole page what lies in this card, by its own places. */
  #own(look, start, end) {
    const here = ({ from, to }) => from >= start && to <= start + end;
    const moved = (one) => ({ ...one, from: one.from - start, to: one.to - start });
    const found = (one) => ({ ...moved(one), ways: one.ways.filter((way) => way.changes.every(here))
      .map((way) => ({ ...way, changes: way.changes.map(moved) })) });
    return { ...look, rigs: look.rigs.filter(here).map(moved), sliders: look.sliders.filter(here).map(moved),
      findings: look.findings.filter(here).map(found) };
  }

  #changed() {
    this.#ask();
    clearTimeout(this.#pause);
    this.#pause = setTimeout(() => {
      for (const card of page.cards) if (card !== this) card.#ask();
    }, PAUSE);
    this.dispatchEvent(new CustomEvent('rig-change', { detail: { text: this.text }, bubbles: true }));
  }

  #build() {
    const parts = {
      picture: element('div', { className: 'picture' }),
      choose: element('label', { className: 'choose' }),
      verdict: element('div'),
      findings: element('ul'),
      sliders: element('div', { className: 'sliders' }),
      field: element('textarea', { value: this.text, rows: 8, spellcheck: false, ariaLabel: 'The rig as text' }),
      keys: element('div', { className: 'keys' }),
      trouble: element('p'),
    };
    parts.field.autocapitalize = 'off';
    parts.verdict.setAttribute('role', 'status');
    parts.findings.setAttribute('aria-label', 'Findings');
    parts.sliders.setAttribute('role', 'group');
    parts.sliders.setAttribute('aria-label', 'What to change');
    parts.keys.setAttribute('role', 'group');
    parts.keys.setAttribute('aria-label', 'Keys for units');
    parts.field.addEventListener('input', () => { this.text = parts.field.value; });
    for (const key of KEYS) parts.keys.append(this.#key(key));
    parts.keys.append(this.#nudge('−', -1), this.#nudge('+', 1));
    const text = element('details', { className: 'text', open: this.hasAttribute('open') },
      element('summary', { textContent: 'The rig as text' }), parts.keys, parts.field);
    parts.details = text;
    // On a narrow screen a plain field with keys for units serves better than an editor.
    parts.field.addEventListener('focus', () => {
      if (!matchMedia('(max-width: 40rem), (pointer: coarse)').matches) this.#edit();
    }, { once: true });
    const side = element('div', {}, parts.choose, parts.verdict, parts.trouble, parts.findings, parts.sliders);
    const live = element('div', { className: 'live' }, parts.picture, side, text);
    this.#root.adoptedStyleSheets = [sheet, this.#colours];
    this.#root.replaceChildren(live);
    return parts;
  }

  async #edit() {
    const { edit } = await import('./editor.js');
    const { field } = this.#parts;
    this.#editor = edit(this, field);
  }

  #key(key) {
    const button = element('button', { type: 'button', textContent: key.trim() });
    button.addEventListener('click', () => {
      const { field } = this.#parts;
      field.setRangeText(key, field.selectionStart, field.selectionEnd, 'end');
      field.focus();
      this.text = field.value;
    });
    return button;
  }

  /** One step up or down of the quantity that the cursor touches. */
  #nudge(sign, by) {
    const button = element('button', { type: 'button', textContent: sign,
      ariaLabel: by > 0 ? 'more, where the cursor is' : 'less, where the cursor is' });
    button.addEventListener('click', () => {
      const at = this.#parts.field.selectionStart;
      const slider = this.#look?.sliders.find(({ from, to }) => from <= at && at <= to);
      if (slider) this.slide(slider, Math.max(slider.least, Math.min(slider.most, slider.value + by * slider.step)));
    });
    return button;
  }

  /** Moves a slider's quantity; resolves when the text says so. */
  async slide(slider, value) {
    const { told, start } = await this.ask(quick, 'slide', (start) => start + slider.from, (start) => start + slider.to, value);
    const change = told && JSON.parse(told);
    if (!change) return;
    const [from, to] = [change.from - start, change.to - start];
    // A later key may have changed where it stands: then the next move is right.
    if (this.#look?.sliders.some((one) => one.from === from && one.to === to)) this.apply([{ from, to, insert: change.insert }]);
  }

  /** Makes changes of the text, last one first. */
  apply(changes) {
    let text = this.text;
    for (const { from, to, insert } of [...changes].sort((one, other) => other.from - one.from)) {
      text = text.slice(0, from) + insert + text.slice(to);
    }
    this.text = text;
  }

  #show() {
    const look = this.#look;
    this.#parts ??= this.#build();
    const parts = this.#parts;
    parts.trouble.textContent = '';
    this.#draw(look);
    this.#say();
    parts.findings.replaceChildren(...look.findings.map((found) => this.#finding(found)));
    this.#choose(look);
    this.#slides(look.sliders);
    this.#editor?.lint();
  }

  /** Whether the verdict is on what the picture shows. */
  #isJudged() {
    return this.#judged !== undefined && this.#judged.whole === this.#look?.whole && this.#judged.rig === this.#look.rig;
  }

  /** The verdict; one that is of an earlier text, or of a later one than the picture, is dimmed. */
  #say() {
    if (!this.#parts) return;
    const { verdict } = this.#parts;
    const judged = this.#isJudged();
    verdict.classList.toggle('old', !judged);
    verdict.setAttribute('aria-busy', String(!judged));
    if (!judged) return;
    verdict.replaceChildren(...this.#judged.verdict.map((line) => element('p', { className: 'verdict', textContent: line })));
    this.dispatchEvent(new CustomEvent('rig-verdict', { detail: this.#judged.verdict, bubbles: true }));
  }

  #draw(look) {
    const drawn = look.picture && picture(look.picture);
    if (!drawn) return this.#undrawn(look);
    this.#drawn = look.rig;
    this.#colours.replaceSync(drawn.style);
    this.#parts.picture.replaceChildren(drawn.node);
  }

  /** While a line is half written the picture before it stays, dimmed, under the reason why it is not drawn anew. */
  #undrawn(look) {
    const before = this.#drawn === look.rig ? this.#parts.picture.querySelectorAll('svg') : [];
    for (const one of before) one.classList.add('old');
    this.#parts.picture.replaceChildren(element('p', { textContent: look.undrawn ?? 'No rig to draw.' }), ...before);
  }

  #finding(found) {
    const item = element('li', { className: found.level },
      element('span', {}, element('b', { textContent: `${found.level}: ` }), found.message));
    for (const more of [found.note, found.help]) if (more) item.append(element('p', { textContent: more }));
    for (const way of found.ways) {
      const button = element('button', { type: 'button', textContent: way.title });
      button.addEventListener('click', () => this.apply(way.changes));
      item.append(button);
    }
    return item;
  }

  #choose(look) {
    const { choose } = this.#parts;
    if (look.rigs.length < 2) return choose.replaceChildren();
    const select = element('select', {}, ...look.rigs.map(({ name }) =>
      element('option', { value: name, textContent: name, selected: name === look.rig })));
    select.addEventListener('change', () => {
      this.setAttribute('rig', select.value);
      this.#ask();
    });
    if (this.#root.activeElement?.localName !== 'select') choose.replaceChildren('Rig ', select);
  }

  /** Sliders are kept while one of them is held, so that it is not taken out of the hand. */
  #slides(sliders) {
    const { sliders: box } = this.#parts;
    const same = box.children.length === sliders.length
      && sliders.every(({ name }, index) => box.children[index].dataset.name === name);
    if (!same) box.replaceChildren(...sliders.map((slider, index) => this.#slider(slider, index)));
    sliders.forEach(({ least, most, step, value, unit }, index) => {
      const input = box.children[index].querySelector('input');
      if (this.#held === index) input.step = step;
      else Object.assign(input, { min: least, max: most, step, value });
      const told = `${+value.toFixed(3)} ${unit}`;
      input.setAttribute('aria-valuetext', told);
      box.children[index].querySelector('output').textContent = told;
    });
  }

  #slider({ name }, index) {
    const input = element('input', { type: 'range' });
    const row = element('label', { className: 'slider' }, element('span', { textContent: name }), input, element('output'));
    row.dataset.name = name;
    input.addEventListener('input', () => {
      this.#held = index;
      const now = this.#look.sliders[index];
      if (now) this.slide(now, +input.value);
    });
    for (const end of ['change', 'blur']) input.addEventListener(end, () => { this.#held = undefined; });
    return row;
  }
}

if (!customElements.get('rig-card')) customElements.define('rig-card', RigCard);
