"""What has to be said beside an answer: choices made, ranges left, doubts, and the usual cautions."""

from __future__ import annotations

import math

from rigcalc.core.tables import table
from rigcalc.core.units import factor
from rigcalc.models.machine.limits import Caps
from rigcalc.models.machine.operating_point import Point, Record, solve
from rigcalc.models.rig.bare import BareRig, ratio, soil_group_of, texture_of
from rigcalc.models.rig.rig import Rig
from rigcalc.models.size.second_opinion import SecondOpinion
from rigcalc.words.numbers import System, in_units, percent, say


def notes(rig: Rig, b: BareRig, p: Point, c: Caps, second: SecondOpinion | None, units: System) -> list[str]:
    """Collect the notes for one answer, the weightiest first."""
    return [
        *_depth(second, p, c, units),
        *_ranges(b, p, c, units),
        *_load(rig, b, p, c, units),
        *_choices(rig, b, units),
        *_rough_way(rig, p),
    ]


def _depth(second: SecondOpinion | None, p: Point, c: Caps, units: System) -> list[str]:
    out = []
    if second and c.usual_depth:
        power = (
            "more pull than grip can give" if second.engine_share is None else f"{percent(second.engine_share)} of rated power"
        )
        extreme = "extreme" if c.extreme_depth and p.depth >= c.extreme_depth else "deeper than usual"
        out.append(
            f"{say(p.depth, 'cm', units)} is {extreme} for a chisel, which usually works "
            f"{say(c.usual_depth[0], 'cm', units)} to {say(c.usual_depth[1], 'cm', units)} deep (common practice). The chisel "
            f"row gives a draft of {say(p.draft, 'kN', units)}; the same table's subsoiler row gives "
            f"{say(second.draft, 'kN', units)} ({power}). The truth may lie nearer the second."
        )
    if c.critical_depth and p.depth > c.critical_depth:
        out.append(
            f"{say(p.depth, 'cm', units)} is below the point's critical depth of about {say(c.critical_depth, 'cm', units)} "
            "(5 to 7 point widths): deeper down it squeezes soil aside and loosens no more. A wider point or wings go deeper."
        )
    return out


def _ranges(b: BareRig, p: Point, c: Caps, units: System) -> list[str]:
    out = []
    low, high = c.usual_speed
    if not low <= p.speed <= high:
        out.append(f"{say(p.speed, 'km/h', units)} is outside the {say(low, 'km/h', units)} to {say(high, 'km/h', units)} at "
                   "which chisels usually work (d497, from memory).")  # fmt: skip
    record: Record = []
    solve(b, record=record)
    for eq, values in record:
        if eq.valid and all(math.isfinite(float(value)) for value in values):
            out += eq.outside(dict(zip((s.name for s in eq.takes), values, strict=True)))
    return list(dict.fromkeys(out))


def _load(rig: Rig, b: BareRig, p: Point, c: Caps, units: System) -> list[str]:
    out = []
    if math.isfinite(float(p.slip)):
        if p.engine_share > 1 >= p.engine_share * b.rated_pto / b.maximum_pto:
            out.append(
                "The engine works above its rated power, in the reserve between rated and maximum: it will lug in hard spots."
            )
        if p.slip < c.slip_low:
            out.append(f"Slip of {percent(p.slip)} is under the {percent(c.slip_low)} where the band begins: for this job "
                       "alone the tractor is heavier than it need be.")  # fmt: skip
    if p.net_pull < 0:
        out.append("The slope pushes the rig: no pull is needed, and brakes hold the speed.")
    return out


def _choices(rig: Rig, b: BareRig, units: System) -> list[str]:
    texture, group = texture_of(rig), soil_group_of(rig)
    row = table("soil_groups")[texture]
    out = []
    if rig.ground.soil_group:
        out.append(f"Soil group '{group}' was chosen in the rig file; {texture} would be '{row['group']}' by the soil table.")
    elif row["farm_usage"] != group:
        out.append(f"{texture} counts as '{group}' here; many farm texts call it '{row['farm_usage']}'. "
                   f'To follow them, put soil_group = "{row["farm_usage"]}" under [ground].')  # fmt: skip
    else:
        out.append(
            f"{texture} counts as '{group}' soil for draft: the standard gives words only, the table soil_groups chooses."
        )
    if rig.ground.cone_index is None:
        out.append(f"Soil strength was not measured: '{rig.ground.surface}' ground is taken as a cone index of "
                   f"{say(b.cone_index, 'kPa', units)} (d497, from memory).")  # fmt: skip
    gears = [gear for gear in (b.front, b.rear) if gear]
    if any(gear.kind == "track" for gear in gears):
        out.append("Track grip rests on measured soils that stand for this ground and on an assumed loss in the belts "
                   "(table track_soil): less sure than the figures for tyres.")  # fmt: skip
    elif b.front:
        what = "firmer" if b.multipass else "no firmer"
        out.append(f"Rear wheels are taken to meet {what} ground in the track of the front wheels (wheels_follow_in_track).")
    return out


def _rough_way(rig: Rig, p: Point) -> list[str]:
    """Lay the answer beside the table of power ratios, which looks at neither slip nor weight."""
    if not math.isfinite(float(p.slip)):
        return []
    surface = "firm" if rig.ground.surface == "hard" else rig.ground.surface
    rough = ratio("drawbar_from_pto", rig.tractor.drive, surface)
    ours = float(p.drawbar_power) / float(p.pto_power)
    return [
        f"Cross-check: of each horsepower at the power take-off {percent(ours)} reach the drawbar here; the table of power "
        f"ratios has {percent(rough)} for {rig.tractor.drive} on {surface} ground at good slip."
    ]


def cautions(depth: float, units: System = "us") -> list[str]:
    """Give the cautions that go with tillage at a depth in cm, from the table of cautions, in words of either system."""
    inches = float(depth) / factor("in", "cm")
    out = []
    for row in table("cautions"):
        when = row["when"]
        if when in ("always", "hitch", "hydraulics") or (when.startswith("depth >") and inches > float(when.split()[2])):
            out.append(in_units(row["text"], units))
    return out
