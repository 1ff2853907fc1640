// The same for an editor that runs in a browser, where no program can be started: the module of pages answers instead.

import * as vscode from 'vscode';
import { Preview } from '../preview/preview.js';
import { holdsRigs } from '../rigs.js';
import { RIGS } from './files.js';
import { location, provide, range } from './providers.js';
import { Rigs } from './rigs.js';

const { commands, languages, window, workspace } = vscode;

const LEVELS = { fault: vscode.DiagnosticSeverity.Error, caution: vscode.DiagnosticSeverity.Warning, advice: vscode.DiagnosticSeverity.Information };
/** So long nobody types before other texts follow. */
const PAUSE = 300;

/** Whether it is a text that people write, and no past state of one that an editor shows. */
const isWritten = ({ uri }) => uri.scheme === 'untitled' || workspace.fs.isWritableFileSystem(uri.scheme) !== undefined;

class Findings {
  #rigs;
  #shown = languages.createDiagnosticCollection('snell');
  #pause;

  constructor(rigs) {
    this.#rigs = rigs;
  }

  async show(document) {
    if (!holdsRigs(document) || !isWritten(document)) return this.#shown.delete(document.uri);
    const { version } = document;
    let found;
    try {
      found = await this.#rigs.ask(document, 'findings');
    } catch (error) {
      console.error(`rigs: ${document.uri}: ${error.message}`);
    }
    if (!found || document.isClosed || document.version !== version) return;
    const told = await Promise.all(found.map(one => this.#diagnostic(document, one)));
    if (!document.isClosed && document.version === version) this.#shown.set(document.uri, told);
  }

  async #diagnostic(document, { rule, level, message, elsewhere, ...place }) {
    const made = new vscode.Diagnostic(range(document, place), message, LEVELS[level]);
    const related = elsewhere.map(async ({ text, ...one }) => new vscode.DiagnosticRelatedInformation(await location(this.#rigs, one), text));
    return Object.assign(made, { code: rule, source: 'snell', relatedInformation: await Promise.all(related) });
  }

  /** Looks at all open texts again, once nobody types. */
  showAll(other) {
    clearTimeout(this.#pause);
    this.#pause = setTimeout(() => {
      for (const document of workspace.textDocuments) if (document !== other) void this.show(document);
    }, PAUSE);
  }

  forget({ uri }) {
    this.#shown.delete(uri);
  }

  dispose() {
    clearTimeout(this.#pause);
    this.#shown.dispose();
  }
}

/** What the preview shows, asked of the module. */
function ofModule(rigs) {
  return {
    async look(document, position) {
      const look = await rigs.ask(document, 'look_around', document.offsetAt(position));
      return look?.rig === undefined ? undefined : { ...look, name: look.rig };
    },
    async verdict(document, position) {
      return (await rigs.askLong(document, 'judge_around', document.offsetAt(position)))?.verdict;
    },
    async slide(document, { from, to }, value) {
      const change = await rigs.ask(document, 'slide', from, to, value);
      return change ? { range: range(document, change), insert: change.insert } : undefined;
    },
  };
}

export async function activate({ extensionUri, subscriptions }) {
  const rigs = await Rigs.start(extensionUri);
  const findings = new Findings(rigs);
  const preview = new Preview(extensionUri, ofModule(rigs), holdsRigs);
  const stored = workspace.createFileSystemWatcher(RIGS);
  const onDisk = uri => rigs.files.changed(uri) && findings.showAll();
  subscriptions.push(findings, stored, ...provide(rigs),
    commands.registerCommand('snell.preview', () => preview.open()),
    commands.registerCommand('snell.restart', () => findings.showAll()),
    stored.onDidChange(onDisk), stored.onDidCreate(onDisk), stored.onDidDelete(onDisk),
    workspace.onDidOpenTextDocument(document => findings.show(document)),
    workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
      if (contentChanges.length === 0 || !holdsRigs(document)) return;
      void findings.show(document);
      findings.showAll(document);
    }),
    workspace.onDidCloseTextDocument(document => {
      rigs.files.close(document);
      findings.forget(document);
    }),
    window.onDidChangeVisibleTextEditors(() => findings.showAll()));
  findings.showAll();
}
