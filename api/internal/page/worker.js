// The service worker: keeps the files of the page by their version, so that forms and kept
// answers work without a connection. It never touches a question or an answer.
const version = "latewood-@VERSION@";
const files = "@FILES@".split(" ");

self.addEventListener("install", (event) => {
  event.waitUntil(
    caches
      .open(version)
      .then((cache) => cache.addAll(files))
      .then(() => self.skipWaiting()),
  );
});

self.addEventListener("activate", (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) =>
        Promise.all(names.filter((n) => n.startsWith("latewood-") && n !== version).map((n) => caches.delete(n))),
      )
      .then(() => self.clients.claim()),
  );
});

self.addEventListener("fetch", (event) => {
  const { request } = event,
    at = new URL(request.url);
  if (
    request.method !== "GET" ||
    at.origin !== self.location.origin ||
    !files.includes(at.pathname) ||
    at.search !== ""
  )
    return;
  event.respondWith(caches.open(version).then(async (cache) => (await cache.match(at.pathname)) || fetch(request)));
});
