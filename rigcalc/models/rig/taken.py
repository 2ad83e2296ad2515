"""What a rig file leaves out and a rule can give: tyres by their size, axle masses by the total, the rest by class.

The rules work on the nested data as it was read, before anything is checked, and leave alone what they can't make out: a bad
entry is reported where it stands. Everything filled in is listed with its rule and its source.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.core.errors import InputError
from rigcalc.core.tables import Row, table
from rigcalc.core.units import factor, parse, weight_of
from rigcalc.equations.inflation import deflection_at_pressure
from rigcalc.models.rig.tool import by_width
from rigcalc.models.rig.tyre_size import TyreSize, tyre_size
from rigcalc.models.rig.written import plainly

Data = dict[str, Any]
STAND_IN_SIZE, STAND_IN_MASS, STAND_IN_WIDTH = "710/70R42", 20_000.0, 6.0
STAND_IN_POWER, STAND_IN_SHARE, STAND_IN_TOOLS, STAND_IN_SPACING = 200.0, 0.4, 10, 0.4
MOST_TOOLS, SPACINGS = 200, (0.05, 3.0)  # m: a garden cultivator's tines to single deep shanks
WIDTHS = (0.3, 40.0)  # m: a garden disk to the widest folding tools, and room (from memory)
SECTION = 0.25  # m: how wide a section is meant to be; so finely the widest tool is sought
TOTALS = (100.0, 120_000.0)  # kg: usual masses of a tractor, from a garden tractor's 180 kg to several times the heaviest
RATED_DEFLECTION = 0.20  # of the section height: what the loads of a tyre's table come near to (common practice)
_LEAST_PRESSED, _MOST_PRESSED = 0.05, 0.40  # ours: a tyre that stands outside has another table or another pressure
# Entries that may be left out because a rule can give them; the JSON Schema doesn't ask for them.
GIVEN_BY_RULE = frozenset(
    ["kind", "front_axle_mass", "rear_axle_mass", "wheelbase", "drawbar_height", "mass", "tools", "spacing"]
)


@dataclass(frozen=True)
class Taken:
    """One entry that a rule filled in: its path in the rig file, its value as it could be typed, the rule, the source's key.

    rule: "size" (the figures of a tyre size), "sections" (a listed tyre), "rest" (what a total leaves), "share" (of a total),
    "width" (a tool that is measured by its width, in alike sections), "class" (table rig_by_class), "pressed" (load and
    pressure, by the tyre's own table) or "default" (what a rig file always had where nothing is typed).
    """

    entry: str
    value: str
    rule: str
    source: str


def filled(data: Data) -> tuple[Data, tuple[Taken, ...]]:
    """Give the data of a rig with everything filled in that a rule can give, and the list of it. The data is left as it is."""
    made = _Filling({name: dict(part) if isinstance(part, dict) else part for name, part in data.items()})
    made.tractor()
    made.implement()
    return made.data, tuple(made.taken)


def without(data: Data, taken: tuple[Taken, ...]) -> Data:
    """Give the data of a rig without what a rule filled in."""
    for one in taken:
        *path, last = one.entry.split(".")
        parts = [data]
        for name in path:
            parts.append(parts[-1].get(name) or {})
        parts[-1].pop(last, None)
        if path and path[-1] == "tyre" and not any(value not in (None, "", (), []) for value in parts[-1].values()):
            parts[-2].pop("tyre", None)
    return data


class _Filling:
    """A rig file's data on its way."""

    def __init__(self, data: Data):
        self.data = data
        self.taken: list[Taken] = []

    def give(self, part: Data, entry: str, value: Any, rule: str, source: str) -> None:
        """Fill in an entry, where nothing is typed. Texts and whole numbers alone."""
        name = entry.rpartition(".")[2]
        if part.get(name) is None:
            part[name] = value
            self.taken.append(Taken(entry, str(value), rule, source))

    def by_class(self, part: Data, entry: str, of: tuple[str, ...], power: float) -> None:
        """Fill in an entry by the table of classes."""
        row = _row(entry.rpartition(".")[2], of, power)
        if row is not None:
            value = int(row["value"]) if not row["unit"] else f"{row['value']:g} {row['unit']}"
            self.give(part, entry, value, "class", row["source"])

    def tractor(self) -> None:
        """Axles, masses, wheelbase and hitch."""
        tractor = self.data.get("tractor")
        if not isinstance(tractor, dict):
            return
        drive, power = tractor.get("drive"), _engine_power(tractor)
        if power is None and tractor.get("rated_power") is not None:
            power = STAND_IN_POWER  # it is refused where it stands, and nothing else for its sake
        gears = {}
        for axle in ("front", "rear"):
            if isinstance(tractor.get(axle), dict):
                gears[axle] = tractor[axle] = dict(tractor[axle])
        four = drive == "4WD" or (drive == "track" and "front" in gears)
        of = "four" if four else "two_tracks" if drive == "track" else "tyres"
        for axle, gear in gears.items():
            self.gear(gear, f"tractor.{axle}", str(drive), of, power)
        self.masses(tractor, str(drive))
        for axle, gear in gears.items():
            self.deflection(gear, f"tractor.{axle}", _number(tractor.get(f"{axle}_axle_mass"), "kg"))
        if power is not None:
            self.by_class(tractor, "tractor.wheelbase", (of,), power)
            self.by_class(tractor, "tractor.drawbar_height", ("any",), power)

    def gear(self, gear: Data, path: str, drive: str, of: str, power: float | None) -> None:
        """Tyres by their size; deflection and number, length of a track by class."""
        if gear.get("kind") == "track":
            if power is not None and gear.get("track_width") is not None:
                self.by_class(gear, f"{path}.contact_length", (of,), power)
            return
        size = _size(gear.get("size"))
        if size is not None:
            rule, source = ("sections", "unece_r106") if size.known_by == "table" else ("size", "unece_r106")
            self.give(gear, f"{path}.kind", size.kind, "size", source)
            self.give(gear, f"{path}.section_width", f"{size.width * 1000:.0f} mm", rule, source)
            self.give(gear, f"{path}.diameter", f"{size.diameter:.3f} m", rule, source)
            self.give(gear, f"{path}.rim_diameter", f"{size.rim / factor('in', 'm'):g} in", "size", source)
            self.by_class(gear, f"{path}.tyres", (drive, "any"), 0.0)
            if size.load_index is not None and isinstance(gear.get("tyre", {}), dict):
                gear["tyre"] = tyre = dict(gear.get("tyre", {}))
                self.give(tyre, f"{path}.tyre.load_index", size.load_index, "size", source)
                self.give(tyre, f"{path}.tyre.speed_symbol", size.speed_symbol, "size", source)

    def deflection(self, gear: Data, path: str, mass: float | None) -> None:
        """Deflection of the tyres: by load, pressure and the tyre's own table where these are known, else as is usual."""
        if gear.get("kind") in (None, "track") or gear.get("static_loaded_radius") is not None:
            return
        share = _pressed(gear, mass)
        if share is not None:
            self.give(gear, f"{path}.deflection_ratio", f"{100 * share:.3g} percent", "pressed", "rigcalc_assumption")
        self.by_class(gear, f"{path}.deflection_ratio", ("any",), 0.0)

    def masses(self, tractor: Data, drive: str) -> None:
        """Axle masses of a total: the rest where one is typed, else by the share on the front that is typed or usual."""
        if tractor.get("total_mass") is None:
            return
        read = _number(tractor["total_mass"], "kg")
        total = read if read is not None and TOTALS[0] <= read <= TOTALS[1] else STAND_IN_MASS  # it is refused where it stands
        typed = [axle for axle in ("front", "rear") if tractor.get(f"{axle}_axle_mass") is not None]
        if typed:
            own = _number(tractor[f"{typed[0]}_axle_mass"], "kg")
            other = "rear" if typed[0] == "front" else "front"
            rest = total / 2 if own is None else total - own
            self.give(tractor, f"tractor.{other}_axle_mass", f"{rest:.0f} kg", "rest", "rigcalc_rule")
            return
        setup = self.data.get("setup")
        mounted = isinstance(setup, dict) and setup.get("hitching") == "mounted"
        row = _row("front_share", (f"{drive} mounted", drive) if mounted else (drive,), 0.0)
        share, source = _number(tractor.get("front_share"), "1"), "rigcalc_rule"
        if tractor.get("front_share") is not None and (share is None or not 0 <= share <= 1):
            share = STAND_IN_SHARE  # refused where it stands
        if share is None and row is not None:
            share, source = row["value"] / 100, row["source"]
        if share is not None:
            rule = "share" if source == "rigcalc_rule" else "class"
            self.give(tractor, "tractor.front_axle_mass", f"{share * total:.0f} kg", rule, source)
            self.give(tractor, "tractor.rear_axle_mass", f"{(1 - share) * total:.0f} kg", rule, source)

    def implement(self) -> None:
        """Mass of the tool by its width, tongue load by its mass."""
        implement = self.data.get("implement")
        if not isinstance(implement, dict):
            return
        self.data["implement"] = implement = dict(implement)
        self.sections(implement)
        tools, spacing = implement.get("tools"), _number(implement.get("spacing"), "m")
        # What is typed and can't be right is refused where it stands, and nothing else for its sake.
        if tools is not None and (type(tools) is not int or not 1 <= tools <= MOST_TOOLS):
            tools = STAND_IN_TOOLS
        if implement.get("spacing") is not None and (spacing is None or not SPACINGS[0] <= spacing <= SPACINGS[1]):
            spacing = STAND_IN_SPACING
        tool = implement.get("tool")
        if implement.get("mass") is not None or not isinstance(tool, str) or type(tools) is not int or spacing is None:
            return
        row = _row("mass", ("subsoiler", "any") if tool.startswith("subsoiler") else ("any",), 0.0)
        assert row is not None
        mass = row["value"] * tools * spacing
        self.give(implement, "implement.mass", f"{mass:.3g} kg" if mass < 1000 else f"{mass:.0f} kg", "class", row["source"])
        tongue = _row("hitch_load", ("towed",), 0.0)
        assert tongue is not None
        load = float(weight_of(mass)) * tongue["value"] / 100
        self.give(implement, "implement.hitch_load", f"{load:.3g} kN", "class", tongue["source"])

    def sections(self, implement: Data) -> None:
        """A tool whose row counts its width, as so many alike sections: what the width is of needs no count."""
        tool = implement.get("tool")
        if not isinstance(tool, str) or not by_width(tool) or "tools" in implement or "spacing" in implement:
            return
        width = _number(implement.get("width"), "m")
        if width is None or not WIDTHS[0] <= width <= WIDTHS[1]:
            width = STAND_IN_WIDTH  # it is refused where it stands
        count = max(1, round(width / SECTION))
        self.give(implement, "implement.tools", count, "width", "rigcalc_rule")
        self.give(implement, "implement.spacing", f"{width / count:.12g} m", "width", "rigcalc_rule")


def _row(entry: str, of: tuple[str, ...], power: float) -> Row | None:
    """Give the row of an entry for the first class that has one, with the highest power that isn't above this one."""
    for name in of:
        rows = [row for row in table("rig_by_class") if row["entry"] == entry and row["of"] == name]
        if held := [row for row in rows if row["power_from"] <= power]:
            return max(held, key=lambda row: float(row["power_from"]))
    return None


def _engine_power(tractor: Data) -> float | None:
    """Give engine power in kW, whichever power is typed, close enough for a class."""
    power = _number(tractor.get("rated_power"), "kW")
    if power is not None and tractor.get("power_rating") == "pto":
        power /= float(table("power_ratios")["pto_from_flywheel", "any", "any"]["value"])
    return power


def _pressed(gear: Data, mass: float | None) -> float | None:
    """Give the deflection ratio that a load makes at a pressure, by the tyre's own table; None where one of them isn't known.

    A pressure outside the table is in no place of it, and a ratio that no tyre stands is left to whoever measures it.
    """
    tyre, count = gear.get("tyre"), gear.get("tyres")
    if not isinstance(tyre, dict) or mass is None or type(count) is not int or count < 1:
        return None
    pressure = _number(tyre.get("inflation"), "kPa")
    columns = [[_number(item, unit) for item in tyre.get(name) or ()] for name, unit in (("pressures", "kPa"), ("loads", "kg"))]
    known = [(p, m) for p, m in zip(*columns, strict=False) if p is not None and m is not None]
    if pressure is None or len(known) < 2 or not known[0][0] <= pressure <= known[-1][0]:
        return None
    listed = float(np.interp(pressure, [p for p, _ in known], [m for _, m in known]))
    share = float(deflection_at_pressure.bare(RATED_DEFLECTION, mass / count, listed))
    return share if _LEAST_PRESSED <= share <= _MOST_PRESSED else None


def _size(text: Any) -> TyreSize | None:
    """Read a size. What can't be read is refused where it stands; a stand-in keeps that from raising faults of its own."""
    if text is None:
        return None
    try:
        return tyre_size(text)
    except InputError:
        return tyre_size(STAND_IN_SIZE)


def _number(value: Any, unit: str) -> float | None:
    """Read an entry as a number in a unit; None where it isn't one: it is reported where it stands."""
    text = getattr(value, "text", value)
    if not isinstance(text, str):
        return None
    try:
        number, own = parse(plainly(text))
        return number * factor(own, unit)
    except InputError:
        return None
