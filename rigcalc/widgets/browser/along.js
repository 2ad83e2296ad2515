// A page that was taken along: two sliders over a table of answers, no server, no network. What stands between four points of the
// table is read in straight lines; the judgement and the chance are the worst of the four, so that nothing reads kinder than it is.

function between(axis, value) {
  const last = axis.length - 2;
  let place = 0;
  while (place < last && axis[place + 1] <= value) place += 1;
  return { place, share: Math.min(1, Math.max(0, (value - axis[place]) / (axis[place + 1] - axis[place]))) };
}

// The points of the table around a place: four, two on a line of the table, one on a point of it.
function corners({ axes }, depth, speed) {
  const d = between(axes[0].values, depth), s = between(axes[1].values, speed), found = [];
  for (const [i, deep] of [[d.place, 1 - d.share], [d.place + 1, d.share]]) {
    for (const [j, fast] of [[s.place, 1 - s.share], [s.place + 1, s.share]]) {
      if (deep * fast > 1e-9) found.push({ i, j, share: deep * fast });
    }
  }
  return found;
}

function read(data, depth, speed) {
  const around = corners(data, depth, speed);
  const worst = around.reduce((one, other) => {
    const [a, b] = [data.judged[one.i][one.j], data.judged[other.i][other.j]];
    return b > a || (b === a && data.chance[other.i][other.j] < data.chance[one.i][one.j]) ? other : one;
  });
  const figures = data.figures.map(({ values }) => {
    const known = around.map(({ i, j, share }) => [values[i][j], share]);
    return known.some(([value]) => value === null) ? null : known.reduce((sum, [value, share]) => sum + value * share, 0);
  });
  const of = (name) => data[name][worst.i][worst.j];
  return { judged: of("judged"), chance: data.chances[of("chance_said")], nearest: data.limits[of("nearest")], figures };
}

const digits = (value, count) => (Math.abs(value) >= 1000 ? Math.round(value / 10) * 10 : Number(value.toPrecision(count))).toLocaleString("en-US");

function start(data) {
  const find = (id) => document.getElementById(id);
  const sliders = [find("depth"), find("speed")];
  data.axes.forEach((axis, place) => {
    Object.assign(sliders[place], { min: axis.values[0], max: axis.values.at(-1), step: axis.step, value: axis.start });
  });
  const show = () => {
    const [depth, speed] = sliders.map((slider) => slider.valueAsNumber);
    const told = read(data, depth, speed);
    data.axes.forEach((axis, place) => {
      const text = `${Number(sliders[place].valueAsNumber.toFixed(axis.digits))} ${axis.unit}`;
      find(`${sliders[place].id}-said`).textContent = text;
      sliders[place].setAttribute("aria-valuetext", text);
    });
    find("word").textContent = data.words[told.judged];
    find("answer").className = `is-${["ok", "tight", "over"][told.judged]}`;
    find("said").textContent = `${find("depth-said").textContent} deep at ${find("speed-said").textContent}: every limit holds in ${told.chance} ${data.fields}. First to give out: ${told.nearest}.`;
    told.figures.forEach((value, place) => {
      const { unit } = data.figures[place];
      find(`figure-${place}`).textContent = value === null ? "out of reach" : `${digits(value, 3)} ${unit}`;
    });
  };
  for (const slider of sliders) slider.addEventListener("input", show);
  show();
}

if (typeof document !== "undefined" && document.getElementById("table")) start(JSON.parse(document.getElementById("table").textContent));
