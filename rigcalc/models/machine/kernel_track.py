"""Slip of a rig on tracks alone, by numbers: a closed form by Lambert's W function, in blocks like `kernel.py`.

Where all driven tracks share one stretch K (shear modulus over contact length), net pull at slip s is

    N(s) = T (1 - (1 - exp(-x)) / x) - C,    x = s / K

With q = (P + C) / T, the share of thrust in use, N(s) = P becomes x = u (1 - exp(-x)) with u = 1 / (1 - q): the upper branch
of W, x = u + W0(-u exp(-u)). A rational start in q is right to 6 parts in 100,000 from the lightest pull to the heaviest; one
fourth-order step (Householder's) takes it to rounding.
"""

from typing import Any

import numpy as np

from rigcalc.models.machine.kernel import net_pull
from rigcalc.models.machine.kernel_blocks import horner, run_blocks

# x ~ 2 q / (1 - q) * top / bottom, highest power first: own minimax fit of x = u (1 - exp(-x)); an exact 1 at no pull
_TOP = (-0.6372892423930278, 2.24173539043884, -2.5858494220048676, 1.0)
_BOTTOM = (-0.31864592427094257, 1.6093392217128677, -2.253497601094033, 1.0)


def peak_track(thrust: Any, resistance: Any, stretch: Any) -> tuple[Any, Any]:
    """Slip at the peak (always 1: thrust climbs all the way) and the peak net pull; arguments as in `solve_slip_track`."""
    with np.errstate(all="ignore"):
        pull = net_pull(1.0, [], [(thrust, stretch)], resistance)
        good = _usable(thrust, stretch) & np.isfinite(pull)
        return np.where(good, 1.0, np.nan)[()], np.where(good, pull, np.nan)[()]


def solve_slip_track(required_pull: Any, thrust: Any, resistance: Any, stretch: Any, out: Any = None, threads: int = 1) -> Any:
    """Slip (decimal, 0 to 1) at which tracks of one stretch give the required net pull.

    All arguments broadcast; forces in one common unit; stretch is shear modulus over contact length. NaN where the rig can't
    pull that much or an input makes no sense; 0 where it is pushed. `out`: a float64 array of the common shape.
    """
    _, crest = peak_track(thrust, resistance, stretch)
    named = {"required_pull": required_pull, "thrust": thrust, "resistance": resistance, "stretch": stretch, "crest": crest}
    return run_blocks(_track_block, named, [out], 5, threads)[0]


def _track_block(arguments: Any, outs: list[Any], rows: Any) -> None:
    need, thrust, resistance, stretch, crest = arguments
    share, over, x, bend, step = rows
    slip = outs[0]
    np.divide(np.add(need, resistance, out=share), thrust, out=share)  # q
    np.divide(1.0, np.subtract(1.0, share, out=over), out=over)  # u
    horner(_TOP, share, x)
    horner(_BOTTOM, share, bend)
    x /= bend
    x *= share
    x *= over
    x += x
    # Householder's step on f = x - u (1 - exp(-x)), by expm1 so that a small x loses nothing. With e = u exp(-x) the first
    # derivative is 1 - e, the second e, the third -e.
    np.multiply(np.expm1(np.negative(x, out=bend), out=bend), over, out=bend)  # e - u
    np.add(x, bend, out=step)  # f
    np.negative(np.add(np.multiply(share, over, out=over), bend, out=over), out=over)  # 1 - e, for u = 1 + q u
    np.subtract(1.0, over, out=bend)  # e
    step /= over  # Newton's step n
    bend /= over  # a = e / (1 - e)
    np.multiply(step, bend, out=over)  # a n
    np.multiply(step, over, out=share)
    share *= -1.0 / 6.0  # b n2 / 6, with b = -a
    share -= over
    share += 1.0
    over *= -0.5
    over += 1.0
    step *= over
    step /= share
    x -= step
    np.multiply(x, stretch, out=x)
    np.minimum(np.maximum(x, 0.0, out=x), 1.0, out=slip)
    if not np.add(need, resistance, out=bend).min() > 0.0 or not np.subtract(crest, need, out=step).min() >= 0.0:
        slip[...] = _by_case(need, resistance, crest, slip)


def _by_case(need: Any, resistance: Any, crest: Any, slip: Any) -> Any:
    """A block that holds a pushed rig, one that can't pull, or an input out of range."""
    slip = np.where(need <= np.negative(resistance), 0.0, np.where(need > crest, np.nan, slip))
    return np.where(np.isfinite(need) & np.isfinite(resistance) & np.isfinite(crest), slip, np.nan)


def _usable(thrust: Any, stretch: Any) -> Any:
    return np.isfinite(thrust) & (np.asarray(thrust) >= 0.0) & np.isfinite(stretch) & (np.asarray(stretch) > 0.0)
