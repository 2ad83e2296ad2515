"""How many acres? Theoretical and effective field capacity, days needed and days there are."""

from __future__ import annotations

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S


@equation(gives=S.theoretical_field_capacity, takes=(S.speed, S.width), source="d497", where="cl. 5", numeric=True)
def theoretical_field_capacity(speed, width):
    """Area for each hour at full width and speed, without a stop."""
    return speed * width / 10


@equation(
    gives=S.field_capacity,
    takes=(S.speed, S.width, S.field_efficiency),
    source="d497",
    where="cl. 5",
    numeric=True,
    table="d497_field_operations",
)
def effective_field_capacity(speed, width, field_efficiency):
    """Area really covered for each hour, after turns, overlap and stops."""
    return speed * width * field_efficiency / 10


@equation(gives=S.field_efficiency, takes=(S.working_time, S.total_time), source="icar_capacity", sure="restated")
def field_efficiency_from_time(working_time, total_time):
    """Field efficiency from the time at work and the time in the field."""
    return working_time / total_time


@equation(gives=S.width, takes=(S.area, S.speed, S.time), source="board_problems", sure="restated", numeric=True)
def working_width_for(area, speed, time):
    """Working width that covers an area at a speed in a time, without a stop."""
    return area * 10 / (speed * time)


@equation(gives=S.days, takes=(S.area, S.field_capacity, S.hours_per_day), source="isu_fieldwork_days", sure="restated")
def days_needed(area, field_capacity, hours_per_day):
    """Working days that an area needs."""
    return area / (field_capacity * hours_per_day)


@equation(gives=S.area_per_day, takes=(S.area, S.days), source="isu_fieldwork_days", sure="restated")
def area_per_day(area, days):
    """Area to cover each working day to be done in time."""
    return area / days


@equation(gives=S.share_of_days, takes=(S.days, S.calendar_days), source="illinois_fieldwork_days", sure="restated")
def share_of_days(days, calendar_days):
    """Share of calendar days that are fit for the work."""
    return days / calendar_days


@equation(gives=S.days, takes=(S.share_of_days, S.calendar_days), source="isu_fieldwork_days", sure="restated")
def days_there_are(share_of_days, calendar_days):
    """Working days to be expected between two dates."""
    return share_of_days * calendar_days
