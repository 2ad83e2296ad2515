"""The notes of an answer in words: one function for each kind of note that `models/size/notes.py` may give."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from rigcalc.core.equation import Equation
from rigcalc.core.equation import words as spelled
from rigcalc.core.nomenclature import Symbol
from rigcalc.models.size.answer import Answer
from rigcalc.models.size.notes import Note
from rigcalc.words.numbers import System, number, percent, say
from rigcalc.words.tools import tool_words

Facts = dict[str, Any]


def note_text(note: Note, answer: Answer, units: System) -> str:
    """Say one note."""
    return _SAYS[note.kind](note.facts, answer, units)


def _deeper_than_usual(facts: Facts, answer: Answer, units: System) -> str:
    second, tool = answer.second_opinion, tool_words(answer.rig.implement.tool)
    assert second is not None
    power = "more pull than grip can give"
    if second.engine_share is not None:
        power = f"{percent(second.engine_share)} of rated power"
    low, high = facts["usual"]
    return (
        f"{say(facts['depth'], 'cm', units)} is {'extreme' if facts['extreme'] else 'deeper than usual'} for {tool.one}, which "
        f"usually works {say(low, 'cm', units)} to {say(high, 'cm', units)} deep (common practice). The {tool.row} gives a "
        f"draft of {say(facts['draft'], 'kN', units)}; the same table's {tool_words(second.row).row} gives "
        f"{say(second.draft, 'kN', units)} ({power})."
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
        f"{say(facts['speed'], 'km/h', units)} is outside the {say(low, 'km/h', units)} to {say(high, 'km/h', units)} at which "
        f"{many} usually work (d497, from memory)."
    )


def _outside_range(facts: Facts, _answer: Answer, _units: System) -> str:
    eq, symbol = facts["equation"], facts["symbol"]
    assert isinstance(eq, Equation)
    assert isinstance(symbol, Symbol)
    low, high = eq.valid[symbol.name]
    unit = "" if symbol.unit == "1" else f" {symbol.unit}"
    return (
        f"{spelled(eq.__name__)}: {spelled(symbol.name)} {facts['value']:.3g}{unit} is outside {low:g} to {high:g}{unit}, the "
        f"range of {eq.source}."
    )


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
        f"Soil group '{facts['group']}' was chosen in the rig file; {facts['texture']} would be '{facts['by_table']}' by the "
        "soil table."
    )


def _group_differs(facts: Facts, _answer: Answer, _units: System) -> str:
    usage = facts["farm_usage"]
    return (
        f"{facts['texture']} counts as '{facts['group']}' here; many farm texts call it '{usage}'. To follow them, put "
        f'soil_group = "{usage}" under [ground].'
    )


def _group_by_table(facts: Facts, _answer: Answer, _units: System) -> str:
    return (
        f"{facts['texture']} counts as '{facts['group']}' soil for draft: the standard gives words only, the table soil_groups "
        "chooses."
    )


def _cone_index_assumed(facts: Facts, _: Answer, units: System) -> str:
    return (
        f"Soil strength was not measured: '{facts['surface']}' ground is taken as a cone index of "
        f"{say(facts['cone_index'], 'kPa', units)} (d497, from memory)."
    )


def _track_grip(*_: Any) -> str:
    return (
        "Belts are taken to grip as a tyre of their contact area would, with three numbers fitted to the power table (table "
        "belt_grip): less sure than the figures for tyres."
    )


def _second_pass(facts: Facts, _answer: Answer, _units: System) -> str:
    what = "firmer" if facts["firmer"] else "no firmer"
    return f"Rear wheels are taken to meet {what} ground in the track of the front wheels (wheels_follow_in_track)."


def _cross_check(facts: Facts, _answer: Answer, _units: System) -> str:
    return (
        f"Cross-check: of each horsepower at the power take-off {percent(facts['share'])} reach the drawbar here; the table of "
        f"power ratios has {percent(facts['by_table'])} for {facts['drive']} on {facts['surface']} ground at good slip."
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
    other = f"the {tool_words(second.row).row}" if second is not None else "the row for deeper work"
    return (
        f"From {say(facts['from'], 'cm', units)} down draft may lie up to {percent(facts['high'])} of the way from the "
        f"{tool.row} to {other}; {percent(facts['likely'])} is taken as likely (decision 0011)."
    )


def _hard_ground(facts: Facts, *_: Any) -> str:
    off, way = ("over", "higher") if facts["deviation"] > 0 else ("under", "lower")
    return (
        f"The measured cone index is {percent(abs(facts['deviation']))} {off} that of the named surface. Hard ground pulls "
        f"harder: draft is taken {percent(abs(facts['draft_shift']))} {way} (decision 0002)."
    )


def _wheel_tracks(facts: Facts, *_: Any) -> str:
    way = "more" if facts["draft_shift"] > 0 else "less"
    return (
        f"Tines behind wheels pull about twice as hard. The tractor runs over {percent(facts['covered'])} of the tool's "
        f"width, against {percent(facts['usual'])} taken to stand in the draft table: {percent(abs(facts['draft_shift']))} "
        f"{way} draft."
    )


def _engine_speed(facts: Facts, *_: Any) -> str:
    return (
        f"At {percent(facts['engine_speed'])} of rated engine speed {percent(facts['power_there'])} of the maximum power is "
        "there."
    )


def _typical_torque(facts: Facts, *_: Any) -> str:
    return (
        f"The engine's torque isn't known: a rise of {percent(facts['torque_rise'])} at {percent(facts['peak_speed'])} of "
        "rated speed is taken, as is usual for diesels (common practice). Its own stands under [gears]."
    )


def _track_center_assumed(*_: Any) -> str:
    return "The mass on the front of the tracks isn't known: the tractor is taken to balance in the middle."


def _fuel_over_test(facts: Facts, *_: Any) -> str:
    return (
        f"Fuel by the book's relation, which holds {percent(facts['over'])} more than one official test burnt "
        "(tractor_test_963). Points of your own tractor's report under [[fuel_test]] take its place."
    )


def _side_slope(*_: Any) -> str:
    return "A slope across the line of travel is not reckoned with: neither drift nor the load on the lower side."


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
}
