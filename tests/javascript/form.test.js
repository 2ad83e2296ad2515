import assert from "node:assert/strict";
import { beforeEach, mock, test } from "node:test";

import { fakeModel, fire, load, page } from "./load.js";

page();
const { sender, numberField, choiceField, textField, sightField, default: form } = await load(["wear.js", "names.js", "number.js", "fields.js", "form.js"], ["sender", "numberField", "choiceField", "textField", "sightField"]);

const STATE = { text: "12 in", number: 12, unit: "in", low: 4, high: 20, step: 0.5, also: "30 cm", usual: "10 to 12 in", mark: "", fault: "" };
let sent = [];
const send = (...edit) => { sent.push(edit); };

beforeEach(() => {
  page();
  sent = [];
  mock.timers.reset();
  mock.timers.enable({ apis: ["setTimeout"] });
});

test("one edit is under way at a time and the newest text of each path waits", () => {
  const model = fakeModel(), edit = sender(model);
  edit("work.depth", "1 in", true);
  edit("work.depth", "2 in", true);
  edit("work.depth", "3 in", true);
  edit("work.speed", "5 mph", false);
  assert.deepEqual(model.sent, [{ kind: "edit", path: "work.depth", text: "1 in", live: true }]);
  model.hear({ kind: "done" });
  model.hear({ kind: "done" });
  assert.deepEqual(model.sent.slice(1).map(({ path, text, live }) => [path, text, live]), [["work.depth", "3 in", true], ["work.speed", "5 mph", false]]);
  model.hear({ kind: "done" });
  assert.equal(model.sent.length, 3, "nothing waits any more");
  edit("work.depth", "4 in", false);
  assert.equal(model.sent.length, 4, "and the next goes at once");
});

test("an edit without an answer goes again, five times in all", () => {
  const model = fakeModel(), edit = sender(model);
  edit("work.depth", "1 in", false);
  for (let turn = 0; turn < 9; turn += 1) mock.timers.tick(4000);
  assert.equal(model.sent.length, 5);
  assert.ok(model.sent.every(({ text }) => text === "1 in"));
});

test("a lost edit isn't sent again over a newer one", () => {
  const model = fakeModel(), edit = sender(model);
  edit("work.depth", "1 in", false);
  edit("work.depth", "2 in", false);
  mock.timers.tick(4000);
  assert.deepEqual(model.sent.map(({ text }) => text), ["1 in", "2 in"]);
  mock.timers.tick(4000);
  assert.deepEqual(model.sent.map(({ text }) => text), ["1 in", "2 in", "2 in"]);
});

test("without a connection nothing piles up; it goes when there is one", () => {
  const kernel = { connectionStatus: "connected" };
  const model = Object.assign(fakeModel(), { widget_manager: { kernel } }), edit = sender(model);
  edit("work.depth", "1 in", false);
  kernel.connectionStatus = "connecting";
  for (let turn = 0; turn < 9; turn += 1) mock.timers.tick(4000);
  assert.equal(model.sent.length, 1);
  kernel.connectionStatus = "connected";
  mock.timers.tick(4000);
  assert.equal(model.sent.length, 2);
});

test("the page learns of every entry, and which of them the calculation has taken", () => {
  const model = fakeModel(), edit = sender(model), heard = [];
  document.addEventListener("rig-entry", ({ detail }) => heard.push(["entry", detail]));
  document.addEventListener("rig-taken", ({ detail }) => heard.push(["taken", detail]));
  edit("work.depth", "13", false, "in");
  model.hear({ kind: "pong" });
  assert.deepEqual(heard, [["entry", { path: "work.depth", text: "13", unit: "in" }]]);
  model.hear({ kind: "done" });
  assert.deepEqual(heard[1], ["taken", { path: "work.depth", text: "13" }]);
});

test("a connection that throws is no fault of the page", () => {
  const model = fakeModel(), edit = sender(model);
  model.send = () => { throw new Error("no connection"); };
  assert.doesNotThrow(() => edit("work.depth", "1 in", false));
});

const number = (state = {}) => {
  const field = numberField({ path: "work.depth", label: "Depth", help: "how deep" }, "k", send);
  document.body.append(field.root);
  field.show({ ...STATE, ...state });
  const at = (selector) => field.root.querySelector(selector);
  return { field, typed: at(".rig-typed"), slider: at(".rig-slider"), less: at(".rig-step"), more: field.root.querySelectorAll(".rig-step")[1], at };
};

test("a number field shows what the kernel says, and a fault to those who can't see it", () => {
  const { typed, at, field } = number({ fault: "too deep", mark: "!" });
  assert.equal(typed.value, "12 in");
  assert.equal(at(".rig-also").textContent, "30 cm");
  assert.equal(at(".rig-usual").textContent, "10 to 12 in");
  assert.equal(at(".rig-fault").textContent, "too deep");
  assert.equal(typed.getAttribute("aria-invalid"), "true");
  assert.ok(field.root.classList.contains("is-faulty"));
  assert.equal(field.root.style.getPropertyValue("--filled"), "50%");
  field.show(STATE);
  assert.equal(typed.getAttribute("aria-invalid"), "false");
  assert.ok(!field.root.classList.contains("is-faulty"));
});

test("the band of usual values stays inside the slider", () => {
  const { field } = number({ valid: [0, 12] });
  assert.equal(field.root.style.getPropertyValue("--from"), "0%");
  assert.equal(field.root.style.getPropertyValue("--to"), "50%");
  assert.ok(field.root.classList.contains("has-valid"));
  field.show(STATE);
  assert.ok(!field.root.classList.contains("has-valid"));
});

test("steps lie on the slider's grid, end at its ends and keep the digits of the step", () => {
  const { less, more, field } = number({ number: 12.2, text: "12.2 in" });
  fire(more, "click");
  fire(less, "click");
  assert.deepEqual(sent, [["work.depth", "12.5 in", false], ["work.depth", "11.5 in", false]]);
  field.show({ ...STATE, number: 20 });
  fire(more, "click");
  field.show({ ...STATE, number: 4 });
  fire(less, "click");
  assert.deepEqual(sent.slice(2).map(([, text]) => text), ["20.0 in", "4.0 in"]);
});

test("steps of a field that has no number begin in the middle", () => {
  const { more } = number({ number: null, text: "" });
  fire(more, "click");
  assert.deepEqual(sent, [["work.depth", "12.5 in", false]]);
});

test("what is being typed isn't written over, and goes once, with Enter or on leaving", () => {
  const { typed, field } = number();
  typed.value = "14";
  fire(typed, "input");
  assert.equal(field.show({ ...STATE, text: "13 in" }), false, "not shown in full");
  assert.equal(typed.value, "14");
  fire(typed, "keydown", { key: "a" });
  assert.deepEqual(sent, []);
  fire(typed, "keydown", { key: "Enter" });
  fire(typed, "change");
  assert.deepEqual(sent, [["work.depth", "14", false, "in"]], "with the unit that a bare number would have");
  assert.equal(field.show({ ...STATE, text: "14 in" }), true);
  assert.equal(typed.value, "14 in");
});

test("a slider sends while it moves and isn't pulled back under the finger", () => {
  const { slider, typed, field } = number();
  slider.value = "15";
  fire(slider, "input");
  assert.deepEqual(sent, [["work.depth", "15.0 in", true]]);
  field.show({ ...STATE, text: "12 in", number: 12 });
  assert.equal(slider.value, "15");
  assert.equal(typed.value, "15.0 in");
  fire(slider, "change");
  assert.deepEqual(sent[1], ["work.depth", "15.0 in", true]);
});

test("a choice that isn't in the list is added, not lost", () => {
  const { root, show } = choiceField({ path: "ground.texture", label: "Soil", help: "", options: [["sand", "Sand"], ["clay", "Clay"]] }, "k", send);
  const select = root.querySelector("select");
  show({ text: "silt", fault: "unknown" });
  assert.equal(select.value, "silt");
  assert.equal(select.options.length, 3);
  assert.equal(select.getAttribute("aria-invalid"), "true");
  show({ text: "silt", fault: "" });
  assert.equal(select.options.length, 3, "once");
  select.value = "clay";
  fire(select, "change");
  assert.deepEqual(sent, [["ground.texture", "clay", false]]);
});

test("a text goes when it is left, and only if it changed", () => {
  const { root, show } = textField({ path: "note", label: "Note", help: "", kind: "lines", rows: 3 }, "k", send);
  const typed = root.querySelector("textarea");
  show({ text: "old", fault: "" });
  fire(typed, "change");
  assert.deepEqual(sent, []);
  typed.value = "new <b>";
  fire(typed, "input");
  show({ text: "old", fault: "" });
  assert.equal(typed.value, "new <b>");
  fire(typed, "change");
  assert.deepEqual(sent, [["note", "new <b>", false]]);
});

test("a form draws its sections, hides what is hidden, keeps folds open and touches only what changed", () => {
  const el = document.createElement("div");
  const spec = [
    { title: "Work", folds: false, open: true, note: "", fields: [{ kind: "number", path: "work.depth", label: "Depth" }] },
    { title: "More", folds: true, open: false, note: "a note", fields: [{ kind: "number", path: "work.speed", label: "Speed" }] },
  ];
  const model = fakeModel({ spec, label: "Entries", titles: ["More, 1 of 1 given"],
    state: { "work.depth": STATE, "work.speed": { ...STATE, hidden: true } } });
  const leave = form.render({ model, el });
  assert.equal(el.querySelectorAll(".rig-field").length, 2);
  assert.equal(el.querySelector("summary h2").textContent, "More, 1 of 1 given");
  assert.equal(el.querySelector("[data-path='work.speed']").hidden, true);
  const typed = el.querySelector("[data-path='work.depth'] .rig-typed");
  typed.value = "touched by nobody";
  model.set("state", { "work.depth": { ...STATE }, "work.speed": { ...STATE, hidden: false } });
  assert.equal(typed.value, "touched by nobody", "an equal state isn't shown again");
  assert.equal(el.querySelector("[data-path='work.speed']").hidden, false);
  el.querySelector("details.rig-section").open = true;
  model.set("spec", spec);
  assert.equal(el.querySelector("details.rig-section").open, true);
  leave();
  assert.equal(model.listeners("change:spec"), 0);
});

test("a swipe that begins on a slider leaves the entry; a thumb that moves across changes it", () => {
  const field = numberField({ path: "work.depth", label: "Depth" }, "k", send);
  document.body.append(field.root);
  field.show(STATE);
  const slider = field.root.querySelector(".rig-slider"), typed = field.root.querySelector(".rig-typed");
  const touch = (type, clientX, clientY) => fire(slider, type, { pointerType: "touch", clientX, clientY });
  const native = (value) => { slider.value = value; fire(slider, "input"); };
  touch("pointerdown", 100, 100);
  native(18); // a browser moves the slider to where the thumb came down
  touch("pointermove", 103, 140);
  touch("pointercancel", 103, 140);
  assert.deepEqual([sent, slider.value, typed.value], [[], "12", "12 in"]);
  touch("pointerdown", 100, 100);
  native(13);
  touch("pointermove", 120, 103);
  native(14);
  touch("pointerup", 140, 103);
  fire(slider, "change");
  assert.deepEqual(sent.map(([, text]) => text), ["13.0 in", "14.0 in", "14.0 in"]);
});

test("a tap on a slider counts where it is lifted, and a mouse needs no such care", () => {
  const field = numberField({ path: "work.depth", label: "Depth" }, "k", send);
  field.show(STATE);
  const slider = field.root.querySelector(".rig-slider");
  fire(slider, "pointerdown", { pointerType: "touch", clientX: 1, clientY: 1 });
  slider.value = 16; fire(slider, "input");
  assert.deepEqual(sent, []);
  fire(slider, "pointerup", { pointerType: "touch", clientX: 1, clientY: 1 });
  assert.deepEqual(sent, [["work.depth", "16.0 in", true]]);
  fire(slider, "pointerdown", { pointerType: "mouse", clientX: 1, clientY: 1 });
  slider.value = 17; fire(slider, "input");
  assert.deepEqual(sent.at(-1), ["work.depth", "17.0 in", true]);
});

test("a fact is a box without a slider, with a number pad, and shows what is assumed in its place", () => {
  const field = numberField({ path: "tractor.wheelbase", label: "Wheelbase", box: true }, "k", send);
  assert.equal(field.root.querySelector(".rig-slider"), null);
  assert.equal(field.root.querySelector(".rig-typed").getAttribute("inputmode"), "decimal");
  field.show({ ...STATE, text: "", number: null, taken: "9.8 ft", rule: "<b>By class.</b>" });
  const taken = field.root.querySelector(".rig-taken");
  assert.equal(taken.hidden, false);
  assert.equal(taken.querySelector("summary").textContent, "assumed: 9.8 ft");
  assert.equal(taken.querySelector("p").textContent, "<b>By class.</b>", "a text stays a text");
  field.show(STATE);
  assert.equal(taken.hidden, true);
});

test("a choice in sight sends what is chosen and shows what stands", () => {
  const options = [["2WD", "two-wheel drive", "<svg onload='x()'/>"], ["track", "tracks", ""]];
  const field = sightField({ path: "own.gear", label: "Runs on", options }, "k", send);
  const [first, second] = field.root.querySelectorAll("input");
  field.show({ text: "track", fault: "" });
  assert.deepEqual([first.checked, second.checked], [false, true]);
  first.checked = true;
  fire(first, "change");
  assert.deepEqual(sent, [["own.gear", "2WD", false]]);
  assert.equal(field.root.querySelectorAll("img").length, 1);
  assert.match(field.root.querySelector("img").getAttribute("src"), /^data:image/);
  field.show({ text: "", fault: "Expected one." });
  assert.deepEqual([first.checked, second.checked], [false, false]);
  assert.equal(field.root.querySelector("fieldset").getAttribute("aria-invalid"), "true");
});
