import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";

import { fire, load, page } from "./load.js";

page();
const { between, read, start } = await load(["along.js"], ["between", "read", "start"]);

const DATA = {
  axes: [{ values: [8, 10, 12], start: 10, unit: "in", step: 0.5, digits: 2 }, { values: [4, 5, 6], start: 5, unit: "mph", step: 0.1, digits: 2 }],
  judged: [[0, 0, 1], [0, 1, 1], [1, 2, 2]],
  chance: [[0.99, 0.97, 0.8], [0.95, 0.8, 0.6], [0.7, 0.2, 0.1]],
  chances: ["few", "many"], chance_said: [[1, 1, 1], [1, 1, 1], [1, 0, 0]],
  limits: ["engine power", "grip"], nearest: [[0, 0, 0], [0, 0, 0], [0, 1, 1]],
  figures: [{ title: "Slip", unit: "%", values: [[4, 5, 6], [6, 7, 8], [8, 9, null]] }],
  fields: "such fields", words: ["Go", "Try it first", "Don't"],
};
beforeEach(() => { page(); });

test("a place lies between two points, and at the ends on them", () => {
  assert.deepEqual(between([8, 10, 12], 9), { place: 0, share: 0.5 });
  assert.deepEqual(between([8, 10, 12], 10), { place: 1, share: 0 });
  assert.deepEqual(between([8, 10, 12], 12), { place: 1, share: 1 });
  assert.deepEqual(between([8, 10, 12], 99), { place: 1, share: 1 });
});

test("on a point the table's own answer stands, whatever its neighbours say", () => {
  assert.deepEqual(read(DATA, 8, 4), { judged: 0, chance: "many", nearest: "engine power", figures: [4] });
  assert.deepEqual(read(DATA, 10, 4).judged, 0);
  assert.deepEqual(read(DATA, 10, 4).figures, [6]);
});

test("between points figures run straight and the judgement is the worst around", () => {
  const told = read(DATA, 11, 4.5);
  assert.deepEqual([told.judged, told.chance, told.nearest], [2, "few", "grip"]);
  assert.equal(told.figures[0], (6 + 7 + 8 + 9) / 4);
  assert.equal(read(DATA, 9, 4).judged, 0);
  assert.equal(read(DATA, 9, 4.5).judged, 1);
});

test("where one of the points pulls nothing the figure is out of reach", () => {
  assert.deepEqual(read(DATA, 11, 5.5).figures, [null]);
});

test("the page follows its sliders", () => {
  document.body.innerHTML = `<div id="answer"><span id="word"></span><p id="said"></p></div><input id="depth" type="range"><output id="depth-said"></output>
    <input id="speed" type="range"><output id="speed-said"></output><b id="figure-0"></b>`;
  start(DATA);
  assert.equal(document.getElementById("word").textContent, "Try it first");
  assert.equal(document.getElementById("figure-0").textContent, "7 %");
  const depth = document.getElementById("depth");
  depth.value = 12;
  fire(depth, "input");
  assert.equal(document.getElementById("word").textContent, "Don't");
  assert.equal(document.getElementById("answer").className, "is-over");
  assert.match(document.getElementById("said").textContent, /^12 in deep at 5 mph: every limit holds in few such fields. First to give out: grip/);
});
