// Packs the extension for an editor that runs in a browser: node web/build.cjs PAGE
// PAGE is the package for pages, as crates/snell-web/page/build.sh builds it.

const { build } = require('esbuild');
const fs = require('node:fs');
const path = require('node:path');

const bank = path.resolve(process.argv[2], 'bank');
const above = path.dirname(__dirname);
const dist = path.join(above, 'dist');
const common = { bundle: true, minify: true, absWorkingDir: above };

/** The module's own JavaScript lies beside it. */
const beside = { name: 'beside', setup(making) {
  making.onResolve({ filter: /\/snell\.js$/ }, () => ({ path: path.join(bank, 'snell.js') }));
} };

async function main() {
  await build({ ...common, entryPoints: ['web/extension.js'], platform: 'browser', format: 'cjs', external: ['vscode'],
    define: { 'import.meta.url': '""' }, outfile: path.join(dist, 'browser.js') });
  await build({ ...common, entryPoints: ['../../crates/snell-web/page/src/worker.js'], format: 'iife', plugins: [beside],
    define: { 'import.meta.url': '"file:///"' }, outfile: path.join(dist, 'worker.js') });
  fs.copyFileSync(path.join(bank, 'snell_bg.wasm'), path.join(dist, 'snell_bg.wasm'));
}

main().catch(error => {
  console.error(error);
  process.exit(1);
});
