"""Show the working: formula, numbers put in, result, source. And the body run on sympy symbols: inverse and derivative.

sympy is imported when an inverse or a derivative is first asked for, never before.
"""

from __future__ import annotations

import types
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from typing import Any

import numpy as np

from rigcalc.core import formula
from rigcalc.core.dimensions import Dimensions, dimensions
from rigcalc.core.equation import Equation, words
from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.nomenclature import Symbol

_FIGURES = 4  # more would claim what no field gives


@dataclass(frozen=True)
class Working:
    """One equation with its numbers: LaTeX and plain text of the formula, of the numbers put in, and the result.

    `symbols` are those of the inputs, in LaTeX, in their order; none where there is no formula. `dimensions` is the check of
    both sides, None for a lookup. `numbers` holds the numbers put in by name, bare, for an equation of the book that can be
    written as one formula; it is empty for anything else.
    """

    equation: str
    title: str
    latex: str
    latex_numbers: str
    text: str
    text_numbers: str
    result: str
    inputs: tuple[str, ...]
    source: str
    sure: str
    gives: str
    symbols: tuple[str, ...] = ()
    dimensions: Dimensions | None = None
    numbers: Mapping[str, float] = field(default_factory=dict, hash=False)

    def _repr_latex_(self) -> str:
        """Give what a notebook shows: the formula, the numbers put in with the result, and the units put in."""
        if not self.latex:
            return ""
        result = self.result.replace("**", "^").replace("*", "·").replace("^2", "²").replace("^3", "³")
        lines = [self.latex, rf"{self.latex_numbers} = \text{{{result}}}"]
        if self.dimensions is not None:
            lines.append(self.dimensions.latex)
        return in_lines(lines)


def load_sympy() -> Any:
    """Give sympy. Raises InputError that says how to install it where it isn't."""
    try:
        import sympy
    except ImportError:
        fault = Fault("formulas", "no sympy here", "the extra that solves them", "pip install 'rigcalc[working]'")
        raise InputError([fault], title="This needs a library that isn't installed") from None
    return sympy


def _shim() -> types.SimpleNamespace:
    """Stand in for numpy while a body is traced: the same names, on sympy expressions."""
    sp = load_sympy()

    return types.SimpleNamespace(
        exp=sp.exp, log=sp.log, sqrt=sp.sqrt, sin=sp.sin, cos=sp.cos, tan=sp.tan, pi=sp.pi,
        deg2rad=lambda x: x * sp.pi / 180,
        minimum=sp.Min, maximum=sp.Max,
        where=lambda test, yes, no: sp.Piecewise((yes, test), (no, True)),
    )  # fmt: skip


@cache
def symbol_of(symbol: Symbol) -> Any:
    """Give the sympy symbol of a symbol of the book."""
    sp = load_sympy()

    return sp.Symbol(symbol.name, real=True, nonnegative=True if symbol.least >= 0 else None)


def _run(eq: Equation, arguments: list[Any]) -> Any:
    if not eq.traced:
        raise InputError([Fault(eq.__name__, "a lookup", "an equation that can be written as one formula")])
    body = eq.bare
    namespace = {**body.__globals__, "np": _shim()}
    return types.FunctionType(body.__code__, namespace, body.__name__, body.__defaults__)(*arguments)


@cache
def expression(eq: Equation) -> Any:
    """Give the equation's right-hand side as a sympy expression. Raises InputError for a lookup."""
    return _run(eq, [symbol_of(symbol) for symbol in eq.takes])


def derivative(eq: Equation, name: str) -> Any:
    """Give the derivative of the result with respect to the argument `name`, as a sympy expression.

    Raises InputError when the equation doesn't take `name`.
    """
    sp = load_sympy()

    return sp.diff(expression(eq), symbol_of(taken(eq, name)))


def taken(eq: Equation, name: str) -> Symbol:
    """Give the symbol of the argument `name`. Raises InputError that lists those there are."""
    for symbol in eq.takes:
        if symbol.name == name:
            return symbol
    raise InputError([Fault(eq.__name__, shown(name), f"one of {', '.join(s.name for s in eq.takes)}")])


def latex(eq: Equation) -> str:
    """Give the formula in LaTeX, with the left-hand side; empty for a lookup."""
    return f"{eq.gives.latex} = {formula.latex(eq)}" if eq.traced else ""


def text(eq: Equation) -> str:
    """Give the formula in plain text, with names spelled out."""
    if not eq.traced:
        return f"{eq.gives.name} = lookup({', '.join(s.name for s in eq.takes)})"
    return f"{eq.gives.name} = {formula.plain(eq)}"


def working(eq: Equation, values: Mapping[str, Any]) -> Working:
    """Show one evaluation of an equation: formula, numbers put in, result, source.

    Parameters
    ----------
    eq : Equation
        An equation of the book.
    values : mapping of str to float
        Each argument by name, as a bare scalar in its declared unit (`eq.takes` tells it).

    Returns
    -------
    Working
        LaTeX and plain text of the formula and of the numbers put in, the result with its unit, the check of its dimensions,
        the source and how sure it is. sympy isn't needed.

    Raises
    ------
    InputError
        For arguments that are missing, each by name.

    Examples
    --------
    >>> from rigcalc.equations.power import drawbar_power
    >>> shown = working(drawbar_power, {"draft": 50.0, "speed": 9.0})
    >>> shown.text, shown.text_numbers, shown.result
    ('drawbar_power = draft * speed / 3.6', '50 * 9 / 3.6', '125 kW')
    """
    missing = [s for s in eq.takes if s.name not in values]
    if missing:
        raise InputError([Fault(f"{eq.__name__}: {s.name}", "nothing", f"a number in {s.unit}") for s in missing])
    given = {s.name: number_text(values[s.name]) for s in eq.takes}
    with_powers = {name: number_in_latex(number) for name, number in given.items()}
    result = eq.bare(*(values[s.name] for s in eq.takes))
    unit = "" if eq.gives.unit in ("1", "text") else f" {eq.gives.unit}"
    number = number_text(result)
    return Working(
        equation=eq.__name__,
        title=words(eq.__name__),
        latex=latex(eq),
        latex_numbers=f"{eq.gives.latex} = {formula.latex(eq, with_powers)}" if eq.traced else "",
        text=text(eq),
        text_numbers=formula.plain(eq, given) if eq.traced else "",
        result=f"{number}{unit}",
        inputs=tuple(f"{s.name} = {given[s.name]}{'' if s.unit in ('1', 'text') else ' ' + s.unit}: {s.text}"
                     for s in eq.takes),
        source=f"{eq.source}{', ' + eq.where if eq.where else ''}",
        sure=eq.sure,
        gives=eq.gives.name,
        symbols=tuple(s.latex for s in eq.takes) if eq.traced else (),
        dimensions=dimensions(eq),
        numbers={s.name: float(np.asarray(values[s.name])) for s in eq.takes} if eq.traced else {},
    )  # fmt: skip


def in_lines(formulas: Sequence[str]) -> str:
    """Give formulas in LaTeX below each other, each with its equals sign under that above, as a notebook shows them."""
    return r"$$\begin{aligned}" + r" \\ ".join(line.replace(" = ", " &= ", 1) for line in formulas) + r"\end{aligned}$$"


def number_in_latex(number: str) -> str:
    """Give a number for LaTeX: 1.2e-05 with its power of ten, in a fence, since it may be raised to a power itself."""
    digits, e, power = number.strip("()").partition("e")
    return rf"\left({digits} \times 10^{{{int(power)}}}\right)" if e and digits[-1:].isdigit() else number


def number_text(value: Any) -> str:
    """Give a number with four figures at most, in a fence where it is below zero; a text as it stands."""
    if isinstance(value, str):
        return value
    number = float(f"{float(np.asarray(value)):.{_FIGURES}g}")
    text = f"{number:.{_FIGURES}g}"
    if "e" in text:
        text = f"{number:.0f}" if 1 <= abs(number) < 1e9 else f"{number:.3e}"
    return text if number >= 0 else f"({text})"
