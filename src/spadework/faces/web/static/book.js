// A line is heard while it is typed: how it would stand in the book, and what would be asked first.
let timer;

document.addEventListener("input", (event) => {
  if (event.target.id !== "line") return;
  clearTimeout(timer);
  timer = setTimeout(() => hear(event.target.value), 250);
});

async function hear(line) {
  const box = document.getElementById("heard");
  if (!box) return;
  if (!line.trim()) { box.replaceChildren(); return; }
  let heard;
  try {
    const answer = await fetch(`/book/hear?${new URLSearchParams({ line })}`);
    heard = await answer.json();
  } catch { return; }
  if (document.getElementById("line")?.value !== line) return;
  const lines = [];
  for (const [kind, list] of [["understood", heard.entries || []], ["asked", heard.asked || []], ["taken", heard.taken || []]])
    for (const text of list) lines.push(Object.assign(document.createElement("p"), { className: kind, textContent: kind === "asked" ? `Asked first: ${text}` : text }));
  box.replaceChildren(...lines);
}
