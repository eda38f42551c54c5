// Pages seen last, for when there is no line: read from here by the open tab, and by the service worker.
import { every, one, put, run } from "./store.js";

const MOST = 60;
const unwanted = /^\/(begin|live|sw\.js|unsent\/)/;

/** Remember a page as it came from the server. */
export async function remember(address, doc) {
  if (unwanted.test(address)) return;
  const clean = doc.documentElement.cloneNode(true);
  for (const id of ["said", "line-bar"]) clean.querySelector(`#${id}`)?.replaceChildren();
  const garden = clean.querySelector("meta[name=garden]")?.content || "";
  await put("pages", { address, html: `<!doctype html>${clean.outerHTML}`, at: Date.now(), garden });
  const all = (await every("pages")).sort((one, other) => other.at - one.at);
  if (all.length > MOST) await run("pages", "readwrite", (store) => { for (const old of all.slice(MOST)) store.delete(old.address); });
}

/** A page seen before, or nothing. */
export async function recall(address) {
  const found = (await one("pages", address).catch(() => undefined)) || (await one("pages", address.split("?")[0]).catch(() => undefined));
  const garden = document.querySelector("meta[name=garden]")?.content;
  return found && (!garden || !found.garden || found.garden === garden) ? new DOMParser().parseFromString(found.html, "text/html") : undefined;
}
