// Packs the element, its editor and workers, and the two pages that need no server.
//
//   node build.cjs MODULES SOURCE OUT
const { createHash } = require('node:crypto');
const fs = require('node:fs');
const path = require('node:path');
const { createRequire } = require('node:module');
const zlib = require('node:zlib');

const [modules, source, out] = process.argv.slice(2).map((one) => path.resolve(one));
const from = createRequire(path.join(modules, 'node_modules', 'x'));
const { build } = from('esbuild');

const src = (name) => path.join(source, 'src', name);
const common = { bundle: true, minify: true, format: 'esm', target: 'es2022', legalComments: 'none',
  loader: { '.css': 'text' }, nodePaths: [path.join(modules, 'node_modules')] };

/** The module's own JavaScript lies beside what is built. */
const beside = { name: 'beside', setup(making) {
  making.onResolve({ filter: /\/snell\.js$/ }, () => ({ path: path.join(out, 'snell.js') }));
} };

async function text(options) {
  const made = await build({ ...common, ...options, write: false, plugins: [beside] });
  return made.outputFiles[0].text;
}

async function main() {
  await build({ ...common, entryPoints: [src('rig-card.js')], outdir: out, external: ['./editor.js'] });
  await build({ ...common, entryPoints: [src('editor.js')], outdir: out, external: ['./rig-card.js'] });
  await build({ ...common, entryPoints: [src('live.js')], outdir: out, external: ['./rig-card.js'] });
  await build({ ...common, entryPoints: [src('worker.js')], outdir: out, external: ['./snell.js'] });
  fs.copyFileSync(src('rig-card.d.ts'), path.join(out, 'rig-card.d.ts'));
  for (const name of ['package.json', 'README.md']) fs.copyFileSync(path.join(source, name), path.join(out, name));
  await types();
  await inOneFile();
  await offline();
}

/** The types for TypeScript, from the very types that are written out. */
async function types() {
  const { compile } = from('json-schema-to-typescript');
  const schema = JSON.parse(fs.readFileSync(path.join(out, 'answers.schema.json'), 'utf8'));
  const made = await compile(schema, 'Answers', { additionalProperties: false,
    bannerComment: '/** All that the module answers, as JSON. */' });
  fs.writeFileSync(path.join(out, 'answers.d.ts'), made);
}

/** A page to write and share: all of it in one file, which also opens from a disk. */
async function inOneFile() {
  const worker = await text({ entryPoints: [src('worker.js')], format: 'iife',
    define: { 'import.meta.url': '"file:///"' } });
  const script = await text({ entryPoints: [src('share.js')], format: 'iife', define: { 'import.meta.url': '""' } });
  const boot = await text({ entryPoints: [src('boot.js')], format: 'iife' });
  const module = fs.readFileSync(path.join(out, 'snell_bg.wasm'));
  const parts = [packed('worker', worker), packed('module', module), packed('script', script), `<script>${boot}</script>`];
  const page = fs.readFileSync(src('share.html'), 'utf8').replace('<!-- parts -->', () => parts.join('\n'));
  fs.writeFileSync(path.join(out, 'share.html'), page);
}

/** A part of the page in one file, as `boot.js` unpacks it: signs from `#` on, without `<`. */
function packed(id, part) {
  const bytes = zlib.gzipSync(part, { level: 9 });
  const whole = Buffer.concat([bytes, Buffer.alloc(-bytes.length & 3)]);
  let signs = '';
  for (let at = 0; at < whole.length; at += 4) {
    let number = whole.readUInt32BE(at);
    let five = '';
    for (let sign = 0; sign < 5; sign += 1) {
      const code = 35 + (number % 85);
      five = String.fromCharCode(code < 60 ? code : code + 1) + five;
      number = Math.floor(number / 85);
    }
    signs += five;
  }
  return `<script type="text/plain" id="${id}" data-size="${bytes.length}">${signs}</script>`;
}

/** The page for the bank: what it needs by the sums of their bytes, so that no two states are mixed. */
async function offline() {
  const folder = path.join(out, 'offline');
  fs.rmSync(folder, { recursive: true, force: true });
  fs.mkdirSync(folder);
  for (const name of ['rig-card.js', 'editor.js', 'worker.js', 'bank/snell.js', 'bank/snell_bg.wasm']) {
    fs.copyFileSync(path.join(out, name), path.join(folder, path.basename(name)));
  }
  for (const name of ['offline.js', 'offline.css']) fs.copyFileSync(src(name), path.join(folder, name));
  fs.copyFileSync(src('offline.html'), path.join(folder, 'index.html'));
  const sum = (name) => createHash('sha256').update(fs.readFileSync(path.join(folder, name))).digest('base64');
  const files = Object.fromEntries(fs.readdirSync(folder).sort().map((name) => [name, `sha256-${sum(name)}`]));
  const state = createHash('sha256').update(JSON.stringify(files)).digest('hex').slice(0, 16);
  const code = fs.readFileSync(src('service-worker.js'), 'utf8')
    .replace('"STATE"', JSON.stringify(state)).replace('{ FILES: "" }', JSON.stringify(files));
  fs.writeFileSync(path.join(folder, 'service-worker.js'), code);
}

main().catch((error) => {
  console.error(error);
  process.exit(1);
});
