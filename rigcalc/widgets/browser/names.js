// A name that nothing else on the page has: each widget runs a copy of its script, so the count is the page's.
function unique() {
  globalThis.rigCount = (globalThis.rigCount ?? 0) + 1;
  return `rig${globalThis.rigCount}`;
}
