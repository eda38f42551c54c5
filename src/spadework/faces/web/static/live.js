// News of the book while the page is open.
let source;

export function listen() {
  if (source || !("EventSource" in window)) return;
  source = new EventSource("/live");
  source.addEventListener("book", () => document.dispatchEvent(new CustomEvent("book")));
  source.addEventListener("hello", () => document.dispatchEvent(new CustomEvent("line", { detail: true })));
  source.addEventListener("error", () => document.dispatchEvent(new CustomEvent("line", { detail: false })));
  source.addEventListener("closing", () => { source.close(); source = undefined; document.dispatchEvent(new CustomEvent("line", { detail: false })); setTimeout(listen, 4000); });
}
addEventListener("pagehide", () => { source?.close(); source = undefined; });
