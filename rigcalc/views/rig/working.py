"""How each number is worked out, as HTML: formula, numbers put in, inputs, source."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from markupsafe import Markup

from rigcalc.core.working import Working
from rigcalc.widgets.html import fold
from rigcalc.widgets.mathml import mathml
from rigcalc.widgets.templates import render


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
    """Give what stands under a step's title: formula, numbers put in, inputs, source."""
    formulas = [Markup(mathml(text)) for text in (step.latex, step.latex_numbers) if text]  # noqa: S704 (its maker escapes)
    symbols = [Markup(mathml(text, inline=True)) for text in step.symbols]  # noqa: S704 (as above)
    inputs = list(zip(symbols or [Markup()] * len(step.inputs), step.inputs, strict=True))
    return render(__file__, "step.html.j2", formulas=formulas, step=step, inputs=inputs)


def _step(index: int, step: Working) -> str:
    return fold(f"step-{index}", f"{step.title}: {step.result}", step_inside(step))
