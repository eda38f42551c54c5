// Send a form and show what came of it beside it: done, asked, or what is wrong at which field.
// A form marked with data-keep is kept on the phone first: no line, a closed page or a stopped server lose nothing.
import { newKey } from "./keys.js";
import { flush, keep, leave, post, settled } from "./outbox.js";

/** Send one form. What is typed stays until it is in the book, or kept. */
export async function sendForm(form, button, { say, show }) {
  if (form.getAttribute("aria-busy")) return;
  const fields = new FormData(form, button?.name ? button : undefined);
  const url = new URL(form.getAttribute("action") || location.pathname, location.href).pathname;
  // one key for one act, however often it is sent
  if (!form.dataset.key) form.dataset.key = newKey();
  if (!fields.get("key")) fields.set("key", form.dataset.key);
  const key = fields.get("key");
  clear(form);
  form.setAttribute("aria-busy", "true");
  const { busy, wait } = form.dataset;
  if (busy) { say(busy); if (button) button.disabled = true; }
  let answer;
  let kept = false;
  try {
    if (form.dataset.keep) kept = await keep({ key, url, words: form.dataset.keep, detail: detail(form, button), fields: told(form, fields) });
    // what was told before goes first
    if (kept && !(await flush()).line) throw new TypeError("no line");
    answer = await post(url, fields, document.querySelector("meta[name=garden]")?.content, wait && 1000 * wait);
  } catch {
    document.dispatchEvent(new CustomEvent("line", { detail: false }));
    if (kept) {
      stays(form, key);
      say(`Kept on this phone: ${form.dataset.keep}. It is sent when there is a connection again.`);
    } else wrong(form, "", "There is no connection to the garden's computer.", "What you typed stays here; send it again when you are back.");
    return;
  } finally {
    form.removeAttribute("aria-busy");
    if (busy) { say(""); if (button) button.disabled = false; }
  }
  const { status, told: came } = answer;
  if (status === 401) {
    // let in no more: another tab lets it in, and what was told or typed is still here
    if (kept) {
      stays(form, key);
      say(`Kept on this phone: ${form.dataset.keep}. It is sent when this device is let in again.`);
    }
    wrong(form, "", came.wrong, kept ? "What you told waits on this phone." : "What you typed stays here; send it again when this device is let in.", letIn());
    return;
  }
  if (kept) await settled(key);
  if (status === 200 && came.go) {
    delete form.dataset.key;
    say(came.say, came.undo);
    const here = came.go.split("?")[0] === location.pathname;
    try {
      await show(came.go, { push: !here, keepPlace: here });
      // what is shown is the page that was answered, without what the old address asked for
      if (here && came.go !== location.pathname + location.search) history.replaceState({}, "", came.go);
    } catch {
      // it is in the book all the same; only what is shown is old
      say(`${came.say || ""} The page could not be brought up to date: there is no connection.`.trim(), came.undo);
    }
  } else if (status === 409 && came.asks) ask(form, came, fields, { say, show });
  else wrong(form, came.field, came.wrong || "It could not be done.", came.hint);
}

/** It waits on the phone now: the form is free for another act. */
function stays(form, key) {
  delete form.dataset.key;
  if (!form.hasAttribute("data-once")) form.reset();
  form.querySelectorAll("details[open]").forEach((each) => { each.open = false; });
  leave(key);
}

const letIn = () => Object.assign(document.createElement("a"), { href: "/let-in", target: "_blank", textContent: "Let this device in" });

/** The fields as they are kept, those a person typed with their labels. */
function told(form, fields) {
  return [...fields].filter(([name]) => name !== "key").map(([name, value]) => {
    const field = form.elements.namedItem(name);
    const label = field?.type !== "hidden" && field?.labels?.[0];
    return { name, value, label: label ? [...label.childNodes].filter((each) => each.nodeType === 3).map((each) => each.textContent).join(" ").trim() : "" };
  });
}

/** What was typed or chosen, in a line. */
function detail(form, button) {
  const typed = [...form.elements].filter((each) => each.matches("input:not([type=hidden]), textarea, select") && !["checkbox", "radio", "file"].includes(each.type) && each.value);
  const chosen = button?.name && button.name !== "insist" ? [button.textContent.trim()] : [];
  return [...chosen, ...typed.map((each) => `${each.labels?.[0]?.textContent.trim().replace(/\s+/g, " ") || ""} ${each.value}`.trim())].join("; ").slice(0, 300);
}

function clear(form) {
  form.querySelectorAll(".wrong, .form-asks").forEach((each) => each.remove());
  form.querySelectorAll("[aria-invalid]").forEach((each) => { each.removeAttribute("aria-invalid"); each.removeAttribute("aria-describedby"); });
}

function wrong(form, name, words, hint, way) {
  const field = name && form.elements.namedItem(name);
  const said = Object.assign(document.createElement("p"), { className: "wrong", id: `wrong-${newKey()}`, textContent: `${words} ${hint || ""}`.trim() });
  if (way) said.append(" ", way);
  said.setAttribute("role", "alert");
  if (field && field.after) {
    (field.closest("label") || field).after(said);
    field.setAttribute("aria-invalid", "true");
    field.setAttribute("aria-describedby", said.id);
    field.focus();
  } else form.append(said);
}

function ask(form, told, fields, tools) {
  const box = Object.assign(document.createElement("div"), { className: "form-asks" });
  box.setAttribute("role", "alert");
  for (const each of told.asks) {
    const line = document.createElement("p");
    line.append(Object.assign(document.createElement("strong"), { textContent: each.found }), ` ${each.why}`);
    box.append(line);
  }
  if (told.can_insist) {
    const yes = Object.assign(document.createElement("button"), { className: "button", type: "button", textContent: "It is so: write it all the same" });
    yes.addEventListener("click", () => {
      const before = [...fields].filter(([name, value]) => name !== "key" && !form.elements.namedItem(name) && typeof value === "string");
      const added = [...before, ["insist", "1"]].map(([name, value]) => Object.assign(document.createElement("input"), { type: "hidden", name, value }));
      form.append(...added);
      sendForm(form, null, tools).catch(() => {}).finally(() => added.forEach((each) => each.remove()));
    });
    box.append(yes);
  }
  form.append(box);
  box.scrollIntoView({ block: "nearest" });
}
