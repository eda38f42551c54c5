// Whether there is a line, what works without one, and what is unsent: said at the top of every page.
import { flush, unsent } from "./outbox.js";
import { list, markKept } from "./unsent.js";

let line = true;
let ready = false;
let timer;
const meta = (name) => document.querySelector(`meta[name=${name}]`)?.content || "";

export const hasWorker = () => Boolean(navigator.serviceWorker?.controller);

async function paint() {
  const state = document.getElementById("state");
  const bar = document.getElementById("line-bar");
  if (!state || !bar) return;
  const items = await unsent().catch(() => []);
  const asked = items.filter((item) => item.state !== "waiting").length;
  const mode = ready ? "works offline" : isSecureContext ? "" : "keep this tab open";
  const words = [items.length > asked ? `${items.length - asked} unsent` : "", asked ? `${asked} to answer` : ""].filter(Boolean).join(", ");
  state.textContent = words || mode;
  state.hidden = !state.textContent;
  state.classList.toggle("waiting", Boolean(words));
  const said = line ? "" : `No connection. This is the page as of ${asOf()}. What you tick is kept on this phone and sent later. ${ready ? "Pages you have opened can still be read." : "Keep this tab open: without a connection it cannot be loaded again."}`;
  if (bar.textContent !== said) bar.textContent = said;
}

function asOf() {
  const made = new Date(Number(meta("made")) * 1000);
  const time = made.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
  return made.toDateString() === new Date().toDateString() ? time : `${made.toLocaleDateString([], { weekday: "long", day: "numeric", month: "long" })}, ${time}`;
}

/** Send what waits and say what came of it; gives whether the page was brought up to date. */
async function sendWaiting({ say, refresh }) {
  const items = (await unsent()).filter((item) => item.state === "waiting" && item.ours);
  if (!items.length) return false;
  const came = await flush();
  setLine(came.line);
  const sent = came.said.length;
  if (!sent && !came.left) return false;
  if (sent) await refresh().catch(() => {});
  say([
    sent === 1 ? came.said[0] : sent ? `${sent} acts you told without reception are in the book.` : "",
    came.left ? `${came.left === 1 ? "One" : came.left} of what you told without reception ${came.left === 1 ? "needs" : "need"} an answer: see at the top.` : "",
  ].filter(Boolean).join(" "));
  return sent > 0;
}

/** Where the line was lost, ask whether it is back; then send what waits. */
async function lookAgain(tools) {
  if (!line && !(await fetch("/healthy", { cache: "no-store" })).ok) return;
  await back(tools);
}

async function back(tools) {
  const was = line;
  setLine(true);
  if (!(await sendWaiting(tools)) && !was && line) await tools.refresh();
}

function setLine(now) {
  if (line === now) return;
  line = now;
  paint().catch(() => {});
}

export function watchLine(tools) {
  const send = () => lookAgain(tools).catch(() => {});
  const show = () => { paint().catch(() => {}); markKept().catch(() => {}); list().catch(() => {}); };
  document.addEventListener("line", (event) => { if (event.detail) back(tools).catch(() => {}); else setLine(false); });
  document.addEventListener("unsent", show);
  document.addEventListener("shown", show);
  addEventListener("online", send);
  document.addEventListener("visibilitychange", () => { if (!document.hidden) send(); });
  timer ??= setInterval(send, 10000);
  show();
  send();
  startWorker();
}

function startWorker() {
  if (!navigator.serviceWorker) return;
  const workers = navigator.serviceWorker;
  const held = () => workers.controller ? null : new Promise((done) => workers.addEventListener("controllerchange", done, { once: true }));
  const start = () => workers.register("/sw.js").then(() => workers.ready).then(held).then(() => { ready = true; return paint(); }).catch(() => {});
  const idle = () => setTimeout(start, 400);
  if (document.readyState === "complete") idle(); else addEventListener("load", idle, { once: true });
}
