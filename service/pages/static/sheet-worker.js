// The worker of visit sheets: the network first, what was last seen when there is none. Sheets leave the phone after a week.
"use strict";

const HOLD = "sheets-1";
const WEEK = 7 * 24 * 3600 * 1000;
const OWN = ["/static/house.css", "/static/sheet.css", "/static/sheet.js", "/static/mark.svg"];

addEventListener("install", (event) => {
  skipWaiting();
  event.waitUntil(caches.open(HOLD).then((hold) => hold.addAll(OWN)));
});

addEventListener("activate", (event) => {
  event.waitUntil(Promise.all([clients.claim().then(seeOpenSheets), forgetOld()]));
});

// The page that brought the worker was loaded before it stood: fetch it once more, so that it is held from the first visit on.
async function seeOpenSheets() {
  const hold = await caches.open(HOLD);
  for (const client of await clients.matchAll({ type: "window" })) {
    const path = new URL(client.url).pathname;
    if (path.startsWith("/visit/")) await fetch(path).then((answer) => remember(hold, path, answer)).catch(() => {});
  }
}

async function remember(hold, path, answer) {
  if (!answer.ok) {
    if (answer.status === 404) await hold.delete(path);
    return;
  }
  const headers = new Headers(answer.headers);
  headers.set("x-held-at", String(Date.now()));
  await hold.put(path, new Response(await answer.blob(), { status: 200, headers }));
}

async function forgetOld() {
  const hold = await caches.open(HOLD);
  for (const request of await hold.keys()) {
    const held = await hold.match(request);
    const at = Number(held.headers.get("x-held-at") || 0);
    if (at && Date.now() - at > WEEK) await hold.delete(request);
  }
}

addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  const own = OWN.includes(url.pathname);
  const sheet = event.request.mode === "navigate" && /^\/visit\/[^/]+$/.test(url.pathname);
  // A form that lacked something is no sheet to keep.
  if (url.searchParams.has("again")) return;
  if (event.request.method !== "GET" || url.origin !== location.origin || !(own || sheet)) return;
  event.respondWith(answerFor(event.request, url.pathname));
});

async function answerFor(request, path) {
  const hold = await caches.open(HOLD);
  try {
    const answer = await fetch(request);
    await remember(hold, path, answer.clone());
    return answer;
  } catch (gone) {
    await forgetOld();
    const held = await hold.match(path);
    if (held) return held;
    throw gone;
  }
}
