"""Soil samples over a field: texture, the wettest that tills, water, draft and what the rig can hold at each of them.

Limits of wetness go by clay, sand and organic matter of each sample. Draft goes by the draft table's group of its texture
class, so a map of draft has as many values as the field has groups. Where no sand was measured, every class that the clay
allows stays possible.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

import numpy as np

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.tables import table
from rigcalc.equations.soil import texture_class
from rigcalc.equations.soil_water import water_between
from rigcalc.models.ground.soil_points import SoilPoints, soil_points
from rigcalc.models.ground.zones import Hold, hold_of
from rigcalc.models.land.plane import Plane
from rigcalc.models.machine.field import in_field
from rigcalc.models.machine.judgement import Judgement, worst_of
from rigcalc.models.machine.limits import caps, shares, worst
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.machine.wetness import WaterLimits, Wet, limits_of, number_of, state_by_water
from rigcalc.models.rig.bare import bare, texture_of
from rigcalc.models.rig.file import replaced
from rigcalc.models.rig.rig import Rig

KINDS = ("texture", "wettest", "room", "draft", "used")
MOST_CLAY, MOST_MATTER = 0.6, 0.08  # shares: beyond them the regressions of water aren't meant for a soil (their valid range)
MOST = 0.5  # our choice, as for flags: from this share of the samples on it is said of the field
_SANDS = 101  # shares of sand that are tried where none was measured
_SHALLOWER = ("depth", "no")
_UNMOVED = ("tool_depth", "hitch_load")  # hard limits that are the same on every soil
_WIDEST = 50_000.0  # m between two samples of one field


@dataclass(frozen=True)
class ClassOfSoil(Hold):
    """One texture class of the field, and what the rig can hold there by its hard limits (see `Hold`).

    count: samples that are likely of it; draft: likely one, kN; used: share of the fullest of the hard limits that
    soil moves, at the rig's depth and speed, and fullest, its name.
    """

    texture: str
    count: int
    draft: float
    used: float
    fullest: str


@dataclass(frozen=True, eq=False)
class SoilMap:
    """A field by its samples, as arrays of one length.

    east, north: m from the middle; None without positions. textures: likely classes; doubtful: several are possible. limits:
    of wetness, arrays in shares of dry mass, NaN for soils that the regressions aren't for. water: (low, likely, high), None
    where nobody said it of each sample: known_by is "by_mass" or "by_volume" for a column of water, "wetness" for a handful
    taken for all of them. states: of `Wet`, None without water, "" where the limits are unknown. classes: those of the field,
    most samples first. drafts: (low, likely, high), kN, over the classes that are possible. sand, matter: where from: "column",
    "carbon" for matter by organic carbon, or "rig" for the rig's own ground.
    """

    east: Any
    north: Any
    textures: Any
    doubtful: Any
    limits: WaterLimits
    water: Any
    known_by: str | None
    states: Any
    classes: tuple[ClassOfSoil, ...]
    drafts: Any
    sand: str
    matter: str
    left_out: int
    aside: tuple[str, ...]

    @property
    def count(self) -> int:
        """How many samples."""
        return int(self.textures.size)

    @property
    def outside(self) -> int:
        """How many samples are outside what the regressions of water are for."""
        return int(np.isnan(self.limits.upper[1]).sum())

    @cached_property
    def drains(self) -> Any:
        """True where draining alone brings a soil under its limit."""
        return self.limits.drained <= self.limits.upper[1]

    def share_of(self, *states: Wet) -> float:
        """Give the share of the samples that are in one of these states; 0 where none is known."""
        return 0.0 if self.states is None else float(np.isin(self.states, [state.value for state in states]).mean())

    def values(self, kind: str) -> Any:
        """Give one of KINDS a sample: words for "texture", shares, or kN for "draft"; NaN where it isn't known.

        "room": the wettest that tills less the water, or less that of field capacity where nobody said it of each sample.
        """
        if kind == "texture":
            return self.textures
        if kind == "wettest":
            return self.limits.upper[1]
        if kind == "room":
            return self.limits.upper[1] - (self.limits.drained if self.water is None else self.water[1])
        if kind == "draft":
            return self.drafts[1]
        known = {each.texture: each.used for each in self.classes}
        return np.array([known[texture] for texture in self.textures.tolist()])

    @property
    def judgement(self) -> Judgement | None:
        """The worst of what wetness and pull say of a part of the field; None where nothing speaks against it.

        Too wet by water of each sample is a no from half of the samples on; by a handful taken for all it is a try at most.
        """
        found = []
        wet, frozen_or_near = self.share_of(Wet.WET), self.share_of(Wet.NEAR)
        if wet > 0:
            found.append(Judgement.DONT if wet >= MOST and self.known_by != "wetness" else Judgement.TRY)
        elif frozen_or_near > 0:
            found.append(Judgement.TRY)
        short = [each for each in self.classes if each.hold in _SHALLOWER]
        if short:
            found.append(Judgement.DONT if len(short) == len(self.classes) else Judgement.TRY)
        return worst_of(*found) if found else None


def soil_map(rig: Rig, given: Any) -> SoilMap | None:
    """Put a rig onto the samples of a field; None where none are given.

    given: as `soil_points` takes it. Raises InputError with every fault.
    """
    if given is None:
        return None
    points = soil_points(given)
    east, north = _on_a_plane(points)
    sand, possible = _sand(rig, points)
    textures = np.atleast_1d(texture_class.bare(100 * sand, 100 * points.clay))
    organic = points.organic if points.organic is not None else np.full(points.clay.size, _matter(rig))
    limits = _limits(textures, sand, points.clay, organic)
    water, known_by = _water(rig, points, limits)
    names = sorted({*textures.tolist(), *possible})
    soils = {name: _class(rig, name, int((textures == name).sum())) for name in names}
    likely = np.array([soils[name].draft for name in textures.tolist()])
    low, high, doubtful = likely.copy(), likely.copy(), np.zeros(likely.size, bool)
    for name, there in possible.items():
        doubtful |= there & (textures != name)
        low[there], high[there] = np.minimum(low[there], soils[name].draft), np.maximum(high[there], soils[name].draft)
    drafts = np.array([low, likely, high])
    here = sorted((each for each in soils.values() if each.count), key=lambda each: (-each.count, each.texture))
    feel = rig.ground.wetness if known_by == "wetness" else None
    return SoilMap(
        east=east, north=north, textures=textures, doubtful=doubtful, limits=limits, water=water, known_by=known_by,
        states=_states(water, limits, feel), classes=tuple(here), drafts=drafts, left_out=points.left_out, aside=points.aside,
        sand="rig" if points.sand is None else "column",
        matter="rig" if points.organic is None else "carbon" if points.by_carbon else "column",
    )  # fmt: skip


def map_kind(found: SoilMap, kind: str | None) -> str:
    """Give the kind of map that is wanted, the wettest that tills where none is named. Raises InputError for what can't be."""
    if kind is not None and kind not in KINDS:
        raise InputError([Fault("--map-of", shown(kind), f"one of {', '.join(KINDS)}", "--map-of draft")])
    if found.east is None:
        raise InputError([Fault("--map", "samples without positions", "columns of x and y, or of lat and lon",
                                "x (m), y (m) beside the others")])  # fmt: skip
    return kind or "wettest"


def _on_a_plane(points: SoilPoints) -> tuple[Any, Any]:
    """Give m east and north of the middle; None without positions."""
    if points.place is None:
        return None, None
    if points.degrees:
        latitude, longitude = points.place
        metres = Plane.under(longitude, latitude).to_metres(longitude, latitude)
        # far from the middle the plane leaves the earth, and what lies behind it would come back near
        far = np.abs((longitude - longitude[0] + 180) % 360 - 180).max() > 5 or np.ptp(latitude) > 5
        east, north = metres[:, 0], metres[:, 1]
    else:
        east, north = points.place
        far = False
    if far or max(float(np.ptp(east)), float(np.ptp(north))) > _WIDEST:
        raise InputError([Fault("soil: positions", f"samples over {_WIDEST / 1000:g} km apart", "samples of one field",
                                "their positions again: latitude and longitude may be swapped")])  # fmt: skip
    return east - np.median(east), north - np.median(north)


def _own_texture(rig: Rig) -> tuple[float, float]:
    """Give sand and clay of the rig's own ground: as typed, or the middle of its class."""
    if rig.ground.sand is not None and rig.ground.clay is not None:
        return rig.ground.sand.to("1"), rig.ground.clay.to("1")
    middle = table("texture_middles")[texture_of(rig)]
    return middle["sand"] / 100, middle["clay"] / 100


def _matter(rig: Rig) -> float:
    typed = rig.ground.organic_matter
    return typed.to("1") if typed is not None else table("texture_middles")[texture_of(rig)]["organic_matter"] / 100


def _sand(rig: Rig, points: SoilPoints) -> tuple[Any, dict[str, Any]]:
    """Give sand of each sample, and classes that it may be of besides: name -> where that is so; none where sand was measured.

    Where none was measured, the rest beside the clay is parted as on the rig's own ground.
    """
    if points.sand is not None:
        return points.sand, {}
    sand, clay = _own_texture(rig)
    share = sand / (1 - clay) if clay < 1 else 0.0
    tried = np.linspace(0, 1, _SANDS)[:, None] * (1 - points.clay)
    names = texture_class.bare(100 * tried, 100 * points.clay + 0 * tried)
    return share * (1 - points.clay), {name: (names == name).any(axis=0) for name in np.unique(names).tolist()}


def _limits(textures: Any, sand: Any, clay: Any, organic: Any) -> WaterLimits:
    """Give the limits of all samples, worked out class by class; NaN for soils that the regressions aren't for."""
    meant = (clay <= MOST_CLAY) & (organic <= MOST_MATTER)
    names = ("wilting", "drained", "dry", "optimum", "density", "low", "likely", "high", "curve")
    columns: dict[str, Any] = {name: np.full(clay.size, np.nan) for name in names}
    for name in np.unique(textures).tolist():
        at = (textures == name) & meant
        one = limits_of(name, sand[at], clay[at], 100 * organic[at])
        for key, values in zip(("low", "likely", "high"), one.upper, strict=True):
            columns[key][at] = values
        columns["curve"][at] = one.by_retention
        for key in names[:5]:
            columns[key][at] = getattr(one, key)
    upper = (columns["low"], columns["likely"], columns["high"])
    return WaterLimits(
        columns["wilting"], columns["drained"], columns["dry"], columns["optimum"], upper, columns["curve"], columns["density"],
        False, clay >= number_of("thread_unsure_clay"),
    )  # fmt: skip


def _water(rig: Rig, points: SoilPoints, limits: WaterLimits) -> tuple[Any, str | None]:
    """Give water over dry mass, (low, likely, high) of each sample, and what it is known by; None where nobody said it."""
    if points.by_mass is not None:
        off = number_of("water_scatter")
        return np.maximum([points.by_mass - off, points.by_mass, points.by_mass + off], 0.0), "by_mass"
    if points.by_volume is not None:
        off = number_of("probe_scatter")
        volume = np.maximum([points.by_volume - off, points.by_volume, points.by_volume + off], 0.0)
        return volume / limits.density, "by_volume"
    if rig.ground.wetness is None or rig.ground.wetness == "frozen":
        return None, None
    row = table("wetness_classes")[rig.ground.wetness]
    low, high = (water_between.bare(limits.wilting, limits.drained, row[end]) for end in ("low", "high"))
    return np.array([low, (low + high) / 2, high]), "wetness"


def _states(water: Any, limits: WaterLimits, feel: str | None) -> Any:
    """Give the state of each sample by its water; "" where the limits aren't known."""
    if water is None:
        return None
    found = []
    ends, dry, plastic = (np.asarray(each) for each in (limits.upper, limits.dry, limits.plastic))
    for at in range(water.shape[1]):
        low, likely, high = water[:, at].tolist()
        least, limit, most = ends[:, at].tolist()
        if not np.isfinite(limit) or not np.isfinite(likely):
            found.append("")
            continue
        one = replace(limits, upper=(least, limit, most), dry=float(dry[at]), plastic=bool(plastic[at]))
        found.append(state_by_water((low, likely, high), one, feel).value)
    return np.array(found)


def _class(rig: Rig, texture: str, count: int) -> ClassOfSoil:
    """Put the rig onto ground of a texture class, everything else as it is."""
    there = replaced(rig, {"ground.texture": texture, "ground.sand": None, "ground.clay": None, "ground.soil_group": None})
    numbers, limits = in_field(there), caps(there, bare(there))
    point = solve(numbers)
    moved = {key: share for key, share in shares(numbers, point, limits).items() if key not in _UNMOVED}
    used, name = worst(moved, hard_only=True)
    hold = hold_of(numbers, limits, hard_only=True)
    return ClassOfSoil(
        **vars(hold), texture=texture, count=count, draft=float(point.draft), used=float(used), fullest=str(name)
    )
