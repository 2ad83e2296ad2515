"""The entries of the ballast page, by group: the job, the weights at hand, scale tickets, limits, tyres, gears, slip test."""

from __future__ import annotations

from functools import cache

from rigcalc.core.tables import table
from rigcalc.models.rig.parts import BRINE
from rigcalc.views.rig.fields import groups, setting
from rigcalc.widgets.fields import Choice, Field, Lines, Section, Text, number, plain

_YES_NO = (("true", "yes"), ("false", "no"))
_AXLES = (("front", "front axle"), ("rear", "rear axle"))


@cache
def job(tool: str = "") -> tuple[Section, ...]:
    """Give what changes from job to job."""
    which = Choice(
        "plan.job",
        "Plan for",
        (("light", "half this draft"), ("this", "this job"), ("full", "a full load")),
        "a full load takes all of the power, or all that grip gives",
    )
    return (Section("The job", (which, *(field for section in setting(tool) for field in section.fields))),)


def piece(place: int, title: str, opened: bool = False) -> Section:
    """Give the section of one kind of weight."""
    path = f"ballast.{place}"
    fields: tuple[Field, ...] = (
        plain(f"{path}.on", "On the tractor now", "0 40 1"),
        Text(f"{path}.name", "Name"),
        number(f"{path}.mass", "One weighs", "10 2000 10 lb", "5 1000 5 kg"),
        plain(f"{path}.count", "There are", "1 60 1", "on the tractor and in the shed"),
        Choice(f"{path}.axle", "Hangs by the", _AXLES),
        number(f"{path}.at", "This far from that axle", "0 12 0.1 ft", "0 4 0.05 m", "0 on a wheel"),
        Choice(f"{path}.side", "On this side of it", (("ahead", "ahead of it"), ("behind", "behind it"))),
        plain(f"{path}.holds", "The bracket holds", "1 60 1", "if it holds fewer than there are"),
        Choice(f"{path}.in_pairs", "Only in pairs", (("false", "no"), ("true", "yes, as on two wheels"))),
    )
    return Section(title, fields, opened)


@cache
def more(tool: str = "") -> tuple[Section, ...]:
    """Give scale tickets, limits, tyres and gears; then ground and machine, as on the sizing page."""
    shared = tuple(section for section in groups(tool) if not section.title.startswith(("Season", "On the setup")))
    sheet = tuple(section for section in groups(tool) if section.title.startswith("On the setup"))
    return (_tickets(), _limits(), _tyres("front"), _tyres("rear"), _gears(), *shared, *sheet)


@cache
def slip_test() -> tuple[Section, ...]:
    """Give the four ways of testing slip and their readings."""
    ways = (
        ("turns", "turns, with and without load"),
        ("distance", "distance in counted turns"),
        ("speeds", "ground and wheel speed"),
        ("screen", "slip on a screen"),
    )
    return (
        Section(
            "What you read",
            (
                Choice("slip.way", "How it was measured", ways),
                plain("slip.loaded", "Turns under load", "1 200 1", "between two marks, tool in the ground"),
                plain("slip.unloaded", "Turns without load", "1 200 1", "back over the same ground, tool raised"),
                plain("slip.turns", "Turns under load", "1 200 1"),
                number(
                    "slip.per_turn",
                    "Distance for one turn, without load",
                    "5 30 0.1 ft",
                    "1.5 9 0.01 m",
                    "drive many turns on the same ground and divide; a tape around the tyre gives too much",
                ),
                number("slip.distance", "Distance covered under load", "50 3000 1 ft", "15 900 1 m"),
                number("slip.ground", "Ground speed", "1 12 0.05 mph", "2 20 0.05 km/h", "radar or satellite"),
                number("slip.wheel", "Wheel speed", "1 12 0.05 mph", "2 20 0.05 km/h", "read at the same moment"),
                plain("slip.shown", "Slip that the screen shows", "0 60 1 %", "zeroed while driving without load"),
                plain("slip.off", "Each count may be off by", "0 1 0.05", "in turns: 0.5 if you count whole ones"),
            ),
        ),
    )


def _tickets() -> Section:
    return Section(
        "Scale tickets",
        (
            number("tractor.front_axle_mass", "Front axle", "0 50000 100 lb", "0 23000 50 kg", "with the ballast on it"),
            number("tractor.rear_axle_mass", "Rear axle", "1000 50000 100 lb", "500 23000 50 kg"),
            number("scale.total", "Whole tractor", "2000 100000 100 lb", "1000 45000 50 kg", "checks the other two"),
            number("scale.front_raised", "Front axle, tool raised", "0 50000 100 lb", "0 23000 50 kg", "a mounted tool"),
            number("scale.rear_raised", "Rear axle, tool raised", "1000 70000 100 lb", "500 32000 50 kg"),
        ),
        note="Weigh on level ground, without the tool; then with it raised, if it is mounted.",
    )


def _limits() -> Section:
    hitchings = (("towed", "towed"), ("semi-mounted", "semi-mounted"), ("mounted", "mounted"))
    return Section(
        "Hitch, limits and aims",
        (
            Choice("setup.hitching", "How the tool is hitched", hitchings),
            Choice("setup.front_suspension", "Front axle is sprung", (("false", "no"), ("true", "yes"))),
            number("setup.mass_limit", "Most mass with ballast", "5000 120000 500 lb", "2000 55000 250 kg", "the maker's"),
            number("setup.road_front_limit", "Front axle on the road", "2000 60000 500 lb", "1000 27000 250 kg", "the law's"),
            number("setup.road_rear_limit", "Rear axle on the road", "2000 60000 500 lb", "1000 27000 250 kg", "the law's"),
            number("setup.road_hitch_load", "Tongue load on the road", "0 20000 100 lbf", "0 90 0.5 kN"),
            plain("setup.front_share_low", "Share on the front, at least", "10 70 1 percent", "your own aim"),
            plain("setup.front_share_high", "Share on the front, at most", "10 70 1 percent"),
        ),
    )


def _tyres(axle: str) -> Section:
    path = f"tractor.{axle}.tyre"
    symbols = tuple((row["symbol"], row["symbol"]) for row in table("speed_symbols"))
    liquids = tuple((row["liquid"], row["liquid"].replace("_", " ")) for row in table("liquid_ballast"))
    return Section(
        f"{axle.capitalize()} tyres and what is in them",
        (
            plain(f"{path}.load_index", "Load index", "90 200 1", "on the sidewall"),
            Choice(f"{path}.speed_symbol", "Speed symbol", (("", "not known"), *symbols), "after the load index"),
            number(f"{path}.inflation", "Pressure now", "4 60 0.5 psi", "25 400 5 kPa"),
            Lines(
                f"table.{axle}",
                "Load and pressure table",
                "From the tyre's data book, as it is mounted (single, dual, triple) and for your speed; a first line such as: "
                "pressure psi, load lb",
            ),
            Text(f"{path}.table_from", "Where the table is from"),
            Choice(f"{path}.liquid", "Liquid", (("", "none"), (BRINE, "calcium chloride, by its dose"), *liquids)),
            number(f"{path}.dose", "Dose", "1 6 0.25 lb/gal", "0.1 0.7 0.01 kg/L", "flakes for each volume of water"),
            plain(f"{path}.fill", "Filled", "0 100 5 percent", "75 leaves a cushion of air"),
            number(f"{path}.volume", "Volume of one tyre", "10 400 5 gal", "40 1500 10 L", "from the data book"),
            plain(f"{path}.filled_tyres", "Tyres that hold it", "1 6 1", "two, if nothing stands here"),
        ),
    )


def _gears() -> Section:
    return Section(
        "Gears",
        (
            Text("gears.speeds", "Speeds of the gears", "at rated engine speed, lowest first: 4.2 mph, 5.0 mph, 5.9 mph"),
            Text("gears.names", "Their names", "as many, parted by commas; may stay empty"),
            plain("gears.rated_speed", "Rated engine speed", "1000 3000 50 rpm"),
            plain("gears.lowest_speed", "Lowest engine speed under load", "800 2500 50 rpm"),
            plain("gears.torque_rise", "Torque rise", "0 60 1 percent", "from the engine's data"),
            plain("gears.torque_peak_speed", "Engine speed of most torque", "800 2500 50 rpm"),
        ),
    )
