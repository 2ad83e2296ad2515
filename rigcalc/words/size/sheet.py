"""What the setup sheet says beside the answer's own sentences: headings that follow the verdict, ways out, sources."""

from __future__ import annotations

from collections.abc import Iterable

from rigcalc.models.machine.limits import LIMITS
from rigcalc.models.rig.rig import Rig
from rigcalc.models.size.answer import Answer
from rigcalc.models.size.verdict import Judgement, State
from rigcalc.words.cautions import caution_source
from rigcalc.words.field import from_readings, such_fields
from rigcalc.words.limits import limit_title, slip_source
from rigcalc.words.numbers import System, chance, percent, say
from rigcalc.words.size.answer import SizeWords
from rigcalc.words.size.parts import chances_text, reverse_lines
from rigcalc.words.size.readings_said import sure_by_readings
from rigcalc.words.spelling import spelt
from rigcalc.words.tools import piece
from rigcalc.words.wetness import wetness_notes

# Headings of the sheet, by judgement and state.
SETTINGS_TITLES = {Judgement.TRY: "Try it with this", Judgement.GO: "Set this"}
FIRST_TITLES = {State.MUCH_SLIP: "Past its limit already", State.TOO_DEEP: "Past its limit already"}
FIRST_TITLE = "Going deeper, the first limit"
_NEAR = 0.8  # share of the critical depth from which it is said
_BURIED = ("buried_lines", "buried_private")
_WAYS = 3  # reverse answers that name another setting


def first_text(answer: Answer, units: System, whole: str) -> str:
    """Say what gives out first going deeper, and where; `whole` is the reverse answer's own text, for when nothing does."""
    deepest = answer.furthest("deepest")
    if deepest.value is None or deepest.binds not in LIMITS:
        return whole
    return f"{limit_title(deepest.binds)}, at {say(deepest.value, deepest.unit, units)}"


def doubt_text(answer: Answer) -> str:
    """Say in one line how sure the verdict is."""
    told = answer.bare_rig.told
    holds = f"{chance(answer.sure.chance_works)} {such_fields(told)}"
    by = "" if told is None else f", {from_readings(told)}"
    return f"How sure: every limit holds in {holds}, counting what draft and soil scatter{by}."


def stop_signs(answer: Answer, units: System) -> tuple[str, ...]:
    """Say when to stop, as one sees or hears it from the seat; the readings' own ends stand beside them."""
    one, most = piece(answer.rig.implement.tool), answer.caps.critical_depth
    depth = float(answer.point.bare.depth)
    signs = [
        "A reading leaves its band: look at depth, points, pressure, weight, a wet or a hard spot.",
        f"Soil shines or rolls into a ribbon where a {one} ran: too wet, it smears.",
        f"Dug behind a {one}, the soil is squeezed and not broken" + (
            f": {say(most, 'cm', units)} is about as deep as this point breaks." if most and depth > _NEAR * most else "."),
        "The front gets light or doesn't steer, the hitch knocks, a new noise or smell.",
        f"A {one} trips, a bolt shears, oil drips: engine off, tool on the ground, then look.",
    ]  # fmt: skip
    if any(key in _BURIED for key in answer.cautions):
        signs.append("A mark or a sign of a buried line, a tile outlet, a wire: stop right there.")
    return tuple(spelt(sign, units) for sign in signs)


def ways_out(words: SizeWords) -> tuple[str, ...]:
    """Say what would work instead: the reverse answers that have a value, or why none has."""
    if words.answer.verdict.by_soil and words.answer.wetness is not None:
        return wetness_notes(words.answer.wetness, words.units)[:2]
    first = words.reverse[:_WAYS]
    return tuple(said.text for said in first if not said.none) or reverse_lines(first)


def ground_text(rig: Rig) -> str:
    """Say in a line what the ground is, as typed."""
    ground = rig.ground
    texture = ground.texture or f"sand {ground.sand}, clay {ground.clay}"
    strength = f"cone index {ground.cone_index}" if ground.cone_index else f"{ground.surface} ground"
    slope = f"slope {ground.grade}" if ground.grade.value else ""
    return ", ".join(part for part in (texture, strength, slope) if part)


def sure_on_sheet(answer: Answer) -> str:
    """Say how sure the answer is; the sheet names its sources elsewhere."""
    if by_readings := sure_by_readings(answer):
        return f"{chances_text(answer)} Bands are what 8 in 10 of them fall into.{by_readings}"
    return (
        f"{chances_text(answer)} Bands are what 8 fields in 10 fall into: the draft table scatters by "
        f"{percent(answer.sure.draft_range)} either way, and soil strength scatters too."
    )


def sources_text(answer: Answer, cautions: Iterable[str]) -> str:
    """Name every source behind the figures and behind the cautions (their keys), each with how sure it is."""
    figures, said = _listed((str(eq.source), eq.sure) for eq in answer.equations), _listed(map(caution_source, cautions))
    return (
        f"Figures: {figures}. Slip band: {slip_source(answer.caps.slip_source)}. Cautions: {said}. What is said to be from "
        "memory was not checked in print."
    )


def _listed(pairs: Iterable[tuple[str, str]]) -> str:
    """Give "source (how sure)", each source once, in the order in which it is used."""
    found: dict[str, list[str]] = {}
    for source, sure in pairs:
        if sure not in found.setdefault(source, []):
            found[source].append(sure)
    return "; ".join(f"{source} ({', '.join(sure)})" for source, sure in found.items())
