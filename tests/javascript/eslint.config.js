// Faults, not taste: what could be wrong in a script that runs in somebody's browser.
import js from "@eslint/js";

const readonly = (...names) => Object.fromEntries(names.map((name) => [name, "readonly"]));
const BROWSER = readonly("document", "window", "globalThis", "location", "history", "localStorage", "fetch", "setTimeout", "clearTimeout",
  "setInterval", "clearInterval", "requestAnimationFrame", "getComputedStyle", "matchMedia", "URL", "URLSearchParams", "Blob",
  "CustomEvent", "CSS", "AbortSignal", "IntersectionObserver", "MutationObserver", "ResizeObserver");
const NODE = readonly("document", "window", "URLSearchParams", "location", "localStorage", "process", "Buffer", "console", "structuredClone", "setImmediate", "URL", "globalThis");
const STRICT = {
  ...js.configs.recommended.rules,
  "array-callback-return": "error", "consistent-return": "error", "default-case-last": "error", "eqeqeq": "error", "no-alert": "error",
  "no-eval": "error", "no-implied-eval": "error", "no-new-func": "error", "no-script-url": "error", "no-shadow": "error",
  "no-throw-literal": "error", "no-unused-expressions": "error", "no-use-before-define": ["error", { functions: false, variables: false }],
  "no-var": "error", "prefer-const": "error", "no-await-in-loop": "error",
};

export default [
  { files: ["**/rigcalc/**/*.js"], languageOptions: { globals: BROWSER }, rules: STRICT, linterOptions: { reportUnusedDisableDirectives: "error" } },
  { files: ["**/tests/javascript/*.js"], languageOptions: { globals: NODE }, rules: STRICT },
];
