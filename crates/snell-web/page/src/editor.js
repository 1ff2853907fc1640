// The editor of a card, which is fetched when its text is touched first: coloured, checked,
// explained and completed by the module itself.
import { autocompletion, completionKeymap } from '@codemirror/autocomplete';
import { defaultKeymap, history, historyKeymap } from '@codemirror/commands';
import { forceLinting, lintKeymap, linter } from '@codemirror/lint';
import { StateEffect, StateField } from '@codemirror/state';
import { Decoration, EditorView, drawSelection, hoverTooltip, keymap } from '@codemirror/view';
import { quick } from './rig-card.js';

const painted = StateEffect.define();
const colours = StateField.define({
  create: () => Decoration.none,
  update(marks, change) {
    const set = change.effects.find((effect) => effect.is(painted));
    return set ? Decoration.set(set.value, true) : marks.map(change.changes);
  },
  provide: (field) => EditorView.decorations.from(field),
});

const LEVELS = { fault: 'error', caution: 'warning', advice: 'info' };

const look = EditorView.theme({
  '&': { border: '1px solid var(--edge)', borderRadius: '0.3em', backgroundColor: 'var(--paper)', color: 'var(--ink)' },
  '.cm-content': { fontFamily: 'ui-monospace, monospace', fontSize: '0.9em', caretColor: 'var(--ink)' },
  '.cm-tooltip': { backgroundColor: 'var(--paper)', color: 'var(--ink)', border: '1px solid var(--edge)', padding: '0.3em', maxWidth: '30em' },
  '.cm-told': { whiteSpace: 'pre-wrap' },
  '.rig-keyword, .rig-opener': { color: 'light-dark(#7a2e6f, #e2a3d8)', fontWeight: '600' },
  '.rig-given, .rig-name': { color: 'light-dark(#1d5a8a, #8cc4f2)' },
  '.rig-number, .rig-unit': { color: 'light-dark(#8a3a00, #f0b27a)' },
  '.rig-text': { color: 'light-dark(#2d6a2d, #9ad39a)' },
  '.rig-comment': { color: 'var(--quiet)', fontStyle: 'italic' },
});

/** Puts an editor in the place of a card's field. */
export function edit(card, field) {
  const ask = async (what, ...args) => {
    const { told, start } = await card.ask(quick, what, ...args);
    return { answer: told === undefined ? undefined : JSON.parse(told), start };
  };
  const own = (start, one) => ({ ...one, from: one.from - start, to: one.to - start });

  async function paint(view) {
    const asked = view.state.doc;
    const { answer, start } = await ask('words').catch(() => ({}));
    if (!answer || !view.state.doc.eq(asked)) return;
    const here = answer.map((word) => own(start, word)).filter(({ from, to }) => from >= 0 && to <= asked.length);
    view.dispatch({ effects: painted.of(here.map(({ from, to, paint }) =>
      Decoration.mark({ class: `rig-${paint}` }).range(from, to))) });
  }

  async function complete({ pos, explicit, state }) {
    if (!explicit && !/\S/.test(state.sliceDoc(pos - 1, pos))) return null;
    const { answer, start } = await ask('complete', (start) => start + pos);
    if (!answer?.length) return null;
    return { from: answer[0].from - start, options: answer.map(({ word, detail, about, sort }) =>
      ({ label: word, detail, info: about || undefined, type: sort })) };
  }

  async function hover(view, pos) {
    const { answer, start } = await ask('hover', (start) => start + pos);
    if (!answer) return null;
    const { from, to } = own(start, answer);
    return { pos: from, end: to, create: () => {
      const dom = document.createElement('div');
      dom.className = 'cm-told';
      dom.textContent = answer.text.replace(/\*\*|`/g, '');
      return { dom };
    } };
  }

  const lints = linter(() => (card.look?.findings ?? []).map((found) => ({
    from: found.from, to: Math.max(found.to, found.from), severity: LEVELS[found.level], message: found.message,
    actions: found.ways.map((way) => ({ name: way.title, apply: () => card.apply(way.changes) })),
  })).filter(({ to }) => to <= card.text.length), { delay: 100 });

  const view = new EditorView({
    doc: card.text,
    root: card.shadowRoot,
    extensions: [history(), drawSelection(), colours, lints, look, autocompletion({ override: [complete] }), hoverTooltip(hover),
      EditorView.lineWrapping, EditorView.contentAttributes.of({ 'aria-label': 'The rig as text' }),
      keymap.of([...completionKeymap, ...defaultKeymap, ...historyKeymap, ...lintKeymap]),
      EditorView.updateListener.of((update) => {
        if (!update.docChanged) return;
        const text = update.state.doc.toString();
        if (text !== card.text) card.text = text;
        paint(update.view);
      })],
  });
  field.replaceWith(view.dom);
  view.focus();
  paint(view);
  return {
    set(text) {
      const now = view.state.doc.toString();
      if (now === text) return;
      // Only what differs, so that the cursor and the way back stay.
      let from = 0;
      while (from < Math.min(now.length, text.length) && now[from] === text[from]) from += 1;
      let end = 0;
      while (end < Math.min(now.length, text.length) - from && now.at(-1 - end) === text.at(-1 - end)) end += 1;
      view.dispatch({ changes: { from, to: now.length - end, insert: text.slice(from, text.length - end) } });
    },
    lint: () => forceLinting(view),
  };
}
