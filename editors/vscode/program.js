// Where the program is that reads rigs. It is never looked for in the folder that is open: whoever wrote that folder could put
// a program of the same name there.

const fs = require('fs');
const path = require('path');

/** Whether a path lies in one of some folders, also through a link. */
function within(file, folders) {
  const real = at => {
    try {
      return fs.realpathSync.native(at);
    } catch {
      return path.resolve(at);
    }
  };
  return folders.some(folder => {
    const below = path.relative(real(folder), real(file));
    return below === '' || (!below.startsWith('..') && !path.isAbsolute(below));
  });
}

function runs(file) {
  try {
    fs.accessSync(file, fs.constants.X_OK);
    return fs.statSync(file).isFile();
  } catch {
    return false;
  }
}

/** A program's file, as the system calls it. */
function fileOf(name, platform) {
  return platform === 'win32' && !/\.exe$/i.test(name) ? `${name}.exe` : name;
}

/**
 * The absolute path of the program that is wanted, or nothing.
 *
 * Where nothing is wanted it is the one that came with the extension, and where none came, `snell`. A name is looked for in the
 * folders of the search path; those that are relative, or lie in an open folder, do not count. A whole path is taken as it is:
 * only the user's own settings can say one.
 */
function found(wanted, extension, folders, environment = process.env, platform = process.platform) {
  const own = path.join(extension, 'server', fileOf('snell', platform));
  if (!wanted && runs(own)) return own;
  const name = wanted || 'snell';
  if (path.isAbsolute(name)) return runs(name) ? name : undefined;
  if (name.includes('/') || name.includes('\\')) return undefined;
  const file = fileOf(name, platform);
  const search = environment.PATH ?? environment.Path ?? '';
  return search
    .split(path.delimiter)
    .filter(folder => path.isAbsolute(folder))
    .map(folder => path.join(folder, file))
    .find(candidate => runs(candidate) && !within(candidate, folders));
}

module.exports = { found };
