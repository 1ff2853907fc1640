// A rig as a link: `#v1=` and its text, packed (deflate) and written in letters that stand in an address (base64url).

/** So much text at most comes out of a link. */
const MOST = 256 * 1024;

async function through(stream, bytes) {
  const reader = new Blob([bytes]).stream().pipeThrough(stream).getReader();
  const parts = [];
  let size = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    size += value.length;
    if (size > MOST) {
      await reader.cancel();
      throw new Error('the link holds more than a notebook');
    }
    parts.push(value);
  }
  return new Uint8Array(await new Blob(parts).arrayBuffer());
}

/** The part of an address behind its `#`. */
export async function toLink(text) {
  const packed = await through(new CompressionStream('deflate-raw'), new TextEncoder().encode(text));
  const letters = btoa(String.fromCharCode(...packed));
  return `v1=${letters.replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '')}`;
}

/** The text of a link; `undefined` where the address holds none. */
export async function fromLink(hash) {
  const written = /^#?v(\d+)=([\w-]*)$/.exec(hash);
  if (!written) return undefined;
  if (written[1] !== '1') throw new Error('the link was made by a later version of this page');
  const packed = Uint8Array.from(atob(written[2].replaceAll('-', '+').replaceAll('_', '/')), (letter) => letter.charCodeAt(0));
  return new TextDecoder('utf-8', { fatal: true }).decode(await through(new DecompressionStream('deflate-raw'), packed));
}
