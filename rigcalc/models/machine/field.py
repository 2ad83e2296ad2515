"""A field that was read: its readings picked and weighed once, and the draws of it that take the place of the table's.

`in_field` is what every question starts from: the rig as bare numbers, with what its readings told beside them. Without a
reading nothing stands there, and every answer is the table's.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

import numpy as np

from rigcalc.core.errors import Fault, InputError
from rigcalc.models.machine.draft_force import draft_force
from rigcalc.models.machine.draws import Draws, number
from rigcalc.models.machine.held import Held
from rigcalc.models.machine.posterior import Posterior, posterior
from rigcalc.models.machine.ranges import factor_at
from rigcalc.models.machine.scores import doubt, draws_of
from rigcalc.models.machine.seen import Seen
from rigcalc.models.machine.statics import plain
from rigcalc.models.rig.bare import BareRig, bare
from rigcalc.models.rig.field_reading import MADE_WITH, Reading
from rigcalc.models.rig.file import replaced
from rigcalc.models.rig.kept_setup import KEPT, setup_changes
from rigcalc.models.rig.resize import tool_changes
from rigcalc.models.rig.rig import Rig

MISFIT = 2.0  # our choice: so many of its own errors off, all else given way, a number doesn't go with the rest
FEWEST = 150  # our choice: draws' worth of weight under which an answer is rough
_GOLDEN = 0.6180339887498949


@dataclass(frozen=True, eq=False)
class Told:
    """What readings told of one field on one day.

    field, day: what is asked about; day is `ANOTHER_DAY` for one that wasn't read. seen: the readings that count. left_out:
    place among the rig's readings -> "set_aside", "other_field", "other_zone", "other_tool" or "other_ground". weighed: every
    combination with its weight.
    """

    field: str
    day: str
    seen: tuple[Seen, ...]
    left_out: dict[int, str]
    weighed: Posterior

    @property
    def size(self) -> int:
        """How many bytes it takes, with all that is worked out of it."""
        return self.weighed.size + 10 * int(self.weighed.weights.nbytes)

    @property
    def days(self) -> tuple[str, ...]:
        """The days that the readings that count are of, in order."""
        return tuple(sorted({each.day for each in self.seen}))

    @property
    def misfits(self) -> tuple[tuple[int, str], ...]:
        """The (place, kind) of numbers that don't go with the rest."""
        return tuple(number for number, left in self.weighed.misfit.items() if abs(left) > MISFIT)

    @property
    def thin(self) -> bool:
        """True where too few draws carry the weights for a sharp answer."""
        return self.weighed.effective < FEWEST

    @cached_property
    def combinations(self) -> Draws:
        """The draws of the day asked about, one for each weight."""
        return draws_of(self.weighed.scores, self.weighed.day(self.day), *self.weighed.ranges)

    @cached_property
    def last(self) -> Seen:
        """The last reading that counts: the one of the day asked about where there is one."""
        return max(self.seen, key=lambda each: (each.day == self.day, each.day, each.place))

    @cached_property
    def drafts(self) -> Any:
        """Draft in kN of each combination, at the depth and speed of the last reading."""
        return draft_force(self.last.rig, plain, self.combinations) + np.zeros(self.weighed.weights.size)

    @cached_property
    def likely(self) -> Draws:
        """One combination: the middle of each thing, its row such that draft is the middle one too."""
        weights = self.weighed.weights
        middle = {name: quantiles(values, weights, [0.5])[0] for name, values in vars(self.combinations).items()}
        draft = quantiles(self.drafts, weights, [0.5])[0]
        # Draft goes with the row by a straight line: what works beside the tool scatters with it by less.
        one, two = (Draws(**middle | {"row": row}) for row in (1.0, 2.0))
        at_one, at_two = (draft_force(self.last.rig, plain, each) for each in (one, two))
        return replace(one, row=float(1 + (draft - at_one) / (at_two - at_one)))

    def draws(self, count: int, seed: int) -> Draws:
        """Give `count` combinations, all equally likely: picked evenly along the way from least to most draft."""
        order, along = self._along
        places = (np.arange(count) + (0.5 + seed * _GOLDEN) % 1) / count
        picked = order[np.minimum(np.searchsorted(along, places), order.size - 1)]
        return Draws(**{name: values[picked] for name, values in vars(self.combinations).items()})

    @cached_property
    def _along(self) -> tuple[Any, Any]:
        order = np.argsort(self.drafts, kind="stable")
        return order, np.cumsum(self.weighed.weights[order])


def quantiles(values: Any, weights: Any, levels: Any) -> Any:
    """Give weighted quantiles: values between which the weights lie even. NaN counts as more than anything."""
    values = np.where(np.isnan(values), np.inf, values) + np.zeros(weights.shape)
    order = np.argsort(values)  # equal values may come in any order here
    along = np.cumsum(weights[order]) - weights[order] / 2
    ends = values[order]
    with np.errstate(invalid="ignore"):
        found = np.interp(levels, along, ends)
    return np.where(np.isfinite(found), found, np.inf)


def draft_factor_at(b: BareRig, level: float) -> float:
    """Give draft over the likely one that a share `level` of fields stays below."""
    if b.told is None:
        return factor_at(level, b.draft_range)
    told: Told = b.told
    draft = quantiles(told.drafts, told.weighed.weights, [level])[0]
    return float(draft / draft_force(told.last.rig, plain, told.likely))


def in_field(rig: Rig) -> BareRig:
    """Give a rig as bare numbers, with what its readings told of the field. Raises InputError for readings that can't be."""
    b = bare(rig)
    return b if not rig.reading or (told := told_of(rig)) is None else b.at(told=told)


_held: Held[Told] = Held(128 * 1024**2)


def told_of(rig: Rig) -> Told | None:
    """Give what a rig's readings told; None where none counts. What was weighed once is held."""
    parts = (rig.tractor, rig.implement, rig.ground, rig.gears, rig.fuel_test, rig.reading, rig.asked)
    return _held.of(parts, lambda: _told(rig))


def _told(rig: Rig) -> Told | None:
    if not rig.reading:
        return None
    asked, field = rig.asked, field_of(rig)
    seen, left_out = picked(rig, field)
    if not seen:
        return None
    day = asked.day if asked is not None and asked.day is not None else max(each.day for each in seen)
    weighed = posterior(seen, ranges_of(bare(rig)), extra_day=day)
    if weighed is None:
        raise InputError(_impossible(rig, seen), title="These readings can't be of this rig as it stands")
    return Told(field, day, tuple(seen), left_out, weighed)


def field_of(rig: Rig) -> str:
    """Give the field that is asked about: by its name, else that of the last reading that isn't set aside; empty for none."""
    if rig.asked is not None and rig.asked.name is not None:
        return rig.asked.name
    last = max(((reading.date, place) for place, reading in enumerate(rig.reading) if not reading.set_aside), default=None)
    return "" if last is None else rig.reading[last[1]].field


def picked(rig: Rig, field: str, zone: str = "") -> tuple[list[Seen], dict[int, str]]:
    """Give the readings that count for a field, and why each other one doesn't, by its place (see `Told.left_out`).

    zone: of the field; empty for all that is no zone of its own.
    """
    seen, left_out, b = [], {}, bare(rig)
    for place, reading in enumerate(rig.reading):
        tool = reading.made_with.tool if reading.made_with else None
        if reading.set_aside:
            left_out[place] = "set_aside"
        elif reading.field != field:
            left_out[place] = "other_field"
        elif reading.zone != zone:
            left_out[place] = "other_zone"
        elif tool is not None and tool != rig.implement.tool:
            left_out[place] = "other_tool"
        else:
            made = seen_of(rig, reading, place)
            if _row_of(made.rig) != _row_of(b):
                left_out[place] = "other_ground"
            else:
                seen.append(made)
    return seen, left_out


def left_out_of(rig: Rig, told: Told | None) -> dict[int, str]:
    """Give why each reading that doesn't count for the open field doesn't, by its place; also where none counts, and nothing is
    told."""  # fmt: skip
    return told.left_out if told is not None else picked(rig, field_of(rig))[1]


def ranges_of(b: BareRig) -> tuple[float, float]:
    """Give the ranges of draft and cone index that nobody has measured, as decimals."""
    return b.draft_range, number("cone_range")


def seen_of(rig: Rig, reading: Reading, place: int) -> Seen:
    """Put a reading beside the machine that made it. place: among the rig's readings."""
    try:
        made = made_with(rig, reading)
    except InputError as error:
        raise InputError([Fault(f"reading {place + 1}, made_with: {each.where}", each.got, each.expected, each.type_this)
                          for each in error.faults]) from None  # fmt: skip
    return Seen(
        place=place,
        day=reading.date,
        rig=made,
        spread=float(np.hypot(doubt("spot"), reading.depth_off)),
        numbers=reading.numbers,
        load_of=reading.load_of or "available",
    )


def made_with(rig: Rig, reading: Reading) -> BareRig:
    """Give the machine of a reading as bare numbers: the rig, changed back to what it was, at the reading's depth and speed."""
    changes: dict[str, Any] = {}
    if reading.made_with is not None:
        typed = reading.made_with.model_dump(exclude_none=True)
        if "tools" in typed and typed["tools"] != rig.implement.tools:
            changes |= tool_changes(rig, typed["tools"])
        changes |= {MADE_WITH[name]: value for name, value in typed.items()
                    if name in MADE_WITH and str(value) != str(_entry(rig, MADE_WITH[name]))}  # fmt: skip
        for section in KEPT:
            if section in typed:
                changes |= setup_changes(rig, section, typed[section])
    b = bare(replaced(rig, changes | {"reading": None, "asked": None})) if changes else bare(rig)
    turning = {}
    if reading.engine_speed is not None and rig.gears is not None and rig.gears.rated_speed is not None:
        turning = {"engine_speed_share": min(reading.engine_speed.to("rpm") / rig.gears.rated_speed.to("rpm"), 1.0)}
    return b.at(depth=reading.depth.to("cm"), speed=reading.speed.to("km/h"), **turning)


def _row_of(b: BareRig) -> tuple[float, float]:
    """Give what the soil makes of the draft row: readings of two soils tell of two rows."""
    return b.soil_factor, b.soil_factor_other


def _entry(rig: Rig, path: str) -> Any:
    part, name = path.split(".")
    return getattr(getattr(rig, part), name)


def _impossible(rig: Rig, seen: list[Seen]) -> list[Fault]:
    """Name the readings that no field in the range can give; all of them where they can't be together."""
    ranges = ranges_of(bare(rig))
    alone = []
    for each in seen:
        if posterior([each], ranges, count=2048) is None:
            reading = rig.reading[each.place]
            alone.append(Fault(f"reading {each.place + 1} ({each.day})", f"{reading.depth} deep at {reading.speed}",
                               "a pull that the grip of this rig can give in some field like this",
                               'its entries again, or set_aside = "why" in it'))  # fmt: skip
    together = Fault("readings", f"{len(seen)} that no one field gives together", "readings of one field",
                     'set_aside = "why" in the one that is wrong')  # fmt: skip
    return alone or [together]
