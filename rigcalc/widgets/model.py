"""The model behind an app: what was typed, the unit system, results, what is wrong, undo. No widget is imported.

A subclass gives `defaults` and `compute`. Everything that runs because somebody moved a control is wrapped: an error
becomes a fault in words, never a traceback and never silence.
"""

from __future__ import annotations

import logging
import os
from collections import deque
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from functools import wraps
from typing import Any, ClassVar
from urllib.parse import parse_qsl, urlencode

from traitlets import Any as AnyTrait
from traitlets import Dict, Enum, HasTraits, Int, Tuple, default

from rigcalc.core.errors import Fault, InputError, RigcalcError, shown
from rigcalc.words.numbers import System

log = logging.getLogger(__name__)
# A page never shows a traceback, and in a kernel stderr is the page. RIGCALC_LOG names a file for whoever mends the fault.
log.addHandler(logging.FileHandler(os.environ["RIGCALC_LOG"]) if os.environ.get("RIGCALC_LOG") else logging.NullHandler())
log.propagate = False

LONGEST_TEXT = 2000  # letters in one entry
LONGEST_LINK = 20_000  # letters in one link
MOST_ENTRIES = 500  # in one link
LONGEST_FILE = 200_000  # letters in one file


def faults_of(error: BaseException, where: str) -> tuple[Fault, ...]:
    """Turn an exception into faults in plain words. The traceback goes to the file that RIGCALC_LOG names."""
    if isinstance(error, InputError):
        return error.faults
    if isinstance(error, RigcalcError):
        return (Fault(where, "what stands above", str(error)),)
    log.error("fault in %s", where, exc_info=error)
    name = type(error).__name__
    return (
        Fault(
            where,
            f"an error inside the program ({name}: {shown(str(error), 200)})",
            "none; the entry may be right and the program wrong",
            "undo, or another value, and report these words",
        ),
    )


class AppModel(HasTraits):
    """State of one app. `inputs` maps a path such as `work.depth` to what was typed; views watch `revision`."""

    inputs = Dict()
    system: System = Enum(["us", "si"], default_value="us")  # type: ignore[assignment]
    results = AnyTrait(allow_none=True, default_value=None)
    faults = Tuple()
    revision = Int(0)  # goes up once for every change set, after results and faults are in place
    computed = Int(0)  # counts the runs of `compute`

    defaults: ClassVar[Mapping[str, str]] = {}
    short_names: ClassVar[Mapping[str, str]] = {}  # name in a link -> path
    speaks: ClassVar[bool] = False  # whether the results hold words, and so change with the unit system

    def __init__(self, **traits: Any):
        super().__init__(**traits)
        self.typed_in: dict[str, System] = {}  # path -> unit system that was on when it was typed
        self._past: deque[tuple[dict[str, str], System, dict[str, System]]] = deque(maxlen=100)
        self._moved_live: tuple[str, ...] = ()
        self._computed_from: tuple[dict[str, str], str] | None = None
        self._compute_faults: tuple[Fault, ...] = ()
        self._watchers: list[tuple[str, Callable[[], None]]] = []
        self.send_gathered: Callable[[list[Any]], None] | None = None  # set by the page that can send it
        self.gathered: list[Any] | None = None
        self.last: Any = None  # the last results that there were, for what goes on being shown beside a fault
        self.dressed = False  # whether a page brings the look for all that shows this model
        self.recompute()

    @default("inputs")
    def _start_inputs(self) -> dict[str, str]:
        return dict(self.defaults)

    # what a subclass gives

    def compute(self, inputs: Mapping[str, str]) -> Any:
        """Give the results of `inputs`, or raise InputError with every fault. Must not change the model.

        Results that have `faults` of their own say what is wrong with one part while the rest stands.
        """
        raise NotImplementedError

    def hides(self, path: str) -> bool:
        """Say whether a field has no meaning as things stand, such as the tyres of an axle on tracks."""
        return False

    def taken(self, path: str) -> dict[str, str]:
        """Give what stands for an entry that was left out: its value as `taken`, the reason as `rule`."""
        return {}

    def named(self) -> str:
        """Give the name of what the page is about, for its title and its files; empty where it has none."""
        return ""

    def to_toml(self) -> str:
        """Give the state as a file that `from_toml` reads."""
        import tomlkit

        return tomlkit.dumps(dict(self.inputs))

    def inputs_from_toml(self, text: str) -> dict[str, str]:
        """Read a file's text into inputs, or raise InputError."""
        import tomllib

        try:
            found = tomllib.loads(text)
        except tomllib.TOMLDecodeError as error:
            raise InputError([Fault("file", "text that isn't TOML", f"lines such as depth = '14 in' ({error})")]) from None
        wrong = [path for path, value in found.items() if path not in self.defaults or not isinstance(value, str)]
        if wrong:
            known = ", ".join(self.defaults)
            raise InputError([Fault("file", shown(path), "a name that this app knows", known) for path in wrong[:10]])
        return {**self.defaults, **found}

    # changing it

    def edit(self, changes: Mapping[str, str], live: bool = False) -> None:
        """Take one change set and recompute once. `live` joins the steps of one slider drag into one undo step."""
        moved = tuple(changes)
        joined = live and moved == self._moved_live
        self._moved_live = moved if live else ()
        clean = {path: self._clean(path, text) for path, text in changes.items()}
        if all(self.inputs.get(path) == text for path, text in clean.items()):
            return
        if not joined:
            self._remember()
        self.typed_in.update(dict.fromkeys(clean, self.system))
        self.inputs = {**self.inputs, **clean}
        self.recompute()

    def replace_all(self, inputs: Mapping[str, str], system: System | None = None, undoable: bool = True) -> None:
        """Take a whole new state, as from a file or a link. Undo brings the old one back, where it is `undoable`."""
        if undoable:
            self._remember()
        else:
            self._past.clear()
        self._moved_live = ()
        self.typed_in = {}
        self.inputs = {path: self._clean(path, text) for path, text in inputs.items()}
        if system is not None:
            self.system = system
        self.recompute()

    def switch_units(self, system: System) -> None:
        """Show everything in the other unit system. What was typed stays as it was typed."""
        if system not in ("us", "si"):  # it comes from a page
            raise InputError([Fault("units", shown(system), "us or si", "us")])
        if system != self.system:
            self.system = system
            self.recompute()

    def can_undo(self) -> bool:
        """Say whether there is a step to take back."""
        return bool(self._past)

    def undo(self) -> None:
        """Take the last change back; without one, do nothing."""
        if self._past:
            self._moved_live = ()
            self.inputs, self.system, self.typed_in = self._past.pop()
            self.recompute()

    def recompute(self) -> None:
        """Compute anew if the inputs differ from those last computed, then tell every watcher once."""
        with self.together():
            self._recompute()

    def _recompute(self) -> None:
        wanted = (dict(self.inputs), self.system if self.speaks else "")
        if self._computed_from != wanted:
            self._computed_from = wanted
            self.computed += 1
            try:
                results = self.compute(self.inputs)
                faults = getattr(results, "faults", ())
            except Exception as error:
                results, faults = None, faults_of(error, "this page")
            self.results, self._compute_faults = results, tuple(faults)
            self.last = results if results is not None else self.last
        self.faults = self._compute_faults
        self.revision += 1
        for where, watcher in self._watchers:
            try:
                watcher()
            except Exception as error:
                self.faults = (*self.faults, *faults_of(error, where))

    # watching it

    @contextmanager
    def together(self) -> Iterator[None]:
        """Gather what the views have to send while the block runs, and send it as one."""
        if self.send_gathered is None or self.gathered is not None:
            yield
            return
        self.gathered = []
        try:
            yield
        finally:
            found, self.gathered = self.gathered, None
            if found:
                self.send_gathered(found)

    def watch(self, watcher: Callable[[], None], where: str, now: bool = True) -> None:
        """Call `watcher` after every change set; the one that shows the faults must be watched last."""
        self._watchers.append((where, watcher))
        if now:
            self.guarded(watcher, where)()

    def unwatch(self, watcher: Callable[[], None]) -> None:
        """Call `watcher` no more."""
        self._watchers = [pair for pair in self._watchers if pair[1] != watcher]

    def guarded(self, function: Callable[..., Any], where: str) -> Callable[..., Any]:
        """Wrap a callback so that an exception becomes a fault on the page."""

        @wraps(function)
        def wrapped(*args: Any, **kwargs: Any) -> Any:
            try:
                return function(*args, **kwargs)
            except Exception as error:
                self.complain(faults_of(error, where))
                return None

        return wrapped

    def complain(self, faults: tuple[Fault, ...]) -> None:
        """Show faults that don't come from the inputs; they stay until the next change."""
        kept = tuple(fault for fault in faults if fault not in self.faults)
        self.faults = (*self.faults, *kept)
        self.revision += 1

    def forget_complaints(self) -> None:
        """Take away the faults that don't come from the inputs, such as those of a file that couldn't be used."""
        self.faults = self._compute_faults

    # links

    def to_query(self) -> str:
        """Give the state as the query of a link: what differs from the defaults, short names where there are some."""
        names = {path: name for name, path in self.short_names.items()}
        base = self.base()
        pairs = [(names.get(path, path), text) for path, text in self.inputs.items() if text != base.get(path)]
        if self.system != "us":
            pairs.append(("units", self.system))
        return urlencode(pairs)

    def base(self) -> Mapping[str, str]:
        """Give the inputs that a link is measured against."""
        return self.defaults

    def start_from_query(self, query: str) -> None:
        """Take a link's query. Names that this app doesn't know are said, not dropped in silence."""
        query = query.removeprefix("?")
        if len(query) > LONGEST_LINK:
            raise InputError([Fault("link", f"{len(query)} letters", f"at most {LONGEST_LINK}")])
        if query.count("&") >= MOST_ENTRIES:
            raise InputError([Fault("link", f"{query.count('&') + 1} entries", f"at most {MOST_ENTRIES}")])
        pairs = dict(parse_qsl(query, keep_blank_values=True))
        system = pairs.pop("units", None)
        known = {self.short_names.get(name, name): text for name, text in pairs.items() if name not in ("token", "voila")}
        inputs = self.inputs_from_link(known)
        unknown = [name for name in known if name not in inputs]
        asked: System | None = "us" if system == "us" else "si" if system == "si" else None
        self.replace_all(inputs, asked, undoable=False)
        if unknown or system not in (None, "us", "si"):
            odd = [
                Fault("link", shown(name), "a name that this page knows", ", ".join(self.short_names)) for name in unknown[:5]
            ]
            if system not in (None, "us", "si"):
                odd.append(Fault("link, units", shown(system), "us or si", "units=us"))
            self.complain(tuple(odd))

    def inputs_from_link(self, known: Mapping[str, str]) -> dict[str, str]:
        """Give the inputs that a link asks for; names that are not among them are reported by the caller."""
        return {**self.defaults, **{path: text for path, text in known.items() if path in self.defaults}}

    # files

    def start_from_toml(self, text: str) -> None:
        """Take a file's text; a file that can't be used leaves everything as it was and says why."""
        if len(text) > LONGEST_FILE:
            raise InputError([Fault("file", f"{len(text):,} letters", f"a rig file of at most {LONGEST_FILE:,}")])
        self.replace_all(self.inputs_from_toml(text))

    # helpers

    def _remember(self) -> None:
        self._past.append((dict(self.inputs), self.system, dict(self.typed_in)))

    @staticmethod
    def _clean(path: str, text: object) -> str:
        if not isinstance(text, str):
            raise InputError([Fault(path, shown(text), "text")])
        if len(text) > LONGEST_TEXT:
            raise InputError([Fault(path, f"{len(text):,} letters", f"at most {LONGEST_TEXT:,}")])
        return text.encode("utf-8", "replace").decode()  # half an emoji can't be written to a file
