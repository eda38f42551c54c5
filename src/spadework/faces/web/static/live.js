// News of the book while the page is open and looked at.
let source;
const tell = (name, detail) => document.dispatchEvent(new CustomEvent(name, { detail }));

export function listen() {
  if (source || document.hidden || !("EventSource" in window)) return;
  source = new EventSource("/live");
  source.addEventListener("book", () => tell("book"));
  source.addEventListener("hello", () => tell("line", true));
  source.addEventListener("error", () => { tell("line", false); if (source?.readyState === 2) again(); });
  source.addEventListener("closing", () => { tell("line", false); again(); });
}

function stop() { source?.close(); source = undefined; }
function again() { stop(); setTimeout(listen, 4000); }

addEventListener("pagehide", stop);
addEventListener("pageshow", (event) => { if (event.persisted) listen(); });
// a browser opens few connections to one place: a tab nobody looks at gives its own back
document.addEventListener("visibilitychange", () => { if (document.hidden) stop(); else listen(); });
