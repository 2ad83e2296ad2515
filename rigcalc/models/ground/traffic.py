"""What else drives over a field: machines in passes so far apart, carts in lanes, loads that are hauled along the headland."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from rigcalc.core.errors import Fault, shown
from rigcalc.models.ground.given import number_given

MOST_TRAFFIC = 20
_APART, _WHEEL = (1.0, 300.0), (0.08, 2.0)  # m: a row to a long boom; a narrow tyre to a wide track
_LOAD, _CROP = (100.0, 100_000.0), (0.01, 30.0)  # kg of a load; kg/m2 of crop: a hundred kg to 300 t a hectare of beets
_NAME = r"(?:(?P<name>[^:\x00-\x1f\x7f-\x9f]{1,40}):)?\s*"
_TYRES = r",? (?P<count>[0-9]{1,2}) (?:tyre|tire|track|rut)s? of (?P<width>[^,]{1,40})"
_HOLDS = r"(?P<load>.{1,40}?) at (?P<crop>.{1,40}?)"
_PASSES = re.compile(rf"{_NAME}(?P<lanes>lanes )?\s*(?P<apart>.{{1,40}}?) apart{_TYRES}(?:, bin of {_HOLDS})?")
_TRIPS = re.compile(rf"{_NAME}trips of {_HOLDS}{_TYRES}")
TYPE = '"combine: 30 ft apart, 2 tyres of 30 in", or "cart: lanes 120 ft apart, 2 tyres of 42 in"'
_TRIP = '"cart: trips of 26000 lb at 9000 lb/acre, 2 tyres of 42 in"'


@dataclass(frozen=True)
class Traffic:
    """Something that drives over the field in passes so far apart (m), with ruts of so much width together (m).

    lanes: it keeps to lanes of its own, which the tool crosses lengthwise; else it goes all over. load: what a trip or a bin
    holds, kg, and crop: what comes off, kg/m2, NaN where nobody says. hauls: it makes trips along the headland alone, and has
    no passes (apart is infinite).
    """

    name: str
    apart: float
    ruts: float
    lanes: bool
    load: float = math.nan
    crop: float = math.nan

    @property
    def hauls(self) -> bool:
        """Whether it makes trips along the headland alone."""
        return math.isinf(self.apart)

    def trips(self, area: float) -> float:
        """Give how many loads an area in m2 makes; NaN where nobody says what a load is."""
        return self.crop * area / self.load

    def bin_length(self) -> float:
        """Give after how many m of a pass a bin is full."""
        return self.load / (self.crop * self.apart)


def machines(texts: Any, faults: list[Fault]) -> list[Traffic]:
    """Read what else drives there; what can't be read goes to `faults`."""
    if isinstance(texts, str) or not isinstance(texts, Sequence) or not all(isinstance(text, str) for text in texts):
        faults.append(Fault("traffic", shown(texts), "a list of texts", f"[{TYPE.split(',')[0]}, ...]"))
        return []
    if len(texts) > MOST_TRAFFIC:
        faults.append(Fault("traffic", f"{len(texts):,} machines", f"at most {MOST_TRAFFIC}", "those that weigh most"))
        return []
    out = []
    for place, text in enumerate(texts, 1):
        where, typed = f"traffic {place}", text.strip() if len(text) <= 300 else ""
        match = _TRIPS.fullmatch(typed) or _PASSES.fullmatch(typed)
        if match is None:
            expected = "how far apart it passes, and so many tyres of a width; or trips of a load"
            faults.append(Fault(where, shown(text), expected, f"{TYPE}, or {_TRIP}"))
            continue
        parts = match.groupdict()
        apart = number_given(parts["apart"], "m", _APART, f"{where}, apart", TYPE, faults) if "apart" in parts else math.inf
        ruts = int(parts["count"]) * number_given(parts["width"], "m", _WHEEL, f"{where}, width", TYPE, faults)
        load = crop = math.nan
        if parts["load"] is not None:
            load = number_given(parts["load"], "kg", _LOAD, f"{where}, load", _TRIP, faults)
            crop = number_given(parts["crop"], "kg/m**2", _CROP, f"{where}, crop", _TRIP, faults)
        if not 0 < ruts <= apart and not math.isnan(ruts + apart):
            faults.append(Fault(where, shown(text), "ruts that together are narrower than the passes are apart", TYPE))
        lanes = parts.get("lanes") is not None
        out.append(Traffic((parts["name"] or where).strip() or where, apart, ruts, lanes, load, crop))
    return out
