// What the sentence comes to, worked out anew while it is filled in.
let timer, asked = 0;

document.addEventListener("input", (event) => {
  if (!event.target.closest("#sentence")) return;
  clearTimeout(timer);
  const box = document.getElementById("comes-to");
  if (box) box.dataset.old = "";
  const choice = event.target.matches("select");
  timer = setTimeout(() => work(choice).catch(() => box?.removeAttribute("data-old")), choice ? 0 : 350);
});

/** Fetch the page for what is filled in, and take its count; after a choice also the blanks' usual figures. */
async function work(choice) {
  const form = document.getElementById("sentence");
  const mine = ++asked;
  const fields = new URLSearchParams();
  for (const [name, value] of new FormData(form)) if (name !== "token" && typeof value === "string" && value) fields.set(name, value);
  const look = form.dataset.look ?? "/plant";
  const answer = await fetch(`${look}?${fields}`, { headers: { accept: "text/html" } });
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  if (mine !== asked || !form.isConnected) return;
  const fresh = page.getElementById("comes-to");
  if (!fresh) return;
  history.replaceState(null, "", `${look}?${fields}`);
  if (choice) {
    const at = document.activeElement?.name;
    const line = page.querySelector(".sentence");
    const chips = page.querySelector("main .chips");
    if (line) form.querySelector(".sentence").replaceWith(document.adoptNode(line));
    if (chips) document.querySelector("main .chips").replaceWith(document.adoptNode(chips));
    if (at) form.elements.namedItem(at)?.focus();
  } else {
    for (const blank of page.querySelectorAll(".sentence input"))
      form.elements.namedItem(blank.name)?.setAttribute("placeholder", blank.placeholder);
  }
  document.getElementById("comes-to").replaceWith(document.adoptNode(fresh));
}
