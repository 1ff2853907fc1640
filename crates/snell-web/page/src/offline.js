// The page for the bank: the last notebook is there again, and cards and drifts are worked out on the phone.
import { slow } from './rig-card.js';

const KEPT = 'snell-notebook';
const said = document.getElementById('said');
const card = document.querySelector('rig-card');

const kept = localStorage.getItem(KEPT);
if (kept !== null) card.text = kept;
card.addEventListener('rig-change', ({ detail }) => localStorage.setItem(KEPT, detail.text));

document.getElementById('file').addEventListener('change', async ({ target }) => {
  const [file] = target.files;
  if (file) card.text = await file.text();
});

function show(what, ...more) {
  return async () => {
    const rig = card.look?.rig;
    if (!rig) {
      said.textContent = 'There is no rig to work out.';
      return;
    }
    said.textContent = 'Working …';
    try {
      const { told } = await card.ask(slow, what, rig, ...more);
      if (told === undefined) return;
      const image = Object.assign(new Image(), { alt: `${what} of ${rig}` });
      image.src = `data:image/svg+xml,${encodeURIComponent(told)}`;
      document.getElementById('drawn').replaceChildren(image);
      said.textContent = '';
    } catch (error) {
      said.textContent = `Not worked out: ${error.message}.`;
    }
  };
}

document.getElementById('card').addEventListener('click', show('card'));
document.getElementById('water').addEventListener('click', show('draw', true));

if ('serviceWorker' in navigator) navigator.serviceWorker.register('service-worker.js');
