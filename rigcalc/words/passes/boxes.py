"""What is wrong with fields, said at the boxes of a page; what a file of boundaries holds."""

from __future__ import annotations

from collections.abc import Collection

from rigcalc.core.errors import Fault
from rigcalc.words.numbers import say
from rigcalc.words.passes.answer import FieldWords

FILE = "boundary"  # where a fault of the file itself stands
ABOUT_FILE = (
    "GeoJSON (longitude, then latitude, WGS 84), or a shapefile whose .shp, .dbf and .prj are zipped together; each polygon a "
    "field, holes to drive round."
)
_WHOLE = "BOUNDARY"


def at_its_box(fault: Fault, before: str, boxes: Collection[str]) -> Fault:
    """Give a fault as it stands on the page. before: what stands before the name of an option in that of its box."""
    where, path = fault.where, f"{before}{fault.where}"
    if where.startswith("ground."):
        return Fault("ground.traffic", fault.got, fault.expected, fault.type_this)
    if path in boxes:
        return Fault(path, fault.got, fault.expected, fault.type_this)
    hint = "" if fault.type_this.startswith("pip ") else fault.type_this
    return Fault(f"{FILE} file" if where == _WHOLE else f"{FILE} file, {where}", fault.got, fault.expected, hint)


def file_line(name: str | None, words: FieldWords | None) -> str:
    """Say which fields are shown. name: of the file, None for the invented field; words: None where it couldn't be used."""
    if words is None:
        return "No fields yet." if name is None else f"{name}: not used yet; what it needs first stands where mending is named."
    found = words.answer
    count = len(found.fields)
    fields = f"{count} field{'s' if count > 1 else ''}, {say(found.area, 'ha', words.units)}, at {words.place}"
    return f"{name}: {fields}." if name is not None else f"An invented field in the middle of an ocean: {fields}. Open yours."
