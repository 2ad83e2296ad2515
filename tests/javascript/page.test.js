import assert from "node:assert/strict";
import { beforeEach, mock, test } from "node:test";

import { fakeModel, fire, load, page } from "./load.js";

page();
const { default: whole, lifeline, theme, stored, kernelAddress, cause, whenDrawn, letters, storedLetters, mark } = await load(
  ["save.js", "page.js"], ["lifeline", "theme", "stored", "kernelAddress", "cause", "whenDrawn", "letters", "storedLetters", "mark"]);

const settle = async () => { for (let turn = 0; turn < 6; turn += 1) await null; }; // eslint-disable-line no-await-in-loop
const banner = () => document.getElementById("rig-banner");
beforeEach(() => {
  page();
  mock.timers.reset();
  mock.timers.enable({ apis: ["setTimeout", "setInterval", "Date"], now: 1e12 });
});

test("what many parts are to show comes at once, with bytes put in their places", async () => {
  const got = {};
  const part = (name) => ({ set_state: (state) => { got[name] = state; } });
  const parts = { one: part("one"), two: part("two") };
  const model = fakeModel();
  model.widget_manager = { get_model: async (name) => { if (!parts[name]) throw new Error("closed"); return parts[name]; } };
  whole.initialize({ model });
  await model.hear({ kind: "together", updates: [
    ["one", { spec: { data: [{ y: null }] } }, [["spec", "data", 0, "y"]]], ["gone", { a: null }, [["a"]]], ["two", { html: "<p>", b: null }, [["b"]]],
  ] }, ["y", "lost", "b"]);
  assert.deepEqual(got, { one: { spec: { data: [{ y: "y" }] } }, two: { html: "<p>", b: "b" } });
  await model.hear({ kind: "other", updates: [["one", {}, []]] }, []);
  assert.equal(Object.keys(got.one).length, 1, "other messages are nothing to it");
});

test("the words before the scripts go when the parts are seen in their place, not before", async () => {
  let drawn = 0;
  whenDrawn(() => { drawn += 1; });
  assert.equal(drawn, 1, "there were none");
  document.body.innerHTML = '<div class="rig-early"></div><main id="rendered_cells" style="display: none"></main>';
  const cells = document.getElementById("rendered_cells");
  window.Element.prototype.checkVisibility = () => cells.style.display !== "none";
  const made = [];
  globalThis.MutationObserver = class { constructor(look) { this.look = look; made.push(this); } observe() { this.on = true; } disconnect() { this.on = false; } };
  whenDrawn(() => { drawn += 1; });
  cells.innerHTML = '<div class="rig-app"><div class="rig-panel"><p>Go</p></div></div>';
  made[0].look();
  assert.deepEqual([drawn, document.querySelectorAll(".rig-early").length], [1, 1], "drawn, but out of sight");
  cells.style.display = "";
  made[0].look();
  assert.deepEqual([drawn, document.querySelectorAll(".rig-early").length, made[0].on], [2, 0, false]);
});

test("a theme is kept and marked, and auto takes the mark away", () => {
  document.body.innerHTML = '<button data-theme-is="dark"></button><button data-theme-is="auto"></button>';
  const pressed = () => [...document.querySelectorAll("button")].map((button) => button.getAttribute("aria-pressed"));
  theme("dark");
  assert.equal(document.documentElement.dataset.theme, "dark");
  assert.deepEqual(pressed(), ["true", "false"]);
  assert.equal(stored(), "dark");
  theme("auto");
  assert.equal(document.documentElement.dataset.theme, undefined);
  assert.deepEqual(pressed(), ["false", "true"]);
});

test("larger letters are kept and marked, and nothing odd that is stored is taken", () => {
  document.body.innerHTML = '<button data-letters="100"></button><button data-letters="175"></button>';
  letters("175");
  assert.equal(document.documentElement.style.fontSize, "175%");
  assert.deepEqual([...document.querySelectorAll("button")].map((button) => button.getAttribute("aria-pressed")), ["false", "true"]);
  assert.equal(storedLetters(), "175");
  document.body.innerHTML = '<button data-letters="100" aria-pressed="false"></button><button data-letters="175" aria-pressed="false"></button>';
  mark();
  assert.deepEqual([...document.querySelectorAll("button")].map((button) => button.getAttribute("aria-pressed")), ["false", "true"], "written anew");
  letters("100");
  assert.equal(document.documentElement.style.fontSize, "");
  localStorage.setItem("rig-letters", "9000; x");
  assert.equal(storedLetters(), "100");
});

test("a private window without storage has the usual theme", () => {
  Object.defineProperty(globalThis, "localStorage", { get: () => { throw new Error("denied"); }, configurable: true });
  assert.equal(stored(), "auto");
  assert.doesNotThrow(() => theme("dark"));
});

test("the kernel's address is known on our own pages alone", () => {
  assert.equal(kernelAddress(), null);
  document.body.innerHTML = '<script id="jupyter-config-data" type="application/json">{"baseUrl": "/b/", "kernelId": "k1"}</script>';
  assert.equal(kernelAddress(), null);
  document.body.dataset.rigcalc = "served";
  assert.equal(kernelAddress(), "/b/api/kernels/k1");
});

test("the cause of a silence: put to rest, crashed, or no server", async () => {
  assert.equal(await cause(), "crashed", "unknown elsewhere");
  document.body.innerHTML = '<script id="jupyter-config-data" type="application/json">{"baseUrl": "/b/", "kernelId": "k1"}</script>';
  document.body.dataset.rigcalc = "served";
  for (const [answer, why] of [[{ status: 404 }, "asleep"], [{ status: 200 }, "crashed"], [null, "server"]]) {
    mock.method(globalThis, "fetch", async () => { if (!answer) throw new TypeError("failed"); return answer; });
    assert.equal(await cause(), why); // eslint-disable-line no-await-in-loop
    mock.restoreAll();
  }
});

test("silence is said after six seconds, and taken back when an answer comes", async () => {
  const model = fakeModel(), leave = lifeline(model);
  assert.deepEqual(model.sent, [{ kind: "ping" }]);
  mock.timers.tick(3000);
  await settle();
  assert.equal(banner(), null);
  mock.timers.tick(6000);
  await settle();
  assert.equal(banner().hidden, false);
  assert.match(banner().textContent, /stopped unexpectedly/);
  assert.equal(banner().querySelector("button").textContent, "Start again with the same entries");
  await model.hear({ kind: "pong" });
  assert.equal(banner().hidden, true);
  leave();
});

test("answers in time say nothing, and a page nobody touches asks no more after ten minutes", async () => {
  const model = fakeModel(), leave = lifeline(model);
  for (let turn = 0; turn < 20; turn += 1) {
    await model.hear({ kind: "pong" }); // eslint-disable-line no-await-in-loop
    mock.timers.tick(3000);
  }
  assert.equal(banner(), null);
  assert.ok(model.sent.length > 15);
  for (let turn = 0; turn < 11; turn += 1) { await model.hear({ kind: "pong" }); mock.timers.tick(60000); } // eslint-disable-line no-await-in-loop
  const quiet = model.sent.length;
  mock.timers.tick(60000);
  assert.equal(model.sent.length, quiet);
  fire(document, "keydown");
  await settle();
  assert.ok(model.sent.length > quiet, "a touch wakes it");
  leave();
});

test("the address follows the entries once they rest, and a token leaves it", () => {
  page("http://localhost/rigcalc/size?token=secret&rig=tracks");
  document.body.dataset.rigcalc = "served";
  const model = fakeModel({ query: "", revision: 0 }), el = document.createElement("div");
  const leave = whole.render({ model, el });
  assert.equal(location.search, "?rig=tracks");
  assert.deepEqual(model.sent[0], { kind: "start", query: "rig=tracks" });
  model.set("query", "a=1");
  mock.timers.tick(200);
  model.set("query", "a=2");
  mock.timers.tick(299);
  assert.equal(location.search, "?rig=tracks");
  mock.timers.tick(1);
  assert.equal(location.search, "?a=2");
  model.set("revision", 7);
  assert.equal(document.body.dataset.revision, "7");
  leave();
});
