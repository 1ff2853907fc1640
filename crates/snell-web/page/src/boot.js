// Unpacks what the page in one file holds, and starts it. Five signs stand for four bytes, so that the page is smaller than
// with base64; none of them is `<`, which could end the element that they stand in.

const FIRST = 35;
const LEFT_OUT = 60;

function bytes({ textContent: signs, dataset }) {
  const all = new DataView(new ArrayBuffer((signs.length / 5) * 4));
  for (let at = 0, to = 0; at < signs.length; at += 5, to += 4) {
    let number = 0;
    for (let sign = at; sign < at + 5; sign += 1) {
      const code = signs.charCodeAt(sign);
      number = number * 85 + code - FIRST - (code > LEFT_OUT);
    }
    all.setUint32(to, number);
  }
  return new Uint8Array(all.buffer, 0, Number(dataset.size));
}

/** A part of the page by its id; what unpacks it further chooses in what form. */
globalThis.unpacked = (id) =>
  new Response(new Blob([bytes(document.getElementById(id))]).stream().pipeThrough(new DecompressionStream('gzip')));

unpacked('script').text().then((code) =>
  document.body.append(Object.assign(document.createElement('script'), { textContent: code })));
