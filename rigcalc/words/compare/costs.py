"""Cost against chance of rigs that are compared: the prices that are typed, and which are missing."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown

EACH = ("money.tractor_price", "money.tool_price")  # of each rig, in one box
NEEDED = {"money.tractor_price": "price of each tractor", "money.tool_price": "price of each tool",
          "money.fuel_price": "price of fuel"}  # fmt: skip


def missing_text(typed: Mapping[str, str]) -> str:
    """Say which prices are missing; empty where all are typed."""
    missing = [text for path, text in NEEDED.items() if not typed.get(path, "").strip()]
    return f"Cost against chance is drawn once these are typed: {', '.join(missing)}." if missing else ""


def plan_of(typed: Mapping[str, str], count: int) -> dict[str, Any]:
    """Give the plan of a season by what is typed, prices parted by semicolons for each of `count` rigs.

    Raises InputError where there are neither one nor as many prices as rigs.
    """
    data: dict[str, Any] = {}
    each: list[dict[str, str]] = [{} for _ in range(count)]
    faults = []
    for path, text in typed.items():
        if not text.strip():
            continue
        if path in EACH and ";" in text:
            prices = [price.strip() for price in text.split(";")]
            if len(prices) != count or not all(prices):
                wanted = f"one price for all, or one for each of the {count} rigs"
                faults.append(Fault(path, shown(text), wanted, "400000; 350000"))
                continue
            for one, price in zip(each, prices, strict=True):
                one[path.rpartition(".")[2]] = price
            continue
        *way, last = path.split(".")
        part = data
        for name in way:
            part = part.setdefault(name, {})
        part[last] = text.strip()
    if faults:
        raise InputError(faults)
    if any(each):
        data.setdefault("money", {})["each"] = each
    return data


def box_of(where: str) -> str:
    """Give the box that a fault of the plan is about: a price of one rig stands in the box of all."""
    last = where.rpartition(".")[2]
    if where.startswith("money.each"):
        return f"money.{last}"
    return {"days": "days.share"}.get(where, where)


def page_hint(box: str, type_this: str) -> str:
    """Give what to type into a box, where the hint is one for a terminal or a plan file."""
    own = {"area": "3000 acre", "by": "15 Nov", "days.share": "50 percent"}
    return own.get(box, "") if "--" in type_this or " in [" in type_this else type_this
