"""The live drawing: what stands on each axle now and with the plan, to one scale, over the masses that are as good."""

from __future__ import annotations

from rigcalc.models.ballast.answer import BallastAnswer
from rigcalc.views.ballast.panels import shown_set
from rigcalc.widgets.html import esc, fold
from rigcalc.widgets.plot import unit_of
from rigcalc.words.numbers import percent, say

_WHENS = ("at rest", "under pull")


def bars(answer: BallastAnswer | None) -> str:
    """Draw it as bars, with the same in words in a fold."""
    if answer is None:
        return ""
    rows, units = _rows(answer), answer.units
    best = answer.plan.job.best
    most = max(sum(loads) for _, loads in rows)
    most = max(most, min(best.high, 1.6 * most)) if best else most
    ends = ("front axle", "rear axle") if answer.rig.tractor.front else ("front rollers", "rear rollers")
    out, said = [], []
    for title, (front, rear) in rows:
        share = percent(front / (front + rear))
        texts = (say(front, "kg", units), say(rear, "kg", units))
        wide = [100 * max(part, 0.0) / most for part in (front, rear)]
        out.append(
            f'<div class="rig-load"><span>{esc(title)}<small>{esc(share)} on the front</small></span>'
            f'<div class="rig-loads"><i class="is-front" style="width:{wide[0]:.1f}%">{esc(texts[0].split()[0])}</i>'
            f'<i class="is-rear" style="width:{wide[1]:.1f}%">{esc(texts[1].split()[0])}</i></div></div>'
        )
        said.append(f"{title}: {texts[0]} on the {ends[0]}, {texts[1]} on the {ends[1]}, {share} on the front.")
    if best is not None:
        at = [min(100 * mass / most, 100) for mass in (best.low, best.mass, best.high)]
        text = f"{say(best.low, 'kg', units)} to {say(best.high, 'kg', units)}"
        out.append(
            f'<div class="rig-load"><span>Mass as good as the best<small>{esc(text)}</small></span><div class="rig-loads">'
            f'<b class="rig-good" style="left:{at[0]:.1f}%;width:{at[2] - at[0]:.1f}%"></b>'
            + (f'<b class="rig-top" style="left:{at[1]:.1f}%"></b>' if best.mass < most else "")
            + "</div></div>"
        )
        said.append(f"Best mass for {answer.plan.job.title}: {say(best.mass, 'kg', units)}; {text} is within 1 % of it.")
    legend = (
        "".join(f'<span><i class="is-{name}"></i>{esc(end)}</span>' for name, end in zip(("front", "rear"), ends, strict=True))
        + f"<span>in {esc(unit_of('kg', units))}</span>"
    )
    lines = "".join(f"<li>{esc(line)}</li>" for line in said)
    return (
        f'<h2>Where the mass stands</h2><div class="rig-weights" aria-hidden="true"><p class="rig-legend">{legend}</p>'
        f"{''.join(out)}</div>" + fold("bars", "The drawing in words", f"<ul>{lines}</ul>")
    )


def _rows(answer: BallastAnswer) -> list[tuple[str, tuple[float, float]]]:
    rows = [(f"Now, {when}", answer.stands.loads[when]) for when in _WHENS]
    if shown_set(answer).changes:
        name = "Plan" if answer.plan.chosen else "Nearest set"
        rows += [(f"{name}, {when}", answer.loads_after[when]) for when in _WHENS]
    return rows
