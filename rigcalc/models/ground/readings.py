"""Probe readings: flags written down by hand, or the log of a recording cone. Read strictly; units are never guessed."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.units import factor, parse
from rigcalc.models.ground.layers import Floats, Layers, find_layers

MOST_FLAGS, MOST_SITES, MOST_POINTS = 1000, 50_000, 500
FEWEST_POINTS = 3
DEEPEST, HIGHEST = 200.0, 20_000.0  # cm; kPa, ten times what stops roots: beyond it is a slip of the unit or a stone
_EXAMPLE = '"8 in to 12 in", "8 in to 12 in, 350 psi", "none", "9 in to deeper" or "120 180 320 310 210 psi each 3 in"'
_RANGE = re.compile(r"\s*(.+?)\s+to\s+(.+?)\s*", re.ASCII | re.IGNORECASE)
_STEPS = re.compile(r"\s*([0-9.,;\s]+?)\s*([A-Za-z]+)\s+each\s+(.+?)\s*", re.ASCII | re.IGNORECASE)
_THREE = re.compile(r"\s*([0-9.]+)[\s/]+([0-9.]+)[\s/]+([0-9.]+)\s*([A-Za-z]+)\s*", re.ASCII)
_PEAK = re.compile(r"(?P<ends>.+?)\s*,\s*(?P<peak>[0-9][0-9.,]*\s*[A-Za-z]+)\s*", re.ASCII)
_DEEPER = ("deeper", "end", "the end")


@dataclass(frozen=True)
class Profiles:
    """Readings of many sites: a row each, depths in cm (rising), resistance in kPa, NaN behind the last."""

    names: tuple[str, ...]
    depth: Floats
    reading: Floats

    def __len__(self) -> int:
        """Count the sites."""
        return len(self.names)


@dataclass(frozen=True)
class Readings:
    """All that was read: sites with readings, and flags where the needle's passing in and out was written down."""

    profiles: Profiles | None
    by_hand: Layers | None

    def layers(self, limit: float) -> Layers:
        """Give the layer at every site, those of a log first. limit in kPa."""
        parts = []
        if self.profiles is not None:
            parts.append(find_layers(self.profiles.names, self.profiles.depth, self.profiles.reading, limit))
        if self.by_hand is not None:
            parts.append(self.by_hand)
        return parts[0] if len(parts) == 1 else parts[0].joined(parts[1])


@dataclass(frozen=True)
class _ByHand:
    """One flag: depths in cm (NaN for no layer, infinite for no end), the hardest place and reading where written down."""

    name: str
    top: float
    bottom: float
    hardest: float = np.nan
    peak: float = np.nan


def read_flags(texts: Sequence[str], limit: float = np.nan) -> Readings:
    """Read flags written by hand, several in one text parted by semicolons or lines.

    Each is "8 in to 12 in" (where the needle passes the limit and comes back), "8 in to 12 in, 350 psi" (and the most it
    showed), "8 10 12 in" (in, hardest, out), "9 in to deeper", "none", or values at equal steps, the first one step down:
    "120 180 320 310 210 psi each 3 in". limit: in kPa, which the most that it showed can't be under. Raises InputError with
    every fault at once.
    """
    pieces = [piece for text in texts for piece in re.split("[;\n]", text) if piece.strip()]
    faults: list[Fault] = []
    if not 1 <= len(pieces) <= MOST_FLAGS:
        raise InputError([Fault("flags", f"{len(pieces):,} of them", f"1 to {MOST_FLAGS}", f"--flag {_EXAMPLE}")])
    hand: list[_ByHand] = []
    logs: list[tuple[str, list[float], list[float]]] = []
    for place, piece in enumerate(pieces, 1):
        name = f"flag {place}"
        try:
            if (found := _STEPS.fullmatch(piece)) is not None:
                logs.append((name, *_steps(found[1], found[2], found[3])))
            else:
                hand.append(_flag(name, piece, limit))
        except InputError as error:
            faults += [Fault(name, shown(piece.strip()), fault.expected, fault.type_this) for fault in error.faults]
    if faults:
        raise InputError(faults)
    return Readings(profiles(logs) if logs else None, _by_hand(hand) if hand else None)


def _flag(name: str, text: str, limit: float) -> _ByHand:
    if (found := _THREE.fullmatch(text)) is not None:
        top, hardest, bottom = (length(f"{found[at]} {found[4]}") for at in (1, 2, 3))
        if not top <= hardest <= bottom or top == bottom:
            raise InputError(
                [Fault("flag", shown(text), "in, hardest and out, each deeper than the one before", '"8 10 12 in"')]
            )
        return _ByHand(name, top, bottom, hardest)
    found = _PEAK.fullmatch(text)
    top, bottom = _ends(text if found is None else found["ends"])
    if found is None:
        return _ByHand(name, top, bottom)
    peak = resistance(found["peak"])
    if np.isnan(top):
        return _ByHand(name, top, bottom)  # the most that it showed where it never passed the limit
    if peak < limit - 1e-9:
        expected = "at last the most that the needle showed, which is over the limit it passes"
        raise InputError([Fault("flag", shown(text), expected, '"8 in to 12 in, 350 psi"')])
    return _ByHand(name, top, bottom, peak=peak)


def _ends(text: str) -> tuple[float, float]:
    """Read where the limit is passed going in and coming out, in cm: NaN for no layer, infinity for no end."""
    if text.strip().lower() == "none":
        return np.nan, np.nan
    found = _RANGE.fullmatch(text)
    if found is None:
        raise InputError([Fault("flag", shown(text), "two depths, none, or values at equal steps", _EXAMPLE)])
    top = length(found[1])
    bottom = np.inf if found[2].lower() in _DEEPER else length(found[2])
    if bottom <= top:
        raise InputError([Fault("flag", shown(text), "the deeper depth last", '"8 in to 12 in"')])
    return top, bottom


def _steps(values: str, unit: str, step: str) -> tuple[list[float], list[float]]:
    if ";" in values or re.search(r"\d,\d", values):
        raise InputError([Fault("flag", shown(values), "values parted by blanks, with a point before decimals", _EXAMPLE)])
    each = length(step)
    readings = [resistance(f"{value} {unit}") for value in values.replace(",", " ").split()]
    depths = [each * place for place in range(1, len(readings) + 1)]
    if each <= 0:
        raise InputError([Fault("flag", shown(step), "a step above nothing", '"each 3 in"')])
    if len(readings) < FEWEST_POINTS or each * len(readings) > DEEPEST:
        raise InputError([Fault("flag", f"{len(readings)} values to {each * len(readings):g} cm",
                                f"at least {FEWEST_POINTS} values, down to {DEEPEST:g} cm at most", _EXAMPLE)])  # fmt: skip
    return depths, readings


def length(text: str) -> float:
    """Read a depth in cm. Raises InputError."""
    number, unit = parse(text)
    try:
        value = number * factor(unit, "cm")
    except InputError:
        value = -1.0
    if not unit or not 0 <= value <= DEEPEST:
        raise InputError([Fault("depth", shown(text), f"a depth with its unit, 0 to {DEEPEST:g} cm", '"8 in"')])
    return value


def resistance(text: str) -> float:
    """Read a resistance in kPa. Raises InputError."""
    number, unit = parse(text)
    try:
        value = number * factor(unit, "kPa")
    except InputError:
        value = -1.0
    if not unit or not 0 <= value <= HIGHEST:
        raise InputError([Fault("reading", shown(text), f"a resistance with its unit, 0 to {HIGHEST:g} kPa", '"300 psi"')])
    return value


def _by_hand(flags: Sequence[_ByHand]) -> Layers:
    """Give the layers of flags whose ends were written down. Where the hardest place isn't known the middle stands for it."""
    top, bottom, hardest, peak = (
        np.array([getattr(flag, name) for flag in flags]) for name in ("top", "bottom", "hardest", "peak")
    )
    open_below = np.isinf(bottom)
    middle = np.where(open_below, np.nan, (top + np.where(open_below, top, bottom)) / 2)
    return Layers(
        names=tuple(flag.name for flag in flags),
        found=np.isfinite(top),
        top=top,
        hardest=np.where(np.isfinite(hardest), hardest, middle),
        bottom=np.where(open_below, np.nan, bottom),
        peak=peak,
        chance=np.full(len(flags), np.nan),
        open_below=open_below,
        from_top=top <= 0,
    )


def profiles(sites: Iterable[tuple[str, Sequence[float], Sequence[float]]]) -> Profiles:
    """Put sites of unlike length together: (name, depths in cm, resistances in kPa) each.

    Readings are put in order of depth, and two at one depth are averaged. Raises InputError for what can't be, every fault.
    """
    sites = list(sites)
    if not 1 <= len(sites) <= MOST_SITES:
        raise InputError([Fault("sites", f"{len(sites):,} of them", f"1 to {MOST_SITES:,}")])
    made, faults = [], []
    for name, depths, readings in sites:
        depth, reading = np.asarray(depths, float), np.asarray(readings, float)
        where = f"site {shown(name)}"
        if depth.shape != reading.shape or depth.ndim != 1 or not np.isfinite(depth).all() or not np.isfinite(reading).all():
            faults.append(Fault(where, "depths and readings that don't go together", "one finite reading for each depth"))
            continue
        if depth.size and ((depth < 0).any() or (depth > DEEPEST).any()):
            faults.append(Fault(where, f"depths of {depth.min():.4g} to {depth.max():.4g} cm", f"0 to {DEEPEST:g} cm",
                                "the unit that the log has"))  # fmt: skip
        if reading.size and ((reading < 0).any() or (reading > HIGHEST).any()):
            faults.append(Fault(where, f"readings of {reading.min():.4g} to {reading.max():.4g} kPa", f"0 to {HIGHEST:g} kPa",
                                "the unit that the log has"))  # fmt: skip
        levels, at = np.unique(depth, return_inverse=True)
        if levels.size < FEWEST_POINTS or levels.size > MOST_POINTS:
            faults.append(Fault(where, f"readings at {levels.size} depths", f"{FEWEST_POINTS} to {MOST_POINTS} depths"))
        made.append(
            (name, levels, np.bincount(at, reading, levels.size) / np.maximum(np.bincount(at, minlength=levels.size), 1))
        )
    if faults:
        raise InputError(faults)
    widest = max(levels.size for _, levels, _ in made)
    depth, reading = np.full((len(made), widest), np.nan), np.full((len(made), widest), np.nan)
    for row, (_, levels, values) in enumerate(made):
        depth[row, : levels.size], reading[row, : levels.size] = levels, values
    return Profiles(tuple(str(name) for name, *_ in made), depth, reading)
