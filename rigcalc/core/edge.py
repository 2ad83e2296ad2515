"""The short way through an equation's edge: a function written out for as many arguments as the equation takes.

It serves calls by position whose units are the very ones of the call before, with plain floats inside the bounds. All else
goes the long way, in `Equation`, which then remembers the units. A loop over the arguments would cost twice as much, so the
function is made from text, as dataclasses make theirs: once for each number of arguments.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import Any

from rigcalc.core.values import fits

# What an equation knows of the call before: the kind of quantity, the unit of each argument, the factor of each that isn't
# one (None where all are), the unit of the result (None where it is a text).
Known = tuple[Any, tuple[Any, ...], tuple[float | None, ...] | None, Any]
MISSING: Any = type("Missing", (), {"__repr__": lambda self: "nothing"})()

# Three notes on the text below. `_known` is read once, so that a thread which changes it between two lines does no harm. The
# long way is gone after the `except`, not in it, so that its errors stand alone. And a quantity is made without its own
# constructor, which takes ten times as long; a test holds both to the same object.
_CALL = """
def made(bare, {bounds}):
    def __call__(self, {parameters}, /, *more, **named):
        kind, ({units},), factors, unit = self._known
        try:
            known = not (more or named or {strange})
            if known:
                {values}
                if factors is not None:
                    {scales}, = factors
                    {scaled}
        except (AttributeError, TypeError, OverflowError):
            known = False
        if not known:
            return self._long_way(({arguments}, *more), named)
        if not ({inside}):
            raise self._out_of_bounds(({numbers},))
        try:
            result = bare({numbers})
        except (ArithmeticError, ValueError) as error:
            raise self._failed(error, ({numbers},)) from None
        if type(result) is not float:
            result = self._real(result, ({numbers},))
        elif result - result != 0.0:
            raise self._no_answer(({numbers},))
        if unit is None:
            return result
        out = new(kind)
        out._magnitude = result
        out._units = unit
        return out
    return __call__
"""


@cache
def _maker(count: int) -> Callable[..., Callable[..., Any]]:
    def each(text: str, between: str = ", ") -> str:
        return between.join(text.format(i=i) for i in range(count))

    text = _CALL.format(
        bounds=each("least{i}, most{i}"),
        parameters=each("a{i}=MISSING"),
        arguments=each("a{i}"),
        units=each("u{i}"),
        strange=each("a{i}._units is not u{i} or type(a{i}) is not kind", " or "),
        values=each("x{i} = a{i}._magnitude", "\n                "),
        numbers=each("x{i}"),
        scales=each("f{i}"),
        scaled=each("if f{i} is not None: x{i} = x{i} * f{i}", "\n                    "),
        inside=each("(least{i} <= x{i} <= most{i} if type(x{i}) is float else fits(x{i}, least{i}, most{i}))", " and "),
    )
    space: dict[str, Any] = {"new": object.__new__, "fits": fits, "MISSING": MISSING, "__name__": __name__}
    exec(compile(text, f"<edge of {count} arguments>", "exec"), space)  # noqa: S102 (no word of it comes from outside)
    made: Callable[..., Callable[..., Any]] = space["made"]
    return made


def short_way(body: Callable[..., Any], least: tuple[float, ...], most: tuple[float, ...]) -> Callable[..., Any]:
    """Give the `__call__` of an equation with this body and these bounds of its arguments, in declared units."""
    bounds = [bound for pair in zip(least, most, strict=True) for bound in pair]
    return _maker(len(least))(body, *bounds)


def unknown(count: int) -> Known:
    """Give what an equation of `count` arguments knows before its first call."""
    return None, (None,) * count, None, None
