/** Keeps the page's own files, so that it opens without a network. What the bench computer answers is never kept. */
const VERSION = "VERSION";
const FILES = JSON.parse("FILES");
const NAME = `fettle-${VERSION}`;

self.addEventListener("install", (event) => {
  event.waitUntil(
    caches
      .open(NAME)
      .then((cache) => cache.addAll(FILES))
      .then(() => self.skipWaiting()),
  );
});

self.addEventListener("activate", (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter((name) => name !== NAME).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) return;
  const scope = new URL("./", self.location.href).pathname;
  const name = url.pathname === scope ? `${scope}index.html` : url.pathname;
  if (!FILES.some((file) => new URL(file, self.location.href).pathname === name)) return;
  // From the net first, so that a new version is seen; without one, what was kept.
  event.respondWith(fetch(request).catch(() => caches.match(name === url.pathname ? request : "./index.html")));
});
