"""What is said after the pass: whether it worked, how sure that is, and what a strip trial can show."""

from __future__ import annotations

import math
from collections.abc import Callable

from rigcalc.models.ground.trial import FALSE_ALARM, MOST, POWER, Trial
from rigcalc.models.ground.worked import Result, Worked
from rigcalc.models.machine.judgement import Judgement
from rigcalc.words.numbers import System, chance, percent, say
from rigcalc.words.said import Said

_WORDS = {Judgement.GO: "It worked", Judgement.TRY: "Not sure", Judgement.DONT: "It didn't work"}
_SAME = "Probe when the ground is as moist as before: wetter ground reads softer, drier ground harder, without any shank."


def say_worked(found: Worked, units: System) -> Said:
    """Say whether the pass lifted the layer, and what to do where it didn't."""
    word = "In part" if found.result is Result.PARTLY else _WORDS[found.judgement]
    headline, *rest = _SAYS[found.result](found, units)
    return Said(word, headline, (*rest, *([] if found.result is Result.WATER else [_SAME])))


def worked_lines(found: Worked, units: System) -> tuple[str, ...]:
    """Give what was read before and after, a line each."""
    lines = [f"Before: a layer at {_of(found.before)} flags. After: at {_of(found.after)}"]
    if found.before[0]:
        change = f"{_gone(found)} of it is gone" if found.gone >= 0 else "there is more of it than before"
        lines.append(f"By the shares of flags {change}; {percent(found.wanted)} was wanted")
        lines.append(
            f"Chance that at least half of it is gone: {chance(found.chance)} (every share held for equally likely beforehand)"
        )
    if found.after[0]:
        work = say(found.work, "cm", units)
        lines.append(f"Layers after that begin above the {work} of the pass: {found.inside}; under it: {found.below}")
    if all(map(math.isfinite, found.peaks)):
        one, two = (say(peak, "kPa", units) for peak in found.peaks)
        lines.append(f"Hardest in the layer, in the middle of the flags: {one} before, {two} where there is one after")
    if math.isfinite(found.beneath):
        how = "softer" if found.beneath >= 0 else "harder"
        lines.append(f"Ground under the pass, which no shank touched, reads {say(abs(found.beneath), 'kPa', units)} {how}")
    else:
        lines.append("Whether water moved the readings isn't known: logs before and after that reach well below the pass tell")
    lines.append("Probe on the lines of the shanks and between them, and away from wheels; this says nothing of the yield")
    return tuple(lines)


def trial_lines(trial: Trial) -> tuple[str, ...]:
    """Say how many strips a difference takes, or what so many strips show; nothing is promised of the yield."""
    low, high = trial.scatter
    span = percent(low) if low == high else f"{percent(low)} to {percent(high)}"
    lines = []
    if trial.see is not None and trial.needed is not None:
        lines.append(f"To see {percent(trial.see)} of the yield: {_pairs(trial.needed)} of strips, with the pass and without")
        if trial.pairs is not None:
            says = {
                True: "are enough for that",
                False: "are too few for that: what they show may be chance",
                None: "may do or may not",
            }
            lines.append(f"{trial.pairs} pairs {says[trial.enough]}")
    if trial.shows is not None:
        one, two = map(percent, trial.shows)
        least = one if one == two else f"{one} to {two}"
        lines.append(f"The least that {trial.pairs} pairs show: {least} of the yield")
    lines.append(
        f"Shown means: seen in {percent(POWER)} of such trials, and {percent(FALSE_ALARM)} of trials show what isn't there "
        "(common practice)"
    )
    known = "as typed" if trial.known else "from memory, low confidence: a year of strips worked alike says it of your field"
    lines.append(f"The two strips of a pair differ by {span} of the yield for no reason (standard deviation, {known})")
    lines.append("Draw lots in each pair for which strip is worked. A trial may well show no gain; none is promised")
    return tuple(lines)


def _pairs(needed: tuple[int | None, int | None]) -> str:
    low, high = (f"over {MOST}" if end is None else f"{end}" for end in needed)
    return f"{low} pairs" if low == high else f"{low} to {high} pairs"


def _of(count: tuple[int, int]) -> str:
    return f"{count[0]} of {count[1]}"


def _still(found: Worked) -> str:
    if not found.after[0]:
        return f"no layer at any of {found.after[1]} flags, at {_of(found.before)} before the pass"
    return f"a layer is still there at {_of(found.after)} flags, {_of(found.before)} before the pass"


def _why(found: Worked, units: System) -> str:
    work = say(found.work, "cm", units)
    if found.below > found.inside:
        return f"Most of it begins under {work}: the pass was too shallow, or ran below where the points break soil."
    return (
        f"Most of it begins above {work}, in ground that the shanks went through: too wet to break, shanks too far apart, or "
        "pressed together again by wheels. Dig across the pass and look."
    )


def _more(found: Worked) -> str:
    return f"Too few flags to say: {2 * max(found.before[1], found.after[1], 5)} each time tell more."


def _yes(found: Worked, units: System) -> tuple[str, ...]:
    sure = "" if math.isfinite(found.beneath) else ", if the ground was as moist both times"
    return (f"{_still(found)}{sure}. {_half_gone(found)}",)


def _gone(found: Worked) -> str:
    """Say what share is gone; where that is less than was wanted, never rounded up to what was wanted."""
    return percent(min(found.gone, found.wanted - 0.01) if found.result is Result.PARTLY else found.gone)


def _half_gone(found: Worked) -> str:
    return f"Chance that at least half of it is gone: {chance(found.chance)}."


_SAYS: dict[Result, Callable[[Worked, System], tuple[str, ...]]] = {
    Result.YES: _yes,
    Result.PARTLY: lambda found, units: (
        f"{_still(found)}: {_gone(found)} of it is gone, {percent(found.wanted)} was wanted.",
        _why(found, units),
    ),
    Result.NO: lambda found, units: (
        f"{_still(found)}. {_half_gone(found)}",
        _why(found, units),
    ),
    Result.UNSURE: lambda found, units: (
        f"{_still(found)}. {_half_gone(found)}",
        _more(found),
    ),
    Result.NOTHING: lambda found, units: (
        f"none of {found.before[1]} flags had a layer before the pass, so there was nothing to lift.",
    ),
    Result.WATER: lambda found, units: (
        f"{_still(found)}, but ground under the pass, which no shank touched, reads {say(abs(found.beneath), 'kPa', units)} "
        f"{'softer' if found.beneath > 0 else 'harder'} too: water moved the readings. Probe again when as moist as before.",
    ),
}
