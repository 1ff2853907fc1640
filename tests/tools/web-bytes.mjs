// How large what a page fetches is, raw and packed by brotli as servers send it, and that none of it is over its limit.
//
//   node web-bytes.mjs PAGE
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { brotliCompressSync } from 'node:zlib';

const [page] = process.argv.slice(2);
/** Of 1,024 bytes: of 1,000 the module would be over by one part in a hundred. */
const KB = 1024;
/** What is fetched by itself counts packed; a page in one file is handed on as it is. */
const PARTS = [
  { name: 'snell_bg.wasm', most: 620 * KB },
  { name: 'bank/snell_bg.wasm' },
  { name: 'rig-card.js', most: 15 * KB },
  { name: 'editor.js', most: 105 * KB },
  { name: 'worker.js' },
  { name: 'snell.js' },
  { name: 'share.html', most: 1_200_000, whole: true },
];

let over = 0;
console.log('bytes, and packed by brotli:');
for (const { name, most, whole } of PARTS) {
  const bytes = readFileSync(path.join(page, name));
  const packed = brotliCompressSync(bytes).length;
  const room = most === undefined ? undefined : most - (whole ? bytes.length : packed);
  if (room < 0) over += 1;
  const told = room === undefined ? '' : room < 0 ? `; FAILS: ${-room} over its limit of ${most}` : `; ${room} below its limit of ${most}`;
  console.log(`  ${name}: ${bytes.length}, ${packed}${told}`);
}
process.exit(over ? 1 : 0);
