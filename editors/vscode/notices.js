// Writes the licences of what is bundled into the extension, as they ask for: node notices.js PARTS.json > NOTICES
// PARTS.json is what esbuild tells of the bundle.

const fs = require('node:fs');
const path = require('node:path');

const parts = JSON.parse(fs.readFileSync(process.argv[2], 'utf8'));
const folders = new Set(
  Object.keys(parts.inputs)
    .map(file => /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(file)?.[1])
    .filter(Boolean),
);

console.log('This extension holds parts of these packages.');
for (const folder of [...folders].sort()) {
  const { name, version, license } = JSON.parse(fs.readFileSync(path.join(folder, 'package.json'), 'utf8'));
  const file = fs.readdirSync(folder).find(one => /^licen[cs]e/i.test(one));
  if (!file) throw new Error(`${name} comes without its licence`);
  console.log(`\n---- ${name} ${version} (${license})\n\n${fs.readFileSync(path.join(folder, file), 'utf8').trim()}`);
}
