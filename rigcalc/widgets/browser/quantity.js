// One quantity: a box for number and unit, a slider, two steps. `wear.js`, `names.js` and `number.js` stand before it in the same script.
// What is typed goes to the kernel as text. What slides sets the trait `number`, which other widgets may be linked to in the
// browser, with a kernel or without one.

function render({ model, el }) {
  const undress = wear(model, el), key = unique(), typed = sender(model);
  let field = null;
  const send = (path, text, live, unit) => {
    if (unit !== undefined) { typed(path, text, live, unit); return; }
    model.set("number", parseFloat(text));
    model.save_changes();
  };
  const show = () => {
    const state = model.get("state"), number = model.get("number");
    // A number that came by a link in the browser stands before the kernel has said how it looks.
    const ahead = number !== null && number !== undefined && number !== state.number;
    field.show(ahead ? { ...state, number, text: `${number} ${state.unit}`.trim(), also: "", fault: "" } : state);
  };
  const build = () => {
    field = numberField(model.get("spec"), key, send);
    el.replaceChildren(field.root);
    show();
  };
  model.on("change:state", show);
  model.on("change:number", show);
  model.on("change:spec", build);
  build();
  return () => { undress(); model.off("change:state", show); model.off("change:number", show); model.off("change:spec", build); };
}

export default { render };
