// Lines are heard while they are typed: how they would stand in the book, and what would be asked first.
let timer, asked = 0;

document.addEventListener("input", (event) => {
  if (event.target.id !== "line") return;
  grow(event.target);
  for (const each of event.target.form.querySelectorAll("[data-answer]")) each.remove();
  clearTimeout(timer);
  timer = setTimeout(() => hear(), 250);
});

// Enter writes, with Shift it begins another line; where there are no keys a phone's Enter is a new line
document.addEventListener("keydown", (event) => {
  if (event.target.id !== "line" || event.key !== "Enter" || event.shiftKey || event.isComposing) return;
  if (!matchMedia("(hover: hover)").matches) return;
  event.preventDefault();
  event.target.form.requestSubmit();
});

const grow = (box) => { box.rows = Math.min(Math.max(box.value.split("\n").length, 1), 8); };

async function hear() {
  const box = document.getElementById("heard");
  const line = document.getElementById("line");
  if (!box || !line) return;
  const mine = ++asked;
  if (!line.value.trim()) { box.replaceChildren(); return; }
  const fields = new URLSearchParams();
  for (const [name, value] of new FormData(line.form)) if (typeof value === "string" && name !== "token") fields.set(name, value);
  let heard;
  try {
    const answer = await fetch(`/book/hear?${fields}`);
    heard = await answer.json();
  } catch { return; }
  if (mine !== asked || !line.isConnected) return;
  const lines = [];
  for (const text of heard.entries || []) lines.push(said("understood", text));
  for (const each of heard.asked || []) {
    const question = said("asked", `Asked first: ${each.text}`);
    const group = Object.assign(document.createElement("div"), { className: "chips" });
    for (const pick of (each.picks || []).slice(0, 12)) {
      const chip = Object.assign(document.createElement("button"), { type: "button", className: "chip", textContent: pick.name });
      chip.addEventListener("click", () => answer(line.form, pick));
      group.append(chip);
    }
    lines.push(question);
    if (group.childElementCount) lines.push(group);
  }
  for (const text of heard.taken || []) lines.push(said("taken", text));
  box.replaceChildren(...lines);
}

const said = (className, textContent) => Object.assign(document.createElement("p"), { className, textContent });

/** An answer to "which?" goes along with the line, and the line is heard anew. */
function answer(form, pick) {
  const field = Object.assign(document.createElement("input"), { type: "hidden", name: pick.field, value: pick.value });
  field.dataset.answer = "";
  form.append(field);
  document.getElementById("line").focus();
  hear();
}
