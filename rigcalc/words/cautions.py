"""The table of cautions in words: each text with its values put in, in either system of units."""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.core.sources import sources
from rigcalc.core.tables import table
from rigcalc.core.units import factor
from rigcalc.words.numbers import System, number

# The unit in which a value of the table, which is American, stands in a metric text.
_METRIC = {"in": "cm", "lb": "kg", "psi": "kPa", "mph": "km/h"}


@dataclass(frozen=True)
class _Value:
    """A value of a text: "12 in" or "30 cm", and the number alone where the text asks for it by {1:n}."""

    value: float
    unit: str
    system: System

    def __format__(self, how: str) -> str:
        """Write it; `how` is "n" for the number alone."""
        unit = self.unit if self.system == "us" else _METRIC[self.unit]
        figure = number(self.value, 4) if unit == self.unit else number(self.value * factor(self.unit, unit), 2)
        return figure if how == "n" else f"{figure} {unit}"


def caution_text(key: str, units: System) -> str:
    """Say a caution by its key in the table of cautions. Raises InputError for a key that is none."""
    row = table("cautions")[key]
    values = (row["value_1"], row["value_2"], row["value_3"])
    return str(row["text"]).format(key, *(_Value(value or 0.0, row["unit"], units) for value in values))


def caution_source(key: str) -> tuple[str, str]:
    """Give a caution's source in words and how sure it is."""
    row = table("cautions")[key]
    return str(sources()[row["source"]]), str(row["sure"])
