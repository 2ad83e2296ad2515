"""The boxes of a season: what the farm does. They are the page's own; the area is the rig's."""

from __future__ import annotations

from rigcalc.widgets.fields import Choice, Section, Text, number, plain
from rigcalc.words.weather_file import UNITS_NAMED

OWN = "own.season."  # before the name of an entry of a plan
RIGS = f"{OWN}rigs"
COUNTED = f"{OWN}days.counted"
LATER = f"{OWN}later"
SUNDAYS = f"{OWN}days.sundays_off"
HELPER = f"{OWN}day.fuel_helper"
UNITS = f"{OWN}days.weather_units"
OF_WEATHER = (UNITS, f"{OWN}days.latitude", f"{OWN}days.water_left")  # hidden until there is a file
COMES = "comes"
OFF = "off"


def _own(name: str) -> str:
    return f"{OWN}{name}"


SECTIONS = (
    Section(
        "The season",
        (
            number("work.area", "Area", "20 10000 10 acre", "10 4000 5 ha", "of all rigs together"),
            plain(RIGS, "Rigs alike that share it", "1 6 1", "one where empty"),
            Text(_own("start"), "First day", "such as 1 Oct"),
            Text(_own("by"), "Deadline", "such as 15 Nov"),
            plain(_own("days.share"), "Days fit for work", "5 100 1 percent", "in a middle year, where you are"),
            Text(COUNTED, "Or days fit, year by year", "five years or more, such as 31, 24, 36, 29, 33"),
            Choice(SUNDAYS, "Sundays", (("", "worked"), (OFF, "off")), "counts are without them already"),
            Text(
                LATER,
                "Later passes before the deadline",
                "width, speed, field efficiency and days to wait: 40 ft, 7 mph, 80 percent, 2 day; the next behind a semicolon",
            ),
        ),
        open=True,
    ),
    Section(
        "The day",
        (
            Text(_own("day.leave"), "Setting out", "such as 6:30"),
            Text(_own("day.home"), "Home again", "such as 21:00; past midnight, such as 2:00, where people take turns"),
            plain(_own("day.operators"), "People who take turns on a rig", "1 4 1", "meals don't stop it then"),
            plain(
                _own("day.field_hours"),
                "Field hours, if you know them",
                "1 24 0.5 h/day",
                "at work or turning, not by the clock",
            ),
            plain(_own("day.hand_over"), "A hand-over", "0 120 5 min", "where people take turns"),
            plain(_own("day.meals"), "Meals", "0 4 0.25 h", "of one who drives alone"),
            plain(_own("day.checks"), "Grease and checks", "0 4 0.25 h"),
            plain(_own("day.fill"), "Filling a tank", "0 120 5 min"),
            plain(_own("day.fetch"), "To the fuel and back", "0 120 5 min", "nothing where a trailer comes"),
            Choice(HELPER, "Fuel", (("", "you fill up yourself"), (COMES, "a helper comes with a trailer"))),
            plain(_own("day.pumping"), "The helper's pumping", "0 120 5 min", "a tank; by tank and pump where empty"),
            plain(_own("day.helper_hours"), "The helper's hours for it", "0 6 0.25 h", "a tank; they cost a wage"),
            plain(_own("day.move"), "A move to the next field", "0 180 5 min"),
            number(_own("day.field_area"), "A field holds", "5 640 5 acre", "2 260 2 ha"),
            number(
                _own("field.row_length"), "Length of a pass", "100 5280 20 ft", "30 1600 10 m", "builds the field efficiency"
            ),
            plain(_own("field.turn_time"), "A turn, tool out to tool in", "0 180 5 s", "counts beside the length of a pass"),
            Choice(
                _own("field.steering"),
                "Steered by",
                (("", "hand"), ("satellite", "satellite"), ("rtk", "satellite and a base station")),
                "says what overlaps, where nothing is typed below",
            ),
            number(_own("field.overlap"), "Overlap from pass to pass", "0 36 1 in", "0 100 5 cm"),
        ),
    ),
    Section(
        "Money",
        (
            Text(_own("money.tractor_price"), "Price of the tractor", "a number in your money"),
            Text(_own("money.tool_price"), "Price of the tool"),
            Text(_own("money.fuel_price"), "Price of fuel", "such as 3.50 per gal"),
            Text(_own("money.wage"), "Wage", "such as 25 per h"),
            Text(_own("money.hire"), "What a hired rig costs", "such as 24 per acre"),
            Text(_own("money.wear"), "Points, bolts and shanks worn", "such as 1 per acre"),
            Text(_own("money.crop_price"), "Price of the crop", "such as 180 per t: says what the pass has to gain"),
            Text(_own("money.gain"), "What you expect it to gain", "such as 30 per acre"),
        ),
    ),
)
WEATHER = (
    Section(
        "Of the weather file",
        (
            Choice(UNITS, "Units of the weather file", (("", "by its headings"), *UNITS_NAMED), "never guessed"),
            Text(_own("days.latitude"), "Where it was read", "latitude, such as 46.9; south negative; the file may say it"),
            plain(_own("days.water_left"), "Water that the crop leaves", "0 100 5 percent", "of what plants can take"),
        ),
        open=True,
    ),
)
PATHS = frozenset(field.path for section in (*SECTIONS, *WEATHER) for field in section.fields if field.path.startswith(OWN))
