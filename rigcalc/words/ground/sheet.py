"""The ground on the setup sheet: a few lines, and none where nobody has looked."""

from __future__ import annotations

import math

from rigcalc.models.ground import ground
from rigcalc.models.machine.wetness import ENTRIES
from rigcalc.models.rig.rig import Rig
from rigcalc.words.ground.answer import GroundWords
from rigcalc.words.ground.sentence import need_text
from rigcalc.words.numbers import System, capital, percent, say


def sheet_lines(rig: Rig, units: System) -> tuple[str, ...]:
    """Say what follows from the ground as it was seen and probed; empty where the rig file says neither.

    Raises InputError where flags or axles of the rig file can't be used.
    """
    if rig.ground.flags is None and all(getattr(rig.ground, name) is None for name in ENTRIES):
        return ()
    words = GroundWords(ground(rig), units)
    advice, shanks = words.answer.depth, words.answer.shanks
    lines = [f"{words.said.word}: {words.said.headline}"]
    if advice is not None and advice.with_layer:
        top, ends_in = say(advice.top[1], "cm", units), math.isfinite(advice.bottom[1])
        ends = f"{top} to {say(advice.bottom[1], 'cm', units)}" if ends_in else f"from {top} down"
        need = f"; {need_text(advice, units)} gets under it at {percent(advice.wanted)}" if advice.need is not None else ""
        lines.append(f"Layer in the middle of the flags: {ends}, at {advice.with_layer} of {advice.flags} flags{need}")
    lines.append(
        f"At {say(shanks.work, 'cm', units)} {percent(shanks.at(shanks.work, 'loosened'))} of the section is loosened, ridges "
        f"{say(shanks.at(shanks.work, 'ridge'), 'cm', units)} high: dig behind a shank and look"
    )
    wheels = next(each for each in words.questions if each.title.startswith("Do wheels"))
    lines.append(f"Do wheels put it back? {capital(wheels.text)}")
    return tuple(lines)
