// Makes every block of a rig live, on a page that mdBook, pandoc or another program wrote: it is wrapped in an element of its
// own. Blocks that their page calls wrong stay as they are.
import './rig-card.js';

for (const code of document.querySelectorAll('pre > code.language-rig, pre.rig > code')) {
  const block = code.parentElement;
  if (block.closest('rig-card') || /\bbad\b/.test(`${code.className} ${block.className}`)) continue;
  const place = document.createComment('');
  block.replaceWith(place);
  const card = document.createElement('rig-card');
  card.append(block);
  place.replaceWith(card);
}
