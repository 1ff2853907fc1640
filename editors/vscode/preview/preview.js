// The preview beside a text: the rig that the cursor is in, its verdict, and sliders that edit the text. All of it is asked of
// `snell serve`.

const { Range, Uri, ViewColumn, window, workspace } = require('vscode');
const { randomBytes } = require('crypto');

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
  #client;
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

  /** `client` gives the one that speaks with the server, started where it was not. */
  constructor(extension, client, holdsRigs) {
    this.#extension = extension;
    this.#client = client;
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
    const nonce = randomBytes(16).toString('hex');
    webview.html = `<!doctype html><html lang="en"><meta charset="utf-8"><title>Rig</title>
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'nonce-${nonce}'">
<main><p id="undrawn"></p><div id="picture"></div>
<div><div id="verdict" role="status"></div><div id="sliders" role="group" aria-label="What to change"></div></div></main>
<script nonce="${nonce}" src="${webview.asWebviewUri(Uri.joinPath(dist, 'preview.js'))}"></script></html>`;
    this.#listeners = [
      webview.onDidReceiveMessage(message => this.#told(message)),
      window.onDidChangeActiveTextEditor(editor => this.#follow(editor)),
      window.onDidChangeTextEditorSelection(({ textEditor }) => this.#follow(textEditor)),
      workspace.onDidChangeTextDocument(({ document }) => document === this.#document && this.#ask()),
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
    this.#ask();
  }

  #ask() {
    void this.#pictures.ask();
    void this.#verdicts.ask();
  }

  async #request(what, more) {
    const client = await this.#client();
    const { uri, version } = this.#document;
    // What was typed has to be told to the server first, by those who are told of it after us.
    await new Promise(resolve => setImmediate(resolve));
    const params = { textDocument: { uri: client.code2ProtocolConverter.asUri(uri) }, ...more };
    return { told: await client.sendRequest(what, params), version };
  }

  async #look() {
    const document = this.#document;
    const { told, version } = await this.#request('snell/preview', { position: this.#position });
    if (document !== this.#document || !this.#panel) return;
    this.#shown = { ...told, version };
    this.#panel.title = told ? `Rig ${told.name}` : 'Rig';
    await this.#panel.webview.postMessage({ look: told ?? { sliders: [], undrawn: 'There is no rig here.' }, of: this.#of(told, version) });
    if (this.#slide) void this.#slides.ask();
  }

  async #judge() {
    const position = this.#position;
    const { told, version } = await this.#request('snell/verdict', { position });
    // Of the rig that was looked at with it, or else the next answer is awaited.
    const isShown = this.#shown?.version === version && position === this.#position;
    if (this.#panel && isShown) await this.#panel.webview.postMessage({ verdict: told ?? [], of: this.#of(this.#shown, version) });
  }

  #of(rig, version) {
    return `${this.#document.uri} ${version} ${rig?.name ?? ''}`;
  }

  #told({ slide, released }) {
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
    const { told, version } = await this.#request('snell/slide', { range: slider.range, value: slide.value });
    if (!told || version !== this.#document.version) return;
    const { start, end } = told.range;
    const range = new Range(start.line, start.character, end.line, end.character);
    await editor.edit(edit => edit.replace(range, told.newText), { undoStopBefore: !this.#held, undoStopAfter: false });
    this.#held = true;
  }
}

module.exports = { Preview };
