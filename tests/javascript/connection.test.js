// What the page does when the calculation or the connection is gone.
import assert from "node:assert/strict";
import { beforeEach, mock, test } from "node:test";

import { fakeModel, load, page } from "./load.js";

page();
const { lifeline, unanswered } = await load(["page.js"], ["lifeline", "unanswered"]);

const settle = async () => { for (let turn = 0; turn < 8; turn += 1) await null; }; // eslint-disable-line no-await-in-loop
const said = () => document.getElementById("rig-banner")?.textContent ?? "";
const tell = (type, detail) => document.dispatchEvent(new globalThis.CustomEvent(type, { detail }));

// A kernel as the page sees it: two signals, a status, a count of tries to connect.
function fakeKernel() {
  const signal = () => {
    const acts = [];
    return { connect: (act) => acts.push(act), emit: (value) => acts.forEach((act) => act(null, value)) };
  };
  const kernel = { connectionStatus: "connected", tries: 0, statusChanged: signal(), connectionStatusChanged: signal(),
    reconnect: () => { kernel.tries += 1; } };
  kernel.turn = (status) => { kernel.connectionStatus = status; kernel.connectionStatusChanged.emit(status); };
  return kernel;
}

let kernel = null, model = null;
beforeEach(() => {
  page("http://localhost/app/rig?rig=tracks");
  document.body.innerHTML = '<script id="jupyter-config-data" type="application/json">{"baseUrl": "/", "kernelId": "k"}</script>';
  document.body.dataset.rigcalc = "served";
  mock.restoreAll();
  mock.timers.reset();
  mock.timers.enable({ apis: ["setTimeout", "setInterval", "Date"], now: 1e12 });
  kernel = fakeKernel();
  model = Object.assign(fakeModel({ query: "rig=tracks" }), { widget_manager: { kernel } });
});

test("a calculation that the server calls dead is said at once", () => {
  const leave = lifeline(model);
  kernel.statusChanged.emit("idle");
  assert.equal(said(), "");
  kernel.statusChanged.emit("dead");
  assert.match(said(), /stopped unexpectedly.*Start again/);
  leave();
});

test("a connection that stands again within a second is no matter", async () => {
  mock.method(globalThis, "fetch", async () => ({ status: 200 }));
  const leave = lifeline(model);
  kernel.turn("connecting");
  mock.timers.tick(999);
  kernel.turn("connected");
  mock.timers.tick(5000);
  await settle();
  assert.equal(said(), "");
  leave();
});

test("a connection that stays away is said, with its cause", async () => {
  mock.method(globalThis, "fetch", async () => { throw new TypeError("refused"); });
  const leave = lifeline(model);
  kernel.turn("connecting");
  mock.timers.tick(1000);
  await settle();
  assert.match(said(), /connection to rigcalc is gone/);
  await model.hear({ kind: "pong" });
  assert.equal(document.getElementById("rig-banner").hidden, true, "an answer takes it back");
  leave();
});

test("a network that is there again is used at once", () => {
  const leave = lifeline(model);
  window.dispatchEvent(new globalThis.Event("online"));
  assert.equal(kernel.tries, 0);
  kernel.connectionStatus = "disconnected";
  window.dispatchEvent(new globalThis.Event("online"));
  assert.equal(kernel.tries, 1);
  leave();
});

test("entries nobody took go into the address, a bare number with its unit, the newest of each", () => {
  const keep = unanswered(model);
  tell("rig-entry", { path: "work.depth", text: "13", unit: "in" });
  tell("rig-entry", { path: "work.depth", text: " 14 ", unit: "in" });
  tell("rig-entry", { path: "work.speed", text: "5 mph", unit: "mph" });
  tell("rig-entry", { path: "note", text: "7", unit: "" });
  tell("rig-entry", { path: "ground.texture", text: "clay", unit: "" });
  tell("rig-taken", { path: "ground.texture", text: "clay" });
  tell("rig-taken", { path: "work.depth", text: "13" });
  keep();
  const query = new URLSearchParams(location.search);
  assert.deepEqual([...query], [["rig", "tracks"], ["work.depth", "14 in"], ["work.speed", "5 mph"], ["note", "7"]]);
});

test("elsewhere than on our own pages the address is left alone", () => {
  delete document.body.dataset.rigcalc;
  const keep = unanswered(model);
  tell("rig-entry", { path: "work.depth", text: "13", unit: "in" });
  keep();
  assert.equal(location.search, "?rig=tracks");
});
