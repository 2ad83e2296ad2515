"""For the blackboard: the working step by step, and one picture at a time."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import ipywidgets

from rigcalc.core.equation import words
from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.working import Working
from rigcalc.views.rig.working import solved_inside, step_inside
from rigcalc.views.size.cards import SizeCard
from rigcalc.views.size.parts import Source, size_model
from rigcalc.views.size.picture import AxleLoads, ChanceByDepth, LimitsMap, PowerFlow, SizePicture, SlipCurve
from rigcalc.widgets.one_layout import one_layout
from rigcalc.widgets.panel import Panel
from rigcalc.widgets.templates import render

_STRIP: tuple[type[SizePicture], ...] = (SlipCurve, PowerFlow, AxleLoads, LimitsMap, ChanceByDepth)


class StepCard(SizeCard):
    """One step of the working, large: formula, numbers put in, result, check of dimensions, source; back, on, or any step
    from the list. Its formula is solved for another of its symbols on demand.

    It keeps its place while depth, speed or soil change, so that a class sees what one step makes of them.
    """

    title, dress = "Step by step", "rig-one-step"
    at, solved_for = 0, ""

    def text(self) -> str:
        """Give the step."""
        steps = self.words.working if self.words is not None else ()
        self.at = min(self.at, len(steps) - 1) if steps else self.at
        titles = [f"{place + 1}. {step.title}" for place, step in enumerate(steps)]
        inside = step_inside(steps[self.at]) if steps else ""
        step = steps[self.at] if steps else None
        symbols = {name: words(name) for name in step.numbers} if step is not None else {}
        if step is None or self.solved_for not in symbols:
            self.solved_for = ""
        solved = solved_inside(step, self.solved_for) if step is not None and self.solved_for else ""
        return str(
            render(
                __file__, "one_step.html.j2", titles=titles, at=self.at, step=step, inside=inside,
                symbols=symbols, solved_for=self.solved_for, solved=solved,
            )
        )  # fmt: skip

    def what_it_does(self) -> Mapping[str, Callable[[Any], None]]:
        """Give what back, on, the list of steps and the list of symbols do."""
        return {"step": self.go, "solve": self.solve}

    def solve(self, symbol: Any) -> None:
        """Show the step's formula solved for one of its symbols too, by name; "" for as it stands. Raises InputError."""
        step: Working | None = self.words.working[self.at] if self.words is not None else None
        there_are = tuple(step.numbers) if step is not None else ()
        if symbol not in ("", *there_are):
            expected = f"one of {', '.join(there_are)}" if there_are else "a step with a formula"
            raise InputError([Fault("solve for", shown(symbol), expected)])
        self.solved_for = symbol
        self.refresh()

    def go(self, place: Any) -> None:
        """Show a step by its place, 0 the first; nothing moves just before the first and after the last. Raises InputError."""
        count = len(self.words.working) if self.words is not None else 0
        if str(place) in ("-1", str(count)):
            return
        if not str(place).isdecimal() or not int(place) < count:
            raise InputError(
                [Fault("step", shown(str(place)), f"a step from 0 to {count - 1}" if count else "a rig that has an answer")]
            )
        self.at, self.solved_for = int(place), ""
        self.refresh()


class PictureStrip(ipywidgets.VBox):  # type: ignore[misc]  # it comes without types
    """One picture at a time, chosen from a strip of their names; each is drawn when it is first chosen."""

    children: tuple[ipywidgets.Widget, ...]

    def __init__(self, source: Source = None):
        self.model = size_model(source)
        self.made: dict[int, SizePicture] = {}
        self.now = 0
        self.strip = Panel(
            self.model,
            self._strip,
            "the strip of pictures",
            {"picture": self.choose},
            look="rig-strip",
            role="group",
            label="Pictures",
        )
        super().__init__([self.strip, self._picture(0)], layout=one_layout())
        self.add_class("rig-look")
        self.add_class("rig-book")

    def choose(self, place: Any) -> None:
        """Show a picture by its place in the strip, 0 the first. Raises InputError for none that there is."""
        if not str(place).isdecimal() or not int(place) < len(_STRIP):
            raise InputError([Fault("picture", shown(str(place)), f"a picture from 0 to {len(_STRIP) - 1}")])
        self._picture(self.now).add_class("rig-away")
        self.now = int(place)
        picture = self._picture(self.now)
        picture.remove_class("rig-away")
        if picture not in self.children:
            self.children = (*self.children, picture)
        self.strip.refresh()

    def _picture(self, place: int) -> SizePicture:
        if place not in self.made:
            self.made[place] = _STRIP[place](self.model)
        return self.made[place]

    def _strip(self) -> str:
        names = [(place, kind.title, place == self.now) for place, kind in enumerate(_STRIP)]
        return str(render(__file__, "strip.html.j2", names=names))
