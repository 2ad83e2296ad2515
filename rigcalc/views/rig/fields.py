"""The entries about a rig: every field that a person would want to change, by group, with its slider.

Slider ends are chosen to be handy. Where a table or an equation says in which range its numbers hold, that range is
taken from there, shown at the slider and marked when it is left.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from rigcalc.core.tables import table
from rigcalc.equations.traction_wheel import mobility_number
from rigcalc.models.rig.tool import by_width, usual, workable
from rigcalc.widgets.fields import Choice, Section, Text, number, plain
from rigcalc.words.numbers import capital
from rigcalc.words.tools import piece, pieces, tool_words

# What is tried out in every field has a slider; what is a fact of a machine or the ground is a box.
SLID = frozenset(["work.depth", "work.speed", "implement.tools"])
_YES_NO = (("true", "yes"), ("false", "no"))
# Without a kind the tyre's size says it, and the measures too.
_GEARS = (("radial", "radial tyres, by measures"), ("bias", "bias tyres, by measures"), ("track", "tracks"),
          ("", "tyres, by the size on the sidewall"))  # fmt: skip

# What a newly chosen running gear or soil starts from, so that a choice never leaves a hole.
STARTS: dict[str, dict[str, str]] = {
    "tyres": {"tyres": "4", "section_width": "710 mm", "diameter": "2.05 m"},
    "size": {"size": "710/70R42"},
    "track": {"tracks": "2", "track_width": "30 in", "contact_length": "2.2 m"},
    "counted": {"implement.tools": "9", "implement.spacing": "15 in"},
    "by_width": {"implement.width": "20 ft"},
    "soil": {"ground.sand": "20 percent", "ground.clay": "18 percent"},
}


def tool_of(inputs: Mapping[str, str]) -> str:
    """Give the tool of a rig as typed; empty where what was typed is none."""
    tool = inputs.get("implement.tool", "")
    return tool if any(row["tool"] == tool for row in table("d497_draft")) else ""


@cache
def setting(tool: str = "") -> tuple[Section, ...]:
    """Give what is set anew in every field: depth, speed, shanks. With a tool, its usual ranges stand at the sliders."""
    depth: dict[str, Any] = {}
    speed: dict[str, Any] = {}
    if tool and (span := usual(tool).depth):
        why = f"deeper or shallower than {tool_words(tool).one} usually works"
        depth = {"valid": (*span, "cm"), "why": why}
    if tool and (span := usual(tool).speed):
        why = f"outside the speeds at which {tool_words(tool).many} usually work"
        speed = {"valid": (*span, "km/h"), "why": why}
    return (
        Section(
            "Set it",
            (
                number("work.depth", "Depth", "2 24 0.5 in", "5 60 1 cm", **depth),
                number("work.speed", "Speed", "2 9 0.25 mph", "3 15 0.5 km/h", **speed),
                number("implement.width", "Working width", "6 80 1 ft", "2 24 0.25 m")
                if by_width(tool)
                else plain("implement.tools", capital(pieces(tool)) if tool else "Shanks", "1 40 1"),
            ),
        ),
    )


@cache
def groups(tool: str = "") -> tuple[Section, ...]:
    """Give what belongs to the machine and the ground, folded."""
    axles = (_axle("front", "Front axle"), _axle("rear", "Rear axle"))
    return (_ground(), _implement(tool), _tractor(), *axles, _job(), _sheet())


def _ground() -> Section:
    textures = tuple((row["texture"], row["texture"]) for row in table("soil_groups"))
    return Section(
        "Ground",
        (
            Choice("ground.texture", "Soil texture", (*textures, ("", "by sand and clay")), "from the soil map or by feel"),
            plain("ground.sand", "Sand", "0 100 1 percent"),
            plain("ground.clay", "Clay", "0 100 1 percent"),
            Choice("ground.surface", "Surface", (("hard", "hard"), ("firm", "firm"), ("tilled", "tilled"), ("soft", "soft"))),
            number(
                "ground.cone_index", "Cone index", "30 400 5 psi", "200 2800 50 kPa", "if measured; goes before the surface"
            ),
            plain("ground.grade", "Slope uphill", "-15 15 0.5 deg", "also takes percent"),
            Choice(
                "ground.soil_group",
                "Soil group for draft",
                (("", "by the texture"), ("fine", "fine"), ("medium", "medium"), ("coarse", "coarse")),
            ),
            Choice("ground.wheels_follow_in_track", "Rear wheels run in the front wheels' track", _YES_NO),
        ),
    )


def _implement(tool: str) -> Section:
    tools = tuple((row["tool"], row["title"]) for row in table("d497_draft") if workable(row))
    one = piece(tool) if tool else "shank"
    efficiency: dict[str, Any] = {}
    if tool and (span := usual(tool).efficiency):
        why = f"outside what is usual for {tool_words(tool).many}"
        efficiency = {"valid": (100 * span[0], 100 * span[1], "percent"), "why": why}
    return Section(
        "Implement",
        (
            Choice("implement.tool", "Tool", tools),
            number("implement.spacing", f"{capital(one)} spacing", "6 40 0.5 in", "15 100 1 cm"),
            number("implement.point_width", "Point width", "1 14 0.25 in", "2 36 0.5 cm", "sets the critical depth"),
            number("implement.mass", "Weight", "1000 40000 100 lb", "500 18000 50 kg"),
            number("implement.hitch_load", "Tongue load", "0 9000 100 lbf", "0 40 0.5 kN"),
            plain("implement.wheel_share", "Share carried on its wheels", "0 100 1 percent"),
            number("implement.rated_depth", "Rated depth", "6 30 0.5 in", "15 75 1 cm", "from the maker's manual"),
            number("implement.rated_power_per_tool", f"Rated power for each {one}", "5 100 1 hp", "4 75 1 kW"),
            plain("implement.field_efficiency", "Field efficiency", "50 100 1 percent", **efficiency),
            Text("implement.name", "Name of the implement"),
        ),
    )


def _tractor() -> Section:
    drives = (("2WD", "two-wheel"), ("MFWD", "front-wheel assist"), ("4WD", "four-wheel"), ("track", "tracks"))
    ratings = (("gross engine", "engine, gross"), ("net engine", "engine, net (at the flywheel)"), ("pto", "PTO"))
    return Section(
        "Tractor",
        (
            number("tractor.rated_power", "Rated power", "40 800 5 hp", "30 600 5 kW"),
            number("tractor.maximum_power", "Most power", "40 900 5 hp", "30 700 5 kW", "if it rises above rated"),
            Choice("tractor.power_rating", "Which power that is", ratings),
            Choice("tractor.drive", "Drive", drives),
            number(
                "tractor.front_axle_mass",
                "Weight on the front axle",
                "0 50000 100 lb",
                "0 23000 50 kg",
                "weighed, ballast included",
            ),
            number("tractor.rear_axle_mass", "Weight on the rear axle", "1000 50000 100 lb", "500 23000 50 kg"),
            number(
                "tractor.front_axle_mass_limit", "Front axle limit", "2000 60000 100 lb", "1000 27000 100 kg", "from the manual"
            ),
            number(
                "tractor.rear_axle_mass_limit", "Rear axle limit", "2000 60000 100 lb", "1000 27000 100 kg", "from the manual"
            ),
            number("tractor.wheelbase", "Wheelbase", "6 15 0.1 ft", "1.8 4.6 0.05 m"),
            number("tractor.drawbar_height", "Drawbar height", "10 40 0.5 in", "25 100 1 cm"),
            number("tractor.hitch_behind_axle", "Hitch behind the rear axle", "1 8 0.1 ft", "0.3 2.5 0.05 m"),
            number("tractor.center_of_gravity_height", "Height of the centre of gravity", "1 7 0.1 ft", "0.3 2.1 0.05 m"),
            number("tractor.drawbar_load_limit", "Most tongue load", "500 20000 100 lbf", "2 90 1 kN", "from the manual"),
            plain("tractor.engine_speed_share", "Engine speed, of rated", "50 100 1 percent"),
            number("tractor.fuel_tank", "Fuel tank", "20 600 5 gal", "80 2300 20 L"),
            Text("tractor.name", "Name of the tractor"),
        ),
    )


def _axle(name: str, title: str) -> Section:
    path = f"tractor.{name}"
    kinds = (*_GEARS, ("none", "no such axle (two tracks)")) if name == "front" else _GEARS
    low, high = mobility_number.valid["deflection_ratio"]
    return Section(
        title,
        (
            Choice(f"{path}.kind", "Runs on", kinds),
            Choice(f"{path}.driven", "Driven", (("", "as the drive says"), *_YES_NO[::-1])),
            Text(f"{path}.size", "Tyre size", "as on the sidewall, such as 710/70R42 173D"),
            plain(f"{path}.tyres", "Tyres on this axle", "1 8 1", "2 single, 4 dual, 6 triple"),
            number(f"{path}.section_width", "Tyre width", "8 40 0.5 in", "200 1000 10 mm"),
            number(f"{path}.diameter", "Tyre diameter", "30 95 0.5 in", "0.8 2.4 0.01 m"),
            plain(
                f"{path}.deflection_ratio",
                "Tyre deflection",
                "5 40 1 percent",
                "of the section height; 20 percent at the right pressure",
                valid=(100 * low, 100 * high, "percent"),
                range_is="the equations hold",
                why="outside the range of the traction equations",
            ),
            number(
                f"{path}.load_limit_each",
                "Most load on one tyre",
                "1000 25000 100 lb",
                "500 11000 50 kg",
                "load index and pressure",
            ),
            plain(f"{path}.tracks", "Tracks on this axle", "1 4 1"),
            number(f"{path}.track_width", "Track width", "10 48 0.5 in", "25 120 1 cm"),
            number(f"{path}.contact_length", "Length on the ground", "2 15 0.1 ft", "0.6 4.5 0.05 m"),
            number(f"{path}.pressure_limit", "Most pressure under the tracks", "2 30 0.5 psi", "15 200 5 kPa"),
        ),
    )


def _job() -> Section:
    return Section(
        "Season, farm and notes",
        (
            number("work.area", "Area to work", "10 5000 10 acre", "5 2000 5 ha"),
            plain("work.hours_per_day", "Field hours a day", "1 24 0.5 h/day", "at work or turning, not by the clock"),
            plain("work.calendar_days", "Days in the season", "1 90 1 day"),
            plain("work.fit_days", "Of these fit for the field", "0 100 1 percent"),
            Text("farm", "Farm"),
            Text("note", "Note"),
        ),
    )


def _sheet() -> Section:
    return Section(
        "On the setup sheet",
        (
            Text("sheet.who", "Who"),
            Text("sheet.where", "Where"),
            Text("sheet.when", "When"),
            Text("sheet.gear", "Gear"),
            Text("sheet.comment", "Comment"),
            Choice("sheet.paper", "Paper", (("", "by the units"), ("a4", "A4"), ("letter", "Letter"))),
        ),
        note="All of it may stay empty.",
    )
