"""The boxes of fields as they are: heading, rounds, a turn, overlap, moves. They are the page's own."""

from __future__ import annotations

from functools import cache

from rigcalc.widgets.fields import Choice, Section, System, Text, number, plain

OWN = "own.passes."  # before the name of an option
ROUNDS = f"{OWN}rounds"
SECTIONS = (
    Section(
        "How it is driven",
        (
            plain(f"{OWN}heading", "Heading of every field", "0 360 1 deg", "from true north; the best of each where empty"),
            plain(ROUNDS, "Rounds along the boundary", "0 40 1", "what the turn needs, or 2, where empty"),
            plain(f"{OWN}turn_time", "A turn, tool out to tool in", "0 180 5 s", "25 s where nothing is typed"),
            number(f"{OWN}turn_radius", "Or the circle it turns on", "10 100 5 ft", "3 30 1 m", "its radius; gives the turn"),
            Choice(
                f"{OWN}steering",
                "Steered by",
                (("", "hand"), ("satellite", "satellite"), ("rtk", "satellite and a base station")),
                "says what overlaps, where nothing is typed below",
            ),
            number(f"{OWN}overlap", "Overlap from pass to pass", "0 36 1 in", "0 100 5 cm"),
            plain(f"{OWN}move", "A move to the next field", "0 180 5 min", "30 min where empty"),
        ),
        open=True,
    ),
)
PATHS = frozenset(field.path for section in SECTIONS for field in section.fields)
_TRAFFIC_HELP: dict[System, str] = {
    "us": "combine: 30 ft apart, 2 tires of 30 in; cart: lanes 120 ft apart, 2 tires of 42 in",
    "si": "combine: 9 m apart, 2 tyres of 75 cm; cart: lanes 36 m apart, 2 tyres of 105 cm",
}


@cache
def sections(system: System) -> tuple[Section, ...]:
    """Give all boxes, what else drove there among them, which is an entry of the rig's ground."""
    return (*SECTIONS, Section("Zones", (Text("ground.traffic", "What else drove there", _TRAFFIC_HELP[system]),), open=True))
