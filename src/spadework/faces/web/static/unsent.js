// What is not sent yet, shown: at the jobs it is about, and all of it on its own page.
import { again, flush, forget, unsent } from "./outbox.js";

const made = (tag, with_ = {}, ...inside) => { const found = Object.assign(document.createElement(tag), with_); found.append(...inside); return found; };
const clock = (ms) => new Date(ms).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });

/** Mark the forms whose act is kept: told once is enough. */
export async function markKept() {
  const items = (await unsent()).filter((item) => item.ours);
  document.querySelectorAll(".kept-note").forEach((each) => each.remove());
  document.querySelectorAll("[data-kept]").forEach((each) => { each.removeAttribute("data-kept"); each.querySelectorAll("form[data-once] button").forEach((one) => { one.disabled = false; }); });
  for (const item of items) {
    const form = [...document.querySelectorAll("form[data-once]")].find((each) => each.getAttribute("action") === item.url);
    const place = form?.closest("article, li, main");
    if (!place || place.hasAttribute("data-kept")) continue;
    place.setAttribute("data-kept", item.state);
    place.querySelectorAll("form[data-once] button").forEach((each) => { each.disabled = true; });
    const note = made("p", { className: "kept-note" });
    if (item.state === "waiting") {
      note.append(`Kept on this phone at ${clock(item.told)}: ${item.words.split(":")[0].toLowerCase()}. `, button("Take it back", () => forget(item.key), "quiet"));
    } else note.append("There is a question about what you told here. ", made("a", { href: "/unsent", textContent: "Answer it" }));
    (place.querySelector(".do") || form).after(note);
  }
}

function button(words, act, kind = "") {
  const found = made("button", { type: "button", className: `button ${kind}`, textContent: words });
  found.addEventListener("click", () => { found.disabled = true; Promise.resolve(act()).catch(() => { found.disabled = false; }); });
  return found;
}

/** The page of what is unsent. */
export async function list() {
  const box = document.getElementById("unsent-list");
  if (!box || box.contains(document.activeElement) && document.activeElement.matches("input")) return;
  const items = await unsent();
  const asked = items.filter((item) => item.state === "asked");
  const refused = items.filter((item) => item.state === "refused");
  const waiting = items.filter((item) => item.state === "waiting");
  box.replaceChildren();
  if (!items.length) box.append(made("p", { className: "lead", textContent: "Everything you told is in the book. Nothing waits on this phone." }));
  section(box, "Questions from what you told without reception", asked, (item) => {
    const before = item.asks.some((each) => each.about === "done before");
    return [
      ...item.asks.map((each) => made("p", {}, made("strong", { textContent: each.found }), ` ${each.why}`)),
      choices(
        button(before ? "It is the same: leave mine out" : "Leave it out", () => forget(item.key), "quiet"),
        ...(item.can_insist ? [button(before ? "Mine is another: write it too" : "It is so: write it all the same", () => again(item.key, { insist: "1" }))] : []),
      ),
      change(item),
    ];
  });
  section(box, "Not taken: needs your eye", refused, (item) => [made("p", { className: "wrong", textContent: item.wrong }), change(item, true), choices(button("Leave it out", () => forget(item.key), "quiet"))]);
  section(box, "Waiting for a connection", waiting, (item) => [
    ...(item.ours ? [] : [made("p", { textContent: `It was told of ${item.place}; it is sent when that garden answers here.` })]),
    ...(item.trouble ? [made("p", { className: "wrong", textContent: item.trouble })] : []),
    choices(button("Leave it out", () => forget(item.key), "quiet")),
  ]);
  if (waiting.some((item) => item.ours)) box.append(choices(button("Send now", flush)));
}

const choices = (...buttons) => made("div", { className: "chips" }, ...buttons);

function section(box, title, items, body) {
  if (!items.length) return;
  box.append(made("h2", { textContent: title }));
  const all = made("ol", { className: "unsent" });
  for (const item of items) {
    const day = new Date(`${item.day}T12:00`).toLocaleDateString([], { weekday: "long", day: "numeric", month: "long" });
    all.append(made("li", { className: "card" }, made("p", {}, made("strong", { textContent: item.words }), item.detail ? ` (${item.detail})` : ""), made("p", { className: "mute", textContent: `Told for ${day}, at ${clock(item.told)}` }), ...body(item)));
  }
  box.append(all);
}

/** Change what was typed, and the day, and send it again. */
function change(item, open = false) {
  const form = made("form", { className: "fields" });
  const fields = item.fields.filter((each) => each.label && typeof each.value === "string");
  if (!item.fields.some((each) => each.name === "on")) fields.push({ name: "on", value: item.day, label: "Day", type: "date" });
  for (const each of fields) form.append(made("label", { textContent: `${each.label} ` }, made("input", { name: each.name, value: each.value, type: each.type || "text", autocomplete: "off" })));
  form.append(made("button", { className: "button", textContent: "Send it so" }));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    event.stopPropagation();
    document.activeElement?.blur();
    again(item.key, Object.fromEntries(new FormData(form))).catch(() => {});
  });
  return made("details", { className: "more", open }, made("summary", { textContent: "Change it" }), form);
}
