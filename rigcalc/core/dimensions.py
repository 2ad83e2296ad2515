"""Do both sides of a formula measure the same thing? Its units put in for its symbols, and the powers that come out.

The powers are those of length, mass, time and temperature. A number that is added to something with a unit takes that
unit; where bare numbers leave the sides apart, they carry units, as the constants of a fit do.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from rigcalc.core import formula
from rigcalc.core.equation import Equation
from rigcalc.core.units import dimension

Powers = tuple[Fraction, ...]
NONE: Powers = (Fraction(0),) * 4
_HIGH = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")


@dataclass(frozen=True)
class Dimensions:
    """The check of one formula.

    text, latex: the formula with [unit] for each symbol, [1] for a plain number. result: the powers of length, mass, time
    and temperature on the left; found: those on the right, None where bare numbers hide them. bare: whether it holds numbers
    that turn or carry units, so that it is right in these units alone.
    """

    text: str
    latex: str
    result: Powers
    found: Powers | None
    bare: bool

    @property
    def agree(self) -> bool:
        """Say whether both sides measure the same thing."""
        return self.found == self.result


class _Unclear(Exception):
    """A part whose powers nobody can tell: a number with a unit goes where a plain one belongs."""


@cache
def dimensions(eq: Equation) -> Dimensions | None:
    """Give the check of an equation of the book; None for a lookup, which has no formula."""
    if not eq.traced or eq.gives.unit == "text":
        return None
    shown = {symbol.name: bracketed(symbol.unit) for symbol in eq.takes}
    as_text = {name: rf"\text{{{unit}}}" for name, unit in shown.items()}
    left = bracketed(eq.gives.unit)
    try:
        found = _powers(formula.formula(eq), {symbol.name: _of(symbol.unit) for symbol in eq.takes})
    except _Unclear:
        found = None
    return Dimensions(
        text=f"{left} = {formula.plain(eq, shown)}".replace("[deg]°", "[deg]"),
        latex=rf"\text{{{left}}} = {formula.latex(eq, as_text)}".replace(r"[deg]}^{\circ}", "[deg]}"),
        result=_of(eq.gives.unit),
        found=NONE if found == () else found,
        bare=eq.numeric,
    )


def of_terms(units: Sequence[str], sign: str, result: str) -> Dimensions:
    """Give the check of a sum (" + "), a difference (" - "), a product (" * ") or a quotient (" / ") of terms."""
    powers = [_of(unit) for unit in units]
    found: Powers | None = powers[0]
    for each in powers[1:]:
        if sign.strip() in ("+", "-"):
            found = found if found == each else None
        elif found is not None:
            way = -1 if sign.strip() == "/" else 1
            found = tuple(a + way * b for a, b in zip(found, each, strict=True))
    text = f"{bracketed(result)} = {sign.join(bracketed(unit) for unit in units)}"
    return Dimensions(text, "", _of(result), found, False)


def bracketed(unit: str) -> str:
    """Give a unit in brackets as it is written by hand: [N·h/km/cm], [m²], [1] for a plain number."""
    return f"[{by_hand(unit) or '1'}]"


def by_hand(unit: str) -> str:
    """Give a unit of the book as it is written by hand: N·h/km/cm, m²."""
    return re.sub(r"\*\*(-?\d+)", lambda power: power[1].translate(_HIGH), unit).replace("*", "·")


def powers_text(powers: Powers) -> str:
    """Give powers as a product of M, L, T and Θ, as textbooks write them: M·L·T⁻²; 1 for a plain number."""
    length, mass, time, temperature = powers
    order = (("M", mass), ("L", length), ("T", time), ("Θ", temperature))
    parts = [name + ("" if power == 1 else _high(power)) for name, power in order if power]
    return "·".join(parts) or "1"


def _high(power: Fraction) -> str:
    return str(power).translate(_HIGH) if power.denominator == 1 else f"^({power})"


def _of(unit: str) -> Powers:
    return tuple(Fraction(power) for power in dimension(unit))


def _powers(node: ast.expr, of: dict[str, Powers]) -> Powers | tuple[()]:
    """Give the powers of a part of a formula; () for bare numbers, which may take those of what they are added to."""
    if isinstance(node, ast.BinOp):
        left, right = _powers(node.left, of), _powers(node.right, of)
        if isinstance(node.op, (ast.Add, ast.Sub)):
            if left and right and left != right:
                raise _Unclear
            return left or right
        if isinstance(node.op, ast.Pow):
            return _raised(node, left, right)
        way = -1 if isinstance(node.op, ast.Div) else 1
        if not left and not right:
            return ()
        return tuple(a + way * b for a, b in zip(left or NONE, right or NONE, strict=True))
    if isinstance(node, ast.UnaryOp):
        return _powers(node.operand, of)
    if isinstance(node, ast.Call):
        inner = _powers(node.args[0], of)
        if getattr(node.func, "attr", "") == "sqrt":
            return tuple(power / 2 for power in inner)
        if inner not in ((), NONE):
            raise _Unclear  # the exponential or sine of what has a unit
        return inner
    return of[node.id] if isinstance(node, ast.Name) and node.id in of else ()


def _raised(node: ast.BinOp, base: Powers | tuple[()], power: Powers | tuple[()]) -> Powers | tuple[()]:
    if power not in ((), NONE):
        raise _Unclear
    if base in ((), NONE):
        return base or power
    sign, exponent = 1, node.right
    if isinstance(exponent, ast.UnaryOp):
        sign, exponent = -1, exponent.operand
    if not isinstance(exponent, ast.Constant):
        raise _Unclear  # a power that is itself a symbol makes the unit hang on its value
    return tuple(each * sign * Fraction(str(exponent.value)) for each in base)
