// The handle on the point of a picture.

// The chosen point as something to hold: drag it and the point follows, one message under way at a time, the newest last.
// It takes the finger for itself, so that the rest of the picture still scrolls the page. By keyboard the sliders do the same.
function handle(model, plot) {
  const grip = make("div", "rig-handle");
  grip.setAttribute("aria-hidden", "true");
  // held: where the picture stood when the finger came, kept until the last answer stands; down: the finger is still there.
  let held = null, down = false, busy = false, wanted = null, late = null;
  const place = () => {
    const point = model.get("spec").point, { xaxis, yaxis, _size: size } = plot._fullLayout ?? {};
    grip.hidden = !point;
    if (!point || held || !xaxis) return;
    grip.style.left = `${size.l + xaxis.d2p(point[0])}px`;
    grip.style.top = `${size.t + yaxis.d2p(point[1])}px`;
  };
  const next = () => {
    clearTimeout(late);
    busy = Boolean(wanted);
    if (!wanted) return;
    model.send({ kind: "tap", ...wanted });
    wanted = null;
    late = setTimeout(next, 4000);
    document.dispatchEvent(new CustomEvent("rig-sent"));
  };
  const follow = (event) => {
    if (!down) return;
    const { xaxis, yaxis, _size: size } = plot._fullLayout;
    const x = Math.min(size.w, Math.max(0, event.clientX - held.left - size.l));
    const y = Math.min(size.h, Math.max(0, event.clientY - held.top - size.t));
    grip.style.left = `${size.l + x}px`;
    grip.style.top = `${size.t + y}px`;
    wanted = { x: xaxis.p2d(x), y: yaxis.p2d(y), live: true };
    if (!busy) next();
  };
  // What stands above grows and shrinks with the answer. Under a finger the browser lets the page jump; the picture must stay
  // where it is held, or the point runs away.
  const steady = () => {
    if (!held) return;
    let scroller = plot.parentElement;
    while (scroller && !(scroller.scrollHeight > scroller.clientHeight && /auto|scroll/.test(getComputedStyle(scroller).overflowY))) {
      scroller = scroller.parentElement;
    }
    (scroller ?? document.scrollingElement).scrollTop += plot.getBoundingClientRect().top - held.top;
  };
  const let_go = () => { held = null; place(); };
  // The answer to the last move comes after the finger has gone, and what stands above changes with it once more.
  const settled = () => requestAnimationFrame(() => {
    if (down || busy) return;
    steady();
    let_go();
  });
  const drop = () => {
    down = false;
    grip.classList.remove("is-held");
    if (!busy) settled();
  };
  // Who scrolls on before that wants the page to go.
  for (const sign of ["wheel", "touchstart"]) plot.addEventListener(sign, () => { if (held && !down) let_go(); }, { passive: true });
  grip.addEventListener("pointerdown", (event) => {
    if (event.button) return;
    event.preventDefault();
    grip.setPointerCapture(event.pointerId);
    grip.classList.add("is-held");
    held = plot.getBoundingClientRect();
    down = true;
  });
  grip.addEventListener("pointermove", follow);
  for (const end of ["pointerup", "pointercancel"]) grip.addEventListener(end, drop);
  model.on("msg:custom", (message) => {
    if (message.kind !== "done") return;
    next();
    if (!busy) { place(); settled(); }
  });
  return { grip, place, steady };
}
