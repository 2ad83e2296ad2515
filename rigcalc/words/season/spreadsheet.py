"""What a season's table for other programs is headed with."""

from __future__ import annotations

from rigcalc.words.numbers import System

SHEETS = ("Costs", "Answer")
_AREA, _VOLUME = {"us": "acre", "si": "ha"}, {"us": "gal", "si": "L"}
# name -> what it is, with its unit; {area} and {volume} are those of the system.
ROWS = {
    "area": "Area a year, {area}",
    "capacity": "Area a field hour, {area}/h",
    "hours": "Field hours a year, h",
    "owning_tractor": "Owning the tractor, a year",
    "owning_tool": "Owning the tool, a year",
    "repairs_tractor": "Tractor repairs, a field hour",
    "repairs_tool": "Tool repairs, a field hour",
    "fuel": "Fuel of the whole day, {volume} a field hour",
    "fuel_price": "Price of fuel, for each {volume}",
    "oil": "Oil and filters, a share of the fuel's cost",
    "def": "Exhaust fluid, a field hour",
    "labour": "Labour, a field hour",
    "helper": "A helper who brings fuel, a field hour",
    "wear": "Points and bolts, for each {area}",
    "an_hour": "Cost of a field hour",
    "per_area": "Cost of each {area}",
    "chance": "Seasons of 100 in which it is done in time, alone",
}


def head(name: str, units: System) -> str:
    """Give what a figure is, with its unit."""
    return ROWS[name].format(area=_AREA[units], volume=_VOLUME[units])


def note() -> str:
    """Say what follows a change of the shaded figures and what doesn't."""
    return (
        "Each rig has all of the fields to itself. Shaded figures can be changed; hours and costs follow. Chances don't: they "
        "are whole seasons, run by rigcalc. Owning a year and repairs an hour are those of the hours that were asked."
    )


def picture(units: System) -> tuple[str, str, str]:
    """Give the title of the picture and of its two axes."""
    return "Cost against chance", head("per_area", units), "Seasons of 100 done in time"
