"""A file of daily weather that a page opens: what it holds, and what is wrong with it, said at the boxes of the page."""

from __future__ import annotations

from datetime import date

from rigcalc.core.errors import Fault
from rigcalc.models.machine.weather import Weather

FILE = "weather"  # where a fault of the file itself stands
COLUMNS = (
    "A CSV with a line for each day and the columns DATE, TMAX, TMIN and PRCP, as the global daily archive of stations "
    "names them."
)
FOR_DAYS = "Days fit for work are worked out from it, so none can be typed beside it."
FOR_GROUND = "How wet the ground should be is worked out from it; a clod or a handful from working depth counts before that."
UNITS_NAMED = (
    ("tenths", "tenths of a degree Celsius and of a mm"),
    ("metric", "degrees Celsius and mm"),
    ("us", "degrees Fahrenheit and inches"),
)
_ASKED = "weather_units", "latitude", "day", "water_left"
_TYPE = {
    "weather_units": "the one that the file has", "latitude": "46.9", "day": "1996-10-01", "water_left": "50 percent",
    FILE: "the file mended, or another unit in its box",
}  # fmt: skip


def weather_line(name: str, weather: Weather | None) -> str:
    """Say what a file of weather holds; None where it couldn't be read."""
    if weather is None:
        return f"{name}: not read yet; what it needs first stands where mending is named."
    first, last = (date.fromordinal(int(weather.days[at])) for at in (0, -1))
    place = "" if weather.latitude is None else f", latitude {weather.latitude:g}"
    return f"{name}: {len(weather.days):,} days, {first} to {last}{place}."


def of_ground_at_its_box(fault: Fault, before: str) -> Fault:
    """Give a fault of the ground by weather as it stands on the page. before: what stands before the name of its box."""
    where = fault.where.removeprefix("days.")
    hint = fault.type_this
    if where in _ASKED:
        return Fault(f"{before}{where}", fault.got, fault.expected, _TYPE[where] if "--" in hint or " in [" in hint else hint)
    if where == FILE or where.startswith(f"{FILE},"):
        typed = _TYPE[FILE] if "--" in hint or " in [" in hint else hint
        return Fault(f"{FILE} file{where.removeprefix(FILE)}", fault.got, fault.expected, typed)
    return fault
