// A plotly picture drawn from a plain description. `wear.js`, `legend.js` and `handle.js` stand before it in the same script.
// All pictures of a page share one copy of plotly's script:
// served by `rigcalc app` and kept by the browser; elsewhere a widget of its own holds it, which a notebook saves once.

const SETTINGS = { displayModeBar: false, displaylogo: false, showTips: false };
const wanted = () => document.body.dataset.plotly;

function load(model) {
  globalThis.rigPlotly ??= new Promise((done, failed) => {
    if (globalThis.Plotly?.react) { done(globalThis.Plotly); return; }
    const run = (source) => {
      const script = document.createElement("script");
      script.src = source;
      script.onload = () => done(globalThis.Plotly);
      script.onerror = () => failed(new Error("plotly's script can't be loaded"));
      document.head.append(script);
    };
    if (wanted()) { run(wanted()); return; }
    const held = async () => {
      const holder = await model.widget_manager.get_model(model.get("held_by"));
      run(URL.createObjectURL(new Blob([holder.get("source")], { type: "text/javascript" })));
    };
    if (model.get("held_by")) { held().catch(failed); return; }
    model.on("change:held_by", () => { held().catch(failed); });
    model.send({ kind: "plotly" });
  });
  return globalThis.rigPlotly;
}

// "@name" stands for a colour of the page, where `colour` gives them; {"@f4": bytes, shape} for numbers.
function unpack(value, colour) {
  if (typeof value === "string") return colour && value.startsWith("@") ? colour(value.slice(1)) : value;
  if (Array.isArray(value)) return value.map((item) => unpack(item, colour));
  if (value === null || typeof value !== "object") return value;
  if (value["@f4"]) {
    const view = value["@f4"];
    const flat = new Float32Array(view.buffer.slice(view.byteOffset, view.byteOffset + view.byteLength));
    const [rows, columns] = value.shape;
    if (columns === undefined) return Array.from(flat);
    return Array.from({ length: rows }, (_, row) => flat.subarray(row * columns, (row + 1) * columns));
  }
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, unpack(item, colour)]));
}

// The table that says the same: asked for when its fold is opened, kept up to date from then on.
function twin(model) {
  const fold = make("details"), summary = make("summary", "", "The same as a table"), inside = make("div", "rig-folded");
  fold.append(summary, inside);
  const show = () => { inside.innerHTML = model.get("twin"); };
  fold.addEventListener("toggle", () => { if (fold.open && !model.get("twin")) model.send({ kind: "twin" }); });
  model.on("change:twin", show);
  show();
  return fold;
}

function render({ model, el }) {
  const undress = wear(model, el);
  el.classList.add("rig-figure");
  const plot = make("div", "rig-plot");
  plot.setAttribute("role", "img");
  plot.setAttribute("aria-label", model.get("label"));
  if (model.get("label")) el.append(make("h2", "", model.get("label")));
  const note = make("p");
  const remark = () => { note.textContent = model.get("note"); note.hidden = !model.get("note"); };
  remark();
  el.append(note);
  const list = make("ul", "rig-key");
  const stage = make("div", "rig-stage"), { grip, place, steady } = handle(model, plot);
  stage.append(plot);
  if (model.get("taps")) stage.append(grip);
  el.append(list, stage);
  if (model.get("has_twin")) el.append(twin(model));
  let drawn = null, near = false, seen = false, stale = true, queued = false, gone = false, Plotly = null, wide = 0, family = "", ground = null;
  const colours = new Map(); // asked of the browser once for each theme: asking makes it lay the page out anew

  const colour = (name) => {
    const [key, share] = name.split("/");
    const found = getComputedStyle(plot).getPropertyValue(`--${key}`).trim() || "#777";
    return share ? `color-mix(in srgb, ${found} ${share}%, transparent)`.replace(/^.*$/, (mix) => solid(mix)) : found;
  };
  // plotly reads only plain colours, so a mixture is resolved by the browser first.
  const solid = (mix) => {
    const probe = document.createElement("span");
    probe.style.color = mix;
    probe.style.forcedColorAdjust = "none"; // else it would be told the ink of a screen of forced colours, whatever the mixture
    plot.append(probe);
    const found = getComputedStyle(probe).color;
    probe.remove();
    const parts = found.match(/^color\(srgb ([\d.e-]+) ([\d.e-]+) ([\d.e-]+)(?: \/ ([\d.e-]+))?\)$/);
    return parts ? `rgba(${[1, 2, 3].map((i) => Math.round(255 * parts[i])).join(",")},${parts[4] ?? 1})` : found;
  };

  const draw = async () => {
    queued = false;
    if (gone || !stale || !(drawn ? seen : near) || !plot.isConnected) return;
    stale = false;
    steady();
    Plotly ??= await load(model);
    const cached = (name) => colours.get(name) ?? (colours.set(name, colour(name)), colours.get(name));
    const { plain } = model.get("spec"); // somebody's own plotly figure: its texts are texts, its legend its own
    ground ??= unpack(model.get("ground"), plain ? null : cached);
    if (!plain) legend(list, [...model.get("ground"), ...model.get("spec").data], model.get("spec").layout);
    const { data, layout, top = 14 } = unpack(model.get("spec"), plain ? null : cached);
    wide ||= plot.clientWidth;
    family ||= getComputedStyle(plot).fontFamily;
    const narrow = wide < 480;
    const full = {
      uirevision: "kept", dragmode: false, autosize: false, width: wide, height: narrow ? 340 : 400,
      paper_bgcolor: cached("paper"), plot_bgcolor: cached("paper"),
      ...layout,
      ...(plain ? {} : { showlegend: false, margin: { ...layout.margin, t: top } }),
      font: { family, size: narrow ? 12 : 14, color: cached("ink"), ...layout.font },
    };
    // The width is ours and the settings go along once: otherwise plotly measures the page before each drawing.
    await Plotly.react(plot, [...ground, ...data], full, drawn ? undefined : SETTINGS);
    drawn = full;
    place();
    plot.dataset.drawn = String(Number(plot.dataset.drawn ?? 0) + 1);
  };
  const ask = () => {
    stale = true;
    if (!queued) { queued = true; requestAnimationFrame(draw); }
  };
  // First drawn when it is nearly in sight, so that nobody scrolls onto a blank; then only while a tenth of it can be seen.
  const watch = (told, options) => {
    const watcher = new IntersectionObserver((entries) => { told(entries.at(-1)); if (stale) draw(); }, options);
    watcher.observe(plot);
    return watcher;
  };
  const watchers = [
    watch((entry) => { near = entry.isIntersecting; }, { rootMargin: "120px" }),
    watch((entry) => { seen = entry.intersectionRatio > 0.09; }, { threshold: 0.1 }),
  ];
  plot.addEventListener("click", (event) => {
    if (!model.get("taps") || !drawn) return;
    const { xaxis, yaxis, _size: size } = plot._fullLayout;
    const box = plot.getBoundingClientRect();
    const x = event.clientX - box.left - size.l, y = event.clientY - box.top - size.t;
    if (x < 0 || y < 0 || x > size.w || y > size.h) return;
    model.send({ kind: "tap", x: xaxis.p2d(x), y: yaxis.p2d(y) });
    document.dispatchEvent(new CustomEvent("rig-sent"));
  });
  model.on("change:note", remark);
  model.on("change:spec", ask);
  model.on("change:ground", () => { ground = null; ask(); });
  const repaint = () => { colours.clear(); ground = null; ask(); };
  document.addEventListener("rig-theme", repaint);
  // On paper everything is in sight, also what nobody has scrolled to.
  const printed = ({ detail }) => {
    const was = [near, seen];
    [near, seen] = [true, true];
    stale ||= !drawn;
    detail.wait(draw().finally(() => { [near, seen] = was; }));
  };
  document.addEventListener("rig-print", printed);
  const narrower = new ResizeObserver(([entry]) => {
    if (Math.round(entry.contentRect.width) === wide) return;
    wide = Math.round(entry.contentRect.width);
    ask();
  });
  narrower.observe(el);
  return () => {
    gone = true;
    undress();
    watchers.forEach((watcher) => watcher.disconnect());
    narrower.disconnect();
    document.removeEventListener("rig-theme", repaint);
    document.removeEventListener("rig-print", printed);
    if (Plotly) Plotly.purge(plot);
  };
}

export default { render };
