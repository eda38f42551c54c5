// A trial sowing is taken by its ring and moved: by pointer, or by the arrow keys. Its odds are asked for when it rests.
const DAY = 86400000;
const REST = 160;
let held; // { bar, from, at, id }
let timer;
let asked = 0;

const trialOf = (event) => event.target.closest?.(".trial");
const number = (bar, name) => Number(bar.getAttribute(`aria-${name}`));
const isoOf = (bar, value) => new Date(Date.parse(bar.dataset.first) + value * DAY).toISOString().slice(0, 10);

/** Draw a bar where it is held, and ask for its odds when it rests there. */
function moveTo(bar, value) {
  const day = Math.min(Math.max(Math.round(value), number(bar, "valuemin")), number(bar, "valuemax"));
  const drawn = Number(bar.dataset.drawn ?? number(bar, "valuenow"));
  bar.dataset.drawn = drawn;
  bar.setAttribute("aria-valuenow", day);
  bar.setAttribute("transform", `translate(${(day - drawn) * Number(bar.dataset.day)} 0)`);
  bar.classList.add("asking");
  bar.setAttribute("data-editing", "");
  const said = new Date(Date.parse(isoOf(bar, day))).toLocaleDateString(undefined, { day: "numeric", month: "short", timeZone: "UTC" });
  const word = bar.querySelector(".trial-day");
  if (word) word.textContent = said;
  clearTimeout(timer);
  timer = setTimeout(() => ask(bar, day).catch(() => lost(bar)), REST);
}

/** The address with one trial on another day. */
function triedWith(bar, day) {
  const tried = (new URLSearchParams(location.search).get("try") || "").split(",").filter(Boolean);
  const at = Number(bar.dataset.at);
  const parts = tried[at].split(".");
  tried[at] = [...parts.slice(0, -1), isoOf(bar, day)].join(".");
  return tried.join(",");
}

async function ask(bar, day) {
  const turn = (asked += 1);
  const answer = await fetch(`/season/move?try=${triedWith(bar, day)}&at=${bar.dataset.at}`);
  if (!answer.ok) throw new Error("refused");
  const moved = await answer.json();
  if (turn !== asked || !bar.isConnected) return;
  // only what the server draws of numbers and names it has escaped
  bar.innerHTML = moved.bar;
  bar.removeAttribute("transform");
  delete bar.dataset.drawn;
  bar.classList.remove("asking");
  bar.removeAttribute("data-editing");
  bar.setAttribute("aria-valuenow", moved.value);
  bar.setAttribute("aria-valuetext", moved.value_text);
  history.replaceState(history.state, "", moved.address);
  const card = document.getElementById(`tried-${bar.dataset.at}`);
  if (card) {
    card.querySelector("h3").textContent = moved.act;
    card.querySelector(".tried-dots").innerHTML = moved.dots;
    card.querySelector(".tried-said").textContent = moved.said;
  }
  const box = document.getElementById("moved");
  if (box) box.textContent = `${moved.act}: ${moved.said}`;
  // links and the form below lead on from what was there before: they are brought up to date
  await freshen();
}

/** Take the steps and the form of the page as it is now. */
async function freshen() {
  const turn = asked;
  const answer = await fetch(location.pathname + location.search);
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  if (turn !== asked) return;
  for (const steps of page.querySelectorAll(".tried .steps")) {
    const here = document.getElementById(steps.closest(".tried").id)?.querySelector(".steps");
    here?.replaceWith(document.adoptNode(steps));
  }
  const tried = document.querySelector(".trying input[name=try]");
  if (tried) tried.value = new URLSearchParams(location.search).get("try") || "";
}

function lost(bar) {
  bar.classList.remove("asking");
  bar.removeAttribute("data-editing");
  const box = document.getElementById("moved");
  if (box) box.textContent = "There is no connection to the garden's computer: the odds beside the bar are those of before.";
}

document.addEventListener("pointerdown", (event) => {
  const bar = trialOf(event);
  if (!bar || event.button > 0) return;
  held = { bar, from: event.clientX, at: number(bar, "valuenow"), id: event.pointerId };
  bar.setPointerCapture?.(event.pointerId);
  bar.classList.add("held");
  bar.focus({ preventScroll: true });
  event.preventDefault();
});
document.addEventListener("pointermove", (event) => {
  if (!held || event.pointerId !== held.id) return;
  moveTo(held.bar, held.at + (event.clientX - held.from) / Number(held.bar.dataset.day));
});
for (const end of ["pointerup", "pointercancel"])
  document.addEventListener(end, (event) => {
    if (!held || event.pointerId !== held.id) return;
    held.bar.classList.remove("held");
    held = undefined;
  });

const KEYS = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1, PageDown: -7, PageUp: 7 };
document.addEventListener("keydown", (event) => {
  const bar = trialOf(event);
  if (!bar || event.altKey || event.ctrlKey || event.metaKey) return;
  if (event.key === "Home") moveTo(bar, number(bar, "valuemin"));
  else if (event.key === "End") moveTo(bar, number(bar, "valuemax"));
  else if (event.key in KEYS) moveTo(bar, number(bar, "valuenow") + KEYS[event.key]);
  else return;
  event.preventDefault();
});

/** On a narrow screen the year is opened where today lies, or where something is tried. */
function toToday() {
  const box = document.querySelector(".season-box");
  const mark = box?.querySelector(".trial .grip") || box?.querySelector(".now");
  if (!box || !mark || box.scrollWidth <= box.clientWidth) return;
  box.scrollLeft += mark.getBoundingClientRect().left - box.getBoundingClientRect().left - box.clientWidth * 0.55;
}
document.addEventListener("shown", toToday);
toToday();
