import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";

import { fakeModel, fire, load, page } from "./load.js";

page();
const { default: panel } = await load(["wear.js", "save.js", "handy.js", "pieces.js", "panel.js"], ["render"]);

let model = null, el = null;
const show = (html, traits = {}) => {
  model = fakeModel({ html, role: "", label: "", live: "", ...traits });
  el = document.createElement("div");
  document.body.append(el);
  panel.render({ model, el });
};
beforeEach(() => { page(); });

test("a button sends its name and value, a click beside it nothing", () => {
  show('<p>text</p><button data-act="job" data-value="light"><b>Light</b></button>');
  fire(el.querySelector("b"), "click");
  fire(el.querySelector("p"), "click");
  assert.deepEqual(model.sent, [{ kind: "act", name: "job", value: "light" }]);
});

test("open folds and the focus survive a new text", () => {
  show('<details data-key="more"><summary>More</summary></details><button data-act="a" data-focus="a">A</button>');
  el.querySelector("details").open = true;
  el.querySelector("button").focus();
  model.set("html", '<details data-key="more"><summary>More</summary></details><details data-key="new"></details><button data-act="a" data-focus="a">A2</button>');
  assert.equal(el.querySelector("[data-key=more]").open, true);
  assert.equal(el.querySelector("[data-key=new]").open, false);
  assert.equal(document.activeElement.textContent, "A2");
});

test("a bar with the switches of the screen says that it was written, so that they can be marked", () => {
  let said = 0;
  document.addEventListener("rig-written", () => { said += 1; });
  show('<button data-theme-is="dark">Dark</button>');
  model.set("html", '<button data-theme-is="dark">Dark</button><p>new</p>');
  assert.equal(said, 2);
  show("<p>no switches</p>");
  assert.equal(said, 2);
});

test("a file chosen while the text changes is heard, and what is said of the place is what was said last", async () => {
  show('<label><input type="file" data-act="load" data-most="9" aria-label="Open"></label>');
  const chosen = el.querySelector("input");
  model.set("html", '<p>new</p><label><input type="file" data-act="load" data-most="20" aria-label="Open"></label>');
  assert.equal(el.querySelector("input"), chosen);
  Object.defineProperty(chosen, "files", { value: [{ name: "a.toml", size: 12, text: () => Promise.resolve("depth") }] });
  fire(chosen, "change");
  await new Promise((done) => { setImmediate(done); });
  assert.deepEqual(model.sent, [{ kind: "act", name: "load", value: { name: "a.toml", size: 12, text: "depth", at: 0 } }]);
});

test("a fold that asks sends when it is opened, not when it is closed", () => {
  show('<details data-ask="open" data-value="working"><summary>Working</summary></details>');
  const fold = el.querySelector("details");
  model.sent.length = 0;
  fold.open = true;
  fire(fold, "toggle");
  const once = model.sent.length;
  assert.ok(once >= 1);
  assert.deepEqual(model.sent[0], { kind: "act", name: "open", value: "working" });
  fold.open = false;
  model.sent.length = 0;
  fire(fold, "toggle");
  assert.deepEqual(model.sent, []);
});

test("an empty panel is hidden, an empty alert stays where it is", () => {
  show("");
  assert.equal(el.hidden, true);
  model.set("html", "<p>now</p>");
  assert.equal(el.hidden, false);
  show("", { role: "alert", label: "Faults", live: "assertive" });
  assert.equal(el.hidden, false);
  assert.equal(el.getAttribute("aria-live"), "assertive");
  assert.equal(el.getAttribute("aria-label"), "Faults");
});

test("a choice sends its value; a file its text, but one too big only its size", async () => {
  show('<select data-act="demo"><option value="tracks">Tracks</option></select>');
  fire(el.querySelector("select"), "change");
  assert.deepEqual(model.sent, [{ kind: "act", name: "demo", value: "tracks" }]);
  for (const [size, text] of [[10, "farm = 'x'"], [2000, ""]]) {
    show('<input type="file" data-act="load" data-most="1000">');
    const input = el.querySelector("input");
    let read = 0;
    const file = { name: "rig.toml", size, text: async () => { read += 1; return "farm = 'x'"; } };
    Object.defineProperty(input, "files", { value: [file] });
    fire(input, "change");
    await new Promise((done) => { setImmediate(done); }); // eslint-disable-line no-await-in-loop
    assert.deepEqual(model.sent, [{ kind: "act", name: "load", value: { name: "rig.toml", size, text, at: 0 } }]);
    assert.equal(read, text ? 1 : 0, "a file that is too big isn't read");
  }
});

test("sharing copies the address and says so; where that is refused it says where the link stands", async () => {
  show('<button data-browser="share">Share</button><button data-act="a">A</button>');
  const button = el.querySelector("[data-browser]"), copied = [];
  const clipboard = { writeText: async (text) => { copied.push(text); } };
  Object.defineProperty(globalThis, "navigator", { value: { clipboard }, configurable: true });
  fire(button, "click");
  await null; await null;
  assert.deepEqual(copied, ["http://localhost/rigcalc/size"]);
  assert.equal(button.textContent, "Link copied");
  assert.deepEqual(model.sent, [], "the calculation has nothing to do with it");
  clipboard.writeText = async () => { throw new Error("denied"); };
  fire(button, "click");
  await null; await null;
  assert.match(button.textContent, /address bar/);
});

test("on a phone the browser passes the link on; whoever turns that down gets no copy", async () => {
  show('<button data-browser="share">Share</button>');
  const passed = [];
  globalThis.matchMedia = () => ({ matches: true });
  const share = async (link) => { passed.push(link.url); throw Object.assign(new Error("no"), { name: "AbortError" }); };
  const clipboard = { writeText: async () => { passed.push("copied"); } };
  Object.defineProperty(globalThis, "navigator", { value: { share, clipboard }, configurable: true });
  fire(el.querySelector("button"), "click");
  await null; await null;
  assert.deepEqual(passed, ["http://localhost/rigcalc/size"]);
});

test("printing waits for every picture that is still to be drawn", async () => {
  show('<button data-browser="print">Print</button>');
  const order = [];
  const drawn = ({ detail }) => detail.wait(Promise.resolve().then(() => { order.push("drawn"); }));
  document.addEventListener("rig-print", drawn);
  globalThis.print = () => order.push("printed");
  fire(el.querySelector("button"), "click");
  for (let turn = 0; turn < 8; turn += 1) await null; // eslint-disable-line no-await-in-loop
  assert.deepEqual(order, ["drawn", "printed"]);
});

test("a fault leads to its entry, through every fold above it, on its own page alone", () => {
  const field = '<details id="%"><summary></summary><div data-path="work.depth"><input type="range"><input type="text"></div></details>';
  document.body.innerHTML = `<div class="rig-app rig-away">${field.replace("%", "away")}</div><div class="rig-app">${field.replace("%", "here")}</div>`;
  model = fakeModel({ html: '<button data-browser="goto" data-path="work.depth">Depth</button><button data-browser="goto" data-path="none">?</button>', role: "", label: "", live: "" });
  el = document.createElement("div");
  document.querySelectorAll(".rig-app")[1].append(el);
  panel.render({ model, el });
  const [lead, nowhere] = el.querySelectorAll("button");
  fire(lead, "click");
  fire(nowhere, "click");
  assert.deepEqual([document.getElementById("here").open, document.getElementById("away").open], [true, false]);
  assert.equal(document.activeElement, document.querySelector("#here input[type=text]"));
});

test("a large file travels piece by piece, each when it is asked for; one that is gone is said", async () => {
  show('<label><input type="file" data-act="pick" data-pieces="yes" aria-label="Choose a log"></label>');
  const chosen = el.querySelector("input");
  const whole = new Uint8Array([1, 2, 3, 4, 5]);
  const file = { name: "day.log", size: 5, slice: (from, to) => ({ arrayBuffer: () => Promise.resolve(whole.slice(from, to).buffer) }) };
  Object.defineProperty(chosen, "files", { value: [file], configurable: true });
  const pieces = [];
  const send = model.send;
  model.send = (content, callbacks, buffers) => { send(content); if (content.kind === "piece") pieces.push(buffers.map((each) => [...new Uint8Array(each)])); };
  fire(chosen, "change");
  assert.deepEqual(model.sent, [{ kind: "act", name: "pick", value: { name: "day.log", size: 5 } }]);
  await model.hear({ kind: "fetch", act: "pick", from: 2, to: 5 });
  assert.deepEqual(model.sent.at(-1), { kind: "piece", act: "pick", from: 2 });
  assert.deepEqual(pieces, [[[3, 4, 5]]]);
  file.slice = () => ({ arrayBuffer: () => Promise.reject(new Error("gone")) });
  await model.hear({ kind: "fetch", act: "pick", from: 0, to: 2 });
  assert.deepEqual(pieces.at(-1), []);
});
