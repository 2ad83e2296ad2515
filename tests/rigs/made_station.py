"""Invented daily weather of a station, in tenths, as the text of a file."""

import datetime
import math


def station(latitude=True, first=2000, last=2010):
    """Give whole years of it, day by day."""
    lines = ["DATE,TMAX,TMIN,PRCP" + (",LATITUDE" if latitude else "")]
    day = datetime.date(first, 1, 1)
    while day.year <= last:
        warm = 8 - 16 * math.cos(2 * math.pi * (day.timetuple().tm_yday - 20) / 365)
        rain = (day.toordinal() * 7919 % 13 == 0) * (40 + day.year % 7 * 60)
        lines.append(f"{day},{10 * warm + 60:.0f},{10 * warm - 60:.0f},{rain}{',46.9' if latitude else ''}")
        day += datetime.timedelta(days=1)
    return "\n".join(lines) + "\n"
