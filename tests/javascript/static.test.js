import assert from "node:assert/strict";
import { test } from "node:test";

import { load, page } from "./load.js";

page();
const { bytes, thawed, saved } = await load(["static.js"], ["bytes", "thawed", "saved"]);

test("bytes come back from text where they stood", () => {
  const text = Buffer.from(new Uint8Array([0, 0, 128, 63])).toString("base64");
  assert.equal(bytes(text).getFloat32(0, true), 1);
  const state = thawed({ spec: { data: [{ y: { "@f4": { "@bytes": text }, shape: [1] } }] }, label: "x", none: null });
  assert.equal(state.spec.data[0].y["@f4"].getFloat32(0, true), 1);
  assert.deepEqual([state.label, state.none, state.spec.data[0].y.shape], ["x", null, [1]]);
});

test("a saved widget tells its own script of a change and nobody else", () => {
  const model = saved({ value: 3 }), heard = [];
  const act = () => { heard.push(model.get("value")); };
  model.on("change:value change:other", act);
  model.set("value", 4);
  model.off("change:value", act);
  model.set("value", 5);
  model.send({ kind: "edit" });
  model.save_changes();
  assert.deepEqual([heard, model.get("value")], [[4], 5]);
});
