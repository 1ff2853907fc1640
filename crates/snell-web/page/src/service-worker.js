// Keeps the page for the bank, whole: a new state is fetched to the last file, each by the sum of its bytes, before it is
// taken, and then it is taken for all pages at once. No request goes elsewhere.
const STATE = "STATE";
const FILES = { FILES: "" };
const KEPT = `snell-${STATE}`;

async function keep() {
  const cache = await caches.open(KEPT);
  await Promise.all(Object.entries(FILES).map(async ([name, integrity]) => {
    const answer = await fetch(new Request(name, { integrity, cache: 'no-cache' }));
    if (!answer.ok) throw new Error(`${name}: ${answer.status}`);
    await cache.put(name, answer);
  }));
}

async function forgetOthers() {
  const names = (await caches.keys()).filter((name) => name.startsWith('snell-') && name !== KEPT);
  await Promise.all(names.map((name) => caches.delete(name)));
}

self.addEventListener('install', (event) => event.waitUntil(keep()));
self.addEventListener('activate', (event) => event.waitUntil(forgetOthers()));
self.addEventListener('fetch', (event) => {
  const url = new URL(event.request.url);
  const scope = new URL(self.registration.scope);
  if (event.request.method !== 'GET' || !url.href.startsWith(scope.href)) return;
  const name = url.pathname.slice(scope.pathname.length) || 'index.html';
  if (name in FILES) {
    event.respondWith(caches.open(KEPT).then((cache) => cache.match(name)).then((kept) => kept ?? fetch(event.request)));
  }
});
