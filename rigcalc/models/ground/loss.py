"""What is known of the yield that compaction costs, and how it fades: a span over published trials, or what somebody types."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.tables import table
from rigcalc.models.ground.layers import Floats

Span = tuple[float, float]
_YEARS = 12  # that are shown; trials went on for as long
_MOST = {"percent": 1.0, "year": 50.0}
_UNITS = {"percent": ("percent", "%"), "year": ("year", "years")}
_ENTRIES = {"loss": "ground.yield_loss", "lasting": "ground.yield_loss_lasting", "fades": "ground.yield_loss_fades"}
_SPAN = re.compile(
    r"(?P<low>[0-9]{1,3}(?:\.[0-9]{1,9})?)(?:\sto\s(?P<high>[0-9]{1,3}(?:\.[0-9]{1,9})?))?\s?(?P<unit>[a-z%]{1,8})", re.ASCII
)
_ROWS = {"loss": "first", "lasting": "lasting", "fades": "years"}


@dataclass(frozen=True)
class Loss:
    """Yield lost where wheels ran, as shares (low, high): in the first year, for good, and the years in which the rest fades.

    deep: an axle presses beyond what is known to be gone within two years. typed: names of what somebody typed. wheeled: share
    of the field that wheels ran over, NaN where nobody says. years: 1 and on; low and high: the loss in each, where wheels ran.
    """

    deep: bool
    first: Span
    lasting: Span
    fades: Span
    typed: tuple[str, ...]
    wheeled: float
    years: Floats
    low: Floats
    high: Floats

    @property
    def known(self) -> bool:
        """True where there are figures: an axle presses deep, or somebody typed the first year's loss."""
        return self.deep or "loss" in self.typed

    @property
    def in_all(self) -> Span:
        """What the years together cost where wheels ran, in yields of one year."""
        return float(self.low.sum()), float(self.high.sum())


def yield_loss(typed: Mapping[str, Any], own: Mapping[str, Any]) -> Loss:
    """Give the span of the loss: as typed, else as the rig file says (`own`), else by the table yield_loss.

    loss and lasting: "6 to 30 percent" of the yield where wheels ran, or one number; fades: "5 to 10 years". What isn't lasting
    falls evenly from the first year on, to nothing after those years (our choice: trials tell the ends, not the way). Raises
    InputError with every fault.
    """
    faults: list[Fault] = []
    texts = {name: own.get(name) if text is None else text for name, text in typed.items()}
    where = {name: name if typed[name] is not None else _ENTRIES[name] for name in typed}
    first, stays, years = (_span(name, texts[name], where[name], faults) for name in ("loss", "lasting", "fades"))
    if not faults and texts["lasting"] is None:
        stays = (min(stays[0], first[0]), min(stays[1], first[1]))  # the table's end over a typed one says nothing
    if not faults and (stays[0] > first[0] or stays[1] > first[1]):
        faults.append(
            Fault(where["lasting"], shown(texts["lasting"]), "at neither end more than in the first year", '"0 to 2.5 percent"')
        )
    if faults:
        raise InputError(faults)
    at = np.arange(1.0, _YEARS + 1)
    curves = [end + (begin - end) * np.clip(1 - (at - 1) / fade, 0.0, None)
              for begin, end, fade in zip(first, stays, years, strict=True)]  # fmt: skip
    known = tuple(name for name, text in texts.items() if text is not None)
    return Loss(False, first, stays, years, known, math.nan, at, curves[0], curves[1])


def _span(name: str, text: Any, where: str, faults: list[Fault]) -> Span:
    row = table("yield_loss")[_ROWS[name]]
    unit = str(row["unit"])
    scale = 100.0 if unit == "percent" else 1.0
    if text is None:
        return row["low"] / scale, row["high"] / scale
    found = _SPAN.fullmatch(text.strip()) if isinstance(text, str) else None
    values = [math.nan] if found is None or found["unit"] not in _UNITS[unit] else [
        float(each) / scale for each in (found["low"], found["high"]) if each is not None
    ]  # fmt: skip
    least = 1.0 if unit == "year" else 0.0
    if not least <= values[0] <= values[-1] <= _MOST[unit]:
        expected = f"{least:g} to {_MOST[unit] * scale:g} {unit}"
        example = f'"{row["low"]:g} to {row["high"]:g} {unit}"'
        faults.append(Fault(where, shown(text), f"{expected}, one number or the lower one first", example))
        return 0.0, 0.0
    return values[0], values[-1]
