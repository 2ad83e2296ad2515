// A number with its unit, slider and step buttons, in native controls; and the way of every entry to the kernel.
// What is typed goes as text; the kernel answers with what each field is to look like.

const make = (tag, attributes = {}, ...children) => {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value !== null && value !== undefined && value !== false) element.setAttribute(name, value === true ? "" : value);
  }
  element.append(...children.filter((child) => child !== null));
  return element;
};

// One message is under way at a time; while it is, the newest text of each path waits and the older ones are dropped.
// A message or its answer can be lost with a connection that breaks off. Without an answer it goes again, unless a newer text
// of the same path waits: an entry taken twice is as one taken once. Not while there is no connection, where it would pile up,
// and not for ever: a calculation that is gone must not be kept busy.
const LOST = 4000, TRIES = 5; // ms, times
function sender(model) {
  const waiting = new Map();
  let busy = false, timer = null, under = null;
  const away = () => (model.widget_manager?.kernel?.connectionStatus ?? "connected") !== "connected";
  const next = () => {
    clearTimeout(timer);
    const first = waiting.entries().next();
    if (first.done) { busy = false; return; }
    const [path, edit] = first.value;
    waiting.delete(path);
    busy = true;
    under = { path, text: edit.text };
    const again = () => {
      if (away()) { timer = setTimeout(again, LOST); return; }
      if (!waiting.has(path) && edit.tries < TRIES) waiting.set(path, { ...edit, tries: edit.tries + 1 });
      next();
    };
    timer = setTimeout(again, LOST);
    const { text, live } = edit;
    try { model.send({ kind: "edit", path, text, live }); } catch { /* no connection: it goes again */ }
    document.dispatchEvent(new CustomEvent("rig-sent"));
  };
  model.on("msg:custom", (message) => {
    if (message.kind !== "done") return;
    if (under) document.dispatchEvent(new CustomEvent("rig-taken", { detail: under }));
    next();
  });
  return (path, text, live, unit = "") => {
    waiting.set(path, { text, live, tries: 1 });
    // The page keeps it in its address should nobody answer any more.
    document.dispatchEvent(new CustomEvent("rig-entry", { detail: { path, text, unit } }));
    if (!busy) next();
  };
}

// What was taken for an entry that was left out, and by which rule. Typing into the entry itself takes its place.
function takenNote() {
  const value = make("summary"), rule = make("p"), root = make("details", { class: "rig-taken", hidden: true }, value, rule);
  const show = (next) => {
    root.hidden = !next.taken;
    value.textContent = next.taken ? `assumed: ${next.taken}` : "";
    rule.textContent = next.rule ?? "";
  };
  return { root, show };
}

function numberField(spec, key, send) {
  const id = `${key}-${spec.path.replaceAll(".", "-")}`;
  const typed = make("input", { id, type: "text", inputmode: "decimal", class: "rig-typed", autocomplete: "off", spellcheck: "false",
    enterkeyhint: "done", "aria-describedby": `${id}-help ${id}-also ${id}-usual ${id}-mark ${id}-fault` });
  const slider = make("input", { type: "range", class: "rig-slider", "aria-label": `${spec.label}, slider` });
  const less = make("button", { type: "button", class: "rig-step", "aria-label": `${spec.label}: less` }, "−");
  const more = make("button", { type: "button", class: "rig-step", "aria-label": `${spec.label}: more` }, "+");
  const also = make("span", { id: `${id}-also`, class: "rig-also" });
  const usual = make("span", { id: `${id}-usual`, class: "rig-usual" });
  const mark = make("span", { id: `${id}-mark`, class: "rig-mark" });
  const fault = make("span", { id: `${id}-fault`, class: "rig-fault" });
  const taken = takenNote();
  const root = make("div", { class: "rig-field rig-number", "data-path": spec.path },
    make("label", { for: id }, spec.label), typed, also, taken.root,
    spec.box ? null : make("div", { class: "rig-run" }, less, slider, more), usual, mark, fault,
    make("small", { id: `${id}-help`, class: "rig-help" }, spec.help || ""));
  let state = {}, dirty = false, sliding = false;
  const say = (number) => {
    const digits = (String(state.step).split(".")[1] ?? "").length;
    return `${number.toFixed(digits)} ${state.unit}`.trim();
  };
  const move = (number, live) => {
    const text = say(number);
    typed.value = text;
    dirty = false;
    slider.setAttribute("aria-valuetext", text);
    send(spec.path, text, live);
  };
  const commit = () => {
    if (!dirty) return;
    dirty = false;
    send(spec.path, typed.value, false, state.unit);
  };
  typed.addEventListener("input", () => { dirty = true; });
  typed.addEventListener("change", commit);
  typed.addEventListener("focus", () => typed.select()); // a new number takes the place of the old one
  typed.addEventListener("keydown", (event) => { if (event.key === "Enter") commit(); });
  typed.addEventListener("blur", () => { dirty = false; });
  const slid = () => { sliding = true; move(slider.valueAsNumber, true); };
  // A thumb that begins a swipe over the page often lands on a slider: it counts once it has moved across, or was lifted where
  // it came down. What the browser takes for scrolling leaves the entry as it was.
  let thumb = null;
  slider.addEventListener("pointerdown", (event) => {
    if (event.pointerType === "touch") thumb = { x: event.clientX, y: event.clientY, from: slider.value, moved: false };
  });
  slider.addEventListener("pointermove", (event) => {
    if (!thumb || thumb.moved) return;
    const across = Math.abs(event.clientX - thumb.x), along = Math.abs(event.clientY - thumb.y);
    if (across > 8 && across > along) { thumb.moved = true; slid(); }
  });
  const lifted = (counts) => {
    if (!thumb) return;
    const { from, moved } = thumb;
    thumb = null;
    if (moved) return;
    if (counts && slider.value !== from) slid(); else slider.value = from;
  };
  slider.addEventListener("pointerup", () => lifted(true));
  slider.addEventListener("pointercancel", () => lifted(false));
  slider.addEventListener("input", () => { if (!thumb || thumb.moved) slid(); });
  slider.addEventListener("change", () => { if (sliding) { sliding = false; send(spec.path, typed.value, true); } });
  const step = (way) => {
    const from = state.number ?? (state.low + state.high) / 2;
    const grid = Math.round((from - state.low) / state.step) + way;
    const number = Math.min(state.high, Math.max(state.low, state.low + grid * state.step));
    slider.value = number;
    move(number, false);
  };
  less.addEventListener("click", () => step(-1));
  more.addEventListener("click", () => step(1));
  const show = (next) => {
    state = next;
    const across = (number) => `${100 * Math.min(1, Math.max(0, (number - next.low) / (next.high - next.low)))}%`;
    if (!dirty && !sliding) typed.value = next.text;
    slider.min = next.low; slider.max = next.high; slider.step = next.step;
    if (!sliding && next.number !== null) slider.value = next.number;
    slider.setAttribute("aria-valuetext", next.text || "not given");
    root.style.setProperty("--filled", across(next.number ?? next.low));
    root.classList.toggle("has-valid", Boolean(next.valid));
    if (next.valid) {
      root.style.setProperty("--from", across(next.valid[0]));
      root.style.setProperty("--to", across(next.valid[1]));
    }
    also.textContent = next.also;
    taken.show(next);
    typed.placeholder = next.unit.replace("**2", "²").replace("**3", "³");
    usual.textContent = next.usual;
    mark.textContent = next.mark;
    fault.textContent = next.fault;
    typed.setAttribute("aria-invalid", next.fault ? "true" : "false");
    root.classList.toggle("is-marked", Boolean(next.mark));
    root.classList.toggle("is-faulty", Boolean(next.fault));
    return !dirty && !sliding;
  };
  return { root, show };
}
