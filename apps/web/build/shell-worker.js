// The shell of the app, kept on the device. Records never pass through here: they have a store of their own.
const files = __FILES__;
const shell = 'bakehouse-shell-__VERSION__';

self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(shell).then((cache) => cache.addAll(files.map((file) => new Request(file, { cache: 'reload' })))));
});

self.addEventListener('activate', (event) => {
  const old = (names) => names.filter((name) => name.startsWith('bakehouse-shell-') && name !== shell);
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(old(names).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});

// A person asks for the new version: nothing changes under their hands before that.
self.addEventListener('message', (event) => {
  if (event.data === 'take-over') self.skipWaiting();
});

self.addEventListener('fetch', (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== 'GET' || url.origin !== self.location.origin || url.pathname.startsWith('/api')) return;
  const page = event.request.mode === 'navigate';
  event.respondWith(
    caches
      .open(shell)
      .then((cache) => cache.match(page ? '/' : event.request))
      .then((kept) => kept ?? fetch(event.request)),
  );
});
