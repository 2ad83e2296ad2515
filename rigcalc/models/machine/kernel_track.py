"""Slip of a rig on tracks alone, by numbers: from a start that is nearly there, in blocks like `kernel.py`.

Where all driven tracks share one stretch K (shear modulus over contact length), net pull at slip s is

    N(s) = T (1 - (1 - exp(-x)) / x) - d x - C,    x = s / K, d = E K

with T the thrust and E the drag of all tracks. With q = (P + C) / T and no drag, N(s) = P is x = u (1 - exp(-x)) with
u = 1 / (1 - q): a rational start in q is right to 6 parts in 100,000. For a given m = 1 - exp(-x) drag turns the equation
into a quadratic with the root x = 2 T m / (D + sqrt(D^2 - 4 T m d)), D = T - P - C, all but exact near the peak, where m is
one. Two fourth-order steps (Householder's) on D x - T (1 - exp(-x)) - d x^2 take it to rounding.

The peak is where x^2 = (T / d) (1 - exp(-x) (1 + x)). A peak at a short x, or beyond a slip of 1, is left to `kernel.py`.
"""

from typing import Any

import numpy as np

from rigcalc.models.machine.kernel import peak_mixed, solve_slip_mixed
from rigcalc.models.machine.kernel_blocks import horner, run_blocks

# x ~ 2 q / (1 - q) * top / bottom, highest power first: own minimax fit of x = u (1 - exp(-x)); an exact 1 at no pull
_TOP = (-0.6372892423930278, 2.24173539043884, -2.5858494220048676, 1.0)
_BOTTOM = (-0.31864592427094257, 1.6093392217128677, -2.253497601094033, 1.0)
_LONG = 20.0  # from this x at the peak up three rounds give the peak, and the quadratic the way to it, to rounding


def peak_track(thrust: Any, resistance: Any, stretch: Any, drag: Any) -> tuple[Any, Any]:
    """Slip at the peak (0 to 1) and the peak net pull; arguments as in `solve_slip_track`."""
    thrust, resistance, stretch, drag = (np.asarray(values, float) for values in (thrust, resistance, stretch, drag))
    with np.errstate(all="ignore"):
        loss = drag * stretch
        x = np.sqrt(thrust / loss)
        usual = _usual(x, stretch)
        for _ in range(3):
            gone = np.exp(-x)
            x = np.sqrt(thrust / loss * (1 - gone * (1 + x)))
        slip = x * stretch
        pull = thrust * (1 + np.expm1(-x) / x) - loss * x - resistance
    if np.all(usual):
        return slip, pull
    odd_slip, odd_pull = peak_mixed([(0.0, drag, 1.0)], [(thrust, stretch)], resistance)
    return np.where(usual, slip, odd_slip)[()], np.where(usual, pull, odd_pull)[()]


def solve_slip_track(
    required_pull: Any, thrust: Any, resistance: Any, stretch: Any, drag: Any, out: Any = None, threads: int = 1
) -> Any:
    """Slip (decimal, 0 to 1) at which tracks of one stretch give the required net pull.

    All arguments broadcast; forces in one common unit; stretch is shear modulus over contact length. NaN where the rig can't
    pull that much or an input makes no sense; 0 where it is pushed. `out`: a float64 array of the common shape.
    """
    _, crest = peak_track(thrust, resistance, stretch, drag)
    named = {"required_pull": required_pull, "thrust": thrust, "resistance": resistance, "stretch": stretch, "drag": drag,
             "crest": crest}  # fmt: skip
    return run_blocks(_track_block, named, [out], 6, threads)[0]


def _usual(x: Any, stretch: Any) -> Any:
    return (x > _LONG) & (x * stretch < 1.0) & np.isfinite(x)


def _track_block(arguments: Any, outs: list[Any], rows: Any) -> None:
    need, thrust, resistance, stretch, drag, crest = arguments
    x, gone, left, loss, step, spare = rows
    slip = outs[0]
    np.divide(np.add(need, resistance, out=left), thrust, out=left)  # q
    np.multiply(drag, stretch, out=loss)
    loss /= thrust  # d / T: everything is in shares of the thrust from here
    horner(_TOP, left, x)
    horner(_BOTTOM, left, spare)
    x /= spare
    x *= left
    np.subtract(1.0, left, out=left)  # D / T
    x /= left
    x += x
    usual = _usual(np.divide(1.0, np.sqrt(loss, out=spare), out=spare), stretch) & np.isfinite(need) & np.isfinite(resistance)
    # the quadratic, with m from the start
    np.negative(np.expm1(np.negative(x, out=gone), out=gone), out=gone)  # m
    np.multiply(gone, loss, out=step)
    step *= -4.0
    step += np.multiply(left, left, out=spare)
    np.sqrt(np.maximum(step, 0.0, out=step), out=step)
    step += left
    np.divide(gone, step, out=x)
    x += x
    for _ in range(2):
        # h = D x - m - d x^2, h' = D - e - 2 d x, h'' = e - 2 d, h''' = -e, for e = exp(-x), m = 1 - e
        np.expm1(np.negative(x, out=gone), out=gone)
        np.multiply(loss, x, out=spare)
        np.subtract(left, spare, out=step)
        step *= x
        step += gone  # h
        gone += 1.0  # e
        spare += spare
        np.subtract(left, spare, out=spare)
        spare -= gone  # h'
        step /= spare  # n
        np.divide(gone, spare, out=slip)  # e / h'
        np.divide(loss, spare, out=spare)
        spare *= -2.0
        spare += slip  # a = h'' / h'
        spare *= step  # a n
        slip *= step
        slip *= step  # e n^2 / h'
        # Householder: n (1 - a n / 2) / (1 - a n - e n^2 / (6 h'))
        np.divide(slip, -6.0, out=slip)
        slip -= spare
        slip += 1.0
        spare *= -0.5
        spare += 1.0
        step *= spare
        step /= slip
        x -= np.nan_to_num(step, copy=False)
    np.multiply(x, stretch, out=slip)
    pushed = np.less_equal(need, np.negative(resistance))
    beyond = np.greater(need, crest)
    if pushed.any():
        slip[pushed] = 0.0
    if beyond.any():
        slip[beyond & ~pushed] = np.nan
    if not np.all(usual):
        odd = ~np.broadcast_to(usual, slip.shape)
        need, thrust, resistance, stretch, drag = (np.broadcast_to(part, slip.shape)[odd] for part in arguments[:5])
        slip[odd] = solve_slip_mixed(need, [(0.0, drag, 1.0)], [(thrust, stretch)], resistance)
