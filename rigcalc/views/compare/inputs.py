"""What was entered on the comparing page, as texts by path: `0.work.depth` is an entry of the first rig on the list."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from urllib.parse import urlencode

from rigcalc.models import DEMO_RIGS, demo_rig
from rigcalc.models.compare.answer import MOST
from rigcalc.models.rig.rig import Rig
from rigcalc.views.compare.fields import SEASON, SLOTS
from rigcalc.views.rig.model import flat

# What is asked of all rigs, as the page starts.
OWN = {"same": "work", **{f"vary.{slot}.{name}": "" for slot in SLOTS for name in ("entry", "values")}}
OWN |= {path: "" for path in SEASON}
_LONGEST_NAME = 60


def places(inputs: Mapping[str, str]) -> list[int]:
    """Give the places of the rigs on the list, in order."""
    return [place for place in range(MOST) if f"{place}.rig" in inputs]


def entries_of(inputs: Mapping[str, str], place: int) -> dict[str, str]:
    """Give the entries of one rig by their paths in a rig file."""
    before = f"{place}."
    skip = (f"{place}.rig", f"{place}.name")
    return {path.removeprefix(before): text for path, text in inputs.items() if path.startswith(before) and path not in skip}


def rig_query(rig: Rig) -> str:
    """Give what stands after the ? in the link to a page about this rig alone."""
    return urlencode(from_demo(flat(rig)))


def started() -> dict[str, str]:
    """Give what the page starts with: two demo rigs, the second at the work and in the ground of the first."""
    out = dict(OWN)
    for place, name in enumerate(DEMO_RIGS[:2]):
        out |= entered(place, demo_rig(name), demo_rig(name).tractor.name, name)
    return out


def entered(place: int, rig: Rig, name: str, demo: str = DEMO_RIGS[0]) -> dict[str, str]:
    """Give the entries of a rig at a place of the list."""
    texts = {f"{place}.{path}": text for path, text in flat(rig).items()}
    return {f"{place}.rig": demo, f"{place}.name": one_line(name), **texts}


def from_demo(entries: Mapping[str, str]) -> dict[str, str]:
    """Give the demo rig that a rig is nearest to, and the entries that differ from it; those taken out are empty."""
    ways = {}
    for name in DEMO_RIGS:
        base = _flat_demo(name)
        ways[name] = {path: text for path, text in entries.items() if base.get(path, "") != text}
        ways[name] |= {path: "" for path in base if path not in entries}
    nearest = min(ways, key=lambda name: len(ways[name]))
    return {"rig": nearest, **ways[nearest]}


def together(inputs: Mapping[str, str], order: list[int] | None = None) -> dict[str, str]:
    """Give the inputs with the rigs at the first places, in this order."""
    out = {**dict.fromkeys(OWN, ""), **{path: text for path, text in inputs.items() if parted_path(path)[0] is None}}
    for new, old in enumerate(places(inputs) if order is None else order):
        before = f"{old}."
        out |= {f"{new}.{path.removeprefix(before)}": text for path, text in inputs.items() if path.startswith(before)}
    return out


def one_line(name: str) -> str:
    """Give a name as one line that is no longer than there is room for."""
    return " ".join(name.split())[:_LONGEST_NAME]


def parted_path(path: str) -> tuple[int | None, str]:
    """Give the place and the path in the rig file of such a path; None for one that belongs to no rig."""
    place, dot, entry = path.partition(".")
    return (int(place), entry) if dot and place.isdecimal() and len(place) == 1 else (None, path)


@cache
def _flat_demo(name: str) -> Mapping[str, str]:
    return flat(demo_rig(name))
