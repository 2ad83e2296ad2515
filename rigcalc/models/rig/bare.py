"""A rig as bare numbers in the units of the book, with every looked-up coefficient beside it: what the models compute on."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from rigcalc.core.tables import Row, table
from rigcalc.core.units import weight_of
from rigcalc.equations.fuel import fuel_rate
from rigcalc.equations.power import net_flywheel_power, pto_power
from rigcalc.equations.soil import texture_class
from rigcalc.equations.traction_wheel import motion_resistance_ratio_bias
from rigcalc.models.rig.gang import BareGang, bare_gangs
from rigcalc.models.rig.rig import Gear, Rig
from rigcalc.models.rig.running_gear import area_each, capacity_each, sizes
from rigcalc.models.rig.tool import by_width, usual


@dataclass(frozen=True)
class BareGear:
    """Running gear of one axle: kind ("radial", "bias", "track"), whether driven, count, and sizes in m.

    load_limit is for the whole axle in kN, pressure_limit in kPa; both None where unknown.
    """

    kind: str
    driven: bool
    count: int
    width: float
    length: float  # overall diameter of a tyre, contact length of a track
    deflection_ratio: float
    load_limit: float | None
    pressure_limit: float | None

    @property
    def contact_area(self) -> Any:
        """Contact area of all tracks or tyres of the axle, m2 (of tyres by a rule of thumb for firm ground)."""
        return self.count * self.area_each

    @property
    def area_each(self) -> Any:
        """Contact area of one track or tyre, m2."""
        return area_each(self.kind, self.width, self.length)


@dataclass(frozen=True)
class BareRig:
    """All numbers of a rig: kN, m, kPa, kW; depth in cm, speed in km/h, grade in degrees, shares as decimals."""

    front: BareGear | None
    rear: BareGear
    front_weight: float
    rear_weight: float
    wheelbase: float
    center_height: float
    drawbar_height: float
    hitch_behind: float
    hitch_load: float
    implement_weight: float
    wheel_share: float
    rolling_ratio: float
    grade: float
    cone_index: float
    multipass: bool
    # belts
    area_factor: float
    shear_modulus: float
    belt_ratio: float
    # draft
    soil_factor: float
    draft_a: float
    draft_b: float
    draft_c: float
    draft_range: float
    tools: Any
    spacing: float
    depth: Any
    speed: Any
    # power
    rated_pto: float
    maximum_pto: float
    axle_ratio: float
    engine_per_pto: float
    engine_speed_share: float
    field_efficiency: float
    def_share: float
    # the soil terms of a belt, which are a radial tyre's
    belt_ceiling: Any = 0.88
    belt_decay: Any = 0.1
    belt_rolling: Any = 0.9
    belt_drag: Any = 0.5
    gangs: tuple[BareGang, ...] = ()  # what works beside the tool itself
    by_width: bool = False  # tools are sections of a tool that is measured by its width
    # what moves draft off its row (None: nothing does)
    soil_factor_other: Any = None  # of the other soil group that texts name for this texture
    deep_from: Any = None  # depth from which a chisel may pull like a subsoiler
    deep_factor: Any = 0.0
    deep_factor_other: Any = None
    deep_a: Any = 0.0
    deep_b: Any = 0.0
    deep_c: Any = 0.0
    covered_width: Any = None  # m of the tool's width that wheels or belts have run over
    cone_deviation: Any = 0.0  # measured cone index over that of the named surface, less one
    # what the engine gives below rated speed
    torque_rise: Any = 0.3
    torque_peak_speed: Any = 0.67
    maximum_power_speed: Any = 0.9
    # the tractor's own test report: L/h at no load, L/h for each kW
    test_idle: float | None = None
    test_slope: float | None = None
    told: Any = None  # what readings told of the field (`machine/field.py`); None without

    @property
    def weight(self) -> float:
        """Weight of the tractor, kN."""
        return self.front_weight + self.rear_weight

    def at(self, **changes: Any) -> BareRig:
        """Give the same rig with some numbers changed, such as depth=30.0 or speed as an array."""
        return replace(self, **changes)


# Tools whose draft behind a wheel was measured, or that work alike: other tools are left on their row.
TINES = ("shank", "coulter")


def ratio(name: str, tractor: str = "any", surface: str = "any") -> float:
    """Give a power ratio from the table by its name."""
    return float(table("power_ratios")[name, tractor, surface]["value"])


def texture_of(rig: Rig) -> str:
    """Give the USDA texture class: as typed, or from sand and clay."""
    if rig.ground.texture is not None:
        return rig.ground.texture
    assert rig.ground.sand is not None
    assert rig.ground.clay is not None
    return str(texture_class.bare(rig.ground.sand.to("1") * 100, rig.ground.clay.to("1") * 100))


def soil_group_of(rig: Rig) -> str:
    """Give the draft table's soil group: as chosen in the rig file, or by the table soil_groups."""
    return rig.ground.soil_group or str(table("soil_groups")[texture_of(rig)]["group"])


def other_soil_group_of(rig: Rig) -> str:
    """Give the other soil group that texts name for this texture; the same one where they agree or the rig file chose."""
    return rig.ground.soil_group or str(table("soil_groups")[texture_of(rig)]["farm_usage"])


def soil_factor(row: Row, group: str) -> float:
    """Give a draft row's factor for a soil group."""
    return float(row[f"f_{group}"])


def pto_factor(rating: str) -> float:
    """Give power at the power take-off for each kW of the rating that the rig file names."""
    at_flywheel = net_flywheel_power.bare(1.0, ratio("net_from_gross_flywheel")) if rating == "gross engine" else 1.0
    return 1.0 if rating == "pto" else pto_power.bare(at_flywheel, ratio("pto_from_flywheel"))


def bare(rig: Rig) -> BareRig:
    """Turn a rig into bare numbers, looking up every coefficient that it leaves to the tables."""
    tractor, implement, ground, work = rig.tractor, rig.implement, rig.ground, rig.work
    row = table("d497_draft")[implement.tool]
    # A section of a tool that is measured by its width pulls by its own width.
    each = implement.spacing.to("m") if by_width(implement.tool) else 1.0
    soil = table("traction_soil_classes")[ground.surface]
    belt = {row["name"]: row["value"] for row in table("belt_grip")}
    cone_index = ground.cone_index.to("kPa") if ground.cone_index else soil["cone_index"]
    front = _gear(tractor.front, tractor.drives("front")) if tractor.front else None
    rear = _gear(tractor.rear, tractor.drives("rear"))
    to_pto = pto_factor(tractor.power_rating)
    return BareRig(
        front=front,
        rear=rear,
        front_weight=weight_of(tractor.front_axle_mass.to("kg")),
        rear_weight=weight_of(tractor.rear_axle_mass.to("kg")),
        wheelbase=tractor.wheelbase.to("m"),
        center_height=tractor.center_of_gravity_height.to("m"),
        drawbar_height=tractor.drawbar_height.to("m"),
        hitch_behind=tractor.hitch_behind_axle.to("m"),
        hitch_load=implement.hitch_load.to("kN"),
        implement_weight=weight_of(implement.mass.to("kg")),
        wheel_share=implement.wheel_share.to("1"),
        # The implement's wheels roll like free bias tyres at the mobility number of this ground.
        rolling_ratio=motion_resistance_ratio_bias.bare(soil["mobility_number"] * cone_index / soil["cone_index"], 0.0),
        grade=ground.grade.to("deg"),
        cone_index=cone_index,
        multipass=ground.wheels_follow_in_track,
        area_factor=belt["area_factor"],
        shear_modulus=belt["shear_modulus"],
        belt_ratio=belt["belt_ratio"],
        **{f"belt_{name}": belt[name] for name in ("ceiling", "decay", "rolling", "drag")},
        soil_factor=soil_factor(row, soil_group_of(rig)),
        draft_a=row["a_si"] * each,
        draft_b=row["b_si"] * each,
        draft_c=row["c_si"] * each,
        by_width=by_width(implement.tool),
        gangs=bare_gangs(rig, soil_group_of(rig), other_soil_group_of(rig)),
        draft_range=row["range_percent"] / 100,
        tools=implement.tools,
        spacing=implement.spacing.to("m"),
        depth=work.depth.to("cm"),
        speed=work.speed.to("km/h"),
        rated_pto=tractor.rated_power.to("kW") * to_pto,
        maximum_pto=(tractor.maximum_power or tractor.rated_power).to("kW") * to_pto,
        axle_ratio=ratio("axle_from_pto"),
        engine_per_pto=1 / to_pto,
        engine_speed_share=tractor.engine_speed_share.to("1"),
        field_efficiency=implement.field_efficiency.to("1"),
        def_share=tractor.def_share.to("1"),
        soil_factor_other=soil_factor(row, other_soil_group_of(rig)),
        covered_width=_covered(front, rear, ground.wheels_follow_in_track) if usual(implement.tool).piece in TINES else None,
        cone_deviation=cone_index / soil["cone_index"] - 1,
        **_deep(rig),
        **_torque(rig),
        **_fuel_test(rig, tractor.rated_power.to("kW") * to_pto),
    )


def _deep(rig: Rig) -> dict[str, Any]:
    """What a tool may pull like below its usual depth: the row of the same table that its own row names, if any."""
    know = usual(rig.implement.tool)
    if know.second_opinion is None or know.depth is None:
        return {}
    row = table("d497_draft")[know.second_opinion]
    return {
        "deep_from": know.depth[1] * table("draft_doubt")["deep_from_usual"]["value"],
        "deep_factor": soil_factor(row, soil_group_of(rig)), "deep_factor_other": soil_factor(row, other_soil_group_of(rig)),
        "deep_a": row["a_si"], "deep_b": row["b_si"], "deep_c": row["c_si"],
    }  # fmt: skip


def _torque(rig: Rig) -> dict[str, float]:
    """The torque curve: as the rig file knows it, typical where it doesn't."""
    curve = {row["name"]: row["value"] for row in table("engine_curve")}
    gears = rig.gears
    rated = gears.rated_speed.to("rpm") if gears and gears.rated_speed else None
    rise, peak, most = curve["torque_rise"], curve["torque_peak_speed"], curve["maximum_power_speed"]
    if gears and rated and gears.torque_rise is not None and gears.torque_peak_speed is not None:
        rise, peak = gears.torque_rise.to("1"), gears.torque_peak_speed.to("rpm") / rated
    if gears and rated and gears.maximum_power_speed is not None:
        most = gears.maximum_power_speed.to("rpm") / rated
        peak = min(peak, most)  # most torque never lies above the speed of maximum power: what is typical gives way
    return {"torque_rise": rise, "torque_peak_speed": peak, "maximum_power_speed": max(peak, most)}


def _fuel_test(rig: Rig, rated_pto: float) -> dict[str, float]:
    """The straight line of fuel over power at the power take-off that the tractor's own test report gives.

    Through the points by least squares; a single point sets the level and leaves the shape of the book's relation.
    Points at the drawbar are brought to the shaft by the power ratio on concrete, where such tests are run.
    """
    if not rig.fuel_test:
        return {}
    to_shaft = 1 / ratio("drawbar_from_pto", rig.tractor.drive, "concrete") if rig.fuel_test[0].at == "drawbar" else 1.0
    powers = [point.power.to("kW") * to_shaft for point in rig.fuel_test]
    rates = [point.rate for point in rig.fuel_test]
    if len(powers) == 1:
        idle = fuel_rate.bare(rated_pto, 0.0)
        level = rates[0] / fuel_rate.bare(rated_pto, powers[0] / rated_pto)
        return {"test_idle": level * idle, "test_slope": level * (fuel_rate.bare(rated_pto, 1.0) - idle) / rated_pto}
    count, power, rate = len(powers), sum(powers), sum(rates)
    across = sum(x * y for x, y in zip(powers, rates, strict=True)) - power * rate / count
    slope = across / (sum(x * x for x in powers) - power**2 / count)
    return {"test_idle": (rate - slope * power) / count, "test_slope": slope}


def _covered(front: BareGear | None, rear: BareGear, in_track: bool) -> float:
    """Width in m that tyres or belts run over: the wider axle's, or both where the rear doesn't follow in the track."""
    widths = [gear.count * gear.width for gear in (front, rear) if gear]
    return max(widths) if in_track else sum(widths)


def _gear(gear: Gear, driven: bool) -> BareGear:
    count, width, length = sizes(gear)
    each = capacity_each(gear) if gear.kind != "track" else None
    return BareGear(
        kind=gear.kind,
        driven=driven,
        count=count,
        width=width,
        length=length,
        deflection_ratio=deflection_of(gear),
        load_limit=weight_of(each) * count if each else None,
        pressure_limit=gear.pressure_limit.to("kPa") if gear.pressure_limit else None,
    )


def deflection_of(gear: Gear) -> float:
    """Give deflection over section height: as typed, from the loaded radius and rim where both are known, or 0.20.

    0.20 is what tyres at the pressure that their load asks for come near to (common practice).
    """
    from rigcalc.equations.tyre import deflection_ratio, section_height_from_rim, tyre_deflection

    if gear.deflection_ratio is not None:
        return gear.deflection_ratio.to("1")
    if gear.static_loaded_radius is None or gear.rim_diameter is None or gear.diameter is None:
        return 0.20
    diameter = gear.diameter.to("m")
    height = section_height_from_rim.bare(diameter, gear.rim_diameter.to("m"))
    return float(deflection_ratio.bare(tyre_deflection.bare(diameter, gear.static_loaded_radius.to("m")), height))
