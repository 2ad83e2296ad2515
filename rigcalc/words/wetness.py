"""How wet the ground is, in words: what was found, what would happen, what to do. Shared by the questions that ask it."""

from __future__ import annotations

from rigcalc.models.machine.wetness import Wet, Wetness
from rigcalc.models.rig.rig import Rig
from rigcalc.words.numbers import System, percent, say

_THREAD = {"us": "1/8 in", "si": "3 mm"}
FEELS = {
    "dry": "dry: powder or hard clods",
    "slightly_moist": "slightly moist: a weak ball that falls apart",
    "moist": "moist: a ball that holds",
    "very_moist": "very moist: a firm ball and a damp hand",
    "wet": "wet: water shows when it is squeezed",
    "frozen": "frozen",
}


def wetness_headline(wet: Wetness, rig: Rig, units: System) -> str:
    """Say in one sentence what the ground is like at working depth, and what follows from it."""
    at = say(rig.work.depth.to("cm"), "cm", units)
    found = " and ".join(_found(wet, rig, units))
    if wet.state is Wet.FROZEN:
        return f"frozen at {at}: points don't get in, or break off. Wait until it has thawed and dried."
    if wet.state is Wet.WET:
        return (
            f"too wet at {at}: {found}. Shanks would smear and press it rather than break it, and the wheels would press what "
            "lies below: wait."
        )
    if wet.state is Wet.NEAR:
        return _near(wet, rig, at, units)
    if wet.state is Wet.HARD:
        return (
            f"dry and hard at {at}: {found}. It breaks, but into blocks, wears points and takes more pull than these sums say; "
            "nothing published says how much more."
        )
    return f"dry enough to break at {at}: {found}."


def _near(wet: Wetness, rig: Rig, at: str, units: System) -> str:
    found = _found(wet, rig, units)
    if wet.apart:
        return (
            f"the readings of the ground at {at} disagree: {', but '.join(found)}. Dig a clod at {at} again and roll it to a "
            f"thread of {_THREAD[units]}: crumbles, go; rolls out, wait."
        )
    if wet.shallow is not None:
        return (
            f"the sample is from {say(wet.shallow, 'cm', units)} and the points run at {at}, where it is mostly wetter: dig a "
            "clod there first."
        )
    if not wet.limits.plastic and wet.water is None:
        return f"a thread says nothing of so little clay: weigh and dry a sample from {at}, or feel a handful."
    return (
        f"near its limit of wetness at {at}: {' and '.join(found)}. Roll a clod from there to a thread of {_THREAD[units]}: "
        "crumbles, go; rolls out, wait."
    )


def _found(wet: Wetness, rig: Rig, units: System) -> list[str]:
    """Say each reading."""
    ground, said = rig.ground, []
    if ground.thread_test == "rolls":
        said.append(f"a clod rolls out to a thread of {_THREAD[units]}")
    elif ground.thread_test == "crumbles":
        said.append(f"a clod crumbles before it makes a thread of {_THREAD[units]}")
    if wet.water is not None and (ground.water_by_mass is not None or ground.water_by_volume is not None):
        of = "a plastic limit of" if wet.limits.measured else "what such soil tills at, up to about"
        said.append(f"it holds {percent(wet.water[1])} water by mass, against {of} {percent(wet.limits.upper[1])}")
    if ground.wetness is not None:
        said.append(f"it feels {FEELS[ground.wetness]}")
    return said


def wetness_notes(wet: Wetness, units: System) -> tuple[str, ...]:
    """Say what stands behind the limits and what isn't known."""
    limits, lines = wet.limits, []
    source = (
        "the plastic limit typed" if limits.measured else
        "a regression on clay and organic matter, good to about 3 points either way"
    )  # fmt: skip
    lines.append(
        f"Wettest that tills: {percent(limits.upper[1])} water by mass ({source}); best {percent(limits.optimum)}; by the "
        f"retention curve of its texture class the wettest is {percent(limits.by_retention)}, which is too wet for clays."
    )
    if wet.state in (Wet.WET, Wet.NEAR):
        lines.append(
            f"Drained for some days it holds {percent(limits.drained)}: "
            + (
                "draining alone brings it under the limit, in days for sand and weeks for clay."
                if limits.drains_to_it
                else "draining alone doesn't bring it under the limit; sun, wind or a crop must dry it."
            )
        )
    if wet.state is Wet.READY and "thread_test" in wet.known_from and wet.water is None:
        lines.append("A clod too hard to crush by hand is dry and hard: say that it feels dry then.")
    lines.append("Draft, grip and slip are not corrected for wetness: no published relation was found that would carry it.")
    return tuple(lines)
