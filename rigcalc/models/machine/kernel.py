"""Slip of a pulling rig by numbers alone: plain NumPy, millions of points, no units.

Net pull at slip s (a decimal) is what the running gear reaches less what it loses. Forces share one unit, any unit:

    N(s) = sum over driven wheel axles  A (1 - exp(-k s)) - E s           reach A, rate k, drag E
         + sum over tracks              T (1 - (K/s)(1 - exp(-s/K)))      thrust T, stretch K
         - C                            motion resistance at zero slip

Wheels: the form of Brixius 1987, A = 0.88 W (1 - exp(-0.1 Bn)), E = 0.5 W / sqrt(Bn). Tracks: Janosi and Hanamoto
1961, averaged along the contact; K = shear modulus / contact length; its drag E is an axle without reach. N is concave: it
climbs to one peak and falls. Of two slips that give a pull the rig works at the smaller; above the peak it can't pull.

One rate k on all driven axles. With L = ln(k A / E) the peak is at s* = L / k. Let y = k (s* - s) be the distance below
it. Then N(s) = P becomes exp(y) - 1 - y = d, with d = (N(s*) - P) k / E: the lower branch of Lambert's W function
(z = exp(y), z - ln z = 1 + d); d < 0 is exactly "can't pull". Near the peak y is close to sqrt(2 d), far off to ln d.
A rational start in sqrt(d) is right to 2 parts in 10,000; one fourth-order step (Fritsch, Shafer and Crowley 1973,
from memory) takes it to rounding. All is done in logs, so nothing underflows, and s = (L - y) / k loses no digits.

Several rates, or tracks. Each term of the slope is a mixture of decaying exponentials, so ln(slope + E) is convex and
Newton's rule on it, from s = 0, walks up to the peak without overshoot. The single exponential that touches the slope
at the peak gives a start close to the answer; Halley steps follow, then Newton steps on the points still moving.

Slip stops at 1: if the peak lies beyond, the usable peak is at s = 1. A rig that is pushed (P <= -C) has slip 0.
"""

from collections.abc import Callable
from enum import IntEnum
from functools import partial
from typing import Any

import numpy as np

from rigcalc.models.machine.kernel_blocks import horner, run_blocks

_NO_DRAG = 100.0  # ln(kA/E) above this: drag is under 1e-43 of the reach, nothing of it is left in a double
_SMALL_SHEAR = 0.01  # below this s/K the closed form of the track term cancels; its series doesn't
# y ~ root * top / bottom with root = sqrt(d), highest power first: own minimax fit of exp(y) - 1 - y = d
_TOP, _BOTTOM = (0.1224871676, 2.2424739603, 1.4142135624), (0.0116590322, 0.4659207473, 1.8199875300, 1.0)


class PullState(IntEnum):
    """What a slip means: no answer, a working slip, pushed by the slope or the load (slip 0), or too much to pull."""

    UNKNOWN = -1
    PULLS = 0
    PUSHED = 1
    CANNOT_PULL = 2


def solve_slip_one(
    required_pull: Any, reach: Any, resistance: Any, drag: Any, rate: Any, out: Any = None, threads: int = 1
) -> Any:
    """Slip (decimal, 0 to 1) at which a rig with one slip rate gives the required net pull.

    All arguments broadcast; forces in one common unit, rate without unit. NaN where the rig can't pull that much or an
    input makes no sense; 0 where it is pushed. `out`: a float64 array of the common shape (may be `required_pull`).
    """
    named = {"required_pull": required_pull, "reach": reach, "resistance": resistance, "drag": drag, "rate": rate}
    return run_blocks(_one_block, named, [out], 6, threads)[0]


def peak_one(reach: Any, resistance: Any, drag: Any, rate: Any) -> tuple[Any, Any]:
    """Slip at the peak (0 to 1) and the peak net pull of a rig with one slip rate; arguments as in `solve_slip_one`."""
    reach, resistance, drag, rate = (np.asarray(a, dtype=float) for a in (reach, resistance, drag, rate))
    with np.errstate(all="ignore"):
        ratio = drag / rate
        log_ratio = np.log(reach / ratio)
        pull = reach - (log_ratio + 1.0) * ratio - resistance
        pull = np.where(log_ratio > rate, _pull_at_full_slip(reach, resistance, drag, rate), pull)
        pull = np.where((log_ratio <= 0.0) | (reach == 0.0), -resistance, pull)
        slip = np.where(reach == 0.0, 0.0, np.clip(log_ratio / rate, 0.0, 1.0))
        good = _usable(reach, drag, rate) & np.isfinite(pull)
        return np.where(good, slip, np.nan)[()], np.where(good, pull, np.nan)[()]


def solve_slip_mixed(required_pull: Any, wheels: Any, tracks: Any, resistance: Any, out: Any = None, threads: int = 1) -> Any:
    """Slip (decimal, 0 to 1) at which any running gear gives the required net pull.

    wheels: sequence of (reach, drag, rate); tracks: sequence of (thrust, stretch), stretch being shear modulus over
    contact length. Everything broadcasts; forces in one common unit. NaN, 0 and `out` as in `solve_slip_one`.
    """
    gear = _named_gear(wheels, tracks)
    crest_slip, crest_pull = peak_mixed(wheels, tracks, resistance, threads)
    need = {"required_pull": required_pull, "resistance": resistance, "crest slip": crest_slip, "crest": crest_pull}
    return run_blocks(partial(_mixed_block, len(wheels)), need | gear, [out], 9, threads)[0]


def peak_mixed(wheels: Any, tracks: Any, resistance: Any, threads: int = 1) -> tuple[Any, Any]:
    """Slip at the peak (0 to 1) and the peak net pull of any running gear; arguments as in `solve_slip_mixed`."""
    slip, gross = run_blocks(partial(_peak_block, len(wheels)), _named_gear(wheels, tracks), [None, None], 7, threads)
    slip, pull = np.broadcast_arrays(slip, gross - np.asarray(resistance, dtype=float))
    return slip[()], pull[()]


def net_pull(slip: Any, wheels: Any, tracks: Any, resistance: Any) -> Any:
    """Net pull at a slip: the balance at the head of this file, written plainly."""
    pull = -np.asarray(resistance, dtype=float)
    for reach, drag, rate in wheels:
        pull = pull - reach * np.expm1(-rate * slip) - drag * slip
    for thrust, stretch in tracks:
        x = np.divide(slip, stretch)
        small = x < _SMALL_SHEAR
        safe = np.where(small, 1.0, x)
        pull = pull + thrust * np.where(small, _shear_series(x * small)[0], 1.0 + np.expm1(-safe) / safe)
    return pull


def pull_state(required_pull: Any, resistance: Any, peak_pull: Any) -> tuple[Any, Any]:
    """State (int8, see `PullState`) and the pull that is missing: required less peak where it can't pull, else 0."""
    required_pull, resistance, peak_pull = np.broadcast_arrays(required_pull, resistance, peak_pull)
    known = ~(np.isnan(required_pull) | np.isnan(resistance) | np.isnan(peak_pull))
    beyond = required_pull > peak_pull
    pushed = required_pull <= -resistance
    codes = [PullState.UNKNOWN, PullState.PUSHED, PullState.CANNOT_PULL]
    state = np.select([~known, pushed, beyond], codes, PullState.PULLS)
    missing = np.where(known, np.where(beyond & ~pushed, required_pull - peak_pull, 0.0), np.nan)
    return state.astype(np.int8)[()], missing[()]


def _one_block(arguments: Any, outs: list[Any], rows: Any) -> None:
    """One block of `solve_slip_one`; every row is scratch, nothing is allocated on the usual path."""
    need, reach, resistance, drag, rate = arguments
    ratio, log_ratio, below, root, start, tail = rows
    np.divide(drag, rate, out=ratio)
    np.log(np.divide(reach, ratio, out=log_ratio), out=log_ratio)
    # The peak in the very order of `peak_one`, so that both agree to the last bit on what can be pulled.
    np.multiply(np.add(log_ratio, 1.0, out=below), ratio, out=below)
    np.subtract(reach, below, out=below)
    below -= resistance
    np.divide(np.subtract(below, need, out=below), ratio, out=below)  # d
    slip = ratio  # the ratio has done its work: its row serves the slip
    np.sqrt(np.add(below, 1e-40, out=root), out=root)  # 1e-40 keeps 0/0 away at the very peak
    _start_below_peak(root, start, tail)
    # Fritsch's step on y = ln(1 + u), u = d + y; `below` turns into u, `root` into the misfit
    below += start
    np.subtract(start, np.log1p(below, out=root), out=root)
    np.add(np.multiply(root, -2.0 / 3.0, out=tail), below, out=tail)
    tail *= below
    tail += tail
    tail -= root  # q - r
    np.subtract(tail, root, out=slip)  # q - 2 r
    slip *= below
    tail *= root
    tail /= slip  # the relative change of z, sign turned
    start -= np.multiply(tail, np.add(below, 1.0, out=below), out=tail)  # y
    np.divide(np.subtract(log_ratio, start, out=slip), rate, out=slip)
    usual = rate.min() > 0.0 and log_ratio.min() > 0.0 and np.subtract(log_ratio, rate, out=tail).max() <= 0.0
    if usual and np.add(need, resistance, out=tail).min() > 0.0:
        np.maximum(slip, 0.0, out=outs[0])
    else:
        outs[0][...] = _one_by_case(arguments, log_ratio, slip)


def _start_below_peak(root: Any, start: Any, tail: Any) -> None:
    """y from the root of d, to 2 parts in 10,000; `tail` is scratch."""
    horner(_TOP, root, start)
    horner(_BOTTOM, root, tail)
    np.divide(np.multiply(start, root, out=start), tail, out=start)


def _one_by_case(arguments: Any, log_ratio: Any, slip: Any) -> Any:
    """A block that holds a pushed rig, one without a peak inside (0, 1), or an input out of range."""
    need, reach, resistance, drag, rate = arguments
    dragless = -np.log1p(-(need + resistance) / reach) / rate
    slip = np.where(log_ratio > _NO_DRAG, dragless, slip)
    capped = log_ratio > rate
    too_much = capped & (need > _pull_at_full_slip(reach, resistance, drag, rate))
    slip = np.where(capped, np.minimum(slip, 1.0), slip)
    slip = np.where(too_much | (log_ratio <= 0.0), np.nan, np.maximum(slip, 0.0))
    slip = np.where(need <= np.negative(resistance), 0.0, slip)
    good = _usable(reach, drag, rate) & np.isfinite(need) & np.isfinite(resistance)
    return np.where(good, slip, np.nan)


def _pull_at_full_slip(reach: Any, resistance: Any, drag: Any, rate: Any) -> Any:
    return -reach * np.expm1(np.negative(rate)) - drag - resistance


def _usable(reach: Any, drag: Any, rate: Any) -> Any:
    return np.isfinite(reach) & (reach >= 0.0) & np.isfinite(drag) & (drag >= 0.0) & np.isfinite(rate) & (rate > 0.0)


def _named_gear(wheels: Any, tracks: Any) -> dict[str, Any]:
    """Flat {name: values}: total drag, then reach, drag, rate of each axle, then thrust, stretch of each track."""
    if not len(wheels) and not len(tracks):
        raise ValueError("no running gear; expected at least one: wheels=[(reach, drag, rate)] or tracks=[(thrust, stretch)]")
    gear, tiny = {}, np.finfo(float).tiny
    for number, axle in enumerate(wheels, start=1):
        for name, values, least in zip(("reach", "drag", "rate"), axle, (0.0, 0.0, tiny), strict=True):
            gear[f"{name} of axle {number}"] = _or_nan(values, least)
    total_drag = sum((gear[f"drag of axle {number + 1}"] for number in range(len(wheels))), start=0.0)
    for number, track in enumerate(tracks, start=1):
        for name, values, least in zip(("thrust", "stretch"), track, (0.0, tiny), strict=True):
            gear[f"{name} of track {number}"] = _or_nan(values, least)
    return {"total drag": total_drag} | gear


def _or_nan(values: Any, least: float) -> Any:
    """The values as floats, NaN where they are below the least or not finite."""
    values = np.asarray(values, dtype=float)
    good = (values >= least) & np.isfinite(values)
    return values if good.all() else np.where(good, values, np.nan)


def _add_up(slip: Any, wheels: int, gear: Any, rows: Any) -> None:
    """Gross pull, its slope before drag, and its bend, into rows 0, 1, 2; rows 3 to 6 are scratch."""
    pull, slope, bend, x, gone, share, first = rows[:7]
    pull[...], slope[...], bend[...] = 0.0, 0.0, 0.0
    axles, tracks = gear[: 3 * wheels], gear[3 * wheels :]
    for reach, drag, rate in zip(axles[0::3], axles[1::3], axles[2::3], strict=True):
        pull -= np.multiply(slip, drag, out=gone)
        if np.ndim(reach) == 0 and reach == 0.0:
            continue  # an axle that only holds back
        np.expm1(np.negative(np.multiply(slip, rate, out=x), out=x), out=x)
        pull -= np.multiply(x, reach, out=gone)
        np.multiply(np.add(x, 1.0, out=x), reach, out=x)
        slope += np.multiply(x, rate, out=x)
        bend -= np.multiply(x, rate, out=x)
    for thrust, stretch in zip(tracks[0::2], tracks[1::2], strict=True):
        np.divide(slip, stretch, out=x)
        np.expm1(np.negative(x, out=gone), out=gone)
        np.add(np.divide(gone, x, out=share), 1.0, out=share)
        np.negative(np.add(gone, share, out=first), out=first)
        first /= x
        gone += 1.0
        gone -= first
        gone -= first
        gone /= x
        small = x < _SMALL_SHEAR
        if small.any():
            share[small], first[small], gone[small] = _shear_series(x[small])
        pull += np.multiply(share, thrust, out=share)
        slope += np.divide(np.multiply(first, thrust, out=first), stretch, out=first)
        np.divide(np.multiply(gone, thrust, out=gone), stretch, out=gone)
        bend += np.divide(gone, stretch, out=gone)


def _shear_series(x: Any) -> tuple[Any, Any, Any]:
    """1 - (1 - exp(-x)) / x for small x = s/K, the share of a track's thrust in use, and its two derivatives."""
    share = x * (1 / 2 - x * (1 / 6 - x * (1 / 24 - x * (1 / 120 - x * (1 / 720 - x / 5040)))))
    first = 1 / 2 - x * (1 / 3 - x * (1 / 8 - x * (1 / 30 - x / 144)))
    return share, first, -1 / 3 + x * (1 / 4 - x * (1 / 10 - x / 36))


def _peak_block(wheels: int, arguments: Any, outs: list[Any], rows: Any) -> None:
    """One block of `peak_mixed`: slip at the peak and the gross pull there."""
    slip = outs[0]
    slip[...] = 0.0
    _settle(partial(_step_to_peak, wheels), slip, arguments, rows)
    _add_up(slip, wheels, arguments[1:], rows)
    slip[np.isnan(rows[0])] = np.nan
    outs[1][...] = rows[0]


def _step_to_peak(wheels: int, slip: Any, arguments: Any, rows: Any) -> Any:
    """Newton on ln(slope before drag / drag); from the left it never passes the peak, so over 1 stays over 1."""
    total_drag, *gear = arguments
    _add_up(slip, wheels, gear, rows)
    _, slope, bend, step, more = rows[:5]
    np.log(np.divide(slope, total_drag, out=step), out=step)
    step *= np.divide(slope, np.negative(bend, out=more), out=more)
    np.clip(np.add(slip, step, out=more), 0.0, 1.0, out=more)
    more[slope <= total_drag] = slip[slope <= total_drag]  # at the peak, or falling from the start
    np.subtract(more, slip, out=step)
    slip[...] = more
    return np.abs(step, out=step) > 1e-7  # the step squares the error, and the pull is flat here


def _mixed_block(wheels: int, arguments: Any, outs: list[Any], rows: Any) -> None:
    """One block of `solve_slip_mixed`."""
    need, resistance, crest_slip, crest_pull, total_drag, *gear = arguments
    slip, sought = rows[7:9]
    slip[...] = crest_slip
    _add_up(slip, wheels, gear, rows)
    _, slope, bend, root, start, tail, spare = rows[:7]
    # The exponential that touches the slope at the crest has rate -bend/slope; `bend` turns into it.
    bend /= np.negative(slope, out=spare)
    np.subtract(crest_pull, need, out=spare)
    spare *= bend
    # Two distances below the crest, neither too short: for a true peak, and for a pull still rising at slip 1.
    np.sqrt(np.divide(spare, total_drag, out=root), out=root)
    _start_below_peak(root, start, tail)
    slope -= total_drag
    spare /= np.maximum(slope, 0.0, out=slope)
    np.fmin(start, np.log1p(spare, out=spare), out=start)
    start /= bend
    np.maximum(np.subtract(slip, start, out=slip), 0.0, out=slip)
    np.add(need, resistance, out=sought)
    state = [sought, crest_slip, total_drag, *gear]
    _settle(partial(_step_to_pull, wheels), slip, state, rows[:7], most=25, newton=True)
    slip[(need > crest_pull) | ~np.isfinite(sought) | np.isnan(crest_pull)] = np.nan
    slip[(need <= np.negative(resistance)) & np.isfinite(sought) & ~np.isnan(crest_pull)] = 0.0
    outs[0][...] = slip


def _step_to_pull(wheels: int, slip: Any, arguments: Any, rows: Any, newton: bool = False) -> Any:
    """Halley (or Newton) on net pull = required; at most half the way up to the crest, or as far again down from it."""
    sought, crest_slip, total_drag, *gear = arguments
    _add_up(slip, wheels, gear, rows)
    misfit, slope, bend, step, more, left = rows[:6]
    slope -= total_drag
    np.divide(np.subtract(sought, misfit, out=step), slope, out=step)
    if not newton:
        np.multiply(np.divide(bend, slope, out=more), step, out=more)
        np.add(np.multiply(more, 0.5, out=more), 1.0, out=more)
        step /= np.maximum(more, 0.5, out=more)
    np.subtract(crest_slip, slip, out=left)
    np.fmax(step, np.negative(left, out=more), out=step)
    np.fmin(step, np.multiply(left, 0.5, out=more), out=step)
    np.maximum(np.add(slip, step, out=slip), 0.0, out=slip)
    np.fmin(left, np.add(slip, 1e-9, out=more), out=left)  # a step 1e-7 of the way to either end is the last one needed
    return np.abs(step, out=step) > np.multiply(left, 1e-7, out=left)


def _settle(step: Callable[..., Any], slip: Any, arguments: Any, rows: Any, most: int = 60, **later: Any) -> None:
    """Step all points while a third or more still move, then only the moving ones, `later` added to the call."""
    moving = step(slip, arguments, rows)
    for _ in range(5):
        if 3 * np.count_nonzero(moving) < slip.size:
            break
        moving = step(slip, arguments, rows)
    where = np.flatnonzero(moving)
    for _ in range(most):
        if not where.size:
            return
        part = slip[where]
        moving = step(part, [a if a.ndim == 0 else a[where] for a in arguments], rows[:, : where.size], **later)
        slip[where] = part
        where = where[moving]
