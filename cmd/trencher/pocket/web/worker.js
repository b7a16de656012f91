// The service worker keeps the page's own files on the phone, so that it opens
// where there is no network. It answers from what it keeps, and takes a newer
// edition whole or not at all. The program is kept unpacked, so that it need not
// be unpacked at each start, and apart, so that a newer plot does not load it
// again.
"use strict";
const edition = "trencher-{{.Edition}}";
const kept = {{.Files}};
const programKept = "trencher-program-{{.Program}}";

addEventListener("install", event => event.waitUntil(keepAll().then(() => skipWaiting())));

async function keepAll() {
  if (!await caches.has(programKept)) {
    const program = await unpacked(await loaded("program.wasm.gz"));
    await (await caches.open(programKept)).put("program.wasm", program);
  }
  await (await caches.open(edition)).addAll(kept.map(name => new Request(name, { cache: "no-cache" })));
}

// loaded loads a file and tells the pages that wait for it how far it is.
async function loaded(name) {
  const response = await fetch(name, { cache: "no-cache" });
  if (!response.ok) throw new Error(name + " is not there (" + response.status + ")");
  const total = Number(response.headers.get("Content-Length")), parts = [];
  let had = 0;
  for (const reader = response.body.getReader(); ;) {
    const { done, value } = await reader.read();
    if (done) return new Blob(parts);
    parts.push(value);
    had += value.length;
    if (total) for (const page of await clients.matchAll({ includeUncontrolled: true })) page.postMessage({ loaded: had / total });
  }
}

// unpacked is the program as it was before it was compressed; some hosts
// unpack it on the way already.
async function unpacked(program) {
  const head = new Uint8Array(await program.slice(0, 2).arrayBuffer());
  const plain = head[0] === 0x1f && head[1] === 0x8b ? program.stream().pipeThrough(new DecompressionStream("gzip")) : program;
  return new Response(plain, { headers: { "Content-Type": "application/wasm" } });
}

addEventListener("activate", event => {
  event.waitUntil(caches.keys()
    .then(names => Promise.all(names.filter(name => name.startsWith("trencher-") && name !== edition && name !== programKept).map(name => caches.delete(name))))
    .then(() => clients.claim()));
});

addEventListener("fetch", event => {
  if (event.request.method !== "GET") return;
  event.respondWith(caches.match(event.request, { ignoreSearch: true })
    .then(found => found || (event.request.mode === "navigate" ? caches.match("./") : undefined))
    .then(found => found || fetch(event.request)));
});
