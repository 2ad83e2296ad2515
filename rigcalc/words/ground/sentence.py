"""What is said first about the ground: whether it may be worked, and how deep."""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.models.ground.answer import GroundAnswer
from rigcalc.models.ground.corrected import Corrected
from rigcalc.models.ground.depth import DepthAdvice, Plan, probing
from rigcalc.models.machine.judgement import Judgement
from rigcalc.models.machine.wetness import at_best
from rigcalc.words.ground.after import pressing_part, pressing_unsure, residue_part
from rigcalc.words.ground.by_weather import weather_headline
from rigcalc.words.ground.slope import slope_part
from rigcalc.words.ground.soil_map import soil_part
from rigcalc.words.ground.voices import voices_part
from rigcalc.words.ground.worked import say_worked
from rigcalc.words.ground.zones import failing_part, slower_part
from rigcalc.words.judgement import JUDGEMENTS
from rigcalc.words.numbers import System, capital, number, percent, say, to_shown
from rigcalc.words.said import Said
from rigcalc.words.wetness import wetness_headline


def say_ground(answer: GroundAnswer, units: System) -> Said:
    """Say in a few sentences whether to go, why, and how deep; what decides stands first."""
    parts = [_wetness(answer, units), _depth(answer, units)]
    pull = failing_part(answer.failing, answer.rig, units)
    further = (pull, pressing_part(answer, units), residue_part(answer.residue), slope_part(answer.slope),
               soil_part(answer.soil, answer.rig, units))  # fmt: skip
    if answer.judgement is Judgement.GO:
        parts.reverse()  # how deep is what is left to say
    parts += [part for part in further if part is not None]
    parts.sort(key=lambda part: -list(Judgement).index(part[0]))
    headline, *rest = (text for _, text in parts)
    if part := slower_part(answer.holds, answer.rig, units):
        rest.append(part)
    if part := voices_part(answer.voices, units):
        rest.append(part)
    if answer.overstated:
        rest.append("Dry ground reads harder than it is: probe again when it is moist, 1 to 3 days after a soaking.")
    elif answer.as_drained is not None and not answer.otherwise:
        rest.append(f"{drained_text(answer)}.")
    return Said(JUDGEMENTS[answer.judgement], headline, tuple(capital(text) for text in rest))


@dataclass(frozen=True)
class Question:
    """One of the questions that the page answers: its title, what follows (None: nothing is sure), and why in a sentence."""

    title: str
    judgement: Judgement | None
    text: str


def questions(answer: GroundAnswer, units: System) -> tuple[Question, ...]:
    """Say whether it worked, whether it is dry enough, how deep a layer asks for, what wheels, residue and slope say."""
    pressed = pressing_part(answer, units) or (None, pressing_unsure(answer, units))
    asked = (
        ("Dry enough to break?", _wetness(answer, units)),
        ("A layer, and how deep?", _depth(answer, units)),
        ("Do wheels put it back?", pressed),
        ("Enough residue left?", residue_part(answer.residue)),
        ("Does water run off along it?", slope_part(answer.slope)),
    )
    found = [Question(title, part[0], capital(part[1])) for title, part in asked if part is not None]
    if answer.worked is not None:
        said = say_worked(answer.worked, units)
        found.insert(0, Question("Did it work?", None, f"{said.word}: {said.headline}"))  # its words aren't go and don't
    return tuple(found)


def _wetness(answer: GroundAnswer, units: System) -> tuple[Judgement, str]:
    wet, at = answer.wetness, say(answer.rig.work.depth.to("cm"), "cm", units)
    if wet is None and answer.weather is not None:
        return answer.weather.judgement, weather_headline(answer.weather, answer.rig, units)
    if wet is None:
        thread = "1/8 in" if units == "us" else "3 mm"
        return Judgement.TRY, (
            f"nobody has said how wet it is: dig a clod at {at} and roll it to a thread of {thread}. Crumbles, go; rolls out, "
            "wait."
        )
    return at_best(wet.state), wetness_headline(wet, answer.rig, units)


def _depth(answer: GroundAnswer, units: System) -> tuple[Judgement, str]:
    advice = answer.depth
    if advice is None:
        return Judgement.TRY, (
            "nobody has probed for a layer: push a cone at 10 to 20 flags over the field, and write down where it passes "
            f"{limit_text(answer, units)} and where it comes back."
        )
    text = _PLANS[advice.plan](advice, units)
    text = text.replace("{limit}", limit_text(answer, units)) if advice.plan in (Plan.NO_LAYER, Plan.FEW) else text
    if advice.few and advice.with_layer and advice.plan is not Plan.FEW:
        text += f" But {advice.flags} flag{' says' if advice.flags == 1 else 's say'} little of a field: 10 to 20 do."
    if answer.otherwise and answer.as_drained is not None:
        same = answer.as_drained.judgement is advice.judgement
        text = f"as read, {text} {drained_text(answer)}: probe again when it is moist, 1 to 3 days after a soaking."
        return advice.judgement if same else Judgement.TRY, text
    return advice.judgement, text


def drained_text(answer: GroundAnswer) -> str:
    """Say at how many flags a layer would be met at field capacity; empty where readings aren't corrected."""
    found = answer.corrected
    if not isinstance(found, Corrected):
        return ""
    low, likely, high = found.passes
    doubt = ", whatever the doubt" if low == high else f", {low} to {high} within the doubt"
    return f"At field capacity {likely} of {len(found.layers)} flags would pass the limit{doubt}"


def limit_text(answer: GroundAnswer, units: System) -> str:
    """Say the resistance that readings are held against."""
    return _resistance(answer.limit, units, 3)


def scatter_text(units: System) -> str:
    """Say what water and density leave unsaid of a reading, either way."""
    return _resistance(probing("reading_scatter", "kPa"), units, 2)


def _resistance(kpa: float, units: System, digits: int) -> str:
    return say(kpa, "kPa", units, digits) if units == "us" else f"{number(kpa / 1000, digits)} MPa"


def need_text(advice: DepthAdvice, units: System) -> str:
    """Say the depth that is needed, as a span; empty where none is known."""
    if advice.need is None:
        return ""
    low, high = advice.need
    unit = to_shown(low, "cm", units)[1]
    return f"{say(low, 'cm', units).removesuffix(f' {unit}')} to {say(high, 'cm', units)}"


def under_text(advice: DepthAdvice, share: float) -> str:
    """Say at how many of the flags with a layer a depth gets under it."""
    flags = "one flag" if advice.with_layer == 1 else f"{advice.with_layer} flags"
    return f"{round(share * advice.with_layer)} of the {flags} with a layer"


def _no_layer(advice: DepthAdvice, units: System) -> str:
    return (
        f"there is no layer to lift: none of {advice.flags} flags passes {{limit}}. Deep work would cost fuel and time for "
        "nothing that roots need."
    )


def _shallow(advice: DepthAdvice, units: System) -> str:
    return (
        f"{say(advice.work, 'cm', units)} is too shallow: it gets under the layer at {under_text(advice, advice.at_work)}. "
        f"{need_text(advice, units)} gets under it at {percent(advice.wanted)} of them.{_critical(advice, units)}"
    )


def _beyond_tool(advice: DepthAdvice, units: System) -> str:
    assert advice.rated is not None
    return (
        f"the layer asks for {need_text(advice, units)}, and the tool is rated for {say(advice.rated, 'cm', units)}: it can't "
        f"get under it at {percent(advice.wanted)} of the flags."
    )


def _unreached(advice: DepthAdvice, units: System) -> str:
    count = f"{advice.unreached} of {advice.with_layer}"
    return f"at {count} flags with a layer the readings end inside it: probe deeper before anybody sets a depth."


def _below_critical(advice: DepthAdvice, units: System) -> str:
    return f"{need_text(advice, units)} would get under the layer.{_critical(advice, units)}"


def _critical(advice: DepthAdvice, units: System) -> str:
    """Say that a depth is below where the point breaks soil; empty where it isn't."""
    if advice.critical is None or advice.need is None or advice.need[0] <= advice.critical[0]:
        return ""
    low, high = (say(end, "cm", units) for end in advice.critical)
    sure = "is below" if advice.need[0] > advice.critical[1] else "may be below"
    return (
        f" That {sure} the point's critical depth of {low} to {high}, where it squeezes soil aside and loosens no more: wider "
        "points, wings, or a shallower pass first."
    )


def _patchy(advice: DepthAdvice, units: System) -> str:
    return (
        f"a layer at {advice.with_layer} of {advice.flags} flags alone: work those parts, {need_text(advice, units)} deep, and "
        f"leave the rest.{_critical(advice, units)}"
    )


def _few(advice: DepthAdvice, units: System) -> str:
    flags = f"{advice.flags} flag{'' if advice.flags == 1 else 's'}"
    found = f"none of {flags} passes {{limit}}" if not advice.with_layer else (
        f"by {flags}, {need_text(advice, units)} gets under the layer")  # fmt: skip
    return f"{found}; that is too few to say it of a field: put in 10 to 20.{_critical(advice, units)}"


def _deep(advice: DepthAdvice, units: System) -> str:
    return (
        f"{say(advice.work, 'cm', units)} is deeper than needed: {need_text(advice, units)} gets under the layer at "
        f"{percent(advice.wanted)} of the flags that have one, for less pull and fuel.{_critical(advice, units)}"
    )


def _right(advice: DepthAdvice, units: System) -> str:
    return (
        f"{say(advice.work, 'cm', units)} gets under the layer at {under_text(advice, advice.at_work)}; "
        f"{need_text(advice, units)} is enough.{_critical(advice, units)}"
    )


_PLANS = {
    Plan.NO_LAYER: _no_layer,
    Plan.SHALLOW: _shallow,
    Plan.BEYOND_TOOL: _beyond_tool,
    Plan.UNREACHED: _unreached,
    Plan.BELOW_CRITICAL: _below_critical,
    Plan.PATCHY: _patchy,
    Plan.FEW: _few,
    Plan.DEEP: _deep,
    Plan.RIGHT: _right,
}
