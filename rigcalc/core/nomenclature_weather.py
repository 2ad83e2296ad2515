"""The symbols of weather and drying soil: sun, evaporation, the layer that dries. (name, LaTeX, unit, text, least, most)."""

from __future__ import annotations

from math import inf

ROWS: tuple[tuple[str, str, str, str, float, float], ...] = (
    ("day_of_year", "J", "1", "day of the year, 1 on the first of January", 1, 366),
    ("sun_distance", "d_r", "1", "mean distance of the sun over that of the day, squared", 0, 2),
    ("declination", r"\delta_s", "rad", "height of the sun over the equator at noon", -0.42, 0.42),
    ("latitude", r"\varphi_s", "rad", "latitude, south negative", -1.5708, 1.5708),
    ("sunset_angle", r"\omega_s", "rad", "angle that the sun has still to go from noon to sunset", 0, 3.1416),
    ("sun_above", "R_a", "1", "radiation of the sun above the air on level ground, a number in MJ for each m2 and day", 0, inf),
    ("sun_as_water", "R_w", "mm/day", "the same as the water that it could evaporate", 0, inf),
    ("day_mean", "T_m", "1", "mean of the day, as a number in degrees Celsius", -95, 65),
    ("day_span", "T_R", "1", "warmest less coolest of the day, as a number in degrees Celsius", 0, 100),
    ("reference_et", "ET_0", "mm/day", "evaporation of a short green grass that lacks no water", -inf, inf),
    ("drying_depth", "Z_e", "mm", "depth of the layer that the sun and the air dry", 0, 500),
    ("evaporable", "TEW", "mm", "water that can evaporate from that layer once it is wet through", 0, inf),
    ("readily", "REW", "mm", "part of it that evaporates as fast as the air takes it", 0, inf),
    ("missing", "D_e", "mm", "water that the layer has lost since it was wet through", -inf, inf),
    ("drying_share", "K_r", "1", "share of the air's pull that a drying layer can still follow", -inf, inf),
    ("bare_coefficient", "K_c", "1", "evaporation of wet bare ground over that of the reference grass", 0, inf),
    ("bare_evaporation", "E_s", "mm/day", "evaporation of bare ground", -inf, inf),
)  # fmt: skip
