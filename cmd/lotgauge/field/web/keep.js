// The service worker of a page that was handed over: it keeps the page, so that
// its address opens without the laptop, and nothing else.
const name = "lotgauge-field";
const page = new URL("./", self.location).href;

self.addEventListener("install", (event) => {
  const fresh = new Request(page + "?kept", { cache: "reload" });
  event.waitUntil(fetch(fresh)
    .then((reply) => {
      if (!reply.ok) throw new Error("not handed over: " + reply.status);
      return caches.open(name).then((cache) => cache.put(page, reply));
    })
    .then(() => self.skipWaiting()));
});

self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

self.addEventListener("fetch", (event) => {
  if (event.request.method !== "GET" || event.request.mode !== "navigate") return;
  event.respondWith(caches.match(page).then((kept) => kept || fetch(event.request)));
});
