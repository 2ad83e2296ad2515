"""What somebody gives of the ground, typed or in the rig file: taken apart, with every fault kept."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.units import factor, parse
from rigcalc.models.ground.depth import probing
from rigcalc.models.ground.readings import resistance
from rigcalc.models.rig.rig import Rig


@contextmanager
def gathered(faults: list[Fault], entry: str = "") -> Iterator[None]:
    """Keep what a part refuses with the rest; entry: of the rig file, whose name goes before."""
    try:
        yield
    except InputError as error:
        own = entry.rpartition(".")[2]  # a fault of the whole entry has its name already
        faults += [
            replace(fault, where=entry if fault.where == own else f"{entry}: {fault.where}") if entry else fault
            for fault in error.faults
        ]


def own_ground(rig: Rig) -> dict[str, Any]:
    """Give what the rig file says of its flags, axles, slope, residue, traffic and what compaction costs."""
    ground = rig.ground
    said = {
        **{"flags": ground.flags, "flags_after": ground.flags_after, "axles": ground.axles, "residue": ground.residue},
        **{"field": ground.field, "headland": ground.headland, "traffic": ground.traffic},
        **{"slope": ground.slope, "passes_run": ground.passes_run, "loss": ground.yield_loss},
        **{"lasting": ground.yield_loss_lasting, "fades": ground.yield_loss_fades},
        **{"see": ground.trial_see, "scatter": ground.trial_scatter, "pairs": ground.trial_pairs},
        "share": None if ground.flags_under is None else ground.flags_under.to("1"),
        **{
            name: None if value is None else str(value)
            for name, value in (("cover", ground.residue_cover), ("keep", ground.residue_keep))
        },
    }
    return {name: value for name, value in said.items() if value is not None}


def own_names(found: list[Fault], own: Sequence[str]) -> list[Fault]:
    """Give faults with the name of their entry in the rig file, where what is wrong is one of its entries (`own`)."""
    out = []
    for fault in found:
        name = re.split("[ ,]", fault.where)[0]
        entry = f"ground.{name}"
        whole = entry if fault.where == name else f"{entry}: {fault.where}"
        out.append(replace(fault, where=whole) if name in own else fault)
    return out


def slope_text(typed: Any, own: dict[str, Any]) -> Any:
    """Give the slope as one text, typed before that of the rig file, with the way the passes run where one says it."""
    if typed is None and (steep := own.get("slope")) is not None:
        typed = str(steep) if steep.unit in ("percent", "deg") else f"{steep.to('deg'):.9g} deg"
    if isinstance(typed, str) and not typed.lower().endswith(("along", "across")):
        typed = f"{typed} {own.get('passes_run', '')}".strip()
    return typed


def number_given(
    text: Any, unit: str, span: tuple[float, float], where: str, example: str, faults: list[Fault]
) -> float:  # fmt: skip
    """Give a typed number in `unit`; NaN for what isn't one within the span, which is a fault."""
    try:
        value, own = parse(text)
        found = value * factor(own, unit)
    except (InputError, TypeError, ValueError):
        found = math.nan
    if not span[0] <= found <= span[1]:
        faults.append(Fault(where, shown(text), f"{span[0]:g} to {span[1]:,g} {unit}, with its unit", example))
        return math.nan
    return float(found)


def flags_given(flags: Any, faults: list[Fault], where: str = "flags") -> list[str]:
    """Give flags as a list of texts; none where they are something else, which is a fault."""
    if isinstance(flags, str) or not isinstance(flags, Sequence) or not all(isinstance(flag, str) for flag in flags):
        faults.append(Fault(where, shown(flags), "a list of texts", '["8 in to 12 in", "none"]'))
        return []
    return list(flags)


def limit_given(text: Any, faults: list[Fault]) -> float:
    """Give the limit that readings are held against in kPa; the usual one where what is typed is a fault."""
    try:
        value = resistance(text)
        if not probing("begins", "kPa") / 2 <= value <= 3 * probing("limit", "kPa"):
            raise InputError([Fault("limit", shown(text), "100 to 900 psi", '"300 psi" or "2 MPa"')])
    except InputError as error:
        faults += [Fault("limit", shown(text), fault.expected, '"300 psi" or "2 MPa"') for fault in error.faults]
        return probing("limit", "kPa")
    return value


def share_given(share: Any, faults: list[Fault]) -> float:
    """Give the share of the flags to get under; the usual one where nobody says, or where what is given is a fault."""
    if share is None:
        return probing("share", "1")
    good = isinstance(share, (int, float)) and not isinstance(share, bool) and math.isfinite(share) and 0 < share <= 1
    if not good:
        faults.append(Fault("share", shown(share), "a share above 0, up to 1", "0.8"))
        return probing("share", "1")
    return float(share)
