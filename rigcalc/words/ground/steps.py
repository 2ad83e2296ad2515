"""What is said of the same depth in two passes, and of wings and leading tines."""

from __future__ import annotations

from rigcalc.models.ground.steps import TwoPasses, Wings, aid
from rigcalc.words.ground.after import shares_text, span_text
from rigcalc.words.numbers import System, number, say


def two_passes_lines(found: TwoPasses | None, units: System) -> tuple[str, ...]:
    """Say what two passes take beside one, a line each; empty where the depth is too shallow for two."""
    if found is None:
        return ()
    shallow, deep = (say(each.depth, "cm", units) for each in (found.first, found.one))
    anew = shares_text(found.anew, found.anew)
    pull = span_text(found.second[0].draft, found.second[1].draft, "kN", units)
    lines = [
        f"In two passes, {shallow} and then {deep}: the first pulls {say(found.first.draft, 'kN', units)}, the second {pull}, "
        f"beside {say(found.one.draft, 'kN', units)} in one; it breaks {anew} of the section anew"
    ]
    if found.opens:
        lines.append(
            "One pass at this depth is over a limit of the rig at any speed; the second of two perhaps isn't: try half a round"
        )
    elif found.one.hold.hold in ("depth", "no"):
        lines.append(
            "One pass at this depth is over a limit of the rig at any speed, and so is the second of two, even at best"
        )
    else:
        hours, fuel = (
            " to ".join(dict.fromkeys(number(end / one, 2) for end in both))
            for both, one in ((found.hours, found.one.hours), (found.fuel, found.one.fuel))
        )
        lines.append(
            f"Both take {hours} times the hours and {fuel} times the fuel of one, wheels on loosened ground not counted"
        )
    lines.append(
        "How much of the draft a first pass spares isn't published, at worst nothing; it lets points break soil deeper down "
        "(direction alone, from memory)"
    )
    return tuple(lines)


def wings_lines(found: Wings | None, now: int, units: System) -> tuple[str, ...]:
    """Say how many winged shanks would do, and with leading tines; empty for a tool that has none. now: shanks of the rig."""
    if found is None:
        return ()
    apart, leading = (span_text(*each, "cm", units) for each in (found.apart, found.leading_apart))
    shallower = shares_text(*aid("leading_shallower"))
    deep, pull = say(33.0, "cm", units), span_text(*found.draft, "kN", units)
    return (
        f"With wings each shank takes {shares_text(*aid('wing_power'))} more (in print) and may stand {apart} from the next "
        f"(from memory): {_count(found.count)} do for the width of these {now}, with a draft of {pull}",
        f"Behind shallow leading tines they may stand {leading} apart (from memory), so {_count(found.leading_count)} do; what "
        f"both pull isn't published. Tines in line {shallower} shallower saved {shares_text(*aid('leading_fuel'))} of the fuel "
        f"in one trial, {deep} deep on loamy sand",
    )


def _count(span: tuple[int, int]) -> str:
    low, high = span
    return f"{low}" if low == high else f"{low} to {high}"
