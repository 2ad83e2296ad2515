"""A case: one rig with everything that each question starts from, made once and handed on."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import isfinite
from typing import Any

from rigcalc.models.machine.curves import best_slip
from rigcalc.models.machine.field import in_field
from rigcalc.models.machine.limits import Caps, caps, shares, worst
from rigcalc.models.machine.operating_point import Point, Record, solve
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.rig.rig import Rig


@dataclass(frozen=True)
class Case:
    """A rig, its bare numbers, the limits it knows, its operating point, and each equation that led there.

    Made by `case_of`. What is dearer is worked out when first asked for, and kept.
    """

    rig: Rig
    bare: BareRig
    caps: Caps
    point: Point
    record: Record

    @cached_property
    def used(self) -> dict[str, Any]:
        """The share used of every limit that is known, by name."""
        return shares(self.bare, self.point, self.caps)

    @cached_property
    def passed(self) -> str | None:
        """The fullest hard limit that doesn't hold in the likely case; None where all do."""
        if not isfinite(self.point.slip):
            return "grip"
        most, name = worst(self.used, hard_only=True)
        return None if most <= 1 else str(name)

    @cached_property
    def best_slip(self) -> tuple[float, float, float]:
        """(low, best, high): the slip of best tractive efficiency and the band within 1 percent of it."""
        return best_slip(self.bare)


def case_of(rig: Rig) -> Case:
    """Look up and solve a rig, once."""
    b = in_field(rig)
    record: Record = []
    point = solve(b, record=record)
    return Case(rig, b, caps(rig, b), point, record)
