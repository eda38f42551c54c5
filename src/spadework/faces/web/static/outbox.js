// Acts told without reception: kept on the phone before they are sent, sent in order, once, and asked about where need be.
import { drop, every, put, run } from "./store.js";

const WAIT_MS = 20000;
const inHand = new Set(); // being sent from its own form just now
const meta = (name) => document.querySelector(`meta[name=${name}]`)?.content || "";

/** The day it is where the garden is asked about: the phone's own, unless the server keeps to one. */
export function today() {
  const now = new Date();
  return meta("day") || [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((each) => String(each).padStart(2, "0")).join("-");
}

const changed = () => document.dispatchEvent(new CustomEvent("unsent"));

/** All that is not sent, in the order it was told; `ours` tells what belongs to the garden shown. */
export async function unsent() {
  const garden = meta("garden");
  return (await every("unsent")).filter((item) => !inHand.has(item.key)).map((item) => ({ ...item, ours: !item.garden || !garden || item.garden === garden }));
}

/** Keep an act before it is sent. Gives false where the browser keeps nothing. */
export async function keep(item) {
  inHand.add(item.key);
  try {
    await put("unsent", { state: "waiting", told: Date.now(), day: today(), garden: meta("garden"), place: document.querySelector(".garden-name")?.textContent || "", ...item });
    navigator.storage?.persist?.().catch(() => {});
    return true;
  } catch { return false; }
}

/** It was answered beside its form, so it need not be kept. */
export async function settled(key) {
  await drop("unsent", key).catch(() => {});
  inHand.delete(key);
}

/** It stays kept: there was no answer. */
export function leave(key) { inHand.delete(key); changed(); }

export async function forget(key) { await drop("unsent", key); changed(); }

/** Send it again: with a change in its fields, or insisted on. */
export async function again(key, changes) {
  await patch(key, (item) => {
    const fields = item.fields.filter((each) => !(each.name in changes)).concat(Object.entries(changes).map(([name, value]) => ({ ...item.fields.find((each) => each.name === name), name, value })));
    return { ...item, fields, state: "waiting", asks: undefined, wrong: undefined };
  });
  return flush();
}

const patch = (key, change) => run("unsent", "readwrite", (store) => {
  store.get(key).onsuccess = (event) => { if (event.target.result) store.put(change(event.target.result)); };
});

export async function post(address, fields, garden, wait = WAIT_MS) {
  const end = new AbortController();
  const timer = setTimeout(() => end.abort(), wait);
  try {
    const headers = { "x-spadework": "page", ...(garden ? { "x-garden": garden } : {}) };
    const answer = await fetch(address, { method: "POST", body: fields, headers, signal: end.signal });
    return { status: answer.status, told: await answer.json().catch((fault) => { if (fault instanceof SyntaxError) return {}; throw fault; }) };
  } finally { clearTimeout(timer); }
}

let running;
/** Send what waits. Gives what came of it: sentences now in the book, how many are asked about, whether there is a line. */
export function flush() {
  running ??= sendAll().finally(() => { running = undefined; changed(); });
  return running;
}

async function sendAll() {
  const came = { said: [], left: 0, line: true };
  for (const item of await unsent()) {
    if (item.state !== "waiting" || !item.ours) continue;
    const fields = new FormData();
    for (const { name, value } of item.fields) fields.append(name, name === "token" ? meta("form-token") : value);
    if (!fields.get("on")) fields.set("on", item.day);
    fields.set("key", item.key);
    let answer;
    try { answer = await post(item.url, fields, item.garden); } catch { came.line = false; return came; }
    const { status, told } = answer;
    if (status === 200 && told.go) {
      await drop("unsent", item.key);
      came.said.push(told.say || item.words);
    } else if (status === 409 && told.asks) {
      came.left += 1;
      await patch(item.key, (kept) => ({ ...kept, state: "asked", asks: told.asks, can_insist: told.can_insist }));
    } else if ([404, 409, 413, 422].includes(status)) {
      came.left += 1;
      await patch(item.key, (kept) => ({ ...kept, state: "refused", wrong: `${told.wrong || "It could not be done."} ${told.hint || ""}`.trim(), field: told.field || "" }));
    } else {
      // nobody was let in, the disk is full, another garden answers: it waits, and says why
      await patch(item.key, (kept) => ({ ...kept, trouble: told.wrong || "The garden's computer did not take it." }));
      return came;
    }
  }
  return came;
}
