"""What to measure first, in words: what to do, what hangs on it, and each entry with what was tried."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from rigcalc.models.size.answer import Answer
from rigcalc.models.size.first import LEAST_CHANCE, LEAST_ENGINE, LEAST_SLIP, Doubt, Outcome
from rigcalc.words.numbers import System, chance_short, number, percent, say
from rigcalc.words.quantities import OUT_OF_REACH
from rigcalc.words.size.sentence import JUDGEMENTS
from rigcalc.words.spelling import spelt
from rigcalc.words.tools import pieces

# What an entry is called, and what to do about it; {axle} is filled in, {pieces} is what the tool is counted in.
_ENTRIES = {
    "front_share": ("weight on the front axle", "Weigh the front axle"),
    "total_mass": ("weight of the tractor", "Weigh the tractor as it goes to work"),
    "front_axle_mass": ("mass on the front axle", "Weigh the front axle once more"),
    "rear_axle_mass": ("mass on the rear axle", "Weigh the rear axle once more"),
    "rated_power": ("power of the engine", "Have the engine's power tested on a brake"),
    "maximum_power": ("maximum power", "Look up the engine's maximum power"),
    "wheelbase": ("wheelbase", "Measure the wheelbase"),
    "drawbar_height": ("drawbar height", "Measure the height of the drawbar"),
    "hitch_behind_axle": ("hitch behind the axle", "Measure from the rear axle back to the hitch pin"),
    "center_of_gravity_height": ("height of the center of gravity", "Look up the height of the center of gravity"),
    "tyres": ("number of {axle} tyres", "Count the {axle} tyres"),
    "deflection_ratio": ("deflection of the {axle} tyres", "Measure the loaded radius of the {axle} tyres"),
    "contact_length": ("length of the {axle} tracks on the ground", "Measure how long the {axle} tracks lie on the ground"),
    "mass": ("weight of the tool", "Weigh the tool"),
    "hitch_load": ("tongue load", "Weigh the tongue of the tool"),
    "wheel_share": ("weight on the tool's own wheels", "Look how much of the tool its own wheels carry"),
    "texture": ("soil texture", "Have the soil's texture tested"),
    "sand": ("sand in the soil", "Have sand and clay tested by a laboratory"),
    "clay": ("clay in the soil", "Have sand and clay tested by a laboratory"),
    "cone_index": ("cone index of the ground", "Push a cone penetrometer into this ground"),
    "grade": ("slope", "Measure the slope"),
    "depth": ("depth", "Measure the depth behind the {pieces}"),
    "speed": ("speed", "Take the speed over the ground by a stopwatch or by satellite"),
}  # fmt: skip
_GIVEN = {"rule": "by rule", "nothing": "nothing taken", "typed": "as typed"}


@dataclass(frozen=True)
class FirstWords:
    """One entry in words. do: what to do; line: that and what hangs on it, one sentence; the rest are cells of a table.

    stands: its value and how it was given. tried: the values laid to it. verdict: judgements at those that differ, or empty.
    chance, slip, engine_load: from the least to the most.
    """

    entry: str
    name: str
    do: str
    line: str
    stands: str
    tried: str
    verdict: str
    chance: str
    slip: str
    engine_load: str


def first_words(answer: Answer, units: System) -> tuple[FirstWords, ...]:
    """Put every entry that was moved into words, in the answer's order."""
    return tuple(_words(doubt, answer, units) for doubt in answer.measure_first)


def first_lines(words: Iterable[FirstWords], answer: Answer) -> tuple[str, ...]:
    """Give the lines of the entries on which something hangs; one that says so where little hangs on any."""
    lines = tuple(said.line for said, doubt in zip(words, answer.measure_first, strict=True) if doubt.matters)
    return lines or ("Little hangs on any entry of this rig, each off by what is usual.",)


def idle_line(words: Iterable[FirstWords], answer: Answer) -> str:
    """Name what moves the answer little, in one line; empty where there is none."""
    idle = [said.name for said, doubt in zip(words, answer.measure_first, strict=True) if not doubt.matters]
    return f"Little hangs on: {', '.join(idle)}." if idle else ""


def _words(doubt: Doubt, answer: Answer, units: System) -> FirstWords:
    *_, part, key = doubt.entry.split(".")
    # Tracks without a front axle aren't rear ones.
    axle = "" if answer.rig.tractor.front is None and part == "rear" else f"{part} "
    named = {"axle ": axle, "pieces": pieces(answer.rig.implement.tool)}
    name, do = (spelt(_filled(text, named), units) for text in _ENTRIES[key])
    everything = (doubt.here, *doubt.ends)
    return FirstWords(
        entry=doubt.entry,
        name=name,
        do=do,
        line=f"{do}: {_hangs(doubt, units)}.",
        stands=f"{_value(doubt, doubt.here, units)}, {_GIVEN[doubt.given]}",
        tried=(" to " if doubt.unit and len(doubt.ends) == 2 else ", ").join(_value(doubt, end, units) for end in doubt.ends),
        verdict=", ".join(_verdicts(doubt, units)),
        chance=_span(sorted(each.chance for each in everything), chance_short),
        slip=_reach([each.slip for each in everything]),
        engine_load=_reach([each.engine_share for each in everything]),
    )


def _filled(text: str, named: dict[str, str]) -> str:
    return text.replace("{axle} ", named["axle "]).replace("{pieces}", named["pieces"])


def _hangs(doubt: Doubt, units: System) -> str:
    """Say what hangs on an entry: the verdict first, then how far the figures could move."""
    parts = []
    if doubt.verdicts:
        parts.append(f"the verdict hangs on it ({', '.join(_verdicts(doubt, units))})")
    elif doubt.out_of_reach:
        parts.append("whether grip is enough hangs on it")
    moves = []
    if doubt.chance >= LEAST_CHANCE:
        moves.append(f"the chance by {round(100 * doubt.chance)} in 100")
    if (doubt.slip or 0.0) >= LEAST_SLIP:
        moves.append(f"slip by {_points(doubt.slip)}")
    if (doubt.engine_load or 0.0) >= LEAST_ENGINE:
        moves.append(f"engine load by {_points(doubt.engine_load)}")
    if moves:
        listed = " and ".join(part for part in (", ".join(moves[:-1]), moves[-1]) if part)
        parts.append(f"it could move {listed}")
    return "; ".join(parts) or "little hangs on it"


def _verdicts(doubt: Doubt, units: System) -> list[str]:
    """Give each end whose judgement isn't the rig's own, with its value."""
    return [f"{JUDGEMENTS[end.judgement]} at {_value(doubt, end, units)}" for end in doubt.ends
            if end.judgement is not doubt.here.judgement]  # fmt: skip


def _value(doubt: Doubt, outcome: Outcome, units: System) -> str:
    if isinstance(outcome.value, str):
        return outcome.value
    if not doubt.unit:
        return number(outcome.value)
    return percent(outcome.value) if doubt.unit == "1" else say(outcome.value, doubt.unit, units)


def _points(share: float | None) -> str:
    points = number(100 * (share or 0.0), 2)
    return f"{points} point{'' if points == '1' else 's'}"


def _reach(shares: list[float | None]) -> str:
    known = sorted(share for share in shares if share is not None)
    text = _span(known, percent) if known else ""
    if len(known) == len(shares):
        return text
    return f"{text}, or {OUT_OF_REACH}" if text else OUT_OF_REACH


def _span(values: list[float], put: object) -> str:
    low, high = (put(value) for value in (values[0], values[-1]))  # type: ignore[operator]
    return low if low == high else f"{low} to {high}"
