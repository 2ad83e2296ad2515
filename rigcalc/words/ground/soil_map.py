"""What is said of a field by its soil samples: textures, wetness, draft, what to hold; and the marks of a map of it."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from rigcalc.models.ground.soil_map import MOST_CLAY, MOST_MATTER, ClassOfSoil, SoilMap
from rigcalc.models.machine.judgement import Judgement
from rigcalc.models.machine.wetness import Wet, number_of
from rigcalc.models.rig.rig import Rig
from rigcalc.words.limits import limit_title, passed_text
from rigcalc.words.numbers import System, number, percent, say, to_shown
from rigcalc.words.tools import piece

TITLES = ("", "samples", "draft", "fullest limit", "hold")
_PULL = {"engine": "the engine gives out", "grip": "grip can't give the pull"}
_STATES = {Wet.WET: "too wet", Wet.NEAR: "near the limit", Wet.READY: "dry enough to break", Wet.HARD: "dry and hard"}
_KINDS = {
    "texture": "Texture class",
    "wettest": "Wettest that tills, water by mass",
    "draft": "Draft",
    "used": "Fullest of the hard limits that soil moves, share used",
}
_KNOWN = {"by_mass": "by the water of each sample", "by_volume": "by the water of each sample",
          "wetness": "by one handful, taken for the whole field"}  # fmt: skip
_FEW_NAMES = 8


def soil_part(found: SoilMap | None, rig: Rig, units: System) -> tuple[Judgement, str] | None:
    """Say what the samples speak against; None where nothing does."""
    if found is None or (judgement := found.judgement) is None:
        return None
    texts = [text for text in (_wet_text(found), _held_text(found, rig, units)) if text]
    return judgement, ". ".join(texts) + "."


def _wet_text(found: SoilMap) -> str:
    """Say where it is too wet, or near its limit; empty where it is neither."""
    wet, near = found.share_of(Wet.WET), found.share_of(Wet.NEAR)
    if not wet and not near:
        return ""
    told = _KNOWN[str(found.known_by)]
    if wet:
        more = f", and near its limit at {_of(found, near)}" if near else ""
        do = "feel or roll a clod in each kind of soil" if found.known_by == "wetness" else "leave those parts until they dry"
        return f"too wet at {_of(found, wet)} {told}{more}: {do}"
    return f"near its limit of wetness at {_of(found, near)} {told}: roll a clod from there to a thread first"


def _of(found: SoilMap, share: float) -> str:
    return f"{round(share * found.count)} of {found.count} samples"


def _held_text(found: SoilMap, rig: Rig, units: System) -> str:
    """Say in which soils the rig can't hold its depth; empty where it can in all."""
    short = [each for each in found.classes if each.hold in ("depth", "no")]
    if not short:
        return ""
    count = sum(each.count for each in short)
    soils = _listed([each.texture for each in short])
    one = min(short, key=lambda each: (each.hold != "no", each.depth))
    why = _PULL.get(one.limit) or passed_text(one.limit, piece(rig.implement.tool), units)
    goes = "however slow and shallow it goes" if one.hold == "no" else (
        f"at any speed; it goes {say(one.depth, 'cm', units)} deep at {say(one.speed, 'km/h', units, 2)}")  # fmt: skip
    return f"in {soils} ({count} of {found.count} samples) {why} at {say(rig.work.depth.to('cm'), 'cm', units)} {goes}"


def _listed(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def soil_rows(found: SoilMap, units: System) -> tuple[tuple[str, ...], ...]:
    """Give a row a texture class: how many samples, draft, the fullest limit, what to hold."""
    return tuple(_row(each, units) for each in found.classes)


def _row(each: ClassOfSoil, units: System) -> tuple[str, ...]:
    used = f"{percent(each.used)}, {limit_title(each.fullest)}"
    return each.texture, str(each.count), say(each.draft, "kN", units), used, _hold(each, units)


def _hold(each: ClassOfSoil, units: System) -> str:
    return "not workable" if each.hold == "no" else f"{say(each.depth, 'cm', units)}, {say(each.speed, 'km/h', units, 2)}"


def soil_lines(found: SoilMap, units: System) -> tuple[str, ...]:
    """Say what the samples hold, and what stands behind it and isn't known."""
    lines = [f"{found.count} samples" + (f"; {found.left_out} with an empty cell left out" if found.left_out else "")]
    upper = found.limits.upper[1]
    if found.outside < found.count:
        ends = (percent(end) for end in np.nanquantile(upper, [0, 0.5, 1]))
        low, middle, high = ends
        lines.append(f"Wettest that tills: {middle} water by mass in the middle of the samples, {low} to {high} over all; a "
                     "regression on clay and organic matter, good to about 3 points either way")  # fmt: skip
        drains = int(found.drains.sum())
        lines.append(f"Drained for some days, {drains} of {found.count} samples come under their limit by draining alone; the "
                     "others wait for sun, wind or a crop")  # fmt: skip
    if found.states is not None:
        counts = [(name, found.share_of(state)) for state, name in _STATES.items()]
        told = ", ".join(f"{name} {round(share * found.count)}" for name, share in counts if share)
        lines.append(f"Wetness {_KNOWN[str(found.known_by)]}: {told or 'not known'}")
    else:
        lines.append("Nobody said how wet each sample is: a column of water by mass says it, a handful says it for all of them")
    low, middle, high = (say(each, "kN", units) for each in np.quantile(found.drafts[1], [0, 0.5, 1]))
    lines.append(f"Draft {middle} in the middle, {low} to {high}: the draft table knows three kinds of soil, so a map has as "
                 "many values at most; what its rows may be off comes on top")  # fmt: skip
    if (found.drafts[0] < found.drafts[2]).any():
        least, most = (say(each, "kN", units) for each in (found.drafts[0].min(), found.drafts[2].max()))
        lines.append(f"Over all classes that the clay allows, {least} to {most}")
    return (*lines, *_behind(found))


def _behind(found: SoilMap) -> list[str]:
    lines = []
    if found.sand == "rig":
        lines.append(
            "No sand was measured: beside the clay it is parted as on the rig's own ground, and at "
            f"{int(found.doubtful.sum())} samples another class is possible. The wettest that tills needs no sand"
        )
    if found.matter == "rig":
        lines.append("No organic matter was measured: that of the rig's own ground is taken")
    elif found.matter == "carbon":
        times = number(number_of("matter_from_carbon"), 4)
        lines.append(f"Organic matter is taken as {times} times the organic carbon (common practice)")
    if found.outside:
        lines.append(f"{found.outside} samples have over {percent(MOST_CLAY)} clay or {percent(MOST_MATTER)} organic matter: "
                     "the regressions of water aren't meant for them, so they have no limits")  # fmt: skip
    lines.append("Samples are of the layer that somebody dug; below it, where the points run, the soil may be another")
    if found.aside:
        more = len(found.aside) - _FEW_NAMES
        lines.append(f"Columns left aside: {', '.join(found.aside[:_FEW_NAMES])}" + (f" and {more} more" if more > 0 else ""))
    return lines


def map_title(found: SoilMap, kind: str) -> str:
    """Give the title of a map of one kind."""
    if kind == "room":
        return f"Water against the wettest that tills, {_KNOWN[found.known_by] if found.known_by else 'at field capacity'}"
    return _KINDS[kind]


def map_said(found: SoilMap, kind: str, units: System) -> str:
    """Say the map in a sentence, for who can't see it."""
    title = map_title(found, kind)
    if kind == "texture":
        return f"{title}: " + ", ".join(f"{each.texture} {each.count}" for each in found.classes) + "."
    values = found.values(kind)
    known = values[np.isfinite(values)]
    if not known.size:
        return f"{title}: no sample with a number."
    low, middle, high = (value_line(value, kind, units) for value in np.quantile(known, [0, 0.5, 1]))
    return f"{title}: {middle} in the middle of {known.size} samples, {low} to {high}."


def scale_lines(kind: str, ends: Sequence[float], units: System) -> list[str]:
    """Say the span of each class of a map. ends: rising, in the unit of the map; for "room" those of the doubt of the limit."""
    if kind == "room":
        doubt = number(100 * number_of("limit_scatter"), 2)
        return [f"over it by more than {doubt} points", f"over it by up to {doubt} points", f"under it by up to {doubt} points",
                f"under it by more than {doubt} points"]  # fmt: skip
    if kind == "draft":
        shown = [number(to_shown(end, "kN", units)[0]) for end in ends]
        unit = to_shown(1.0, "kN", units)[1]
    else:
        shown, unit = [number(100 * end) for end in ends], "%"
    return [f"{low} to {high} {unit}" if low != high else f"{low} {unit}" for low, high in pairwise(shown)]


def unknown_line() -> str:
    """Say what a sample without a number is."""
    return "not known"


def value_line(value: float, kind: str, units: System) -> str:
    """Say one value of a map."""
    if kind == "room":
        return f"{number(abs(100 * value), 2)} points {'under' if value >= 0 else 'over'} it"
    return say(value, "kN", units) if kind == "draft" else percent(value)
