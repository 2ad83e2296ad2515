"""What one more of an entry costs, in words: a line for each, and the derivative that stands behind it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from rigcalc.core.dimensions import by_hand
from rigcalc.core.units import factor
from rigcalc.models.size.costs import Cost
from rigcalc.words.numbers import SHOWN, System, number, to_shown

_ONE_MORE = {
    ("depth", "us"): "One inch deeper", ("depth", "si"): "One centimetre deeper",
    ("speed", "us"): "One mph faster", ("speed", "si"): "One km/h faster",
    ("tools", "us"): "One tool more", ("tools", "si"): "One tool more",
}  # fmt: skip
NO_FORMULAS = "The derivatives behind these lines need sympy: pip install 'rigcalc[working]'"


@dataclass(frozen=True)
class CostWords:
    """One entry's cost: the sentence, and the derivative of the draft formula with its value (empty without sympy)."""

    text: str
    formula: str


def cost_words(cost: Cost, units: System) -> CostWords:
    """Say what one more of an entry costs in draft and engine power."""
    target = SHOWN[cost.unit][0 if units == "us" else 1]
    scale = factor(target, cost.unit)  # one inch is 2.54 of the centimetres that the slope counts in
    parts = [f"draft {_more(cost.draft * scale, 'kN', units)}"]
    parts.append(f"engine {_more(cost.engine_power * scale, 'kW', units)}" if math.isfinite(cost.engine_power)
                 else "more than grip can pull")  # fmt: skip
    formula = cost.formula
    told = f"{formula.text} = {number(formula.value)} {by_hand(formula.unit)}" if formula else ""
    if formula and not math.isclose(float(formula.value) * factor("N", "kN"), cost.draft, rel_tol=0.01):
        told += ", by the table's row alone: the line above counts what moves draft off it"
    return CostWords(f"{_ONE_MORE[cost.entry, units]}: {', '.join(parts)}", told)


def _more(value: float, unit: str, units: System) -> str:
    found, shown = to_shown(value, unit, units)
    return f"{'+' if found >= 0 else '−'}{number(abs(found))} {shown}"
