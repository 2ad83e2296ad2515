"""The reverse questions: deepest, fastest, most tools, smallest engine, least mass; each with what binds there.

All are answered by the forward relations on a grid that is refined around the first point that fails, so an answer can
never contradict the forward calculation; where sense stops before the limits do, the answer stops there and says so. More
shanks make frame and tongue load heavier by the same step. The grids of all questions go through the chain in one call a round.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.core.units import mass_of
from rigcalc.equations.traction_wheel import gross_traction_ratio_radial
from rigcalc.models.machine.engine import available_pto
from rigcalc.models.machine.limits import NEEDS, Caps, shares, worst
from rigcalc.models.machine.operating_point import Point, solve
from rigcalc.models.machine.seeking import bracket, first_run, narrowed
from rigcalc.models.rig.bare import BareRig

_GRID = 257
_FINE = 1025  # points of a refined grid: two rounds narrow a bracket a million times
_NOTHING = "nothing"  # what binds where no limit does as far as was looked
_LIGHTEST, _HEAVIEST = 20.0, 3.0  # masses searched: from a twentieth to three times the mass as it stands

# question -> (what is varied, values looked at, unit). Lightness is the mass as it stands over the mass.
_VARIED: dict[str, tuple[str, Any, str]] = {
    "deepest": ("depth", np.linspace(1.0, 100.0, _GRID), "cm"),
    "fastest": ("speed", np.linspace(0.5, 20.0, _GRID), "km/h"),
    "most tools": ("tools", np.arange(1.0, 201.0), "1"),
    "least mass": ("lightness", np.linspace(1.0, _LIGHTEST, _GRID), "kg"),
}


@dataclass(frozen=True)
class Furthest:
    """The answer to one reverse question: bare value (None where there is none), its unit, and what binds there.

    Of a tool that is measured by its width, "most tools" is its greatest width in m.

    binds: a limit of LIMITS, or what cut the answer where sense stops before the limits do: "critical_depth", "row_depth",
    "row_speed", "bare_tractor", "mass_limit", "mobility_range". uncut: what the limits alone would allow, where that was cut.
    """

    question: str
    value: float | None
    unit: str
    binds: str
    uncut: float | None = None


def reverse_answers(b: BareRig, c: Caps, point: Point | None = None) -> list[Furthest]:
    """Answer all five questions for one rig. point: its operating point, where it is known already."""
    point = solve(b) if point is None else point
    used = shares(b, point, c)
    found = {name: _within_sense(answer, b, c, point) for name, answer in _furthest(b, c, *worst(used)).items()}
    if b.by_width and (most := found["most tools"]).value is not None:
        found["most tools"] = Furthest(most.question, most.value * b.spacing, "m", most.binds)
    return [found["deepest"], found["fastest"], found["most tools"], _smallest_engine(b, point, used), found["least mass"]]


def _within_sense(answer: Furthest, b: BareRig, c: Caps, point: Point) -> Furthest:
    """Cut an answer where sense stops before the limits do, and say what cut it."""
    if answer.value is None or answer.question == "most tools":
        return answer
    least = answer.question == "least mass"
    ends = {
        "deepest": {"critical_depth": c.critical_depth, "row_depth": c.row_depth},
        "fastest": {"row_speed": c.usual_speed[1] if c.usual_speed else None},
        "least mass": {"bare_tractor": c.bare_mass, "mobility_range": _lightest_in_range(b, point)},
    }[answer.question]
    known = {name: end for name, end in ends.items() if end is not None}
    if least and c.mass_limit is not None and max(answer.value, *known.values()) > c.mass_limit:
        return Furthest(answer.question, None, answer.unit, "mass_limit", answer.value)
    if not known:
        return answer
    name = max(known, key=known.__getitem__) if least else min(known, key=known.__getitem__)
    if known[name] <= answer.value if least else known[name] >= answer.value:
        return answer
    return Furthest(answer.question, known[name], answer.unit, name, answer.value)


def _lightest_in_range(b: BareRig, point: Point) -> float | None:
    """Give the mass in kg at which the first wheel's mobility number leaves the equations' range; None on tracks alone.

    Loads at the point are straight in the mass, split over the axles as it is; the number goes with one over the load.
    """
    most = gross_traction_ratio_radial.valid["mobility_number"][1]
    axles = ((b.front, point.front_load, point.front_load_at_rest, point.front_mobility),
             (b.rear, point.rear_load, point.rear_load_at_rest, point.rear_mobility))  # fmt: skip
    scales = [
        (float(number) / most * float(load) - float(load - at_rest)) / float(at_rest)
        for gear, load, at_rest, number in axles
        if gear is not None and gear.kind != "track" and at_rest > 0 and np.isfinite(number)
    ]
    # A tractor that is past the range as it stands is not sent to a heavier one: its own mass is the end.
    return float(mass_of(b.weight)) * min(max(scales), 1.0) if scales else None


def _furthest(b: BareRig, c: Caps, share_now: Any, binds_now: Any) -> dict[str, Furthest]:
    """Find for each varied entry the end of the first run of values that pass every limit."""
    grids = {question: (entry, values) for question, (entry, values, _) in _VARIED.items()}
    too_light = bool(share_now > 1.0)
    if too_light:  # a load limit may bind at the heavy end, so start at the mass as it stands and go lighter; else heavier
        grids["least mass"] = ("lightness", np.linspace(1.0, 1 / _HEAVIEST, _GRID))
    ends: dict[str, tuple[float | None, str]] = {}
    open_: dict[str, tuple[float, float]] = {}
    for question, (share, names) in _looked_at(b, c, grids).items():
        values = grids[question][1]
        run = first_run(share <= 1.0)
        if question == "least mass" and too_light:
            if run is None:
                ends[question] = None, str(binds_now)
            else:
                open_[question] = float(values[run[0]]), float(values[max(run[0] - 1, 0)])
        elif run is None:
            ends[question] = None, str(names[int(np.argmin(share))])
        elif run[1] == values.size - 1:
            ends[question] = float(values[-1]), _NOTHING
        elif question == "most tools":  # whole numbers: the grid is the answer
            ends[question] = float(values[run[1]]), str(names[run[1] + 1])
        else:
            open_[question] = float(values[run[1]]), float(values[run[1] + 1])
    for _ in range(2):
        grids = {question: (_VARIED[question][0], bracket(*ends_of, _FINE)) for question, ends_of in open_.items()}
        for question, (share, names) in _looked_at(b, c, grids).items():
            inside, outside, place = narrowed(grids[question][1], share <= 1.0)
            open_[question] = float(inside), float(outside)
            ends[question] = float(inside), str(names[int(place)])
    lightness = ends["least mass"][0]
    if lightness is not None:
        ends["least mass"] = float(mass_of(b.weight / lightness)), ends["least mass"][1]
    return {question: Furthest(question, ends[question][0], _VARIED[question][2], ends[question][1]) for question in _VARIED}


def _looked_at(b: BareRig, c: Caps, grids: dict[str, tuple[str, Any]]) -> dict[str, tuple[Any, Any]]:
    """Give, for each question's values of its entry, the greatest share and the limit that has it; in one call for all."""
    if not grids:
        return {}

    def spread(entry: str, own: Any) -> Any:
        return np.concatenate([values if varied == entry else np.full(values.size, own) for varied, values in grids.values()])

    scale, step = 1.0 / spread("lightness", 1.0), spread("tools", b.tools) / b.tools
    grid = b.at(
        depth=spread("depth", b.depth), speed=spread("speed", b.speed), tools=spread("tools", b.tools),
        front_weight=b.front_weight * scale, rear_weight=b.rear_weight * scale,
        implement_weight=b.implement_weight * step, hitch_load=b.hitch_load * step,
    )  # fmt: skip
    share, names = worst(shares(grid, solve(grid, want=NEEDS), c))
    cuts = np.cumsum([values.size for _, values in grids.values()])[:-1]
    return dict(zip(grids, zip(np.split(share, cuts), np.split(names, cuts), strict=True), strict=True))


def _smallest_engine(b: BareRig, point: Point, used: dict[str, Any]) -> Furthest:
    """The least maximum power (in the rating of the rig file) that does this job with this grip, at the engine speed set."""
    share, name = worst({name: share for name, share in used.items() if name != "engine"})
    if share > 1.0 or not np.isfinite(point.engine_power):
        return Furthest("smallest engine", None, "kW", str(name))
    at_full_speed = b.maximum_pto / available_pto(b)
    return Furthest("smallest engine", float(point.engine_power * at_full_speed), "kW", "engine")
