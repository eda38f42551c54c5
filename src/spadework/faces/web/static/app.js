// Forms without leaving the page, news of the book, and what was said.
// A page works without this; with it nothing that was typed is lost, and other people's ticks show at once.
import { sendForm } from "./send.js";
import { listen } from "./live.js";
import { hasWorker, watchLine } from "./line.js";
import { recall, remember } from "./pages.js";

const asCame = document.cloneNode(true);

const main = () => document.getElementById("main");

let last;

/** Say what came of an act, and offer to take it back. */
export const say = (words, undo) => {
  last = { words, undo };
  const box = document.getElementById("said");
  box.textContent = words || "";
  if (!undo) return;
  const form = Object.assign(document.createElement("form"), { method: "post", action: `/book/${undo}/undo` });
  const here = location.pathname + location.search;
  for (const [name, value] of [["together", "1"], ["back", here], ["token", document.querySelector("meta[name=form-token]").content]])
    form.append(Object.assign(document.createElement("input"), { type: "hidden", name, value }));
  form.append(Object.assign(document.createElement("button"), { className: "button quiet", textContent: "Take it back" }));
  box.append(form);
};

const parsed = (text) => new DOMParser().parseFromString(text, "text/html");

let shownFrom = 0;
let lastCame = asCame.getElementById("main")?.innerHTML;

/** Show another page, or this one anew, in place of what is shown. */
export async function show(address, { push = true, keepPlace = false, ifNew = false } = {}) {
  shownFrom = performance.now();
  const answer = await fetch(address, { headers: { accept: "text/html" } });
  const page = parsed(await answer.text());
  const fresh = page.getElementById("main");
  if (!fresh || looksChanged(page)) {
    // the page is opened whole: what was just said is said again there
    if (push && last) sessionStorage.setItem("said", JSON.stringify(last));
    location.assign(address);
    return;
  }
  if (answer.ok) remember(address, page).catch(() => {});
  if (ifNew && (fresh.innerHTML === lastCame || busy())) { waiting = waiting || fresh.innerHTML !== lastCame; return; }
  put(page, address, { push, keepPlace });
}

async function keepUnsentPage() {
  if (sessionStorage.getItem("unsent") === import.meta.url || location.pathname === "/unsent") return;
  const answer = await fetch("/unsent", { headers: { accept: "text/html" } });
  if (!answer.ok) return;
  await remember("/unsent", parsed(await answer.text()));
  sessionStorage.setItem("unsent", import.meta.url);
}

/** Show a page seen before, where there is no line and no worker to do it. */
async function showKept(address, push = true) {
  const page = await recall(address);
  if (!page) { say("There is no connection, and that page was not opened on this phone before. This one stays."); return; }
  const ours = new Set([...page.querySelectorAll("link[rel=stylesheet]")].map((each) => each.getAttribute("href")));
  for (const each of document.querySelectorAll("link[rel=stylesheet]")) if (!ours.delete(each.getAttribute("href"))) each.remove();
  for (const href of ours) document.head.append(Object.assign(document.createElement("link"), { rel: "stylesheet", href }));
  put(page, address, { push });
}

function put(page, address, { push = true, keepPlace = false } = {}) {
  const again = keepPlace ? placesKept() : undefined;
  lastCame = page.getElementById("main").innerHTML;
  const at = scrollY;
  for (const name of ["form-token", "garden", "day", "made"]) {
    const now = page.querySelector(`meta[name=${name}]`);
    if (now) document.querySelector(`meta[name=${name}]`)?.setAttribute("content", now.content);
  }
  main().replaceWith(document.adoptNode(page.getElementById("main")));
  document.title = page.title;
  if (push && address !== location.pathname + location.search) history.pushState({}, "", address);
  if (again) { scrollTo(0, at); scrollBy(0, again() || 0); } else { scrollTo(0, 0); main().focus({ preventScroll: true }); }
  document.dispatchEvent(new CustomEvent("shown"));
}

/** Whether a page needs styles or scripts this one does not have: then it is opened whole. */
function looksChanged(page) {
  const of = (doc) => [...doc.querySelectorAll("link[rel=stylesheet],script[src]")].map((each) => each.getAttribute("href") || each.getAttribute("src")).sort().join(" ");
  return of(page) !== of(document);
}

addEventListener("popstate", () => {
  const address = location.pathname + location.search;
  show(address, { push: false }).catch(() => (hasWorker() ? location.reload() : showKept(address, false)).catch?.(() => {}));
});

// Without a worker a link that finds no server would lose the open tab: so it is asked first whether anybody answers.
document.addEventListener("click", (event) => {
  const link = event.target.closest?.("a[href]");
  if (!link || event.defaultPrevented || event.button || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey || hasWorker()) return;
  if (link.origin !== location.origin || link.hasAttribute("download") || link.target || link.pathname + link.search === location.pathname + location.search) return;
  event.preventDefault();
  leaveFor(link.pathname + link.search + link.hash).catch(() => {});
});

async function leaveFor(address) {
  try {
    await fetch("/healthy", { cache: "no-store", signal: AbortSignal.timeout(6000) });
  } catch {
    document.dispatchEvent(new CustomEvent("line", { detail: false }));
    await showKept(address.split("#")[0]);
    return;
  }
  location.assign(address);
}

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (form.method !== "post" || form.hasAttribute("data-plain")) return;
  event.preventDefault();
  sendForm(form, event.submitter, { say, show }).catch(() => {});
});

/** Whether somebody is in the middle of typing or drawing: then news waits. */
const busy = () => document.querySelector("[data-editing], main [aria-busy], main .form-asks")
  || [...document.querySelectorAll("main form[method=post] :is(input:not([type=hidden]), textarea, select), main input:focus, main textarea:focus")].some(changed);

const changed = (field) => {
  if (field.matches("[type=checkbox], [type=radio]")) return field.checked !== field.defaultChecked;
  if (field.matches("select")) return [...field.options].some((each) => each.selected !== each.defaultSelected && each.defaultSelected);
  return field.value !== field.defaultValue;
};

/** Where something stands, so that it is found again in the same page made anew. */
const wordsOf = (each) => (each.matches("details") ? each.querySelector("summary") : each)?.textContent.trim().slice(0, 80) || "";
const placeOf = (each, kind) => {
  const home = each.parentElement.closest("main [id]");
  return { home: home?.id, at: [...(home || main()).querySelectorAll(kind)].indexOf(each), words: wordsOf(each) };
};
const foundAt = ({ home, at, words }, kind) => {
  const all = [...((home ? document.getElementById(home) : main())?.querySelectorAll(kind) || [])];
  return all[at] && wordsOf(all[at]) === words ? all[at] : all.find((each) => wordsOf(each) === words);
};
const CAN_HOLD = "a[href], button, summary, input, select, textarea";

/** What was opened, held and looked at stays so when the page is put in anew. */
function placesKept() {
  const open = [...document.querySelectorAll("main details")].filter((each) => each.open).map((each) => placeOf(each, "details"));
  const shut = [...document.querySelectorAll("main details")].filter((each) => !each.open).map((each) => placeOf(each, "details"));
  const held = main().contains(document.activeElement) && document.activeElement !== main() ? placeOf(document.activeElement, CAN_HOLD) : undefined;
  const seen = [...document.querySelectorAll("main article[id], main section[id]")].find((each) => each.getBoundingClientRect().bottom > 0);
  const top = seen?.getBoundingClientRect().top;
  return () => {
    for (const place of shut) { const found = foundAt(place, "details"); if (found?.open) found.open = false; }
    for (const place of open) { const found = foundAt(place, "details"); if (found) found.open = true; }
    if (held) foundAt(held, CAN_HOLD)?.focus({ preventScroll: true });
    const now = seen && document.getElementById(seen.id);
    return now ? now.getBoundingClientRect().top - top : undefined;
  };
}

let waiting = false;
let running = false;
async function refresh() {
  if (busy() || running) { waiting = true; return; }
  waiting = false;
  running = true;
  try { await show(location.pathname + location.search, { push: false, keepPlace: true, ifNew: true }); } finally { running = false; }
  if (waiting) setTimeout(goOn, 500);
}
const goOn = () => { if (waiting) refresh().catch(() => {}); };
document.addEventListener("focusout", () => setTimeout(goOn, 300));
document.addEventListener("shown", () => { waiting = false; });
document.addEventListener("book", () => {
  // an act of one's own is shown by the form that told it
  const came = performance.now();
  setTimeout(() => { if (shownFrom < came) refresh().catch(() => {}); }, 400);
});
const kept = sessionStorage.getItem("said");
if (kept) {
  sessionStorage.removeItem("said");
  const { words, undo } = JSON.parse(kept);
  say(words, undo);
}
if (document.querySelector(".rooms")) {
  const status = performance.getEntriesByType?.("navigation")[0]?.responseStatus || 200;
  if (status < 400) remember(location.pathname + location.search, asCame).catch(() => {});
  watchLine({ say, refresh });
  // what is unsent can be looked at without a line
  addEventListener("load", () => setTimeout(() => keepUnsentPage().catch(() => {}), 1000));
  listen();
}
