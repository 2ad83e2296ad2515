// What a page's bar does without the calculation: passing the address on, printing, going to an entry. `data-browser` names it.

// Whoever has a way to pass links on in the browser gets it; elsewhere the address is copied.
async function share(button) {
  const link = { title: document.title, url: location.href };
  const { navigator } = globalThis;
  if (navigator.share && matchMedia("(pointer: coarse)").matches) {
    try { await navigator.share(link); return; } catch (error) { if (error.name === "AbortError") return; }
  }
  try {
    await navigator.clipboard.writeText(link.url);
    tell(button, "Link copied");
  } catch {
    tell(button, "The link stands in the address bar");
  }
}

function tell(button, text) {
  const before = button.textContent;
  button.textContent = text;
  button.setAttribute("role", "status");
  setTimeout(() => { button.textContent = before; button.removeAttribute("role"); }, 2500);
}

// Pictures that were never in sight are drawn first: each says through `wait` when it is.
async function print() {
  const waiting = [];
  document.dispatchEvent(new CustomEvent("rig-print", { detail: { wait: (drawn) => waiting.push(drawn) } }));
  await Promise.allSettled(waiting);
  globalThis.print();
}

// From a fault to the entry that it is about, wherever that is folded.
function goTo(button) {
  const page = button.closest(".rig-app") ?? document;
  const field = page.querySelector(`[data-path="${CSS.escape(button.dataset.path)}"]:not([hidden])`);
  if (!field) return;
  for (let fold = field.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
  field.querySelector("input:not([type=range]), select, textarea")?.focus();
  field.scrollIntoView({ block: "center" });
}

function handy(button) {
  if (button.dataset.browser === "goto") goTo(button);

  if (button.dataset.browser === "share") share(button);
  if (button.dataset.browser === "print") print();
}
