"""What kinds of problems there are: each a file in `kinds/`, read once.

A file has a title, the lesson and level, the text with {names} in it, hints, what is `asked` and its two units, `given`
spans for American and metric units, `pick`s of values that belong together, the `step`s through the equations of the book,
a `total` of some of their results, bounds `within` which a problem is physical, and common `slip`s, each a change to the steps
and what to say of it.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files
from typing import Any, Literal, NamedTuple

from rigcalc.core.errors import DeclarationError, InputError
from rigcalc.core.units import factor, parse

System = Literal["us", "si"]
SYSTEMS: tuple[System, System] = ("us", "si")
_SPAN = re.compile(r"(\S+) to (\S+) step (\S+)(?: (.+))?")
_KEYS = {"title", "lesson", "level", "text", "hints", "asked", "within", "source", "relative"}
_PARTS = {"given", "pick", "share", "step", "slip", "total"}
_RELATIVE = 0.01  # of the right answer: three figures, rounded at the end alone, stay within it


class Amount(NamedTuple):
    """A number, or an array of them, in a unit; "" is a plain number."""

    number: Any
    unit: str

    def in_(self, unit: str) -> Any:
        """Give the number in another unit. Raises InputError where it doesn't convert."""
        own, other = ("" if name == "1" else name for name in (self.unit, unit))
        return self.number if own == other else self.number * factor(own, other)


@dataclass(frozen=True)
class Span:
    """The round values that a given quantity may take."""

    values: tuple[float, ...]
    unit: str


@dataclass(frozen=True)
class Step:
    """One equation of the chain; `put` says where an argument comes from that has another name, or its constant."""

    equation: str
    put: Mapping[str, str]


@dataclass(frozen=True)
class Slip:
    """A common slip: what it changes in the chain, in which system it is made, and what to say of it.

    The result is taken times `factor` and times each plain value of `times`, such as "1-slip" or "1/slip".
    """

    key: str
    say: str
    only: str = ""
    put: Mapping[str, str] = field(default_factory=dict)
    unit: Mapping[str, str] = field(default_factory=dict)
    scale: Mapping[str, float] = field(default_factory=dict)
    equation: Mapping[str, str] = field(default_factory=dict)
    ask: str = ""
    factor: float = 1.0
    times: tuple[str, ...] = ()
    rest: bool = False


@dataclass(frozen=True)
class Share:
    """A ratio of two values of the chain, for a bound."""

    gives: str
    of: str
    over: str


@dataclass(frozen=True)
class Total:
    """A sum of values of the chain that measure the same, in the unit of the first."""

    gives: str
    of: tuple[str, ...]


@dataclass(frozen=True)
class Kind:
    """A kind of problem.

    `asked` is the name of the value asked for and `units` the unit it is asked in, by system; `given` has the spans by system
    and name; `picks` the sets of values that belong together, a text or an amount by name; `within` the bounds by name.
    """

    name: str
    title: str
    lesson: str
    level: int
    text: str
    hints: tuple[str, ...]
    asked: str
    units: Mapping[System, str]
    given: Mapping[System, Mapping[str, Span]]
    picks: Mapping[System, tuple[tuple[Mapping[str, Amount | str], ...], ...]]
    steps: tuple[Step, ...]
    totals: tuple[Total, ...]
    shares: tuple[Share, ...]
    within: Mapping[str, tuple[Amount, Amount]]
    slips: tuple[Slip, ...]
    relative: float
    source: str


@cache
def kinds() -> Mapping[str, Kind]:
    """Give every kind of problem by name, the easy ones first. Raises DeclarationError for a bad file."""
    found = []
    for path in (files("rigcalc.models.classroom") / "kinds").iterdir():
        if path.name.endswith(".toml"):
            found.append(read_kind(path.name.removesuffix(".toml"), path.read_text(encoding="utf-8")))
    return {kind.name: kind for kind in sorted(found, key=lambda kind: (kind.level, kind.name))}


def read_kind(name: str, text: str) -> Kind:
    """Read the file of a kind. Raises DeclarationError that says what is wrong with it."""
    from rigcalc.equations import load_all

    try:
        page = tomllib.loads(text)
        if unknown := sorted(set(page) - _KEYS - _PARTS):
            raise DeclarationError(f"unknown keys {', '.join(unknown)}")
        asked = page["asked"]
        kind = Kind(
            name=name,
            **{key: page[key] for key in ("title", "lesson", "level", "text", "source")},
            hints=tuple(page["hints"]),
            asked=asked["name"],
            units={system: asked[system] for system in SYSTEMS},
            given={
                system: {entry: _span(spans[system]) for entry, spans in page.get("given", {}).items()} for system in SYSTEMS
            },
            picks={system: tuple(_options(pick["values"], system) for pick in page.get("pick", [])) for system in SYSTEMS},
            steps=tuple(Step(step["equation"], step.get("put", {})) for step in page["step"]),
            totals=tuple(Total(total["gives"], tuple(total["of"])) for total in page.get("total", [])),
            shares=tuple(Share(**share) for share in page.get("share", [])),
            within={entry: _bounds(bounds) for entry, bounds in page.get("within", {}).items()},
            slips=tuple(Slip(**{**slip, "times": tuple(slip.get("times", ()))}) for slip in page.get("slip", [])),
            relative=page.get("relative", _RELATIVE),
        )
    except (KeyError, TypeError, ValueError) as error:
        raise DeclarationError(f"kind of problem {name}: {type(error).__name__} {error}") from None
    book = load_all()
    used = [step.equation for step in kind.steps] + [new for slip in kind.slips for new in slip.equation.values()]
    if missing := sorted(set(used) - set(book)):
        raise DeclarationError(f"kind of problem {name}: no equation named {', '.join(missing)}")
    return kind


def _span(text: str) -> Span:
    match = _SPAN.fullmatch(text)
    if match is None:
        raise DeclarationError(f"'{text}' is no span such as '6 to 14 step 1 in'")
    low, high, step = (float(match[at]) for at in (1, 2, 3))
    values = tuple(round(low + count * step, 9) for count in range(round((high - low) / step) + 1))
    return Span(values, parse(f"1 {match[4] or ''}")[1])


def _options(values: list[dict[str, Any]], system: System) -> tuple[Mapping[str, Amount | str], ...]:
    return tuple(
        {name: _value(value[system] if isinstance(value, dict) else value) for name, value in option.items()}
        for option in values
    )


def _value(text: str) -> Amount | str:
    try:
        return Amount(*parse(text))
    except InputError:
        if text[:1].isalpha():
            return text
        raise


def _bounds(text: str) -> tuple[Amount, Amount]:
    low, _, high = text.partition(" to ")
    return Amount(*parse(low)), Amount(*parse(high))
