"""A reading put beside the machine: what was read, and what the chain says of it under any combination of what is uncertain."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.models.machine import blocks
from rigcalc.models.machine.draws import Draws
from rigcalc.models.machine.engine import OVER_TEST, load_over_share
from rigcalc.models.machine.scores import FUEL, LOAD, doubt
from rigcalc.models.rig.bare import BareRig

_WANTED = {"slip": "slip", "load": "engine_share", "fuel": "fuel_rate", "pull": "drawbar_pull"}


@dataclass(frozen=True)
class Seen:
    """One reading, ready to be weighed.

    place: its place among the rig's readings. day: as typed. rig: the machine that made it, at its depth and speed. spread:
    standard deviation of the logarithm of draft from the day's draft of the field to that of this stretch, depth included.
    numbers: kind -> (value, error) as in `Reading.numbers`. load_of: what a load is a share of, as `load_over_share` takes it.
    """

    place: int
    day: str
    rig: BareRig
    spread: float
    numbers: dict[str, tuple[float, float]]
    load_of: str

    @property
    def key(self) -> Hashable:
        """All of it, as a key to what was made of it."""
        return (self.place, self.day, self.rig, self.spread, tuple(self.numbers.items()), self.load_of)

    @property
    def levels(self) -> Any:
        """What was read, as it is weighed: slip as it is, the others as logarithms."""
        return np.array([value if kind == "slip" else np.log(value) for kind, (value, _) in self.numbers.items()])

    @property
    def errors(self) -> Any:
        """Standard deviation of each level: what the display may be off, and for slip what the equations are off too."""
        return np.array([error_of(kind, value, error) for kind, (value, error) in self.numbers.items()])


def error_of(kind: str, value: float, error: float) -> float:
    """Give the standard deviation of a level: what the display may be off, and for slip what the equations are off too."""
    return float(np.hypot(error, doubt("slip_model") * value)) if kind == "slip" else error


def fuel_offset(b: BareRig) -> tuple[float, float]:
    """Give (middle, standard deviation) of the logarithm of the fuel that is read over what the chain says.

    Without a test report the relation of the book holds an allowance; half of what it lies over one test is taken off.
    """
    if b.test_slope is not None:
        return 0.0, doubt("fuel_bias_tested")
    return -float(np.log1p(OVER_TEST)) / 2, doubt("fuel_bias")


def load_bias(load_of: str) -> float:
    """Give the standard deviation of the logarithm of the load that is read over what the chain says, the same in all readings.

    Of torque as a share of the reference it is more: what the reference is beside the most that the rig's engine gives, nobody
    says.
    """
    return doubt("load_bias_torque" if load_of == "torque" else "load_bias")


def said_of(b: BareRig, drawn: Draws, draft_factor: Any, kinds: Any, load_of: str) -> dict[str, Any]:
    """Give what the chain says of each kind of number, without any bias. NaN where the rig can't pull."""
    want = tuple(_WANTED[kind] for kind in kinds)
    with np.errstate(all="ignore"):
        found = blocks.run(b, draft_factor, 1.0, drawn, ("slip", *want), {}, 1)
    pulls = np.isfinite(found["slip"])
    out = {kind: np.where(pulls, found[_WANTED[kind]], np.nan) for kind in kinds}
    if "load" in out:
        out["load"] = out["load"] * load_over_share(b, load_of)
    return out


def levels_said(seen: Seen, scores: Any, drawn: Draws, local: Any = 1.0, kinds: Any = None) -> Any:
    """Give, for each combination (rows) and number (columns), the level that would be read but for the display's own error.

    scores: as `Layout` lays them out, for the biases. drawn: those of the reading's day. local: draft of this stretch over
    the day's. kinds: of numbers; the reading's own where None. NaN where the rig can't pull.
    """
    kinds = tuple(seen.numbers if kinds is None else kinds)
    said = said_of(seen.rig, drawn, local, kinds, seen.load_of)
    out = np.empty((len(kinds), len(scores)))
    with np.errstate(all="ignore"):
        for row, kind in zip(out, kinds, strict=True):
            if kind == "slip":
                row[...] = said[kind]
            else:
                np.log(said[kind], out=row)
            if kind == "load":
                row += load_bias(seen.load_of) * scores[:, LOAD]
            elif kind == "fuel":
                middle, off = fuel_offset(seen.rig)
                row += middle + off * scores[:, FUEL]
    return out.T


def fits(seen: Seen, scores: Any, drawn: Draws, local: Any) -> tuple[Any, Any]:
    """Put a reading to combinations: (how far each number is off what is said of it, in its own errors; how likely that is).

    All as `levels_said`. The first is an array (combinations, numbers), NaN where the rig can't pull; the second the logarithm
    of the likelihood, but for a constant, minus infinity there. Worked in blocks that stay in the processor's cache.
    """
    count = len(scores)
    off, height = np.empty((len(seen.numbers), count)), np.empty(count)
    levels, errors = seen.levels[:, None], seen.errors[:, None]
    for low in range(0, count, blocks.BLOCK):
        at = slice(low, low + blocks.BLOCK)
        part = drawn if count <= blocks.BLOCK else Draws(**{name: values[at] for name, values in vars(drawn).items()})
        here = levels_said(seen, scores[at], part, local[at]).T
        here -= levels
        here /= errors
        off[:, at] = here
        height[at] = np.einsum("ij,ij->j", here, here)
    height *= -0.5
    height[np.isnan(height)] = -np.inf
    return off.T, height
