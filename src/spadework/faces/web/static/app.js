// Forms without leaving the page, news of the book, and what was said.
// A page works without this; with it nothing that was typed is lost, and other people's ticks show at once.
import { sendForm } from "./send.js";
import { listen } from "./live.js";

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

/** Show another page, or this one anew, in place of what is shown. */
export async function show(address, { push = true, keepPlace = false, unless } = {}) {
  const answer = await fetch(address, { headers: { accept: "text/html" } });
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  const fresh = page.getElementById("main");
  if (unless?.()) return;
  if (!fresh || looksChanged(page)) {
    // the page is opened whole: what was just said is said again there
    if (push && last) sessionStorage.setItem("said", JSON.stringify(last));
    location.assign(address);
    return;
  }
  const at = scrollY;
  main().replaceWith(document.adoptNode(fresh));
  document.title = page.title;
  if (push && address !== location.pathname + location.search) history.pushState({}, "", address);
  if (keepPlace) scrollTo(0, at); else { scrollTo(0, 0); main().focus({ preventScroll: true }); }
  document.dispatchEvent(new CustomEvent("shown"));
}

/** Whether a page needs styles or scripts this one does not have: then it is opened whole. */
function looksChanged(page) {
  const of = (doc) => [...doc.querySelectorAll("link[rel=stylesheet],script[src]")].map((each) => each.getAttribute("href") || each.getAttribute("src")).sort().join(" ");
  return of(page) !== of(document);
}

addEventListener("popstate", () => show(location.pathname + location.search, { push: false }).catch(() => location.reload()));

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (form.method !== "post" || form.hasAttribute("data-plain")) return;
  event.preventDefault();
  sendForm(form, event.submitter, { say, show });
});

/** Whether somebody is in the middle of typing: then news waits. */
const busy = () => {
  const at = document.activeElement;
  return (at && at.matches("input, textarea, select") && at.value) || document.querySelector("[data-editing]") || typed();
};

/** Whether a form that writes holds something typed and not yet sent. */
const typed = () => [...document.querySelectorAll("main form[method=post] :is(input:not([type=hidden]), textarea)")]
  .some((each) => (["checkbox", "radio"].includes(each.type) ? each.checked !== each.defaultChecked : each.type !== "file" && each.value !== each.defaultValue));

let waiting = false;
async function refresh() {
  if (busy()) { waiting = true; return; }
  waiting = false;
  let open = [];
  // somebody may begin to type, or open something, while the news is under way
  const unless = () => {
    open = [...document.querySelectorAll("details[open]")].map((each) => each.closest("[id]")?.id);
    waiting = Boolean(busy());
    return waiting;
  };
  await show(location.pathname + location.search, { push: false, keepPlace: true, unless });
  for (const id of open) {
    const found = id && document.getElementById(id);
    const box = found?.matches("details") ? found : found?.querySelector("details.more");
    if (box) box.open = true;
  }
}
document.addEventListener("focusout", () => { if (waiting) setTimeout(() => refresh().catch(() => {}), 300); });
document.addEventListener("book", () => refresh().catch(() => {}));
const kept = sessionStorage.getItem("said");
if (kept) {
  sessionStorage.removeItem("said");
  const { words, undo } = JSON.parse(kept);
  say(words, undo);
}
if (document.querySelector(".rooms")) listen();
