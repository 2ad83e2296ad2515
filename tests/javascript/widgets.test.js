import assert from "node:assert/strict";
import { beforeEach, mock, test } from "node:test";

import { fakeModel, fire, load, page } from "./load.js";

page();
const { default: quantity } = await load(["wear.js", "names.js", "number.js", "quantity.js"], ["render"]);
const { default: choice } = await load(["wear.js", "names.js", "choice.js"], ["render"]);
const { save } = await load(["save.js"], ["save"]);

const STATE = { text: "12 in", number: 12, unit: "in", low: 4, high: 20, step: 0.5, also: "", usual: "", mark: "", fault: "" };
const shown = (what, traits) => {
  const model = Object.assign(fakeModel({ worn: {}, disabled: false, ...traits }), { saved: 0 });
  model.save_changes = () => { model.saved += 1; };
  const el = document.createElement("div");
  document.body.append(el);
  return { model, el, end: what.render({ model, el }) };
};
const entry = (traits = {}) => shown(quantity, { spec: { path: "value", label: "Depth" }, state: STATE, number: 12, ...traits });

beforeEach(() => {
  page();
  mock.timers.reset();
  mock.timers.enable({ apis: ["setTimeout"] });
});

test("what slides or steps sets the number; what is typed goes as text", () => {
  const { model, el } = entry();
  const [less, more] = el.querySelectorAll("button"), [typed, slider] = el.querySelectorAll("input");
  fire(more, "click");
  assert.equal(model.traits.number, 12.5);
  fire(less, "click");
  slider.value = "8";
  fire(slider, "input");
  assert.deepEqual([model.traits.number, model.saved, model.sent], [8, 3, []]);
  typed.value = "30 cm";
  fire(typed, "input");
  fire(typed, "change");
  assert.deepEqual(model.sent.map(({ text, live }) => [text, live]), [["30 cm", false]]);
});

test("a number that came by a link shows before the kernel says how it looks", () => {
  const { model, el } = entry();
  model.set("number", 15);
  assert.equal(el.querySelector("input").value, "15 in");
  model.traits.number = 15;
  model.set("state", { ...STATE, number: 15, text: "38.1 cm" });
  assert.equal(el.querySelector("input").value, "38.1 cm");
});

test("disabled is greyed out and takes no entry; own colours come and go", () => {
  const { model, el } = entry({ worn: { signal: "#0b6e4f" }, disabled: true });
  assert.deepEqual([el.inert, el.classList.contains("is-off"), el.getAttribute("aria-disabled")], [true, true, "true"]);
  assert.equal(el.style.getPropertyValue("--signal"), "#0b6e4f");
  model.set("disabled", false);
  model.set("worn", {});
  assert.deepEqual([el.inert, el.getAttribute("aria-disabled"), el.style.getPropertyValue("--signal")], [false, null, ""]);
});

test("copies of a script on one page name nothing alike", async () => {
  const { default: copy } = await load(["wear.js", "names.js", "number.js", "quantity.js"], ["render"]);
  const one = entry(), other = shown(copy, { spec: { path: "value", label: "Other" }, state: STATE, number: 12 });
  const ids = [one, other].flatMap(({ el }) => [...el.querySelectorAll("[id]")].map(({ id }) => id));
  assert.equal(new Set(ids).size, ids.length);
});

test("a notebook's keys leave the slider and the buttons alone, not what is typed", () => {
  const { el } = entry();
  for (const each of el.querySelectorAll("input, button")) fire(each, "focusin");
  assert.deepEqual([...el.querySelectorAll("input, button")].map((each) => each.dataset.lmSuppressShortcuts ?? null),
    [null, "true", "true", "true"]);
});

test("another description builds the entry anew, and an entry taken away hears nothing more", () => {
  const { model, el, end } = entry();
  model.set("spec", { path: "value", label: "How deep" });
  assert.equal(el.querySelector("label").textContent, "How deep");
  end();
  for (const name of ["state", "number", "spec", "worn", "disabled"]) assert.equal(model.listeners(`change:${name}`), 0, name);
});

test("a choice with pictures: what is picked is sent, what is set is shown, pictures can't run anything", () => {
  const options = [["a", "First <b>", "<svg onload='alert(1)'/>"], ["b", "Second", ""]];
  const { model, el } = shown(choice, { options, value: "a", description: "Which" });
  const radios = el.querySelectorAll("input");
  assert.deepEqual([...radios].map((radio) => radio.checked), [true, false]);
  assert.equal(el.querySelector("b"), null);
  assert.equal(el.querySelector("svg"), null);
  assert.ok(el.querySelector("img").src.startsWith("data:image/svg+xml,%3Csvg"));
  radios[1].checked = true;
  fire(radios[1], "change");
  assert.deepEqual([model.traits.value, model.saved], ["b", 1]);
  model.set("value", "a");
  assert.deepEqual([...radios].map((radio) => radio.checked), [true, false]);
});

test("a file is saved under its name", () => {
  const links = [];
  globalThis.URL.createObjectURL = () => "blob:one";
  document.addEventListener("click", ({ target }) => links.push([target.download, target.href]));
  save({ name: "rig.toml", type: "application/toml" }, ["text"]);
  assert.deepEqual(links, [["rig.toml", "blob:one"]]);
});
