"""The book: one file a question. Files never import each other; `load_all()` imports every one of them."""

from __future__ import annotations

import importlib
import pkgutil
from typing import TYPE_CHECKING

from rigcalc.core.equation import BOOK, Equation
from rigcalc.core.errors import Fault, InputError, shown

if TYPE_CHECKING:
    from rigcalc.core.nomenclature import Symbol
    from rigcalc.core.solved import Solved


def load_all() -> dict[str, Equation]:
    """Give every equation of the book.

    Returns
    -------
    dict of str to Equation
        By name, in alphabetical order. Every file of the book is imported.

    Examples
    --------
    >>> load_all()["drawbar_power"]
    drawbar_power(draft [kN], speed [km/h]) -> drawbar_power [kW]
    """
    for module in pkgutil.iter_modules(__path__):
        importlib.import_module(f"{__name__}.{module.name}")
    return dict(sorted(BOOK.items()))


def find(word: str) -> list[Equation]:
    """Find equations by word.

    Parameters
    ----------
    word : str
        One or more words; letter case doesn't matter, and an underscore counts as a blank.

    Returns
    -------
    list of Equation
        Those whose name, summary, symbols or source hold every word: by name first, then by summary. Empty where none does.

    Raises
    ------
    InputError
        For what is no text.

    Examples
    --------
    >>> [eq.__name__ for eq in find("travel reduction")][0]
    'travel_reduction'
    """
    if not isinstance(word, str):
        raise InputError([Fault("find", shown(word), "a word", 'find("slip")')])
    wanted = word.lower().replace("_", " ").split()

    def rank(eq: Equation) -> int:
        name = eq.__name__.replace("_", " ")
        about = " ".join([name, eq.summary, eq.gives.name.replace("_", " "), eq.gives.text, str(eq.source)]
                         + [f"{s.name.replace('_', ' ')} {s.text}" for s in eq.takes]).lower()  # fmt: skip
        if not all(part in about for part in wanted):
            return 0
        return 3 if all(part in name for part in wanted) else 2 if all(part in eq.summary.lower() for part in wanted) else 1

    ranked = [(rank(eq), eq) for eq in load_all().values()]
    return [eq for score, eq in sorted(ranked, key=lambda pair: (-pair[0], pair[1].__name__)) if score]


def named(name: str) -> Equation:
    """Give the equation of this name. Raises InputError with the names that come near."""
    book = load_all()
    if name in book:
        return book[name]
    import difflib

    near = difflib.get_close_matches(str(name), book, 3, 0.4)
    raise InputError([Fault("equation", shown(name), "the name of an equation of the book",
                            f"for example {', '.join(near)}" if near else "rigcalc find WORD")])  # fmt: skip


def solve_for(equation: Equation | str, symbol: Symbol | str) -> Solved:
    """Solve an equation of the book for one of its arguments, by sympy.

    Parameters
    ----------
    equation : Equation or str
        The equation, or its name.
    symbol : Symbol or str
        The argument to solve for, or its name.

    Returns
    -------
    Solved
        Called like any equation, on quantities of any shape: the result of `equation` in the place of `symbol`, first if by
        position. `text` and `latex` hold the formula. The answer is put back into `equation`, so that a root which doesn't
        hold is never given; an array holds NaN where there is none.

    Raises
    ------
    InputError
        For a name that isn't known, for a lookup, where sympy finds no formula or isn't installed; when called, where no
        value can give that result, or two can.

    Examples
    --------
    >>> from rigcalc import Q, solve_for
    >>> speed = solve_for("drawbar_power", "speed")
    >>> speed.text
    'speed = 3.6*drawbar_power/draft'
    >>> print(f"{speed(Q(150.0, 'hp'), Q(10_000.0, 'lbf')).to('mph'):.3f~}")
    5.625 mph
    """
    from rigcalc.core.solved import solve

    eq = equation if isinstance(equation, Equation) else named(equation)
    return solve(eq, symbol if isinstance(symbol, str) else getattr(symbol, "name", shown(symbol)))
