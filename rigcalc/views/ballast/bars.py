"""The live drawing: what stands on each axle now and with the plan, to one scale, over the masses that are as good."""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.models.ballast.answer import BallastAnswer
from rigcalc.views.ballast.panels import shown_set
from rigcalc.widgets.plot import unit_of
from rigcalc.widgets.templates import render
from rigcalc.words.ballast.jobs import job_title
from rigcalc.words.ballast.limits import when_text
from rigcalc.words.numbers import number, percent, say, to_shown

_WHENS = ("rest", "pull")


@dataclass(frozen=True)
class Bar:
    """One bar: its title, the share on the front, both widths in percent of the drawing, both loads as figures."""

    title: str
    share: str
    wide: tuple[float, float]
    figures: tuple[str, str]


@dataclass(frozen=True)
class Good:
    """The masses that are as good as the best, in percent of the drawing; inside: the best itself is in sight."""

    text: str
    low: float
    top: float
    high: float
    inside: bool


def bars(answer: BallastAnswer | None) -> str:
    """Draw it as bars, with the same in words in a fold."""
    if answer is None:
        return ""
    rows, units = _rows(answer), answer.units
    best = answer.plan.job.best
    most = max(sum(loads) for _, loads in rows)
    most = max(most, min(best.high, 1.6 * most)) if best else most
    ends = ("front axle", "rear axle") if answer.rig.tractor.front else ("front rollers", "rear rollers")
    drawn, lines = [], []
    for title, (front, rear) in rows:
        share = percent(front / (front + rear))
        figures = number(to_shown(front, "kg", units)[0]), number(to_shown(rear, "kg", units)[0])
        drawn.append(Bar(title, share, (100 * max(front, 0.0) / most, 100 * max(rear, 0.0) / most), figures))
        lines.append(f"{title}: {say(front, 'kg', units)} on the {ends[0]}, {say(rear, 'kg', units)} on the {ends[1]}, "
                     f"{share} on the front.")  # fmt: skip
    good = None
    if best is not None:
        text = f"{say(best.low, 'kg', units)} to {say(best.high, 'kg', units)}"
        low, top, high = (min(100 * mass / most, 100) for mass in (best.low, best.mass, best.high))
        good = Good(text, low, top, high, best.mass < most)
        lines.append(f"Best mass for {job_title(answer.plan.job)}: {say(best.mass, 'kg', units)}; {text} is within 1 % of it.")
    return str(render(__file__, "bars.html.j2", bars=drawn, good=good, ends=ends, unit=unit_of("kg", units), lines=lines))


def _rows(answer: BallastAnswer) -> list[tuple[str, tuple[float, float]]]:
    rows = [(f"Now, {when_text(when)}", answer.stands.loads[when]) for when in _WHENS]
    if shown_set(answer).changes:
        name = "Plan" if answer.plan.chosen else "Nearest set"
        rows += [(f"{name}, {when_text(when)}", answer.loads_after[when]) for when in _WHENS]
    return rows
