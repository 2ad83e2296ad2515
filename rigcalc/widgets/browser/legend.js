// The legend of a picture: a list on the page, not in plotly's drawing.

const make = (tag, name, text) => {
  const element = document.createElement(tag);
  if (name) element.className = name;
  if (text) element.textContent = text;
  return element;
};

// What each line, bar and mark stands for, as words beside a sample. Text of the page wraps, grows and is read out; plotly's own
// legend measures every letter anew at every move. Colours stay names, so that the theme needs no new one.
const css = (name) => {
  if (!name?.startsWith("@")) return name;
  const [key, share] = name.slice(1).split("/");
  return share ? `color-mix(in srgb, var(--${key}) ${share}%, transparent)` : `var(--${key})`;
};
const DASHES = { dash: "7 5", dot: "2.5 3.5", longdashdot: "12 4 3 4" };
const lengths = (dash) => (/px/.test(dash) ? dash.replaceAll(/px,?/g, " ") : "none"); // "12px,4px", as plotly takes them

function sample({ type, mode, line = {}, marker = {}, opacity = 1 }) {
  const stroke = (d, { color, width, dash }) =>
    `<path d="${d}" style="fill:none;stroke:${css(color)};stroke-width:${Math.min(width, 9)};stroke-dasharray:${DASHES[dash] ?? lengths(dash)}"/>`;
  const inked = `style="fill:${css(marker.color)};stroke:${css(marker.line?.color) ?? "none"};stroke-width:2.5"`;
  const marks = {
    square: `<rect x="9" y="1" width="16" height="14" ${inked}/>`, diamond: `<path d="M17 1L24 8L17 15L10 8Z" ${inked}/>`,
    circle: `<circle cx="17" cy="8" r="6" ${inked}/>`, "line-ew": stroke("M4 8H30", marker.line ?? {}),
  };
  const shape = type === "bar" ? marks.square : mode === "markers" ? marks[marker.symbol ?? "circle"] : stroke("M1 8H33", line);
  return `<svg viewBox="0 0 34 16" aria-hidden="true" style="opacity:${opacity}">${shape}</svg>`;
}

function legend(list, traces, layout) {
  const named = layout.showlegend === false ? [] : traces.filter((trace) => trace.name && trace.showlegend !== false && trace.type !== "heatmap");
  const text = JSON.stringify(named.map(({ type, mode, name, line, marker, opacity }) => [type, mode, name, line, marker, opacity]));
  if (list.shows === text) return;
  list.shows = text;
  list.replaceChildren(...(named.length > 1 ? named : []).map((trace) => {
    const item = make("li");
    item.innerHTML = sample(trace);
    item.append(trace.name);
    return item;
  }));
  list.hidden = named.length < 2;
}
