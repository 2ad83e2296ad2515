"""The application's unit registry, the allow-list of unit names, and strict reading of `14 in`.

pint is loaded at the first quantity, not at import. Only the names of `ALLOWED` are read from files, the terminal and
the app: pint knows thousands, and several (`Nm`, `ton`, `hp`, `pint`) are not what a farmer means by them.
"""

from __future__ import annotations

import math
import re
import threading
from functools import cache
from typing import TYPE_CHECKING, Any

from rigcalc.core.errors import Fault, InputError, shown

if TYPE_CHECKING:
    from fractions import Fraction

    import pint

# Name -> (what it measures, its size in SI base units). A test holds each size against pint's own.
ALLOWED: dict[str, tuple[str, float]] = {
    "m": ("length", 1.0), "cm": ("length", 0.01), "mm": ("length", 0.001), "km": ("length", 1000.0),
    "in": ("length", 0.0254), "ft": ("length", 0.3048), "yd": ("length", 0.9144), "mi": ("length", 1609.344),
    "acre": ("area", 4046.8726098742513), "ha": ("area", 1e4),
    "L": ("volume", 1e-3), "gal": ("volume", 0.003785411784),
    "kg": ("mass", 1.0), "g": ("mass", 1e-3), "t": ("mass", 1e3), "lb": ("mass", 0.45359237), "ton": ("mass", 907.18474),
    "N": ("force", 1.0), "kN": ("force", 1e3), "lbf": ("force", 4.4482216152605),
    "Pa": ("pressure", 1.0), "kPa": ("pressure", 1e3), "MPa": ("pressure", 1e6), "bar": ("pressure", 1e5),
    "psi": ("pressure", 6894.757293168361),
    "W": ("power", 1.0), "kW": ("power", 1e3), "hp": ("power", 745.6998715822702),
    "metric_horsepower": ("power", 735.49875),
    "s": ("time", 1.0), "min": ("time", 60.0), "h": ("time", 3600.0), "day": ("time", 86400.0),
    "mph": ("speed", 0.44704),
    "deg": ("angle", math.pi / 180), "rad": ("angle", 1.0), "rpm": ("turning speed", 2 * math.pi / 60),
    "percent": ("share", 0.01),
    "degC": ("temperature", 1.0), "degF": ("temperature", 5 / 9),
    "delta_degC": ("temperature difference", 1.0), "delta_degF": ("temperature difference", 5 / 9),
}  # fmt: skip

# Powers of length, mass, time and temperature in each kind. Angles and shares are plain numbers, as pint counts them.
KINDS: dict[str, tuple[int, int, int, int]] = {
    "length": (1, 0, 0, 0), "area": (2, 0, 0, 0), "volume": (3, 0, 0, 0), "mass": (0, 1, 0, 0), "time": (0, 0, 1, 0),
    "force": (1, 1, -2, 0), "pressure": (-1, 1, -2, 0), "power": (2, 1, -3, 0), "speed": (1, 0, -1, 0),
    "angle": (0, 0, 0, 0), "turning speed": (0, 0, -1, 0), "share": (0, 0, 0, 0),
    "temperature": (0, 0, 0, 1), "temperature difference": (0, 0, 0, 1),
}  # fmt: skip
OFFSET = ("degC", "degF")  # their zero isn't zero

# Other spellings that people type, and what each is read as.
SPELLINGS: dict[str, str] = {
    "inch": "in", "inches": "in", "feet": "ft", "foot": "ft", "ac": "acre", "acres": "acre", "%": "percent",
    "lbs": "lb", "gallon": "gal", "gallons": "gal", "liter": "L", "litre": "L", "liters": "L", "litres": "L", "l": "L",
    "hours": "h", "hour": "h", "hr": "h", "days": "day", "degree": "deg", "degrees": "deg", "PS": "metric_horsepower",
    "yards": "yd", "miles": "mi", "mile": "mi", "tonne": "t", "tonnes": "t", "kph": "km/h", "kmh": "km/h",
}  # fmt: skip

GRAVITY = 9.80665  # m/s2, standard gravity (exact by definition, CGPM 1901)

# A comma parts thousands and nothing else: "0,250" is refused, for half the world reads it as a quarter.
_NUMBER = r"[+-]?(?:(?:\d+|[1-9]\d{0,2}(?:,\d{3})+)(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?"
_COMMA = re.compile(r"\s*([+-]?\d+),(\d+)(?![\d,])")
_TYPED = re.compile(
    rf"\s*(?P<number>{_NUMBER})\s*(?P<unit>(?:(?<=\s)1 ?/ ?)?[A-Za-z_%°][\w%°²³*/^. ]*)?\s*", re.ASCII | re.IGNORECASE
)
_NAME = re.compile(r"[A-Za-z_%]+")
_RAISED = re.compile(r"(?<=[A-Za-z])([23](?!\d)|[²³])")  # m2, cm3, m³: as people write powers
_AS_DIGIT = str.maketrans("²³", "23")
# Powers, products and quotients of names; a group in brackets stands under a slash alone, as in N/(m*cm).
_POWER = r"(?:[A-Za-z_]+(?:\*\*-?\d)?|1)"
_UNIT = re.compile(rf"{_POWER}(?: ?\* ?{_POWER}| ?/ ?{_POWER}| ?/ ?\({_POWER}(?: ?\* ?{_POWER})*\))*")
_PART = re.compile(r"([*/()](?!\*))|([A-Za-z_]+)(?:\*\*(-?\d))?")

_lock = threading.Lock()
_ready: Any = None  # the registry that was last given out; it is whole


def registry() -> pint.UnitRegistry[Any]:
    """Give the application's registry: the one that the host set with pint, at whatever time, or else pint's own default.

    rigcalc defines nothing in it and never sets another. Whoever asks first has the default made, with a disk cache.
    """
    global _ready
    import pint

    found = pint.get_application_registry().get()  # type: ignore[no-untyped-call]
    if found is not _ready:
        with _lock:  # the default is half made for a moment, and looks whole
            if type(found).__name__ == "LazyRegistry":
                _wake(found, pint)
            _ready = found
    return found  # type: ignore[no-any-return]


def _wake(lazy: Any, pint: Any) -> None:
    """Make pint's default registry as pint would at first use, but from a disk cache: a fifth of a second less."""
    kind, kept = type(lazy), dict(lazy.__dict__)
    if kept == {"params": ((), {})}:
        try:
            lazy.__dict__["params"] = ((), {"cache_folder": _cache_folder(pint)})
            lazy.UnitsContainer  # noqa: B018 (any name wakes it)
        except OSError:  # no home to write to; made without
            object.__setattr__(lazy, "__class__", kind)
            lazy.__dict__.clear()
            lazy.__dict__.update(params=((), {}))
        else:
            return
    lazy.UnitsContainer  # noqa: B018


def _cache_folder(pint: Any) -> str:
    """Give a folder for this very copy and version of pint.

    Its own common one holds paths into whichever copy came first, and fails once that environment is removed.
    """
    import hashlib
    from pathlib import Path

    from platformdirs import user_cache_dir

    copy = hashlib.sha256(f"{pint.__file__} {pint.__version__}".encode()).hexdigest()[:12]
    return str(Path(user_cache_dir("rigcalc", appauthor=False)) / f"pint-{copy}")


def Q(value: Any, unit: str = "") -> Any:
    """Make a pint quantity of the application's registry.

    Parameters
    ----------
    value : float or array_like
        A number, or numbers of any shape; dask arrays stay lazy.
    unit : str, optional
        Names of the allow-list joined by * and /, such as "in", "km/h", "N/(m*cm)"; empty for a plain number.

    Returns
    -------
    pint.Quantity
        Of the registry that `pint.get_application_registry()` gives, so that it adds to the program's own quantities.

    Raises
    ------
    InputError
        For what is no number, and for a unit that isn't known: pint knows thousands, and several aren't what a farmer
        means by them.

    Examples
    --------
    >>> round(Q(14, "in").to("cm").magnitude, 9)
    35.56
    >>> Q([5.0, 6.0], "mph").shape
    (2,)
    """
    if getattr(value, "dtype", None) is not None and value.dtype.kind in "iu":
        value = value * 1.0  # small whole numbers would wrap around in a product
    name = canonical_unit(unit)
    try:
        made = registry().Quantity(value, name)
    except (TypeError, ValueError):
        made = None
    held = getattr(made, "_magnitude", "")
    if isinstance(held, (str, bytes)) or getattr(getattr(held, "dtype", None), "kind", "f") in "OSUMm":
        raise InputError([Fault("quantity", shown(value), "a number or numbers", _as_numbers(value, name))])
    return made


def _as_numbers(value: Any, unit: str) -> str:
    """Say what to type instead of what is no number or numbers."""
    if hasattr(value, "to_numpy"):  # of pandas, say
        return f"Q(values.to_numpy(float), {unit!r})"
    if hasattr(value, "__len__") and not isinstance(value, (str, bytes)):
        return f"Q(np.asarray(values, float), {unit!r})"
    try:
        number, name = parse(value)
    except InputError:
        return "Q(14, 'in')"
    return f"Q({number:g}, {name or unit!r})"


def canonical_unit(unit: str) -> str:
    """Give `unit` in the spelling that pint reads, or refuse it with the names that are known.

    Raises InputError when a name in it is not in the allow-list.
    """
    text = unit.strip()
    if text in ("", "1"):
        return ""
    if "." in text or "°" in text:
        raise _unknown_unit(unit, text)
    text = _RAISED.sub(lambda power: f"**{power[1].translate(_AS_DIGIT)}", text.replace("^", "**"))
    out = _NAME.sub(lambda match: SPELLINGS.get(match.group(), match.group()), text)
    for name in _NAME.findall(out):
        if name not in ALLOWED:
            raise _unknown_unit(unit, name)
    if not _UNIT.fullmatch(out):
        raise InputError([Fault("unit", shown(unit), "names joined by * and /, with ** for a power", "for example N/(m*cm)")])
    return out


def _unknown_unit(unit: str, name: str) -> InputError:
    groups: dict[str, list[str]] = {}
    for known, (kind, _) in ALLOWED.items():
        groups.setdefault(kind, []).append(known)
    names = "; ".join(f"{kind}: {' '.join(known)}" for kind, known in groups.items())
    return InputError([Fault("unit", shown(unit), f"a unit made of known names ({shown(name)} is not one)", names)])


def parse(text: str) -> tuple[float, str]:
    """Read `14 in` strictly: one finite number, then a unit of the allow-list (or none).

    Gives (number, unit as pint spells it). Raises InputError; it never guesses.

    >>> parse("1,400 lb/ac")
    (1400.0, 'lb/acre')
    """
    match = _TYPED.fullmatch(text) if isinstance(text, str) and len(text) <= 80 else None
    if match is None and isinstance(text, str) and (comma := _COMMA.match(text[:80])):
        pointed = f"{comma[1]}.{comma[2]}{text[comma.end() : 80]}"
        raise InputError([Fault("quantity", shown(text), "a number and its unit, with a point before decimals", pointed)])
    if match is None:
        raise InputError([Fault("quantity", shown(text), "a number and its unit", "for example 14 in")])
    number = float(match["number"].replace(",", ""))
    if not math.isfinite(number):
        raise InputError([Fault("quantity", shown(text), "a finite number and its unit", "for example 14 in")])
    return number, canonical_unit(match["unit"] or "")


def plain_number(text: str) -> float:
    """Read a bare finite number as strictly as `parse` reads one with a unit. Raises InputError."""
    number, unit = parse(text)
    if unit:
        raise InputError([Fault("number", shown(text), "a number without a unit", "10")])
    return number


def whole_number(text: str) -> int:
    """Read a whole number typed in the digits 0 to 9, such as 13. Raises InputError."""
    if not re.fullmatch(r"\s*[+-]?[0-9]{1,15}\s*", text):
        raise InputError([Fault("number", shown(text), "a whole number", "13")])
    return int(text)


def weight_of(mass: Any) -> Any:
    """Give the weight in kN of a mass in kg, numbers or arrays."""
    return mass * GRAVITY / 1000


def mass_of(weight: Any) -> Any:
    """Give the mass in kg whose weight in kN this is, numbers or arrays."""
    return weight / GRAVITY * 1000


@cache
def factor(unit: str, to: str) -> float:
    """Give the factor that turns numbers in `unit` into numbers in `to`. Offset units are refused.

    Worked from the sizes in `ALLOWED`, as fractions that are rounded once: pint isn't loaded, and what a host may have
    defined in its registry doesn't enter. Raises InputError when the two don't measure the same thing.

    >>> factor("mph", "km/h")
    1.609344
    """
    source, target = _parts(canonical_unit(unit)), _parts(canonical_unit(to))
    if _dimension(source) != _dimension(target):
        raise InputError([Fault("unit", shown(unit), f"a unit that converts to {to or 'a plain number'}")])
    if any(name in OFFSET for name in (*source, *target)):
        raise InputError([Fault("unit", shown(unit), "a unit without an offset", "delta_degC for a difference")])
    return float(_size(source) / _size(target))


def per(unit: str, by: str) -> str:
    """Give the unit of one `unit` for each `by`, in the spelling that pint reads.

    >>> per("kW", "km/h")
    'kW*h/km'
    """
    powers = _parts(canonical_unit(unit))
    for name, power in _parts(canonical_unit(by)).items():
        powers[name] = powers.get(name, 0) - power
    above = "*".join(_raised(name, power) for name, power in powers.items() if power > 0)
    return (above or "1") + "".join(f"/{_raised(name, -power)}" for name, power in powers.items() if power < 0)


def dimension(unit: str) -> tuple[int, ...]:
    """Give the powers of length, mass, time and temperature in a unit.

    >>> dimension("kN*m")
    (2, 1, -2, 0)
    """
    return _dimension(_parts(canonical_unit(unit)))


def _raised(name: str, power: int) -> str:
    return name if power == 1 else f"{name}**{power}"


def _parts(unit: str) -> dict[str, int]:
    """Give name -> power of a canonical unit."""
    powers: dict[str, int] = {}
    sign, inside = 1, False
    for mark, name, power in _PART.findall(unit):
        if mark in ("*", "/") and not inside:
            sign = -1 if mark == "/" else 1
        elif mark in ("(", ")"):
            inside = mark == "("
        elif name:
            powers[name] = powers.get(name, 0) + sign * int(power or 1)
    return powers


def _dimension(parts: dict[str, int]) -> tuple[int, ...]:
    total = [0] * 4
    for name, power in parts.items():
        total = [a + power * b for a, b in zip(total, KINDS[ALLOWED[name][0]], strict=True)]
    return tuple(total)


def _size(parts: dict[str, int]) -> Fraction:
    from fractions import Fraction

    size = Fraction(1)
    for name, power in parts.items():
        size *= Fraction(repr(ALLOWED[name][1])) ** power
    return size
