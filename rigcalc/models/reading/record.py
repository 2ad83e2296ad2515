"""Did we say it right? How often what was read lay inside the band that was said before."""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.models.rig.field_reading import NUMBERS
from rigcalc.models.rig.rig import Rig

FEW = 10  # our choice: under so many numbers the share inside says next to nothing


@dataclass(frozen=True)
class Kept:
    """A number and what was said of it before. place: of the reading among the rig's. All bare, in the unit of its kind."""

    place: int
    kind: str
    read: float
    low: float
    high: float

    @property
    def inside(self) -> bool:
        """True where it lies inside the band."""
        return self.low <= self.read <= self.high


@dataclass(frozen=True)
class Record:
    """What was said and what came, in the order of the readings; those set aside aren't in it. unsaid: numbers without a word
    before them."""  # fmt: skip

    kept: tuple[Kept, ...]
    unsaid: int

    @property
    def inside(self) -> int:
        """How many lay inside."""
        return sum(each.inside for each in self.kept)

    @property
    def few(self) -> bool:
        """True where they are too few to say anything by."""
        return len(self.kept) < FEW


def record(rig: Rig) -> Record:
    """Lay what was read beside what was said before."""
    kept, unsaid = [], 0
    for place, reading in enumerate(rig.reading):
        if reading.set_aside:
            continue
        numbers = reading.numbers
        for kind in (kind for kind in NUMBERS if kind in numbers):
            said = reading.said(kind)
            if said is None:
                unsaid += 1
            else:
                kept.append(Kept(place, kind, numbers[kind][0], *said))
    return Record(tuple(kept), unsaid)
