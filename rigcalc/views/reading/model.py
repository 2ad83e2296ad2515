"""The model of the page "What the field said": a rig with its readings, a reading being typed, and what they tell."""

from __future__ import annotations

import datetime
import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models import Answer, Rig, size
from rigcalc.models.machine.field import Told
from rigcalc.models.reading import foretold, next_reading, record, tells
from rigcalc.models.reading.adding import made_now, with_reading
from rigcalc.models.reading.next_reading import Next
from rigcalc.models.reading.record import Record
from rigcalc.models.reading.tells import Telling, told_so
from rigcalc.models.reading.zones import Zone, zones
from rigcalc.models.rig.beside import reading_from
from rigcalc.models.rig.field_reading import Reading
from rigcalc.models.rig.file import rig_from
from rigcalc.views.reading.fields import BOX, COLUMNS, PASSES, STAYS
from rigcalc.views.rig.model import RigModel, nested
from rigcalc.words.numbers import System
from rigcalc.words.reading.boxes import box_faults
from rigcalc.words.reading.listed import added_text, said_entry
from rigcalc.words.reading.told import headline_of
from rigcalc.words.size import SizeWords

_WHOLE = "depth_behind"
_ERRORS_OF = {"slip_error": ("slip", "wheel_speed", "turns_loaded"), "load_error": ("load",), "fuel_error": ("fuel_rate",),
              "pull_error": ("pull",)}  # fmt: skip
_OF_A_LOG_TOO = ("date", "field", "depth", "depth_behind", "depth_error")  # boxes that hold for a stretch of a log as well
_MOST_WHY = 200  # letters of a reason


@dataclass(frozen=True, eq=False)
class Weighed:
    """A rig with its readings, and what follows. What takes long is worked out when somebody wants to see it, once.

    answer: None where the readings can't be of this rig; `faults` says why then.
    """

    rig: Rig
    answer: Answer | None
    faults: tuple[Fault, ...] = ()

    @property
    def told(self) -> Told | None:
        """What the readings told; None where none counts."""
        return self.answer.bare_rig.told if self.answer is not None else None

    @cached_property
    def telling(self) -> Telling | None:
        """Which number told what."""
        return tells(self.rig) if self.told is not None else None

    @cached_property
    def next(self) -> Next:
        """What to read next."""
        return next_reading(self.rig)

    @cached_property
    def zones(self) -> tuple[Zone, ...]:
        """How the job goes on the headland and on cart lanes."""
        return zones(self.rig)

    @cached_property
    def record(self) -> Record:
        """How often what was said came true."""
        return record(self.rig)


@dataclass(frozen=True, eq=False)
class Found:
    """The same in one system of units."""

    weighed: Weighed
    units: System
    faults: tuple[Fault, ...] = field(default=())

    @cached_property
    def words(self) -> SizeWords | None:
        """The answer in words, None where there is none."""
        return SizeWords(self.weighed.answer, self.units) if self.weighed.answer is not None else None

    @cached_property
    def headline(self) -> str:
        """What the readings came to, in a sentence; empty where none counts."""
        told = self.weighed.told
        return headline_of(told, told_so(told)) if told is not None else ""


class FieldModel(RigModel):
    """`results` is a Found. What stands in the boxes is no part of the rig until it is added."""

    results: Found | None
    _weighed: Weighed | None = None
    refused: tuple[Fault, ...] = ()  # why the reading in the boxes wasn't added
    added = ""  # what was said of the last reading that was added, until something else changes

    def compute(self, inputs: Mapping[str, str]) -> Found:
        """Give what the readings tell. Raises InputError for an entry of the rig that can't be used."""
        rig = rig_from(nested(inputs))
        if self._weighed is None or self._weighed.rig != rig:  # typing into a box costs nothing
            self._weighed = _weighed(rig)
        faults = list(self._weighed.faults)
        if any(self.is_own(fault.where) for fault in self.refused):
            try:
                self._made(rig, self._typed())
                self.refused = ()
            except InputError as error:
                self.refused = error.faults
                faults += error.faults
        return Found(self._weighed, self.system, tuple(faults))

    def rig_shown(self) -> Rig | None:
        """Give the rig that the page is about."""
        return self.results.weighed.rig if self.results is not None else None

    def is_own(self, path: str) -> bool:
        """Say whether an entry is of the reading that is being typed."""
        return path.startswith(BOX)

    def may_be(self, path: str) -> bool:
        """Take what was typed into the boxes from a link too."""
        return super().may_be(path) or path in {BOX + name for name in (*STAYS, *PASSES, COLUMNS)}

    def edit(self, changes: Mapping[str, str], live: bool = False) -> None:
        """Take one change set; what was said of the last reading goes."""
        self._forget()
        super().edit(changes, live)

    def undo(self) -> None:
        """Take the last change back; what was said of a reading that is gone goes too."""
        self._forget()
        super().undo()

    def _forget(self) -> None:
        """Say no more of what came of the button; what is wrong with a box stays until it is mended."""
        self.added = ""
        self.refused = tuple(fault for fault in self.refused if self.is_own(fault.where))

    # readings

    def add(self) -> None:
        """Add what stands in the boxes, with what was said of it before. What is wrong with it then stands in `refused`, and at
        its box until it is mended."""  # fmt: skip
        self.added = ""
        try:
            self._add(self._typed(), PASSES)
        except InputError as error:
            self.refused = error.faults
            self._computed_from = None  # the boxes are looked at from now on
            self.recompute()

    def add_read(self, entries: Mapping[str, str]) -> None:
        """Add what a log read: its day and its depth are those of the boxes, where something is typed there.

        The boxes stay as they are. Raises InputError that names every fault at its box, and adds nothing then.
        """
        self.added = ""
        typed = {name: text for name, text in self._typed().items() if name in _OF_A_LOG_TOO}
        self._add({**{name: text for name, text in entries.items() if text}, **typed}, ())

    def _add(self, data: Mapping[str, Any], emptied: tuple[str, ...]) -> None:
        """Add a reading with what was said of it before, and empty these boxes. Raises InputError."""
        rig = self.rig_shown()
        if rig is None:
            raise InputError(self.faults)
        made = self._made(rig, data)
        said = foretold(rig, made)
        made = made.model_copy(update={f"said_{kind}": said_entry(kind, span) for kind, span in said.items()})
        together = with_reading(rig, made)
        self.refused, self.added = (), added_text(made, len(together.reading), said, self.system)
        super().edit({"reading": _text(together.reading), **{BOX + name: "" for name in emptied}})

    def _made(self, rig: Rig, data: Mapping[str, Any]) -> Reading:
        """Make a reading of entries. Raises InputError that names every fault at its box."""
        try:
            return reading_from({**data, "made_with": made_now(rig)})
        except InputError as error:
            raise InputError(box_faults(error.faults, data, self.system, BOX)) from None

    def set_aside(self, place: int, why: str) -> None:
        """Set a reading aside, or count it again where `why` is empty. Raises InputError for a place where none is."""
        readings = self._readings(place)
        if len(why) > _MOST_WHY:
            raise InputError([Fault("why", f"{len(why)} letters", f"at most {_MOST_WHY}", "a shorter reason")])
        readings[place] = readings[place].model_copy(update={"set_aside": why.strip()})
        self.edit({"reading": _text(readings)})

    def today(self) -> None:
        """Put today into the box of the day, because somebody said so."""
        self.edit({f"{BOX}date": datetime.date.today().isoformat()})

    def _readings(self, place: int) -> list[Reading]:
        rig = self.rig_shown()
        readings = list(rig.reading) if rig is not None else []
        if not 0 <= place < len(readings):
            raise InputError([Fault("reading", shown(place + 1), "a reading of the list")])
        return readings

    def _typed(self) -> dict[str, Any]:
        data: dict[str, Any] = {}
        for name in (*STAYS, *PASSES):
            text = self.inputs.get(BOX + name, "").strip()
            if text:
                data[name] = int(text) if name == _WHOLE and text.isascii() and text.isdigit() and len(text) < 4 else text
        if "load" not in data:
            data.pop("load_of", None)  # the choice stays for the next reading
        for error, numbers in _ERRORS_OF.items():
            if not any(name in data for name in numbers):
                data.pop(error, None)  # so does what a number may be off that wasn't read
        return data


def _weighed(rig: Rig) -> Weighed:
    try:
        return Weighed(rig, size(rig))
    except InputError as error:  # readings that can't be: they must stay in sight to be set aside
        if not rig.reading:
            raise
        return Weighed(rig, None, error.faults)


def _text(readings: Any) -> str:
    """Give readings as the page keeps them: short, for they stand in its address."""
    data = [{name: value for name, value in each.model_dump(mode="json", exclude_none=True).items() if value != ""}
            for each in readings]  # fmt: skip
    return json.dumps(data, ensure_ascii=False, separators=(",", ":")) if data else ""
