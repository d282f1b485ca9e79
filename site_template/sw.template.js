/* Keeps one van's manual on the phone. Written by the generator: do not edit. */
"use strict";
const VERSION = @@VERSION@@; // digest of this file and the list below
const PREFIX = @@PREFIX@@; // this van's caches; every van of a host shares its storage
const EDITION = @@EDITION@@;
const CHANGES = @@CHANGES@@; // page that says what changed, or nothing
const FILES = @@FILES@@; // [path, sha256 in base64, 0 at once or 1 later]
const CACHE = PREFIX + VERSION;
const SCOPE = self.registration.scope;
const address = path => new URL(path, SCOPE).href;
const look = (cache, href) => cache.match(href, { ignoreVary: true });

async function tell(message) {
  const windows = await self.clients.matchAll({ includeUncontrolled: true, type: "window" });
  for (const client of windows) client.postMessage({ ...message, edition: EDITION, changes: CHANGES });
}
async function older() { return (await caches.keys()).filter(key => key.startsWith(PREFIX) && key !== CACHE); }
async function kept() { return new Set((await (await caches.open(CACHE)).keys()).map(request => request.url)); }

// An unchanged file is copied from the edition before; every other must match its hash, so that a half
// finished upload or an old copy on the way is refused and editions never mix.
async function take(cache, old, [path, hash]) {
  const href = address(path);
  for (const key of old) {
    const found = await look(await caches.open(key), href);
    if (found && found.headers.get("x-sha") === hash) return cache.put(href, found);
  }
  const answer = await fetch(href, { cache: "no-cache", integrity: "sha256-" + hash, credentials: "same-origin" });
  if (!answer.ok) throw new Error(path + " " + answer.status);
  const headers = new Headers(answer.headers);
  headers.delete("content-encoding");
  headers.delete("content-length");
  headers.set("x-sha", hash);
  return cache.put(href, new Response(await answer.arrayBuffer(), { headers }));
}

async function fill(list) {
  const cache = await caches.open(CACHE);
  const have = await kept();
  const todo = list.filter(file => !have.has(address(file[0])));
  const old = await older();
  let done = FILES.length - FILES.filter(file => !have.has(address(file[0]))).length;
  const hand = async () => {
    for (let file = todo.shift(); file; file = todo.shift()) {
      await take(cache, old, file);
      done++;
      if (done % 8 === 0) await tell({ type: "loading", have: done, total: FILES.length });
    }
  };
  // All hands are waited for, so that none reports progress after the page was told how it ended.
  const ended = await Promise.allSettled(Array.from({ length: 6 }, hand));
  const failed = ended.find(each => each.status === "rejected");
  if (failed) throw failed.reason;
}

async function status() {
  const have = await kept();
  const count = FILES.filter(file => have.has(address(file[0]))).length;
  return { type: count === FILES.length ? "whole" : "part", have: count, total: FILES.length };
}

let filling = null;
async function complete() {
  try {
    await (filling = filling || fill(FILES).finally(() => { filling = null; }));
  } catch { /* out of signal or out of room: what is there stays, and the page says so */ }
  await tell(await status());
}

// The first visit takes what matters most and the page in hand; the page then asks for the rest.
// A new edition is taken whole or not at all.
self.addEventListener("install", event => event.waitUntil((async () => {
  if (self.registration.active) {
    await fill(FILES);
    return self.skipWaiting();
  }
  const windows = await self.clients.matchAll({ includeUncontrolled: true, type: "window" });
  const open = new Set(windows.map(client => page(new URL(client.url))));
  await fill(FILES.filter(file => file[2] === 0 || open.has(address(file[0]))));
})()));

// The edition before is kept for a page that is still open from it.
self.addEventListener("activate", event => event.waitUntil((async () => {
  for (const key of (await older()).slice(0, -1)) await caches.delete(key);
  await self.clients.claim();
  await tell(await status());
})()));

self.addEventListener("message", event => {
  if (event.data === "fill") event.waitUntil(complete());
});

function page(url) {
  url.hash = url.search = "";
  if (url.pathname.endsWith("/")) url.pathname += "index.html";
  return url.href;
}

async function visit(request) {
  const href = page(new URL(request.url));
  const cache = await caches.open(CACHE);
  const found = (await look(cache, href)) || (await look(cache, href + ".html"));
  if (found) return found;
  if (await look(cache, href + "/index.html")) return Response.redirect(href + "/", 302);
  try {
    return await fetch(request);
  } catch {
    return (await look(cache, address("404.html"))) || Response.error();
  }
}

async function piece(request) {
  const url = new URL(request.url);
  url.hash = url.search = "";
  const found = await look(await caches.open(CACHE), url.href);
  if (found) return found;
  for (const key of (await older()).reverse()) {
    const before = await look(await caches.open(key), url.href);
    if (before) return before;
  }
  return fetch(request);
}

self.addEventListener("fetch", event => {
  const request = event.request;
  if (request.method !== "GET" || new URL(request.url).origin !== location.origin) return;
  event.respondWith(request.mode === "navigate" ? visit(request) : piece(request));
});
