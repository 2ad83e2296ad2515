"""The entries of the three cards. Each can be answered from the seat; what isn't asked is assumed by a rule."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from rigcalc.core.tables import table
from rigcalc.views.own.pictures import GEARS, POINTS, SURFACES
from rigcalc.views.rig.fields import setting
from rigcalc.widgets.fields import Choice, Section, Text, number, plain
from rigcalc.words.numbers import capital
from rigcalc.words.tools import piece, pieces

_GEAR_WORDS = (
    ("2WD", "two-wheel drive"), ("MFWD", "front-wheel assist"), ("4WD", "four-wheel drive"), ("two", "two tracks"),
    ("four", "four tracks"),
)  # fmt: skip
_POWER_WORDS = (("net engine", "engine, at the flywheel"), ("gross engine", "engine, gross"), ("pto", "PTO"))
_RIBBONS = (
    ("none", "makes no ball"), ("weak", "a ball, but no ribbon"), ("short", "shorter than 1 in (2.5 cm)"),
    ("middle", "1 to 2 in (2.5 to 5 cm)"), ("long", "longer than 2 in (5 cm)"),
)  # fmt: skip
_FEELS = (("gritty", "gritty"), ("smooth", "smooth"), ("neither", "neither, or both"))
_SURFACE_WORDS = (("hard", "hard, dry"), ("firm", "firm, stubble"), ("tilled", "tilled"), ("soft", "soft, wet or sandy"))
_POINT_WORDS = (
    ("chisel_straight", "straight point"), ("chisel_twisted", "twisted shovel"), ("chisel_shovel_or_sweep", "shovel or sweep"),
    ("subsoiler_narrow", "subsoiler, narrow"), ("subsoiler_winged", "subsoiler, winged"),
)  # fmt: skip
_HITCHES = (("towed", "towed"), ("semi-mounted", "partly carried"), ("mounted", "carried on the hitch"))


@cache
def tractor(gear: str = "") -> tuple[Section, ...]:
    """Give the card of the tractor; what is asked of its running gear follows the silhouette."""
    tracks = gear in ("two", "four")
    size_help = "as on the sidewall, such as 520/85R42 or 18.4-38"
    running = (
        (number("tractor.rear.track_width", "Width of a track", "10 48 0.5 in", "25 120 1 cm"),)
        if tracks
        else (Text("tractor.rear.size", "Rear tyre size", size_help), Text("tractor.front.size", "Front tyre size", size_help))
    )
    return (
        Section(
            "Tractor",
            (
                Choice("own.gear", "What it runs on", _GEAR_WORDS, pictures=tuple(GEARS.items())),
                number("tractor.rated_power", "Rated power", "40 800 5 hp", "30 600 5 kW", "on the hood, in the papers"),
                Choice("tractor.power_rating", "Which power that is", _POWER_WORDS, in_sight=True),
                number(
                    "tractor.total_mass", "Weight", "4000 80000 500 lb", "2000 36000 100 kg", "the whole tractor, ready to work"
                ),
                *running,
            ),
        ),
    )


@cache
def tool(name: str = "") -> tuple[Section, ...]:
    """Give the card of the tool."""
    one, many = (piece(name), pieces(name)) if name else ("shank", "shanks")
    return (
        Section(
            "Tool",
            (
                Choice("implement.tool", "Point", _POINT_WORDS, pictures=tuple(POINTS.items())),
                plain("implement.tools", capital(many), "1 40 1", "in the ground"),
                number(
                    "implement.spacing",
                    f"Between {many}",
                    "6 40 0.5 in",
                    "15 100 1 cm",
                    f"from one {one} to the next, across",
                ),
                Choice("setup.hitching", "How it hangs on the tractor", _HITCHES, in_sight=True),
            ),
        ),
    )


@cache
def ground(name: str = "") -> tuple[Section, ...]:
    """Give the card of the ground, with the pass that is planned on it."""
    textures = ("", "not known yet"), *((str(row["texture"]), str(row["texture"])) for row in table("soil_groups"))
    depth, speed, _count = setting(name)[0].fields
    return (
        Section(
            "Ground and pass",
            (
                Choice("own.ribbon", "A wet lump, pressed over the finger: its ribbon", _RIBBONS, in_sight=True),
                Choice("own.feel", "Rubbed very wet in the palm it feels", _FEELS, in_sight=True),
                Choice("ground.texture", "Texture", textures, "by the two above, or by the soil map"),
                Choice("ground.surface", "Surface", _SURFACE_WORDS, pictures=tuple(SURFACES.items())),
                depth,
                speed,
            ),
        ),
    )


def texture_of(ribbon: str, feel: str) -> str:
    """Give the texture that ribbon and feel stand for; empty while one of them is missing that matters."""
    return next(
        (str(row["texture"]) for row in table("texture_by_feel") if row["ribbon"] == ribbon and row["feel"] in (feel, "any")),
        "",
    )


def gear_of(inputs: Mapping[str, str]) -> str:
    """Give the silhouette that entries stand for; empty where none is chosen."""
    drive = inputs.get("tractor.drive", "")
    if drive == "track":
        return "four" if inputs.get("tractor.front.kind") == "track" else "two"
    return drive if drive in GEARS else ""
