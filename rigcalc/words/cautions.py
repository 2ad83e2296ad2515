"""The table of cautions in words: each text with its values put in, in either system of units."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from rigcalc.core.sources import sources
from rigcalc.core.tables import table
from rigcalc.core.units import factor
from rigcalc.models.rig.rig import Rig
from rigcalc.models.size.drawbar import CAUTION, drawbar
from rigcalc.words.apart import say_apart
from rigcalc.words.numbers import System, number, say
from rigcalc.words.spelling import spelt
from rigcalc.words.tools import piece

# The unit in which a value of the table, which is American, stands in a metric text.
_METRIC = {"in": "cm", "ft": "m", "lb": "kg", "psi": "kPa", "mph": "km/h"}


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
    return spelt(str(row["text"]), units).format(key, *(_Value(value or 0.0, row["unit"], units) for value in values))


def caution_texts(keys: Iterable[str], rig: Rig, units: System) -> tuple[str, ...]:
    """Say the cautions of an answer about a rig: the one on the drawbar says what was entered, and whether that may be."""
    shanks = piece(rig.implement.tool) == "shank"
    texts = ((key, caution_text(key, units)) for key in keys)
    return tuple(f"{text} {_entered(rig, units)}" if key == CAUTION else text if shanks else text.replace("shanks", "tools")
                 for key, text in texts)  # fmt: skip


def _entered(rig: Rig, units: System) -> str:
    found = drawbar(rig)
    (height, most), tongue = say_apart(found.height, found.most_height, "cm", units), say(found.tongue, "kN", units)
    high = f"{say(found.height, 'cm', units, 2)} high"
    if found.too_high:
        high = f"{height} high, over the {most}: check it in the manual"
    if found.most_tongue is None:
        return f"Here: {high}; tongue load {tongue}, its limit isn't known: see the manual."
    tongue, limit = say_apart(found.tongue, found.most_tongue, "kN", units)
    return f"Here: {high}; tongue load {tongue}{' is over the' if found.too_heavy else ' of'} {limit}."


def caution_source(key: str) -> tuple[str, str]:
    """Give a caution's source in words and how sure it is."""
    row = table("cautions")[key]
    cited = [str(sources()[row[name]]) for name in ("source", "also") if row[name]]
    return " and ".join(cited), str(row["sure"])
