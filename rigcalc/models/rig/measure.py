"""A measure in a rig file: the text as it was typed, read strictly, with its number at hand in any unit."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import PydanticCustomError, core_schema

from rigcalc.core.errors import InputError, shown
from rigcalc.core.units import Q, factor, parse
from rigcalc.models.rig.written import plainly


@dataclass(frozen=True)
class Measure:
    """A number with its unit. `text` is what was typed; two measures are equal when they are the same text."""

    text: str
    value: float
    unit: str

    def to(self, unit: str) -> float:
        """Give the bare number in `unit`. A slope in percent becomes an angle by its tangent."""
        if unit == "deg" and self.unit == "percent":
            return math.degrees(math.atan(self.value / 100))
        return self.value if unit == self.unit else self.value * factor(self.unit, unit)

    @property
    def quantity(self) -> Any:
        """Give the measure as a pint quantity."""
        return Q(self.value, self.unit)

    def __str__(self) -> str:
        """Give the text as typed."""
        return self.text

    @classmethod
    def of(cls, value: float, unit: str, digits: int = 6) -> Measure:
        """Make a measure from a number, typed with so many significant digits."""
        text = f"{value:.{digits}g} {unit}".strip()
        return cls(text, float(f"{value:.{digits}g}"), unit)


# In the unit of its field. Closer bounds have reasons of their own; beyond these, products of such numbers overflow.
_SMALLEST, _LARGEST = 1e-9, 1e9
MOST_DIGITS = 15  # a text of more holds the leavings of a sum, such as 0.30000000000000004; it is kept to 12, as it is shown
_POINTED = re.compile(r"\s*\+?([1-9]\d{0,2})\.(\d{3})(?![\d.])")
# What is typed by mistake for what, the likeliest first.
_SLIPS: dict[str, tuple[str, ...]] = {
    "mm": ("m", "cm", "in"), "cm": ("m", "in", "mm"), "m": ("cm", "mm", "in", "ft"), "in": ("ft", "cm", "m", "mm"),
    "ft": ("in", "cm", "m"), "W": ("kW", "hp"), "kW": ("W", "hp"), "hp": ("kW", "W"), "g": ("kg", "lb"), "kg": ("g", "t", "lb"),
    "t": ("kg", "lb"), "ton": ("lb", "kg"), "lb": ("ton", "kg"), "N": ("kN", "lbf"), "kN": ("N", "lbf"), "lbf": ("kN", "N"),
    "Pa": ("kPa", "psi"), "kPa": ("Pa", "psi", "bar"), "bar": ("psi", "kPa"), "psi": ("kPa", "bar"), "MPa": ("kPa", "bar"),
    "m/s": ("km/h", "mph"), "km/h": ("m/s", "mph"), "mph": ("km/h", "m/s"), "L": ("gal",), "gal": ("L",),
    "ha": ("acre",), "acre": ("ha",), "deg": ("percent",),
}  # fmt: skip


@dataclass(frozen=True)
class Kind:
    """What a field of a rig file may hold: the unit that it must convert to, its bounds, and what to type.

    usual: from the smallest to the largest that any farm has, wide enough that no real machine is refused; why says where
    that span is from. What lies outside is a slip of the unit or the point, and is asked about. Nothing (0) is held to the
    bounds alone.
    """

    unit: str
    example: str
    least: float | None = None
    most: float | None = None
    above: float | None = None
    usual: tuple[float, float] | None = None
    why: str = ""

    def read(self, value: Any) -> Measure:
        """Read `value` strictly. Raises a pydantic error whose text says what was expected and what to type."""
        if isinstance(value, Measure):
            value = value.text
        if isinstance(value, (int, float)) and not isinstance(value, bool) and self.unit == "1":
            value = f"{value!r}"
        if not isinstance(value, str):
            what = "a bare number has no unit" if isinstance(value, (int, float)) else "not a text"
            raise self._wrong(value, f"a number with its unit as text ({what})")
        plain = plainly(value)
        try:
            number, unit = parse(plain)
            measure = Measure(plain.strip(), number, unit)
            self._hold_apart(value, number, unit)
            if sum(letter.isdigit() for letter in value) > MOST_DIGITS:
                measure = Measure.of(number, unit, digits=12)
            # pint counts angles as plain numbers, so "20 deg" would pass for a share and "0.1" for an angle.
            if (self.unit == "1") != (unit in ("", "percent")) and not (self.unit == "deg" and unit == "percent"):
                raise self._wrong(value, self._wanted())
            converted = measure.to(self.unit)
        except InputError as error:
            fault = error.faults[0]
            if fault.where == "quantity":
                about = (
                    fault.expected.replace("a number and its unit", self._wanted(), 1) if self.unit == "1" else fault.expected
                )
                raise self._wrong(value, about, f'"{fault.type_this}"' if "point" in fault.expected else "") from None
            raise self._wrong(value, fault.expected if "known names" in fault.expected else self._wanted()) from None
        if converted and not _SMALLEST <= abs(converted) <= _LARGEST:
            raise self._wrong(value, f"{self._wanted()}, neither vanishing nor beyond anything that stands in a yard")
        low = self.least if self.least is not None else self.above
        too_low = (self.least is not None and converted < self.least) or (self.above is not None and converted <= self.above)
        if too_low or (self.most is not None and converted > self.most):
            unit = "" if self.unit == "1" else f" {self.unit}"
            span = f"{'at least' if self.least is not None else 'above'} {low:g}{unit}" if low is not None else ""
            upper = f"at most {self.most:g}{unit}" if self.most is not None else ""
            raise self._wrong(value, " and ".join(part for part in (span, upper) if part))
        if converted and self.usual is not None and not self.usual[0] <= converted <= self.usual[1]:
            raise self._wrong(value, self._asked(converted), self._meant(number, unit))
        return measure

    def _hold_apart(self, typed: str, number: float, unit: str) -> None:
        """Ask about a point before three figures where it may part thousands: a thousand times as much would be usual too.

        Decimals seldom end in a nothing that is typed; where they don't, a number that is usual itself is taken as it stands.
        """
        if self.usual is None or (found := _POINTED.match(typed)) is None:
            return
        low, high = self.usual
        one = number * factor(unit, self.unit)
        if low <= 1000 * one <= high and (found[2].endswith("0") or not low <= one <= high):
            whole = f"{found[1]},{found[2]} {unit}"
            raise self._wrong(typed, "a comma between thousands, or fewer figures behind the point",
                              f'"{whole}", or "{number:g} {unit}"')  # fmt: skip

    def _asked(self, converted: float) -> str:
        unit = "" if self.unit == "1" else f" {self.unit}"
        assert self.usual is not None
        return f"{self.usual[0]:g} to {self.usual[1]:g}{unit} ({self.why}); this is {converted:.3g}{unit}"

    def _meant(self, number: float, unit: str) -> str:
        """Ask whether the same number was meant in another unit, where that would be usual."""
        assert self.usual is not None
        for other in _SLIPS.get(unit, ()):
            try:
                inside = self.usual[0] <= number * factor(other, self.unit) <= self.usual[1]
            except InputError:
                continue
            if inside:
                return f'"{number:.6g} {other}", if that is what you meant, or such as "{self.example}"'
        return ""

    def _wanted(self) -> str:
        return "a plain number or a percentage" if self.unit == "1" else f"a number with a unit that converts to {self.unit}"

    def _wrong(self, value: Any, expected: str, type_this: str = "") -> PydanticCustomError:
        about = {"got": shown(value), "expected": expected, "type_this": type_this or f'"{self.example}"'}
        return PydanticCustomError("measure", "got {got}; expected {expected}. Type {type_this}", about)

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> core_schema.CoreSchema:
        """Tell pydantic to read with `read` and to write the text as typed."""
        return core_schema.no_info_plain_validator_function(
            self.read, serialization=core_schema.plain_serializer_function_ser_schema(str)
        )

    def __get_pydantic_json_schema__(self, schema: core_schema.CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        """Describe the field in the JSON Schema."""
        about: dict[str, Any] = {"type": "string", "examples": [self.example], "x-unit": self.unit}
        about |= {k: v for k, v in (("x-least", self.least), ("x-most", self.most), ("x-above", self.above)) if v is not None}
        if self.usual is not None:
            about |= {"x-usual": list(self.usual), "x-usual-why": self.why}
        return about
