"""The rigs of a comparison under their names: what can be used, and what can't with its faults."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from rigcalc.core.errors import InputError
from rigcalc.models.compare.alike import alike
from rigcalc.models.compare.answer import distinct
from rigcalc.models.compare.vary import Variation, varied
from rigcalc.models.rig.rig import Rig
from rigcalc.words.compare.names import variation_name


@dataclass
class Gathered:
    """The rigs that can be used, by name in order, and those that can't, each with its faults.

    at: for each name the place, among the rigs that were given, of the one it was made from.
    """

    rigs: dict[str, Rig] = field(default_factory=dict)
    left_out: dict[str, InputError] = field(default_factory=dict)
    at: dict[str, int] = field(default_factory=dict)


def gathered(given: Sequence[tuple[str, Rig | InputError]], ways: Sequence[Variation], same: str = "") -> Gathered:
    """Name and make every rig: each that was given, made alike to the first that can be used, in each of the variations.

    Raises InputError where `same` isn't known.
    """
    first = next((rig for _, rig in given if isinstance(rig, Rig)), None)
    if first is not None:
        alike(first, first, same)
    found: list[tuple[str, int, Rig | InputError]] = []
    for place, (name, rig) in enumerate(given):
        if isinstance(rig, InputError) or first is None:
            found.append((name, place, rig))
            continue
        for way in ways:
            parts = ([name] if len(given) > 1 or not way else []) + ([variation_name(way, rig)] if way else [])
            try:
                own = alike(rig, first, same)
                made: Rig | InputError = varied(own, way) if way else own
            except InputError as error:
                made = error
            found.append((", ".join(parts), place, made))
    out = Gathered()
    for name, (_, place, one) in zip(distinct([name for name, _, _ in found]), found, strict=True):
        out.at[name] = place
        if isinstance(one, InputError):
            out.left_out[name] = one
        else:
            out.rigs[name] = one
    return out
