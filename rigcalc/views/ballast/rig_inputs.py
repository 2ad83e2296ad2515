"""Between a rig and what stands in the fields of the ballast page: weights one by one, tables as text, lists with commas."""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Mapping
from typing import Any

from rigcalc.core.errors import Fault, InputError
from rigcalc.models.ballast.tyres import read_table
from rigcalc.models.rig.file import rig_from
from rigcalc.models.rig.rig import Rig
from rigcalc.views.rig.model import nested

AXLES = ("front", "rear")
OWN = ("plan", "slip", "table")  # what the page holds beside the rig
PARTS = ("name", "mass", "count", "on", "in_pairs", "axle", "at", "side", "holds")
NEW_PIECE = {"mass": "100 lb", "count": "10", "on": "0", "in_pairs": "false", "axle": "front", "at": "3 ft", "side": "ahead"}
_LISTS = ("gears.speeds", "gears.names")
_COUNTS = ("count", "on", "holds")


def spread(inputs: Mapping[str, str]) -> dict[str, str]:
    """Give the fields of a rig's flat texts: `ballast.0.mass`, `table.rear`, gear speeds parted by commas.

    What stands in a field of its own already goes before what a list says.
    """
    rest = dict(inputs)
    out: dict[str, str] = {}
    for place, piece in enumerate(_list(rest.pop("ballast", ""))):
        if isinstance(piece, Mapping):
            out |= _piece_fields(place, piece)
    for axle in AXLES:
        pressures, loads = (_list(rest.pop(f"tractor.{axle}.tyre.{name}", "")) for name in ("pressures", "loads"))
        if pressures or loads:
            out[f"table.{axle}"] = table_text(pressures, loads)
    for path in _LISTS:
        items = _list(rest.get(path, ""))
        if items and not any("," in str(item) for item in items):
            rest[path] = ", ".join(map(str, items))
    return {**out, **rest}


def rig_of(inputs: Mapping[str, str]) -> Rig:
    """Make the rig of what stands in the fields. Raises InputError; each fault names its field, then what it is."""
    plain = {path: text for path, text in inputs.items() if path.split(".")[0] not in (*OWN, "ballast")}
    data, faults = nested(plain), []
    for axle in AXLES:
        gear = data.get("tractor", {}).get(axle)
        if isinstance(gear, dict) and gear.get("kind") != "track" and inputs.get(f"table.{axle}", "").strip():
            try:
                pressures, loads = lists_of(inputs[f"table.{axle}"])
                gear.setdefault("tyre", {}).update(pressures=pressures, loads=loads)
            except InputError as error:
                faults += [Fault(f"table.{axle}: {f.where}", f.got, f.expected, f.type_this) for f in error.faults]
        elif isinstance(gear, dict) and isinstance(gear.get("tyre"), dict):
            gear["tyre"].pop("table_from", None)
    gears = data.get("gears")
    if isinstance(gears, dict):
        for name in ("speeds", "names"):
            if isinstance(gears.get(name), str):
                gears[name] = [part.strip() for part in gears[name].split(",") if part.strip()]
        if not gears.get("speeds"):
            del data["gears"]
    found = places(inputs)
    if found:
        data["ballast"] = [_piece(inputs, place) for place in found]
    try:
        rig = rig_from(data)
    except InputError as error:
        faults += [_named(fault, inputs, found) for fault in error.faults]
    if faults:
        # A field that is taken out because it is bad must not be called missing as well.
        bad = {fault.where for fault in faults if fault.got != "nothing"}
        raise InputError([fault for fault in faults if fault.got != "nothing" or fault.where not in bad])
    return rig


def places(inputs: Mapping[str, str]) -> list[int]:
    """Give the numbers of the weights that are there: those with something typed into their fields."""
    parts = (path.split(".") for path, text in inputs.items() if path.startswith("ballast.") and text.strip())
    return sorted({int(way[1]) for way in parts if len(way) == 3 and re.fullmatch(r"\d{1,3}", way[1])})


def lists_of(text: str) -> tuple[list[str], list[str]]:
    """Read an inflation table into pressures and loads as they were typed, units added. Raises InputError."""
    read_table(text)
    rows = [row for row in csv.reader(io.StringIO(text)) if any(c.strip() for c in row) and not row[0].lstrip().startswith("#")]
    heads = [re.findall("[A-Za-z]+", cell) for cell in rows[0]]
    columns = {name.lower(): [f"{row[side].strip()} {unit}" for row in rows[1:]] for side, (name, unit) in enumerate(heads)}
    return columns["pressure"], columns["load"]


def table_text(pressures: list[Any], loads: list[Any]) -> str:
    """Write a table of pressures and loads as the text that `lists_of` reads."""
    columns = []
    for name, items in (("pressure", pressures), ("load", loads)):
        parts = [str(item).split(" ", 1) for item in items]
        units = {part[1] for part in parts if len(part) == 2}
        if len(units) != 1:
            return "\n".join(f"{p}, {m}" for p, m in zip(pressures, loads, strict=False))  # refused in words when it is read
        columns.append([f"{name} {units.pop()}", *(part[0] for part in parts)])
    return "\n".join(f"{pressure}, {load}" for pressure, load in zip(*columns, strict=False))


def _list(text: str) -> list[Any]:
    try:
        found = json.loads(text) if text.startswith("[") else []
    except (ValueError, RecursionError):
        return []
    return found if isinstance(found, list) else []


def _piece_fields(place: int, piece: Mapping[str, Any]) -> dict[str, str]:
    side = "behind" if piece.get("behind") is not None else "ahead"
    fields = {**piece, "side": side, "at": piece.get(side), "in_pairs": str(piece.get("in_pairs", False)).lower()}
    return {f"ballast.{place}.{name}": str(fields[name]) for name in PARTS if fields.get(name) is not None}


def _piece(inputs: Mapping[str, str], place: int) -> dict[str, Any]:
    typed = {name: inputs.get(f"ballast.{place}.{name}", "").strip() for name in PARTS}
    side, at, pairs = (typed.pop(name) for name in ("side", "at", "in_pairs"))
    data: dict[str, Any] = {name: text for name, text in typed.items() if text}
    for name in _COUNTS:
        if re.fullmatch("[0-9]{1,9}", typed[name]):
            data[name] = int(typed[name])
    if at:
        data["behind" if side == "behind" else "ahead"] = at
    return {**data, "in_pairs": pairs == "true"}


# What the fields of a weight are called on the page, and what to type there.
_SAID = {
    "name": ("its name", "front plates"),
    "mass": ("one weighs", "100 lb"),
    "count": ("there are", "10"),
    "on": ("on the tractor", "4"),
    "holds": ("the bracket holds", "20"),
    "at": ("where it hangs", "3 ft"),
}


def _named(fault: Fault, inputs: Mapping[str, str], found: list[int]) -> Fault:
    """Give a fault the field that it is about, and words for it."""
    way = fault.where.split(".")
    if fault.where.startswith(_LISTS):
        example = "4.2 mph, 5.0 mph, 5.9 mph" if way[1] == "speeds" else "6, 7, 8"
        return Fault(f"gears.{way[1]}: {way[1]} of the gears", fault.got, fault.expected, example)
    if way[0] != "ballast" or len(way) < 2 or not way[1].isdigit() or int(way[1]) >= len(found):
        return fault
    place = found[int(way[1])]
    name = inputs.get(f"ballast.{place}.name", "").strip() or f"weight {place + 1}"
    last = way[2] if len(way) > 2 else ""
    field = "at" if last in ("ahead", "behind") or "in the air" in fault.got else last or _field_of(fault)
    said, example = _SAID.get(field, (field, fault.type_this))
    typed = fault.type_this.removeprefix(f"{field} = ") if fault.type_this.startswith(f"{field} = ") and not last else example
    return Fault(f"ballast.{place}.{field}: {name[:60]}, {said}", fault.got, fault.expected, typed)


def _field_of(fault: Fault) -> str:
    return next((name for name in _COUNTS if fault.type_this.startswith(f"{name} =")), "name")
