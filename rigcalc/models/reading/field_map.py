"""What a log read, along the way that was driven: laid on a plane, cut into so many pieces at most, each with its mean."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.core.errors import Fault, InputError
from rigcalc.models.machine import blocks
from rigcalc.models.machine.engine import load_over_share
from rigcalc.models.machine.seen import fuel_offset
from rigcalc.models.reading.log import COLUMNS, STATES, Passes, slip_of
from rigcalc.models.reading.positions import on_a_plane
from rigcalc.models.rig.bare import BareRig

KINDS = ("draft", "slip", "load", "fuel_rate", "speed", "depth")
MOST_PIECES = 4000
_WORKS = ("steady", "unsteady", "short", "headland")
# Our choices.
_SHORTEST = 4.0  # m: no piece is shorter
_JUMP, _PAUSE = 60.0, 15.0  # m and s: between two positions farther apart nothing is drawn
_WIDEST = 50_000.0  # m off the middle: positions farther away are of another place, or wrong
_ENDS = 3.0  # s of a pass at its beginning and its end that aren't shown
_SPEEDS, _FACTORS = 9, np.geomspace(0.05, 6.0, 120)  # where load is worked out from draft, to be read the other way round


@dataclass(frozen=True, eq=False)
class FieldMap:
    """A map of one quantity. kind: one of KINDS. unit: of the book. by: for draft, the column that it was worked out from.

    pieces: array (number, 4) of east and north of both ends in m, from the middle of the field. values: the mean of each piece
    where it worked, else NaN. way: metres driven.
    """

    kind: str
    unit: str
    by: str
    pieces: Any
    values: Any
    way: float

    @property
    def worked(self) -> Any:
        """The values of pieces that were worked."""
        return self.values[np.isfinite(self.values)]


def kind_of(log: Mapping[str, Any], load_of: str | None) -> str | None:
    """Give what is worth a map: draft, where something tells it, else slip; None where there is neither."""
    if _told_by(log, load_of) is not None:
        return "draft"
    return "slip" if slip_of(log) is not None else None


def field_map(b: BareRig, log: Mapping[str, Any], found: Passes, kind: str, load_of: str | None) -> FieldMap:
    """Map a quantity of a log over the field.

    b: the rig, in its field. log: arrays as `read_log` gives them. found: the same taken apart. kind: one of KINDS. load_of:
    what a column of load is a share of. Raises InputError where the log has no positions, or doesn't tell the quantity.
    """
    if "latitude" not in log:
        raise InputError([Fault("--map", "a log without positions", "one with latitude and longitude",
                                'of a CSV --column "latitude=Lat;deg" --column "longitude=Lon;deg"')])  # fmt: skip
    values, by = _values(b, log, found, kind, load_of)
    if values is None:
        told = {"draft": _told_by(log, load_of) is not None, "slip": slip_of(log) is not None}
        known = ", ".join(each for each in KINDS if told.get(each, each in log))
        raise InputError([Fault("--map-of", f"{kind}, of which this log tells nothing", "what the log has", known)])
    worked = _well_inside(_worked(found), log["time"])
    east, north = on_a_plane(log["latitude"], log["longitude"])
    known = np.isfinite(east) & np.isfinite(north) & (np.hypot(east, north) <= _WIDEST)
    unit = "kN" if kind == "draft" else COLUMNS[kind]
    return _thinned(east[known], north[known], log["time"][known], np.where(worked, values, np.nan)[known], (kind, unit, by))


def worked_drafts(b: BareRig, log: Mapping[str, Any], found: Passes, load_of: str | None) -> tuple[Any, str]:
    """Give draft in kN of each row, NaN where it doesn't work, and the column that tells it; (None, "") where none does.

    Arguments as for `field_map`.
    """
    values, by = _values(b, log, found, "draft", load_of)
    if values is None:
        return None, ""
    return np.where(_well_inside(_worked(found), log["time"]), values, np.nan), by


def _worked(found: Passes) -> Any:
    return np.isin(found.states, [STATES.index(state) for state in _WORKS])


def _values(b: BareRig, log: Mapping[str, Any], found: Passes, kind: str, load_of: str | None) -> tuple[Any, str]:
    """Give the values of a quantity, and by which column; None where the log doesn't tell it."""
    if kind == "slip":
        return slip_of(log), ""
    if kind != "draft":
        return log.get(kind), ""
    by = _told_by(log, load_of)
    if by is None:
        return None, ""
    if by == "pull":
        return log["pull"], by
    return _drafts(b, log["speed"], log[by], by, "torque" if by == "torque" else str(load_of), _worked(found)), by


def _well_inside(worked: Any, time: Any) -> Any:
    """Say where it works, a little before and a little after too: in and out of the ground numbers lag each other."""
    breaks = np.concatenate([[0], np.cumsum(~worked)])
    low, high = np.searchsorted(time, time - _ENDS, side="left"), np.searchsorted(time, time + _ENDS, side="right")
    return breaks[high] == breaks[low]


def _told_by(log: Mapping[str, Any], load_of: str | None) -> str | None:
    """Give the column that tells draft: a load cell's before the engine's load before its torque before fuel."""
    able = {"pull": True, "load": load_of is not None, "torque": True, "fuel_rate": True}
    return next((name for name, may in able.items() if may and name in log and np.isfinite(log[name]).any()), None)


def _drafts(b: BareRig, speed: Any, shown: Any, by: str, load_of: str, worked: Any) -> Any:
    """Give the draft in kN at which the rig, at its depth and each speed, has the engine load or the fuel rate that was shown.

    The chain gives load from draft, speed by speed; it is read the other way round. NaN beyond what grip gives.
    """
    some = speed[worked & np.isfinite(speed)]
    if not some.size:
        return np.full(speed.shape, np.nan)
    low, high = np.quantile(some, [0.02, 0.98])
    speeds = np.linspace(low, max(high, low + 0.1), _SPEEDS)
    name = "fuel_rate" if by == "fuel_rate" else "engine_share"
    with np.errstate(all="ignore"):
        chain = blocks.run(b.at(speed=speeds[:, None]), _FACTORS[None, :], 1.0, None, ("draft", name, "slip"), {}, 1)
    says = chain[name] * _shown_over_said(b, by, load_of)
    drafts = np.stack(
        [_read_back(shown, says[row], chain["draft"][row], np.isfinite(chain["slip"][row])) for row in range(_SPEEDS)]
    )
    at = np.clip((speed - speeds[0]) / (speeds[-1] - speeds[0]), 0, 1) * (_SPEEDS - 1)
    at = np.where(np.isfinite(at), at, 0.0)
    below = np.minimum(at.astype(int), _SPEEDS - 2)
    rows = np.arange(speed.size)
    share = at - below
    return drafts[below, rows] * (1 - share) + drafts[below + 1, rows] * share


def _shown_over_said(b: BareRig, by: str, load_of: str) -> float:
    return float(np.exp(fuel_offset(b)[0]) if by == "fuel_rate" else load_over_share(b, load_of))


def _read_back(shown: Any, says: Any, drafts: Any, pulls: Any) -> Any:
    """Give the draft that goes with what is shown, along one speed's line; NaN past where the rig pulls."""
    if not pulls.any():
        return np.full(shown.shape, np.nan)
    return np.interp(shown, says[pulls], drafts[pulls], right=np.nan)


def _thinned(east: Any, north: Any, time: Any, values: Any, what: tuple[str, str, str]) -> FieldMap:
    """Cut the way into pieces of one length and give each its mean."""
    if east.size < 2:
        raise InputError([Fault("--map", f"{east.size} positions in all", "positions along the way")])
    steps = np.hypot(np.diff(east), np.diff(north))
    apart = (steps > _JUMP) | (np.diff(time) > _PAUSE)
    along = np.concatenate([[0.0], np.cumsum(np.where(apart, 0.0, steps))])
    length = max(_SHORTEST, float(along[-1]) / (MOST_PIECES - 1))
    # A piece ends where its length is up, and wherever the way breaks off.
    firsts = np.concatenate([[0], np.flatnonzero((np.diff(np.floor(along / length)) > 0) | apart) + 1])
    lasts = np.concatenate([firsts[1:], [east.size - 1]])
    breaks = np.concatenate([apart, [False]])[lasts - 1]
    lasts = np.where(breaks, lasts - 1, lasts)  # not over a gap
    told = np.isfinite(values)
    sums, counts = (np.add.reduceat(each, firsts) for each in (np.where(told, values, 0.0), told.astype(float)))
    means = np.where(counts > 0, sums / np.maximum(counts, 1), np.nan)
    kept = lasts > firsts
    if not kept.any():
        raise InputError([Fault("--map", f"positions over {_JUMP:g} m or {_PAUSE:g} s apart", "some that lie nearer each other",
                                "a log that is written every few seconds")])  # fmt: skip
    ends = np.stack([east[firsts], north[firsts], east[lasts], north[lasts]], axis=1)
    return FieldMap(*what, ends[kept], means[kept], float(along[-1]))
