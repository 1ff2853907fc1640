// What the editor shows of rigs, in its own words. All of it is the module's.

import * as vscode from 'vscode';
import { LANGUAGES, holdsRigs } from '../rigs.js';

const { languages } = vscode;

/** The kinds of word, each with the kind that the editor colours it as: those of the language server. */
const COLOURS = { keyword: 'keyword', opener: 'class', given: 'function', name: 'variable', number: 'number', unit: 'type', text: 'string', comment: 'comment' };
const LEGEND = new vscode.SemanticTokensLegend(Object.values(COLOURS));

const KINDS = { keyword: 'Keyword', block: 'Reference', local: 'Variable', unit: 'Unit', measure: 'Property', word: 'EnumMember' };

export function range(document, { from, to }) {
  return new vscode.Range(document.positionAt(from), document.positionAt(to));
}

function edit(document, changes) {
  return changes.map(change => vscode.TextEdit.replace(range(document, change), change.insert));
}

function replacing(document, changes) {
  const all = new vscode.WorkspaceEdit();
  all.set(document.uri, edit(document, changes));
  return all;
}

/** A stretch of one of the files, as a place of the editor's. */
export async function location(rigs, { file, from, to }) {
  const document = await vscode.workspace.openTextDocument(rigs.files.address(file));
  return new vscode.Location(document.uri, range(document, { from, to }));
}

function symbol(document, { name, detail, part, from, to, name_from, name_to, parts }) {
  const made = new vscode.DocumentSymbol(name, detail, vscode.SymbolKind[part ? 'Field' : 'Class'],
    range(document, { from, to }), range(document, { from: name_from, to: name_to }));
  made.children = parts.map(one => symbol(document, one));
  return made;
}

function actions(document, found, diagnostics) {
  return found.flatMap(({ rule, ways, from, to }) => ways.map(way => {
    const action = new vscode.CodeAction(way.title, vscode.CodeActionKind.QuickFix);
    action.edit = replacing(document, way.changes);
    action.isPreferred = way.sure;
    action.diagnostics = diagnostics.filter(one => one.code === rule && one.range.intersection(range(document, { from, to })));
    return action;
  }));
}

/** All that is offered for a text; each answers nothing where the text holds no rigs. */
export function provide(rigs) {
  const asked = (document, ask) => (holdsRigs(document) ? ask() : undefined);
  const at = (document, position) => document.offsetAt(position);
  const stretch = (document, { start, end }) => [document.offsetAt(start), document.offsetAt(end)];

  const hover = { provideHover: (document, position) => asked(document, async () => {
    const told = await rigs.ask(document, 'hover', at(document, position));
    return told ? new vscode.Hover(new vscode.MarkdownString(told.text), range(document, told)) : undefined;
  }) };
  const completion = { provideCompletionItems: (document, position) => asked(document, async () => {
    const offers = await rigs.ask(document, 'complete', at(document, position));
    return offers?.map((offer, number) => {
      const item = new vscode.CompletionItem(offer.word, vscode.CompletionItemKind[KINDS[offer.sort]]);
      return Object.assign(item, { detail: offer.detail, documentation: offer.about || undefined, insertText: offer.word,
        range: range(document, offer), sortText: String(number).padStart(4, '0') });
    });
  }) };
  const layout = { provideDocumentFormattingEdits: document => asked(document, async () =>
    edit(document, (await rigs.ask(document, 'tidy')) ?? [])) };
  const mends = { provideCodeActions: (document, place, { diagnostics }) => asked(document, async () => {
    const found = await rigs.askLong(document, 'ways', ...stretch(document, place));
    const offered = actions(document, found ?? [], diagnostics);
    const sure = await rigs.ask(document, 'mend');
    if (!sure?.length) return offered;
    const all = new vscode.CodeAction('mend all that can only mean one thing', vscode.CodeActionKind.SourceFixAll);
    all.edit = replacing(document, sure);
    return [...offered, all];
  }) };
  const names = {
    prepareRename: async (document, position) =>
      range(document, await rigs.ask(document, 'changeable', at(document, position))),
    async provideRenameEdits(document, position, name) {
      const changed = await rigs.askEverywhere(document, 'rename', at(document, position), name);
      const all = new vscode.WorkspaceEdit();
      for (const change of changed ?? []) {
        const { uri, range: place } = await location(rigs, change);
        all.replace(uri, place, change.insert);
      }
      return all;
    },
  };
  const definition = { provideDefinition: (document, position) => asked(document, async () => {
    const told = await rigs.ask(document, 'definition', at(document, position));
    return told ? location(rigs, told) : undefined;
  }) };
  const references = { provideReferences: (document, position) => asked(document, async () => {
    const told = await rigs.askEverywhere(document, 'places', at(document, position));
    return Promise.all((told ?? []).map(one => location(rigs, one)));
  }) };
  const outline = { provideDocumentSymbols: document => asked(document, async () =>
    (await rigs.ask(document, 'outline'))?.map(one => symbol(document, one))) };
  const hints = { provideInlayHints: (document, place) => asked(document, async () =>
    (await rigs.ask(document, 'hints', ...stretch(document, place)))?.map(hint => {
      const made = new vscode.InlayHint(document.positionAt(hint.at), hint.text);
      return Object.assign(made, { tooltip: hint.about, paddingLeft: true });
    })) };
  const totals = { provideCodeLenses: document => asked(document, async () =>
    (await rigs.ask(document, 'totals'))?.map(total =>
      new vscode.CodeLens(range(document, total), { title: total.text, command: '' }))) };
  const colours = { provideDocumentSemanticTokens: document => asked(document, async () => {
    const words = await rigs.ask(document, 'words');
    const made = new vscode.SemanticTokensBuilder(LEGEND);
    for (const word of words ?? []) made.push(range(document, word), COLOURS[word.paint]);
    return made.build();
  }) };

  return [
    languages.registerHoverProvider(LANGUAGES, hover),
    languages.registerCompletionItemProvider(LANGUAGES, completion, ' ', '.'),
    languages.registerDocumentFormattingEditProvider(LANGUAGES, layout),
    languages.registerCodeActionsProvider(LANGUAGES, mends,
      { providedCodeActionKinds: [vscode.CodeActionKind.QuickFix, vscode.CodeActionKind.SourceFixAll] }),
    languages.registerRenameProvider(LANGUAGES, names),
    languages.registerDefinitionProvider(LANGUAGES, definition),
    languages.registerReferenceProvider(LANGUAGES, references),
    languages.registerDocumentSymbolProvider(LANGUAGES, outline),
    languages.registerInlayHintsProvider(LANGUAGES, hints),
    languages.registerCodeLensProvider(LANGUAGES, totals),
    languages.registerDocumentSemanticTokensProvider(LANGUAGES, colours, LEGEND),
  ];
}
