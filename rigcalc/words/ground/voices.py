"""What several ways say of one draft: the table's answer, the rows behind it, the wedge before a tine; and where they part."""

from __future__ import annotations

from rigcalc.models.machine.tines import Voice, Voices
from rigcalc.words.numbers import System, say, to_shown

_NAMES = {"row": "its own row alone", "deep_row": "the subsoiler's row alone", "wedge": "the wedge of soil before each point"}


def voices_part(found: Voices, units: System) -> str:
    """Say that the wedge and the table part by more than their bands; empty where they don't."""
    if not found.apart or found.wedge is None:
        return ""
    more = "more" if found.wedge.low > found.table.high else "less"
    return (
        f"a second way of working out the draft (the wedge of soil before each point, {_band(found.wedge, units)}) says {more} "
        f"than the table even at the ends of both bands ({_band(found.table, units)}): pull one round and read the load before "
        "trusting either."
    )


def voices_lines(found: Voices, units: System) -> tuple[str, ...]:
    """Say what each way gives, in 8 of 10 cases; the wedge with what it rests on."""
    lines = [f"Draft by the table: {_likely(found.table, units)}"]
    lines[0] += "".join(f"; {_NAMES[row.name]} {_likely(row, units)}" for row in found.rows)
    if found.wedge is None or found.width is None:
        return (*lines, "No wedge for this tool: it is made for narrow points without wings")
    low, high = (say(end, "cm", units) for end in found.width)
    point = f"a point {low} wide" if low == high else f"a point {low} to {high} wide, since the rig file has none"
    where = "the bands part" if found.apart else "the bands overlap"
    lines.append(
        f"By {_NAMES['wedge']}: {_likely(found.wedge, units)}, low confidence ({point}; strength by texture and wetness from "
        f"memory, rake unknown, neighbours left out); {where}"
    )
    assert found.critical is not None
    first = found.critical[0]
    lines.append(
        "By the wedge the points lift all that they run under, in 9 of 10 cases"
        if first == float("inf")
        else f"By the wedge the critical depth may lie at {say(first, 'cm', units)} or deeper (9 in 10)"
    )
    return tuple(lines)


def _band(voice: Voice, units: System) -> str:
    unit = to_shown(voice.low, "kN", units)[1]
    return f"{say(voice.low, 'kN', units).removesuffix(f' {unit}')} to {say(voice.high, 'kN', units)}"


def _likely(voice: Voice, units: System) -> str:
    return f"{say(voice.likely, 'kN', units)} ({_band(voice, units)})"
