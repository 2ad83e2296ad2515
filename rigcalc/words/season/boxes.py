"""What is wrong with a season, said at the boxes of a page: which box, and what to type there instead of into a terminal."""

from __future__ import annotations

from collections.abc import Collection

from rigcalc.core.errors import Fault
from rigcalc.words.weather_file import FILE

_WEATHER = "days.weather"
_OTHER_BOX = {"area": "work.area", "days": "days.share"}  # an entry that has no box of its own -> the box to look at
_TYPE = {
    "area": "3000 acre", "by": "15 Nov", "days.share": "50 percent", "days.latitude": "46.9",
    "days.weather_units": "the one that the file has",
    FILE: "the file mended, or another unit in its box; or days of your own in its place",
}  # fmt: skip


def at_its_box(fault: Fault, before: str, boxes: Collection[str]) -> Fault:
    """Give a fault of a plan as it stands on the page. before: what stands before the name of an entry in that of its box."""
    where = fault.where
    if where == _WEATHER or where.startswith(f"{_WEATHER},"):
        return Fault(f"{FILE} file{where.removeprefix(_WEATHER)}", fault.got, fault.expected, _typed(fault, FILE))
    box = _OTHER_BOX.get(where, where)
    path = box if box.startswith("work.") else before + box
    known = next((each for each in sorted(boxes) if path == each or path.startswith(f"{each}.")), path)
    return Fault(known, fault.got, fault.expected, _typed(fault, where if where in _TYPE else box))


def _typed(fault: Fault, where: str) -> str:
    """Give what to type: a page has no options and no files of plans."""
    return _TYPE.get(where, "") if "--" in fault.type_this or " in [" in fault.type_this else fault.type_this
