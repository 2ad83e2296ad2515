"""Which way to drive? What stands first, a don't among it. The one place that says it."""

from __future__ import annotations

from rigcalc.core.tables import table
from rigcalc.models.machine.judgement import Judgement
from rigcalc.models.passes.answer import FieldAnswer
from rigcalc.models.passes.heading import LIKE, Driven, Way
from rigcalc.models.passes.turning import span
from rigcalc.words.limits import passed_text
from rigcalc.words.numbers import System, capital, number, percent, say
from rigcalc.words.passes.zones import hours as hours
from rigcalc.words.passes.zones import zone_lines
from rigcalc.words.said import Said
from rigcalc.words.tools import piece

_WORDS = {Judgement.GO: "Go", Judgement.TRY: "Try it first", Judgement.DONT: "Don't"}
_PULL = {"engine": "the engine gives out", "grip": "grip can't give the pull"}
_NAMED = 3  # fields that a sentence names; the others are counted
_RULES = {"side": "all along their longest sides", "north": "all north and south", "east": "all east and west"}
_FAR = 0.1  # field efficiency typed and by the shape apart by more than that is said


def bearing(heading: float) -> str:
    """Say a heading and the way back: "88° (268° back)"."""
    return f"{_degrees(heading)}° ({_degrees(heading + 180)}° back)"


def _degrees(heading: float) -> str:
    return f"{round(heading, 1):g}"


def named(fields: tuple[Driven, ...]) -> str:
    """Name a few fields, and count the rest."""
    names = [each.boundary.name for each in fields[:_NAMED]]
    more = len(fields) - len(names)
    return ", ".join(names) + (f" and {more} more" if more > 0 else "")


def say_fields(found: FieldAnswer, units: System) -> Said:
    """Say which way to drive, how long it takes, and what could make that wrong."""
    return Said(_WORDS[found.judgement], _headline(found, units), tuple(_rest(found, units)))


def _headline(found: FieldAnswer, units: System) -> str:
    if found.limit is not None:
        why = _PULL.get(found.limit) or passed_text(found.limit, piece(found.rig.implement.tool), units)
        return f"{why} at this depth and speed, whichever way it is driven. {_by_shape(found, units)}"
    if found.judgement is Judgement.DONT:
        return f"{named(found.small)}: too small to turn in after a round along the boundary."
    return _by_shape(found, units)


def _by_shape(found: FieldAnswer, units: System) -> str:
    area, time = say(found.area, "ha", units), hours(found.hours)
    if len(found.fields) > 1:
        where = f"all at {bearing(found.heading)}" if found.heading is not None else "each at its best heading"
        return f"by time alone, {where}, {len(found.fields)} fields of {area} take {time} in the field."
    one = found.fields[0]
    way = found.way_of(one)
    which = f"{bearing(way.heading)}{_along(one, way)}"
    return f"by time alone, {area} at {which} take {time} in {way.passes} passes{_beside(found, one)}."


def _along(one: Driven, way: Way) -> str:
    if way.heading == one.sides[0]:
        return ", along the longest side,"
    return ", along a side," if way.heading in one.sides else ""


def _beside(found: FieldAnswer, one: Driven) -> str:
    """Say what the heading is worth: beside the best where one is asked for, else beside the worst."""
    if found.heading is not None:
        more = one.also["asked"].hours - one.best.hours
        if more <= LIKE * one.best.hours:
            return "; no heading is much better"
        return f", {hours(more)} more than at {bearing(one.best.heading)}"
    worst = max(one.ways, key=lambda way: way.hours)
    if worst.hours <= (1 + LIKE) * one.best.hours:
        return "; any other heading is nearly as good"
    return f"; the worst heading, {_degrees(worst.heading)}°, takes {hours(worst.hours - one.best.hours)} more"


def _rest(found: FieldAnswer, units: System) -> list[str]:
    out = []
    if found.small and found.judgement is not Judgement.DONT:
        asked = found.driving.rounds
        out.append(f"No room for {asked} round{'s' if asked > 1 else ''} and a pass in {named(found.small)}: fewer rounds are "
                   "counted there; see on the ground whether it can turn.")  # fmt: skip
    if found.cramped:
        out.append(f"A turn on that circle needs {found.turn.rounds} rounds of headland, {found.driving.rounds} are typed: it "
                   "would leave the field, or turn by reversing.")  # fmt: skip
    for one, other, area in found.doubled[:_NAMED]:
        a, b = (found.fields[at].boundary.name for at in (one, other))
        out.append(f"{a} and {b} share {say(area, 'ha', units)}: counted twice here.")
    if found.hanging:
        low, high = span("turn")
        out.append(f"The best heading hangs on the time of a turn in {named(found.hanging)}: usual is {low:.0f} to "
                   f"{high:.0f} s; time yours and type it.")  # fmt: skip
    out += zone_lines(found, units)
    out.append(efficiency_text(found))
    if len(found.fields) > 1:
        out += _otherwise(found)
        out.append(f"{len(found.fields) - 1} moves, {say_way(found.way, units)} in straight lines: "
                   f"{hours(found.move * (len(found.fields) - 1))} on top.")  # fmt: skip
    out.append("Slope, wet spots and the last pass's direction aren't known here; along a slope counts for more than minutes.")
    return out


def _otherwise(found: FieldAnswer) -> list[str]:
    """Say what it takes more to drive every field by one simple rule."""
    more = {name: sum(each.also[key].hours for each in found.fields) - found.hours for key, name in _RULES.items()}
    if found.heading is not None:
        gained = found.hours - sum(each.best.hours for each in found.fields)
        return [f"Each at its own best heading would take {hours(gained)} less."] if gained > LIKE * found.hours else []
    alike = [name for name, each in more.items() if each <= LIKE * found.hours]
    dearer = [f"{name} {hours(each)} more" for name, each in more.items() if each > LIKE * found.hours]
    out = [f"Nearly as good: {' or '.join(alike)}."] if alike else []
    return [*out, *([f"{capital('; '.join(dearer))}."] if dearer else [])]


def say_way(kilometres: float, units: System) -> str:
    """Say a distance between fields."""
    return f"{number(kilometres, 2)} km" if units == "si" else f"{number(kilometres / 1.609344, 2)} mi"


def efficiency_text(found: FieldAnswer) -> str:
    """Say the field efficiency by this shape beside what tables give and what is typed in the rig file."""
    chisel = table("d497_field_operations")["chisel_plow_or_coulter_chisel"]
    line = (f"Field efficiency by this shape {percent(found.efficiency)}; tables give {chisel['efficiency_low']:.0f} to "
            f"{chisel['efficiency_high']:.0f} %")  # fmt: skip
    if "field_efficiency" in found.rig.implement.model_fields_set:
        own = found.rig.implement.field_efficiency.to("1")
        far = abs(own - found.efficiency) > _FAR
        line += f", the rig file has {percent(own)}" + (": that is far off for these fields" if far else "")
    return f"{line}. Filling up and breakdowns aren't in it."
