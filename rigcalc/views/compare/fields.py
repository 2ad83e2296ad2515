"""The entries of the comparing page: what is the same in all, what to vary, and a few entries of each rig."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache

from rigcalc.views.rig.fields import groups, setting
from rigcalc.widgets.entries import tidy
from rigcalc.widgets.fields import Choice, Field, Number, Section, Text, number, plain
from rigcalc.words.numbers import System

SLOTS = (0, 1)  # entries that can be varied at once
_SAME = (
    ("", "nothing: each as it stands"),
    ("work", "work and ground of the first"),
    ("tool", "that and its tool: which tractor?"),
    ("tractor", "that and its tractor: which tool?"),
)
_NOT_VARIED = frozenset(["On the setup sheet", "Season, farm and notes"])
_AROUND = 0.15  # our choice: how far a first variation goes to either side, as a share of what is there


OF_SEASON = "season."  # before what is asked of the season that all rigs are held against
COSTS = (
    Section(
        "Cost against chance",
        (
            Text(f"{OF_SEASON}money.tractor_price", "Price of each tractor", "in their order: 400000; 350000, or one for all"),
            Text(f"{OF_SEASON}money.tool_price", "Price of each tool", "likewise"),
            Text(f"{OF_SEASON}money.fuel_price", "Price of fuel", "such as 3.50 per gal"),
            Text(f"{OF_SEASON}money.wage", "Wage", "such as 25 per h"),
            number(f"{OF_SEASON}area", "Area", "20 10000 10 acre", "10 4000 5 ha", "all of it for each; the rigs' own without"),
            Text(f"{OF_SEASON}start", "First day", "such as 1 Oct"),
            Text(f"{OF_SEASON}by", "Deadline", "such as 15 Nov"),
            plain(f"{OF_SEASON}days.share", "Days fit for work", "5 100 1 percent", "in a middle year, where you are"),
        ),
    ),
)
SEASON = tuple(field.path for section in COSTS for field in section.fields)


@cache
def varied_fields(tool: str = "") -> dict[str, Field]:
    """Give the entries of a rig that can be varied, by path, with their labels as they stand in a list."""
    out: dict[str, Field] = {}
    for place, section in enumerate((*setting(tool), *groups(tool))):
        for field in section.fields:
            if section.title not in _NOT_VARIED and not isinstance(field, Text):
                out[field.path] = replace(field, label=field.label if place == 0 else f"{section.title}: {field.label}")
    return out


@cache
def asked(tool: str = "", count: int = 2) -> tuple[Section, ...]:
    """Give what is asked of all rigs: what is the same, what is varied. With one rig nothing can be the same."""
    options = (("", "nothing"), *((path, field.label) for path, field in varied_fields(tool).items()))
    same = (Choice("same", "The same for all", _SAME),) if count > 1 else ()
    fields: list[Field] = [*same]
    for slot in SLOTS:
        name = "Vary" if slot == 0 else "Vary too"
        fields.append(Choice(f"vary.{slot}.entry", name, options))
        fields.append(Text(f"vary.{slot}.values", "Its values", "parted by commas; by semicolons where a value holds a comma"))
    return (Section("What to compare", tuple(fields)),)


def of_rig(place: int, title: str, tool: str, open: bool = False) -> Section:
    """Give the entries of one rig that stand on this page: its name, depth, speed, and number of tools."""
    own = [replace(field, path=f"{place}.{field.path}") for field in setting(tool)[0].fields]
    return Section(title, (Text(f"{place}.name", "Name"), *own), open)


def around(field: Field, text: str, system: System, most: int = 3) -> str:
    """Give the values that a variation starts with: what the rig has, less and more; the neighbours of a choice.

    At most three, at least one. Raises InputError for a text that is no number where one is wanted.
    """
    count = min(max(most, 1), 3)
    if isinstance(field, Choice):
        values = [value for value, _ in field.options if value]
        at = values.index(text) if text in values else 0
        return ", ".join(values[max(at - (count == 3), 0) :][:count])
    assert isinstance(field, Number)
    from rigcalc.core.units import factor, parse

    scale = field.scale(system)
    number, unit = parse(text) if text.strip() else ((scale.low + scale.high) / 2, scale.unit)
    here = number * factor(unit, scale.unit) if unit != scale.unit else number
    step = max(round(_AROUND * abs(here) / scale.step), 1) * scale.step
    first = here - step if count == 3 and here - step >= scale.low else here
    return ", ".join(f"{tidy(first + each * step)} {scale.unit}".strip() for each in range(count))


def value_of(field: Field, text: str) -> str:
    """Give the value that a word of a choice stands for: what is shown counts as well as what a rig file has."""
    if not isinstance(field, Choice):
        return text
    shown: Mapping[str, str] = {words: value for value, words in field.options}
    return shown.get(text, text)
