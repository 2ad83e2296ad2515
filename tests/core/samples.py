"""Values of every symbol at which the book can be run: in its declared units, inside what can exist, far from zero."""

import numpy as np

from rigcalc.core.units import Q

# Symbols whose values have to be of a certain size; all others get the ranges at the foot of `span`.
SPANS = {
    "belt_decay": (0.05, 0.15), "belt_ceiling": (0.5, 0.9),
    "sand": (20, 50), "clay": (10, 35), "friction_angle": (5, 40), "grade": (1, 12), "slip": (0.03, 0.4),
    "mobility_number": (10, 70), "deflection_ratio": (0.1, 0.3), "shear_modulus": (0.01, 0.05), "contact_length": (1.5, 3),
    "sinkage_exponent": (0.3, 1.2), "sinkage": (0.01, 0.2), "cohesive_modulus": (5, 60), "frictional_modulus": (500, 3000),
    "weight": (150, 300), "pull": (20, 60), "hitch_load": (2, 15), "hitch_behind": (0.5, 1.5), "drawbar_height": (0.4, 0.6),
    "center_ahead": (1.5, 2.5), "center_height": (0.8, 1.4), "wheelbase": (2.5, 4), "front_load": (60, 120),
    "load_index": (120, 180), "section_width": (0.4, 0.8), "diameter": (1.8, 2.2), "rim_diameter": (0.9, 1.2),
    "static_loaded_radius": (0.7, 0.85), "wheel_load": (20, 60), "cone_index": (400, 1800), "engine_speed": (1500, 2200),
    "total_ratio": (50, 400), "advance": (3, 5), "advance_unloaded": (5.5, 7), "turns_loaded": (11, 13),
    "turns_unloaded": (8, 10), "turns": (10, 12), "rolling_circumference": (5.5, 6.5), "distance": (40, 50),
    "engine_speed_ratio": (0.6, 1), "transfer_coefficient": (0.2, 0.7), "hours_per_day": (5, 15), "load_ratio": (0.3, 1),
    "pressure": (70, 120), "stress": (20, 60), "concentration_factor": (3, 6), "dose": (0.15, 0.5), "load_low": (2000, 2500),
    "load_high": (3000, 4000), "tyre_load": (2600, 2900), "listed_load": (2500, 3500), "inflation_low": (80, 100),
    "inflation_high": (120, 160), "piece_mass": (100, 900), "mass": (8000, 15000), "front_mass": (3000, 5000),
    "front_mass_raised": (1000, 2500), "tool_mass": (500, 1500),
    "sand_share": (0.2, 0.5), "clay_share": (0.1, 0.35), "organic_matter": (1, 5), "drained_water": (0.25, 0.4),
    "wilting_point": (0.05, 0.2), "saturation": (0.42, 0.55), "residual_water": (0.02, 0.1), "optimum_water": (0.2, 0.4),
    "retention_exponent": (1.1, 2.5), "retention_alpha": (0.005, 0.1), "bulk_density": (1, 1.6), "density_ratio": (1, 1.6),
    "side_angle": (35, 55), "tool_width": (0.05, 0.2), "shank_spacing": (0.3, 0.8), "loosened_depth": (0.2, 0.5),
    "rake": (40, 60), "metal_friction": (10, 20), "failure_angle": (30, 40), "crescent_ratio": (1, 2), "unit_weight": (12, 18),
    "ridge": (0.05, 0.15), "loosened_section": (0.05, 0.3),
    "suction_log": (1.6, 2.5), "water_by_mass": (0.1, 0.3), "tension_wet": (20, 40), "tension_dry": (1000, 2000),
    "strength_base": (10, 100), "strength_per_density": (10, 100), "strength_per_clay": (10, 100),
    "strength_per_water": (10, 100),
    "day_of_year": (20, 150), "latitude": (0.3, 1.0), "declination": (0.05, 0.4), "sunset_angle": (1.3, 1.8),
    "sun_distance": (0.97, 1.03), "day_mean": (5, 30), "day_span": (4, 20), "missing": (10, 15), "evaporable": (18, 25),
    "readily": (6, 9), "interest": (0.02, 0.15), "years": (3, 20), "hours_of_use": (500, 6000),
}  # fmt: skip


def span(symbol):
    if symbol.name in SPANS:
        return SPANS[symbol.name]
    return (0.1, 0.9) * np.array(symbol.most) if np.isfinite(symbol.most) else (1.0, 50.0)


def bare_values(eq, shape=(), seed=0):
    """One float, or an array of `shape`, for each argument of an equation."""
    rng = np.random.default_rng([seed, len(eq.__name__)])
    drawn = [rng.uniform(*span(symbol), shape) for symbol in eq.takes]
    drawn = [np.round(value) if symbol.name == "load_index" else value for value, symbol in zip(drawn, eq.takes, strict=True)]
    return [float(value) for value in drawn] if shape == () else drawn


def quantities(eq, values):
    return [Q(value, symbol.unit) for value, symbol in zip(values, eq.takes, strict=True)]
