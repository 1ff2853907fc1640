// Starts `snell serve` once a rig is looked at, and passes on what it says. It knows nothing of rigs itself.

const { commands, window, workspace } = require('vscode');
const { LanguageClient } = require('vscode-languageclient/node');
const { homedir } = require('os');
const { OfServer } = require('./preview/of-server');
const { Preview } = require('./preview/preview');
const { found } = require('./program');
const { LANGUAGES, holdsRigs } = require('./rigs');

/** @type {LanguageClient | undefined} */
let client;
let failed = false;

/** What the user's settings name as the program; empty where they leave it to the extension. */
const wanted = () => workspace.getConfiguration('snell').get('path') ?? '';

/** Where the extension itself lies. */
let extension = '';

const program = () => found(wanted(), extension, (workspace.workspaceFolders ?? []).map(folder => folder.uri.fsPath));

/** Until it runs, its troubles are told by `start`, in words for those who never heard of a server. */
class Client extends LanguageClient {
  error(message, data, showNotification) {
    super.error(message, data, this.isRunning() && showNotification);
  }
}

function made(command) {
  // Not in the open folder: a program may take in what lies where it is started.
  const serve = { command, args: ['serve'], options: { cwd: homedir() } };
  return new Client('snell', 'Rigs', serve, {
    documentSelector: LANGUAGES.flatMap(language => [
      { scheme: 'file', language },
      { scheme: 'untitled', language },
    ]),
    synchronize: { fileEvents: workspace.createFileSystemWatcher('**/*.rig') },
    // What is told of a place is shown as a web page here, and so pictures are.
    initializationOptions: { pictures: true },
  });
}

async function start() {
  // In a folder that is not trusted nothing is run.
  if (client || failed || !workspace.isTrusted) return;
  const command = program();
  if (!command) {
    failed = true;
    void tellMissing();
    return;
  }
  client = made(command);
  try {
    await client.start();
  } catch {
    failed = true;
    client = undefined;
    // Not waited for: it stays until somebody answers.
    void tellMissing();
  }
}

async function tellMissing() {
  const chosen = await window.showErrorMessage(
    `Rigs cannot be checked: the program “${wanted() || 'snell'}” is not there or did not start. Install snell, or say where it is.`,
    'Say Where It Is',
  );
  if (chosen) await commands.executeCommand('workbench.action.openSettings', 'snell.path');
}

async function stop() {
  const stopping = client;
  client = undefined;
  failed = false;
  if (stopping) await stopping.dispose();
}

async function restart() {
  await stop();
  await startWhereWanted();
}

async function startWhereWanted() {
  if (workspace.textDocuments.some(holdsRigs)) await start();
}

/** The one that runs, for what the preview asks. */
async function running() {
  await start();
  if (!client) throw new Error('the program does not run');
  return client;
}

exports.activate = async context => {
  extension = context.extensionPath;
  const preview = new Preview(context.extensionUri, new OfServer(running), holdsRigs);
  context.subscriptions.push(
    commands.registerCommand('snell.restart', restart),
    commands.registerCommand('snell.preview', () => preview.open()),
    workspace.onDidOpenTextDocument(document => holdsRigs(document) && start()),
    workspace.onDidSaveTextDocument(document => holdsRigs(document) && start()),
    workspace.onDidGrantWorkspaceTrust(startWhereWanted),
    workspace.onDidChangeConfiguration(change => change.affectsConfiguration('snell.path') && restart()),
  );
  await startWhereWanted();
};

exports.deactivate = stop;
