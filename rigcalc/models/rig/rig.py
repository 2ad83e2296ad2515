"""What a rig file holds: tractor, implement, ground and work. Every quantity is a text such as "14 in"."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import (
    BaseModel,
    ConfigDict,
    Field,
    PrivateAttr,
    SerializerFunctionWrapHandler,
    field_validator,
    model_serializer,
    model_validator,
)
from pydantic.functional_validators import ModelWrapValidatorHandler  # pydantic 2.8 has it under this name alone
from pydantic_core import PydanticCustomError

from rigcalc.core.errors import InputError, shown
from rigcalc.core.tables import table
from rigcalc.models.rig.field_reading import MOST_READINGS, Asked, Reading, check_readings
from rigcalc.models.rig.gang import MOST_GANGS, Gang
from rigcalc.models.rig.geometry import check_gear, check_stance
from rigcalc.models.rig.known import check_size, check_total
from rigcalc.models.rig.measure import Kind, Measure
from rigcalc.models.rig.parts import (
    MASS_SPAN,
    FuelTest,
    Gears,
    Piece,
    Scale,
    Setup,
    Tyre,
    Words,
    check_fuel_test,
    check_scale,
    fault,
)
from rigcalc.models.rig.taken import GIVEN_BY_RULE, MOST_TOOLS, SPACINGS, TOTALS, WIDTHS, Taken, filled, without
from rigcalc.models.rig.tool import by_width, workable

MOST_BOOST = 1.4  # maximum over rated power: tests of tractors show up to about 1.2 (from memory)

MOST_OF_FLAGS = 20_000  # letters: a table of twenty flags at forty depths takes half

Length = Annotated[Measure, Kind("m", "3.8 m", above=0, most=60,
    usual=(0.6, 9), why="a garden tractor's 1.1 m to the longest articulated tractor's 4.5 m, and room")]  # fmt: skip
Distance = Annotated[Measure, Kind("m", "0.5 m", least=-20, most=60,
    usual=(-4, 8), why="ahead of the axle on a carrier to the end of a long tongue")]  # fmt: skip
Mass = Annotated[Measure, Kind("kg", "8000 kg", **MASS_SPAN)]
Power = Annotated[Measure, Kind("kW", "480 hp", above=0, most=2000,
    usual=(2, 1_500), why="a garden tractor's 5 hp to twice the strongest tractor's 700 hp")]  # fmt: skip
PowerEach = Annotated[Measure, Kind("kW", "50 hp", above=0, most=2000,
    usual=(0.2, 300), why="a garden tool's tine to several times the deepest shank's")]  # fmt: skip
Load = Annotated[Measure, Kind("kN", "3000 lbf", least=0, most=500,
    usual=(0, 300), why="nothing to ten times the heaviest tongue")]  # fmt: skip
Share = Annotated[Measure, Kind("1", "20 percent", least=0, most=1)]
Count = Annotated[int, Field(ge=1, le=MOST_TOOLS, strict=True)]


def _asks_for(schema: dict[str, Any]) -> None:
    """Leave out of the JSON Schema's list of what must be there all that a rule can give."""
    schema["required"] = [name for name in schema.get("required", []) if name not in GIVEN_BY_RULE]


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, validate_default=True, json_schema_extra=_asks_for)


class Gear(_Part):
    """Running gear of one axle: tyres, or tracks."""

    kind: Annotated[Literal["radial", "bias", "track"], Field(description="tyre construction, or track")]
    driven: Annotated[bool | None, Field(description="the drive of the tractor decides where this is left out")] = None
    # tyres
    size: Annotated[str | None, Field(max_length=60, description="as on the sidewall, such as 710/70R42 173D")] = None
    tyres: Annotated[Count | None, Field(description="tyres on this axle: 2 single, 4 dual, 6 triple")] = None
    section_width: Annotated[Measure, Kind("m", "710 mm", above=0, most=2,
        usual=(0.08, 2), why="a garden tractor's 4 in to the widest farm tyre's 1.25 m")] | None = None  # fmt: skip
    diameter: Annotated[Measure, Kind("m", "2.05 m", above=0, most=4,
        usual=(0.25, 3), why="a garden tractor's 13 in to the tallest farm tyre's 2.35 m")] | None = None  # fmt: skip
    rim_diameter: Annotated[Measure, Kind("m", "42 in", above=0, most=3,
        usual=(0.1, 2), why="a garden tractor's 6 in to the largest farm rim's 54 in")] | None = None  # fmt: skip
    static_loaded_radius: Annotated[Measure, Kind("m", "0.94 m", above=0, most=2,
        usual=(0.1, 1.5), why="half of the smallest and the tallest tyre")] | None = None  # fmt: skip
    deflection_ratio: Annotated[Measure, Kind("1", "20 percent", least=0.05, most=0.45)] | None = None
    load_limit_each: Annotated[Measure, Kind("kg", "6000 kg", above=0, most=40_000,
        usual=(50, 25_000), why="a garden tractor's tyre to twice the strongest farm tyre's 12 t")] | None = None  # fmt: skip
    tyre: Tyre | None = None
    # tracks
    tracks: Annotated[Count | None, Field(description="tracks on this axle")] = None
    track_width: Annotated[Measure, Kind("m", "30 in", above=0, most=2,
        usual=(0.1, 1.5), why="a walking tractor's track to the widest belt's 36 in")] | None = None  # fmt: skip
    contact_length: Annotated[Measure, Kind("m", "2.2 m", above=0, most=8,
        usual=(0.3, 8), why="a walking tractor's track to the longest pair of belts")] | None = None  # fmt: skip
    pressure_limit: Annotated[Measure, Kind("kPa", "60 kPa", above=0, most=1000,
        usual=(5, 500), why="peat to a road")] | None = None  # fmt: skip

    @field_validator("size", mode="before")
    @classmethod
    def _is_text(cls, value: Any) -> Any:
        if value is not None and not isinstance(value, str):
            raise fault(shown(value), "a tyre size as text, as on the sidewall", 'size = "710/70R42"')
        return value

    @model_validator(mode="after")
    def _complete(self) -> Gear:
        tyre = ("tyres", "section_width", "diameter")
        track = ("tracks", "track_width", "contact_length")
        own, other = (track, tyre) if self.kind == "track" else (tyre, (*track, "pressure_limit"))
        missing = [name for name in own if getattr(self, name) is None]
        extra = [name for name in (*other, *(("tyre", "size") if own is track else ())) if getattr(self, name) is not None]
        if missing or extra:
            wrong = [f"{' and '.join(missing)} missing"] if missing else []
            wrong += [f"{' and '.join(extra)} given"] if extra else []
            raise PydanticCustomError("gear", "got {got}; expected {expected}. Type {type_this}", {
                "got": f"{self.kind} gear with {', '.join(wrong)}", "expected": f"{', '.join(own)} for {self.kind} gear",
                "type_this": f"each of {', '.join(own)} under this axle" + (', or size = "710/70R42"' if own is tyre else ""),
            })  # fmt: skip
        check_size(self)
        check_gear(self)
        return self


class Tractor(_Part):
    """The tractor. `power_rating` says which power the figure is: gross engine, net engine (flywheel) or pto."""

    name: Words = ""
    drive: Literal["2WD", "MFWD", "4WD", "track"]
    rated_power: Power
    maximum_power: Power | None = None
    power_rating: Literal["gross engine", "net engine", "pto"]
    front_axle_mass: Annotated[Measure, Kind("kg", "12000 kg", least=0, most=200_000,
        usual=(20, 50_000), why="a garden tractor's 80 kg to twice the heaviest axle's 25 t")]  # fmt: skip
    rear_axle_mass: Annotated[Measure, Kind("kg", "10000 kg", above=0, most=200_000,
        usual=(50, 100_000), why="a garden tractor's 100 kg to three times the heaviest tractor on two tracks")]  # fmt: skip
    total_mass: Annotated[Measure, Kind("kg", "14000 kg", above=0, most=200_000,
        usual=TOTALS, why="a garden tractor's 180 kg to several times the heaviest tractor")] | None = None  # fmt: skip
    front_share: Annotated[Share | None, Field(description="share of total_mass on the front axle at rest")] = None
    wheelbase: Length
    drawbar_height: Annotated[Measure, Kind("m", "20 in", above=0, most=2,
        usual=(0.08, 2), why="below a garden tractor's axle to above any drawbar")]  # fmt: skip
    hitch_behind_axle: Distance = Measure("0.8 m", 0.8, "m")
    center_of_gravity_height: Annotated[Measure, Kind("m", "1.1 m", least=0, most=4, usual=(0.1, 3),
        why="a garden tractor's 0.4 m to the highest tractor's 1.6 m, and room")] = Measure("1.1 m", 1.1, "m")  # fmt: skip
    front: Gear | None = None
    rear: Gear
    drawbar_load_limit: Annotated[Measure, Kind("kN", "5000 lbf", above=0, most=500,
        usual=(0.2, 300), why="a garden tractor's 50 lbf to ten times the strongest drawbar's load")] | None = None  # fmt: skip
    front_axle_mass_limit: Mass | None = None
    rear_axle_mass_limit: Mass | None = None
    fuel_tank: Annotated[Measure, Kind("L", "300 gal", above=0, most=10_000,
        usual=(1, 5_000), why="a garden tractor's 5 L to twice the largest tank")] | None = None  # fmt: skip
    def_tank: Annotated[Measure, Kind("L", "20 gal", above=0, most=2000,
        usual=(0.5, 1_000), why="a few litres to several times the largest")] | None = None  # fmt: skip
    def_share: Annotated[Measure, Kind("1", "4 percent", least=0, most=0.2)] = Measure("4 percent", 4.0, "percent")
    engine_speed_share: Annotated[Measure, Kind("1", "100 percent", least=0.5, most=1)] = Measure(
        "100 percent", 100.0, "percent"
    )

    @model_validator(mode="after")
    def _stands(self) -> Tractor:
        if self.front is None and self.rear.kind != "track":
            raise fault("no front axle", "tyres or tracks on the front axle (only a two-track tractor has none)",
                         "a [tractor.front] section")  # fmt: skip
        if self.front is not None and self.front_axle_mass.value == 0:
            raise fault("no weight on the front axle", "the weighed mass of both axles", 'front_axle_mass = "6000 kg"')
        self._driven_as_its_drive_says()
        if self.maximum_power is not None and self.maximum_power.to("kW") < self.rated_power.to("kW"):
            raise fault("maximum_power below rated_power", "at least the rated power", f'maximum_power = "{self.rated_power}"')
        if self.maximum_power is not None and self.maximum_power.to("kW") > MOST_BOOST * self.rated_power.to("kW"):
            raise fault(f"maximum_power of {self.maximum_power} beside rated_power of {self.rated_power}",
                         f"at most {MOST_BOOST:g} times the rated power: engines give a tenth or two more at their best speed",
                         "both in the unit of the data sheet (hp, kW or metric_horsepower)")  # fmt: skip
        check_total(self)
        check_stance(self)
        return self

    def _driven_as_its_drive_says(self) -> None:
        if self.drive == "track" and self.rear.kind != "track":
            raise fault(f"drive = \"track\" on {self.rear.kind} tyres at the rear", "tracks at the rear, or a drive of tyres",
                         'drive = "4WD", "MFWD" or "2WD", or kind = "track" under [tractor.rear]')  # fmt: skip
        if self.rear.driven is False and not (self.front and self.front.driven):
            raise fault("no driven axle", "at least one driven axle", "driven = true under an axle")
        if self.drive == "track":
            return  # any axle of a tractor on tracks may roll along
        for name, gear in (("front", self.front), ("rear", self.rear)):
            wanted = name == "rear" or self.drive != "2WD"
            if gear is not None and gear.driven not in (None, wanted):
                said = str(gear.driven).lower()
                raise fault(f"drive = \"{self.drive}\" with driven = {said} under [tractor.{name}]",
                             f"a {name} axle that is {'' if wanted else 'not '}driven, or another drive",
                             f"driven = {str(wanted).lower()} under [tractor.{name}], or leave the line out")  # fmt: skip

    def drives(self, axle: Literal["front", "rear"]) -> bool:
        """Say whether an axle is driven: as the rig file says, or else by the drive. False where there is no such axle."""
        gear = self.front if axle == "front" else self.rear
        if gear is None:
            return False
        return gear.driven if gear.driven is not None else axle == "rear" or self.drive != "2WD"


class Implement(_Part):
    """The implement: a row of the draft table, its tools and what is known of its limits."""

    name: Words = ""
    tool: Annotated[str, Field(description="a row of the draft table; `rigcalc find` lists them")]
    tools: Count
    spacing: Annotated[Measure, Kind("m", "15 in", above=0, most=5,
        usual=SPACINGS, why="a garden cultivator's tines to single deep shanks")]  # fmt: skip
    width: Annotated[Measure, Kind("m", "24 ft", above=0, most=60,
        usual=WIDTHS, why="a garden disk to the widest folding tool")] | None = None  # fmt: skip
    point_width: Annotated[Measure, Kind("m", "2 in", above=0, most=1,
        usual=(0.005, 1), why="a narrow tine to the widest sweep")] | None = None  # fmt: skip
    mass: Annotated[Measure, Kind("kg", "5500 kg", above=0, most=200_000,
        usual=(15, 60_000), why="one garden shank to twice the heaviest tool")]  # fmt: skip
    hitch_load: Load = Measure("0 kN", 0.0, "kN")
    wheel_share: Annotated[Measure, Kind("1", "0 percent", least=0, most=1)] = Measure("30 percent", 30.0, "percent")
    rated_depth: Annotated[Measure, Kind("cm", "16 in", above=0, most=150,
        usual=(2, 120), why="a garden cultivator to the deepest ripper")] | None = None  # fmt: skip
    rated_power_per_tool: PowerEach | None = None
    field_efficiency: Annotated[Measure, Kind("1", "85 percent", above=0, most=1)] = Measure("85 percent", 85.0, "percent")
    gangs: Annotated[tuple[Gang, ...], Field(max_length=MOST_GANGS, description="what works beside the tool itself")] = ()

    @model_validator(mode="after")
    def _fits(self) -> Implement:
        self._counted_as_its_row_says()
        if self.point_width is not None and self.point_width.to("m") > 2 * self.spacing.to("m"):
            raise fault(f"point_width of {self.point_width} at a spacing of {self.spacing}",
                         "points at most twice as wide as the spacing",
                        'point_width = "2 in" and spacing = "15 in"')  # fmt: skip
        return self

    @field_validator("tool")
    @classmethod
    def _known(cls, value: str) -> str:
        try:
            row = table("d497_draft")[value]
        except InputError:
            known = ", ".join(row["tool"] for row in table("d497_draft") if workable(row))
            raise fault(f"'{value[:60]}'", "a row of the draft table of a tool that works at a depth", known) from None
        if not workable(row):
            raise fault(f"'{value}', whose draft hangs on no depth", "a row of a tool that works at a depth", "chisel_straight")
        return value

    def _counted_as_its_row_says(self) -> None:
        """Hold a tool that is counted to pieces and spacing, one that is measured by its width to that alone."""
        if not by_width(self.tool):
            if self.width is not None:
                raise fault(f"a width of {self.width} for {self.tool}, which is counted", "tools and spacing alone",
                             'tools = 13 and spacing = "15 in"')  # fmt: skip
            return
        if self.width is None:
            raise fault(f"no width for {self.tool}", "the working width of a tool that isn't counted", 'width = "24 ft"')
        if abs(self.tools * self.spacing.to("m") / self.width.to("m") - 1) > 1e-6:
            raise fault(f"tools and spacing beside a width of {self.width}", "the width alone: this tool isn't counted",
                         "width, and neither tools nor spacing")  # fmt: skip
        if self.rated_power_per_tool is not None or self.point_width is not None:
            raise fault(f"rated_power_per_tool or point_width for {self.tool}", "neither: it has no points that are counted",
                         "neither of the two")  # fmt: skip


class Ground(_Part):
    """The ground: texture or sand and clay, surface or cone index, slope, and the group of the draft table if known."""

    texture: str | None = None
    sand: Share | None = None
    clay: Share | None = None
    soil_group: Literal["fine", "medium", "coarse"] | None = None
    surface: Literal["hard", "firm", "tilled", "soft"] = "firm"
    cone_index: Annotated[Measure, Kind("kPa", "1200 kPa", least=50, most=5000)] | None = None
    grade: Annotated[Measure, Kind("deg", "2 deg", least=-25, most=25)] = Measure("0 deg", 0.0, "deg")
    wheels_follow_in_track: bool = True
    # how wet it is, as far as somebody looked
    thread_test: Annotated[Literal["crumbles", "rolls"] | None, Field(
        description="a clod from working depth, rolled to a thread of 1/8 in (3 mm): it crumbles first, or rolls out",
    )] = None  # fmt: skip
    wetness: Annotated[Literal["dry", "slightly_moist", "moist", "very_moist", "wet", "frozen"] | None, Field(
        description="how a handful from working depth feels and looks; table wetness_classes says each",
    )] = None  # fmt: skip
    water_by_mass: Annotated[Measure, Kind("1", "18 percent", least=0, most=1)] | None = None
    water_by_volume: Annotated[Measure, Kind("1", "25 percent", least=0, most=0.8)] | None = None
    sampled_at: Annotated[Measure, Kind("cm", "14 in", least=0, most=150)] | None = None
    plastic_limit: Annotated[Measure, Kind("1", "22 percent", least=0.05, most=0.8)] | None = None
    organic_matter: Annotated[Measure, Kind("1", "2.5 percent", least=0, most=0.3)] | None = None
    bulk_density: Annotated[Measure, Kind("g/cm**3", "1.35 g/cm**3", least=0.5, most=2.2)] | None = None
    # what a probe found, what else drives there, what lies on top; models/ground reads the texts
    flags: Annotated[str | None, Field(
        max_length=MOST_OF_FLAGS, description='a probe by hand: "8 in to 12 in, 350 psi; none", or a table with headings',
    )] = None  # fmt: skip
    flags_after: Annotated[str | None, Field(max_length=MOST_OF_FLAGS, description="the same, probed after the pass")] = None
    flags_under: Annotated[Share | None, Field(description="share of the flags with a layer to get under")] = None
    axles: Annotated[str | None, Field(
        max_length=2000, description='axles of others: "cart: 40000 lb on 2 tyres of 42 in by 78 in", parted by semicolons',
    )] = None  # fmt: skip
    # where it lies: parted into headland, lanes and the rest
    field: Annotated[Words | None, Field(description='length along the passes by width: "2600 ft by 1300 ft"')] = None
    headland: Annotated[Words | None, Field(description='its depth at each end: "80 ft"')] = None
    traffic: Annotated[str | None, Field(
        max_length=2000, description='what else drove there: "combine: 30 ft apart, 2 tyres of 30 in"; parted by semicolons',
    )] = None  # fmt: skip
    # what somebody knows better of the yield that compaction costs; models/ground reads the texts
    yield_loss: Annotated[Words | None, Field(description='first year, where wheels ran: "6 to 30 percent"')] = None
    yield_loss_lasting: Annotated[Words | None, Field(description='for good, where wheels ran: "2.5 to 10 percent"')] = None
    yield_loss_fades: Annotated[Words | None, Field(description='what isn\'t lasting: "5 to 10 years"')] = None
    trial_see: Annotated[Words | None, Field(description='difference in yield for strips to show: "5 percent"')] = None
    trial_scatter: Annotated[Words | None, Field(description='what two strips worked alike differ by: "8 percent"')] = None
    trial_pairs: Annotated[int | None, Field(ge=2, le=1000, strict=True, description="pairs of strips that there are")] = None
    residue: Annotated[Literal["non_fragile", "fragile"] | None, Field(description="corn or cereals, or soybean")] = None
    residue_cover: Annotated[Share | None, Field(description="share of the ground covered before the pass")] = None
    residue_keep: Annotated[Share | None, Field(description="least share of cover to keep")] = None
    # how the field lies; grade above is the slope along the rig's way
    slope: Annotated[Measure, Kind("deg", "6 percent", least=0, most=25)] | None = None
    passes_run: Annotated[Literal["across", "along"] | None, Field(description="across the slope, or along it")] = None

    @model_validator(mode="after")
    def _one_water(self) -> Ground:
        if self.water_by_mass is not None and self.water_by_volume is not None:
            raise fault("both water_by_mass and water_by_volume", "the one that was measured", "one, and leave the other out")
        return self

    @model_validator(mode="after")
    def _texture_known(self) -> Ground:
        names = [row["texture"] for row in table("soil_groups")]
        if self.texture is not None and self.texture not in names:
            raise fault(f"texture '{self.texture[:60]}'", "a USDA texture class", ", ".join(names))
        if (self.sand is None) != (self.clay is None):
            raise fault("only one of sand and clay", "both or neither", 'sand = "20 percent" and clay = "18 percent"')
        if self.sand is not None and self.clay is not None and self.sand.to("1") + self.clay.to("1") > 1 + 1e-12:
            raise fault(f"sand {self.sand} and clay {self.clay}", "at most 100 percent together", "what the soil test says")
        if self.texture is None and self.sand is None:
            raise fault("neither texture nor sand and clay", "one of the two", 'texture = "silt loam"')
        if self.texture is not None and self.sand is not None:
            raise fault("both texture and sand and clay", "one of the two", "one, and leave the other out")
        return self


class Work(_Part):
    """The work: how deep, how fast, and (optional) the season."""

    depth: Annotated[Measure, Kind("cm", "12 in", above=0, most=150, usual=(0.5, 130), why="scratching to the deepest ripper")]
    speed: Annotated[Measure, Kind("km/h", "5.5 mph", above=0, most=30, usual=(0.2, 30), why="creeping to the fastest work")]
    area: Annotated[Measure, Kind("ha", "800 acre", above=0, most=1_000_000,
        usual=(0.005, 500_000), why="a garden to the largest farms")] | None = None  # fmt: skip
    hours_per_day: Annotated[Measure, Kind("h/day", "10 h/day", above=0, most=24,
        usual=(0.25, 24), why="a quarter of an hour to a whole day")] | None = None  # fmt: skip
    calendar_days: Annotated[Measure, Kind("day", "21 day", above=0, most=366,
        usual=(0.1, 366), why="an hour or two to a year")] | None = None  # fmt: skip
    fit_days: Annotated[Measure, Kind("1", "50 percent", least=0, most=1)] | None = None


class Rig(_Part):
    """A whole rig: who, tractor, implement, ground, work; and, where wanted, ballast at hand, limits on weight, gears."""

    farm: Words = ""
    note: Annotated[str, Field(max_length=2000)] = ""
    tractor: Tractor
    implement: Implement
    ground: Ground
    work: Work
    ballast: Annotated[tuple[Piece, ...], Field(max_length=40, description="what a plan goes through in 5 s")] = ()
    setup: Setup | None = None
    scale: Scale | None = None
    gears: Gears | None = None
    fuel_test: Annotated[tuple[FuelTest, ...], Field(max_length=60)] = ()
    reading: Annotated[tuple[Reading, ...], Field(max_length=MOST_READINGS)] = ()
    asked: Asked | None = None
    _taken: tuple[Taken, ...] = PrivateAttr(())

    @model_validator(mode="wrap")
    @classmethod
    def _filled(cls, data: Any, handler: ModelWrapValidatorHandler[Rig]) -> Rig:
        if not isinstance(data, dict):
            return handler(data)
        data, taken = filled(data)
        rig = handler(data)
        rig._taken = taken
        return rig

    @model_serializer(mode="wrap")
    def _as_typed(self, handler: SerializerFunctionWrapHandler) -> dict[str, Any]:
        return without(handler(self), self._taken)

    @property
    def assumed(self) -> tuple[Taken, ...]:
        """What the rig file leaves out and a rule filled in, each with its rule and source; in the order of the file."""
        return self._taken

    @model_validator(mode="after")
    def _weighs(self) -> Rig:
        check_scale(self.tractor.front_axle_mass.to("kg"), self.tractor.rear_axle_mass.to("kg"), self.scale)
        names = [piece.name for piece in self.ballast]
        if len(set(names)) < len(names):
            raise fault("two kinds of ballast with one name", "a name of its own for each", "another name")
        check_fuel_test(self.fuel_test)
        rated = self.gears.rated_speed if self.gears else None
        check_readings(self.reading, rated.to("rpm") if rated else None, self.asked)
        return self
