"""How many hours of the day are field hours, and what is kept of them? Clock day, turns, overlap and stops."""

from __future__ import annotations

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S


@equation(
    gives=S.hours_per_day, takes=(S.clock_hours, S.fixed_stops, S.lost_per_hour), source="statics", sure="computed",
)  # fmt: skip
def field_hours_of_day(clock_hours, fixed_stops, lost_per_hour):
    """Field hours that a clock day leaves: what is lost with each field hour is lost of what the fixed stops leave."""
    return (clock_hours - fixed_stops) / (1 + lost_per_hour)


@equation(gives=S.row_share, takes=(S.row_length, S.speed.in_("m/s"), S.turn_time), source="statics", sure="computed")
def share_in_the_row(row_length, speed, turn_time):
    """Share of the time that the tool is in the ground: one pass to one pass and one turn."""
    return (row_length / speed) / (row_length / speed + turn_time)


@equation(gives=S.field_efficiency, takes=(S.width_share, S.row_share, S.stop_share), source="statics", sure="computed")
def field_efficiency_of_parts(width_share, row_share, stop_share):
    """Field efficiency from overlap, turns and stops in the field, each as the share that is kept."""
    return width_share * row_share * stop_share
