"""The answer about the ground as JSON-ready data: stable names, every number with its unit; what can't be a number is null."""

from __future__ import annotations

from typing import Any

from rigcalc.models.ground.answer import GroundAnswer
from rigcalc.models.ground.corrected import Corrected
from rigcalc.models.ground.depth import DepthAdvice
from rigcalc.models.ground.layers import Layers
from rigcalc.models.ground.shanks import Shanks
from rigcalc.models.ground.slope import Slope
from rigcalc.models.ground.soil_map import SoilMap
from rigcalc.models.ground.steps import TwoPasses, Wings
from rigcalc.models.ground.trial import Trial
from rigcalc.models.ground.worked import Worked
from rigcalc.models.ground.zones import Hold, Zones
from rigcalc.models.machine.tines import Voices
from rigcalc.views.json.by_weather import weather_data
from rigcalc.views.json.numbers import array, number, span
from rigcalc.views.json.pressing import loss_data, pressing_data, residue_data
from rigcalc.views.json.said import said_data
from rigcalc.views.json.wetness import wetness_data
from rigcalc.words.ground import GroundWords

VERSION = 1  # raised when a name or a unit changes


def ground_data(words: GroundWords) -> dict[str, Any]:
    """Give nested dicts and lists; arrays stand as {"values": [...], "unit": "cm"}."""
    answer, said = words.answer, words.said
    return {
        "version": VERSION,
        **said_data(said),
        "verdict": answer.judgement.value,
        "wetness": None if answer.wetness is None else wetness_data(answer.wetness),
        "weather": None if answer.weather is None else weather_data(answer.weather),
        "limit": number(answer.limit, "kPa"),
        "depth": None if answer.depth is None else _advice(answer.depth),
        "at_field_capacity": _corrected(answer),
        "layers": None if answer.layers is None else _layers(answer.layers),
        "layers_after": None if answer.layers_after is None else _layers(answer.layers_after),
        "tool": _shanks(answer.shanks),
        "two_passes": None if answer.two is None else _two(answer.two),
        "wings": None if answer.wings is None else _wings(answer.wings),
        "draft_voices": _voices(answer.voices),
        "putting_back": pressing_data(answer.pressing),
        "yield_loss": loss_data(answer.loss),
        "residue": None if answer.residue is None else residue_data(answer.residue),
        "holds": _holds(answer.holds),
        "zones": None if answer.zones is None else _zones(answer.zones),
        "slope": None if answer.slope is None else _slope(answer.slope),
        "worked": None if answer.worked is None else _worked(answer.worked),
        "strip_trial": None if answer.trial is None else _trial(answer.trial),
        "soil": None if answer.soil is None else _soil(answer.soil),
        "notes": list(words.notes),
        "cautions": list(words.cautions),
        "rig": answer.rig.model_dump(mode="json", exclude_none=True),
    }


def _advice(advice: DepthAdvice) -> dict[str, Any]:
    return {
        "plan": advice.plan.value,
        "verdict": advice.judgement.value,
        "need": None if advice.need is None else span(advice.need, "cm"),
        "wanted_share": number(advice.wanted, "1"),
        "flags": advice.flags,
        "with_layer": advice.with_layer,
        "readings_end_inside": advice.unreached,
        "at_work": {"depth": number(advice.work, "cm"), "share": number(advice.at_work, "1")},
        "curve": {"depth": array(advice.depths, "cm"), "share": array(advice.shares, "1")},
        "top": dict(zip(("least", "middle", "most"), (number(v, "cm") for v in advice.top), strict=True)),
        "bottom": dict(zip(("least", "middle", "most"), (number(v, "cm") for v in advice.bottom), strict=True)),
        "sure": number(advice.sure, "1"),
    }


def _corrected(answer: GroundAnswer) -> dict[str, Any] | None:
    """Give readings at field capacity; why_not: what keeps them as read."""
    found = answer.corrected
    if not isinstance(found, Corrected) or answer.as_drained is None:
        return None if found is None else {"why_not": str(found)}
    ends = ("low", "likely", "high")
    return {
        "water": dict(zip(ends, (number(one, "1") for one in found.water), strict=True)),
        "drained_water": number(found.drained, "1"),
        "factor": dict(zip(ends, found.factor, strict=True)),
        "with_layer": dict(zip(ends, found.passes, strict=True)),
        "as_read": found.left,
        "plan": answer.as_drained.plan.value,
        "verdict": answer.as_drained.judgement.value,
        "need": None if answer.as_drained.need is None else span(answer.as_drained.need, "cm"),
        "layers": _layers(found.layers),
    }


def _layers(layers: Layers) -> dict[str, Any]:
    return {
        "names": list(layers.names),
        "found": layers.found.tolist(),
        "top": array(layers.top, "cm"),
        "hardest": array(layers.hardest, "cm"),
        "bottom": array(layers.bottom, "cm"),
        "peak": array(layers.peak, "kPa"),
        "chance": array(layers.chance, "1"),
        "readings_end_inside": layers.open_below.tolist(),
    }


def _shanks(shanks: Shanks) -> dict[str, Any]:
    return {
        "depth": array(shanks.depths, "cm"),
        "section": array(shanks.section, "m**2"),
        "ridge": array(shanks.ridge, "cm"),
        "loosened_share": array(shanks.loosened, "1"),
        "draft": array(shanks.draft, "kN"),
        "draft_for_area": array(shanks.specific, "kPa"),
        "critical_depth": None if shanks.critical is None else span(shanks.critical, "cm"),
        "cheapest_depth": number(shanks.cheapest, "cm"),
        "spacing": number(shanks.spacing, "cm"),
        "spacing_over_depth": number(shanks.multiple, "1"),
        "usual_spacing_over_depth": span(shanks.usual_multiple, "1"),
    }


def _two(found: TwoPasses) -> dict[str, Any]:
    """Give one pass, and the first and second of two; the second at best and at worst."""
    each = {"one": found.one, "first": found.first, "second_at_best": found.second[0], "second_at_worst": found.second[1]}
    return {
        **{name: {"draft": number(one.draft, "kN"), "at": number(one.depth, "cm"), **_holds(one.hold),
                  "time": number(one.hours, "h/ha"), "fuel": number(one.fuel, "L/ha")} for name, one in each.items()},
        "broken_anew": number(found.anew, "1"),
        "opens_the_depth": found.opens,
    }  # fmt: skip


def _wings(found: Wings) -> dict[str, Any]:
    return {
        **{"apart": span(found.apart, "cm"), "count": list(found.count), "draft": span(found.draft, "kN")},
        **{"leading_apart": span(found.leading_apart, "cm"), "leading_count": list(found.leading_count)},
    }


def _voices(found: Voices) -> dict[str, Any]:
    """Give each voice with its 8-in-10 band; apart: the wedge and the table part by more than both."""
    each = [found.table, *found.rows, *([found.wedge] if found.wedge is not None else [])]
    return {
        **{one.name: {"likely": number(one.likely, "kN"), **span((one.low, one.high), "kN")} for one in each},
        "apart": found.apart,
    }


def _holds(found: Hold) -> dict[str, Any]:
    return {"hold": found.hold, "limit": found.limit, "depth": number(found.depth, "cm"),
            "speed": number(found.speed, "km/h")}  # fmt: skip


def _zones(found: Zones) -> dict[str, Any]:
    return {
        "headland": number(found.headland, "m"),
        "headland_passes": found.passes,
        **{"fields": found.parted.fields or None, "headings": array(found.parted.headings, "deg")},
        "run_over": dict(zip(("never", "once", "twice", "more"), found.often, strict=True)),
        "loads": [
            {
                "name": each.name,
                "load": number(each.load, "kg"),
                "crop": number(each.crop, "kg/m**2"),
                "count": each.trips(1e4 * sum(zone.area for zone in found.each)),
            }
            for each in found.loaded
        ],
        "lanes": {
            **{"apart": number(found.lanes.apart, "m"), "wheeled": number(found.lanes.wheeled, "1")},
            "wheeled_now": number(found.lanes.now, "1"),
        },
        "each": [
            {
                **{"name": zone.name, "area": number(zone.area, "ha"), "wheeled_share": number(zone.wheeled, "1")},
                **{"wheeled_times": zone.times, **_holds(zone)},
                "draft_rise": dict(zip(("low", "likely", "high"), zone.rise, strict=True)),
                **{"time": number(zone.hours, "h"), "fuel": number(zone.fuel, "L")},
            }
            for zone in found.each
        ],
        **{"time": number(found.hours, "h"), "fuel": number(found.fuel, "L")},
    }


def _slope(found: Slope) -> dict[str, Any]:
    """Give tangents of angles."""
    passes = {"passes": found.line.value, "verdict": found.judgement.value}
    return {"steep": number(found.steep, "1"), "along": number(found.along, "1"), **passes}


def _soil(found: SoilMap) -> dict[str, Any]:
    """Give a value a sample; water is that over dry mass, state null where the limits aren't known."""
    at = {} if found.east is None else {"east": array(found.east, "m"), "north": array(found.north, "m")}
    water = {} if found.water is None else {"water": array(found.water[1], "1")}
    states = None if found.states is None else [state or None for state in found.states.tolist()]
    low, likely, high = (array(each, "kN") for each in found.drafts)
    return {
        "verdict": None if found.judgement is None else found.judgement.value,
        **{"samples": found.count, "left_out": found.left_out, "outside_the_regressions": found.outside, **at},
        **{"textures": found.textures.tolist(), "doubtful": found.doubtful.tolist(), "sand_from": found.sand},
        **{"organic_matter_from": found.matter, "wettest": array(found.values("wettest"), "1"), **water},
        **{"room": array(found.values("room"), "1")},
        **{"states": states, "known_by": found.known_by, "draft": {"low": low, "likely": likely, "high": high}},
        "classes": [{"texture": each.texture, "samples": each.count, "draft": number(each.draft, "kN"),
                     "used": number(each.used, "1"), "fullest": each.fullest, **_holds(each)} for each in found.classes],
    }  # fmt: skip


def _worked(found: Worked) -> dict[str, Any]:
    counts = (("before", found.before, found.peaks[0]), ("after", found.after, found.peaks[1]))
    return {
        **{"result": found.result.value, "verdict": found.judgement.value},
        **{name: {"with_layer": of[0], "flags": of[1], "hardest": number(peak, "kPa")} for name, of, peak in counts},
        **{"gone": number(found.gone, "1"), "wanted": number(found.wanted, "1")},
        "chance_half_gone": number(found.chance, "1"),
        **{"begins_above_depth": found.inside, "begins_below_depth": found.below},
        "softer_beneath": number(found.beneath, "kPa"),
    }


def _trial(trial: Trial) -> dict[str, Any]:
    """Give shares of the yield; needed: pairs of strips, null for more than 1000."""
    return {
        "see": number(trial.see, "1"),
        "scatter": {**span(trial.scatter, "1"), "typed": trial.known},
        **{"pairs": trial.pairs, "enough": trial.enough},
        "needed": None if trial.needed is None else dict(zip(("low", "high"), trial.needed, strict=True)),
        "shows": None if trial.shows is None else span(trial.shows, "1"),
    }
