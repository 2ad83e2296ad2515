// A part of the page whose HTML the kernel writes (and escapes). Elements with data-act send their name and value back.
// `wear.js`, `save.js`, `handy.js` and `pieces.js` stand before it in the same script.
// Open folds, the focus and the scroll position survive a new text.

function render({ model, el }) {
  const undress = wear(model, el);
  const large = pieces(model);
  el.classList.add("rig-panel");
  const draw = () => {
    const open = new Map([...el.querySelectorAll("details[data-key]")].map((fold) => [fold.dataset.key, fold.open]));
    const focused = el.contains(document.activeElement) ? document.activeElement.dataset.focus : null;
    const pickers = new Map([...el.querySelectorAll("input[type=file]")].map((input) => [input.dataset.act, input]));
    el.innerHTML = model.get("html");
    // Somebody may be choosing a file for the one that stands: what is chosen for an element that is gone, nobody hears.
    for (const input of el.querySelectorAll("input[type=file]")) {
      const stood = pickers.get(input.dataset.act);
      if (!stood) continue;
      for (const { name, value } of [...input.attributes]) stood.setAttribute(name, value);
      input.replaceWith(stood);
    }
    for (const fold of el.querySelectorAll("details[data-key]")) {
      if (open.has(fold.dataset.key)) fold.open = open.get(fold.dataset.key);
    }
    if (focused) el.querySelector(`[data-focus="${CSS.escape(focused)}"]`)?.focus({ preventScroll: true });
    if (el.querySelector("[data-theme-is]")) document.dispatchEvent(new CustomEvent("rig-written"));
  };
  const dress = () => {
    for (const [attribute, trait] of [["role", "role"], ["aria-label", "label"], ["aria-live", "live"]]) {
      if (model.get(trait)) el.setAttribute(attribute, model.get(trait)); else el.removeAttribute(attribute);
    }
    // An alert stays where it is while it is empty, so that what comes into it is read out.
    el.hidden = model.get("html") === "" && model.get("role") !== "alert";
  };
  const send = (name, value) => {
    model.send({ kind: "act", name, value });
    document.dispatchEvent(new CustomEvent("rig-sent"));
  };
  el.addEventListener("click", (event) => {
    const target = event.target.closest("button[data-act]");
    if (target && el.contains(target)) send(target.dataset.act, target.dataset.value ?? "");
    const own = event.target.closest("button[data-browser]");
    if (own) handy(own);
  });
  el.addEventListener("change", async (event) => {
    const target = event.target.closest("[data-act]");
    if (!target) return;
    if (target.type !== "file") { send(target.dataset.act, target.value); return; }
    if ("pieces" in target.dataset) {
      const [file] = target.files;
      if (file) { large.pick(target.dataset.act, file); document.dispatchEvent(new CustomEvent("rig-sent")); }
      target.value = "";
      return;
    }
    const most = Number(target.dataset.most);
    // A file that is too big never travels: the kernel says so from its size alone. `at` is its place among those picked at once.
    for (const [at, file] of [...target.files].entries()) {
      const text = file.size > most ? "" : await file.text(); // eslint-disable-line no-await-in-loop
      send(target.dataset.act, { name: file.name, size: file.size, text, at });
    }
    target.value = "";
  });
  el.addEventListener("toggle", (event) => {
    const fold = event.target;
    if (fold.matches?.("details[data-ask]") && fold.open) send(fold.dataset.ask, fold.dataset.value ?? "");
  }, true);
  const again = () => { draw(); dress(); };
  const hear = (message, buffers) => {
    if (message.kind === "save") save(message, buffers);
    return message.kind === "fetch" ? large.give(message) : null;
  };
  model.on("change:html", again);
  model.on("msg:custom", hear);
  again();
  return () => { undress(); model.off("change:html", again); model.off("msg:custom", hear); };
}

export default { render };
