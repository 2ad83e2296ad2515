"""What must be said beside a point, as facts: names and numbers for `words/` to put into sentences. No prose here."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np

from rigcalc.models.machine.contact import track_contact
from rigcalc.models.machine.draft_force import covered_share, deep_share_band, usual_covered
from rigcalc.models.machine.draws import number
from rigcalc.models.machine.engine import OVER_TEST, available_pto
from rigcalc.models.machine.operating_point import Point
from rigcalc.models.machine.statics import center_assumed
from rigcalc.models.rig.bare import BareRig, other_soil_group_of, soil_group_of, texture_of
from rigcalc.models.rig.rig import Rig

# The curves of wheels and belts were fitted on soil with cohesion; in these classes there is next to none.
COHESIONLESS = ("sand", "loamy sand")


@dataclass(frozen=True)
class Fact:
    """One fact. numbers: name -> (bare value, unit); texts: name -> a key of a table or a rig file's word."""

    name: str
    numbers: dict[str, tuple[float, str]] = field(default_factory=dict)
    texts: dict[str, str] = field(default_factory=dict)


def facts(rig: Rig, b: BareRig, p: Point) -> tuple[Fact, ...]:
    """Give the facts of one point (scalars), the weightiest first.

    Names: "tips", "pushed", "track_lifts", "sand", "deep_row", "hard_ground", "wheel_tracks", "texture_between",
    "engine_speed", "typical_torque", "track_center_assumed", "fuel_over_test", "side_slope".
    """
    return (*_stands(b, p), *_draft(rig, b), *_engine(rig, b), Fact("side_slope"))


def _stands(b: BareRig, p: Point) -> Iterator[Fact]:
    if p.tipping >= 1:
        yield Fact("tips", {"share": (float(p.tipping), "1")})
        return
    if p.net_pull < 0:
        power = float(p.braking) * float(p.speed) / 3.6
        yield Fact("pushed", {"push": (-float(p.net_pull), "kN"), "braking": (float(p.braking), "kN"), "power": (power, "kW")})
    if b.front is None:
        contact = track_contact(float(p.rear_load), b.rear.contact_area, b.rear.length, float(p.resultant_ahead))
        parts = dict(zip(("rear_third", "middle_third", "front_third"), contact.parts, strict=True))
        yield Fact("track_lifts" if contact.lifts else "track_contact", {
            "ahead": (contact.ahead, "m"), "peak_pressure": (contact.peak_pressure, "kPa"),
            "mean_pressure": (contact.mean_pressure, "kPa"), **{name: (share, "1") for name, share in parts.items()},
        })  # fmt: skip
        if center_assumed(b):
            yield Fact("track_center_assumed")


def _draft(rig: Rig, b: BareRig) -> Iterator[Fact]:
    if texture_of(rig) in COHESIONLESS:
        yield Fact("sand", texts={"texture": texture_of(rig)})
    low, likely, high = deep_share_band(b)
    if high > 0:
        yield Fact("deep_row", {"low": (low, "1"), "likely": (likely, "1"), "high": (high, "1"), "from": (b.deep_from, "cm")})
    if b.cone_deviation:
        most = number("most_deviation")
        off = float(np.clip(b.cone_deviation, -most, most))
        shift = number("correlation") * b.draft_range / number("cone_range") * off
        yield Fact("hard_ground", {"deviation": (float(b.cone_deviation), "1"), "draft_shift": (float(shift), "1")})
    covered = covered_share(b)
    if covered is not None:
        behind, usual = number("behind_wheels"), usual_covered()
        shift = (1 + float(covered) * (behind - 1)) / (1 + usual[1] * (behind - 1)) - 1
        yield Fact("wheel_tracks", {"covered": (float(covered), "1"), "usual": (usual[1], "1"), "usual_low": (usual[0], "1"),
                                    "usual_high": (usual[2], "1"), "draft_shift": (shift, "1")})  # fmt: skip
    if other_soil_group_of(rig) != soil_group_of(rig):
        yield Fact("texture_between", texts={"taken": soil_group_of(rig), "other": other_soil_group_of(rig)})


def _engine(rig: Rig, b: BareRig) -> Iterator[Fact]:
    if b.engine_speed_share < b.maximum_power_speed:
        there = float(available_pto(b)) / b.maximum_pto
        yield Fact("engine_speed", {"engine_speed": (b.engine_speed_share, "1"), "power_there": (there, "1")})
        if rig.gears is None or rig.gears.torque_rise is None:
            yield Fact("typical_torque", {"torque_rise": (b.torque_rise, "1"), "peak_speed": (b.torque_peak_speed, "1")})
    if b.test_idle is None:
        yield Fact("fuel_over_test", {"over": (OVER_TEST, "1")}, {"source": "tractor_test_963"})
