// The manifest of a package for npm, made of the table of systems:
//
//   node manifest.mjs VERSION                   the package that people install
//   node manifest.mjs VERSION LABEL PROGRAM     that of one system

import { readFileSync } from 'node:fs';

const [version, label, program] = process.argv.slice(2);
const systems = readFileSync(new URL('../targets', import.meta.url), 'utf8').split('\n')
  .filter(line => line && !line.startsWith('#'))
  .map(line => line.split(/\s+/))
  .map(row => ({ label: row[1], npm: row[4].split('/') }));

const named = ({ npm: [os, cpu] }) => `@snell-rig/${os}-${cpu}`;

const shared = {
  version,
  license: 'MIT OR Apache-2.0',
  keywords: ['fishing', 'leader', 'nymph', 'linter', 'language-server'],
};

function forPeople() {
  return {
    name: 'snell',
    description: 'A plain-text language, linter and language server for fishing rigs',
    ...shared,
    bin: { snell: 'snell.js' },
    files: ['snell.js', 'LICENSE'],
    engines: { node: '>=18' },
    optionalDependencies: Object.fromEntries(systems.map(system => [named(system), version])),
  };
}

function forSystem() {
  const system = systems.find(one => one.label === label);
  if (!system) throw new Error(`${label} is not in the table of systems`);
  const [os, cpu] = system.npm;
  return {
    name: named(system),
    description: `The program of the package snell, for ${system.label}`,
    ...shared,
    os: [os],
    cpu: [cpu],
    files: [program, 'LICENSE', 'NOTICES', 'snell.cdx.json'],
    preferUnplugged: true,
  };
}

console.log(JSON.stringify(label ? forSystem() : forPeople(), null, 2));
