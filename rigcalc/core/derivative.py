"""What one more of an entry costs: the slope of an equation's result, from sympy's derivative of the book's formula."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np

from rigcalc.core.equation import Equation
from rigcalc.core.errors import Fault, InputError
from rigcalc.core.nomenclature import Symbol
from rigcalc.core.units import per
from rigcalc.core.working import derivative, expression, load_sympy, symbol_of, taken


@dataclass(frozen=True)
class Slope:
    """The slope of an equation at a point: bare `value` in `unit` for one more of `by` in its declared unit; the formula."""

    equation: str
    of: Symbol
    by: Symbol
    value: Any
    text: str
    latex: str

    @property
    def unit(self) -> str:
        """The unit of `value`: that of the result over that of the argument."""
        return per(self.of.unit, self.by.unit)


def slope(eq: Equation, symbol: str, values: Mapping[str, Any]) -> Slope:
    """Give the slope of an equation's result with respect to one argument.

    values: every argument by name, bare, in declared units; any shapes that broadcast. Raises InputError for a lookup, for an
    argument that it doesn't take, for values that are missing, and where sympy isn't installed.
    """
    by = taken(eq, symbol)
    missing = [each for each in eq.takes if each.name not in values]
    if missing:
        raise InputError([Fault(f"{eq.__name__}: {s.name}", "nothing", f"a number in {s.unit}") for s in missing])
    call, text, latex = _formula(eq, symbol)
    found = call(*(values[each.name] for each in eq.takes))
    shape = np.broadcast_shapes(*(np.shape(values[each.name]) for each in eq.takes))
    found = np.broadcast_to(np.asarray(found, float), shape)[()]
    return Slope(eq.__name__, eq.gives, by, found, text, latex)


@cache
def _formula(eq: Equation, name: str) -> tuple[Callable[..., Any], str, str]:
    expression(eq)  # a lookup is refused in words
    sp = load_sympy()
    found = derivative(eq, name)
    symbols = {symbol_of(each): each.latex for each in eq.takes}
    call = sp.lambdify(list(symbols), found, "numpy")
    text = f"d {eq.gives.name} / d {name} = {sp.sstr(found, full_prec=False).replace('**', '^')}"
    by = taken(eq, name)
    latex = rf"\frac{{\partial {eq.gives.latex}}}{{\partial {by.latex}}} = {sp.latex(found, symbol_names=symbols)}"
    return call, text, latex
