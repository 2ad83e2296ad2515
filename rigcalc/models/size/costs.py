"""What one more of an entry costs: the slope of draft and of engine power over depth, speed and the number of tools.

Draft's slope is the derivative of the book's formula, by sympy. Engine power hangs on draft through weight transfer, grip and
slip; its slope is that of the whole chain, solved a little further on: at the end of a range, where a deep chisel begins to
pull like a subsoiler, it is what comes next that counts.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from rigcalc.core.derivative import Slope, slope
from rigcalc.core.errors import InputError
from rigcalc.equations.draft import implement_draft
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.size.answer import Answer

ENTRIES = {"depth": "cm", "speed": "km/h", "tools": "1"}
_STEP = 1e-4  # share of an entry, further on


@dataclass(frozen=True)
class Cost:
    """What one more `unit` of an entry costs. draft in kN, engine_power in kW, for each; NaN where the rig can't pull.

    formula: the derivative of the draft formula; None where sympy isn't installed.
    """

    entry: str
    unit: str
    draft: float
    engine_power: float
    formula: Slope | None


def costs(answer: Answer) -> tuple[Cost, ...]:
    """Give what one more of depth, speed and tools costs at the answer's point."""
    b = answer.bare_rig
    values = {symbol.name: float(getattr(b, symbol.name)) for symbol in implement_draft.takes}
    return tuple(_cost(b, entry, values) for entry in ENTRIES if entry != "tools" or not b.by_width)


def _cost(b: BareRig, entry: str, values: dict[str, float]) -> Cost:
    here = values[entry]
    ends = np.array([here, here + 1]) if entry == "tools" else here * np.array([1, 1 + _STEP])
    point = solve(b.at(**{entry: ends}), want=("draft", "engine_power"))
    draft, power = (float(np.diff(value)[0] / np.diff(ends)[0]) for value in (point.draft, point.engine_power))
    try:
        formula = slope(implement_draft, entry, values)
    except InputError:  # no sympy here
        formula = None
    return Cost(entry, ENTRIES[entry], draft, power, formula)
