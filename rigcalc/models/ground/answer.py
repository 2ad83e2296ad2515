"""Should I, and how deep: the ground's wetness, what the flags say, and what the shanks loosen, as facts."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from os import PathLike
from typing import Any

from rigcalc.core.errors import Fault, InputError
from rigcalc.models.ground.axles import Axle, typed_axles
from rigcalc.models.ground.by_weather import ByWeather, by_weather
from rigcalc.models.ground.corrected import Corrected, Uncorrected, corrected
from rigcalc.models.ground.depth import DepthAdvice, Plan, depth_advice
from rigcalc.models.ground.given import flags_given, gathered, limit_given, own_ground, own_names, share_given, slope_text
from rigcalc.models.ground.layers import Layers
from rigcalc.models.ground.logs import load_log, read_probe
from rigcalc.models.ground.loss import Loss, yield_loss
from rigcalc.models.ground.pressing import Pressing, pressing
from rigcalc.models.ground.readings import Readings, read_flags
from rigcalc.models.ground.residue import Residue, residue_left
from rigcalc.models.ground.shanks import Shanks, critical_band, shanks
from rigcalc.models.ground.slope import Slope
from rigcalc.models.ground.slope import slope as slope_for
from rigcalc.models.ground.soil_map import SoilMap, soil_map
from rigcalc.models.ground.steps import TwoPasses, Wings, two_passes, wings
from rigcalc.models.ground.trial import Trial, trial_of
from rigcalc.models.ground.worked import Worked, did_it_work
from rigcalc.models.ground.zones import Hold, Zones, hold_of, zones
from rigcalc.models.machine.cautions import depth_cautions
from rigcalc.models.machine.field import in_field
from rigcalc.models.machine.judgement import Judgement, worst_of
from rigcalc.models.machine.limits import caps
from rigcalc.models.machine.tines import Voices, voices
from rigcalc.models.machine.weather import Weather
from rigcalc.models.machine.wetness import Wet, Wetness, at_best, wetness
from rigcalc.models.rig.asked import asked
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.file import demo_rig
from rigcalc.models.rig.rig import Rig

_CAUTIONS = ("buried_lines", "buried_private", "too_wet", "raised_implement", "shear_bolts", "estimate")
_SHALLOWER = ("depth", "no")
_DRAWN_BELOW = 10.0  # cm: how far below what is asked for the curves go


@dataclass(frozen=True)
class GroundAnswer:
    """Everything that rigcalc finds about the ground of one rig.

    wetness and depth are None where nothing was read, residue, zones, slope and trial where nobody asked, worked where
    nobody probed after the pass; where somebody did, the judgement is of that. weather: how wet it should be by a file of daily
    weather, None without one; it counts where wetness is None, never for a go. corrected: the readings at field capacity, or
    why they stay as read; as_drained: what those ask for. two and wings: None for tools and depths that they aren't for.
    limit: resistance in kPa that the readings are held against. holds: what the rig can hold by its hard limits, on ground as
    its file and its readings say. cautions: keys of the table of cautions. layers, layers_after and readings hold a value a
    site. soil: the field by its soil samples, None without them. `rigcalc.in_words(answer)` says it.
    """

    rig: Rig
    judgement: Judgement
    wetness: Wetness | None
    weather: ByWeather | None
    depth: DepthAdvice | None
    corrected: Corrected | Uncorrected | None
    as_drained: DepthAdvice | None
    shanks: Shanks
    two: TwoPasses | None
    wings: Wings | None
    pressing: Pressing
    loss: Loss
    voices: Voices
    residue: Residue | None
    zones: Zones | None
    holds: Hold
    slope: Slope | None
    worked: Worked | None
    trial: Trial | None
    soil: SoilMap | None = field(repr=False)
    limit: float
    cautions: tuple[str, ...]
    layers: Layers | None = field(repr=False)
    layers_after: Layers | None = field(repr=False)
    readings: Readings | None = field(repr=False)

    @property
    def failing(self) -> Hold | None:
        """What the rig can't work at its own depth at any speed: the ground as its file says, or the first such zone."""
        places: tuple[Hold, ...] = (self.holds, *(self.zones.each if self.zones is not None else ()))
        return next((place for place in places if place.hold in _SHALLOWER), None)

    @property
    def overstated(self) -> bool:
        """True where readings were taken in dry ground, which reads harder than it is, and couldn't be corrected."""
        dry = self.wetness is not None and self.wetness.state is Wet.HARD
        return self.depth is not None and dry and self.as_drained is None

    @property
    def otherwise(self) -> bool:
        """True where readings as read and at field capacity ask for different things, or only one of them has a layer."""
        return _otherwise(self.depth, self.as_drained)


def ground(
    rig: Rig | str | PathLike[str], flags: Sequence[str] = (), *, log: str | PathLike[str] | None = None,
    share: float | None = None, limit: str = "300 psi", axles: Sequence[str] = (), cover: str | None = None,
    passes: Sequence[str] = (), residue: str | None = None, keep: str | None = None, field: str | None = None,
    headland: str | None = None, traffic: Sequence[str] = (), after: Sequence[str] = (),
    after_log: str | PathLike[str] | None = None, see: str | None = None, scatter: str | None = None, pairs: int | None = None,
    slope: str | None = None, first: str | None = None, loss: str | None = None, lasting: str | None = None,
    fades: str | None = None, weather: str | PathLike[str] | Weather | None = None, weather_units: str | None = None,
    latitude: str | float | None = None, day: Any = None, water_left: Any = None,
    soil: Any = None, boundary: str | PathLike[str] | bytes | None = None, heading: Any = None,
) -> GroundAnswer:  # fmt: skip
    """Say whether a rig's ground is fit for the work, how deep that has to be, what its axles press and what residue is left.

    What isn't given is taken from the rig file's ground.

    Parameters
    ----------
    rig : Rig, str or pathlib.Path
        The rig, the path of its file, or the name of a demo rig; its ground may say how wet it is.
    flags : sequence of str, optional
        Probe readings by hand: "8 in to 12 in" where the needle passes the limit and comes back, "8 in to 12 in, 350 psi" with
        the most it showed, "8 10 12 in" (in, hardest, out), "9 in to deeper", "none", or values at equal steps such as
        "120 180 320 310 210 psi each 3 in".
    log : str or pathlib.Path, optional
        The path of a recording cone's CSV file: `site, depth (cm), reading (kPa)`, or a column for each site.
    share : float, optional
        Share of the flags with a layer that the depth is to get under, above 0 to 1; 0.8 where the rig file says nothing.
    limit : str, optional
        Resistance that stops roots, with its unit.
    axles : sequence of str, optional
        Axles of others that drive on the field: "cart: 40000 lb on 2 tyres of 42 in by 78 in" (width by height), or on tracks
        of a width by a length on the ground.
    cover : str, optional
        Share of the ground that residue covers before the passes.
    passes : sequence of str, optional
        Operations of the table of residue, in order, "this" for the rig's own; the rig's own alone where none is named.
    residue : str, optional
        "non_fragile" (corn, cereals; also where the rig file says nothing) or "fragile" (soybean).
    keep : str, optional
        The least share of cover that is to be left.
    field : str, optional
        Length along the passes by width, such as "2600 ft by 1300 ft": parts it into headland, lanes and the rest.
    headland : str, optional
        Depth of the headland at each end; two widths of the tool where nobody says.
    traffic : sequence of str, optional
        What else drove there: "combine: 30 ft apart, 2 tyres of 30 in", or "cart: lanes 120 ft apart, 2 tyres of 42 in".
    slope : str, optional
        How steep the field is and how the passes run: "6 percent across", "3 deg along"; the rig file's own, or its grade,
        where none is given.
    first : str, optional
        Depth of the first of two passes, such as "8 in"; 60 percent of the rig's depth where nobody says.
    loss, lasting, fades : str, optional
        What compaction costs in yield where wheels ran, in the first year ("6 to 30 percent") and for good ("2.5 to 10
        percent"), and how long the rest takes to fade ("5 to 10 years"); the spans of published trials where nobody says.
    after : sequence of str, optional
        Flags as above, probed after the pass: then the answer is whether it worked.
    after_log : str or pathlib.Path, optional
        A log as above, of after the pass.
    see : str, optional
        The difference in yield that a trial in pairs of strips is to show, such as "5 percent".
    scatter : str, optional
        What the strips of a pair differ by for no reason (standard deviation), such as "8 percent" of the yield.
    pairs : int, optional
        How many pairs of strips there are, 2 to 1000.
    weather : str, pathlib.Path or Weather, optional
        A CSV file of daily weather (DATE, TMAX, TMIN, PRCP), or what was read from one, from which the water at working depth
        is worked out.
    weather_units : str, optional
        Its units where its headings don't say: "tenths" (of degrees Celsius and of mm), "metric" or "us".
    latitude : str or float, optional
        Where it was read, in degrees, south negative, where the file doesn't say.
    day : str or datetime.date, optional
        The day of the file that is asked about, as "1996-10-01"; its last one where nobody says.
    boundary : str, pathlib.Path or bytes, optional
        The path of a GeoJSON file or a shapefile of fields, or the bytes of a GeoJSON file, instead of `field`: then the
        headland runs all round. Needs the extra `fields`.
    heading : str or float, optional
        Of the passes inside of a boundary, degrees clockwise from true north; along each field's longest side where none is
        given.
    water_left : str, optional
        Share of the water that plants can take which was left when the run of weather begins, such as "20 percent" under a
        ripe crop; what is usual where nobody says.
    soil : str, pathlib.Path or mapping, optional
        Soil samples of the field: the path of a CSV file, or headings with a column each, such as a data frame:
        "x (m)", "y (m)", "clay (%)", "sand (%)", "organic carbon (%)", "water by mass (%)".

    Returns
    -------
    GroundAnswer
        Facts in bare numbers: depths in cm, resistance in kPa, draft in kN, sections in m2. `rigcalc.in_words(answer)` says
        them in either system of units.

    Raises
    ------
    InputError
        For a rig, flags, a log or options that can't be used: all at once.

    Examples
    --------
    >>> found = ground("front_wheel_assist", ["7 in to 9 in"] * 9 + ["none"])
    >>> found.depth.plan.value, found.depth.with_layer, found.judgement.value
    ('right', 9, 'try')
    """
    faults: list[Fault] = []
    with gathered(faults):
        rig = asked(rig)
    own = own_ground(rig) if isinstance(rig, Rig) else {}
    rig = rig if isinstance(rig, Rig) else demo_rig()  # stands in, so that what else is wrong is named with a rig refused
    kept = flags_given(flags, faults)
    most = limit_given(limit, faults)
    wanted = share_given(share if share is not None else own.get("share"), faults)
    parts = _probed(kept, log, most, faults)
    later = _probed(flags_given(after, faults, "after"), after_log, most, faults, "after")
    strips: Trial | None = None
    with gathered(faults):
        strips = trial_of({"see": see, "scatter": scatter, "pairs": pairs}, own)
    if not kept and log is None:
        # what the rig file has of after the pass goes with its own flags alone
        with gathered(faults, "ground.flags"):
            parts += [read_probe(own["flags"], most)] if own.get("flags") else []
        with gathered(faults, "ground.flags_after"):
            own_after = own.get("flags_after") if not after and after_log is None else None
            later += [read_probe(own_after, most)] if own_after else []
    if later and not parts and not faults:
        entry = "after" if after or after_log is not None else "ground.flags_after"
        faults.append(Fault(entry, "readings of after the pass alone", "those of before it too", 'a flag "8 in to 12 in"'))
    typed: tuple[Axle, ...] = ()
    with gathered(faults, "ground.axles" if not axles and own.get("axles") else ""):
        typed = typed_axles(axles or [one for one in own.get("axles", "").split(";") if one.strip()])
    kind = residue if residue is not None else own.get("residue", "non_fragile")
    about = (cover if cover is not None else own.get("cover"), passes, kind, keep if keep is not None else own.get("keep"))
    numbers = as_read = bare(rig)
    limits = caps(rig, numbers)
    left: Residue | None = None
    falls: Slope | None = None
    parted: Zones | None = None
    with gathered(faults):
        as_read = in_field(rig)
    with gathered(faults):
        left = residue_left(rig.implement.tool, *about)
    with gathered(faults, "ground.slope" if slope is None and own.get("slope") else ""):
        falls = slope_for(slope_text(slope, own), numbers.grade)
    lanes = traffic or [one for one in own.get("traffic", "").split(";") if one.strip()]
    sides = own.get("field") if field is None and boundary is None else field
    where = (sides, own.get("headland") if headland is None else headland, lanes)
    odd: list[Fault] = []
    with gathered(odd):
        parted = zones(as_read, limits, *where, boundary, heading)
    typed_here = {
        "field": field is not None or boundary is not None,
        "headland": headland is not None,
        "traffic": bool(traffic),
    }
    alone = not any(typed_here.values())
    faults += own_names(odd, [name for name, here in typed_here.items() if not here and (alone or own.get(name))])
    twice: TwoPasses | None = None
    with gathered(faults):
        loosens = shanks(rig, numbers, rig.work.depth.to("cm"))
        twice = two_passes(as_read, limits, rig.implement.tool, loosens, first)
    lost: Loss | None = None
    with gathered(faults):
        lost = yield_loss({"loss": loss, "lasting": lasting, "fades": fades}, own)
    sampled: SoilMap | None = None
    with gathered(faults):
        sampled = soil_map(rig, soil)
    by_days: ByWeather | None = None
    with gathered(faults):
        by_days = by_weather(rig, weather, weather_units, latitude, day, water_left)
    if faults:
        raise InputError(faults)
    layers, layers_after = _layers(parts, most), _layers(later, most)
    wet, work = wetness(rig), rig.work.depth.to("cm")
    rated = rig.implement.rated_depth.to("cm") if rig.implement.rated_depth is not None else None
    advice = None if layers is None else depth_advice(layers, work, wanted, critical_band(rig), rated)
    moist = None if layers is None else corrected(rig, wet, parts, most)
    drained: DepthAdvice | None = None
    if isinstance(moist, Corrected):
        drained = depth_advice(moist.layers, work, wanted, critical_band(rig), rated)
    pressed = pressing(rig, numbers, wet, typed)
    assert lost is not None
    deep = bool(pressed.breaks_rule) or any(one.over_axle_rule for one in pressed.axles)
    lost = replace(lost, deep=deep, wheeled=math.nan if parted is None else parted.lanes.now)
    holds = hold_of(as_read, limits, hard_only=True)
    worked: Worked | None = None
    if layers is not None and layers_after is not None:
        logs = tuple(None if (all_of := _together(each)) is None else all_of.profiles for each in (parts, later))
        worked = did_it_work(layers, layers_after, work, wanted, (logs[0], logs[1]))
    deepest = max(work, advice.need[1] if advice is not None and advice.need is not None else 0.0)
    judged = _judgement(wet, by_days, (advice, drained), pressed, (left, falls, sampled), holds, parted)
    return GroundAnswer(
        rig=rig,
        judgement=worked.judgement if worked is not None else judged,
        wetness=wet,
        weather=by_days,
        depth=advice,
        corrected=moist,
        as_drained=drained,
        shanks=shanks(rig, numbers, deepest + _DRAWN_BELOW),
        two=twice,
        wings=wings(as_read, rig.implement.tool),
        pressing=pressed,
        loss=lost,
        voices=voices(rig, numbers, wet),
        residue=left,
        zones=parted,
        holds=holds,
        slope=falls,
        worked=worked,
        trial=strips,
        soil=sampled,
        limit=most,
        cautions=tuple(key for key in depth_cautions(deepest) if key in _CAUTIONS),
        layers=layers,
        layers_after=layers_after,
        readings=_together(parts),
    )


def _otherwise(advice: DepthAdvice | None, drained: DepthAdvice | None) -> bool:
    if advice is None or drained is None:
        return False
    lifts = [each.plan is not Plan.NO_LAYER for each in (advice, drained)]
    return advice.judgement is not drained.judgement or lifts[0] != lifts[1]


def _of_both(advice: DepthAdvice | None, drained: DepthAdvice | None) -> Judgement:
    """Give what the depth asks for: a try where nobody probed, or where readings as read and at field capacity part."""
    if advice is None or (drained is not None and drained.judgement is not advice.judgement):
        return Judgement.TRY
    return advice.judgement


def _judgement(
    wet: Wetness | None, by_days: ByWeather | None, advised: tuple[DepthAdvice | None, DepthAdvice | None], pressed: Pressing,
    asked: tuple[Residue | Slope | SoilMap | None, ...], holds: Hold, parted: Zones | None,
) -> Judgement:  # fmt: skip
    """Give the worst of what all ask for; with wetness or depth unknown nothing is better than a try, nor where a zone can't be
    worked at the depth; a rig that can't pull at its depth at any speed is a no."""
    judged = [
        at_best(wet.state) if wet is not None else by_days.judgement if by_days is not None else Judgement.TRY,
        _of_both(*advised),
    ]
    further = [pressed.judgement, *(one.judgement for one in asked if one is not None)]
    if holds.hold in _SHALLOWER:
        further.append(Judgement.DONT)
    elif parted is not None and any(zone.hold in _SHALLOWER for zone in parted.each):
        further.append(Judgement.TRY)
    return worst_of(*judged, *(one for one in further if one is not None))


def _together(parts: list[Readings]) -> Readings | None:
    if not parts:
        return None
    return Readings(
        next((part.profiles for part in reversed(parts) if part.profiles is not None), None),
        next((part.by_hand for part in parts if part.by_hand is not None), None),
    )


def _probed(
    flags: list[str], log: str | PathLike[str] | None, most: float, faults: list[Fault], entry: str = ""
) -> list[Readings]:
    """Read flags and a log, each where there is one; entry: the name that goes before their faults."""
    parts: list[Readings] = []
    with gathered(faults, entry):
        parts += [read_flags(flags, most)] if flags else []
    with gathered(faults, entry):
        parts += [load_log(log)] if log is not None else []
    return parts


def _layers(parts: list[Readings], limit: float) -> Layers | None:
    found = [part.layers(limit) for part in parts]
    return None if not found else found[0] if len(found) == 1 else found[0].joined(found[1])


__all__ = ["GroundAnswer", "Plan", "ground"]
