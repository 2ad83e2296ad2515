// What every widget does alike: the user's own colours in place of the look's, and greyed out while it is disabled.

function wear(model, el) {
  let worn = [];
  // A notebook's own keys would take the arrows from a slider and Enter from a button: it leaves alone what bears this mark.
  el.addEventListener("focusin", ({ target }) => {
    if (!target.matches("input[type=text], textarea")) target.dataset.lmSuppressShortcuts = "true";
  });
  const colours = () => {
    for (const name of worn) el.style.removeProperty(name);
    worn = Object.entries(model.get("worn") ?? {}).map(([name, value]) => {
      el.style.setProperty(`--${name}`, value);
      return `--${name}`;
    });
    document.dispatchEvent(new CustomEvent("rig-theme")); // pictures ask for their colours anew
  };
  const off = () => {
    const is = Boolean(model.get("disabled"));
    el.classList.toggle("is-off", is);
    el.inert = is;
    if (is) el.setAttribute("aria-disabled", "true"); else el.removeAttribute("aria-disabled");
  };
  model.on("change:worn", colours);
  model.on("change:disabled", off);
  if (Object.keys(model.get("worn") ?? {}).length) colours();
  if (model.get("disabled")) off();
  return () => { model.off("change:worn", colours); model.off("change:disabled", off); };
}
