// Loads a script of the page as it is, but with what stands inside it exported, into a page of its own.
import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";

import { Window } from "happy-dom";

export const ROOT = fileURLToPath(new URL("../../", import.meta.url));
const NAMES = ["window", "document", "localStorage", "location", "history", "CSS", "CustomEvent", "Event", "Element", "HTMLElement",
  "getComputedStyle", "matchMedia", "IntersectionObserver", "ResizeObserver", "requestAnimationFrame"];

// A fresh page; the names that a script expects of a browser point to it from then on.
export function page(address = "http://localhost/rigcalc/size") {
  const window = new Window({ url: address });
  for (const name of NAMES) {
    const value = name === "window" ? window : window[name];
    const own = typeof value === "function" && !value.prototype?.constructor ? value.bind(window) : value;
    Object.defineProperty(globalThis, name, { value: own, configurable: true, writable: true });
  }
  return window;
}

let count = 0; // each load gets an instance of its own

// The files as one script (as the kernel joins them), with the names in `inside` exported besides what it exports itself.
export async function load(files, inside) {
  const texts = await Promise.all(files.map((name) => readFile(`${ROOT}rigcalc/widgets/browser/${name}`, "utf8")));
  const source = `${texts.join("\n")}\nexport { ${inside.join(", ")} };\n// ${count++}`;
  return import(`data:text/javascript;base64,${Buffer.from(source).toString("base64")}`);
}

// The half of a widget's model that lives in the browser.
export function fakeModel(traits = {}) {
  const heard = new Map();
  const model = {
    traits: { ...traits }, sent: [], buffers: [],
    get: (name) => model.traits[name],
    send: (content, _callbacks, buffers) => { model.sent.push(structuredClone(content)); model.buffers.push(buffers); },
    on: (names, act) => { for (const name of names.split(" ")) heard.set(name, [...(heard.get(name) ?? []), act]); },
    off: (names, act) => { for (const name of names.split(" ")) heard.set(name, (heard.get(name) ?? []).filter((each) => each !== act)); },
    hear: (message, buffers) => Promise.all((heard.get("msg:custom") ?? []).map((act) => act(message, buffers))),
    set: (name, value) => { model.traits[name] = value; for (const act of heard.get(`change:${name}`) ?? []) act(); },
    listeners: (name) => (heard.get(name) ?? []).length,
  };
  return model;
}

export const fire = (element, type, more = {}) => {
  const event = Object.assign(new globalThis.Event(type, { bubbles: true }), more);
  element.dispatchEvent(event);
};
