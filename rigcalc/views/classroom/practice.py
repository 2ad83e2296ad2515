"""The part to practice with: a problem, a box for the answer, and what is said of it. It needs no class and keeps no names."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Mapping
from typing import Any

import traitlets

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.classroom import Mark, draw, kinds, mark
from rigcalc.models.classroom.kinds import System
from rigcalc.models.classroom.problem import MOST_SEED
from rigcalc.views.classroom.model import PracticeModel
from rigcalc.widgets.card import Card
from rigcalc.widgets.templates import render
from rigcalc.words.classroom import ProblemWords, told
from rigcalc.words.classroom.practice import count_said

_COUNT = itertools.count(1)
_STUDENT = "practice"


class PracticeCard(Card):
    """Problems to practice with, one at a time: hints on demand, other numbers, the answer with its working.

    Parameters
    ----------
    *kinds : str
        Kinds of problems, as `rigcalc problems` lists them; without any, those of `lesson`, or all.
    lesson : str, optional
        "draft", "power", "slip", "weight", "capacity" or "soil".
    units : {"us", "si"}, optional
        American or metric numbers; a button changes between them.
    seed : int, optional
        Another one begins with other numbers.

    Attributes
    ----------
    problem, mark : Problem, Mark or None
        The facts of what is asked and of the last answer, read alone.
    right, seen : int
        How many problems were solved without looking, and how many were shown; read alone.

    Raises
    ------
    InputError
        For what there isn't, all at once.

    Examples
    --------
    >>> card = PracticeCard("drawbar_power", units="si")
    >>> card.check(f"{card.problem.answer:.4g} kW").right, card.right
    (True, 1)
    """

    title, dress = "Practice", "rig-why"
    problem = traitlets.Any(None, read_only=True)
    mark = traitlets.Any(None, allow_none=True, read_only=True)
    right = traitlets.Int(0, read_only=True)
    seen = traitlets.Int(1, read_only=True)

    def __init__(self, *kinds_asked: str, lesson: str = "", units: System = "us", seed: int = 1, **traits: Any):
        self.kinds = _chosen(kinds_asked, lesson)
        self._key = f"practice-{next(_COUNT)}"
        self._at, self._hints, self._typed, self._shown, self._counted = 0, 0, "", False, False
        self._seed = seed
        self.set_trait("problem", draw(self.kinds[0], _STUDENT, seed, units))  # refuses a seed or units that can't be
        super().__init__(PracticeModel(system=units), **traits)

    def text(self) -> str:
        """Give the problem, the box, and what was said of the last answer."""
        words = ProblemWords(self.problem)
        return render(
            __file__,
            "practice.html.j2",
            words=words,
            key=self._key,
            hints=words.hints[: self._hints],
            more_hints=self._hints < len(words.hints),
            typed=self._typed,
            said=told(self.mark, self.problem) if self.mark is not None else "",
            shown=self._shown,
            several=len(self.kinds) > 1,
            metric=self.problem.system == "si",
            count=count_said(self.right, self.seen),
        )

    def what_it_does(self) -> Mapping[str, Callable[[Any], None]]:
        """Give what its buttons and the box do."""
        return {
            "check": self._taken,
            "look": lambda _value: self._taken(self._typed),
            "hint": lambda _value: self.hint(),
            "again": lambda _value: self.again(),
            "next": lambda _value: self.next(),
            "units": lambda _value: self.switch(),
            "show": lambda _value: self.show(),
        }

    def check(self, typed: str) -> Mark:
        """Mark an answer and say what is the matter with it. Gives the facts. Raises TypeError for what is no text."""
        found = mark(self.problem, typed)
        self._typed = typed
        self.set_trait("mark", found)
        if found.right and not self._counted and not self._shown:
            self._counted = True
            self.set_trait("right", self.right + 1)
        self.refresh()
        return found

    def hint(self) -> None:
        """Show one more hint."""
        self._hints += 1
        self.refresh()

    def show(self) -> None:
        """Show the answer and its working; this problem doesn't count from now on."""
        self._shown = True
        self.refresh()

    def again(self) -> None:
        """Give the same kind with other numbers."""
        self._seed = (self._seed + 1) % MOST_SEED
        self._fresh(self.problem.system)

    def next(self) -> None:
        """Go on to the next kind; after the last comes the first, with other numbers."""
        self._at += 1
        if self._at % len(self.kinds) == 0:
            self._seed = (self._seed + 1) % MOST_SEED
        self._fresh(self.problem.system)

    def switch(self) -> None:
        """Change between American and metric numbers: another problem, round in its own units."""
        self._fresh("us" if self.problem.system == "si" else "si")

    def _fresh(self, system: System) -> None:
        was_open = not (self._counted or self._shown or self.mark)
        kind = self.kinds[self._at % len(self.kinds)]
        self._hints, self._typed, self._shown, self._counted = 0, "", False, False
        self.set_trait("mark", None)
        self.set_trait("problem", draw(kind, _STUDENT, self._seed, system))
        if not was_open:  # one that was only leafed over isn't counted
            self.set_trait("seen", self.seen + 1)
        self.refresh()

    def _taken(self, typed: Any) -> None:
        self.check(str(typed)[:200])


def _chosen(asked: tuple[str, ...], lesson: str) -> tuple[str, ...]:
    there_are = kinds()
    faults = [Fault("kind", shown(name), "a kind of problem", ", ".join(there_are)) for name in asked if name not in there_are]
    lessons = sorted({kind.lesson for kind in there_are.values()})
    if lesson and lesson not in lessons:
        faults.append(Fault("lesson", shown(lesson), "a lesson", ", ".join(lessons)))
    if faults:
        raise InputError(faults)
    return asked or tuple(name for name, kind in there_are.items() if lesson in ("", kind.lesson))
