"""How each number is worked out, as HTML: formula, numbers put in, inputs, source."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from markupsafe import Markup

from rigcalc.core.errors import InputError
from rigcalc.core.working import Working
from rigcalc.widgets.html import fault_list, fold
from rigcalc.widgets.mathml import mathml
from rigcalc.widgets.templates import render
from rigcalc.words.dimensions import LETTERS, dimensions_said
from rigcalc.words.solved import solved_words


class _Worked(Protocol):
    @property
    def working(self) -> Sequence[Working]: ...


def working(answer: _Worked | None, wanted: bool) -> str:
    """Give the fold of the working; its inside is made only when it was opened once."""
    steps = answer.working if wanted and answer is not None else ()
    inside = "".join(_step(index, step) for index, step in enumerate(steps)) or "<p>Being worked out …</p>"
    if answer is None:
        inside = "<p>There is no answer to work out.</p>"
    return fold("working", "How each number is worked out", inside, ask="open", value="working")


def step_inside(step: Working) -> Markup:
    """Give what stands under a step's title: formula, numbers put in, inputs, the check of dimensions, source."""
    formulas = [Markup(mathml(text)) for text in (step.latex, step.latex_numbers) if text]  # noqa: S704 (its maker escapes)
    symbols = [Markup(mathml(text, inline=True)) for text in step.symbols]  # noqa: S704 (as above)
    inputs = list(zip(symbols or [Markup()] * len(step.inputs), step.inputs, strict=True))
    check = step.dimensions
    units = Markup(mathml(check.latex)) if check is not None and check.latex else ""  # noqa: S704 (as above)
    said = f"{dimensions_said(check)} {LETTERS}" if check is not None else ""
    return render(__file__, "step.html.j2", formulas=formulas, step=step, inputs=inputs, check=check, units=units, said=said)


def solved_inside(step: Working, symbol: str) -> Markup:
    """Give a step solved for one of its symbols: the formula, the numbers put in, what comes out; or why that can't be."""
    try:
        solved = solved_words(step, symbol)
    except InputError as error:
        return Markup(fault_list(error.faults, "It can't be solved for this"))  # noqa: S704 (its maker escapes)
    formulas = [Markup(mathml(text)) for text in (solved.latex, solved.latex_numbers)]  # noqa: S704 (as above)
    return render(__file__, "solved.html.j2", formulas=formulas, solved=solved)


def _step(index: int, step: Working) -> str:
    return fold(f"step-{index}", f"{step.title}: {step.result}", step_inside(step))
