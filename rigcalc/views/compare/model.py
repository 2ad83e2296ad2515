"""The comparing page's model: up to eight rigs as typed, what is the same in them, what is varied; and the comparison."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import prod
from typing import Any, ClassVar
from urllib.parse import urlencode

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models import DEMO_RIGS, demo_rig
from rigcalc.models.compare import compare, variations
from rigcalc.models.compare.answer import FEWEST, MOST
from rigcalc.models.compare.vary import doubtful, listed_values
from rigcalc.models.rig.changes import short_name
from rigcalc.models.rig.file import read_rig, rig_from
from rigcalc.models.rig.rig import Rig
from rigcalc.models.rig.written import plainly
from rigcalc.models.season import season
from rigcalc.models.season.abreast import RIG
from rigcalc.views.compare import fields
from rigcalc.views.compare.files import comparison_text, rigs_in
from rigcalc.views.compare.inputs import (
    OWN,
    entered,
    entries_of,
    from_demo,
    one_line,
    parted_path,
    places,
    started,
    together,
)
from rigcalc.views.rig.fields import tool_of
from rigcalc.views.rig.model import is_entry, nested
from rigcalc.widgets.entries import completed
from rigcalc.widgets.fields import Number
from rigcalc.widgets.model import LONGEST_FILE, LONGEST_LINK, MOST_ENTRIES, AppModel
from rigcalc.words.compare import CompareWords
from rigcalc.words.compare.costs import box_of, missing_text, page_hint, plan_of
from rigcalc.words.compare.gathered import Gathered, gathered
from rigcalc.words.numbers import System
from rigcalc.words.season.abreast import Shown, shown_points


@dataclass(frozen=True)
class Found:
    """The comparison in words, None with fewer than two rigs that can be used; what was left out; what needs mending."""

    words: CompareWords | None
    gathered: Gathered
    faults: tuple[Fault, ...]


class CompareModel(AppModel):
    """`results` is a Found. A rig that can't be used is named in `faults`, and the others are compared."""

    defaults: ClassVar = {**OWN}
    short_names: ClassVar = {
        **{"vary": "vary.0.entry", "values": "vary.0.values", "vary2": "vary.1.entry", "values2": "vary.1.values"},
        **{
            f"{short}{place + 1}": f"{place}.{name}"
            for place in range(MOST)
            for short, name in (("rig", "rig"), ("name", "name"))
        },
    }
    speaks = True
    results: Found | None
    costs: tuple[Shown, ...] = ()  # cost against chance of each rig; none without prices

    def __init__(self, **traits: Any):
        traits.setdefault("inputs", started())
        super().__init__(**traits)

    def compute(self, inputs: Mapping[str, str]) -> Found:
        """Give the comparison. Raises InputError where nothing can be compared for what is asked of all."""
        given = [self._given(inputs, place) for place in places(inputs)]
        ways = self._ways(inputs, len(given))
        made = gathered(given, ways, inputs.get("same", "") if len(given) > 1 else "")
        at = places(inputs)
        faults = tuple(dict.fromkeys(
            self._at_its_field(fault, name, at[made.at[name]], inputs)
            for name, error in made.left_out.items() for fault in error.faults
        ))  # fmt: skip
        self.costs = ()
        if len(made.rigs) < FEWEST:
            return Found(None, made, faults)
        self.costs, wrong = costs_of(made.rigs, self.season_typed(inputs), self.system)
        return Found(CompareWords(compare(list(made.rigs.values()), list(made.rigs)), self.system), made, (*faults, *wrong))

    def season_typed(self, inputs: Mapping[str, str] | None = None) -> dict[str, str]:
        """Give what is typed of the season, by the names of a plan."""
        found = self.inputs if inputs is None else inputs
        return {path.removeprefix(fields.OF_SEASON): found.get(path, "") for path in fields.SEASON}

    def _at_its_field(self, fault: Fault, name: str, place: int, inputs: Mapping[str, str]) -> Fault:
        """Give a fault of one rig as it stands on the page: at its entry, or at the values of the variation that it is from."""
        known = fields.varied_fields(self.tool())
        label = known[fault.where].label if fault.where in known else fault.where
        for slot in fields.SLOTS:
            entry = inputs.get(f"vary.{slot}.entry", "")
            if entry and fault.where in (entry, short_name(entry)):
                where = f"vary.{slot}.values: {known[entry].label}"
                return Fault(where, fault.got, fault.expected, self._around(entry, slot))
        return Fault(f"{place}.{fault.where}: {name}, {label}", fault.got, fault.expected, fault.type_this)

    @staticmethod
    def _given(inputs: Mapping[str, str], place: int) -> tuple[str, Rig | InputError]:
        name = inputs.get(f"{place}.name", "").strip() or f"rig {place + 1}"
        try:
            return name, rig_from(nested(entries_of(inputs, place)))
        except InputError as error:
            return name, error

    def _ways(self, inputs: Mapping[str, str], count: int) -> list[dict[str, str]]:
        """Give the variations that are asked for. Raises InputError, each fault at its field."""
        asked: dict[str, list[str]] = {}
        faults = []
        known = fields.varied_fields(self.tool())
        for slot in fields.SLOTS:
            entry, text = (inputs.get(f"vary.{slot}.{name}", "").strip() for name in ("entry", "values"))
            if not entry:
                continue
            where = f"vary.{slot}.values"
            if entry not in known:
                faults.append(Fault(f"vary.{slot}.entry", shown(entry), "an entry of a rig", "implement.tools"))
            elif entry in asked:
                faults.append(Fault(f"vary.{slot}.entry", shown(entry), "another entry than the first", "nothing"))
            elif doubtful(text):
                faults.append(Fault(where, shown(text), "semicolons between values where one holds a comma", "9,5; 11"))
            elif not text or not all(values := listed_values(text)):
                faults.append(Fault(where, shown(text), "values parted by commas", "11, 13, 15"))
            else:
                asked[entry] = [fields.value_of(known[entry], value) for value in values]
        ways = prod(map(len, asked.values()))
        if count * ways > MOST:
            slot = next((slot for slot in reversed(fields.SLOTS) if inputs.get(f"vary.{slot}.entry")), 0)
            got = f"{count} rig{'s' * (count > 1)} times {ways} variations"
            faults.append(Fault(f"vary.{slot}.values", got, f"at most {MOST} in all", "fewer values, or take a rig away"))
        if faults:
            raise InputError(faults)
        return variations(asked)

    def tool(self) -> str:
        """Give the tool of the first rig, by whose words the page is written."""
        found = places(self.inputs)
        return tool_of(entries_of(self.inputs, found[0])) if found else ""

    def hides(self, path: str) -> bool:
        """Hide the values of nothing, and entries of a rig that it takes from the first."""
        slot = next((slot for slot in fields.SLOTS if path == f"vary.{slot}.values"), None)
        if slot is not None:
            return not self.inputs.get(f"vary.{slot}.entry")
        if path == "vary.1.entry":
            return not self.inputs.get("vary.0.entry")
        found, same = places(self.inputs), self.inputs.get("same", "")
        later = any(path.startswith(f"{place}.") for place in found[1:])
        return later and ((bool(same) and ".work." in path) or (same == "tool" and ".implement." in path))

    # changing it

    def edit(self, changes: Mapping[str, str], live: bool = False) -> None:
        """Take one change set. An entry that is to be varied brings values around what the first rig has."""
        more = {}
        for slot in fields.SLOTS:
            entry = changes.get(f"vary.{slot}.entry", self.inputs.get(f"vary.{slot}.entry", ""))
            field = fields.varied_fields(self.tool()).get(entry)
            values = f"vary.{slot}.values"
            if f"vary.{slot}.entry" in changes and values not in changes:
                more[values] = self._around(entry, slot)
            elif values in changes and isinstance(field, Number) and not doubtful(changes[values]):
                parted = listed_values(changes[values])
                sign = "; " if ";" in changes[values] else ", "
                more[values] = sign.join(completed(field, plainly(value), self.system) for value in parted)
        if "vary.0.entry" in changes and not changes["vary.0.entry"]:
            more |= {f"vary.1.{name}": "" for name in ("entry", "values")}
        super().edit({**changes, **more}, live)

    def _around(self, entry: str, slot: int) -> str:
        """Give values to vary an entry by, as many as there is room for."""
        field, found = fields.varied_fields(self.tool()).get(entry), places(self.inputs)
        if field is None or not found:
            return ""
        others = [self.inputs.get(f"vary.{other}.values", "") for other in fields.SLOTS if other != slot]
        ways = prod(len(listed_values(values)) for values in others if values)
        try:
            return fields.around(field, self.inputs.get(f"{found[0]}.{entry}", ""), self.system, MOST // (len(found) * ways))
        except InputError:
            return ""

    def add_demo(self, name: str) -> None:
        """Add a demo rig. Raises InputError for a name that is none, or where there is no room."""
        if name not in DEMO_RIGS:
            raise InputError([Fault("rig", shown(name), "one of the demo rigs", ", ".join(DEMO_RIGS))])
        self.add_rig(demo_rig(name), demo_rig(name).tractor.name)

    def add_rig(self, rig: Rig, name: str) -> None:
        """Add a rig under a name. Raises InputError where there is no room."""
        taken = places(self.inputs)
        if len(taken) >= MOST:
            raise InputError([Fault("rigs", f"{len(taken)} and one more", f"at most {MOST}", "take one away first")])
        self.replace_all({**together(self.inputs), **entered(len(taken), rig, name)})

    def start_from(self, rigs: Sequence[Rig], names: Sequence[str]) -> None:
        """Start anew from rigs under their names, each as it stands. Raises InputError where there are too many."""
        if len(rigs) > MOST:
            raise InputError([Fault("rigs", f"{len(rigs)} of them", f"at most {MOST}")])
        inputs = {**OWN, "same": ""}
        for place, (rig, name) in enumerate(zip(rigs, names, strict=True)):
            inputs |= entered(place, rig, name)
        self.replace_all(inputs)

    def remove_rig(self, place: Any) -> None:
        """Take a rig off the list; the others keep their order."""
        if not str(place).isdecimal() or int(place) not in places(self.inputs):
            raise InputError([Fault("rigs", shown(place), "a rig that is on the list")])
        if len(places(self.inputs)) == 1:
            raise InputError([Fault("rigs", "the last one", "one at least", "add another first")])
        kept = {path: text for path, text in self.inputs.items() if not path.startswith(f"{int(place)}.")}
        self.replace_all(together(kept))

    def make_first(self, place: Any) -> None:
        """Put a rig in front: the one whose work, ground, tool or tractor the others take."""
        if not str(place).isdecimal() or int(place) not in places(self.inputs):
            raise InputError([Fault("rigs", shown(place), "a rig that is on the list")])
        order = [int(place), *(each for each in places(self.inputs) if each != int(place))]
        self.replace_all(together(self.inputs, order))

    # the rig at hand is the first on the list: what the other pages of its address are about

    def named(self) -> str:
        """Give what the page is about, for its title and its files."""
        made = len(self.results.gathered.rigs) if self.results is not None else len(places(self.inputs))
        return f"comparison of {made}"

    def to_carry(self) -> dict[str, str]:
        """Give the first rig as the pages about one rig have it, and what they keep for the setup sheet."""
        place = places(self.inputs)[0]
        sheet = {path: text for path, text in self.inputs.items() if path.startswith("sheet.")}
        return {"rig": self.inputs[f"{place}.rig"], **entries_of(self.inputs, place), **sheet}

    def take(self, carried: Mapping[str, str], system: System) -> None:
        """Put the rig of another page first. A list that nobody has touched becomes that rig with other numbers of tools."""
        sheet = {path: text for path, text in carried.items() if path.startswith("sheet.")}
        rig = {f"0.{path}": text for path, text in carried.items() if not path.startswith("sheet.")}
        name = one_line(carried.get("tractor.name", "")) or "the rig at hand"
        if _said(self.to_carry()) == _said(carried):
            self.switch_units(system)
        elif self.inputs == started():
            self.replace_all({**OWN, **sheet, "0.name": name, **rig}, system, undoable=False)
            self.edit({"vary.0.entry": "implement.tools"})
        else:
            others = {path: text for path, text in together(self.inputs).items() if parted_path(path)[0] != 0}
            self.replace_all({**others, **sheet, "0.name": name, **rig}, system)

    # links and files

    def to_query(self) -> str:
        """Give the link: the demo rig that each rig is nearest to, and what differs; empty where that is too long for one."""
        if self.inputs == started() and self.system == "us":
            return ""
        names = {path: name for name, path in self.short_names.items()}
        pairs = [(path, self.inputs.get(path, "")) for path in OWN if self.inputs.get(path, "") != OWN[path]]
        for place in places(self.inputs):
            rig = from_demo(entries_of(self.inputs, place))
            pairs += [(f"{place}.{path}", text) for path, text in rig.items()]
            name = self.inputs.get(f"{place}.name", "")
            pairs += [(f"{place}.name", name)] if name != demo_rig(rig["rig"]).tractor.name else []
        if self.system != "us":
            pairs.append(("units", self.system))
        query = urlencode([(names.get(path, path), text) for path, text in pairs])
        return query if len(query) <= LONGEST_LINK and len(pairs) <= MOST_ENTRIES else ""

    def fits_a_link(self) -> bool:
        """Say whether the address of the page holds everything that was entered."""
        return bool(self.to_query()) or self.inputs == started()

    def inputs_from_link(self, known: Mapping[str, str]) -> dict[str, str]:
        """Give the rigs of a link; one that names none is about the rigs that the page starts with."""
        own = {path: text for path, text in known.items() if path in OWN}
        found = [place for place in range(MOST) if f"{place}.rig" in known]
        out = {**OWN, **own} if found else {**started(), **own}
        for place in found:
            name = known[f"{place}.rig"]
            if name not in DEMO_RIGS:
                raise InputError([Fault(f"{place}.rig", shown(name), "one of the demo rigs", ", ".join(DEMO_RIGS))])
            out |= entered(place, demo_rig(name), known.get(f"{place}.name", demo_rig(name).tractor.name), name)
        there = places(out)
        for path, text in known.items():
            at, entry = parted_path(path)
            if at in there and is_entry(entry):
                out[path] = text
        return out

    def start_from_toml(self, text: str, name: str = "") -> None:
        """Add the rig in a file's text, or start from a comparison that was saved; what can't be used leaves all as it was."""
        if len(text) > LONGEST_FILE:
            raise InputError([Fault("file", f"{len(text):,} letters", f"a file of at most {LONGEST_FILE:,}")])
        saved = rigs_in(text)
        if saved is None:
            self.add_rig(read_rig(text), name or "rig")
            return
        asked, rigs = saved
        inputs = {
            **dict.fromkeys(OWN, ""),
            **{path: text for path, text in asked.items() if path in OWN},
        }  # what is empty isn't written
        for place, (called, rig) in enumerate(rigs):
            inputs |= entered(place, rig, called)
        self.replace_all(inputs)

    def to_toml(self) -> str:
        """Write the comparison as a file. Raises InputError while a rig on the list can't be used."""
        rigs, faults = [], []
        for place in places(self.inputs):
            name, rig = self._given(self.inputs, place)
            if isinstance(rig, InputError):
                faults += [Fault(f"{name}: {fault.where}", fault.got, fault.expected, fault.type_this) for fault in rig.faults]
            else:
                rigs.append((name, rig))
        if faults:
            raise InputError(faults)
        return comparison_text({path: self.inputs.get(path, "") for path in OWN}, rigs)


def costs_of(rigs: Mapping[str, Rig], typed: Mapping[str, str], system: System) -> tuple[tuple[Shown, ...], list[Fault]]:
    """Give the points of cost against chance, none without prices, and what is wrong with what is typed, each at its box."""
    if missing_text(typed):
        return (), []
    try:
        found = season(list(rigs.values()), plan_of(typed, len(rigs)))
    except InputError as error:
        boxes = {box_of(fault.where): fault for fault in error.faults}
        return (), [Fault(f"{fields.OF_SEASON}{box}", fault.got, fault.expected, page_hint(box, fault.type_this))
                    for box, fault in boxes.items()]  # fmt: skip
    return tuple(each for each in shown_points(found, tuple(rigs), system, changes=False) if each.point.name == RIG), []


def _said(texts: Mapping[str, str]) -> dict[str, str]:
    """Give the entries that say something, but for the demo rig that a link is measured against."""
    return {path: text.strip() for path, text in texts.items() if text.strip() and path != "rig"}
