// The module's SVG as nodes. Its texts are escaped; that nothing of it runs is seen to here once more.

const KNOWN = new Set(['svg', 'title', 'desc', 'style', 'rect', 'g', 'line', 'polyline', 'polygon', 'circle',
  'ellipse', 'path', 'text', 'tspan']);

/** The nodes, and the style sheet apart: a strict policy refuses styles within a page. */
export function picture(svg) {
  const parsed = new DOMParser().parseFromString(svg, 'image/svg+xml');
  const root = parsed.documentElement;
  if (root.localName !== 'svg' || parsed.querySelector('parsererror')) return undefined;
  let style = '';
  for (const node of [...root.querySelectorAll('*')]) {
    if (node.localName === 'style') {
      style += node.textContent;
      node.remove();
    } else if (!KNOWN.has(node.localName)) {
      node.remove();
    }
  }
  for (const node of [root, ...root.querySelectorAll('*')]) {
    for (const { name } of [...node.attributes]) {
      if (/^on|href|^style$/i.test(name)) node.removeAttribute(name);
    }
  }
  root.setAttribute('part', 'picture');
  return { node: document.importNode(root, true), style };
}
