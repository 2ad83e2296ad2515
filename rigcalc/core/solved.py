"""An equation of the book solved for one of its arguments, by sympy.

sympy is loaded when a formula is first asked for, never before.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import cache
from typing import Any

import numpy as np

from rigcalc.core.equation import Equation, words
from rigcalc.core.errors import Fault, InputError
from rigcalc.core.nomenclature import Symbol
from rigcalc.core.working import expression, in_lines, latex, load_sympy, number_in_latex, number_text, symbol_of, taken

_REAL, _SAME = 1e-9, 1e-7  # shares: an imaginary part that is rounding alone; how near the equation must come when put back
_LOOK = {"inv_trig_style": "full", "ln_notation": True}
_SHOWN = 1e-4  # as near to the number that went in as four figures can show; a formula's own constants are cut to six


class Solved(Equation):
    """An equation solved for one of its arguments: called like any other, with the result of the first as an argument.

    `text` and `latex` hold the formula (more than one where several roots exist, with "or" between), `roots` what stands on the
    right as sympy has it. `of` is the equation that was solved; arguments in `zero` are taken as 0. The answer is put back into
    it: a root that doesn't give the result again is no answer.
    """

    def __init__(self, of: Equation, symbol: Symbol, roots: Sequence[Any], zero: tuple[str, ...] = ()):
        sp = load_sympy()
        self.of, self.symbol, self.zero = of, symbol, zero
        others = tuple(each for each in of.takes if each is not symbol)
        takes = (result_of(of), *others)
        letters, functions = [symbol_of(each) for each in takes], [{"LambertW": _lambert_w}, "numpy"]
        formulas = [sp.lambdify(letters, root, functions) for root in roots]

        def body(*values: Any) -> Any:
            return _best(self, formulas, values)

        body.__name__ = f"{of.__name__}_for_{symbol.name}"
        body.__doc__ = f"{words(of.__name__).capitalize()}, solved for {words(symbol.name)}."
        body.__module__ = __name__
        valid = {name: ends for name, ends in of.valid.items() if name != symbol.name}
        super().__init__(body, symbol, takes, valid=valid, source=of.source.key, where=of.where, sure=of.sure, table=of.table,
                         numeric=of.numeric, fitted=of.fitted, traced=False)  # fmt: skip
        names = {symbol_of(each): each.latex for each in (symbol, *takes)}
        short = self.roots = [_short(root) for root in roots]
        self.text = " or ".join(f"{symbol.name} = {sp.sstr(root, full_prec=False).replace('**', '^')}" for root in short)
        self.latex = r" \quad\text{or}\quad ".join(
            f"{symbol.latex} = {sp.latex(root, symbol_names=names, **_LOOK)}" for root in short
        )

    def _repr_latex_(self) -> str:
        """Give what a notebook shows: the equation, and below it the formula that it was solved for."""
        return in_lines([latex(self.of), self.latex])

    def put_in(self, numbers: Mapping[str, float]) -> str:
        """Give the formula in LaTeX with numbers in it, of its roots the one that gives the number that went in.

        numbers: each argument of the equation that was solved by name, bare, in its declared unit. Raises InputError for
        those that are missing, each by name, and where no root gives that number.
        """
        sp = load_sympy()
        if missing := [each for each in self.of.takes if each.name not in numbers]:
            raise InputError(
                [Fault(f"{self.of.__name__}: {each.name}", "nothing", f"a number in {each.unit}") for each in missing]
            )
        wanted, given = numbers[self.symbol.name], {**numbers, self.takes[0].name: float(self.of.bare(**numbers))}
        letters = {symbol_of(each): given[each.name] for each in self.takes}
        for root in self.roots:
            try:
                found = complex(root.evalf(subs=letters))
            except (ArithmeticError, TypeError):
                continue  # it divides by one of the numbers, and that is zero
            if abs(found - wanted) <= _SHOWN * abs(wanted) + 1e-9:
                names = {letter: number_in_latex(number_text(number)) for letter, number in letters.items()}
                return f"{self.symbol.latex} = {sp.latex(root, symbol_names=names, mul_symbol='times', **_LOOK)}"
        got = ", ".join(f"{name} {number_text(number)}" for name, number in numbers.items())
        raise InputError([Fault(f"{self.of.__name__} for {self.symbol.name}", got, "numbers that the formula gives again")])

    def _long_way(self, args: tuple[Any, ...], named: Mapping[str, Any]) -> Any:
        result = super()._long_way(args, named)
        if named.get("strict") and self.symbol.name in self.of.valid:
            value = getattr(result, "_magnitude", result)  # a quantity holds it in declared units, labelled data are bare
            self.of.hold_to_range({self.symbol.name: value}, named["strict"])
        return result

    def __reduce__(self) -> Any:
        """Pickle as what was asked for, so that workers of dask solve it again."""
        return solve, (self.of, self.symbol.name, self.zero)


def result_of(eq: Equation) -> Symbol:
    """Give the symbol of an equation's result; under a name of its own where the equation takes one of that name too."""
    taken_too = eq.gives.name in (each.name for each in eq.takes)
    return replace(eq.gives, name=f"{eq.gives.name}_result", latex=f"{eq.gives.latex}'") if taken_too else eq.gives


def solve(eq: Equation, name: str, zero: tuple[str, ...] = ()) -> Solved:
    """Give the equation solved for its argument `name`, where those of `zero` are zero: their parts fall away before.

    Asked again it is the same one. Raises InputError where that can't be done.
    """
    return _solve(eq, name, zero)  # all three every time: to a cache one that is left out is another call


@cache
def _solve(eq: Equation, name: str, zero: tuple[str, ...]) -> Solved:
    sp = load_sympy()
    symbol = taken(eq, name)
    whole = expression(eq).subs({symbol_of(taken(eq, each)): 0 for each in zero})
    wanted = symbol_of(symbol)
    held: dict[Any, Any] = {}

    def hold(part: Any) -> Any:
        """Put one letter for a part that doesn't hold the wanted symbol: sympy loses itself in long coefficients."""
        if part.is_number:
            return part
        letter = next((letter for letter, known in held.items() if known == part), None)
        if letter is None:
            letter = sp.Dummy(f"k{len(held)}", real=True, nonnegative=part.is_nonnegative)
            held[letter] = part
        return letter

    def short(part: Any) -> Any:
        if part == wanted or not part.has(wanted):
            return part if part == wanted else hold(part)
        if isinstance(part, (sp.Add, sp.Mul)):
            free = [each for each in part.args if not each.has(wanted)]
            rest = [short(each) for each in part.args if each.has(wanted)]
            return part.func(*([hold(part.func(*free))] if free else []), *rest)
        return part.func(*map(short, part.args))

    try:
        # As fractions, exponents such as 9.5 would become polynomials of a degree that sympy never gets through.
        roots = sp.solve(short(whole) - symbol_of(result_of(eq)), wanted, rational=False, check=False, simplify=False)
    except NotImplementedError:
        roots = []
    roots = [root.xreplace(held) for root in roots if root.free_symbols]  # a bare 0 comes of multiplying through
    if not roots:
        others = ", ".join(each.name for each in eq.takes if each is not symbol)
        raise InputError([Fault(f"{eq.__name__} for {name}", "no formula that sympy finds", "another symbol", others)])
    return Solved(eq, symbol, roots, zero)


def _best(solved: Solved, formulas: Sequence[Callable[..., Any]], values: tuple[Any, ...]) -> Any:
    """Give the one root that can exist and gives the result again when put back. NaN where an array has none."""
    symbol, of = solved.symbol, solved.of
    shape = np.broadcast_shapes(*map(np.shape, values))
    with np.errstate(all="ignore"):
        tried = [np.asarray(formula(*(np.asarray(value, complex) for value in values)), complex) for formula in formulas]
        roots = np.stack([np.broadcast_to(root, shape) for root in tried])
        real = np.where(np.abs(roots.imag) <= _REAL * np.abs(roots), roots.real, np.nan)
        given = dict(zip((each.name for each in solved.takes), values, strict=True)) | {symbol.name: real}
        again = of.bare(*(given[each.name] for each in of.takes))
        near = np.abs(again - values[0]) <= _SAME * np.abs(values[0]) + 1e-300
        holds = near & (real >= symbol.least) & (real <= symbol.most)
        low, high = of.valid.get(symbol.name, (-np.inf, np.inf))
        inside = holds & (real >= low) & (real <= high)
        holds = np.where(inside.any(axis=0), inside, holds)  # the source's own range decides between roots
    least = np.where(holds, real, np.inf).min(axis=0)
    most = np.where(holds, real, -np.inf).max(axis=0)
    if (two := most > least + _SAME * np.abs(least)).any():
        unit = "" if symbol.unit == "1" else f" {symbol.unit}"
        at = np.unravel_index(int(np.argmax(two)), shape)
        got = f"values with two answers: {least[at]:.5g} and {most[at]:.5g}{unit}"
        raise InputError([Fault(f"{of.__name__} for {symbol.name}", got, "values with one answer")])
    found = np.where(np.isfinite(least), least, np.nan)
    if shape:
        return found
    if np.isnan(found):
        raise ArithmeticError("no root")
    return float(found)


def _lambert_w(values: Any, branch: Any = 0) -> Any:
    import mpmath  # comes with sympy

    return np.vectorize(lambda value: complex(mpmath.lambertw(value, int(np.real(branch)))), otypes=[complex])(values)


def _short(root: Any) -> Any:
    """Give an expression with its floats as they are read: 3.6, not 3.60000000000000, and no factor of 1.0."""
    sp = load_sympy()
    as_read = {number: sp.Integer(int(number)) if float(number).is_integer() else sp.Float(f"{float(number):.6g}", 6)
               for number in root.atoms(sp.Float)}  # fmt: skip
    return root.xreplace(as_read)
