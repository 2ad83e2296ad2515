"""Two answers beside one another: one that was kept, and the one that stands now."""

from __future__ import annotations

from typing import NamedTuple

from rigcalc.words.field import sure_of
from rigcalc.words.numbers import chance_short, percent, say
from rigcalc.words.rig_name import rig_name
from rigcalc.words.size.answer import SizeWords
from rigcalc.words.tools import counted


class Row(NamedTuple):
    """A figure of both answers; `differs` says whether it reads differently."""

    title: str
    kept: str
    now: str

    @property
    def differs(self) -> bool:
        """Whether the two read differently."""
        return self.kept != self.now


def kept_rows(kept: SizeWords, now: SizeWords) -> list[Row]:
    """Give the figures of two answers in the units of the second."""
    before = SizeWords(kept.answer, now.units)
    pairs = zip(_figures(before), _figures(now), strict=True)
    return [Row(title, one, other) for (title, one), (_, other) in pairs]


def _figures(words: SizeWords) -> list[tuple[str, str]]:
    answer, units = words.answer, words.units
    p, work = answer.point.bare, answer.rig.work
    pulls = answer.point.pulls
    return [
        ("Answer", words.said.word),
        ("Every limit holds", f"{chance_short(answer.sure.chance_works)} {sure_of(answer.bare_rig.told)}"),
        ("Gives out first", words.nearest.title),
        ("Depth and speed", f"{say(work.depth.to('cm'), 'cm', units)}, {say(work.speed.to('km/h'), 'km/h', units)}"),
        ("Tools", counted(answer.rig)),
        ("Slip", percent(p.slip) if pulls else "full"),
        ("Engine load", percent(p.engine_share) if pulls else "out of reach"),
        ("Drawbar pull", say(p.drawbar_pull, "kN", units)),
        ("Area", say(p.field_capacity, "ha/h", units, 2) if pulls else "none"),
        ("Fuel", say(p.fuel_per_area, "L/ha", units, 2) if pulls else "none"),
        ("Rig", rig_name(answer.rig, units)),
    ]
