// What is typed is drawn and understood as it is typed; nothing is kept by this.
let timer;

document.addEventListener("input", (event) => {
  const field = event.target;
  if (field.id === "bed-lines" || field.id === "bed-anew") later(drawBeds);
  else if (field.id === "growing") later(hear);
});
document.addEventListener("shown", begin);

function later(what) { clearTimeout(timer); timer = setTimeout(() => what().catch(() => {}), 250); }

/** Buttons that only show what is shown anyway are for pages without a script. */
function begin() {
  document.querySelectorAll("[data-without-script]").forEach((each) => each.remove());
  document.querySelectorAll("#bed-lines, #growing").forEach((each) => { if (each.value.trim()) each.dispatchEvent(new Event("input", { bubbles: true })); });
}

const line = (words, kind) => Object.assign(document.createElement("p"), { textContent: words, className: kind || "" });

async function ask(address, given) {
  const answer = await fetch(`${address}?${new URLSearchParams(given)}`);
  return answer.ok ? answer.json() : null;
}

async function drawBeds() {
  const field = document.getElementById("bed-lines"), typed = field.value, anew = document.getElementById("bed-anew")?.checked;
  const told = await ask("/begin/drawn", { lines: typed, ...(anew ? { anew: "1" } : {}) });
  if (!told || !field.isConnected || field.value !== typed) return;
  const page = new DOMParser().parseFromString(told.picture || "", "text/html");
  const picture = page.body.firstElementChild;
  if (picture) document.getElementById("drawn").replaceChildren(document.adoptNode(picture));
  else if (!typed.trim()) document.getElementById("drawn").replaceChildren(line("North is up. Nothing is drawn yet.", "mute"));
  document.getElementById("understood").replaceChildren(...[told.said].filter(Boolean).map((each) => line(each)), ...told.took.map((each) => line(each, "mute")), ...told.wrong.map((each) => line(each, "wrong")));
}

async function hear() {
  const field = document.getElementById("growing"), typed = field.value;
  const told = await ask("/begin/heard", { lines: typed });
  if (!told || !field.isConnected || field.value !== typed) return;
  document.getElementById("lines-heard").replaceChildren(...told.lines.map((each) => {
    const item = document.createElement("li");
    item.append(...each.understood.map((words) => line(words, "understood")), ...each.asked.map((words) => line(words, "asked")), ...each.taken.map((words) => line(words, "mute")));
    return item;
  }));
}

begin();
