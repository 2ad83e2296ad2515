"""The optional parts of a rig file for ballast, tyres, scale tickets, limits on weight, and gears."""

from __future__ import annotations

from itertools import pairwise
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, field_validator, model_validator
from pydantic_core import PydanticCustomError

from rigcalc.core.errors import shown
from rigcalc.core.tables import table
from rigcalc.models.rig.measure import Kind, Measure

USUAL_FILL = 0.75  # table liquid_fill: most that leaves an air cushion
SCALE_TOLERANCE = 0.02  # our assumption: tickets that differ by more than 2 percent don't belong together
BRINE = "calcium_chloride"

# The usual spans here and in rig.py are our choice, set wide; the machines named as their reason are from memory.
MASS_SPAN: dict[str, Any] = {"above": 0, "most": 200_000, "usual": (0.5, 100_000),
                             "why": "the smallest plate to three times the heaviest tractor"}  # fmt: skip

Words = Annotated[str, Field(max_length=200)]
Mass = Annotated[Measure, Kind("kg", "45 kg", **MASS_SPAN)]
Pressure = Annotated[Measure, Kind("kPa", "14 psi", above=0, most=600,
    usual=(10, 600), why="the softest tyre's 6 psi to a road tyre's")]  # fmt: skip
Reach = Annotated[Measure, Kind("m", "0.9 m", least=0, most=10,
    usual=(0.01, 8), why="on the wheel to the far end of a front hitch")]  # fmt: skip
Turning = Annotated[Measure, Kind("rpm", "2100 rpm", above=0, most=6000,
    usual=(200, 6_000), why="idling to the fastest garden engine")]  # fmt: skip
Pieces = Annotated[int, Field(ge=0, le=200, strict=True)]


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, validate_default=True)


class Tyre(_Part):
    """What is known of the tyres of one axle: sidewall marks, pressure, the data book's table, liquid inside."""

    load_index: int | None = None
    speed_symbol: str | None = None
    inflation: Pressure | None = None
    # the tyre's own table of loads and pressures, from its data book, for single, dual or triple as it is mounted
    pressures: Annotated[tuple[Pressure, ...], Field(max_length=60)] | None = None
    loads: Annotated[tuple[Mass, ...], Field(max_length=60)] | None = None
    table_from: Words = ""
    # liquid
    volume: Annotated[Measure, Kind("L", "150 gal", above=0, most=5000,
        usual=(1, 3_000), why="a garden tractor's tyre to several times the largest tyre's")] | None = None  # fmt: skip
    liquid: str | None = None
    dose: Annotated[Measure, Kind("kg/L", "0.42 kg/L", above=0, most=2)] | None = None
    fill: Annotated[Measure, Kind("1", "75 percent", least=0, most=1)] | None = None
    filled_tyres: Annotated[int, Field(ge=1, le=12, strict=True)] | None = None

    @field_validator("load_index", mode="before")
    @classmethod
    def _listed(cls, value: Any) -> Any:
        most = len(table("load_index")) - 1
        if value is not None and (isinstance(value, bool) or not isinstance(value, int) or not 0 <= value <= most):
            raise fault(shown(value), f"a whole number from 0 to {most}, as on the sidewall", "load_index = 168")
        return value

    @field_validator("speed_symbol")
    @classmethod
    def _symbol(cls, value: str | None) -> str | None:
        symbols = [row["symbol"] for row in table("speed_symbols")]
        if value is not None and value not in symbols:
            raise fault(shown(value), "a speed symbol of the sidewall", ", ".join(symbols))
        return value

    @model_validator(mode="after")
    def _whole(self) -> Tyre:
        if (self.pressures is None) != (self.loads is None):
            raise fault("only one of pressures and loads", "both lists, or neither",
                        'pressures = ["12 psi", "16 psi"] and loads = ["2900 kg", "3450 kg"]')  # fmt: skip
        if self.pressures is not None and self.loads is not None:
            check_table([p.to("kPa") for p in self.pressures], [m.to("kg") for m in self.loads])
        liquids = [row["liquid"] for row in table("liquid_ballast")] + [BRINE]
        if self.liquid is not None and self.liquid not in liquids:
            raise fault(shown(self.liquid), "a liquid of the table", ", ".join(liquids))
        if (self.liquid == BRINE) != (self.dose is not None):
            raise fault(f"liquid {self.liquid} {'without' if self.dose is None else 'with'} a dose",
                        f'a dose for "{BRINE}", and for nothing else', 'dose = "0.42 kg/L", or "3.5 lb/gal"')  # fmt: skip
        if self.dose is not None:
            doses = [row["dose"] for row in table("calcium_chloride_mix")]
            if not doses[0] <= self.dose.to("kg/L") <= doses[-1]:
                raise fault(f"a dose of {self.dose}", f"{doses[0]:g} to {doses[-1]:g} kg/L: the mix table goes no further",
                            'dose = "0.42 kg/L"')  # fmt: skip
        if self.fill is not None and self.fill.to("1") > 0 and (self.volume is None or self.liquid is None):
            raise fault(f"a fill of {self.fill} without {'volume' if self.volume is None else 'liquid'}",
                        "volume and liquid beside it", 'volume = "150 gal" and liquid = "water"')  # fmt: skip
        return self


class Piece(_Part):
    """One kind of weight that is at hand: its mass, how many there are, how many hang now, and where they hang."""

    name: Annotated[str, Field(min_length=1, max_length=60)]
    mass: Mass
    count: Pieces
    on: Pieces = 0
    in_pairs: bool = False
    axle: Literal["front", "rear"] | None = None
    ahead: Reach | None = None
    behind: Reach | None = None
    holds: Pieces | None = None

    @model_validator(mode="after")
    def _hangs(self) -> Piece:
        if self.axle is None or (self.ahead is None) == (self.behind is None):
            place = "no axle" if self.axle is None else "no place" if self.ahead is None else "two places"
            raise fault(f"'{self.name}' hung in the air: {place}",
                        "an axle, and how far ahead of it or behind it the weight hangs (0 m on a wheel)",
                        'axle = "front" and ahead = "0.9 m"')  # fmt: skip
        if self.on > self.count:
            raise fault(f"{self.on} of '{self.name}' on the tractor, {self.count} in all", "no more on than there are",
                        f"count = {self.on}")  # fmt: skip
        if self.holds is not None and self.on > self.holds:
            raise fault(f"{self.on} of '{self.name}' on a bracket that holds {self.holds}", "no more than the bracket holds",
                        f"on = {self.holds}")  # fmt: skip
        if self.in_pairs and self.on % 2:
            raise fault(f"{self.on} of '{self.name}', which go on in pairs", "an even number on", f"on = {self.on - 1}")
        return self


class Scale(_Part):
    """Further scale tickets. The axle masses themselves stand under [tractor]; these check them and weigh a raised tool."""

    total: Mass | None = None
    front_raised: Annotated[Measure, Kind("kg", "6000 kg", least=0, most=200_000,
        usual=(20, 50_000), why="as for an axle at rest")] | None = None  # fmt: skip
    rear_raised: Mass | None = None
    total_raised: Mass | None = None

    @model_validator(mode="after")
    def _both(self) -> Scale:
        if (self.front_raised is None) != (self.rear_raised is None):
            raise fault("only one axle weighed with the tool raised", "front_raised and rear_raised", "both tickets")
        if self.total_raised is not None and self.front_raised is None:
            raise fault("a total with the tool raised, but no axles", "front_raised and rear_raised", "both tickets")
        return self


class Setup(_Part):
    """How the tractor is hitched, what the maker and the road allow, and the shares you aim at yourself."""

    hitching: Literal["towed", "semi-mounted", "mounted"] = "towed"
    front_suspension: bool = False
    mass_limit: Annotated[Measure, Kind("kg", "24000 kg", above=0, most=200_000,
        usual=(150, 100_000), why="a garden tractor's to three times the heaviest tractor's")] | None = None  # fmt: skip
    road_front_limit: Mass | None = None
    road_rear_limit: Mass | None = None
    road_hitch_load: Annotated[Measure, Kind("kN", "3000 lbf", least=0, most=500,
        usual=(0.05, 300), why="as for the drawbar")] | None = None  # fmt: skip
    raised_mass: Mass | None = None
    raised_behind: Annotated[Measure, Kind("m", "1.8 m", above=0, most=15,
        usual=(0.1, 12), why="just behind the axle to the end of a long tool")] | None = None  # fmt: skip
    front_share_low: Annotated[Measure, Kind("1", "51 percent", least=0, most=1)] | None = None
    front_share_high: Annotated[Measure, Kind("1", "55 percent", least=0, most=1)] | None = None

    @model_validator(mode="after")
    def _pairs(self) -> Setup:
        if (self.raised_mass is None) != (self.raised_behind is None):
            raise fault("only one of raised_mass and raised_behind", "both, for a tool carried on the hitch",
                        'raised_mass = "2500 kg" and raised_behind = "1.8 m"')  # fmt: skip
        low, high = self.front_share_low, self.front_share_high
        if (low is None) != (high is None) or (low is not None and high is not None and low.to("1") >= high.to("1")):
            raise fault(f"front_share_low {low} and front_share_high {high}", "both, the low one below the high one",
                        'front_share_low = "51 percent" and front_share_high = "55 percent"')  # fmt: skip
        return self


class FuelTest(_Part):
    """One point of the tractor's own test report: a power, where it was measured, and fuel or work for each unit of fuel."""

    power: Annotated[Measure, Kind("kW", "160 kW", above=0, most=2000,
        usual=(0.5, 1_500), why="a garden tractor's at part load to twice the strongest tractor's")]  # fmt: skip
    at: Literal["pto", "drawbar"] = "pto"
    fuel: Annotated[Measure, Kind("L/h", "44.8 L/h", above=0, most=1000,
        usual=(0.1, 600), why="a garden tractor's to twice the strongest tractor's")] | None = None  # fmt: skip
    efficiency: Annotated[Measure, Kind("kW*h/L", "18.2 hp*h/gal", above=0, most=10,
        usual=(0.3, 7), why="an engine near idling to beyond the best diesel's 4.6 kW*h/L")] | None = None  # fmt: skip

    @model_validator(mode="after")
    def _one_of_two(self) -> FuelTest:
        if (self.fuel is None) == (self.efficiency is None):
            raise fault("neither fuel nor efficiency" if self.fuel is None else "both fuel and efficiency",
                        "one of the two for each point of the test report", 'fuel = "44.8 L/h"')  # fmt: skip
        return self

    @property
    def rate(self) -> float:
        """Fuel in L/h at this point."""
        if self.fuel is not None:
            return self.fuel.to("L/h")
        assert self.efficiency is not None  # one of the two stands: see above
        return self.power.to("kW") / self.efficiency.to("kW*h/L")


class Gears(_Part):
    """Speeds of the gears at rated engine speed without slip, lowest first, and what is known of the engine's torque."""

    speeds: Annotated[tuple[Annotated[Measure, Kind("km/h", "5.4 mph", above=0, most=80)], ...], Field(max_length=100)]
    names: Annotated[tuple[Annotated[str, Field(max_length=20)], ...], Field(max_length=100)] | None = None
    rated_speed: Turning | None = None
    lowest_speed: Turning | None = None
    torque_rise: Annotated[Measure, Kind("1", "35 percent", least=0, most=1)] | None = None
    torque_peak_speed: Turning | None = None
    maximum_power_speed: Turning | None = None

    @model_validator(mode="after")
    def _in_order(self) -> Gears:
        speeds = [speed.to("km/h") for speed in self.speeds]
        if not speeds or any(a >= b for a, b in pairwise(speeds)):
            raise fault("gears that don't rise", "speeds from the lowest gear to the highest, each higher",
                        'speeds = ["4.2 mph", "5.0 mph", "5.9 mph"]')  # fmt: skip
        if self.names is not None and len(self.names) != len(speeds):
            raise fault(f"{len(self.names)} names for {len(speeds)} gears", "a name for each gear", "or no names")
        turning = (self.lowest_speed, self.torque_peak_speed, self.maximum_power_speed)
        if any(part is not None for part in turning) and self.rated_speed is None:
            raise fault("an engine speed without rated_speed", "rated_speed beside it", 'rated_speed = "2100 rpm"')
        rated = self.rated_speed.to("rpm") if self.rated_speed else 0.0
        if any(part is not None and part.to("rpm") >= rated for part in turning):
            raise fault("lowest_speed, torque_peak_speed or maximum_power_speed at rated speed or above",
                        "speeds below the rated one", "all lower")  # fmt: skip
        if (self.torque_rise is None) != (self.torque_peak_speed is None):
            raise fault("only one of torque_rise and torque_peak_speed", "both, or neither",
                        'torque_rise = "35 percent" and torque_peak_speed = "1500 rpm"')  # fmt: skip
        peak, most = self.torque_peak_speed, self.maximum_power_speed
        if peak is not None and most is not None and peak.to("rpm") > most.to("rpm"):
            raise fault(f"torque_peak_speed of {peak} above maximum_power_speed of {most}",
                        "most torque at a lower engine speed than most power", 'maximum_power_speed = "1900 rpm"')  # fmt: skip
        return self


def check_table(pressures: list[float], loads: list[float]) -> None:
    """Refuse a table of pressures (kPa) and loads (kg) that isn't one: unlike lengths, one row, or not rising."""
    if len(pressures) != len(loads) or len(loads) < 2:
        raise fault(f"{len(pressures)} pressures and {len(loads)} loads", "as many of each, two at least", "row by row")
    for name, values in (("pressures", pressures), ("loads", loads)):
        for place, (low, high) in enumerate(pairwise(values), 2):
            if low >= high:
                raise fault(f"{name} that don't rise at row {place}", "a table whose pressures and loads both rise",
                            "the rows of the data book in order of pressure")  # fmt: skip


def check_fuel_test(points: tuple[FuelTest, ...]) -> None:
    """Refuse points of a test report that aren't one: powers that don't rise, or fuel that doesn't rise with them."""
    for one, two in pairwise(sorted(points, key=lambda point: point.power.to("kW"))):
        if one.at != two.at:
            raise fault("a test report measured in two places", 'all points at "pto", or all at "drawbar"', 'at = "pto"')
        if one.power.to("kW") == two.power.to("kW") or one.rate >= two.rate:
            raise fault(f"{one.power} with {one.rate:.3g} L/h and {two.power} with {two.rate:.3g} L/h",
                        "more fuel for more power, each power once", "the points of the test report again")  # fmt: skip


def check_scale(front: float, rear: float, scale: Scale | None) -> None:
    """Refuse scale tickets that don't add up. front, rear: the axle masses of the tractor alone, kg."""
    if scale is None:
        return
    if scale.total is not None:
        _adds_up("front_axle_mass and rear_axle_mass", front + rear, "scale.total", scale.total)
    if scale.front_raised is None or scale.rear_raised is None:
        return
    raised = scale.front_raised.to("kg") + scale.rear_raised.to("kg")
    if scale.total_raised is not None:
        _adds_up("front_raised and rear_raised", raised, "scale.total_raised", scale.total_raised)
    if raised <= front + rear or scale.front_raised.to("kg") >= front:
        raise fault(
            f"{scale.front_raised} on the front and {scale.rear_raised} on the rear with the tool raised",
            f"more in all than the tractor alone ({front + rear:.0f} kg), and less on the front ({front:.0f} kg)",
            "the tickets again: alone under [tractor], with the raised tool under [scale]",
        )


def _adds_up(names: str, added: float, name: str, total: Measure) -> None:
    if abs(added - total.to("kg")) > SCALE_TOLERANCE * total.to("kg"):
        raise fault(
            f"{names} that add up to {added:.0f} kg, and {name} of {total} ({total.to('kg'):.0f} kg)",
            f"tickets that agree within {SCALE_TOLERANCE:.0%}",
            "what the scale says; weigh again on level ground",
        )


def fault(got: str, expected: str, type_this: str) -> PydanticCustomError:
    """Make the error that a rig file's reader turns into plain words."""
    about = {"got": got, "expected": expected, "type_this": type_this}
    return PydanticCustomError("rig", "got {got}; expected {expected}. Type {type_this}", about)
