"""Did we say it right? How often what was read lay inside the band that was said before."""

from __future__ import annotations

import math
from dataclasses import dataclass

from rigcalc.models.rig.field_reading import NUMBERS
from rigcalc.models.rig.rig import Rig

_CLAIM, _TAIL = 0.8, 0.05  # what the bands claim to hold; how seldom a count this far off is chance, on either side
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

    @property
    def usual(self) -> tuple[int, int]:
        """The least and the most that lie inside, 9 times in 10, where the bands hold 8 in 10.

        Counted by readings, not by numbers: those of one reading share its ground, and go wrong together.
        """
        readings, numbers = len({each.place for each in self.kept}), len(self.kept)
        if not readings:
            return 0, 0
        low, high = (_binomial(readings, level) / readings * numbers for level in (_TAIL, 1 - _TAIL))
        return math.floor(low), math.ceil(high)

    @property
    def state(self) -> str:
        """What the count says of the bands: "few", "as_said", "narrow" (too many outside) or "wide" (too few outside)."""
        low, high = self.usual
        return "few" if self.few else "narrow" if self.inside < low else "wide" if self.inside > high else "as_said"

    @property
    def by_kind(self) -> dict[str, tuple[int, int, int]]:
        """Kind of number -> how many lay below the band, inside, and above it."""
        out = {}
        for kind in NUMBERS:
            mine = [each for each in self.kept if each.kind == kind]
            if mine:
                below, above = (sum(side) for side in ([e.read < e.low for e in mine], [e.read > e.high for e in mine]))
                out[kind] = (below, len(mine) - below - above, above)
        return out


def _binomial(count: int, level: float) -> int:
    """Give the least number of successes that at least a share `level` of such counts stays at or below."""
    so_far = 0.0
    for hits in range(count + 1):
        so_far += math.comb(count, hits) * _CLAIM**hits * (1 - _CLAIM) ** (count - hits)
        if so_far >= level:
            return hits
    return count


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
