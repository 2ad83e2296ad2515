// The page as a whole: is the calculation still alive, the address that keeps the inputs, the theme, downloads.
// `save.js` stands before it in the same script.

const REST = 10 * 60 * 1000; // no question to the kernel after so long without a touch, so that idle ones are put to rest
const WORDS = {
  asleep: "This page was put to rest after a long pause.",
  crashed: "The calculation stopped unexpectedly.",
  server: "The connection to rigcalc is gone. If it was stopped, start it again with: rigcalc app",
};

function banner() {
  let box = document.getElementById("rig-banner");
  if (!box) {
    box = document.createElement("div");
    box.id = "rig-banner";
    box.setAttribute("role", "alert");
    document.body.prepend(box);
  }
  return box;
}

function kernelAddress() {
  const config = document.getElementById("jupyter-config-data");
  if (!config || !document.body.dataset.rigcalc) return null;
  const { baseUrl, kernelId } = JSON.parse(config.textContent);
  return `${baseUrl}api/kernels/${kernelId}`;
}

async function cause() {
  const address = kernelAddress();
  if (!address) return "crashed";
  try {
    const answer = await fetch(address, { cache: "no-store", signal: AbortSignal.timeout(700) });
    return answer.status === 404 ? "asleep" : "crashed";
  } catch {
    return "server";
  }
}

// What was entered and not yet taken by the calculation: path -> text. It goes into the address when nobody answers any more,
// so that whoever starts again, by the button or by loading the page anew, has the last entry too.
function unanswered(model) {
  const waiting = new Map();
  const entered = ({ detail: { path, text, unit } }) => {
    waiting.set(path, { text, full: unit && /^[-\d.,\s]+$/.test(text) ? `${text.trim()} ${unit}` : text });
  };
  const taken = ({ detail: { path, text } }) => { if (waiting.get(path)?.text === text) waiting.delete(path); };
  document.addEventListener("rig-entry", entered);
  document.addEventListener("rig-taken", taken);
  return () => {
    if (!document.body.dataset.rigcalc) return;
    const query = new URLSearchParams(model.get("query"));
    for (const [path, { full }] of waiting) { query.delete(path); query.append(path, full); }
    history.replaceState(null, "", query.size ? `?${query}` : location.pathname);
  };
}

function lifeline(model) {
  let touched = Date.now(), waiting = 0, asked = 0, lost = false, timer = null, gone = null;
  const keep = unanswered(model);
  const answered = () => {
    waiting = 0;
    if (lost) { lost = false; banner().replaceChildren(); banner().hidden = true; }
  };
  const lose = (why) => {
    const first = !lost;
    lost = true;
    keep();
    const text = banner().querySelector("p") ?? document.createElement("p");
    text.textContent = WORDS[why];
    if (!first) return;
    const again = document.createElement("button");
    again.type = "button";
    again.textContent = "Start again with the same entries";
    again.addEventListener("click", () => { keep(); location.reload(); });
    banner().replaceChildren(text, again);
    banner().hidden = false;
  };
  const check = async () => {
    if (document.hidden || Date.now() - touched > REST) return;
    if (waiting && Date.now() - waiting > 6000 && !lost) {
      const why = await cause();
      if (!waiting) return;
      lose(why);
    }
    asked = Date.now();
    if (!waiting) waiting = asked;
    try { model.send({ kind: "ping" }); } catch { /* no connection: the time tells */ }
  };
  // The connection itself tells first: the server says that a calculation ended, and a connection that broke off and doesn't
  // stand again after a second is gone. The question above is for what ends without a word.
  const kernel = model.widget_manager?.kernel;
  const status = (_kernel, now) => { if (now === "dead") { waiting ||= Date.now(); lose("crashed"); } };
  const connection = (_kernel, now) => {
    clearTimeout(gone);
    if (now === "connected") { check(); return; }
    gone = setTimeout(async () => {
      const why = await cause();
      if (kernel.connectionStatus === "connected" || lost) return;
      waiting ||= Date.now();
      lose(why);
    }, 1000);
  };
  const online = () => { if (kernel?.connectionStatus && kernel.connectionStatus !== "connected") kernel.reconnect(); };
  if (document.body.dataset.rigcalc) {
    kernel?.statusChanged?.connect(status);
    kernel?.connectionStatusChanged?.connect(connection);
    window.addEventListener("online", online);
  }
  document.addEventListener("rig-entry", () => { if (lost) keep(); });
  const wake = () => {
    const slept = Date.now() - touched > REST;
    touched = Date.now();
    if (slept) check();
  };
  model.on("msg:custom", (message) => { if (message.kind === "pong") answered(); });
  for (const event of ["pointerdown", "keydown", "touchstart"]) document.addEventListener(event, wake, { passive: true });
  document.addEventListener("visibilitychange", () => { if (!document.hidden) check(); });
  // Whoever changes something learns soon if nobody answers; a slider that is dragged needn't ask at every step.
  document.addEventListener("rig-sent", () => { if (!waiting && Date.now() - asked > 1500) check(); });
  timer = setInterval(check, 3000);
  check();
  return () => clearInterval(timer);
}

function theme(name) {
  const root = document.documentElement;
  if (name === "auto") delete root.dataset.theme; else root.dataset.theme = name;
  try { localStorage.setItem("rig-theme", name); } catch { /* private window */ }
  mark();
  document.dispatchEvent(new CustomEvent("rig-theme"));
}

function stored() {
  try { return localStorage.getItem("rig-theme") ?? "auto"; } catch { return "auto"; }
}

// Larger letters, for a projector. Everything is laid out by the size of letters, so that nothing is cut.
function letters(size) {
  document.documentElement.style.fontSize = size === "100" ? "" : `${size}%`;
  try { localStorage.setItem("rig-letters", size); } catch { /* private window */ }
  mark();
}

// The switches of theme and letters show what holds, also after the kernel has written their bar anew.
function mark() {
  const { dataset, style } = document.documentElement;
  for (const button of document.querySelectorAll("[data-theme-is]")) {
    button.setAttribute("aria-pressed", String(button.dataset.themeIs === (dataset.theme ?? "auto")));
  }
  for (const button of document.querySelectorAll("[data-letters]")) {
    button.setAttribute("aria-pressed", String(button.dataset.letters === (style.fontSize.replace("%", "") || "100")));
  }
}

function storedLetters() {
  try { return /^(100|130|175)$/.exec(localStorage.getItem("rig-letters"))?.[0] ?? "100"; } catch { return "100"; }
}

// What many parts are to show from now on comes as one message, so that the page changes at once and not piece by piece.
function initialize({ model }) {
  model.on("msg:custom", async (message, buffers) => {
    if (message.kind !== "together") return;
    const parts = await Promise.all(message.updates.map(([name]) => model.widget_manager.get_model(name).catch(() => null)));
    let next = 0;
    message.updates.forEach(([, state, paths], place) => {
      for (const path of paths) {
        const last = path.pop();
        path.reduce((inside, key) => inside[key], state)[last] = buffers[next++];
      }
      parts[place]?.set_state(state); // a part that was closed has none
    });
  });
}

// The words that stood there before the scripts (the server's page puts them there) go when the parts stand in their place.
function whenDrawn(done) {
  const early = document.querySelector(".rig-early"), cells = document.getElementById("rendered_cells");
  if (!early || !cells) { done(); return; }
  const look = () => {
    if (!cells.querySelector(".rig-app .rig-panel > *")?.checkVisibility()) return false;
    early.remove();
    done();
    return true;
  };
  const watch = new MutationObserver(() => { if (look()) watch.disconnect(); });
  if (!look()) watch.observe(cells, { attributes: true, attributeFilter: ["style"], childList: true, subtree: true });
}

function render({ model, el }) {
  el.hidden = true;
  const served = Boolean(document.body.dataset.rigcalc);
  model.on("msg:custom", (message, buffers) => { if (message.kind === "save") save(message, buffers); });
  let later = null;
  const address = () => {
    const query = model.get("query");
    history.replaceState(null, "", query ? `?${query}` : location.pathname);
  };
  const asked = new URLSearchParams(location.search);
  if (served && asked.has("token")) {
    // The cookie stands in for it from here on; it must not be passed on with the address.
    asked.delete("token");
    history.replaceState(null, "", asked.size ? `?${asked}` : location.pathname);
  }
  if (served && asked.size) model.send({ kind: "start", query: asked.toString() });
  // A browser tells its other parts of each new address: once a slider rests is enough.
  if (served) model.on("change:query", () => { clearTimeout(later); later = setTimeout(address, 300); });
  const titled = () => { if (served && model.get("title")) document.title = `${model.get("title")} · rigcalc`; };
  titled();
  model.on("change:title", titled);
  model.on("change:revision", () => { document.body.dataset.revision = model.get("revision"); });
  document.addEventListener("click", (event) => {
    const button = event.target.closest?.("[data-theme-is]");
    if (button) theme(button.dataset.themeIs);
    const size = event.target.closest?.("[data-letters]");
    if (size) letters(size.dataset.letters);
  });
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => document.dispatchEvent(new CustomEvent("rig-theme")));
  document.addEventListener("rig-written", mark);
  // In somebody's notebook the size of letters stays the notebook's until a switch is pressed.
  setTimeout(() => { theme(stored()); if (served) letters(storedLetters()); }, 0);
  whenDrawn(() => { document.body.dataset.ready = "yes"; });
  return lifeline(model);
}

export default { initialize, render };
