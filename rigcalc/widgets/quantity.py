"""A quantity to enter: a box that takes any unit, a slider, two steps. What comes out is a pint quantity."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

import traitlets

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.units import Q, parse
from rigcalc.core.values import factor_of
from rigcalc.widgets.controls import number_state
from rigcalc.widgets.entries import system_of, tidy
from rigcalc.widgets.fields import Number, Scale
from rigcalc.widgets.part import Part, script


class _Given(traitlets.TraitType[Any, Any]):
    """A trait of any kind that `None` doesn't slip through unseen, as it does through traitlets' own."""

    default_value = None


class QuantityEntry(Part):
    """A number with its unit. Its trait `value` is a pint quantity, in the unit in which it was entered or set.

    Whoever types may use any unit that converts; the box keeps what was typed and says the same in `unit` beside it. What
    can't be used leaves `value` as it was: then `valid` is False, and `fault` (below the box too) says what to type.

    Parameters
    ----------
    value : quantity, text such as "12 in", or number in `unit`
        Where it starts.
    unit : str
        What `number`, `low`, `high`, `step` are in, and what a number typed alone is taken for. That of `value` if not given.
    low, high, step : float
        Ends and steps of the slider, in `unit`. Nothing outside the ends is taken. A hundred steps if `step` is not given.
    usual : (float, float)
        The usual range, in `unit`: shown at the slider; outside it the entry is marked and taken all the same.
    description, help : str
        What stands above and below.

    Attributes
    ----------
    value : quantity
        What was entered, in the unit of the entry: pint converts where it is used. It can be set to anything that the
        parameter takes, and linked with another of its kind, whatever its unit.
    number : float
        The same as a bare number in `unit`; the one trait that a link in the browser (`jslink`) can hold. Beyond the ends it
        stops there, as a slider does.
    valid, fault : bool, str
        Whether what stands in the box is `value`, and if not, why.

    Raises
    ------
    InputError
        When made: for a value without a unit, of another dimension or outside the ends, or ends that aren't in order.
    TraitError
        When set: for a value that can't be taken; the old one stays.

    Examples
    --------
    >>> depth = QuantityEntry("12 in", low=4, high=20, step=0.5, description="Depth")
    >>> depth.value
    <Quantity(12.0, 'inch')>
    >>> depth.value = Q(38.1, "cm")
    >>> depth.number
    15.0
    """

    _esm = script("wear.js", "names.js", "number.js", "quantity.js")
    number: traitlets.Float[float, float] = traitlets.Float(0.0).tag(sync=True)
    spec = traitlets.Dict().tag(sync=True)
    state = traitlets.Dict().tag(sync=True)
    value = _Given()
    unit = traitlets.Unicode("", read_only=True)
    low = traitlets.Float(0.0)
    high = traitlets.Float(1.0)
    step = traitlets.Float(0.01)
    description = traitlets.Unicode("")
    valid = traitlets.Bool(True)
    fault = traitlets.Unicode("")

    def __init__(
        self,
        value: Any,
        *,
        low: float,
        high: float,
        step: float | None = None,
        unit: str = "",
        usual: tuple[float, float] | None = None,
        description: str = "",
        help: str = "",
        **traits: Any,
    ):
        self._usual, self._help, self._text = usual, help, ""
        ends = all(isinstance(end, int | float) and math.isfinite(end) for end in (low, high))
        if not ends or not low < high or (step is not None and not 0 < step <= high - low):
            got = f"low={shown(low)}, high={shown(high)}, step={shown(step)}"
            raise InputError(
                [Fault("ends of the slider", got, "low below high, and a step that fits between", "low=4, high=20")]
            )
        about = {"low": float(low), "high": float(high), "step": float(step or (high - low) / 100)}
        given = _unit_of(value)
        self.set_trait("unit", parse(f"1 {unit}")[1] if unit else given)
        super().__init__(description=description, **about, **traits)
        started, self._text = self._read(value)
        self._take(started)
        self._declare()
        self.on_msg(self._heard)
        self.observe(lambda _change: self._declared_anew(), names=["description", "low", "high", "step"])

    def type(self, text: str) -> None:
        """Take what somebody typed, as the box does; what can't be used is said in `fault`."""
        try:
            entered, self._text = self._read(text)
        except InputError as error:
            self._text = text
            told = error.faults[0]
            with self.hold_sync():
                self.valid = False
                self.fault = (
                    f"Expected {told.expected}, such as {told.type_this}. Until then it stays {self._said(self.number)}."
                )
                self._show()
            return
        self._take(entered)

    def _take(self, entered: Any) -> None:
        with self.hold_sync(), self.hold_trait_notifications():
            self.valid, self.fault = True, ""
            self.number, self.value = self._bare(entered), entered
            self._show()

    def _bare(self, quantity: Any) -> float:
        number = float(quantity.magnitude * factor_of(quantity, self.unit or "1"))
        return float(f"{number:.12g}")  # 38.1 cm are 15 in, not 15.000000000000002

    def _read(self, given: Any) -> tuple[Any, str]:
        """Give (quantity, text for the box) of a quantity, a text or a number in `unit`. Raises InputError."""
        example = self._said(min(max(self.number, self.low), self.high))
        expected = f"a quantity from {self._said(self.low)} to {self._said(self.high)}"
        fault = InputError([Fault(self.description or "value", shown(str(given)), expected, example)])
        text = ""
        try:
            if hasattr(given, "_units") and hasattr(given, "_magnitude"):
                quantity, text = given, f"{tidy(float(given.magnitude), 6)} {given.units:~}".strip()
            elif isinstance(given, str):
                bare, unit = parse(given)
                quantity, text = (
                    _quantity(bare, unit or self.unit),
                    given.strip() if unit or not self.unit else self._said(bare),
                )
            elif isinstance(given, int | float) and not isinstance(given, bool):
                quantity, text = _quantity(float(given), self.unit), self._said(given)
            else:
                raise fault
            number = self._bare(quantity)
        except Exception:  # what pint and Python raise over odd units and numbers has no base in common
            raise fault from None
        slack = 1e-9 * max(abs(self.low), abs(self.high))
        if not self.low - slack <= number <= self.high + slack:  # NaN too
            raise fault
        return quantity, text

    def _said(self, number: float) -> str:
        return f"{tidy(number, 6)} {self.unit}".strip()

    @traitlets.validate("value")
    def _fits(self, proposal: Any) -> Any:
        try:
            return self._read(proposal.value)[0]
        except InputError as error:
            raise traitlets.TraitError(str(error)) from None

    @traitlets.observe("value")
    def _valued(self, change: Any) -> None:
        if self._bare(change.new) != self.number or not self.valid:
            self._text = self._read(change.new)[1]
            self._take(change.new)

    @traitlets.validate("number")
    def _holds(self, proposal: Any) -> float:
        # It comes from a link in the browser: what lies beyond the ends stops there, as a slider does.
        number = float(proposal.value)
        return min(max(number, self.low), self.high) if math.isfinite(number) else self._bare(self.value)

    @traitlets.observe("number")
    def _numbered(self, change: Any) -> None:
        if self.value is not None and self._bare(self.value) != change.new:
            self._text = self._said(change.new)
            self._take(_quantity(change.new, self.unit))

    @traitlets.validate("low", "high")
    def _in_order(self, proposal: Any) -> float:
        low = proposal.value if proposal.trait.name == "low" else self.low
        high = proposal.value if proposal.trait.name == "high" else self.high
        if not low < high:
            raise traitlets.TraitError(
                f"low={low:g}, high={high:g}: expected low below high; set the one that makes room first"
            )
        return float(proposal.value)

    def _declared_anew(self) -> None:
        self._declare()
        self.number = min(max(self.number, self.low), self.high)  # an end that moved takes the value along

    # what the browser is shown

    def _field(self) -> Number:
        scale = Scale(self.unit, self.low, self.high, self.step)
        usual = (*self._usual, self.unit) if self._usual else None
        return Number("value", self.description, scale, scale, self._help, valid=usual, why="outside the usual range")

    def _declare(self) -> None:
        self.spec = {"kind": "number", "path": "value", "label": self.description or "value", "help": self._help}
        self._show()

    def _show(self) -> None:
        system = system_of(self.unit) or "us"
        state = number_state(self._field(), self._text, system, system, self.fault)
        self.state = {**state, "number": self.number}  # the browser compares the two

    def _heard(self, _widget: object, message: Mapping[str, Any], _buffers: object) -> None:
        if isinstance(message, Mapping) and message.get("kind") == "edit":
            try:
                self.type(str(message.get("text", ""))[:200])
            finally:
                self.send({"kind": "done"})


def _quantity(number: float, unit: str) -> Any:
    return Q(float(number), unit) if unit else Q(float(number))


def _unit_of(value: Any) -> str:
    """Give the unit that a starting value brings, in the book's spelling."""
    if isinstance(value, str):
        return parse(value)[1]
    return parse(f"1 {value.units:~}")[1] if hasattr(value, "_units") and not value.unitless else ""
