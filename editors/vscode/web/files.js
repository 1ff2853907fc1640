// The texts of the workspace as the module knows them: by names made of their addresses. What is open comes before what is
// stored; a stored file is read once a text uses it, and all of them where a name is looked for everywhere.

const { Uri, workspace } = require('vscode');

const RIGS = '**/*.{rig,md}';
/** So many files are looked through for a name. */
const MOST_FILES = 2000;
/** As much as the program reads of one file. */
const MOST_BYTES = 8 * 1024 * 1024;

/** The name of an address; that of a page that was not saved yet tells that it is one. */
function nameOf(uri, language) {
  const name = [uri.scheme, uri.authority, ...uri.path.split('/')].filter(Boolean).join('/');
  return language === 'markdown' && !/\.\w+$/.test(uri.path) ? `${name}.md` : name;
}

class Files {
  #put;
  /** The address of every name. */
  #addresses = new Map();
  #open = new Set();
  #stored = new Set();

  /** `put` hands over a text by its name, or `null` where there is none any more. */
  constructor(put) {
    this.#put = put;
  }

  address(name) {
    return this.#addresses.get(name);
  }

  /** Takes an open text as it is now, and tells its name. */
  take(document) {
    const name = nameOf(document.uri, document.languageId);
    this.#addresses.set(name, document.uri);
    this.#open.add(name);
    this.#put(name, document.getText());
    return name;
  }

  /** What was closed is read again from where it is stored. */
  close(document) {
    const name = nameOf(document.uri, document.languageId);
    this.#open.delete(name);
    this.#forget(name);
    return name;
  }

  /** A stored file changed, came or went; whether that may change what is said of others. */
  changed(uri) {
    const name = nameOf(uri);
    if (this.#open.has(name)) return false;
    this.#forget(name);
    return true;
  }

  #forget(name) {
    this.#stored.delete(name);
    this.#put(name, null);
  }

  /** Reads the files of some names that lie beside a text; whether one of them is there. */
  async read(names, beside) {
    const { scheme, authority } = beside;
    const above = [scheme, authority].filter(Boolean).join('/');
    const inside = names.filter(name => name.startsWith(`${above}/`));
    const found = await Promise.all(inside.map(name => this.#read(Uri.from({ scheme, authority, path: name.slice(above.length) }))));
    return found.some(Boolean);
  }

  /** Reads all files of the workspace in which a name may stand. */
  async readAll() {
    const found = await workspace.findFiles(RIGS, undefined, MOST_FILES + 1);
    if (found.length > MOST_FILES) throw new Error(`there are more than ${MOST_FILES} files, too many to look through`);
    await Promise.all(found.map(uri => this.#read(uri)));
  }

  async #read(uri) {
    const name = nameOf(uri);
    if (this.#open.has(name) || this.#stored.has(name) || !workspace.getWorkspaceFolder(uri)) return false;
    try {
      const { size } = await workspace.fs.stat(uri);
      if (size > MOST_BYTES) return false;
      const text = new TextDecoder('utf-8', { fatal: true }).decode(await workspace.fs.readFile(uri));
      if (this.#open.has(name)) return false;
      this.#addresses.set(name, uri);
      this.#stored.add(name);
      this.#put(name, text);
      return true;
    } catch {
      // It is not there, or it is no text: then it is told as missing where it is used.
      return false;
    }
  }
}

module.exports = { Files, RIGS };
