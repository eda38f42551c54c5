// Send a form and show what came of it beside it: done, asked, or what is wrong at which field.
import { newKey } from "./keys.js";

/** Send one form. What is typed stays until it is in the book. */
export async function sendForm(form, button, { say, show }) {
  const fields = new FormData(form, button?.name ? button : undefined);
  // one key for one act, however often it is sent
  if (!form.dataset.key) form.dataset.key = newKey();
  if (!fields.get("key")) fields.set("key", form.dataset.key);
  clear(form);
  form.setAttribute("aria-busy", "true");
  let answer;
  try {
    answer = await post(form.getAttribute("action") || location.pathname, fields);
  } catch {
    wrong(form, "", "There is no connection to the garden's computer.", "What you typed stays here; send it again when you are back.");
    return;
  } finally {
    form.removeAttribute("aria-busy");
  }
  const { status, told } = answer;
  if (status === 200 && told.go) {
    delete form.dataset.key;
    say(told.say, told.undo);
    const here = told.go.split("?")[0] === location.pathname;
    try {
      await show(told.go, { push: !here, keepPlace: here });
    } catch {
      // it is in the book all the same; only what is shown is old
      say(`${told.say || ""} The page could not be brought up to date: there is no connection.`.trim(), told.undo);
    }
  } else if (status === 409 && told.asks) ask(form, told, fields, { say, show });
  else wrong(form, told.field, told.wrong || "It could not be done.", told.hint);
}

export async function post(address, fields) {
  const answer = await fetch(address, { method: "POST", body: fields, headers: { "x-spadework": "page" } });
  return { status: answer.status, told: await answer.json().catch(() => ({})) };
}

function clear(form) {
  form.querySelectorAll(".wrong, .form-asks").forEach((each) => each.remove());
  form.querySelectorAll("[aria-invalid]").forEach((each) => { each.removeAttribute("aria-invalid"); each.removeAttribute("aria-describedby"); });
}

function wrong(form, name, words, hint) {
  const field = name && form.elements.namedItem(name);
  const said = Object.assign(document.createElement("p"), { className: "wrong", id: `wrong-${newKey()}`, textContent: `${words} ${hint || ""}`.trim() });
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
      const again = document.createElement("input");
      Object.assign(again, { type: "hidden", name: "insist", value: "1" });
      form.append(again);
      for (const [name, value] of fields) if (!form.elements.namedItem(name) && typeof value === "string") {
        const more = document.createElement("input");
        Object.assign(more, { type: "hidden", name, value });
        form.append(more);
      }
      sendForm(form, null, tools).finally(() => again.remove());
    });
    box.append(yes);
  }
  form.append(box);
  box.scrollIntoView({ block: "nearest" });
}
