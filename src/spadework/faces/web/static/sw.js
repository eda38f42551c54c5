// Keeps the pages readable without a line, where the browser allows it (this machine, or trusted https).
// It only answers for pages and static files; acts and news never pass through it.
const STATIC = "static-__DIGEST__";
const SHELL = __SHELL__;
const HEADERS = { "content-type": "text/html; charset=utf-8", "content-security-policy": "__POLICY__" };
const WAIT_MS = 8000;

self.addEventListener("install", (event) => event.waitUntil(caches.open(STATIC).then((kept) => kept.addAll(SHELL)).then(() => self.skipWaiting())));
self.addEventListener("activate", (event) => event.waitUntil(caches.keys().then((names) => Promise.all(names.filter((name) => name !== STATIC).map((name) => caches.delete(name)))).then(() => self.clients.claim())));

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== location.origin) return;
  if (url.pathname.startsWith("/static/")) event.respondWith(fixed(request));
  else if (request.mode === "navigate") event.respondWith(page(request, url));
});

async function fixed(request) {
  const kept = await caches.match(request);
  if (kept) return kept;
  const fresh = await fetch(request);
  if (fresh.ok) { const copy = fresh.clone(); caches.open(STATIC).then((all) => all.put(request, copy)).catch(() => {}); }
  return fresh;
}

async function page(request, url) {
  const fresh = fetch(request);
  fresh.catch(() => {});
  try {
    return await Promise.race([fresh, new Promise((_, late) => setTimeout(() => late(new Error("late")), WAIT_MS))]);
  } catch (fault) {
    const html = (await seen(url.pathname + url.search)) || (await seen(url.pathname));
    if (html) return new Response(html, { headers: HEADERS });
    if (fault.message === "late") return fresh.catch(() => nothing());
    return nothing();
  }
}

const nothing = () => new Response(
  `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>No connection</title><link rel="stylesheet" href="${SHELL[0]}"><main><h1>No connection</h1><p class="lead">This page was not opened on this phone before, so it is not here without a connection.</p><p><a class="button" href="/">To the round</a> <a class="button quiet" href="/unsent">What is unsent</a></p></main>`,
  { status: 503, headers: HEADERS });

function seen(address) {
  return new Promise((done) => {
    const asked = indexedDB.open("spadework", 1);
    asked.onerror = asked.onblocked = () => done("");
    // the pages make the stores; where they have not yet, there is nothing to read
    asked.onupgradeneeded = () => asked.transaction.abort();
    asked.onsuccess = () => {
      const got = asked.result.transaction("pages", "readonly").objectStore("pages").get(address);
      got.onsuccess = () => { asked.result.close(); done(got.result?.html || ""); };
      got.onerror = () => { asked.result.close(); done(""); };
    };
  });
}
