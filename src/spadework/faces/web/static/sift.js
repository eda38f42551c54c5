// A list sifted while a word is typed: what does not hold it is put away, what does is unfolded.
document.addEventListener("input", (event) => {
  const field = event.target.closest?.("[data-sifts]");
  const list = field && document.querySelector(field.dataset.sifts);
  if (!list) return;
  const word = field.value.trim().toLowerCase();
  let shown = 0;
  for (const each of list.querySelectorAll("[data-sift]")) {
    each.hidden = Boolean(word) && !each.dataset.sift.toLowerCase().includes(word);
    if (!each.hidden) shown += 1;
  }
  for (const group of list.querySelectorAll("[data-sift-group]")) {
    group.hidden = !group.querySelector("[data-sift]:not([hidden])");
    group.open = Boolean(word) && !group.hidden;
  }
  const said = document.getElementById("sifted");
  if (said) said.textContent = word ? `${shown} ${shown === 1 ? "packet" : "packets"} called so.` : "";
});
