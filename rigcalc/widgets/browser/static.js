// A page of saved widgets: shows what each last showed, without a kernel, a server or a network. Each widget's own script draws it,
// from the values that were saved; what would ask the calculation is switched off.

function bytes(text) {
  const plain = globalThis.atob(text), out = new Uint8Array(plain.length);
  for (let place = 0; place < plain.length; place += 1) out[place] = plain.charCodeAt(place);
  return new DataView(out.buffer);
}

// Bytes were saved as text: {"@bytes": "…"}.
function thawed(value) {
  if (Array.isArray(value)) return value.map(thawed);
  if (value === null || typeof value !== "object") return value;
  if (typeof value["@bytes"] === "string") return bytes(value["@bytes"]);
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, thawed(item)]));
}

// The half of a widget that lives in a browser; there is nobody at the other end.
function saved(state) {
  const traits = thawed(state), heard = new Map();
  return {
    get: (name) => traits[name],
    set: (name, value) => { traits[name] = value; for (const act of heard.get(`change:${name}`) ?? []) act(); },
    on: (names, act) => { for (const name of names.split(" ")) heard.set(name, [...(heard.get(name) ?? []), act]); },
    off: (names, act) => { for (const name of names.split(" ")) heard.set(name, (heard.get(name) ?? []).filter((each) => each !== act)); },
    send: () => {}, save_changes: () => {}, widget_manager: null,
  };
}

const link = (text) => URL.createObjectURL(new Blob([text], { type: "text/javascript" }));

async function draw(place, data, modules) {
  const el = document.createElement("div");
  el.className = ["rig-saved", ...place.classes].join(" ");
  if (place.html !== undefined) { el.innerHTML = place.html; return el; }
  if (place.children) { el.append(...await Promise.all(place.children.map((child) => draw(child, data, modules)))); return el; }
  modules[place.script] ??= import(link(data.scripts[place.script]));
  const { default: widget } = await modules[place.script];
  const model = saved(place.state);
  if (widget.initialize) await widget.initialize({ model });
  await widget.render({ model, el });
  for (const control of el.querySelectorAll("input, select, textarea, button[data-act], .rig-step")) control.disabled = true;
  return el;
}

async function open(data) {
  const plotly = document.getElementById("plotly");
  if (plotly) document.body.dataset.plotly = link(plotly.textContent);
  const modules = {};
  // Every widget stands in the page before the next is drawn: some ask how wide they are.
  for (const place of data.shown) document.querySelector("main").append(await draw(place, data, modules)); // eslint-disable-line no-await-in-loop
  document.body.dataset.ready = "yes";
}

if (typeof document !== "undefined" && document.getElementById("saved")) open(JSON.parse(document.getElementById("saved").textContent));
