// The manifest of one package, out of that of the project: node manifest.cjs web|program < package.json
// One that runs in a browser holds no program, and one with a program is not for a browser.

const fs = require('node:fs');

const manifest = JSON.parse(fs.readFileSync(0, 'utf8'));
if (process.argv[2] === 'web') {
  delete manifest.main;
  manifest.capabilities.virtualWorkspaces = true;
  manifest.capabilities.untrustedWorkspaces = { supported: true };
  delete manifest.contributes.configuration;
} else {
  delete manifest.browser;
}
process.stdout.write(`${JSON.stringify(manifest, null, 2)}\n`);
