import assert from "node:assert/strict";
import { beforeEach, mock, test } from "node:test";

import { fakeModel, fire, load, page } from "./load.js";

page();
const { unpack, css, sample, legend, handle, make } = await load(
  ["wear.js", "legend.js", "handle.js", "figure.js"], ["unpack", "css", "sample", "legend", "handle", "make"]);

beforeEach(() => {
  page();
  mock.timers.reset();
  mock.timers.enable({ apis: ["setTimeout"] });
});

test("colours by name and numbers by bytes are put in, all else stays", () => {
  const bytes = (...numbers) => new DataView(new Float32Array(numbers).buffer);
  const got = unpack({
    line: { color: "@ink", dash: null }, y: { "@f4": bytes(1, 2.5), shape: [2] }, z: { "@f4": bytes(1, 2, 3, 4, 5, 6), shape: [2, 3] },
    name: "a", list: ["@soft/30", 3, false],
  }, (name) => `<${name}>`);
  assert.deepEqual(got.line, { color: "<ink>", dash: null });
  assert.deepEqual(got.y, [1, 2.5]);
  assert.deepEqual(got.z.map((row) => [...row]), [[1, 2, 3], [4, 5, 6]]);
  assert.deepEqual([got.name, got.list], ["a", ["<soft/30>", 3, false]]);
});

test("bytes in the middle of a longer message are read from where they stand", () => {
  const whole = new Float32Array([9, 1, 2, 9]);
  assert.deepEqual(unpack({ "@f4": new DataView(whole.buffer, 4, 8), shape: [2] }, String), [1, 2]);
});

test("a colour of the legend stays a name", () => {
  assert.equal(css("@ink"), "var(--ink)");
  assert.equal(css("@ink/40"), "color-mix(in srgb, var(--ink) 40%, transparent)");
  assert.equal(css("red"), "red");
  assert.equal(css(undefined), undefined);
});

test("a sample is what the trace is: line with its dashes, bar, mark", () => {
  const dashed = sample({ type: "scatter", mode: "lines", line: { color: "@ink", width: 20, dash: "dash" } });
  assert.match(dashed, /stroke-dasharray:7 5/);
  assert.match(dashed, /stroke-width:9/);
  assert.match(sample({ type: "bar", marker: { color: "@ink" } }), /<rect/);
  assert.match(sample({ mode: "markers", marker: { symbol: "diamond" } }), /<path/);
  assert.match(sample({ mode: "markers", marker: {} }), /<circle/);
});

test("the legend names what has a name, as text, and is hidden for one trace alone", () => {
  const list = make("ul"), line = { color: "@ink", width: 2 };
  const traces = [{ name: "<b>One</b>", line }, { name: "Two", line }, { line }, { name: "Map", type: "heatmap" }, { name: "Off", showlegend: false }];
  legend(list, traces, {});
  assert.deepEqual([...list.children].map((item) => item.textContent.trim()), ["<b>One</b>", "Two"]);
  assert.equal(list.querySelector("b"), null);
  assert.equal(list.hidden, false);
  const first = list.firstChild;
  legend(list, structuredClone(traces), {});
  assert.equal(list.firstChild, first, "the same isn't made anew");
  legend(list, traces.slice(1), {});
  assert.equal(list.hidden, true);
  legend(list, traces, { showlegend: false });
  assert.equal(list.children.length, 0);
});

const held = () => {
  const axis = (scale) => ({ d2p: (value) => value * scale, p2d: (value) => value / scale });
  const plot = make("div");
  plot._fullLayout = { xaxis: axis(10), yaxis: axis(2), _size: { l: 40, t: 14, w: 300, h: 200 } };
  plot.getBoundingClientRect = () => ({ left: 100, top: 50 });
  document.body.append(plot);
  const model = fakeModel({ spec: { point: [3, 5] } }), { grip, place, steady } = handle(model, plot);
  grip.setPointerCapture = () => {};
  return { plot, model, grip, place, steady };
};

test("the handle stands on the point, and is hidden where there is none", () => {
  const { model, grip, place } = held();
  place();
  assert.deepEqual([grip.style.left, grip.style.top], ["70px", "24px"]);
  model.traits.spec = {};
  place();
  assert.equal(grip.hidden, true);
});

test("a drag sends one place at a time, the newest last, never outside the picture", () => {
  const { model, grip } = held();
  fire(grip, "pointermove", { clientX: 160, clientY: 84 });
  assert.deepEqual(model.sent, [], "nothing is held yet");
  fire(grip, "pointerdown", { button: 0, pointerId: 1 });
  fire(grip, "pointermove", { clientX: 160, clientY: 84 });
  fire(grip, "pointermove", { clientX: 170, clientY: 84 });
  fire(grip, "pointermove", { clientX: 9999, clientY: -9999 });
  assert.deepEqual(model.sent, [{ kind: "tap", x: 2, y: 10, live: true }]);
  model.hear({ kind: "done" });
  assert.deepEqual(model.sent[1], { kind: "tap", x: 30, y: 0, live: true });
  model.hear({ kind: "done" });
  assert.equal(model.sent.length, 2);
  fire(grip, "pointerup");
  fire(grip, "pointermove", { clientX: 160, clientY: 84 });
  assert.equal(model.sent.length, 2, "let go");
});

test("a second button isn't a drag, and a lost answer doesn't stop the next place", () => {
  const { model, grip } = held();
  fire(grip, "pointerdown", { button: 2, pointerId: 1 });
  fire(grip, "pointermove", { clientX: 160, clientY: 84 });
  assert.deepEqual(model.sent, []);
  fire(grip, "pointerdown", { button: 0, pointerId: 1 });
  fire(grip, "pointermove", { clientX: 160, clientY: 84 });
  fire(grip, "pointermove", { clientX: 170, clientY: 84 });
  mock.timers.tick(4000);
  assert.equal(model.sent.length, 2);
});
