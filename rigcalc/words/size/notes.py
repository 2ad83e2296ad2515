"""The notes of an answer in words: one function for each kind of note that `models/size/notes.py` may give.

They are ranked by what they weigh for whoever drives. Names of symbols, equations and tables stay in the working.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from rigcalc.core.equation import Equation
from rigcalc.core.equation import words as spelled
from rigcalc.core.nomenclature import Symbol
from rigcalc.models.size.answer import Answer
from rigcalc.models.size.notes import Note
from rigcalc.words.numbers import System, capital, number, percent, say, to_shown
from rigcalc.words.rig_name import DRIVES
from rigcalc.words.spelling import spelt
from rigcalc.words.tools import gang_name, pieces, tool_words

Facts = dict[str, Any]


# The weightiest first: what can hurt or break, what makes the job another one, what moves the figures, what was assumed.
RANK = (
    "tips", "pushed", "below_critical_depth", "track_lifts", "deeper_than_usual", "deep_row", "sand", "hard_ground",
    "unusual_speed", "in_reserve", "engine_speed", "outside_range", "little_slip", "cone_index_assumed", "wheel_tracks",
    "gangs", "group_chosen", "group_differs", "texture_between", "typical_torque", "fuel_over_test", "track_grip",
    "cross_check", "second_pass", "track_center_assumed", "group_by_table", "side_slope", "track_contact",
)  # fmt: skip


def note_texts(answer: Answer, units: System) -> tuple[str, ...]:
    """Say the notes of an answer, the weightiest first, none of them twice."""
    pushed = any(note.kind == "pushed" for note in answer.notes)
    told = [note for note in answer.notes if not (pushed and note.kind == "little_slip")]  # no pull: no slip to speak of
    ranked = sorted(told, key=lambda note: RANK.index(note.kind))
    return tuple(dict.fromkeys(note_text(note, answer, units) for note in ranked))


def note_text(note: Note, answer: Answer, units: System) -> str:
    """Say one note."""
    return spelt(_SAYS[note.kind](note.facts, answer, units), units)


def ranges_left(answer: Answer) -> tuple[str, ...]:
    """Say which inputs of which equations left the range of their source, by name: for the working."""
    return tuple(_by_name(note.facts) for note in answer.notes if note.kind == "outside_range")


def _deeper_than_usual(facts: Facts, answer: Answer, units: System) -> str:
    second, tool = answer.second_opinion, tool_words(answer.rig.implement.tool)
    assert second is not None
    power = "more pull than grip can give"
    if second.engine_share is not None:
        power = f"{percent(second.engine_share)} engine load"
    low, high = facts["usual"]
    return (
        f"{say(facts['depth'], 'cm', units)} is {'extreme' if facts['extreme'] else 'deeper than usual'} for {tool.one}, which "
        f"usually works {_from_to(low, high, 'cm', units)} deep. As {tool.one} it takes a draft of "
        f"{say(facts['draft'], 'kN', units)}; as {tool_words(second.row).one} it would take {say(second.draft, 'kN', units)} "
        f"({power})."
    )


def _below_critical_depth(facts: Facts, _: Answer, units: System) -> str:
    low, high = facts["ratio"]
    return (
        f"{say(facts['depth'], 'cm', units)} is below the point's critical depth of about "
        f"{say(facts['critical'], 'cm', units)} ({number(low)} to {number(high)} point widths): deeper down it squeezes soil "
        "aside and loosens no more. A wider point or wings go deeper."
    )


def _unusual_speed(facts: Facts, answer: Answer, units: System) -> str:
    low, high = facts["usual"]
    many = tool_words(answer.rig.implement.tool).many
    return (
        f"{say(facts['speed'], 'km/h', units)} is outside the {_from_to(low, high, 'km/h', units)} at which {many} "
        "usually work."
    )


def _outside_range(facts: Facts, _answer: Answer, _units: System) -> str:
    low, _ = facts["equation"].valid[facts["symbol"].name]
    under, over = _OUTSIDE.get(facts["symbol"].name, _OUTSIDE_ANY)
    return f"{under if facts['value'] < low else over} (see the working)."


# What it means that an input lies under, or over, what its source was tried on.
_OUTSIDE = {
    "mobility_number": ("The ground is softer for this load than grip was ever tested on: slip is less sure",
                        "The ground is firmer for this load than grip was ever tested on: slip is less sure"),
    "slip": ("Slip is under what grip was tested on", "Slip is over what grip was tested on: it may spin sooner"),
    "load_ratio": ("The engine is loaded less than the fuel relation was made for: fuel is less sure",
                   "The engine is loaded more than the fuel relation was made for: fuel is less sure"),
    "deflection_ratio": ("The tyres are harder than those that grip was tested on",
                         "The tyres are softer than those that grip was tested on"),
}  # fmt: skip
_OUTSIDE_ANY = ("One input is under the range of its equation's source", "One input is over the range of its equation's source")


def _by_name(facts: Facts) -> str:
    eq, symbol = facts["equation"], facts["symbol"]
    assert isinstance(eq, Equation)
    assert isinstance(symbol, Symbol)
    low, high = eq.valid[symbol.name]
    unit = "" if symbol.unit == "1" else f" {symbol.unit}"
    name, value = spelled(symbol.name), f"{facts['value']:.3g}"
    return f"{spelled(eq.__name__)}: {name} {value}{unit} is outside {low:g} to {high:g}{unit}, the range of {eq.source}."


def _in_reserve(*_: Any) -> str:
    return "The engine works above its rated power, in the reserve between rated and maximum: it will lug in hard spots."


def _little_slip(facts: Facts, _answer: Answer, _units: System) -> str:
    return (
        f"Slip of {percent(facts['slip'])} is under the {percent(facts['low'])} where the band begins: for this job alone the "
        "tractor is heavier than it need be."
    )


def _pushed(facts: Facts, _: Answer, units: System) -> str:
    said = f"Slope and tool push the tractor on with {say(facts['push'], 'kN', units)}: there is no pull and no efficiency."
    if facts["braking"] <= 0:
        return f"{said} Rolling takes it up."
    return f"{said} Engine and brakes hold back {say(facts['braking'], 'kN', units)}, {say(facts['power'], 'kW', units)}."


def _group_chosen(facts: Facts, _answer: Answer, _units: System) -> str:
    return (
        f"The rig file takes {facts['texture']} as {facts['group']} soil for draft; the soil table would say "
        f"{facts['by_table']}."
    )


def _group_differs(facts: Facts, _answer: Answer, _units: System) -> str:
    usage = facts["farm_usage"]
    return (
        f"{capital(facts['texture'])} counts as {facts['group']} soil here; many farm texts call it {usage}. To follow them, "
        f"choose {usage} as soil group."
    )


def _group_by_table(facts: Facts, _answer: Answer, _units: System) -> str:
    return f"{capital(facts['texture'])} counts as {facts['group']} soil for draft: the standard leaves that to the reader."


def _cone_index_assumed(facts: Facts, _: Answer, units: System) -> str:
    return (
        f"Soil strength wasn't measured: {facts['surface']} ground is taken as a cone index of "
        f"{say(facts['cone_index'], 'kPa', units)}."
    )


def _track_grip(*_: Any) -> str:
    return (
        "Belts are taken to grip as a tyre of their contact area would, by three numbers fitted to a table: slip and pull are "
        "less sure than on tyres."
    )


def _second_pass(facts: Facts, _answer: Answer, _units: System) -> str:
    what = "firmer" if facts["firmer"] else "no firmer"
    return f"Rear wheels are taken to meet {what} ground in the track of the front wheels."


def _cross_check(facts: Facts, _answer: Answer, _units: System) -> str:
    return (
        f"Power delivery: {percent(facts['share'])} of PTO power reaches the drawbar here; a table has "
        f"{percent(facts['by_table'])} for {DRIVES[facts['drive']]} on {facts['surface']} ground at good slip."
    )


def _track_lifts(facts: Facts, _: Answer, units: System) -> str:
    end = "rear" if facts["ahead"] < 0 else "front"
    return (
        f"The load stands outside the middle third of the tracks, towards the {end}: the other end bears nothing, and the "
        f"{end} presses with {say(facts['peak_pressure'], 'kPa', units)} where even pressure would be "
        f"{say(facts['mean_pressure'], 'kPa', units)}. A lower drawbar or more weight on the other end helps."
    )


def _sand(facts: Facts, *_: Any) -> str:
    return f"The curves of grip were fitted on soil that holds together; {facts['texture']} doesn't. Expect more slip."


def _deep_row(facts: Facts, answer: Answer, units: System) -> str:
    tool = tool_words(answer.rig.implement.tool)
    second = answer.second_opinion
    other = tool_words(second.row).one if second is not None else "a tool for deeper work"
    return (
        f"From {say(facts['from'], 'cm', units)} down draft may lie up to {percent(facts['high'])} of the way from "
        f"{tool.one}'s to {other}'s; {percent(facts['likely'])} is taken as likely."
    )


def _hard_ground(facts: Facts, *_: Any) -> str:
    off, way = ("over", "higher") if facts["deviation"] > 0 else ("under", "lower")
    return (
        f"The measured cone index is {percent(abs(facts['deviation']))} {off} that of the named surface. Hard ground pulls "
        f"harder: draft is taken {percent(abs(facts['draft_shift']))} {way}."
    )


def _gangs(facts: Facts, _: Answer, units: System) -> str:
    each = " and ".join(f"{gang_name(tool)} ({say(force, 'kN', units)})" for tool, force in facts["gangs"])
    return f"Beside the tool itself: {each}, {percent(facts['share'])} of the draft. Their depth is their own."


def _wheel_tracks(facts: Facts, answer: Answer, *_: Any) -> str:
    way = "more" if facts["draft_shift"] > 0 else "less"
    many = capital(pieces(answer.rig.implement.tool))
    return (
        f"{many} in the wheel tracks pull about twice as hard. This tractor runs over {percent(facts['covered'])} of the "
        f"tool's width, {percent(facts['usual'])} is usual: {percent(abs(facts['draft_shift']))} {way} draft."
    )


def _engine_speed(facts: Facts, *_: Any) -> str:
    return (
        f"At {percent(facts['engine_speed'])} of rated engine speed {percent(facts['power_there'])} of the maximum power is "
        "there."
    )


def _typical_torque(facts: Facts, *_: Any) -> str:
    return (
        f"The engine's torque isn't known: a rise of {percent(facts['torque_rise'])} at {percent(facts['peak_speed'])} of "
        "rated speed is taken, as is usual for diesels. Its own goes under the gears."
    )


def _track_center_assumed(*_: Any) -> str:
    return "The mass on the front of the tracks isn't known: the tractor is taken to balance in the middle."


def _fuel_over_test(facts: Facts, *_: Any) -> str:
    return (
        f"Fuel is by a general relation, {percent(facts['over'])} over what one official test burnt. Points of your own "
        "tractor's test report take its place."
    )


def _side_slope(*_: Any) -> str:
    return "A slope across the line of travel isn't counted: neither drift nor the load on the lower side."


def _tips(facts: Facts, *_: Any) -> str:
    return f"Pull and tongue load reach {percent(facts['share'])} of what lifts the front off the ground."


def _texture_between(facts: Facts, *_: Any) -> str:
    taken, other = facts["taken"], facts["other"]
    return f"This soil lies between {taken} and {other}: draft is by {taken}, the chance counts both."


def _track_contact(facts: Facts, *_: Any) -> str:
    shares = [percent(facts[name]) for name in ("front_third", "middle_third", "rear_third")]
    return f"The tracks carry {shares[0]} of the load on their front third, {shares[1]} on the middle, {shares[2]} on the rear."


def _from_to(low: float, high: float, unit: str, units: System) -> str:
    """Give a span with its unit once: "10 to 12 in"."""
    return f"{number(to_shown(low, unit, units)[0])} to {say(high, unit, units)}"


_SAYS: dict[str, Callable[[Facts, Answer, System], str]] = {
    "deeper_than_usual": _deeper_than_usual,
    "below_critical_depth": _below_critical_depth,
    "unusual_speed": _unusual_speed,
    "outside_range": _outside_range,
    "in_reserve": _in_reserve,
    "little_slip": _little_slip,
    "pushed": _pushed,
    "group_chosen": _group_chosen,
    "group_differs": _group_differs,
    "group_by_table": _group_by_table,
    "cone_index_assumed": _cone_index_assumed,
    "track_grip": _track_grip,
    "second_pass": _second_pass,
    "cross_check": _cross_check,
    "gangs": _gangs,
    "track_lifts": _track_lifts,
    "sand": _sand,
    "deep_row": _deep_row,
    "hard_ground": _hard_ground,
    "wheel_tracks": _wheel_tracks,
    "engine_speed": _engine_speed,
    "typical_torque": _typical_torque,
    "track_center_assumed": _track_center_assumed,
    "fuel_over_test": _fuel_over_test,
    "side_slope": _side_slope,
    "tips": _tips,
    "texture_between": _texture_between,
    "track_contact": _track_contact,
}
