#!/usr/bin/env node
// Starts the program for this system. It lies in a package of its own, of which npm takes the one that fits.

const { spawn } = require('node:child_process');

/** The whole path of the program, or nothing where none was made for this system or npm was told to leave it out. */
function program() {
  try {
    return require.resolve(`@snell-rig/${process.platform}-${process.arch}/${process.platform === 'win32' ? 'snell.exe' : 'snell'}`);
  } catch {
    return undefined;
  }
}

function main() {
  const file = program();
  if (!file) {
    console.error(`snell: there is no program for ${process.platform} on ${process.arch} here.`);
    console.error('If there should be: install anew without `--omit=optional`.');
    process.exit(2);
  }
  const child = spawn(file, process.argv.slice(2), { stdio: 'inherit', windowsHide: true });
  // Somebody who ends this one means the program.
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => child.kill(signal));
  child.on('error', error => {
    console.error(`snell: ${file} did not start: ${error.message}`);
    process.exit(2);
  });
  child.on('exit', (code, signal) => {
    if (!signal) process.exit(code);
    process.removeAllListeners(signal);
    process.kill(process.pid, signal);
  });
}

main();
