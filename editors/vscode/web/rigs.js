// Asks the module about open texts. It runs in workers of its own: one answers at every key, the other what takes longer.

import { Uri, workspace } from 'vscode';
import { Engine, source } from '../../../crates/snell-web/page/src/engine.js';
import { Files } from './files.js';

/** So many rounds of files that use one another are followed. */
const MOST_ROUNDS = 32;

export class Rigs {
  #quick = new Engine();
  #thorough = new Engine();
  #gathered = 0;
  files = new Files((name, text) => {
    this.#quick.put(name, text);
    this.#thorough.put(name, text);
  });

  /** Reads the module from the extension's own folder. */
  static async start(extension) {
    const part = name => workspace.fs.readFile(Uri.joinPath(extension, 'dist', name));
    const code = URL.createObjectURL(new Blob([await part('worker.js')], { type: 'text/javascript' }));
    source.worker = () => new Worker(code);
    source.module = async () => WebAssembly.compile(await part('snell_bg.wasm'));
    return new Rigs();
  }

  /** What the module tells of a text at every key; nothing where the same was asked again meanwhile. */
  async ask(document, what, ...args) {
    await this.#gather(document);
    return this.#told(this.#quick, document, what, ...args);
  }

  /** What takes longer. */
  async askLong(document, what, ...args) {
    await this.#gather(document);
    return this.#told(this.#thorough, document, what, ...args);
  }

  /** What is told of the text and of every other in the workspace. */
  async askEverywhere(document, what, ...args) {
    await this.files.readAll();
    return this.askLong(document, what, ...args);
  }

  #told(engine, document, what, ...args) {
    const name = this.files.take(document);
    return this.#answer(engine, `${what} ${name}`, what, name, ...args);
  }

  async #answer(engine, asker, ...question) {
    const told = await engine.ask(asker, ...question);
    return told === undefined ? undefined : JSON.parse(told);
  }

  /** Reads what the text uses, and what that uses in turn. */
  async #gather(document) {
    for (let round = 0; round < MOST_ROUNDS; round += 1) {
      // Every question waits for its own files, so none of these takes the place of another.
      const asker = `missing ${(this.#gathered += 1)}`;
      const missing = await this.#answer(this.#quick, asker, 'missing', this.files.take(document));
      if (!missing.length || !(await this.files.read(missing, document.uri))) return;
    }
  }
}
