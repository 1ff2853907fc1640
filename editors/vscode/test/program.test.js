// Which program is started, and which is not.

const { test } = require('node:test');
const assert = require('node:assert');
const fs = require('fs');
const os = require('os');
const path = require('path');
const { found } = require('../program');

function folder(...programs) {
  const made = fs.mkdtempSync(path.join(os.tmpdir(), 'snell-program-'));
  for (const name of programs) fs.writeFileSync(path.join(made, name), '#!/bin/sh\n', { mode: 0o755 });
  return made;
}

/** An extension that came without a program. */
const none = folder();

/** One that came with it. */
function extension(file = 'snell') {
  const made = folder();
  fs.mkdirSync(path.join(made, 'server'));
  fs.writeFileSync(path.join(made, 'server', file), '', { mode: 0o755 });
  return made;
}

const search = (...folders) => ({ PATH: folders.join(path.delimiter) });

test('a name is found on the search path, as a whole path', () => {
  const bin = folder('snell');
  assert.equal(found('snell', none, [], search(folder(), bin)), path.join(bin, 'snell'));
  assert.equal(found('snell', none, [], search(folder())), undefined);
});

test('nothing in an open folder is run, whatever the search path says', () => {
  const open = folder('snell');
  const bin = folder('snell');
  const link = path.join(folder(), 'bin');
  fs.symlinkSync(open, link);
  assert.equal(found('snell', none, [open], search(open, link, '.', '', 'bin', bin)), path.join(bin, 'snell'));
  assert.equal(found('snell', none, [open], search(open, link, '.', '')), undefined);
});

test('a path that is not whole is no program', () => {
  assert.equal(found('./snell', none, [], search(folder('snell'))), undefined);
  assert.equal(found('bin\\snell', none, [], search(folder('snell'))), undefined);
});

test('a whole path is taken where it can be run', () => {
  const bin = folder('other');
  assert.equal(found(path.join(bin, 'other'), none, []), path.join(bin, 'other'));
  assert.equal(found(path.join(bin, 'none'), none, []), undefined);
});

test('on Windows only an .exe is looked for', () => {
  const bin = folder('snell', 'snell.bat', 'snell.exe');
  assert.equal(found('snell', none, [], search(bin), 'win32'), path.join(bin, 'snell.exe'));
});

test('the program that came with the extension is taken unless another is named', () => {
  const [own, bin] = [extension(), folder('snell')];
  assert.equal(found('', own, [], search(bin)), path.join(own, 'server', 'snell'));
  assert.equal(found('snell', own, [], search(bin)), path.join(bin, 'snell'));
  assert.equal(found('', none, [], search(bin)), path.join(bin, 'snell'));
  assert.equal(found('', none, [], search()), undefined);
});

test('on Windows it is an .exe', () => {
  const own = extension('snell.exe');
  assert.equal(found('', own, [], search(), 'win32'), path.join(own, 'server', 'snell.exe'));
  assert.equal(found('', own, [], search(), 'linux'), undefined);
});
