"""A reading from the field: when, how deep, how fast, and what a display, a count of turns or a load cell showed.

A reading is kept as it was typed. What it was made with stands in it too: a rig file that changes later leaves it alone.
"""

from __future__ import annotations

import datetime
import math
import re
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationInfo, field_validator, model_validator

from rigcalc.core.errors import shown
from rigcalc.core.tables import table
from rigcalc.equations.slip_test import slip_from_speeds, slip_from_turns
from rigcalc.models.rig.kept_setup import LONGEST, kept_data
from rigcalc.models.rig.measure import Kind, Measure
from rigcalc.models.rig.parts import Words, fault

MOST_READINGS = 100
EARLIEST = datetime.date(1990, 1, 1)
NUMBERS = ("slip", "load", "fuel", "pull")  # the kinds of numbers, in the order in which they are shown
ZONES = ("headland", "cart lane")  # parts of a field that pull harder than the rest
HIGH_IDLE = 1.15  # over rated speed: where a governor lets an engine turn without load (common practice: 1.05 to 1.12)
ANOTHER_DAY = "another"  # what is asked about is no day that was read
_DAY = re.compile(r"(\d{4})-(\d{2})-(\d{2})")

Depth = Annotated[Measure, Kind("cm", "14 in", above=0, most=150, usual=(0.5, 130), why="scratching to the deepest ripper")]
Speed = Annotated[Measure, Kind("km/h", "5.1 mph", above=0, most=30, usual=(0.2, 30), why="creeping to the fastest work")]
Turns = Annotated[Measure, Kind("1", "100", above=0, most=10_000)]
Error = Annotated[Measure, Kind("1", "3 percent", least=0.01, most=0.5)]  # under it the draws would be too few
Said = Annotated[
    str | None,
    Field(
        max_length=60,
        pattern=r"^[0-9.]{1,12} to ([0-9.]{1,12}|any) (percent|L/h|kN)$",
        description="what was said before it was read: 8 fields in 10",
    ),
]


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, validate_default=True)


class MadeWith(_Part):
    """The parts of the rig that a reading hangs on, as they were when it was made; the rig's own where left out."""

    tool: Words | None = None
    tools: Annotated[int, Field(ge=1, le=200, strict=True)] | None = None
    spacing: Annotated[Measure, Kind("m", "15 in", above=0, most=5)] | None = None
    implement_mass: Annotated[Measure, Kind("kg", "5500 kg", above=0, most=200_000)] | None = None
    hitch_load: Annotated[Measure, Kind("kN", "3000 lbf", least=0, most=500)] | None = None
    front_axle_mass: Annotated[Measure, Kind("kg", "12000 kg", least=0, most=200_000)] | None = None
    rear_axle_mass: Annotated[Measure, Kind("kg", "10000 kg", above=0, most=200_000)] | None = None
    rated_power: Annotated[Measure, Kind("kW", "480 hp", above=0, most=2000)] | None = None
    maximum_power: Annotated[Measure, Kind("kW", "500 hp", above=0, most=2000)] | None = None
    power_rating: Literal["gross engine", "net engine", "pto"] | None = None
    # the rest of three sections, each as one text (kept_setup.py)
    tractor: Annotated[str | None, Field(max_length=LONGEST, description="drive, stance, tyres or tracks")] = None
    implement: Annotated[str | None, Field(max_length=LONGEST, description="width, wheels, gangs")] = None
    ground: Annotated[str | None, Field(max_length=LONGEST, description="soil, surface, slope")] = None

    @field_validator("tractor", "implement", "ground")
    @classmethod
    def _can_be_read(cls, value: str | None, info: ValidationInfo) -> str | None:
        if value is not None and info.field_name is not None:
            kept_data(value, info.field_name)
        return value


# Entry of MadeWith -> its path in the rig file.
MADE_WITH = {
    "tool": "implement.tool", "tools": "implement.tools", "spacing": "implement.spacing", "implement_mass": "implement.mass",
    "hitch_load": "implement.hitch_load", "front_axle_mass": "tractor.front_axle_mass",
    "rear_axle_mass": "tractor.rear_axle_mass", "rated_power": "tractor.rated_power", "maximum_power": "tractor.maximum_power",
    "power_rating": "tractor.power_rating",
}  # fmt: skip


class Reading(_Part):
    """One reading over a steady stretch. `speed` is over the ground; slip is typed, or follows from wheel speed or turns."""

    date: Annotated[str, Field(description="the day, as 2026-11-04")]
    field: Words = ""
    zone: Annotated[Literal["", "headland", "cart lane"], Field(description="where it isn't of the open field")] = ""
    depth: Depth
    depth_behind: Annotated[int, Field(ge=1, le=50, strict=True, description="shanks that it was dug out behind")] = 1
    speed: Speed
    slip: Annotated[Measure, Kind("1", "12 percent", least=0, most=0.95)] | None = None
    wheel_speed: Speed | None = None
    turns_loaded: Turns | None = None
    turns_unloaded: Turns | None = None
    load: Annotated[Measure, Kind("1", "82 percent", above=0, most=1.5)] | None = None
    load_of: Annotated[Literal["available", "rated", "torque"] | None,
        Field(description="of what the engine gives at this engine speed, of rated power, or torque as a share of the most")
    ] = None  # fmt: skip
    engine_speed: Annotated[Measure, Kind("rpm", "1900 rpm", above=0, most=6000,
        usual=(200, 6_000), why="idling to the fastest garden engine")] | None = None  # fmt: skip
    fuel_rate: Annotated[Measure, Kind("L/h", "22 gal/h", above=0, most=1000,
        usual=(0.1, 600), why="a garden tractor's to twice the strongest tractor's")] | None = None  # fmt: skip
    pull: Annotated[Measure, Kind("kN", "18000 lbf", above=0, most=2000,
        usual=(0.1, 1_500), why="a garden tractor's to several times the strongest")] | None = None  # fmt: skip
    depth_error: Annotated[Measure, Kind("cm", "1 in", above=0, most=30)] | None = None
    slip_error: Annotated[Measure, Kind("1", "1 percent", least=0.005, most=0.3)] | None = None
    load_error: Error | None = None
    fuel_error: Error | None = None
    pull_error: Error | None = None
    set_aside: Annotated[str, Field(max_length=200, description="why it isn't counted; empty where it is")] = ""
    note: Words = ""
    made_with: MadeWith | None = None
    said_slip: Said = None
    said_load: Said = None
    said_fuel: Said = None
    said_pull: Said = None

    @field_validator("date", mode="before")
    @classmethod
    def _a_day(cls, value: Any) -> Any:
        if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
            value = value.isoformat()
        if not isinstance(value, str) or (found := _DAY.fullmatch(value.strip())) is None:
            raise fault(shown(value), "a day as year-month-day", 'date = "2026-11-04"')
        try:
            day = datetime.date(*map(int, found.groups()))
        except ValueError:
            raise fault(shown(value), "a day that there is", 'date = "2026-11-04"') from None
        if day < EARLIEST:
            raise fault(shown(value), f"a day from {EARLIEST} on", 'date = "2026-11-04"')
        return day.isoformat()

    @model_validator(mode="after")
    def _holds_together(self) -> Reading:
        if (self.turns_loaded is None) != (self.turns_unloaded is None):
            raise fault("only one of turns_loaded and turns_unloaded", "both counts over the same distance, or neither",
                        'turns_loaded = "100" and turns_unloaded = "88"')  # fmt: skip
        ways = [name for name in ("slip", "wheel_speed", "turns_loaded") if getattr(self, name) is not None]
        if len(ways) > 1:
            raise fault(f"slip in {len(ways)} ways: {' and '.join(ways)}", "one way of measuring slip in a reading", ways[0])
        if self.wheel_speed is not None and self.wheel_speed.to("km/h") < self.speed.to("km/h"):
            raise fault(f"a wheel_speed of {self.wheel_speed} under a ground speed of {self.speed}",
                        "wheels that turn at least as fast, for slip can't be below zero",
                        "the two the other way round, perhaps")  # fmt: skip
        if self.turns_loaded is not None and self.turns_unloaded is not None:
            if self.turns_unloaded.to("1") > self.turns_loaded.to("1"):
                raise fault(f"{self.turns_loaded} turns under load and {self.turns_unloaded} without",
                            "at least as many under load, for slip can't be below zero",
                            "the two the other way round, perhaps")  # fmt: skip
        if (self.load is None) != (self.load_of is None):
            raise fault("an engine load without load_of" if self.load_of is None else "load_of without an engine load",
                        "both: the load, and what it is a share of",
                        'load = "82 percent" and load_of = "available" (or "rated")')  # fmt: skip
        if not self.numbers:
            raise fault("a reading without slip, engine load, fuel rate or pull", "one of them",
                        'slip = "12 percent", or load = "82 percent" with load_of')  # fmt: skip
        if self.measured_slip is not None and self.measured_slip[0] > 0.95:
            raise fault(f"a slip of {self.measured_slip[0]:.0%}", "at most 95 percent", "both speeds, or both counts, again")
        return self

    @property
    def measured_slip(self) -> tuple[float, float] | None:
        """Slip as a decimal, and how far off it may be (one standard deviation); None where it wasn't measured."""
        usual = table("reading_doubt")
        typed = self.slip_error.to("1") if self.slip_error is not None else None
        if self.slip is not None:
            return self.slip.to("1"), typed or usual["slip"]["value"]
        if self.wheel_speed is not None:
            slip = slip_from_speeds.bare(self.speed.to("km/h"), self.wheel_speed.to("km/h"))
            return float(slip), typed or usual["slip_speeds"]["value"]
        if self.turns_loaded is not None and self.turns_unloaded is not None:
            loaded, unloaded = self.turns_loaded.to("1"), self.turns_unloaded.to("1")
            slip = float(slip_from_turns.bare(loaded, unloaded))
            counts = usual["slip_turns"]["value"] * math.hypot(1.0, 1 - slip) / loaded
            return slip, typed or counts
        return None

    @property
    def numbers(self) -> dict[str, tuple[float, float]]:
        """What was read, by kind: (bare value, error). Slip and load are decimals, fuel is in L/h, pull in kN.

        The error is one standard deviation: of slip in points as a decimal, of the others as a share of the value.
        """
        usual, found = table("reading_doubt"), {}
        if (slip := self.measured_slip) is not None:
            found["slip"] = slip
        for kind, value, unit, error in (
            ("load", self.load, "1", self.load_error), ("fuel", self.fuel_rate, "L/h", self.fuel_error),
            ("pull", self.pull, "kN", self.pull_error),
        ):  # fmt: skip
            if value is not None:
                found[kind] = value.to(unit), error.to("1") if error is not None else usual[kind]["value"]
        return found

    def said(self, kind: str) -> tuple[float, float] | None:
        """Give (low, high) of what was said of a number before it was read, in its bare unit; None where nothing was."""
        text = getattr(self, f"said_{kind}")
        if text is None:
            return None
        low, _, high, unit = text.split(" ")
        scale = 0.01 if unit == "percent" else 1.0
        return float(low) * scale, math.inf if high == "any" else float(high) * scale

    @property
    def depth_off(self) -> float:
        """How far the depth may be off, as a share of it: less the more shanks it was dug out behind."""
        each = self.depth_error.to("cm") if self.depth_error is not None else 100 * table("reading_doubt")["depth"]["value"]
        return float(each / math.sqrt(self.depth_behind) / self.depth.to("cm"))


class Asked(_Part):
    """What an answer from readings is about: a field and a day. The last reading's where left out."""

    name: Words | None = None
    day: Annotated[str | None, Field(max_length=10, description="a day that was read, or another")] = None

    @field_validator("day", mode="before")
    @classmethod
    def _known(cls, value: Any) -> Any:
        if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
            value = value.isoformat()
        if value is not None and value != ANOTHER_DAY and not (isinstance(value, str) and _DAY.fullmatch(value)):
            raise fault(shown(value), "a day that was read, or another", f'day = "2026-11-04", or day = "{ANOTHER_DAY}"')
        return value


def check_readings(readings: tuple[Reading, ...], rated_speed: float | None, asked: Asked | None) -> None:
    """Refuse an engine speed without the rated one (rpm), and a field or day asked about that was never read."""
    for place, reading in enumerate(readings):
        if reading in readings[:place]:
            raise fault(f"reading {place + 1} the same as reading {readings.index(reading) + 1}", "each reading once",
                        "one of them: in the rig file, or in the CSV file beside it")  # fmt: skip
        if reading.engine_speed is not None:
            turning = reading.engine_speed.to("rpm")
            if rated_speed is None:
                raise fault(f"an engine_speed of {reading.engine_speed} in the reading of {reading.date}",
                            "rated_speed under [gears], for the engine's speed is taken as a share of it",
                            'rated_speed = "2100 rpm" under [gears], or leave engine_speed out')  # fmt: skip
            if not 0.5 <= turning / rated_speed <= HIGH_IDLE:
                raise fault(f"an engine_speed of {reading.engine_speed} beside a rated_speed of {rated_speed:g} rpm",
                            f"half of rated speed to {HIGH_IDLE:g} times it, where an engine turns without load",
                            "the engine speed again")  # fmt: skip
    if asked is None:
        return
    if asked.name is not None and asked.name not in {reading.field for reading in readings}:
        known = ", ".join(dict.fromkeys(repr(reading.field) for reading in readings)) or "no reading"
        raise fault(f"{shown(asked.name)} asked about", "a field that a reading is from", known[:200])
    days = dict.fromkeys(reading.date for reading in readings)
    if asked.day not in (None, ANOTHER_DAY, *days):
        raise fault(f"{asked.day} asked about", f"a day that a reading is from, or {ANOTHER_DAY}",
                    ", ".join([*days, ANOTHER_DAY])[:200])  # fmt: skip
