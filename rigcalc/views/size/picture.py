"""The pictures of a sizing as widgets: each stands alone in a notebook, and the sizing app is built of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import traitlets

from rigcalc.core.errors import InputError
from rigcalc.core.units import Q, parse
from rigcalc.core.values import factor_of
from rigcalc.views.rig.fields import setting
from rigcalc.views.rig.stepped import stepped
from rigcalc.views.size.parts import STALE, AboutSize, Source, size_model, typed
from rigcalc.views.size.pictures import axle_loads, chance, limits_map, power_flow, slip_curve
from rigcalc.widgets.figure import Picture
from rigcalc.widgets.html import table
from rigcalc.widgets.plot import Twin, blank, unit_of


class SizePicture(AboutSize, Picture):
    """Base of the pictures. `source` is a rig, its file, a demo rig's name, or the SizeModel that other parts show too."""

    title = ""
    own_note = ""
    drawn_by: Any = None  # the file of `pictures/` that describes it

    def __init__(self, source: Source = None, **traits: Any):
        label = traits.pop("label", self.title)
        Picture.__init__(self, size_model(source), self.description, label, write_twin=self.same_as_table, **traits)
        self.watch(self.told, self.title)

    def description(self) -> Mapping[str, Any]:
        """Describe the picture; a few words where there is no answer."""
        last = self.last_words
        self._mark(last is not None)
        words = self.words or last
        if words is None:
            return blank()
        found: Mapping[str, Any] = self.drawn_by.describe(words)
        return found

    def _mark(self, stale: bool) -> None:
        """Grey the picture while it is of the last answer, and say so under its title."""
        if stale != ("rig-stale" in self._dom_classes):
            self.own_note, self.note = (self.note, STALE) if stale else ("", self.own_note)
            (self.add_class if stale else self.remove_class)("rig-stale")

    def same_as_table(self) -> str:
        """Give the table that says the same, as HTML."""
        if self.words is None:
            return "<p>There is no answer to show.</p>"
        twin: Twin = self.drawn_by.twin(self.words)
        return table(twin.caption, twin.heads, twin.rows)


class LimitsMap(SizePicture):
    """The limits over depth and speed; tap a place or drag the ring to set both.

    Attributes
    ----------
    point : (depth, speed), two quantities
        The chosen point; set it, observe it, link it with another map's.
    """

    title, drawn_by = "Limits over depth and speed", limits_map
    point: Any = traitlets.Tuple()

    def __init__(self, source: Source = None, **traits: Any):
        point = traits.pop("point", None)
        traits.setdefault("note", "Tap a place, or drag the ring, to set depth and speed.")
        super().__init__(source, on_tap=self.tap, **traits)
        if point is not None:
            self.point = point

    def tap(self, speed: float, depth: float, live: bool = False) -> None:
        """Set depth and speed to a point of the picture, in its own units, on the steps of the sliders.

        While it is `live` the point is being dragged: all its steps are one for undo.
        """
        if self.words is None:  # the picture has no axes then
            return
        fields = {field.path: field for section in setting() for field in section.fields}
        system = self.model.system
        self.model.edit(
            {
                "work.depth": stepped(fields["work.depth"], depth, unit_of("cm", system), system),
                "work.speed": stepped(fields["work.speed"], speed, unit_of("km/h", system), system),
            },
            live,
        )

    def told(self) -> None:
        """Follow the model, the point too."""
        super().told()
        if not self.model.dressed and self.words is not None:
            p, system = self.words.answer.point.bare, self.model.system
            ours = (Q(float(p.depth), "cm"), Q(float(p.speed), "km/h"))
            if not self._near(ours, self.point):
                self.point = tuple(
                    Q(float(f"{value.magnitude * factor_of(value, unit):.12g}"), unit)
                    for value, unit in zip(ours, (unit_of("cm", system), unit_of("km/h", system)), strict=True)
                )

    @staticmethod
    def _near(one: Any, other: Any) -> bool:
        if len(other) != 2:
            return False
        pairs = zip(one, other, ("cm", "km/h"), strict=True)
        return all(abs(a.magnitude * factor_of(a, unit) - b.magnitude * factor_of(b, unit)) < 1e-9 for a, b, unit in pairs)

    @traitlets.validate("point")
    def _is_point(self, proposal: Any) -> Any:
        try:
            for value, unit in zip(proposal.value, ("cm", "km/h"), strict=True):
                factor_of(value, unit)
        except Exception:  # odd things in odd numbers have no error in common
            raise traitlets.TraitError("point: expected a depth and a speed, such as (Q(12, 'in'), Q(5, 'mph'))") from None
        return tuple(proposal.value)

    @traitlets.observe("point")
    def _moved(self, change: Any) -> None:
        words = self.words
        if words is not None:
            p = words.answer.point.bare
            if self._near((Q(float(p.depth), "cm"), Q(float(p.speed), "km/h")), change.new):
                return
        depth, speed = change.new
        self.model.edit({"work.depth": _typed(depth, "cm"), "work.speed": _typed(speed, "km/h")})


def _typed(value: Any, unit: str) -> str:
    """Give a quantity as somebody would type it, in its own unit where a rig file knows that, else in `unit`."""
    text = typed(value)
    try:
        parse(text)
    except InputError:
        return f"{float(value.magnitude * factor_of(value, unit)):.12g} {unit}"
    return text


class PowerFlow(SizePicture):
    """Where the engine's power goes: to the tool, into slip, rolling and the drive."""

    title, drawn_by = "Where the power goes", power_flow


class SlipCurve(SizePicture):
    """Pull and tractive efficiency against slip, and where this job stands."""

    title, drawn_by = "Pull and efficiency against slip", slip_curve


class AxleLoads(SizePicture):
    """The load on each axle, at rest and at work, beside its limit."""

    title, drawn_by = "Axle loads", axle_loads


class ChanceByDepth(SizePicture):
    """How sure the answer is, depth by depth."""

    title, drawn_by = "How sure, depth by depth", chance


PICTURES: tuple[Callable[..., SizePicture], ...] = (LimitsMap, PowerFlow, SlipCurve, AxleLoads, ChanceByDepth)
