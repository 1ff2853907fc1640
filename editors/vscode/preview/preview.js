// The preview beside a text: the rig that the cursor is in, its verdict, and sliders that edit the text.

const { Uri, ViewColumn, window, workspace } = require('vscode');

/** Asks one thing at a time, and of what is asked meanwhile only the last. */
class Latest {
  #work;
  #running = false;
  #again = false;

  constructor(work) {
    this.#work = work;
  }

  async ask() {
    this.#again = true;
    if (this.#running) return;
    this.#running = true;
    while (this.#again) {
      this.#again = false;
      try {
        await this.#work();
      } catch {
        // The text changed while it was looked at: then it is asked again.
      }
    }
    this.#running = false;
  }
}

class Preview {
  #extension;
  #asked;
  #holdsRigs;
  #panel;
  #listeners = [];
  /** The text that is shown, and where its cursor is. */
  #document;
  #position;
  /** What was told last, of which version of the text. */
  #shown;
  /** The slider that is held, by its name, and what it is moved to. */
  #slide;
  #held = false;
  #pictures = new Latest(() => this.#look());
  #verdicts = new Latest(() => this.#judge());
  #slides = new Latest(() => this.#move());

  /** `asked` is who knows of rigs: what a rig looks like, what the verdict on it is, and what a slider changes. */
  constructor(extension, asked, holdsRigs) {
    this.#extension = extension;
    this.#asked = asked;
    this.#holdsRigs = holdsRigs;
  }

  open() {
    if (!this.#panel) this.#make();
    this.#panel.reveal(ViewColumn.Beside, true);
    this.#follow(window.activeTextEditor);
  }

  #make() {
    const dist = Uri.joinPath(this.#extension, 'dist');
    this.#panel = window.createWebviewPanel('snell.preview', 'Rig', { viewColumn: ViewColumn.Beside, preserveFocus: true },
      { enableScripts: true, localResourceRoots: [dist], retainContextWhenHidden: true });
    const { webview } = this.#panel;
    const nonce = [...crypto.getRandomValues(new Uint8Array(16))].map(byte => byte.toString(16).padStart(2, '0')).join('');
    webview.html = `<!doctype html><html lang="en"><meta charset="utf-8"><title>Rig</title>
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'nonce-${nonce}'">
<main><p id="undrawn"></p><div id="picture"></div>
<div><div id="verdict" role="status"></div><div id="sliders" role="group" aria-label="What to change"></div></div></main>
<script nonce="${nonce}" src="${webview.asWebviewUri(Uri.joinPath(dist, 'preview.js'))}"></script></html>`;
    this.#listeners = [
      webview.onDidReceiveMessage(message => this.#told(message)),
      window.onDidChangeActiveTextEditor(editor => this.#follow(editor)),
      window.onDidChangeTextEditorSelection(({ textEditor }) => this.#follow(textEditor)),
      workspace.onDidChangeTextDocument(({ document }) => document === this.#document && void this.#pictures.ask()),
      this.#panel.onDidDispose(() => this.#closed()),
    ];
  }

  #closed() {
    this.#listeners.forEach(listener => listener.dispose());
    this.#panel = this.#document = this.#shown = undefined;
  }

  /** Shows the rig that the cursor of an editor is in. */
  #follow(editor) {
    if (!editor || !this.#holdsRigs(editor.document)) return;
    this.#document = editor.document;
    this.#position = editor.selection.active;
    void this.#pictures.ask();
  }

  async #look() {
    const document = this.#document;
    const { version } = document;
    const told = await this.#asked.look(document, this.#position);
    if (document !== this.#document || !this.#panel) return;
    this.#shown = { ...told, version };
    this.#panel.title = told ? `Rig ${told.name}` : 'Rig';
    await this.#panel.webview.postMessage({ look: told ?? { sliders: [], undrawn: 'There is no rig here.' }, of: this.#of(told, version) });
    // It follows the picture: one that came before it would be of nothing that is shown.
    void this.#verdicts.ask();
    if (this.#slide) void this.#slides.ask();
  }

  async #judge() {
    const position = this.#position;
    const { version } = this.#document;
    const told = await this.#asked.verdict(this.#document, position);
    // Of the rig that was looked at with it, or else the next answer is awaited.
    const isShown = this.#shown?.version === version && position === this.#position;
    if (this.#panel && isShown) await this.#panel.webview.postMessage({ verdict: told ?? [], of: this.#of(this.#shown, version) });
  }

  #of(rig, version) {
    return `${this.#document.uri} ${version} ${rig?.name ?? ''}`;
  }

  #told({ ready, slide, released }) {
    if (ready) void this.#pictures.ask();
    if (slide) this.#slide = slide;
    if (released) this.#held = false;
    if (this.#slide) void this.#slides.ask();
  }

  /** Writes what a slider is moved to into the text. While it is held it is one step to undo. */
  async #move() {
    const slide = this.#slide;
    const editor = window.visibleTextEditors.find(({ document }) => document === this.#document);
    // The text was changed since: the place is known once it was looked at again.
    if (!slide || !editor || this.#shown?.version !== this.#document.version) return;
    this.#slide = undefined;
    const slider = this.#shown.sliders.find(({ name }) => name === slide.name);
    if (!slider) return;
    const { version } = this.#document;
    const told = await this.#asked.slide(this.#document, slider, slide.value);
    if (!told || version !== this.#document.version) return;
    await editor.edit(edit => edit.replace(told.range, told.insert), { undoStopBefore: !this.#held, undoStopAfter: false });
    this.#held = true;
  }
}

module.exports = { Preview };
