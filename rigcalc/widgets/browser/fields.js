// Native controls for a choice, a line and several lines of text. `number.js` stands before it in the same script.

// One of several, each in sight with its words and, where it has one, its picture, which is an image: nothing in it can run.
function sightField(spec, key, send) {
  const id = `${key}-${spec.path.replaceAll(".", "-")}`;
  const fault = make("span", { id: `${id}-fault`, class: "rig-fault" });
  const radios = spec.options.map(([value]) => make("input", { type: "radio", name: id, value }));
  const labels = spec.options.map(([, text, picture], place) => make("label", {}, radios[place],
    picture ? make("img", { alt: "", src: `data:image/svg+xml,${encodeURIComponent(picture)}` }) : null, make("span", {}, text)));
  const taken = takenNote();
  const set = make("fieldset", { "aria-describedby": `${id}-help ${id}-fault`, class: spec.options.some(([, , picture]) => picture) ? "has-pictures" : null },
    make("legend", {}, spec.label), ...labels);
  set.addEventListener("change", (event) => send(spec.path, event.target.value, false));
  const root = make("div", { class: "rig-field rig-sight", "data-path": spec.path }, set, taken.root, fault,
    make("small", { id: `${id}-help`, class: "rig-help" }, spec.help || ""));
  const show = (next) => {
    for (const radio of radios) radio.checked = radio.value === next.text;
    taken.show(next);
    fault.textContent = next.fault;
    set.setAttribute("aria-invalid", next.fault ? "true" : "false");
    return true;
  };
  return { root, show };
}

function choiceField(spec, key, send) {
  const id = `${key}-${spec.path.replaceAll(".", "-")}`;
  const fault = make("span", { id: `${id}-fault`, class: "rig-fault" });
  const select = make("select", { id, class: "rig-choice", "aria-describedby": `${id}-help ${id}-fault` },
    ...spec.options.map(([value, text]) => make("option", { value }, text)));
  select.addEventListener("change", () => send(spec.path, select.value, false));
  const taken = takenNote();
  const root = make("div", { class: "rig-field", "data-path": spec.path }, make("label", { for: id }, spec.label), select, taken.root, fault,
    make("small", { id: `${id}-help`, class: "rig-help" }, spec.help || ""));
  const show = (next) => {
    if (next.text && ![...select.options].some((option) => option.value === next.text)) {
      select.append(make("option", { value: next.text }, next.text));
    }
    select.value = next.text;
    taken.show(next);
    fault.textContent = next.fault;
    select.setAttribute("aria-invalid", next.fault ? "true" : "false");
    return true;
  };
  return { root, show };
}

function textField(spec, key, send) {
  const id = `${key}-${spec.path.replaceAll(".", "-")}`;
  const fault = make("span", { id: `${id}-fault`, class: "rig-fault" });
  const shared = { id, autocomplete: "off", maxlength: spec.kind === "lines" ? "20000" : "2000", "aria-describedby": `${id}-help ${id}-fault` };
  const typed = spec.kind === "lines" ? make("textarea", { ...shared, class: "rig-typed rig-lines", rows: spec.rows, spellcheck: "false" })
    : make("textarea", { ...shared, rows: 1, class: "rig-typed rig-line" }); // one line of text, in as many rows as it takes to see it whole
  let dirty = false;
  const text = () => (spec.kind === "lines" ? typed.value : typed.value.replace(/\s*[\r\n]+\s*/g, " "));
  const commit = () => { if (dirty) { dirty = false; send(spec.path, text(), false); } };
  typed.addEventListener("input", () => { dirty = true; });
  typed.addEventListener("change", commit);
  typed.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && spec.kind !== "lines") { event.preventDefault(); commit(); }
  });
  const taken = takenNote();
  const root = make("div", { class: "rig-field", "data-path": spec.path }, make("label", { for: id }, spec.label), typed, taken.root, fault,
    make("small", { id: `${id}-help`, class: "rig-help" }, spec.help || ""));
  const show = (next) => {
    if (!dirty) typed.value = next.text;
    taken.show(next);
    fault.textContent = next.fault;
    typed.setAttribute("aria-invalid", next.fault ? "true" : "false");
    return !dirty;
  };
  return { root, show };
}
