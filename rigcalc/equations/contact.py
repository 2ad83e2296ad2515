"""Where does the load stand on a track? Place of the resultant over the contact length, peak pressure, shares of the parts."""

from __future__ import annotations

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S


@equation(
    gives=S.resultant_ahead,
    takes=(S.front_load, S.rear_load, S.wheelbase),
    source="statics",
    sure="computed",
)
def resultant_ahead(front_load, rear_load, wheelbase):
    """Place of the resultant ahead of the middle of the contact, for a track that stands midway between its end wheels."""
    return wheelbase * (front_load / (front_load + rear_load) - 1 / 2)


@equation(
    gives=S.peak_pressure,
    takes=(S.pressure, S.resultant_off, S.kern),
    source="statics",
    sure="computed",
)
def peak_pressure_trapezoid(pressure, resultant_off, kern):
    """Pressure at the heavier end of a rigid track while all of it bears: the resultant in the middle third."""
    return pressure * (1 + resultant_off / kern)


@equation(
    gives=S.peak_pressure,
    takes=(S.pressure, S.resultant_off, S.kern, S.contact_length),
    source="statics",
    sure="computed",
)
def peak_pressure_triangle(pressure, resultant_off, kern, contact_length):
    """Pressure at the heavier end of a rigid track whose other end has lifted: the resultant outside the middle third."""
    return 2 * pressure * 2 * kern / (contact_length / 2 - resultant_off)


@equation(
    gives=S.part_share,
    takes=(S.part_from, S.part_to, S.resultant_ahead, S.kern),
    source="statics",
    sure="computed",
)
def part_share_trapezoid(part_from, part_to, resultant_ahead, kern):
    """Share of a track's load between two places, as shares of its length from the rear, while all of it bears."""
    return (part_to - part_from) * (1 + resultant_ahead / kern * (part_from + part_to - 1))
