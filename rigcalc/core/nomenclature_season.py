"""The symbols of the season: hours of a day, passes up and down, what it costs. (name, LaTeX, unit, text, least, most).

Money has no unit: it is a number in whatever the user pays with, so a price a litre has the unit 1/L.
"""

from __future__ import annotations

from math import inf

ROWS: tuple[tuple[str, str, str, str, float, float], ...] = (
    # the day
    ("clock_hours", "t_c", "h/day", "hours of a clock day, from setting out to coming home", 0, 24),
    ("fixed_stops", "t_0", "h/day", "hours of a clock day that go however much is done: meals, checks, ways", 0, 24),
    ("lost_per_hour", r"\lambda", "1", "hours lost for each field hour: filling, moves, stops that come with the work", 0, inf),
    # passes up and down
    ("row_length", "L_r", "m", "length of a pass between the headlands", 0, inf),
    ("turn_time", "t_u", "s", "time of one turn, tool out to tool in", 0, inf),
    ("row_share", "e_r", "1", "share of the time in the field, other stops left out, that the tool is in the ground", 0, 1),
    ("width_share", "e_w", "1", "share of the tool's width that covers new ground", 0, 1),
    ("stop_share", "e_s", "1", "share of the time in the field that isn't lost to stops there", 0, 1),
    # money: numbers in the user's own
    ("price", "P", "1", "price that is paid", 0, inf),
    ("list_price", "P_l", "1", "list price of a like machine today", 0, inf),
    ("salvage", "S", "1", "what the machine brings at the end", 0, inf),
    ("value_share", "RV", "1", "what a machine brings, as a share of list price", 0, 1),
    ("value_c1", "C_1", "1", "what a new machine brings at once, before it is squared", -inf, inf),
    ("value_c2", "C_2", "1", "loss by age, a root of a year", -inf, inf),
    ("value_c3", "C_3", "1", "loss by use, a root of an hour a year", -inf, inf),
    ("years", "n", "1", "years, as a number", 0, inf),
    ("hours_a_year", "h", "1", "hours of use a year, as a number", 0, inf),
    ("interest", "i", "1", "interest for a year", 0, inf),
    ("recovery_factor", "CRF", "1", "payment at the end of each year for each unit of price", 0, inf),
    ("cost_a_year", "A", "1", "cost a year", -inf, inf),
    ("holding_share", "r_h", "1", "taxes, insurance and housing a year, as a share of the mean of price and salvage", 0, 1),
    ("repair_factor_1", "RF_1", "1", "repair factor one: share of list price spent in the first thousand hours", 0, inf),
    ("repair_factor_2", "RF_2", "1", "repair factor two: exponent of the hours", 0, inf),
    ("hours_of_use", "t_h", "h", "hours of use since new", 0, inf),
    ("repair_cost", "C_{rm}", "1", "repairs and maintenance since new", 0, inf),
    ("fuel_price", "p_f", "1/L", "price of fuel", 0, inf),
    ("fuel_cost", "c_f", "1/h", "cost of fuel for each hour", 0, inf),
    ("oil_share", "f_o", "1", "cost of oil and filters as a share of that of fuel", 0, 1),
    ("oil_cost", "c_o", "1/h", "cost of oil and filters for each hour", 0, inf),
    ("wage", "w_l", "1/h", "wage for each hour of labour", 0, inf),
    ("labour_factor", "f_l", "1", "hours of labour for each hour of the machine", 1, inf),
    ("labour_cost", "c_l", "1/h", "cost of labour for each hour of the machine", 0, inf),
    ("cost_an_hour", "c_h", "1/h", "cost for each hour", -inf, inf),
    ("cost_per_area", "c_a", "1/ha", "cost for each unit of area", -inf, inf),
    ("running_per_area", "c_r", "1/ha", "cost of working each unit of area, owning left out", -inf, inf),
    ("ownership_a_year", "C_0", "1", "what owning costs a year, used or not", 0, inf),
    ("hire_rate", "c_c", "1/ha", "what a hired rig costs for each unit of area", 0, inf),
    ("loss_a_day", "K", "1/day", "share of the crop's value lost for each day of delay", 0, 1),
    ("crop_value", "V_y", "1/ha", "value of the crop for each unit of area", 0, inf),
    ("timeliness_factor", "Z", "1", "4 where the work lies about the best day, 2 where all of it is before or after", 1, inf),
    ("timeliness_cost", "W", "1", "crop lost to delay in a season", 0, inf),
    ("crop_price", "p_y", "1/t", "price of the crop", 0, inf),
    ("yield_gain", "Y", "t/ha", "crop for each unit of area", 0, inf),
    # what burning it does
    ("carbon_per_fuel", "k_c", "kg/L", "carbon dioxide from burning a unit of fuel", 0, inf),
    ("carbon_per_area", "m_c", "kg/ha", "carbon dioxide from the fuel of a unit of area", 0, inf),
)  # fmt: skip
