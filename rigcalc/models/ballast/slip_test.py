"""The test in the field: slip from counted turns, from a distance, or from two speeds; how far off it may be; a verdict.

Every reading is checked; a slip below zero or of 100 percent and more is refused with what to look at.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from rigcalc.core.equation import Equation
from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.units import mass_of
from rigcalc.core.working import Working, working
from rigcalc.equations import slip_test as book
from rigcalc.models.ballast.advice import front_band
from rigcalc.models.ballast.limits import Which
from rigcalc.models.ballast.mass_curve import with_mass
from rigcalc.models.ballast.slip_move import Move, move_for_slip, room
from rigcalc.models.machine.field import in_field
from rigcalc.models.machine.limits import STEER_SHARE, SlipSource, caps
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.machine.seeking import edge, first_run
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.rig.measure import Measure
from rigcalc.models.rig.rig import Rig

HALF_TURN = 0.5
TURNS_MOST = 10_000


@dataclass(frozen=True)
class SlipTest:
    """A slip that was measured. slip, low, high are shares; low to high is what the readings' error allows.

    how: "turns", "distance", "speeds" or "screen". wrong_base: what dividing by the ground covered would give; None where
    nothing was counted. turns_for_a_point: turns to count so that slip is sure to one point; None likewise. off: how far each
    reading may be off: turns, km/h, or a share for a screen. working: formula, numbers, source; None for a screen.
    """

    how: str
    slip: float
    low: float
    high: float
    wrong_base: float | None
    turns_for_a_point: int | None
    off: tuple[float, ...]
    working: Working | None


@dataclass(frozen=True)
class Verdict:
    """What a measured slip means. state: "inside", "high", "low", or "unsure" where the error reaches over an end.

    band_source: where the band is from, None for one that was typed. to_edge, to_middle: kg to add (above zero) or take off so
    that slip meets the nearer end, or the middle, of its band; None without a rig or where no mass does it. front, rear: how
    to_edge is spread. room: the share of it that the hard limits allow, and the limit that ends it (None where nothing does).
    move: the whole pieces at hand that do it best; None without a rig, or where there are too many sets to walk. slip_is_high:
    slip is over the middle of the band.
    """

    state: str
    band: tuple[float, float]
    band_source: SlipSource | None
    to_edge: float | None
    to_middle: float | None
    front: float | None
    rear: float | None
    with_rig: bool
    room: tuple[float, Which | None] = (1.0, None)
    move: Move | None = None
    slip_is_high: bool = False


def from_turns(loaded: float, unloaded: float, error: float = HALF_TURN) -> SlipTest:
    """Slip from wheel turns over one marked distance, under load and without. error: how far each count may be off, turns.

    Raises InputError for counts that can't be, or that give a slip below zero.
    """
    faults = _counts(("turns under load", loaded), ("turns without load", unloaded)) + _errors(error)
    if not faults and unloaded > loaded:
        faults.append(_below_zero("turns without load", f"{unloaded:g}, more than the {loaded:g} under load"))
    if faults:
        raise InputError(faults)
    slip = float(book.slip_from_turns.bare(loaded, unloaded))
    corners = [book.slip_from_turns.bare(max(loaded + a, 1e-9), unloaded + b) for a in (-error, error) for b in (-error, error)]
    wrong = float(book.slip_over_unloaded_turns.bare(loaded, unloaded))
    one_turn = float(book.slip_count_error.bare(error, slip, 1.0))
    return _made("turns", slip, corners, wrong, one_turn, (error, error), book.slip_from_turns, (loaded, unloaded))


def from_distance(turns: float, circumference: Measure, distance: Measure, error: float = HALF_TURN) -> SlipTest:
    """Slip from the distance covered in counted turns. circumference: distance for one turn without load, measured by
    driving unloaded on the same ground, not with a tape around the tyre. Raises InputError."""  # fmt: skip
    faults = _counts(("turns", turns)) + _errors(error)
    lengths = {}
    for name, measure in (("distance for one turn", circumference), ("distance", distance)):
        lengths[name] = measure.to("m")
        if lengths[name] <= 0:
            faults.append(Fault(name, shown(str(measure)), "a length above zero", "15 ft"))
    around, along = lengths["distance for one turn"], lengths["distance"]
    if not faults and along > turns * around:
        faults.append(
            _below_zero("distance", f"{distance}, more than the {turns * around:.4g} m of {turns:g} turns without slip")
        )
    if faults:
        raise InputError(faults)
    slip = float(book.slip_from_distance.bare(turns, around, along))
    corners = [book.slip_from_distance.bare(max(turns + a, 1e-9), around, along) for a in (-error, error)]
    wrong = float(book.slip_over_ground_distance.bare(turns, around, along))
    return _made("distance", slip, corners, wrong, error * (1 - slip), (error,), book.slip_from_distance,
                 (turns, around, along))  # fmt: skip


def from_speeds(ground: Measure, wheel: Measure) -> SlipTest:
    """Slip from ground speed (radar or satellite) and wheel speed read together. Each may be off by half its last digit.

    Raises InputError.
    """
    faults, speeds = [], {}
    for name, measure in (("ground speed", ground), ("wheel speed", wheel)):
        speeds[name] = measure.to("km/h")
        if speeds[name] <= 0:
            faults.append(Fault(name, shown(str(measure)), "a speed above zero", "5.4 mph"))
    slow, fast = speeds["ground speed"], speeds["wheel speed"]
    if not faults and slow > fast:
        faults.append(_below_zero("ground speed", f"{ground}, more than the wheel speed of {wheel}"))
    if faults:
        raise InputError(faults)
    off = [_half_digit(measure) for measure in (ground, wheel)]
    corners = [book.slip_from_speeds.bare(slow + a * off[0], fast + b * off[1]) for a in (-1, 1) for b in (-1, 1)]
    slip = float(book.slip_from_speeds.bare(slow, fast))
    return _made("speeds", slip, corners, None, 0.0, tuple(off), book.slip_from_speeds, (slow, fast))


def from_screen(text: str) -> SlipTest:
    """Slip as a display in the cab shows it, such as "12 %", off by half its last digit. Raises InputError."""
    match = re.fullmatch(r"\s*(\d{1,3})(?:\.(\d{1,6}))?\s*(?:%|percent)\s*", text)
    if match is None:
        raise InputError([Fault("slip", shown(text), "a percentage from 0 to below 100", "12 %")])
    slip = float(f"{match[1]}.{match[2] or 0}") / 100
    if slip >= 1:
        raise InputError([Fault("slip", shown(text), "a slip below 100 percent", "12 %")])
    off = 0.5 * 10.0 ** -len(match[2] or "") / 100
    return SlipTest("screen", slip, max(slip - off, 0.0), min(slip + off, 1.0), None, None, (off,), None)


def verdict(test: SlipTest, rig: Rig | None = None, band: tuple[float, float] | None = None) -> Verdict:
    """Say what a measured slip means, and with a rig how much mass to move and where.

    The model's draft is set so that it slips as measured at today's mass; the mass is then changed until slip meets the
    band. band: (low, high) as shares; default: what the tables say for the rig's ground. Raises InputError without either.
    """
    source = None
    if band is None:
        if rig is None:
            raise InputError([Fault("slip test", "neither a rig nor a band", "one of them", "a rig file, or --band '8 to 13'")])
        c = caps(rig, in_field(rig))
        band, source = (c.slip_low, c.slip_high), c.slip_source
    low, high = band
    if not 0 <= low < high < 1:
        raise InputError([Fault("slip band", f"{100 * low:g} to {100 * high:g} %", "two shares, the low one first", "8 to 13")])
    if test.low > high:
        state = "high"
    elif test.high < low:
        state = "low"
    elif low <= test.low and test.high <= high:
        state = "inside"
    else:
        state = "unsure"
    edge = high if test.slip > high else low if test.slip < low else None
    made = Verdict(state, band, source, None, None, None, None, rig is not None, slip_is_high=test.slip > (low + high) / 2)
    if rig is None:
        return made
    b = in_field(rig)
    draft = draft_for_slip(b, test.slip)
    made = replace(made, to_middle=mass_for_slip(rig, test.slip, (low + high) / 2))
    if edge is None:
        return replace(made, to_edge=0.0, front=0.0, rear=0.0)
    if draft is None:
        return made
    made = replace(made, move=move_for_slip(rig, b, draft, band))
    to_edge = mass_for_slip(rig, test.slip, edge)
    if to_edge is None:
        return made
    front, rear = where(rig, to_edge)
    return replace(made, to_edge=to_edge, front=front, rear=rear, room=room(rig, b, draft, front, rear))


def draft_for_slip(b: BareRig, measured: float) -> float | None:
    """Give the draft, as a multiple of the rig's, at which it slips as measured; None where none does."""
    return _where_it_meets(lambda x: solve(b, draft_factor=x).slip, measured, 0.02, 50.0)


def mass_for_slip(rig: Rig, measured: float, wished: float) -> float | None:
    """Give the kg to add (or take off, below zero) so that a tractor which slips `measured` would slip `wished`.

    None where the model can't slip as measured, or no mass from a third to three times today's gives it.
    """
    b = in_field(rig)
    draft = draft_for_slip(b, measured)
    if draft is None or not 0 < wished < 1:
        return None
    now = mass_of(b.weight)
    scale = _where_it_meets(lambda x: -solve(with_mass(b, x * now), draft_factor=draft).slip, -wished, 1 / 3, 3.0)
    return None if scale is None else (scale - 1) * now


def where(rig: Rig, change: float) -> tuple[float, float]:
    """Spread a change of mass in kg over front and rear axle, so that the share on the front comes into its band.

    Added mass goes first to the axle that is short of it, and none is taken from the other; the front keeps enough to steer.
    """
    front, rear = rig.tractor.front_axle_mass.to("kg"), rig.tractor.rear_axle_mass.to("kg")
    band = front_band(rig)
    share = front / (front + rear)
    if band is not None:
        share = min(max(share, band.low), band.high)
    share = max(share, STEER_SHARE)
    wished = share * (front + rear + change) - front
    on_front = min(max(wished, min(change, 0.0)), max(change, 0.0))
    return on_front, change - on_front


def _where_it_meets(rising: Any, level: float, low: float, high: float) -> float | None:
    """Find where a rising function passes `level` between low and high; NaN counts as beyond the level."""

    beyond = np.inf if level > 0 else -np.inf

    def below(x: Any) -> Any:
        return np.nan_to_num(rising(x), nan=beyond) < level

    grid = np.geomspace(low, high, 129)
    run = first_run(below(grid))
    if run is None or run[0] > 0 or run[1] == grid.size - 1:
        return None
    return float(edge(below, grid[run[1]], grid[run[1] + 1], points=65)[1])


def _made(
    how: str, slip: float, corners: list[Any], wrong: float | None, one_turn: float, off: tuple[float, ...], eq: Equation,
    values: tuple[float, ...],
) -> SlipTest:  # fmt: skip
    if slip >= 1:
        raise InputError([Fault("slip", f"{100 * slip:.0f} %", "a slip below 100 percent", "the counts again")])
    # The error goes down as the turns go up: from that of a single turn to one point.
    turns = math.ceil(one_turn / 0.01 - 1e-9) if one_turn else None
    ends = [min(max(float(corner), 0.0), 1.0) for corner in corners]
    shown_working = working(eq, dict(zip((s.name for s in eq.takes), values, strict=True)))
    return SlipTest(how, slip, min(ends), max(ends), wrong, turns, off, shown_working)


def _counts(*counts: tuple[str, float]) -> list[Fault]:
    return [
        Fault(name, f"{count:g}", f"a count above zero and at most {TURNS_MOST:,}", "10")
        for name, count in counts
        if not (math.isfinite(count) and 0 < count <= TURNS_MOST)
    ]


def _errors(error: float) -> list[Fault]:
    fine = math.isfinite(error) and 0 <= error <= 1
    return [] if fine else [Fault("error of a count", f"{error:g}", "a part of a turn, from 0 to 1", "0.5")]


def _below_zero(where: str, got: str) -> Fault:
    return Fault(where, got, "no more than that, for slip can't be below zero", "the two the other way round, perhaps")


def _half_digit(measure: Measure) -> float:
    """Half of the last digit that was typed, in km/h: 5.4 mph is off by up to 0.05 mph."""
    match = re.match(r"\s*[\d,]*\.?(\d*)", measure.text)
    places = len(match[1]) if match and "." in measure.text else 0
    return 0.5 * 10.0**-places * measure.to("km/h") / measure.value
