"""What a rule filled in, in words: a line for each entry with its rule and where that is from, and all of them in one line."""

from __future__ import annotations

from rigcalc.core.errors import InputError
from rigcalc.core.sources import sources
from rigcalc.core.units import factor, parse
from rigcalc.models.rig.rig import Rig
from rigcalc.models.rig.taken import Taken
from rigcalc.words.numbers import System, capital, say
from rigcalc.words.spelling import spelt

_NAMES = {
    "front_axle_mass": "mass on the front axle", "rear_axle_mass": "mass on the rear axle", "wheelbase": "wheelbase",
    "drawbar_height": "drawbar height", "tyres": "number of {axle} tyres",
    "contact_length": "length of the {axle} tracks on the ground",
    "deflection_ratio": "deflection of the {axle} tyres", "mass": "weight of the tool", "hitch_load": "tongue load",
}  # fmt: skip
_RULES = {
    "rest": "what the total mass leaves",
    "share": "the typed share of the total mass",
    "pressed": "by load and pressure, the tyre's own table and a spring that is straight",
}
_CLASSES = {
    "front_axle_mass": "the split that is usual for the drive", "rear_axle_mass": "the split that is usual for the drive",
    "wheelbase": "usual for the drive and the power", "drawbar_height": "usual for the power",
    "tyres": "usual for the drive", "contact_length": "usual for the power",
    "deflection_ratio": "usual at the pressure that the load asks for",
    "mass": "usual for a tool of this width", "hitch_load": "usual for a towed tool of this weight",
}  # fmt: skip
_OURS = frozenset(["rigcalc_assumption", "common_practice"])
_BOOK = ("m", "kg", "kN")


def taken_lines(rig: Rig, units: System) -> tuple[str, ...]:
    """Give a line for each tyre size that was read and for each entry that a rule filled in; empty where nothing was."""
    lines = [line for axle in ("front", "rear") if (line := _tyre(rig, axle, units))]
    lines += [_line(one, units) for one in rig.assumed if not _by_size(one)]
    return tuple(spelt(line, units) for line in lines)


def count_by_rule(rig: Rig) -> int:
    """Give how many entries a rule filled in; what stands on a tyre's sidewall isn't one of them."""
    return sum(not _by_size(one) for one in rig.assumed)


def taken_in_short(rig: Rig, units: System) -> str:
    """Name everything that a rule filled in, in one line; empty where nothing was."""
    names = [_name(one) for one in rig.assumed if not _by_size(one)]
    if any(_by_size(one) for one in rig.assumed):
        names.insert(0, "tyre sizes by the sidewall")
    return spelt(f"{capital(', '.join(dict.fromkeys(names)))}.", units) if names else ""


def _tyre(rig: Rig, axle: str, units: System) -> str:
    """Say what was read from the tyre size of one axle."""
    gear = rig.tractor.front if axle == "front" else rig.tractor.rear
    read = [one for one in rig.assumed if _by_size(one) and one.entry.startswith(f"tractor.{axle}.")]
    if gear is None or gear.size is None or not read or gear.section_width is None or gear.diameter is None:
        return ""
    source = "listed section, from memory of the regulation" if any(one.rule == "sections" for one in read) else "its figures"
    width, across = say(gear.section_width.to("m"), "m", units), say(gear.diameter.to("m"), "m", units)
    return f"{capital(axle)} tyres {' '.join(gear.size.split())}: {width} wide, {across} high ({source})."


def taken_for(rig: Rig, entry: str, units: System) -> tuple[str, str] | None:
    """Give what a rule filled in for an entry of the rig file, and why; None where none did."""
    one = next((one for one in rig.assumed if one.entry == entry), None)
    return None if one is None else (_value(one.value, units), spelt(capital(f"{_why(one)}."), units))


def _line(one: Taken, units: System) -> str:
    return f"{capital(_name(one))} {_value(one.value, units)}: {_why(one)}."


def _why(one: Taken) -> str:
    rule = _RULES.get(one.rule) or _CLASSES.get(one.entry.rpartition(".")[2], "")
    if one.rule == "width":
        return "so many alike sections make the width"
    if _by_size(one):
        return "read from the tyre size"
    where = "" if one.rule in _RULES else ", our own rule" if one.source in _OURS else f"; {sources()[one.source].title}"
    return f"{rule}{where}"


def _name(one: Taken) -> str:
    *_, part, key = one.entry.split(".")
    return _NAMES[key].format(axle=part)


def _value(text: str, units: System) -> str:
    """Say a value in the units chosen; a count or a share as it stands."""
    try:
        number, unit = parse(text)
    except InputError:
        return text  # a word, such as the kind of tyre
    for book in _BOOK:
        try:
            return say(number * factor(unit, book), book, units)
        except ValueError:
            continue
    return text.replace("percent", "%")


def _by_size(one: Taken) -> bool:
    return one.rule in ("size", "sections", "width")
