"""Every symbol of the book, declared once: name, LaTeX, the unit that the sources print, one sentence, hard bounds."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from rigcalc.core.nomenclature_season import ROWS as _SEASON
from rigcalc.core.nomenclature_weather import ROWS as _WEATHER

_INF = math.inf


@dataclass(frozen=True)
class Symbol:
    """A quantity of the book. `least` and `most` bound what can exist at all, in `unit`; they are not a valid range."""

    name: str
    latex: str
    unit: str
    text: str
    least: float = 0.0
    most: float = _INF

    def in_(self, unit: str) -> Symbol:
        """Give the same symbol in the unit that another source prints."""
        return replace(self, unit=unit)


class _Nomenclature:
    """Attribute access to the symbols: `S.depth`. `for symbol in S` walks them in the order of declaration."""

    def __init__(self, symbols: list[Symbol]):
        self._by_name = {symbol.name: symbol for symbol in symbols}
        if len(self._by_name) != len(symbols):
            raise ValueError("a symbol is declared twice")

    def __getattr__(self, name: str) -> Symbol:
        try:
            return self.__dict__["_by_name"][name]  # type: ignore[no-any-return]
        except KeyError:
            raise AttributeError(f"no symbol named {name}") from None

    def __iter__(self):  # type: ignore[no-untyped-def]
        return iter(self._by_name.values())


_ = Symbol
S = _Nomenclature([
    # soil
    _("sand", "f_{sand}", "percent", "share of sand (0.05 to 2 mm) in the mineral soil, by mass", most=100),
    _("clay", "f_{clay}", "percent", "share of clay (under 0.002 mm) in the mineral soil, by mass", most=100),
    _("texture", r"\text{class}", "text", "USDA texture class"),
    _("cone_index", "CI", "kPa", "cone penetration resistance of the top 150 mm before the pass"),
    _("cone_index_after", "CI'", "kPa", "cone index that a wheel meets which follows in a track"),
    _("cohesion", "c", "kPa", "cohesion of the soil"),
    _("friction_angle", r"\varphi", "deg", "angle of internal friction of the soil", most=89),
    _("shear_modulus", "K", "m", "shear deformation modulus: shear displacement scale at which thrust builds up"),
    _("cohesive_modulus", "k_c", "1", "pressure-sinkage modulus of cohesion, as a number in kN/m^(n+1)"),
    _("frictional_modulus", r"k_\varphi", "1", "pressure-sinkage modulus of friction, as a number in kN/m^(n+2)"),
    _("sinkage_exponent", "n", "1", "exponent of the pressure-sinkage curve"),
    _("critical_depth", "d_c", "cm", "depth below which a point squeezes soil aside rather than lifting it"),
    _("aspect_ratio_critical", "a_c", "1", "critical depth as a multiple of the point's width"),
    # tool and draft
    _("soil_factor", "F_i", "1", "soil texture factor of the draft table"),
    _("draft_a", "A", "N/cm", "constant term of a tool's draft, for each tool and cm of depth"),
    _("draft_b", "B", "N*h/(km*cm)", "term of a tool's draft in proportion to speed"),
    _("draft_c", "C", "N*h**2/(km**2*cm)", "term of a tool's draft in proportion to speed squared"),
    _("width_a", "A", "N/(m*cm)", "constant term of draft for each metre of width and cm of depth"),
    _("width_b", "B", "N*h/(km*m*cm)", "term in proportion to speed, for each metre of width"),
    _("width_c", "C", "N*h**2/(km**2*m*cm)", "term in proportion to speed squared, for each metre of width"),
    _("spread_a", "A", "N/m", "constant term of draft for each metre of width, where depth does not enter"),
    _("spread_b", "B", "N*h/(km*m)", "term in proportion to speed for each metre of width, where depth does not enter"),
    _("tools", "N_t", "1", "number of tools (shanks, points, rows)"),
    _("depth", "T", "cm", "working depth"),
    _("speed", "S", "km/h", "travel speed over the ground"),
    _("width", "W", "m", "working width"),
    _("point_width", "w", "cm", "width of the point"),
    _("draft", "D", "N", "horizontal force along the line of travel that the implement needs"),
    _("specific_draft", "d_s", "kPa", "draft for each unit of tilled cross-section"),
    # power
    _("gross_power", "P_{g}", "kW", "gross engine power: flywheel, without the losses of fan and accessories"),
    _("engine_power", "P_e", "kW", "engine power at the flywheel"),
    _("pto_power", "P_{pto}", "kW", "power at the power take-off shaft"),
    _("rated_pto_power", "P_r", "kW", "rated power at the power take-off shaft"),
    _("axle_power", "P_a", "kW", "power at the drive axles"),
    _("drawbar_power", "P_{db}", "kW", "pull times travel speed"),
    _("power", "P", "kW", "power"),
    _("rated_power", "P_{rated}", "kW", "power of which a job uses the wanted share"),
    _("net_ratio", "r_n", "1", "net flywheel power as a share of gross power", most=1),
    _("pto_ratio", "r_p", "1", "power take-off power as a share of engine power", most=1),
    _("axle_ratio", "r_a", "1", "axle power as a share of power take-off power", most=1),
    _("drawbar_ratio", "r_d", "1", "drawbar power as a share of power take-off power", most=1),
    _("loading", r"\lambda", "1", "share of the rated power that is to be used", most=1),
    _("axle_force", "Q", "kN", "gross traction summed over the driven axles"),
    # slip and speed
    _("slip", "s", "1", "travel reduction (slip), as a decimal", most=1),
    _("advance", "a", "m", "advance for one wheel turn under load"),
    _("advance_unloaded", "a_0", "m", "advance for one wheel turn without load on the same surface"),
    _("turns_loaded", "n_1", "1", "wheel turns over the marked distance under load"),
    _("turns_unloaded", "n_0", "1", "wheel turns over the same distance without load"),
    _("turns", "n", "1", "counted wheel turns"),
    _("rolling_circumference", "U", "m", "distance for one wheel turn without load"),
    _("distance", "x", "m", "distance covered"),
    _("wheel_diameter", "d_w", "m", "rolling diameter of the wheel"),
    _("engine_speed", "n_e", "rpm", "engine speed"),
    _("total_ratio", "i", "1", "engine turns for one turn of the wheel"),
    _("travel_speed", "v", "km/h", "travel speed over the ground"),
    _("no_slip_speed", "v_0", "km/h", "speed that the wheels would give without slip"),
    # wheels
    _("section_width", "b", "m", "unloaded section width of the tyre"),
    _("diameter", "d", "m", "unloaded overall diameter of the tyre"),
    _("rim_diameter", "d_r", "m", "nominal rim diameter"),
    _("aspect_ratio", "AR", "1", "section height as a share of section width"),
    _("section_height", "h", "m", "section height of the tyre"),
    _("static_loaded_radius", "r_s", "m", "height of the axle over hard ground under load"),
    _("deflection", r"\delta", "m", "tyre deflection on hard ground under load"),
    _("deflection_ratio", r"\delta/h", "1", "deflection as a share of section height", most=1),
    _("rolling_radius", "r", "m", "rolling radius"),
    _("wheel_load", "W", "kN", "dynamic load on one wheel"),
    _("mobility_number", "B_n", "1", "mobility number of a wheel on this soil"),
    _("gross_traction_ratio", "GTR", "1", "gross traction as a share of the wheel's load"),
    _("motion_resistance_ratio", "MRR", "1", "motion resistance as a share of the wheel's load"),
    _("net_traction_ratio", "NTR", "1", "net traction (pull) as a share of the wheel's load", least=-_INF),
    _("tractive_efficiency", "TE", "1", "share of axle power that arrives as pull", least=-_INF, most=1),
    _("load_index", "LI", "1", "load index on the tyre's sidewall", most=279),
    _("load_mass", "m", "kg", "mass that the tyre may carry at its rated speed and pressure"),
    # tracks
    _("contact_area", "A_c", "m**2", "contact area of the tracks of an axle or tractor"),
    _("contact_length", "L", "m", "contact length of one track"),
    _("recommended_inflation", "p_r", "kPa", "inflation pressure that a tyre should have at its load"),
    _("contact_peak", r"\sigma_0", "kPa", "greatest vertical stress in the contact of a tyre"),
    _("tyre_contact_length", "L_t", "m", "length of the contact of a tyre"),
    _("contact_squareness", "n_c", "1", "exponent of the outline of a contact: 2 is an ellipse"),
    _("contact_decay", r"\delta", "1/m", "how fast stress falls from the edge of a contact to its middle", least=-_INF),
    _("track_width", "b_t", "m", "width of one track"),
    _("track_count", "n_t", "1", "number of tracks"),
    _("track_load", "W_t", "kN", "load on the tracks"),
    _("thrust_limit", "H_m", "kN", "thrust that the soil's shear strength allows"),
    _("thrust", "H", "kN", "thrust at this slip"),
    _("pressure", "p", "kPa", "mean ground pressure"),
    _("sinkage", "z", "m", "sinkage of the track"),
    _("compaction_resistance", "R_c", "kN", "resistance from pressing the soil down"),
    _("belt_ratio", r"\rho_b", "1", "loss inside the belt and rollers as a share of the track's load", most=1),
    _("belt_loss", "R_b", "kN", "loss inside the belt and rollers, as a force"),
    # balance
    _("weight", "G", "kN", "weight of the tractor"),
    _("axle_weight", "G_a", "kN", "weight that an axle carries at rest"),
    _("mass", "m", "kg", "mass"),
    _("center_ahead", "x_g", "m", "distance of the center of gravity ahead of the rear axle"),
    _("center_height", "h_g", "m", "height of the center of gravity over the ground"),
    _("wheelbase", "L_w", "m", "distance between the axles"),
    _("pull", "P_d", "kN", "drawbar pull, along the ground", least=-_INF),
    _("drawbar_height", "h_d", "m", "height of the hitch point over the ground"),
    _("hitch_load", "V", "kN", "load that the implement puts down on the hitch", least=-_INF),
    _("hitch_behind", "x_d", "m", "distance of the hitch point behind the rear axle", least=-_INF),
    _("grade", r"\theta", "deg", "slope of the ground along the line of travel, uphill positive", least=-45, most=45),
    _("front_load", "R_f", "kN", "load on the front axle", least=-_INF),
    _("rear_load", "R_r", "kN", "load on the rear axle", least=-_INF),
    _("grade_resistance", "R_g", "kN", "part of a weight that pulls down the slope", least=-_INF),
    _("rolling_ratio", r"\rho_r", "1", "rolling resistance as a share of the load on the implement's wheels", most=1),
    _("implement_weight", "G_i", "kN", "weight of the implement"),
    _("rolling_resistance", "R_w", "kN", "rolling resistance of the implement's wheels"),
    _("transfer_coefficient", "C_w", "1", "gain of rear axle load as a share of draft", most=2),
    _("load_gain", r"\Delta R", "kN", "load that the rear axle gains under pull", least=-_INF),
    # fuel
    _("load_ratio", "X", "1", "equivalent power at the power take-off as a share of its rating"),
    _("engine_speed_ratio", "N", "1", "engine speed as a share of full-throttle speed", most=1.2),
    _("specific_fuel", "q", "L/(kW*h)", "fuel for each unit of work at the power take-off"),
    _("throttle_multiplier", "PTM", "1", "factor on fuel for running at reduced engine speed"),
    _("fuel_rate", "Q", "L/h", "fuel for each hour"),
    _("fuel_per_area", "Q_A", "L/ha", "fuel for each unit of area"),
    _("fuel_efficiency", "e", "kW*h/L", "work for each unit of fuel"),
    _("fuel", "F", "L", "fuel used"),
    _("def_share", "f_{def}", "percent", "diesel exhaust fluid as a share of fuel, by volume", most=100),
    _("def_volume", "F_{def}", "L", "diesel exhaust fluid used"),
    # capacity
    _("field_efficiency", "E_f", "1", "share of the theoretical field capacity that is kept in the field", most=1),
    _("field_capacity", "C_e", "ha/h", "effective field capacity: area really covered for each hour"),
    _("theoretical_field_capacity", "C_t", "ha/h", "area for each hour at full width and speed without a stop"),
    _("area", "A_f", "ha", "area"),
    _("hours_per_day", "t_d", "h/day", "field hours in a working day", most=24),
    _("days", "n_d", "day", "working days"),
    _("calendar_days", "n_c", "day", "days on the calendar"),
    _("share_of_days", "p_d", "1", "share of days that are fit for the work", most=1),
    _("area_per_day", "A_d", "ha/day", "area for each working day"),
    _("time", "t", "h", "time"),
    _("working_time", "t_w", "h", "time at work"),
    _("total_time", "t_t", "h", "time in the field, with turns and stops"),
    _("mass_per_power", "m_p", "kg/kW", "mass of the tractor for each unit of power"),
    # ballast, liquid, inflation
    _("piece_mass", "m_b", "kg", "mass of the pieces of one kind"),
    _("piece_ahead", "x_p", "m", "distance of a piece ahead of the rear axle; behind it is below zero", least=-_INF),
    _("front_gain", r"\Delta m_f", "kg", "mass that the front axle gains", least=-_INF),
    _("rear_gain", r"\Delta m_r", "kg", "mass that the rear axle gains", least=-_INF),
    _("front_mass", "m_f", "kg", "mass on the front axle at rest on the level"),
    _("front_mass_raised", "m_{f,i}", "kg", "mass on the front axle with a tool raised on the hitch", least=-_INF),
    _("front_share", "f_f", "1", "share of the tractor's mass on the front axle", most=1),
    _("tool_mass", "m_i", "kg", "mass of a tool carried on the hitch"),
    _("tool_behind", "x_i", "m", "distance of a raised tool's center of gravity behind the rear axle", least=-_INF),
    _("lifting_pull", "P_l", "kN", "drawbar pull at which the front axle leaves the ground", least=-_INF),
    _("tyre_volume", "V_t", "L", "inner volume of one tyre"),
    _("fill", "f_l", "1", "share of the tyre's volume that holds liquid", most=1),
    _("filled_tyres", "n_l", "1", "number of tyres with liquid"),
    _("liquid_density", r"\rho_l", "kg/L", "density of the liquid"),
    _("water_density", r"\rho_w", "kg/L", "density of water"),
    _("liquid_mass", "m_l", "kg", "mass of the liquid in the tyres of an axle"),
    _("dose", "c", "kg/L", "calcium chloride for each unit of water"),
    _("density_gain", "g", "percent", "what a solution weighs over water, as a share of water"),
    _("tyre_load", "m_t", "kg", "mass that one tyre carries"),
    _("listed_load", "m_0", "kg", "mass that the tyre's own table allows at a pressure"),
    _("load_low", "m_1", "kg", "mass in the row of the table below"),
    _("load_high", "m_2", "kg", "mass in the row of the table above"),
    _("inflation", "p_i", "kPa", "inflation pressure"),
    _("listed_inflation", "p_0", "kPa", "inflation pressure that goes with the listed mass"),
    _("inflation_low", "p_1", "kPa", "inflation pressure in the row of the table below"),
    _("inflation_high", "p_2", "kPa", "inflation pressure in the row of the table above"),
    _("inflation_exponent", "n_p", "1", "exponent of load over pressure"),
    _("mounting_factor", "k_m", "1", "share of its load that a tyre may carry as a dual or triple", most=1),
    _("rated_deflection_ratio", r"\delta_0/h", "1", "deflection ratio at the load that the table allows", most=1),
    _("tyre_contact_area", "A_t", "m**2", "area in which one tyre or track touches the ground"),
    _("stress", r"\sigma", "kPa", "vertical stress in the soil under the middle of a wheel"),
    _("concentration_factor", r"\nu", "1", "how much the stress keeps under the wheel: 4 firm, 5 moist, 6 soft soil"),
    _("stress_depth", "z", "m", "depth down to which the stress is passed"),
    # slip test, gears
    _("slip_wrong_base", "s_g", "1", "wheel travel lost, over the ground covered: not slip, though printed as slip"),
    _("count_error", r"\epsilon", "1", "how far a count of turns may be off"),
    _("slip_error", r"\Delta s", "1", "how far a slip may be off, either way"),
    _("gear_speed", "v_g", "km/h", "speed of a gear at rated engine speed without slip"),
    _("torque_used", r"\tau", "1", "engine torque at work as a multiple of the torque at rated power"),
    _("torque_rise", "r", "1", "most torque over the torque at rated power, less one", most=1),
    _("torque_peak_ratio", "N_p", "1", "engine speed of the most torque as a share of rated speed", most=1),
    _("torque_available", r"\tau_a", "1", "full-load torque at an engine speed as a multiple of that at rated power"),
    _("torque_reserve", "R_t", "1", "share of the torque at this engine speed that is left", least=-_INF, most=1),
# torque curve
    _("torque_low", r"\tau_1", "1", "full-load torque at the lower engine speed, as a multiple of that at rated power"),
    _("torque_high", r"\tau_2", "1", "full-load torque at the higher engine speed (or at its peak), likewise"),
    _("engine_speed_low", "N_1", "1", "the lower engine speed, as a share of rated speed"),
    _("engine_speed_high", "N_2", "1", "the higher engine speed, as a share of rated speed"),
    # belts, and the load along a track
    _("belt_mobility", "B_t", "1", "mobility number of a belt: how firm the soil is for it under its load"),
    _("area_factor", "k_A", "1", "what a belt's contact area counts for beside a tyre's width times diameter"),
    _("belt_ceiling", "k_c", "1", "most thrust of a belt on endless firm ground, as a share of its load"),
    _("belt_decay", "k_d", "1", "how fast a belt's most thrust grows with its mobility number"),
    _("belt_rolling", "k_r", "1", "pressing the soil down: resistance times mobility number"),
    _("belt_drag", "k_s", "1", "sinking by slip: resistance for each slip times the root of the mobility number"),
    _("belt_resistance_ratio", "MRR_t", "1", "motion resistance of a belt on the soil as a share of its load"),
    _("resultant_ahead", "e", "m", "place of the resultant ahead of the middle of the contact length", least=-_INF),
    _("resultant_off", "|e|", "m", "distance of the resultant from the middle of the contact length, either way"),
    _("kern", "k_e", "m", "a sixth of the contact length: all of it bears while the resultant is no farther from the middle"),
    _("peak_pressure", "p_m", "kPa", "pressure at the heavier end of a track"),
    _("part_from", "x_1", "1", "where a part of the track begins, as a share of its length from the rear", most=1),
    _("part_to", "x_2", "1", "where a part of the track ends, as a share of its length from the rear", most=1),
    _("part_share", "f_x", "1", "share of a track's load that one part of its length carries", least=-_INF),
    # draft off its row
    _("draft_before", "D_0", "N", "draft as it stands before this step moves it"),
    _("cone_index_before", "CI_0", "kPa", "cone index as it stands before the field's readings move it"),
    _("deep_draft", "D_s", "N", "draft of the same job by the subsoiler row of the table"),
    _("deep_share", "w", "1", "how far draft lies on the way from the chisel row to the subsoiler row", most=1),
    _("covered", "s_w", "1", "share of the tool's width that the tractor's wheels or belts have run over", most=1),
    _("usual_covered", "s_0", "1", "the average of that share which is likely in the table's rows already", most=1),
    _("field_factor", "f_r", "1", "of the field over the table, as its readings tell", least=0),
    _("behind_wheels", "m_w", "1", "draft of a tine behind a wheel over that of a tine beside it"),
    _("correlation", r"\rho", "1", "correlation of draft and cone index", least=-1, most=1),
    _("draft_range", "u_D", "1", "range of the table's row, either way"),
    _("cone_range", "u_C", "1", "range of the cone index of a named surface, either way"),
    _("cone_deviation", r"\Delta_C", "1", "measured cone index over that of the named surface, less one", least=-1),
    # holding and tipping
    _("push", "P_p", "kN", "force with which slope and tool push the tractor on, along the ground", least=-_INF),
    _("held", "R_m", "kN", "motion resistance of the running gear, along the ground"),
    _("braking", "F_b", "kN", "force that engine and brakes must hold back", least=-_INF),
    _("tipping_share", r"\lambda_t", "1", "moment that lifts the front over the moment that holds it down", least=-_INF),
    # fuel by a test report, and over a field
    _("test_slope", "b_q", "L/(kW*h)", "fuel for each further unit of work, from the tractor's own test report"),
    _("test_idle", "a_q", "L/h", "fuel at no load, from the tractor's own test report, as its line has it", least=-_INF),
    _("turning_rate", "Q_t", "L/h", "fuel for each hour of turning and idling"),
    _("mean_fuel_rate", "Q_m", "L/h", "fuel for each hour in the field, turns and stops counted in"),
    # water in the soil
    _("sand_share", "S", "1", "share of sand in the mineral soil, by mass, as a decimal", most=1),
    _("clay_share", "C", "1", "share of clay in the mineral soil, by mass, as a decimal", most=1),
    _("organic_matter", "OM", "percent", "organic matter in the soil, by mass", most=100),
    _("wilting_point", r"\theta_{1500}", "1", "water at a suction of 1500 kPa, as a share of the volume", most=1),
    _("drained_water", r"\theta_{33}", "1", "water at field capacity, a suction of 33 kPa, as a share of the volume", most=1),
    _("saturation", r"\theta_s", "1", "water that fills every pore, as a share of the volume", most=1),
    _("residual_water", r"\theta_r", "1", "water that no suction takes out, as a share of the volume", most=1),
    _("soil_water", r"\theta", "1", "water in the soil, as a share of the volume", most=1),
    _("optimum_water", r"\theta_o", "1", "water at which a soil tills best, as a share of the volume", most=1),
    _("upper_water", r"\theta_u", "1", "wettest that a soil tills, as a share of the volume", most=1),
    _("available_share", "a_w", "1", "share of the water that plants can take", most=2),
    _("bulk_density", r"\rho_b", "g/cm**3", "dry mass of a volume of soil, pores counted in"),
    _("particle_density", r"\rho_p", "g/cm**3", "mass of a volume of the grains alone"),
    _("water_by_mass", "w", "1", "water over dry soil, by mass"),
    _("upper_limit", "w_u", "percent", "wettest that a soil tills, water over dry soil by mass"),
    _("plastic_limit", "w_P", "percent", "water at which a thread of soil 3 mm thick just crumbles, by mass"),
    _("optimum_water_mass", "w_o", "percent", "water at which a soil tills best, by mass"),
    _("optimum_share", "k_o", "1", "best water for tillage as a share of the plastic limit"),
    _("wet_share", "k_u", "1", "how far from the best water to full pores a soil still tills", most=1),
    _("suction", "h", "cm", "suction with which the soil holds its water, as a height of water"),
    _("retention_alpha", r"\alpha", "1/cm", "scale of the retention curve"),
    _("retention_exponent", "n", "1", "exponent of the retention curve", least=1),
    _("steepness", "S_i", "1", "slope of the retention curve at its steepest point, over the natural logarithm of suction"),
    _("penetration", "PR", "MPa", "resistance of the soil to a cone"),
    _("penetration_read", "PR_r", "MPa", "resistance to a cone as read, at the water that the soil had"),
    _("penetration_scale", "k_0", "MPa", "resistance at a water content and a density ratio of one"),
    _("density_ratio", r"\rho_b/\rho_w", "1", "bulk density over the density of water"),
    _("water_power", "k_1", "1", "how steeply resistance falls with water"),
    _("density_power", "k_2", "1", "how steeply resistance rises with density"),
    # loosening
    _("loosened_depth", "d", "m", "depth down to which soil is loosened"),
    _("draft_per_section", "d_l", "Pa", "draft for each unit of the section that is loosened"),
    _("loosened_section", "A_l", "m**2", "section of soil that one shank loosens"),
    _("tool_width", "w_t", "m", "width of the point at its bottom"),
    _("side_angle", r"\theta", "deg", "angle of the side of the loosened section, from the level", most=89),
    _("shank_spacing", "s_t", "m", "distance from shank to shank across the travel"),
    _("ridge", "h_r", "m", "height of the ridge left between two shanks"),
    # the wedge before a tine
    _("rake", r"\alpha", "deg", "angle of the tine's face from the level, ahead of it", most=179),
    _("metal_friction", r"\delta", "deg", "angle of friction of soil on metal", most=89),
    _("failure_angle", r"\beta", "deg", "angle at which the soil breaks ahead of the tine, from the level", most=179),
    _("weight_factor", r"N_\gamma", "1", "force from weight, over unit weight, depth squared and width", least=-_INF),
    _("cohesion_factor", "N_c", "1", "force from cohesion, over cohesion, depth and width", least=-_INF),
    _("adhesion_factor", "N_{ca}", "1", "force from adhesion, over adhesion, depth and width", least=-_INF),
    _("inertia_factor", "N_a", "1", "force from inertia, over density, speed squared, depth and width", least=-_INF),
    _("crescent_ratio", "s/d", "1", "reach of the broken soil to each side, as a multiple of the depth"),
    _("side_gain", "g_s", "1", "force with the crescents at the sides over that without"),
    _("unit_weight", r"\gamma", "kN/m**3", "weight of a volume of soil"),
    _("adhesion", "c_a", "kPa", "how hard soil sticks to metal"),
    _("tine_force", "P_t", "kN", "force of the soil on one tine", least=-_INF),
    _("tine_depth", "d_t", "m", "depth of a tine's point, below which nothing more is loosened where that is deeper"),
    _("deep_weight_factor", "N_q'", "1", "resistance to soil squeezed aside, over the pressure of the soil beside it"),
    _("deep_cohesion_factor", "N_c'", "1", "resistance to soil squeezed aside, over its cohesion"),
    _("lateral_force", "Q", "kN", "what a point feels of soil that it squeezes aside below its critical depth"),
    _("passive_ratio", "K_p", "1", "passive earth pressure over the pressure of the soil's own weight"),
    # residue, and what presses on the soil
    _("cover_before", "k_0", "1", "share of the ground that residue covers before a pass", most=1),
    _("cover", "k_1", "1", "share of the ground that residue covers after a pass", most=1),
    _("residue_left", "k_l", "1", "share of the cover that a pass leaves", most=1),
    _("precompression", r"\sigma_{pc}", "kPa", "stress that ground bears before it is pressed together for good", least=-_INF),
    _("strength_root", r"\sqrt{\sigma_{pc}}", "1", "root of the precompression stress as a number in kPa", least=-_INF),
    _("suction_log", r"\text{pF}", "1", "common logarithm of the suction in hPa", most=7),
    _("tension", r"\psi", "kPa", "suction with which the soil holds its water"),
    _("tension_wet", r"\psi_{33}", "kPa", "suction at field capacity"),
    _("tension_dry", r"\psi_{1500}", "kPa", "suction at the wilting point"),
    _("strength_base", "b_0", "kPa", "constant of a regression of precompression stress", least=-_INF),
    _("strength_per_density", "b_1", "kPa*cm**3/g", "how it rises with bulk density", least=-_INF),
    _("strength_per_clay", "b_2", "kPa", "how it rises with the share of clay", least=-_INF),
    _("strength_per_water", "b_3", "kPa", "how it rises with water over dry soil", least=-_INF),
    _("stress_aside", "r", "m", "how far aside of a load"),
    _("mean_stress", "p", "kPa", "mean of the three stresses in the soil"),
    _("volume_base", "N", "1", "volume of ground over that of its grains, pressed for the first time with 1 kPa", least=1),
    _("compression_index", r"\lambda", "1", "how much that falls where ln of the stress rises by one", most=1),
    _("swelling_index", r"\kappa", "1", "how much of it comes back where ln of the stress falls by one", most=1),
    *(_(*row) for row in (*_SEASON, *_WEATHER)),
])  # fmt: skip
