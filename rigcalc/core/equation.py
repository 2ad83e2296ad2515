"""One equation: a plain function under a declaration, with a thin edge that checks and converts units.

The body is written in the units that its source prints and works on bare numbers and arrays. Calling the equation
takes quantities (or xarray objects that carry units) and gives the same kind back; `.bare` is the body itself.
"""

from __future__ import annotations

import functools
import sys
import warnings
from collections.abc import Callable, Iterator, Mapping, Sequence
from math import isfinite
from typing import Any, NoReturn

import numpy as np

from rigcalc.core.edge import MISSING, Known, short_way, unknown
from rigcalc.core.errors import DeclarationError, Fault, InputError, OutsideRange, shown
from rigcalc.core.nomenclature import Symbol
from rigcalc.core.sources import SURE, Source, sources
from rigcalc.core.tables import table_names
from rigcalc.core.units import canonical_unit
from rigcalc.core.values import (
    FINITE,
    REAL,
    apart,
    as_typed,
    factor_of,
    fits,
    in_unit,
    is_labelled,
    is_quantity,
    scaled,
    within,
)

BOOK: dict[str, Equation] = {}
_ndarray = np.ndarray


class Equation:
    """An equation of the book: called on quantities of any units and shapes, it gives a quantity. Made by `@equation`.

    Attributes
    ----------
    gives, takes : Symbol, tuple of Symbol
        The result and the arguments in order, each with the unit that the source prints.
    bare : callable
        The same on bare numbers and arrays, each in its declared unit, without any check.
    valid : mapping of str to tuple of float
        Name -> (low, high) in declared units, where the source gives a range.
    source, where, sure : Source, str, str
        The work, the place in it, and how sure the formula is.

    Raises
    ------
    InputError
        When called: for an argument that is missing, unknown, of another dimension or beyond what can be, all at once; with
        strict=True also for one outside `valid`.

    Examples
    --------
    >>> from rigcalc import Q, load_all
    >>> power = load_all()["drawbar_power"]
    >>> print(f"{power(Q(10_000.0, 'lbf'), Q(5.5, 'mph')).to('hp'):.2f~}")
    146.67 hp
    >>> power.gives.unit, float(power.bare(50.0, 9.0))
    ('kW', 125.0)
    """

    __name__: str

    def __init__(self, body: Callable[..., Any], gives: Symbol, takes: tuple[Symbol, ...], **about: Any):
        functools.update_wrapper(self, body)
        self.bare = body
        self.gives, self.takes = gives, takes
        self.valid: Mapping[str, tuple[float, float]] = about["valid"]
        self.source: Source = sources()[about["source"]]
        self.where: str = about["where"]
        self.sure: str = about["sure"]
        self.table: str = about["table"]
        self.numeric: bool = about["numeric"]
        self.fitted: bool = about.get("fitted", False)
        self.traced: bool = about["traced"]
        self.summary = (body.__doc__ or "").strip().split("\n")[0]
        self.__doc__ = _document(self, body.__doc__ or "")
        self._least = tuple(max(s.least, -FINITE) for s in takes)
        self._most = tuple(min(s.most, FINITE) for s in takes)
        self._known: Known = unknown(len(takes))
        self._seen: dict[tuple[Any, ...], Known] = {}

    def __call__(self, *args: Any, **kwargs: Any) -> Any:
        """Evaluate on quantities; see the equation's own text for units and errors.

        strict: True refuses values outside the range that the source gives; "warn" warns of them (OutsideRange). What is
        lazy isn't looked at.
        """
        # At its first call an equation gets a class of its own, whose __call__ is the short way: a book is loaded faster.
        call = short_way(self.bare, self._least, self._most)
        self.__class__ = type(type(self).__name__, (type(self),), {"__call__": call, "__module__": __name__})
        return call(self, *args, **kwargs)

    def _long_way(self, args: tuple[Any, ...], named: Mapping[str, Any]) -> Any:
        """Evaluate what the short way doesn't know yet: other units, other kinds, arguments by name; say what is wrong."""
        args = tuple(arg for arg in args if arg is not MISSING)
        strict = named.get("strict", False)
        if named or len(args) != len(self.takes):
            args = self._arrange(args, {name: value for name, value in named.items() if name != "strict"})
            if strict not in (True, False, "warn"):
                raise InputError([Fault(f"{self.__name__}: strict", shown(strict), 'True, False or "warn"', "strict=True")])
        if not all(map(is_quantity, args)):
            return self._labelled(args, strict) if any(map(is_labelled, args)) else self._refuse(args)
        self._known = kind, _, factors, unit = self._look_up(args)
        scales = factors or [None] * len(args)
        values = [scaled(arg._magnitude, scale) for arg, scale in zip(args, scales, strict=True)]
        if not all(map(fits, values, self._least, self._most)):
            raise self._out_of_bounds(values)
        if strict:
            self.hold_to_range(dict(zip((s.name for s in self.takes), values, strict=True)), strict)
        try:
            result = self._real(self.bare(*values), values)
        except (ArithmeticError, ValueError) as error:
            raise self._failed(error, values) from None
        return result if unit is None else kind(result, unit)

    def _real(self, result: Any, values: Sequence[Any]) -> Any:
        """Give a result that shares no memory with the arguments; refuse what is no number."""
        kind = result.__class__
        if kind is _ndarray:
            # One with a base is a view of another array, and one without may be an argument itself.
            if result.base is not None or any([result is value for value in values]):
                return result.copy()
        elif kind is float or isinstance(result, np.floating):
            if not isfinite(result):
                raise self._no_answer(values)
        elif np.iscomplexobj(result):
            raise self._no_answer(values)
        return result

    def numbers(self, *values: Any) -> Any:
        """Evaluate the body on bare numbers in the declared units (a picklable handle on `.bare`)."""
        return self.bare(*values)

    def outside(self, values: Mapping[str, Any]) -> list[str]:
        """Say, a sentence each, which bare `values` (declared units) leave the range that the source gives."""
        return [
            f"{words(self.__name__)}: {words(symbol.name)} {span}{unit} is outside {low:g} to {high:g}{unit},"
            f" the range of {self.source}."
            for symbol, span, unit, low, high in self._leaving(values)
        ]

    def range_faults(self, values: Mapping[str, Any]) -> list[Fault]:
        """Give a fault for each of bare `values` (declared units) that leaves the range of the source; lazy ones don't."""
        return [
            Fault(f"{self.__name__}: {symbol.name} ({symbol.text})", f"{span}{unit}",
                  f"{low:g} to {high:g}{unit}, the range of {self.source}")
            for symbol, span, unit, low, high in self._leaving(values)
        ]  # fmt: skip

    def hold_to_range(self, values: Mapping[str, Any], strict: Any = True) -> None:
        """Refuse bare `values` (declared units) outside the range that the source gives, or warn of them.

        strict: True raises InputError that names each; "warn" warns (OutsideRange). What is lazy isn't looked at.
        """
        faults = self.range_faults(values)
        if faults and strict == "warn":
            warnings.warn("; ".join(str(fault) for fault in faults), OutsideRange, stacklevel=_callers())
        elif faults:
            raise InputError(faults, title="Outside the range of the equation")

    def _leaving(self, values: Mapping[str, Any]) -> Iterator[tuple[Symbol, str, str, float, float]]:
        """Give (symbol, values as text, unit as text, low, high) of each argument that leaves its range."""
        for symbol in self.takes:
            if symbol.name in self.valid and symbol.name in values and not hasattr(values[symbol.name], "dask"):
                low, high = self.valid[symbol.name]
                value = np.asarray(values[symbol.name], dtype=float)
                if (value < low).any() or (value > high).any():
                    ends = dict.fromkeys(f"{end:.3g}" for end in (np.nanmin(value), np.nanmax(value)))
                    span = " to ".join(ends)
                    yield symbol, span, "" if symbol.unit == "1" else f" {symbol.unit}", low, high

    def __reduce__(self) -> str:
        """Pickle by name, so that workers of dask find the same object."""
        return self.__name__

    def __repr__(self) -> str:
        """Show the name and what goes in and out."""
        taken = ", ".join(f"{s.name} [{s.unit}]" for s in self.takes)
        return f"{self.__name__}({taken}) -> {self.gives.name} [{self.gives.unit}]"

    def _arrange(self, args: tuple[Any, ...], kwargs: Mapping[str, Any]) -> tuple[Any, ...]:
        names = [symbol.name for symbol in self.takes]
        given = dict(zip(names, args, strict=False))
        faults = [Fault(f"{self.__name__}: {k}", "an argument it doesn't take", f"one of {', '.join(names)}")
                  for k in kwargs if k not in names]  # fmt: skip
        faults += [Fault(f"{self.__name__}: {k}", "it twice", "it once") for k in kwargs if k in given]
        if len(args) > len(names):
            faults.append(Fault(self.__name__, f"{len(args)} arguments", f"{len(names)}: {', '.join(names)}"))
        given.update(kwargs)
        faults += [self._fault(symbol, "nothing") for symbol in self.takes if symbol.name not in given]
        if faults:
            raise InputError([*faults, *self._faults([(s, given[s.name]) for s in self.takes if s.name in given])])
        return tuple(given[name] for name in names)

    def _fault(self, symbol: Symbol, got: str) -> Fault:
        example = "Q(0.5)" if symbol.unit == "1" else f"Q(1.0, '{symbol.unit}')"
        unit = "a plain number as a quantity" if symbol.unit == "1" else f"a quantity that converts to {symbol.unit}"
        return Fault(f"{self.__name__}: {symbol.name} ({symbol.text})", got, unit, f"for example {example}")

    def _refuse(self, args: Sequence[Any]) -> NoReturn:
        raise InputError(self._faults(list(zip(self.takes, args, strict=True)))) from None

    def _faults(self, given: Sequence[tuple[Symbol, Any]]) -> Iterator[Fault]:
        """Say all that is wrong with arguments, each by itself: no unit, another dimension or registry, beyond what can be."""
        first = next(((symbol, arg) for symbol, arg in given if is_quantity(arg)), None)
        for symbol, arg in given:
            where = f"{self.__name__}: {symbol.name} ({symbol.text})"
            try:
                value = in_unit(arg, symbol.unit)
            except (InputError, AttributeError):
                if is_labelled(arg):
                    got = f"units {shown(str(arg.attrs['units']))}" if "units" in arg.attrs else "no units attribute"
                    typed = f'for example values.attrs["units"] = "{symbol.unit}"'
                    yield Fault(where, got, f"a unit that converts to {symbol.unit}", typed)
                else:
                    got = f"a quantity in {arg.units or 'no unit'}" if is_quantity(arg) else f"{shown(arg)}, which has no unit"
                    yield self._fault(symbol, got)
            else:
                yield from self._beyond(symbol, value.data if is_labelled(value) else value)
            if first and is_quantity(arg) and arg._REGISTRY is not first[1]._REGISTRY:
                yield Fault(where, f"a quantity of another pint registry than {first[0].name}", "all of one registry",
                            "pint.set_application_registry(yours) first")  # fmt: skip

    def _look_up(self, args: tuple[Any, ...]) -> Known:
        """Give (kind, units, factors, unit of the result), all of the registry that the arguments belong to."""
        home = args[0]._REGISTRY
        units = tuple([arg._units for arg in args])
        key = (home.Quantity, *units)
        same = all(arg._REGISTRY is home for arg in args)
        if same and key in self._seen:
            # with these very unit objects, so that the next call compares by identity
            return (home.Quantity, units, *self._seen[key][2:])
        try:
            scales = [factor_of(arg, symbol.unit) for symbol, arg in zip(self.takes, args, strict=True)]
        except InputError:
            self._refuse(args)
        if not same:
            self._refuse(args)
        factors = None if all(scale == 1.0 for scale in scales) else tuple(None if scale == 1.0 else scale for scale in scales)
        unit = None if self.gives.unit == "text" else home.Quantity(1.0, canonical_unit(self.gives.unit))._units
        known = self._seen[key] = (home.Quantity, units, factors, unit)
        return known

    def _out_of_bounds(self, values: Sequence[Any]) -> InputError:
        pairs = zip(self.takes, values, strict=True)
        return InputError([fault for symbol, value in pairs for fault in self._beyond(symbol, value)])

    def _beyond(self, symbol: Symbol, value: Any) -> Iterator[Fault]:
        """Say whether a bare value in the declared unit is no real number, or beyond what can be."""
        where = f"{self.__name__}: {symbol.name} ({symbol.text})"
        if isinstance(value, np.ndarray) and (value.__class__ is not _ndarray or value.dtype.kind not in REAL):
            masked = isinstance(value, np.ma.MaskedArray)
            yield Fault(where, "an array, masked" if masked else f"an array, of {value.dtype}",
                        "plain real numbers, NaN for a gap",
                        "values.filled(nan)" if masked else "np.asarray(values, float)")  # fmt: skip
        elif not within(value, max(symbol.least, -FINITE), min(symbol.most, FINITE)):
            unit = "" if symbol.unit == "1" else f" {symbol.unit}"
            most = f" and at most {symbol.most:g}{unit}" if symbol.most < FINITE else ""
            least = f"at least {symbol.least:g}{unit}" if symbol.least > -FINITE else "a finite number"
            yield Fault(where, f"{shown(value)}{unit}", f"{least}{most}, finite")

    def _no_answer(self, values: Sequence[Any]) -> InputError:
        """Say that these values, each possible by itself, make the formula divide by zero or leave the real numbers."""
        given = ", ".join(f"{symbol.name} {as_typed(value)}{'' if symbol.unit == '1' else ' ' + symbol.unit}"
                          for symbol, value in zip(self.takes, values, strict=True))  # fmt: skip
        return InputError([Fault(self.__name__, given, "values for which the formula has an answer (is one of them zero?)")])

    def _failed(self, error: Exception, values: Sequence[Any]) -> Exception:
        """Say in words why the formula failed on these values; an error that isn't about them stays what it is."""
        if isinstance(error, ArithmeticError):
            return self._no_answer(values)
        fault = apart(self.__name__, {s.name: np.shape(value) for s, value in zip(self.takes, values, strict=True)})
        return InputError([fault]) if fault else error

    def _labelled(self, args: tuple[Any, ...], strict: Any) -> Any:
        """Evaluate on xarray DataArrays; coordinates stay, dask-backed data stay lazy, `attrs["units"]` holds the unit."""
        import xarray

        try:
            numbers = [in_unit(arg, symbol.unit) for symbol, arg in zip(self.takes, args, strict=True)]
        except (InputError, AttributeError):
            self._refuse(args)
        # What is lazy can't be looked at; everything else is held to the same bounds as a quantity.
        values = [number.data if is_labelled(number) else number for number in numbers]
        if not all(map(within, values, self._least, self._most)):
            raise self._out_of_bounds(values)
        if strict:
            self.hold_to_range(dict(zip((s.name for s in self.takes), values, strict=True)), strict)
        result = xarray.apply_ufunc(self.numbers, *numbers, dask="parallelized", output_dtypes=[float])
        result.attrs = {"units": self.gives.unit, "long_name": self.gives.text}
        result.name = self.gives.name
        return result


def equation(
    *,
    gives: Symbol,
    takes: tuple[Symbol, ...],
    source: str,
    where: str = "",
    sure: str = "from memory",
    valid: Mapping[str, tuple[float, float]] | None = None,
    table: str = "",
    numeric: bool = False,
    fitted: bool = False,
    traced: bool = True,
) -> Callable[[Callable[..., Any]], Equation]:
    """Declare an equation.

    gives, takes: symbols, in the units that the source prints; `takes` equals the signature of the body.
    source, where: key in sources.toml and the place in that work. sure: one of `SURE`.
    valid: name -> (low, high) in declared units, as the source gives it.
    table: the reference table that holds its coefficients.
    numeric: the body holds bare constants with units, so no dimension proof exists; a published check is then a must.
    fitted: the body holds constants without units that a fit chose (0.88, 7.5), which no proof of dimensions can see; a
    published check is a must, or facts from elsewhere in tests/equations/fitted.toml.
    traced: False for lookups that can't be written as one formula.
    Raises DeclarationError at import when any of these doesn't hold together.
    """

    def declare(body: Callable[..., Any]) -> Equation:
        code = body.__code__
        names = code.co_varnames[: code.co_argcount]
        wrong = []
        if names != tuple(symbol.name for symbol in takes):
            wrong.append(f"the signature {names} differs from the symbols {tuple(s.name for s in takes)}")
        for symbol in (gives, *takes):
            if symbol.unit != "text":
                try:
                    canonical_unit(symbol.unit)
                except InputError:
                    wrong.append(f"{symbol.name}: the unit {symbol.unit} is not in the allow-list")
        if source not in sources():
            wrong.append(f"the source {source} is not in sources.toml")
        if table and table not in table_names():
            wrong.append(f"the table {table} is not in reference_tables")
        if sure not in SURE:
            wrong.append(f"'{sure}' is not one of {SURE}")
        wrong += [f"valid names {name}, which it doesn't take" for name in valid or {} if name not in names]
        if body.__name__ in BOOK and BOOK[body.__name__].__module__ != body.__module__:
            wrong.append("another equation has this name")
        if not body.__doc__ and sys.flags.optimize < 2:  # with -OO nothing has one
            wrong.append("it has no docstring")
        if wrong:
            raise DeclarationError(f"{body.__module__}.{body.__name__}: " + "; ".join(wrong))
        made = Equation(body, gives, takes, source=source, where=where, sure=sure, valid=dict(valid or {}),
                        table=table, numeric=numeric, fitted=fitted, traced=traced)  # fmt: skip
        BOOK[body.__name__] = made
        return made

    return declare


def words(name: str) -> str:
    """Give an identifier as words."""
    return name.replace("_", " ")


def _document(eq: Equation, text: str) -> str:
    lines = [text.strip(), "", "Takes (any shapes that broadcast):"]
    lines += [f"    {s.name} [{s.unit}]: {s.text}" for s in eq.takes]
    lines += [f"Gives {eq.gives.name} [{eq.gives.unit}]: {eq.gives.text}"]
    lines += ["Raises InputError for a bare number, a wrong dimension, or a value that can't exist."]
    lines += [f"Source ({eq.sure}): {eq.source}{', ' + eq.where if eq.where else ''}"]
    return "\n".join(lines)


def _callers() -> int:
    """Give the stack level, for a warning, of the first caller outside this folder."""
    level = 2
    while str(sys._getframe(level).f_globals.get("__name__")).startswith("rigcalc.core"):
        level += 1
    return level
