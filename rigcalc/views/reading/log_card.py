"""A log of the tractor picked on the page: its steady stretches as readings, how its time went, pictures of it."""

from __future__ import annotations

import asyncio
import base64
from collections.abc import Callable, Mapping
from functools import partial
from typing import Any

from markupsafe import Markup

from rigcalc.core.errors import Fault, InputError
from rigcalc.models.reading.any_log import engine_speed_used, stretch_entries
from rigcalc.models.reading.log import Column, Stretch, entries
from rigcalc.views.reading import log_reader
from rigcalc.views.reading.fields import BOX, COLUMNS
from rigcalc.views.reading.log_reader import PickedFile, TakenApart
from rigcalc.views.reading.parts import ReadingCard
from rigcalc.widgets.html import fault_list
from rigcalc.widgets.model import faults_of
from rigcalc.widgets.templates import render
from rigcalc.words.reading import log as log_words
from rigcalc.words.reading import page_log as words
from rigcalc.words.spelling import fault_spelt

_PIECE = 1_000_000  # bytes asked for at a time
_KEPT = BOX + COLUMNS
_MOST = 8  # stretches that are listed
_BOXES = {"depth": "Depth dug", "date": "Day", "depth_behind": "Dug behind how many", "field": "Field"}


class _StoppedError(Exception):
    """Somebody pressed Stop while a log was read."""


class ReadingLog(ReadingCard):
    """A log picked on the page: fetched and read with a bar and a stop; its steady stretches become readings."""

    title, dress = "From a log", "rig-log"
    _file: PickedFile | None = None
    _kind = ""
    _heads: tuple[str, ...] = ()  # of a table
    _tasks: tuple[tuple[str, str], ...] = ()  # of task data: identifier and name
    _task, _load_of = "", ""
    _asking, _stop = False, False
    _share: float | None = None  # of reading
    _taken: TakenApart | None = None
    _taken_by: Mapping[str, str] | None = None  # the rig's entries when it was read
    _name, _said = "", ""
    _wrong: tuple[Fault, ...] = ()
    reading: asyncio.Task[None] | None = None  # where there is a loop, a log is read beside it

    def __init__(self, source: Any = None, **traits: Any):
        self._chosen: dict[str, tuple[str, str]] = {}
        super().__init__(source, **traits)

    # what is shown

    def text(self) -> str:
        """Give what may be chosen, how far it is, what is asked, and what came of it."""
        busy = self._file is not None and not self._asking
        done = 0.0 if self._file is None else self._file.share if self._share is None else self._share
        return str(render(
            __file__, "log.html.j2", wrong=Markup(self._what_is_wrong()),  # noqa: S704 (its maker escapes)
            about=words.what_to_choose(log_reader.reads_the_bus(), log_reader.MOST_BYTES),
            accept=",".join(log_reader.endings()), busy=busy, share=round(100 * done), title=self._name,
            doing="Fetching" if self._share is None else "Reading", asking=self._asking, heads=self._heads,
            asked=[(name, title, *self._chosen.get(name, ("", usual))) for name, (title, usual) in words.ASKED.items()],
            ask=words.ABOUT, load_ofs=words.LOAD_OF, load_of=self._load_of, tasks=self._tasks, task=self._task, said=self._said,
            is_table=self._kind == "csv",
            **self._results(),
        ))  # fmt: skip

    def _what_is_wrong(self) -> str:
        wrong = [fault_spelt(fault, self.model.system) for fault in words.log_faults(self._wrong)]
        named = [Fault(_BOXES.get(fault.where.removeprefix(BOX), fault.where), fault.got, fault.expected, fault.type_this)
                 for fault in wrong]  # fmt: skip
        paths = [fault.where if fault.where.startswith(BOX) else "" for fault in wrong]
        return fault_list(named, "Not taken", paths)

    def _results(self) -> dict[str, Any]:
        taken, units = self._taken, self.model.system
        if taken is None:
            return {"lines": [], "stretches": [], "pictures": [], "note": ""}
        lines = [*(log_words.log_lines(taken.log.task) if taken.log.task is not None else ()),
                 *log_words.spent_lines(taken.found)]  # fmt: skip
        stretches = [(key, title, log_words.stretch_text(stretch, units)) for key, title, stretch in self._stretches()]
        same = self._taken_by == self._rig_entries()
        drawn = [(title, base64.b64encode(svg.encode()).decode()) for title, svg in taken.pictures[units]] if same else []
        rig, first = self.model.rig_shown(), next((stretch for _, _, stretch in self._stretches()), None)
        unused = ("engine_speed" in taken.log.columns and rig is not None and first is not None
                  and not engine_speed_used(rig, entries(first, taken.log.load_of)))  # fmt: skip
        notes = [words.NO_STRETCH if not stretches else "", "" if same else words.OTHER_RIG,
                 log_words.ENGINE_SPEED_UNUSED if unused else ""]  # fmt: skip
        return {"lines": lines, "stretches": stretches, "pictures": drawn, "note": " ".join(filter(None, notes))}

    def _stretches(self) -> list[tuple[str, str, Stretch]]:
        """Give (key, title, stretch) of each that is listed; of the headland the longest."""
        found = self._taken.found if self._taken is not None else None
        if found is None:
            return []
        open_field = [(str(at), f"stretch {at}", each) for at, each in enumerate(found.stretches[:_MOST], 1)]
        return open_field + [("headland", "headland", each) for each in found.headland[:1]]

    def _rig_entries(self) -> dict[str, str]:
        return {path: text for path, text in self.model.to_carry().items() if path != "reading"}

    # what its buttons do

    def what_it_does(self) -> Mapping[str, Callable[[Any], None]]:
        """Give what its buttons, choices and boxes do."""
        acts: dict[str, Callable[[Any], None]] = {}
        acts |= {"pick": self.pick, "stop": self.stop, "read": self.read, "add": self.add_stretch, "again": self.ask_again}
        acts |= {"task": partial(self._set, "_task"), "load_of": partial(self._set, "_load_of")}
        for name in words.ASKED:
            acts |= {f"column {name}": partial(self._choose, name, 0), f"unit {name}": partial(self._choose, name, 1)}
        return {name: self._own(act) for name, act in acts.items()}

    def _own(self, act: Callable[[Any], None]) -> Callable[[Any], None]:
        """What goes wrong is said on this card and stays until something else is done."""

        def doing(value: Any) -> None:
            self._wrong = ()
            try:
                act(value)
            except Exception as error:
                self._fail(error)
            self.refresh()

        return doing

    def _fail(self, error: Exception) -> None:
        self._wrong = faults_of(error, "the log")

    def pick(self, value: Any) -> None:
        """Begin to take a file: a mapping with `name` and `size`. Its pieces are asked for one by one."""
        self._drop()
        self._file = log_reader.picked(value)
        self._name, self._taken = self._file.name, None
        self._fetch()

    def _fetch(self) -> None:
        file = self._file
        assert file is not None
        self.fetch("pick", file.got, min(file.got + _PIECE, file.size))

    def take_piece(self, act: str, start: int, data: bytes | None) -> None:
        """Take the piece that was asked for last; another is none of ours any more."""
        file = self._file
        if act != "pick" or file is None or start != file.got or file.got == file.size:
            return
        try:
            file.add((data or b"")[:_PIECE])
            if file.got < file.size:
                self._fetch()
            else:
                self._look()
        except Exception as error:
            self._drop()
            self._fail(error)
        self.refresh()

    def _look(self) -> None:
        """See what has come, and ask what has to be asked before it is read."""
        assert self._file is not None
        self._kind, self._heads, self._tasks = log_reader.asked_of(self._file)
        self._task = self._tasks[0][0] if self._tasks else ""
        if self._kind == "csv":
            kept, load_of = log_reader.kept_choice(self.model.inputs.get(_KEPT, ""))
            knows = _serves(self._heads, kept, load_of)
            self._chosen, self._load_of = (kept, load_of) if knows else (words.proposed(self._heads), "")
            self._asking = not knows
        else:
            self._asking = len(self._tasks) > 1
        if not self._asking:
            self.read()

    def ask_again(self, _value: Any = "") -> None:
        """Forget which column is which: the next log is asked for."""
        self.model.edit({_KEPT: ""})
        self._drop()
        self._taken, self._name = None, ""

    def stop(self, _value: Any = "") -> None:
        """Fetch or read no further, and put the file away."""
        self._stop = True
        if self.reading is None:
            self._drop()

    def read(self, _value: Any = "") -> None:
        """Read the file with what was chosen. Raises InputError with every fault; the file stays then."""
        file, rig = self._file, self.model.rig_shown()
        if file is None or file.got < file.size or self.reading is not None:
            return
        if rig is None:
            raise InputError(self.model.faults)
        columns: dict[str, Column] = {}
        if self._kind == "csv":
            columns = log_reader.named_columns(self._heads, self._chosen, self._load_of)
            self.model.edit({_KEPT: log_reader.kept_text(columns, self._load_of)})
        self._asking, self._stop, self._share = False, False, 0.0
        self._taken_by = self._rig_entries()
        work = partial(log_reader.taken_apart, file, self._kind, rig, columns, self._load_of, self._task or None, self._hear)
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:  # a test or a script, in which nobody can press a button meanwhile
            self._finish(work)
            return
        self.reading = loop.create_task(self._beside(work))

    def _hear(self, share: float) -> None:
        self._share = share
        if self._stop:
            raise _StoppedError

    async def _beside(self, work: Callable[[], TakenApart]) -> None:
        """Read in a thread, so that the page goes on and Stop is heard."""
        job = asyncio.create_task(asyncio.to_thread(work))
        while not job.done():
            await asyncio.wait([job], timeout=0.3)
            self.refresh()
        self.reading = None
        self._finish(job.result)
        self.refresh()

    def _finish(self, result: Callable[[], TakenApart]) -> None:
        try:
            self._taken = result()
        except _StoppedError:
            self._name = ""
        except Exception as error:
            self._fail(error)
        self._drop()

    def add_stretch(self, key: Any) -> None:
        """Add a stretch as a reading, at the depth of its box. Raises InputError that names every fault at its box."""
        self._said, rig = "", self.model.rig_shown()
        found = next(((title, stretch) for own, title, stretch in self._stretches() if own == key), None)
        if found is None or self._taken is None or rig is None:
            raise InputError([Fault("the log", "nothing to add", "a stretch of the list")])
        title, stretch = found
        zone = "headland" if key == "headland" else ""
        self.model.add_read(stretch_entries(rig, self._taken.log, stretch, f"log {self._name}, {title}", zone))
        self._said = self.model.added

    def _choose(self, name: str, part: int, text: Any) -> None:
        """Take a column or a unit for a quantity; a new column brings the unit that its heading says."""
        pair = list(self._chosen.get(name, ("", words.ASKED[name][1])))
        pair[part] = str(text)[:200]
        if part == 0 and pair[0]:
            pair[1] = words.unit_of(name, pair[0])
        self._chosen = {**self._chosen, name: (pair[0], pair[1])}

    def _set(self, name: str, text: Any) -> None:
        setattr(self, name, str(text)[:200])

    def _drop(self) -> None:
        """Put the file away."""
        if self._file is not None:
            self._file.close()
        self._file, self._asking, self._share, self._said = None, False, None, ""
        self._stop = self.reading is not None

    def close(self) -> None:
        """Take the card away, and the file with it."""
        self._stop = True
        if self.reading is None:
            self._drop()
        super().close()


def _serves(heads: tuple[str, ...], kept: Mapping[str, tuple[str, str]], load_of: str) -> bool:
    """Say whether columns that were kept are those of this log too."""
    try:
        return bool(log_reader.named_columns(heads, kept, load_of))
    except InputError:
        return False
