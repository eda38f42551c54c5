// A bed is moved, turned and sized on the plan by hand or keys. The form beneath holds the numbers: what is drawn and
// what is written are one thing, and only the form is sent.
const SVG = "http://www.w3.org/2000/svg";
const LEAST = 0.1; // metres: no side gets shorter
const NEAR = 0.12; // metres: from here a side lines up with that of another bed
const FOOT = 0.3048, INCH = 0.0254;
const FIELDS = ["x_m", "y_m", "width_m", "length_m"];

let plot = null; // what is changed on the page that is shown

function begin() {
  const form = document.getElementById("bed-form"), svg = document.querySelector(".plan.change");
  if (!form || !svg || !svg.dataset.scale || plot?.form === form) return;
  plot = { form, svg, us: form.hasAttribute("data-us"), round: Boolean(svg.dataset.round), scale: +svg.dataset.scale, left: +svg.dataset.left, top: +svg.dataset.top, xs: numbers(svg.dataset.xs), ys: numbers(svg.dataset.ys) };
  plot.now = read(form);
  if (!plot.now) { plot = null; return; }
  plot.was = { ...plot.now };
  draw();
  form.addEventListener("input", () => { const said = read(form); changed(); if (said) { plot.now = said; place(); } });
  form.addEventListener("change", () => { plot.round = form.elements.shape?.value === "round tub"; place(); });
}

const numbers = (text) => (text || "").split(" ").filter(Boolean).map(Number);
const step = (far) => (plot.us ? (far ? FOOT : 2 * INCH) : far ? 0.5 : 0.05);
const snap = (value) => Math.round(value / step(false)) * step(false);

// -- numbers as they are written ------------------------------------------------------------------------------

function metres(text, us) {
  const bare = text.trim().toLowerCase().replace("−", "-").replaceAll(",", ".");
  const sign = bare.startsWith("-") ? -1 : 1;
  const feet = /^[-+]?\s*(?:([\d.]+)\s*(?:ft|feet|foot|'))?\s*(?:([\d.]+)\s*(?:in|inch|inches|")?)?$/.exec(bare);
  if (us && feet && (feet[1] || feet[2])) {
    const inches = /["n]|inch/.test(bare) || feet[1];
    return sign * ((+feet[1] || 0) * FOOT + (+feet[2] || 0) * (inches ? INCH : FOOT));
  }
  const found = /^[-+]?\s*([\d.]+)\s*(mm|cm|m|ft|in)?$/.exec(bare);
  if (!found || !Number.isFinite(+found[1])) return NaN;
  const unit = found[2] || (us ? "ft" : "m");
  return sign * +found[1] * { mm: 0.001, cm: 0.01, m: 1, ft: FOOT, in: INCH }[unit];
}

function written(value, us) {
  if (!us) return `${+value.toFixed(3)} m`;
  const all = Math.round(Math.abs(value) / INCH * 10) / 10, feet = Math.floor(all / 12 + 1e-9), rest = +(all - 12 * feet).toFixed(1);
  const parts = [feet ? `${feet} ft` : "", rest || !feet ? `${rest} in` : ""].filter(Boolean);
  return (value < 0 && all ? "-" : "") + parts.join(" ");
}

function read(form) {
  const us = form.hasAttribute("data-us");
  const [x, y, w, l] = FIELDS.map((name) => metres(form.elements[name].value, us));
  const t = Number((form.elements.turn_deg.value || "0").replace(",", "."));
  return [x, y, w, l, t].every(Number.isFinite) && w > 0 && l > 0 ? { x, y, w, l, t } : null;
}

function write() {
  const { form, now, us } = plot;
  for (const [name, value] of [["x_m", now.x], ["y_m", now.y], ["width_m", now.w], ["length_m", now.l]]) form.elements[name].value = written(value, us);
  form.elements.turn_deg.value = String(+now.t.toFixed(1));
  changed();
  place();
  say();
}

function changed() { plot.form.setAttribute("data-editing", ""); }

function say() {
  const { now, us, svg } = plot, box = document.getElementById("where");
  const turn = now.t ? `, turned ${+now.t.toFixed(1)}°` : "";
  box.textContent = `${svg.dataset.name}: ${written(now.x, us)} east, ${written(now.y, us)} north, ${written(now.w, us)} by ${written(now.l, us)}${turn}. Not saved yet.`;
}

// -- drawing ---------------------------------------------------------------------------------------------------

const make = (name, given, parent) => { const one = document.createElementNS(SVG, name); for (const [key, value] of Object.entries(given)) one.setAttribute(key, value); parent.append(one); return one; };
const at = (x, y) => [plot.scale * (x - plot.left), plot.scale * (plot.top - y)];

/** Where a place in the bed, across and along, lies on the plot. */
function spot(across, along, of = plot.now) {
  const turn = of.t * Math.PI / 180, cos = Math.cos(turn), sin = Math.sin(turn);
  return [of.x + across * cos - along * sin, of.y + across * sin + along * cos];
}

function draw() {
  const { svg } = plot, name = svg.dataset.name, grips = {};
  const group = make("g", { class: "grips" }, svg);
  for (const [kind, label, role] of [["move", `Move ${name}`, "button"], ["size", `Size of ${name}`, "button"], ["turn", `Turn ${name}`, "slider"]]) {
    const grip = make("g", { class: `grip ${kind}`, tabindex: "0", role, "aria-label": label, "aria-describedby": "how-to-move", "data-grip": kind }, group);
    if (role === "slider") for (const [key, value] of [["aria-valuemin", "0"], ["aria-valuemax", "360"]]) grip.setAttribute(key, value);
    if (kind === "move") grip.outline = make("path", { class: "outline" }, grip);
    else {
      if (kind === "turn") grip.stalk = make("path", { class: "stalk" }, grip);
      grip.knob = make("g", {}, grip);
      make("circle", { class: "hold", r: "22" }, grip.knob);
      make("circle", { class: "knob", r: "10" }, grip.knob);
      make("path", { class: "mark", d: kind === "size" ? "M-4,-4L4,4M-4,0V-4H0M4,0V4H0" : "M-4.5,1A4.5,4.5 0 1 1 4.5,1M4.5,1l-3,-1.5M4.5,1l1.5,-3" }, grip.knob);
    }
    grip.addEventListener("pointerdown", grab);
    grip.addEventListener("keydown", key);
    grips[kind] = grip;
  }
  plot.grips = grips;
  plot.lines = make("path", { class: "lined-up", "aria-hidden": "true" }, svg);
  plot.zoom = 1;
  look();
}

function place() {
  const { now, was, grips, svg, round } = plot;
  const corners = [[0, 0], [now.w, 0], [now.w, now.l], [0, now.l]].map(([a, b]) => at(...spot(a, b)));
  grips.move.outline.setAttribute("d", `M${corners.map((each) => each.map((v) => v.toFixed(1)).join(",")).join(" ")}Z`);
  const [cx, cy] = at(...spot(now.w / 2, now.l / 2));
  // knobs stand off the bed, so that neither hides it nor the other
  const off = 14 / plot.zoom / plot.scale;
  const [sx, sy] = at(...spot(now.w + off, -off));
  grips.size.knob.setAttribute("transform", `translate(${sx.toFixed(1)} ${sy.toFixed(1)}) scale(${(1 / plot.zoom).toFixed(3)})`);
  const [tx, ty] = at(...spot(now.w / 2, now.l + 30 / plot.zoom / plot.scale)), [ex, ey] = at(...spot(now.w / 2, now.l));
  grips.turn.stalk.setAttribute("d", `M${ex.toFixed(1)},${ey.toFixed(1)}L${tx.toFixed(1)},${ty.toFixed(1)}`);
  grips.turn.knob.setAttribute("transform", `translate(${tx.toFixed(1)} ${ty.toFixed(1)}) scale(${(1 / plot.zoom).toFixed(3)})`);
  grips.turn.setAttribute("aria-valuenow", String(Math.round(now.t)));
  grips.turn.setAttribute("aria-valuetext", `${+now.t.toFixed(1)} degrees`);
  grips.turn.setAttribute("visibility", round ? "hidden" : "visible");
  const [ox, oy] = at(was.x, was.y), [nx, ny] = at(now.x, now.y);
  svg.querySelector(".carried")?.setAttribute("transform", `translate(${(nx - ox).toFixed(2)} ${(ny - oy).toFixed(2)}) rotate(${(was.t - now.t).toFixed(2)} ${ox.toFixed(2)} ${oy.toFixed(2)})`);
  return [cx, cy];
}

/** On a narrow screen only the ground round the bed is shown, large enough for a finger. */
function look() {
  const { svg, now } = plot;
  const [full, high] = plot.whole ||= [svg.viewBox.baseVal.width, svg.viewBox.baseVal.height];
  const wide = svg.getBoundingClientRect().width || full;
  if (wide / full < 0.85) {
    const corners = [[0, 0], [now.w, 0], [now.w, now.l], [0, now.l]].map(([a, b]) => at(...spot(a, b)));
    const [xs, ys] = [0, 1].map((axis) => corners.map((each) => each[axis]));
    const need = 50 + 1.3 * Math.max(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
    const w = Math.min(full, Math.max(wide, need)), h = Math.min(high, w * 1.1), box = svg.viewBox.baseVal;
    const seen = box.width.toFixed(1) === w.toFixed(1) && Math.min(...xs) > box.x + 8 && Math.max(...xs) < box.x + w - 40 && Math.min(...ys) > box.y + 44 && Math.max(...ys) < box.y + h - 40;
    const [cx, cy] = at(...spot(now.w / 2, now.l / 2));
    if (!seen) svg.setAttribute("viewBox", [Math.max(0, Math.min(full - w, cx - w / 2)), Math.max(0, Math.min(high - h, cy - h / 2)), w, h].map((v) => v.toFixed(1)).join(" "));
  } else if (svg.viewBox.baseVal.width !== full) svg.setAttribute("viewBox", `0 0 ${full} ${high}`);
  plot.zoom = svg.getScreenCTM()?.a || 1;
  place();
}

// -- by hand -----------------------------------------------------------------------------------------------------

function plotPoint(event) {
  const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(plot.svg.getScreenCTM().inverse());
  return [plot.left + point.x / plot.scale, plot.top - point.y / plot.scale];
}

function grab(event) {
  if (event.button) return;
  const grip = event.currentTarget, kind = grip.dataset.grip, from = plotPoint(event), start = { ...plot.now };
  event.preventDefault();
  grip.focus({ preventScroll: true });
  try { grip.setPointerCapture(event.pointerId); } catch { /* the finger is gone already */ }
  const move = (next) => { drag(kind, start, from, plotPoint(next), next.altKey); };
  const end = () => {
    grip.removeEventListener("pointermove", move);
    for (const name of ["pointerup", "pointercancel", "lostpointercapture"]) grip.removeEventListener(name, end);
    plot.lines.removeAttribute("d");
    look();
  };
  grip.addEventListener("pointermove", move);
  for (const name of ["pointerup", "pointercancel", "lostpointercapture"]) grip.addEventListener(name, end);
}

function drag(kind, start, from, to, free) {
  const now = plot.now, east = to[0] - from[0], north = to[1] - from[1];
  if (kind === "move") {
    now.x = snap(start.x + east);
    now.y = snap(start.y + north);
    if (!free && start.t % 90 === 0) lineUp(now);
  } else if (kind === "size") {
    const turn = now.t * Math.PI / 180, cos = Math.cos(turn), sin = Math.sin(turn);
    const across = east * cos + north * sin, along = north * cos - east * sin;
    size(start, snap(start.w + across), snap(start.l - along));
  } else {
    const [mx, my] = spot(start.w / 2, start.l / 2, start);
    const was = Math.atan2(from[1] - my, from[0] - mx), is = Math.atan2(to[1] - my, to[0] - mx);
    let turn = Math.round((start.t + (is - was) * 180 / Math.PI) / 5) * 5;
    turn = ((turn % 360) + 360) % 360;
    turnTo(start, turn);
  }
  write();
}

/** A side or two changed; the corner held fast is the one farthest from the knob. */
function size(start, w, l) {
  const now = plot.now;
  w = Math.max(w, LEAST); l = Math.max(l, LEAST);
  if (plot.round) l = w;
  now.w = w; now.l = l;
  // the north-west corner of an unturned bed stays where it is
  const before = spot(0, start.l, start), after = spot(0, l, { ...now, x: start.x, y: start.y });
  now.x = start.x + before[0] - after[0];
  now.y = start.y + before[1] - after[1];
}

/** Turned about its middle, as one turns a thing on the ground. */
function turnTo(start, turn) {
  const now = plot.now, before = spot(start.w / 2, start.l / 2, start);
  now.t = turn;
  const after = spot(start.w / 2, start.l / 2, { ...now, x: start.x, y: start.y });
  now.x = +(start.x + before[0] - after[0]).toFixed(3);
  now.y = +(start.y + before[1] - after[1]).toFixed(3);
}

/** Sides that come near those of another bed lie on one line with them. */
function lineUp(now) {
  const corners = [[0, 0], [now.w, 0], [now.w, now.l], [0, now.l]].map(([a, b]) => spot(a, b));
  const lines = [];
  for (const [axis, edges, name] of [[0, plot.xs, "x"], [1, plot.ys, "y"]]) {
    const sides = [Math.min(...corners.map((each) => each[axis])), Math.max(...corners.map((each) => each[axis]))];
    let best = null;
    for (const side of sides) for (const edge of edges) if (Math.abs(edge - side) <= NEAR && (!best || Math.abs(edge - side) < Math.abs(best.by))) best = { by: edge - side, edge };
    if (!best) continue;
    now[name] = +(now[name] + best.by).toFixed(3);
    const box = plot.svg.viewBox.baseVal, [px, py] = at(best.edge, best.edge);
    lines.push(axis === 0 ? `M${px.toFixed(1)},0V${box.height}` : `M0,${py.toFixed(1)}H${box.width}`);
  }
  if (lines.length) plot.lines.setAttribute("d", lines.join("")); else plot.lines.removeAttribute("d");
}

// -- by keys -----------------------------------------------------------------------------------------------------

const WAYS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

function key(event) {
  if (event.key === "Escape") { plot.now = { ...plot.was }; write(); plot.form.removeAttribute("data-editing"); return; }
  const way = WAYS[event.key];
  if (!way || event.ctrlKey || event.metaKey || event.altKey) return;
  event.preventDefault();
  const kind = event.currentTarget.dataset.grip, now = plot.now, start = { ...now }, by = step(event.shiftKey);
  if (kind === "move") {
    now.x = +(now.x + way[0] * by).toFixed(4);
    now.y = +(now.y + way[1] * by).toFixed(4);
  } else if (kind === "size") size(start, +(now.w + way[0] * by).toFixed(4), +(now.l - way[1] * by).toFixed(4));
  else turnTo(start, (((now.t + (way[0] < 0 || way[1] > 0 ? 1 : -1) * (event.shiftKey ? 15 : 1)) % 360) + 360) % 360);
  write();
  look();
}

// -- nothing that was moved is lost by a slip ------------------------------------------------------------------------

document.addEventListener("click", (event) => {
  const link = event.target.closest?.("a[href]");
  if (!link || !plot?.form.isConnected || !plot.form.hasAttribute("data-editing") || link.hasAttribute("data-put-back")) return;
  if (!link.closest(".plan.change")) return;
  event.preventDefault();
  document.getElementById("where").textContent = `${plot.svg.dataset.name} is not saved yet. Save it, or put it back, before another bed is changed.`;
});

document.addEventListener("shown", begin);
addEventListener("resize", () => { if (plot?.svg.isConnected) look(); });
begin();
