// The page to write and share. All that it needs stands in it.
import { source } from './rig-card.js';
import { fromLink, toLink } from './link.js';

/* global unpacked -- from boot.js */

const said = document.getElementById('said');
const card = document.querySelector('rig-card');

async function start() {
  const code = new Blob([await unpacked('worker').text()], { type: 'text/javascript' });
  const address = URL.createObjectURL(code);
  source.worker = () => new Worker(address);
  source.module = async () => WebAssembly.compile(await unpacked('module').arrayBuffer());
  await open();
  addEventListener('hashchange', open);
}

async function open() {
  try {
    const text = await fromLink(location.hash);
    card.text = text ?? card.text;
  } catch (error) {
    said.textContent = `This link cannot be read: ${error.message}.`;
    card.text = card.text;
  }
}

document.getElementById('copy').addEventListener('click', async () => {
  const link = await toLink(card.text);
  history.replaceState(null, '', `#${link}`);
  try {
    await navigator.clipboard.writeText(location.href);
    said.textContent = 'Copied.';
  } catch {
    said.textContent = 'The link stands in the address of this page.';
  }
});

start();
