"""The boxes of a reading: what is read by eye over a steady stretch, and dug out behind the shanks afterwards."""

from __future__ import annotations

from functools import cache

from rigcalc.widgets.fields import Choice, Section, Text, number, plain
from rigcalc.words.tools import piece, pieces

BOX = "own.read."  # before the name of an entry of a reading: what is typed and not added yet
# Entries of a reading that have a box. Those of the second row are of one stretch; the others stay for the next reading.
ERRORS = ("depth_error", "slip_error", "load_error", "fuel_error", "pull_error")
STAYS = ("date", "field", "depth_behind", "load_of", *ERRORS)
PASSES = (
    *("depth", "speed", "slip", "load", "fuel_rate", "zone"),
    *("wheel_speed", "turns_loaded", "turns_unloaded", "engine_speed", "pull", "note"),
)
COLUMNS = "columns"  # which column of a log is what, as one text: no box, but kept in the address as they are
_ZONES = (("", "the open field"), ("headland", "the headland"), ("cart lane", "a cart lane"))
_LOAD_OF = (("available", "of what it gives now"), ("rated", "of rated power"))


@cache
def boxes(tool: str = "") -> tuple[Section, ...]:
    """Give the boxes. tool: as in a rig file, for what its shanks are called."""
    one, many = (piece(tool), pieces(tool)) if tool else ("shank", "shanks")
    return (
        Section(
            "A reading",
            (
                number(f"{BOX}depth", "Depth dug", "2 30 0.5 in", "5 80 1 cm", f"to the bottom of the slot, behind a {one}"),
                plain(f"{BOX}depth_behind", f"Dug behind how many {many}", "1 50 1", "three are worth more; 1 where empty"),
                number(f"{BOX}speed", "Speed over the ground", "1 12 0.1 mph", "2 20 0.1 km/h", "radar or satellite"),
                plain(f"{BOX}slip", "Slip", "0 60 1 percent", "as the display shows it"),
                plain(f"{BOX}load", "Engine load", "1 150 1 percent", "as the display shows it"),
                Choice(f"{BOX}load_of", "Load of what", _LOAD_OF, "most displays: of what it gives now", in_sight=True),
                number(f"{BOX}fuel_rate", "Fuel rate", "1 60 0.1 gal/h", "4 230 0.5 L/h", "at work, without the turns"),
                Choice(f"{BOX}zone", "Where", _ZONES, "headland and cart lanes tell of themselves alone", in_sight=True),
                Text(f"{BOX}date", "Day", "year-month-day, such as 2026-11-04"),
                Text(f"{BOX}field", "Field", "a name of your own; may stay empty if there is but one"),
            ),
            note="Over a hundred steady steps or more. One of slip, load and fuel is enough.",
        ),
    )  # fmt: skip


def more_boxes() -> tuple[Section, ...]:
    """Give the boxes that few need: other ways to slip, engine speed, a load cell, and how far each number may be off."""
    return (
        Section(
            "More that was read",
            (
                number(f"{BOX}wheel_speed", "Wheel speed", "1 12 0.1 mph", "2 20 0.1 km/h", "in the place of slip"),
                plain(f"{BOX}turns_loaded", "Wheel turns under load", "1 500 1", "over one distance, in the place of slip"),
                plain(f"{BOX}turns_unloaded", "Wheel turns without", "1 500 1", "over the same distance"),
                plain(f"{BOX}engine_speed", "Engine speed", "800 2600 10 rpm", "where it isn't the rig's"),
                number(f"{BOX}pull", "Drawbar pull", "500 60000 100 lbf", "2 270 0.5 kN", "of a load cell"),
                Text(f"{BOX}note", "Note", "a line of your own"),
            ),
        ),
        Section(
            "How far each may be off",
            (
                number(f"{BOX}depth_error", "Depth off by", "0.2 6 0.1 in", "0.5 15 0.1 cm", "usually 0.8 in, 2 cm"),
                plain(f"{BOX}slip_error", "Slip off by", "0.5 30 0.5 percent", "in points; usually 1"),
                plain(f"{BOX}load_error", "Engine load off by", "1 50 1 percent", "of what it shows; usually 3"),
                plain(f"{BOX}fuel_error", "Fuel rate off by", "1 50 1 percent", "of what it shows; usually 3"),
                plain(f"{BOX}pull_error", "Drawbar pull off by", "1 50 1 percent", "of what it shows; usually 3"),
            ),
            note="Two readings in three are nearer than this. They stay for the next reading.",
        ),
    )  # fmt: skip
