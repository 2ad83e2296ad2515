// A form: fields in sections that fold. `wear.js`, `names.js`, `number.js` and `fields.js` stand before it in the same script.

const MAKERS = { number: numberField, choice: choiceField, sight: sightField, text: textField, lines: textField };

function render({ model, el }) {
  const undress = wear(model, el);
  const key = unique();
  const send = sender(model);
  const fields = new Map(), shown = new Map();
  el.classList.add("rig-form");
  el.setAttribute("role", "group");
  el.setAttribute("aria-label", model.get("label"));
  let built = [];
  const build = () => {
    const open = new Map(built.map((section, place) => [section.title, el.children[place].open]));
    built = model.get("spec");
    el.replaceChildren();
    fields.clear();
    shown.clear();
    built.forEach((section) => {
      const grid = make("div", { class: "rig-fields" });
      for (const spec of section.fields) {
        const field = MAKERS[spec.kind](spec, key, send);
        fields.set(spec.path, field);
        grid.append(field.root);
      }
      const note = section.note ? make("p", { class: "rig-note" }, section.note) : null;
      const title = make("h2", {}, section.title);
      el.append(section.folds
        ? make("details", { class: "rig-section", open: open.get(section.title) ?? section.open }, make("summary", {}, title), note, grid)
        : make("section", { class: "rig-section rig-first", "aria-label": section.title }, title, note, grid));
    });
  };
  // A field that shows its state in full is touched only when that changes: one move of a slider changes few of fifty.
  const show = () => {
    for (const [path, state] of Object.entries(model.get("state"))) {
      const field = fields.get(path), text = JSON.stringify(state);
      if (!field || shown.get(path) === text) continue;
      field.root.hidden = Boolean(state.hidden);
      if (state.hidden || field.show(state)) shown.set(path, text); else shown.delete(path);
    }
    const headings = el.querySelectorAll(":scope > * > summary > h2");
    model.get("titles").forEach((title, place) => { if (headings[place]) headings[place].textContent = title; });
  };
  const again = () => { build(); show(); };
  model.on("change:state change:titles", show);
  model.on("change:spec", again);
  again();
  return () => { undress(); model.off("change:state change:titles", show); model.off("change:spec", again); };
}

export default { render };
