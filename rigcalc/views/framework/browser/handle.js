// The handle on the point of a picture.

// The chosen point as something to hold: drag it and the point follows, one message under way at a time, the newest last.
// It takes the finger for itself, so that the rest of the picture still scrolls the page. By keyboard the sliders do the same.
function handle(model, plot) {
  const grip = make("div", "rig-handle");
  grip.setAttribute("aria-hidden", "true");
  let held = false, busy = false, wanted = null, late = null;
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
    if (!held) return;
    const { xaxis, yaxis, _size: size } = plot._fullLayout, box = plot.getBoundingClientRect();
    const x = Math.min(size.w, Math.max(0, event.clientX - box.left - size.l));
    const y = Math.min(size.h, Math.max(0, event.clientY - box.top - size.t));
    grip.style.left = `${size.l + x}px`;
    grip.style.top = `${size.t + y}px`;
    wanted = { x: xaxis.p2d(x), y: yaxis.p2d(y), live: true };
    if (!busy) next();
  };
  const drop = () => { held = false; grip.classList.remove("is-held"); };
  grip.addEventListener("pointerdown", (event) => {
    if (event.button) return;
    event.preventDefault();
    grip.setPointerCapture(event.pointerId);
    grip.classList.add("is-held");
    held = true;
  });
  grip.addEventListener("pointermove", follow);
  for (const end of ["pointerup", "pointercancel"]) grip.addEventListener(end, drop);
  model.on("msg:custom", (message) => {
    if (message.kind !== "done") return;
    next();
    if (!busy) place();
  });
  return { grip, place };
}
