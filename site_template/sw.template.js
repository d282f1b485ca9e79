/* Keeps one van's manual on the phone. Written by the generator: do not edit. */
"use strict";
const VERSION = @@VERSION@@; // digest of this file and the list below
const PREFIX = @@PREFIX@@; // this van's caches; every van of a host shares its storage
const EDITION = @@EDITION@@;
const DAY = @@DAY@@; // as it stands beside the edition
const CHANGES = @@CHANGES@@; // page that says what changed, or nothing
const FILES = @@FILES@@; // [path, first digits of its sha256 in base64, 0 at once or 1 later, its pack]
const PACKS = @@PACKS@@; // deflated JSON: lines that repeat, path -> pieces of a page, numbers being such lines
const CACHE = PREFIX + VERSION;
const SCOPE = self.registration.scope;
const FEW = 6; // pages that weigh less one by one than their pack
const HANDS = 3; // more at once would lose more when the signal goes
const address = path => new URL(path, SCOPE).href;
const look = (cache, href) => cache.match(href, { ignoreVary: true });
const TAKEN_OVER = address("?taken-over"); // in each cache: when its edition became the one that is shown

async function tell(message) {
  const windows = await self.clients.matchAll({ includeUncontrolled: true, type: "window" });
  for (const client of windows) client.postMessage({ ...message, edition: EDITION, changes: CHANGES });
}

// Other editions of this van, the one that was shown last at the end.
async function older() {
  const names = (await caches.keys()).filter(key => key.startsWith(PREFIX) && key !== CACHE);
  const dated = await Promise.all(names.map(async name => {
    const note = await look(await caches.open(name), TAKEN_OVER);
    return [note ? Number(await note.text()) : 0, name];
  }));
  return dated.sort((a, b) => a[0] - b[0]).map(pair => pair[1]);
}
async function kept() { return new Set((await (await caches.open(CACHE)).keys()).map(request => request.url)); }

async function digest(body) {
  const bytes = new Uint8Array(await crypto.subtle.digest("SHA-256", body));
  return btoa(String.fromCharCode(...bytes)).slice(0, FILES[0][1].length);
}

// Every file must match its digest, so that a half finished upload or an old copy on the way is refused and
// editions never mix.
async function store(cache, [path, wanted], body, given) {
  if (await digest(body) !== wanted) throw new Error(path + " is not what was published");
  const headers = new Headers(given);
  headers.delete("content-encoding");
  headers.delete("content-length");
  headers.set("x-sha", wanted);
  return cache.put(address(path), new Response(body, { headers }));
}

async function single(cache, file) {
  const answer = await fetch(address(file[0]), { cache: "no-cache", credentials: "same-origin" });
  if (!answer.ok) throw new Error(file[0] + " " + answer.status);
  return store(cache, file, await answer.arrayBuffer(), answer.headers);
}

// Returns false where there is no such pack, as on a host that was given the unpacked zip.
async function pack(cache, number, files, stored) {
  const answer = await fetch(address(PACKS[number]), { cache: "no-store", credentials: "same-origin" });
  if (!answer.ok) return false;
  const [lines, pages] = await new Response(answer.body.pipeThrough(new DecompressionStream("deflate"))).json();
  for (const file of files) {
    const text = pages[file[0]].map(piece => (typeof piece === "number" ? lines[piece] : piece)).join("");
    await store(cache, file, new TextEncoder().encode(text), { "content-type": "text/html; charset=utf-8" });
    await stored();
  }
  return true;
}

// Most pages differ from those before in two things alone: the edition, and the names of assets, which end in a hash.
const HASH = /\.[0-9a-f]{10}(?=\.\w+$)/;
const NAMED = new Map(FILES.map(([path]) => [path.replace(HASH, ""), path]));
function renewed(text) {
  return text
    .replace(/(edition="|>Edition |, edition )\d+(, \d+ [A-Z][a-z]+ \d{4})?/g, (_, before, day) => before + EDITION + (day ? ", " + DAY : ""))
    .replace(/assets\/[\w.-]+/g, path => NAMED.get(path.replace(HASH, "")) || path);
}

// What was kept before is taken from there, as it is or renewed; whether that is what was published, its digest says.
async function copied(cache, old, file) {
  for (const name of old) {
    const found = await look(await caches.open(name), address(file[0]));
    if (!found) continue;
    if (found.headers.get("x-sha") === file[1]) return cache.put(address(file[0]), found).then(() => true);
    if (!file[0].endsWith(".html")) continue;
    const text = new TextEncoder().encode(renewed(await found.text()));
    if (await store(cache, file, text, found.headers).then(() => true, () => false)) return true;
  }
  return false;
}

// What there is to do for the files that are missing, in the order of the list.
function tasks(cache, missing, stored) {
  const one = file => () => single(cache, file).then(stored);
  const todo = missing.filter(file => file[3] === undefined).map(one);
  PACKS.forEach((_, number) => {
    const files = missing.filter(file => file[3] === number);
    if (files.length < FEW || !self.DecompressionStream) todo.push(...files.map(one));
    else todo.push(async () => { if (!(await pack(cache, number, files, stored))) todo.push(...files.map(one)); });
  });
  return todo;
}

async function fill(list) {
  const cache = await caches.open(CACHE), have = await kept(), old = await older();
  const missing = [];
  let done = FILES.filter(file => have.has(address(file[0]))).length;
  for (const file of list.filter(file => !have.has(address(file[0])))) {
    if (await copied(cache, old, file)) done++;
    else missing.push(file);
  }
  const stored = async () => { if (++done % 8 === 0) await tell({ type: "loading", have: done, total: FILES.length }); };
  const todo = tasks(cache, missing, stored);
  const hand = async () => { for (let task = todo.shift(); task; task = todo.shift()) await task(); };
  // All hands are waited for, so that none reports progress after the page was told how it ended.
  const ended = await Promise.allSettled(Array.from({ length: HANDS }, hand));
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
// Another edition, newer or older, is taken whole or not at all: what is on the host counts.
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
  await (await caches.open(CACHE)).put(TAKEN_OVER, new Response(String(Date.now())));
  for (const name of (await older()).slice(0, -1)) await caches.delete(name);
  await self.clients.claim();
  const now = await status();
  if (now.type === "whole") await tell(now); // otherwise pages ask for the rest, and are told how that ended
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
    const isOurs = FILES.some(([path]) => [href, href + ".html", href + "/index.html"].includes(address(path)));
    return (await look(cache, address(isOurs ? "not-yet.html" : "404.html"))) || Response.error();
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
