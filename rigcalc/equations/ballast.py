"""What does ballast do? The mass advised, mass on each axle, liquid in tyres, a raised tool, the pull that lifts the front."""

from __future__ import annotations

import numpy as np

from rigcalc.core.equation import equation
from rigcalc.core.errors import Fault, InputError
from rigcalc.core.nomenclature import S
from rigcalc.core.tables import table


@equation(gives=S.front_gain, takes=(S.piece_mass, S.piece_ahead, S.wheelbase), source="statics", sure="computed")
def front_axle_gain(piece_mass, piece_ahead, wheelbase):
    """Mass that the front axle gains from a piece: moments about the rear contact."""
    return piece_mass * piece_ahead / wheelbase


@equation(gives=S.rear_gain, takes=(S.piece_mass, S.piece_ahead, S.wheelbase), source="statics", sure="computed")
def rear_axle_gain(piece_mass, piece_ahead, wheelbase):
    """Mass that the rear axle gains from a piece; below zero for one that hangs ahead of the front axle."""
    return piece_mass * (wheelbase - piece_ahead) / wheelbase


@equation(gives=S.front_share, takes=(S.front_mass, S.mass), source="statics", sure="computed")
def front_share(front_mass, mass):
    """Share of the tractor's mass on the front axle, standing on the level."""
    return front_mass / mass


@equation(
    gives=S.tool_behind,
    takes=(S.front_mass, S.front_mass_raised, S.wheelbase, S.tool_mass),
    source="statics",
    sure="computed",
)
def tool_center_behind(front_mass, front_mass_raised, wheelbase, tool_mass):
    """Where a raised tool's center of gravity is, from the front axle weighed without and with it."""
    return (front_mass - front_mass_raised) * wheelbase / tool_mass


@equation(
    gives=S.front_mass_raised,
    takes=(S.front_mass, S.tool_mass, S.tool_behind, S.wheelbase),
    source="statics",
    sure="computed",
)
def front_mass_with_tool(front_mass, tool_mass, tool_behind, wheelbase):
    """Mass left on the front axle with a tool raised on the hitch; below zero the front would be off the ground."""
    return front_mass - tool_mass * tool_behind / wheelbase


@equation(
    gives=S.lifting_pull,
    takes=(S.weight, S.center_ahead, S.center_height, S.grade, S.hitch_load, S.hitch_behind, S.drawbar_height),
    source="statics",
    sure="computed",
)
def lifting_pull(weight, center_ahead, center_height, grade, hitch_load, hitch_behind, drawbar_height):
    """Drawbar pull that takes the last load off the front axle in steady travel up a grade."""
    slope = np.deg2rad(grade)
    holds_down = weight * (np.cos(slope) * center_ahead - np.sin(slope) * center_height)
    return (holds_down - hitch_load * hitch_behind) / drawbar_height


@equation(
    gives=S.liquid_mass,
    takes=(S.tyre_volume, S.fill, S.liquid_density, S.filled_tyres),
    source="statics",
    sure="computed",
)
def liquid_mass(tyre_volume, fill, liquid_density, filled_tyres):
    """Mass of the liquid in the tyres of an axle."""
    return tyre_volume * fill * liquid_density * filled_tyres


@equation(
    gives=S.density_gain,
    takes=(S.dose,),
    source="tyre_maker_guide",
    where="mix table",
    sure="read in print",
    valid={"dose": (0.13, 0.60)},
    table="calcium_chloride_mix",
    traced=False,
    numeric=True,
)
def brine_gain_over_water(dose):
    """What calcium chloride solution weighs over water, by straight lines between the rows of the mix table.

    Raises InputError outside the table: it is never continued past its ends.
    """
    rows = table("calcium_chloride_mix")
    doses = [row["dose"] for row in rows]
    if np.any(dose < doses[0]) or np.any(dose > doses[-1]):
        raise InputError([Fault("brine gain over water: dose", "a dose outside the mix table",
                                f"{doses[0]:g} to {doses[-1]:g} kg/L", "Q(0.42, 'kg/L')")])  # fmt: skip
    gains = [100 * (row["relative_density"] - 1) for row in rows]
    return np.interp(dose, doses, gains)[()]


@equation(
    gives=S.liquid_density,
    takes=(S.water_density, S.density_gain.in_("1")),
    source="tyre_maker_guide",
    where="mix table",
    sure="computed",
)
def brine_density(water_density, density_gain):
    """Density of a solution from what it weighs over water."""
    return water_density * (1 + density_gain)


@equation(gives=S.mass, takes=(S.power, S.mass_per_power), source="power_hop_press", sure="restated", table="weight_advice")
def ballast_mass(power, mass_per_power):
    """Tractor mass that a rule of weight for power asks for."""
    return power * mass_per_power
