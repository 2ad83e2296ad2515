"""Numbers held against a limit, with so many digits that the two never read alike."""

from __future__ import annotations

from typing import Any

from rigcalc.words.numbers import System, number, percent, say


def percent_apart(share: Any, most: Any) -> tuple[str, str]:
    """Give two shares in percent with so many digits that they can be told apart.

    >>> percent_apart(0.1304, 0.13), percent_apart(0.2, 0.13)
    (('13.04 %', '13 %'), ('20 %', '13 %'))
    """
    for digits in range(2, 7):
        one, other = (f"{number(100 * float(each), digits)} %" if digits > 2 else percent(each) for each in (share, most))
        if one != other:
            break
    return one, other


def say_apart(value: Any, limit: Any, unit: str, system: System) -> tuple[str, str]:
    """Give a number and the limit that it is held against with so many digits that the two can be told apart.

    >>> say_apart(298.45, 298.28, "kW", "us")
    ('400.2 hp', '400 hp')
    """
    for digits in range(3, 7):
        one, other = say(value, unit, system, digits), say(limit, unit, system, digits)
        if one != other or value == limit:
            break
    return one, other


def share_used(share: Any) -> str:
    """Give the share of a limit that is used; one that is passed never reads as "100 %".

    >>> share_used(0.873), share_used(1.0), share_used(1.0027), share_used(1 + 1e-9)
    ('87 %', '100 %', '100.3 %', 'over 100 %')
    """
    for digits in range(2, 7):
        text = percent(share, digits) if digits < 3 else f"{number(100 * float(share), digits)} %"
        if share <= 1 or text != "100 %":
            return text
    return "over 100 %"
