// One of several, each with a picture: native radio buttons, so that arrow keys and screen readers work as everywhere.
// `wear.js` and `names.js` stand before it in the same script. A picture is shown as an image, so that nothing in it can run.

function render({ model, el }) {
  const undress = wear(model, el), name = unique();
  el.classList.add("rig-choices");
  const show = () => {
    for (const radio of el.querySelectorAll("input")) radio.checked = radio.value === model.get("value");
  };
  const build = () => {
    const set = document.createElement("fieldset"), legend = document.createElement("legend");
    legend.textContent = model.get("description");
    set.append(legend);
    for (const [value, text, picture] of model.get("options")) {
      const label = document.createElement("label"), radio = document.createElement("input"), words = document.createElement("span");
      Object.assign(radio, { type: "radio", name, value });
      words.textContent = text;
      label.append(radio);
      if (picture) {
        const image = document.createElement("img");
        image.alt = "";
        image.src = `data:image/svg+xml,${encodeURIComponent(picture)}`;
        label.append(image);
      }
      label.append(words);
      set.append(label);
    }
    el.replaceChildren(set);
    show();
  };
  el.addEventListener("change", (event) => {
    if (event.target.type !== "radio") return;
    model.set("value", event.target.value);
    model.save_changes();
  });
  model.on("change:value", show);
  model.on("change:options", build);
  model.on("change:description", build);
  build();
  return () => { undress(); model.off("change:value", show); model.off("change:options", build); model.off("change:description", build); };
}

export default { render };
