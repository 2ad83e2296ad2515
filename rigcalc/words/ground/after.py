"""What is said of the ground after the pass: the residue that is left, and what the axles press together again."""

from __future__ import annotations

import math

from rigcalc.models.ground.answer import GroundAnswer
from rigcalc.models.ground.axles import Axle
from rigcalc.models.ground.contact import MOST_OFF
from rigcalc.models.ground.pressing import Pressed, Pressing
from rigcalc.models.ground.residue import Residue
from rigcalc.models.ground.strength import stress_value
from rigcalc.models.machine.judgement import Judgement
from rigcalc.words.numbers import System, capital, percent, say, to_shown

_KINDS = {"non_fragile": "corn or cereals", "fragile": "soybean or the like"}
_WHEN = {"rest": "at rest", "pull": "pulling", "raised": "with the tool raised", "typed": ""}
# where more axles and the field are typed: on the page, and elsewhere
_ON_PAGE = ("the box of their axles", "the boxes of the field and of what else drove there say")
_TYPED = ("--axle, or axles under [ground]", "--field with --traffic says")
_NAMES = {"schjonning": "by density, clay and suction", "saffih": "by texture, density and water", "imhoff": "of Oxisols"}


def axle_text(axle: Axle) -> str:
    """Name an axle in a sentence."""
    return {"front": "the front axle", "rear": "the rear axle", "tracks": "the tractor on its tracks"}.get(axle.name, axle.name)


def span_text(low: float, high: float, unit: str, units: System) -> str:
    """Say a span with its unit once; one number where both ends read alike."""
    one, two = say(low, unit, units), say(high, unit, units)
    return two if one == two else f"{one.removesuffix(' ' + to_shown(low, unit, units)[1])} to {two}"


def shares_text(low: float, high: float) -> str:
    """Say a span of shares."""
    one, two = percent(low), percent(high)
    return two if one == two else f"{one} to {two}"


def residue_part(left: Residue | None) -> tuple[Judgement, str] | None:
    """Say whether enough residue is left; None where nobody said how much is to be kept."""
    if left is None or left.judgement is None:
        return None
    assert left.keep is not None
    found, keep = shares_text(*left.after), percent(left.keep)
    after = "the pass" if len(left.passes) == 1 else f"the {len(left.passes)} passes"
    if left.judgement is Judgement.DONT:
        return left.judgement, (
            f"{after} would leave {found} of the ground covered, less than the {keep} to keep: leave a pass out, run shallower "
            "or take points that turn less soil."
        )
    if left.judgement is Judgement.TRY:
        return left.judgement, (
            f"{after} may leave less cover than the {keep} to keep ({found}): make one round and count, with a line of 100 "
            "marks."
        )
    return left.judgement, f"{after} leave{'s' if len(left.passes) == 1 else ''} {found} of the ground covered, {keep} to keep."


def residue_lines(left: Residue | None) -> tuple[str, ...]:
    """Give a line for each pass, and what stands behind them; empty where nobody asked."""
    if left is None:
        return ()
    lines = [f"Before: {percent(left.before)} of the ground covered ({_KINDS[left.kind]})"]
    for one in left.passes:
        name = capital(one.operation.replace("_", " "))
        lines.append(f"{name}: leaves {shares_text(*one.left)} of it, so {shares_text(*one.cover)} ({one.sure})")
    if any(not one.by_kind for one in left.passes):
        lines.append("Where a source has one number for all kinds of residue, fragile residue may keep less")
    lines.append("Shares of cover multiplied: speed, depth and age of the residue move them; a count in the field beats them")
    return tuple(lines)


def pressing_part(answer: GroundAnswer, units: System) -> tuple[Judgement, str] | None:
    """Say that an axle puts the layer back; None where none surely does."""
    found = answer.pressing
    if found.judgement is Judgement.DONT:
        assert found.bearing.kpa is not None
        return Judgement.DONT, (
            f"{axle_text(found.worst.axle)} presses the ground together down to at least {say(found.worst.sure, 'cm', units)}, "
            f"below the {say(found.work, 'cm', units)} that the shanks lift: wait until it is drier, take load off, or keep it "
            "on lanes of its own."
        )
    if found.judgement is Judgement.TRY:
        names = " and ".join(axle_text(one.axle) for one in found.breaks_rule)
        deep, most = (say(stress_value(*name), name[1], units) for name in (("rule_depth", "cm"), ("rule_stress", "kPa")))
        return Judgement.TRY, (
            f"{names} bring{'s' if len(found.breaks_rule) == 1 else ''} more than {most} down to {deep}, which a rule of thumb "
            "forbids near field capacity: that puts a layer back where no shank reaches. Keep to lanes, take load off, or wait."
        )
    return None


def pressing_unsure(answer: GroundAnswer, units: System) -> str:
    """Say what there is to say where no axle surely puts the layer back."""
    found, work = answer.pressing, say(answer.pressing.work, "cm", units)
    name = axle_text(found.worst.axle)
    if found.bearing.kpa is None:
        return "not known: no regression holds for this soil, so the stresses stand alone."
    if found.bearing.dry:
        return "not while it is dry and hard: such ground bears several times what the regressions say."
    water = "" if found.bearing.measured else " Nobody has read the water, so field capacity is taken."
    if found.worst.maybe > found.work:
        return (
            f"perhaps: {name} may press it together down to {say(found.worst.maybe, 'cm', units)}, below the {work} that the "
            f"shanks lift; what ground bears is known too badly to be sure.{water}"
        )
    return f"hardly: even at the worst no axle presses it together below the {work} that the shanks lift.{water}"


def axle_rows(found: Pressing, units: System) -> tuple[tuple[str, ...], ...]:
    """Give a row an axle: name, load, pressure, stress at the rig's depth and the rule's, how deep the ground yields."""
    rule = stress_value("rule_depth", "cm")
    rows = []
    for one in found.axles:
        axle = one.axle
        name = " ".join(part for part in (axle.name, _WHEN[axle.when]) if part)
        stress = (span_text(*found.at(one, depth), "kPa", units) for depth in (found.work, rule))
        rows.append(
            (name, say(axle.mass, "kg", units), span_text(*axle.pressure, "kPa", units), *stress, _yields(found, one, units))
        )
    return tuple(rows)


def axle_titles(found: Pressing, units: System) -> tuple[str, ...]:
    """Give the titles of those rows."""
    at = (say(depth, "cm", units) for depth in (found.work, stress_value("rule_depth", "cm")))
    return ("", "load", "pressure", *(f"at {deep}" for deep in at), "yields down to")


def _yields(found: Pressing, one: Pressed, units: System) -> str:
    if math.isnan(one.maybe):
        return "not known"
    if one.maybe == 0:
        return "nowhere"
    sure, may = (f"{'over ' if d >= found.deepest else ''}{say(d, 'cm', units)}" for d in (one.sure, one.maybe))
    return f"perhaps {may}" if one.sure == 0 else sure if one.sure >= found.deepest else f"{sure}, perhaps {may}"


def _contact_line(found: Pressing, one: Pressed, units: System) -> str:
    """Say what a contact model by the tyres' pressure gives, with the load it closes; or that it is refused."""
    second = one.contact
    if second is None:
        return f"{capital(one.axle.name)}: a contact model by pressure isn't for so wide a tyre"
    name, pressure = one.axle.name, say(second.pressure, "kPa", units)
    carried = f"{say(second.closed, 'kN', units)} where the wheel bears {say(second.load, 'kN', units)}"
    stress, own = second.at(found.work), found.at(one, found.work)
    if stress is None:
        off = percent(abs(second.off))
        refused = f"a contact model by pressure ({pressure}) is refused"
        return f"{capital(name)}: {refused}: its contact would carry {carried}, {off} off"
    apart = stress[0] > (1 + MOST_OFF) * own[1] or stress[1] < (1 - MOST_OFF) * own[0]
    beyond = f", beyond the {span_text(*own, 'kPa', units)} by area" if apart else ""
    return (
        f"{capital(name)}: by the tyres' pressure ({pressure}) at most {say(second.peak, 'kPa', units)} in the contact, "
        f"{span_text(*stress, 'kPa', units)} at {say(found.work, 'cm', units)}{beyond}; a second opinion, it carries {carried}"
    )


def pressing_lines(found: Pressing, units: System, on_page: bool = False) -> tuple[str, ...]:
    """Say what the ground bears, how the axles stand to the rules of thumb, what isn't known and where to type it."""
    adding, parting = _ON_PAGE if on_page else _TYPED
    held, lines = found.bearing, []
    water = "at the water that was read" if held.measured else "at field capacity, since no water was read"
    if held.kpa is None:
        lines.append("What the ground bears: no regression holds for this soil; the stresses stand alone")
    elif held.dry:
        lines.append(f"The ground bears at least {say(held.kpa[0], 'kPa', units)}; dry and hard it bears several times as much")
    else:
        lines.append(f"The ground bears {span_text(*held.kpa, 'kPa', units)} {water}, with a doubt of 30 % of our own choice")
    for one in held.each:
        if not one.holds:
            lines.append(f"The regression {_NAMES[one.name]} doesn't hold for this soil and water")
        elif not one.decides:
            lines.append(
                f"The regression {_NAMES[one.name]}: {span_text(*one.kpa, 'kPa', units)}; shown alone, decides nothing"
            )
    rule = {True: "kept", False: "broken", None: "within the doubt"}
    deep, most = say(stress_value("rule_depth", "cm"), "cm", units), say(stress_value("rule_stress", "kPa"), "kPa", units)
    lines.append(
        f"No more than {most} at {deep}: " + "; ".join(f"{one.axle.name} {rule[found.rule(one)]}" for one in found.axles)
    )
    heavy = [one.axle.name for one in found.axles if one.over_axle_rule]
    ten = say(1000 * stress_value("axle_rule", "t"), "kg", units)
    lines.append(f"No axle over {ten}: " + (f"{', '.join(heavy)} over it" if heavy else "kept"))
    lines += [_contact_line(found, one, units) for one in found.axles if one.axle.inflation is not None]
    lines += [
        "Contact areas span firm to soft ground by a rule of thumb; a belt's rollers press about 3 times its mean near the top",
        "The wheels of the tool aren't counted: nobody says how large they are. They can be added, as can a cart or a combine "
        f"({adding})",
        "More passes in one track bring the same stress, so they yield no deeper while it gets no wetter; how much denser each "
        "makes the soil isn't worked out here. Loosened soil gives to any wheel",
        f"Lanes that all wheels keep to (controlled traffic) leave the rest as it was lifted; {parting} how much that is, and "
        "how often wheels run over a place",
    ]
    return tuple(lines)
