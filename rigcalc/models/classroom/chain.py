"""A kind's equations worked one after the other, on numbers and on arrays of them; right, or with one slip made."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any, NamedTuple

import numpy as np

from rigcalc.core.equation import Equation
from rigcalc.core.units import parse
from rigcalc.equations import load_all
from rigcalc.models.classroom.kinds import Amount, Kind, Slip

_TIMES = re.compile(r"(-?[\d.]+)\*([a-z_]+)")
_OVER, _REST, _OVER_REST = (re.compile(text) for text in (r"1/([a-z_]+)", r"(\d)-([a-z_]+)", r"1/\(1-([a-z_]+)\)"))
_AS_IT_SHOULD_BE = Slip("", "")


def worked(kind: Kind, given: Mapping[str, Amount], slip: Slip = _AS_IT_SHOULD_BE) -> dict[str, Amount]:
    """Give every value of the chain by name: the given ones, each equation's result in the unit it gives, totals, shares."""
    values = dict(given)
    for name, unit in slip.unit.items():
        values[name] = Amount(values[name].number, unit)
    for step, eq, amounts in _steps(kind, values, slip):
        name = _book()[step].gives.name
        with np.errstate(all="ignore"):
            values[name] = Amount(eq.bare(**_numbers(eq, amounts)) * slip.scale.get(name, 1.0), eq.gives.unit)
    for total in kind.totals:
        first, *more = (values[name] for name in total.of)
        values[total.gives] = Amount(first.number + sum(each.in_(first.unit) for each in more), first.unit)
    for share in kind.shares:
        of = values[share.of]
        values[share.gives] = Amount(of.number / values[share.over].in_(of.unit), "")
    return values


class PutIn(NamedTuple):
    """One equation of the chain: the bare numbers that go into it, what they are before they are converted, and where from."""

    equation: Equation
    numbers: dict[str, float]
    amounts: dict[str, Amount]
    put: Mapping[str, str]


def put_in(kind: Kind, given: Mapping[str, Amount]) -> list[PutIn]:
    """Give each equation of the chain with what goes into it, for showing the working."""
    values = dict(given)
    out = []
    for step, (_, eq, amounts) in zip(kind.steps, _steps(kind, values, _AS_IT_SHOULD_BE), strict=True):
        numbers = _numbers(eq, amounts)
        values[eq.gives.name] = Amount(eq.bare(**numbers), eq.gives.unit)
        out.append(PutIn(eq, numbers, amounts, step.put))
    return out


def times_of(text: str) -> tuple[float, str] | None:
    """Give the factor and the name of a multiple such as "2*rolling_radius"; None for anything else."""
    match = _TIMES.fullmatch(text)
    return (float(match[1]), match[2]) if match else None


def answer(kind: Kind, given: Mapping[str, Amount], unit: str, slip: Slip = _AS_IT_SHOULD_BE) -> Any:
    """Give what is asked for, in `unit`, as it should be or as it comes out with a slip."""
    values = worked(kind, given, slip)
    found = values[slip.ask or kind.asked]
    if slip.rest:
        found = Amount(1 - found.in_("1"), "1")
    times = slip.factor
    for text in slip.times:
        times = times * _found(text, values).in_("1")
    return found.in_(unit) * times


def _steps(kind: Kind, values: Mapping[str, Amount], slip: Slip) -> Iterator[tuple[str, Equation, dict[str, Amount]]]:
    """Walk the chain; `values` grows while it is walked."""
    book = _book()
    for step in kind.steps:
        eq = book[slip.equation.get(step.equation, step.equation)]
        put = {**step.put, **slip.put}
        yield step.equation, eq, {s.name: _found(put.get(s.name, s.name), values) for s in eq.takes}


def _numbers(eq: Equation, amounts: Mapping[str, Amount]) -> dict[str, Any]:
    return {s.name: amounts[s.name].in_(s.unit) for s in eq.takes}


@cache
def _book() -> Mapping[str, Equation]:
    return load_all()


def _found(text: str, values: Mapping[str, Amount]) -> Amount:
    """Give a value by name, a multiple of it, one over it, what it leaves of one (or two), one over that, or a constant."""
    if text in values:
        return values[text]
    if match := _OVER.fullmatch(text):
        return Amount(1 / values[match[1]].in_("1"), "")
    if match := _REST.fullmatch(text):
        return Amount(int(match[1]) - values[match[2]].in_("1"), "")
    if match := _OVER_REST.fullmatch(text):
        return Amount(1 / (1 - values[match[1]].in_("1")), "")
    match = _TIMES.fullmatch(text)
    if match and match[2] in values:
        found = values[match[2]]
        return Amount(found.number * float(match[1]), found.unit)
    return Amount(*parse(text))
