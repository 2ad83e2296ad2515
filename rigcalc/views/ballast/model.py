"""The ballast page's model: a rig with its weights, the job to plan for, a slip test; and what rigcalc says about them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, ClassVar

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.units import plain_number
from rigcalc.models.ballast.answer import BallastAnswer, ballast
from rigcalc.models.ballast.plan import BallastSet
from rigcalc.models.ballast.slip_test import SlipTest, Verdict, from_distance, from_screen, from_speeds, from_turns, verdict
from rigcalc.models.rig.file import rig_text
from rigcalc.models.rig.measure import Kind, Measure
from rigcalc.models.rig.parts import BRINE
from rigcalc.models.rig.rig import Rig
from rigcalc.views.ballast.rig_inputs import NEW_PIECE, OWN, PARTS, places, rig_of, spread
from rigcalc.views.rig.model import RigModel, flat
from rigcalc.widgets.entries import tidy
from rigcalc.words.numbers import System, to_shown

MOST_PIECES = 12  # kinds of weight that the page has room for
OWN_STARTS = {"plan.job": "full", "slip.way": "turns", "slip.off": "0.25"}
# What each way of testing needs: field -> what the model calls it when it is wrong.
WAYS = {
    "turns": {"slip.loaded": "turns under load", "slip.unloaded": "turns without load"},
    "distance": {"slip.turns": "turns", "slip.per_turn": "distance for one turn", "slip.distance": "distance"},
    "speeds": {"slip.ground": "ground speed", "slip.wheel": "wheel speed"},
    "screen": {"slip.shown": "slip"},
}


@dataclass(frozen=True)
class Found:
    """The answer on ballast, the slip test where there is one, and what is wrong with the test."""

    ballast: BallastAnswer
    test: SlipTest | None
    verdict: Verdict | None
    faults: tuple[Fault, ...]


class BallastModel(RigModel):
    """`results` is a Found. Faults of the slip test leave the plan standing."""

    defaults: ClassVar = {**spread(RigModel.defaults), **OWN_STARTS}
    short_names: ClassVar = {**RigModel.short_names, "job": "plan.job"}
    results: Found | None

    def compute(self, inputs: Mapping[str, str]) -> Found:
        """Give the answer, or raise InputError with every fault."""
        rig = rig_of(inputs)
        answer = ballast(rig, inputs.get("plan.job", "full"), units=self.system)
        try:
            test = slip_test_of(inputs)
            return Found(answer, test, verdict(test, rig) if test else None, ())
        except InputError as error:
            return Found(answer, None, None, error.faults)

    def hides(self, path: str) -> bool:
        """Hide the readings of the other ways of testing, and a dose where nothing is dissolved."""
        way = self.inputs.get("slip.way", "turns")
        if path.startswith("slip.") and path not in ("slip.way", "slip.off"):
            return path not in WAYS.get(way, {})
        if path == "slip.off":
            return way in ("speeds", "screen")
        if path.endswith(".dose"):
            return self.inputs.get(path.replace(".dose", ".liquid")) != BRINE
        if path.startswith("table."):
            path = f"tractor.{path.removeprefix('table.')}.tyre"
        return super().hides(path)

    def edit(self, changes: Mapping[str, str], live: bool = False) -> None:
        """Take one change set; a brine brings its dose, and any other liquid takes it away."""
        more = {}
        for path, text in changes.items():
            if path.endswith(".tyre.liquid"):
                dose = path.replace(".liquid", ".dose")
                more[dose] = self.inputs.get(dose) or "3.5 lb/gal" if text == BRINE else ""
                if not text:
                    more[path.replace(".liquid", ".fill")] = ""
        super().edit({**changes, **more}, live)

    def rig_shown(self) -> Rig | None:
        """Give the rig that the answer is about."""
        return self.results.ballast.rig if self.results is not None else None

    def to_carry(self) -> dict[str, str]:
        """Give the rig with its weights and tables as a rig file has them. Raises InputError while an entry can't be used."""
        shared = {path: text for path, text in self.inputs.items() if path == "rig" or path.startswith("sheet.")}
        return {**shared, **flat(rig_of(self.inputs))}

    def is_own(self, path: str) -> bool:
        """Say whether an entry belongs to this page alone: the job to plan for, the slip test."""
        return path.startswith(("plan.", "slip."))

    # the weights at hand

    def add_piece(self) -> None:
        """Add a kind of weight, to be filled in. Raises InputError where there is no room."""
        taken = places(self.inputs)
        if len(taken) >= MOST_PIECES:
            raise InputError([Fault("weights", f"{len(taken)} kinds", f"at most {MOST_PIECES} on this page", "a rig file")])
        place = max(taken, default=-1) + 1
        names = {self.inputs.get(f"ballast.{each}.name") for each in taken}
        number = next(n for n in range(1, MOST_PIECES + 2) if f"weights {n}" not in names)
        self.edit({f"ballast.{place}.{name}": text for name, text in {"name": f"weights {number}", **NEW_PIECE}.items()})

    def remove_piece(self, place: Any) -> None:
        """Take a kind of weight off the list."""
        if not str(place).isdecimal() or int(place) not in places(self.inputs):
            raise InputError([Fault("weights", shown(place), "a kind of weight that is on the list")])
        self.edit({f"ballast.{int(place)}.{name}": "" for name in PARTS})

    def take_plan(self) -> None:
        """Put the plan on the tractor as the page has it: counts, fills and axle masses. Raises InputError without one."""
        plan = self.results.ballast.plan if self.results else None
        if plan is None or plan.chosen is None:
            raise InputError([Fault("plan", "no plan that works", "a plan to put on the tractor")])
        self.edit(changes_of(plan.chosen, self.inputs, self.system))

    def piece(self, place: int, short: bool = False) -> str:
        """Give a weight's name, and how many of them are on the tractor."""
        name, on, count = (self.inputs.get(f"ballast.{place}.{part}", "").strip() for part in ("name", "on", "count"))
        name = name[:60] or f"weight {place + 1}"
        return name if short else f"{name}: {on or 0} of {count or '?'} on"

    # links and files: the base class knows the rig, the rest stands beside it

    def replace_all(self, inputs: Mapping[str, str], system: System | None = None, undoable: bool = True) -> None:
        """Take a whole new state; lists of a rig file come apart into their fields."""
        super().replace_all({**OWN_STARTS, **spread(inputs)}, system, undoable)

    def base(self) -> Mapping[str, str]:
        """Give what a link is measured against."""
        return {**OWN_STARTS, **spread(super().base())}

    def inputs_from_link(self, known: Mapping[str, str]) -> dict[str, str]:
        """Give the rig of a link, with job, tables and slip test."""
        own = {path: text for path, text in known.items() if path.split(".")[0] in OWN}
        return {**super().inputs_from_link(known), **own}

    def may_be(self, path: str) -> bool:
        """Say whether a path may stand in a link: an entry of a rig, or a field of one of its weights."""
        return super().may_be(path) or bool(re.fullmatch(rf"ballast\.\d{{1,3}}\.({'|'.join(PARTS)})", path, re.ASCII))

    def sheet(self) -> dict[str, str]:
        """Give what outlives a change of rig: the sheet's texts, the job, the slip test."""
        kept = ("sheet.", "plan.", "slip.")
        return {path: text for path, text in self.inputs.items() if path.startswith(kept)}

    def to_toml(self) -> str:
        """Write the rig file. Raises InputError while an entry can't be used."""
        return rig_text(rig_of(self.inputs))


def slip_test_of(inputs: Mapping[str, str]) -> SlipTest | None:
    """Give the slip test that was typed; None while a reading is missing. Raises InputError, each fault at its field."""
    way = inputs.get("slip.way", "turns")
    if way not in WAYS:
        raise InputError([Fault("slip.way", shown(way), f"one of {', '.join(WAYS)}", "turns")])
    texts = {path: inputs.get(path, "").strip() for path in WAYS[way]}
    if way == "screen":
        return _from_screen(texts["slip.shown"])
    faults: list[Fault] = []
    read = {path: _reading(path, text, faults) for path, text in texts.items() if text}
    off: Any = _reading("slip.off", inputs.get("slip.off", "").strip() or OWN_STARTS["slip.off"], faults)
    if faults:
        raise InputError(faults)
    if len(read) < len(texts):
        return None
    values: list[Any] = list(read.values())
    try:
        if way == "turns":
            return from_turns(values[0], values[1], off)
        return from_distance(values[0], values[1], values[2], off) if way == "distance" else from_speeds(*values)
    except InputError as error:
        at = {name: path for path, name in (*WAYS[way].items(), ("slip.off", "error of a count"))}
        found = [Fault(f"{at.get(f.where, 'slip.way')}: {f.where}", f.got, f.expected, f.type_this) for f in error.faults]
        raise InputError(found) from None


def _from_screen(text: str) -> SlipTest | None:
    try:
        return from_screen(text) if text else None
    except InputError as error:
        raise InputError([Fault(f"slip.shown: {f.where}", f.got, f.expected, f.type_this) for f in error.faults]) from None


_UNITS = {"slip.per_turn": ("m", "15.2 ft"), "slip.distance": ("m", "110 ft"), "slip.ground": ("km/h", "5.1 mph"),
          "slip.wheel": ("km/h", "5.6 mph")}  # fmt: skip


def _reading(path: str, text: str, faults: list[Fault]) -> float | Measure | None:
    from pydantic_core import PydanticCustomError

    if path in _UNITS:
        unit, example = _UNITS[path]
        try:
            return Kind(unit, example).read(text)
        except PydanticCustomError as error:
            about = error.context or {}
            faults.append(Fault(path, about["got"], about["expected"], example))
            return None
    try:
        return plain_number(text)
    except InputError:
        faults.append(Fault(path, shown(text), "a number of turns", "0.25" if path == "slip.off" else "100"))
        return None


def changes_of(chosen: BallastSet, inputs: Mapping[str, str], system: System) -> dict[str, str]:
    """Give the entries that change when a set is put on the tractor."""
    by_name = {inputs.get(f"ballast.{place}.name", "").strip(): f"ballast.{place}.on" for place in places(inputs)}
    out = {}
    for step in chosen.changes:
        if step.liquid:
            out[f"tractor.{step.axle}.tyre.fill"] = f"{100 * step.after:.6g} percent"
        else:
            out[by_name[step.name]] = f"{step.after:.0f}"
    for axle, mass in (("front", chosen.front_mass), ("rear", chosen.rear_mass)):
        value, unit = to_shown(mass, "kg", system)
        out[f"tractor.{axle}_axle_mass"] = f"{tidy(value, 6)} {unit}"
    return out
