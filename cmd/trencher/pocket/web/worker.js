// The service worker keeps the page's own files on the phone, so that it opens
// where there is no network. It answers from what it keeps, and takes a newer
// edition whole or not at all.
"use strict";
const edition = "{{.Edition}}";
const kept = {{.Files}};

addEventListener("install", event => {
  event.waitUntil(caches.open("trencher-" + edition)
    .then(cache => cache.addAll(kept.map(name => new Request(name, { cache: "reload" }))))
    .then(() => skipWaiting()));
});

addEventListener("activate", event => {
  event.waitUntil(caches.keys()
    .then(names => Promise.all(names.filter(name => name.startsWith("trencher-") && name !== "trencher-" + edition).map(name => caches.delete(name))))
    .then(() => clients.claim()));
});

addEventListener("fetch", event => {
  if (event.request.method !== "GET") return;
  event.respondWith(caches.match(event.request, { ignoreSearch: true })
    .then(found => found || (event.request.mode === "navigate" ? caches.match("./") : undefined))
    .then(found => found || fetch(event.request)));
});
