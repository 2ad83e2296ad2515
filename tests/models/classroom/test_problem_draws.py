"""Problems drawn: every answer confirmed on another path, worked by hand; round, physical, distinct, repeatable."""

from __future__ import annotations

import math
import os
import subprocess
import sys
from typing import Any

import pytest

from rigcalc.core.errors import DeclarationError, InputError
from rigcalc.core.tables import table
from rigcalc.core.units import factor
from rigcalc.models.classroom import Outcome, draw, kinds, mark
from rigcalc.models.classroom.chain import worked
from rigcalc.models.classroom.kinds import SYSTEMS, read_kind
from rigcalc.models.classroom.problem import MOST_SEED, Problem, at_place, places

LONG = bool(os.environ.get("RIGCALC_LONG"))
SEEDS = range(500)
SOME = SEEDS if LONG else SEEDS[::10]
KINDS = [(name, system) for name in kinds() for system in SYSTEMS]

# Exact by definition: the international foot and pound, standard gravity; an acre of 43,560 square feet, a mile of 5,280 feet.
FT, IN, LBF, MPH = 0.3048, 0.0254, 4.4482216152605, 1609.344 / 3600


def other_path(problem: Problem) -> float:
    """Work a problem anew in plain arithmetic: American ones by the formulas of American textbooks, metric ones in SI base."""
    n = {name: amount.number for name, amount in problem.given.items()}
    return float(OTHER[problem.kind.name](n, problem.system == "us"))


def draft_of_tool(n: dict[str, Any], us: bool) -> float:
    one = n["draft_a"] + n["draft_b"] * n["speed"]  # lbf/in or N/cm of one shank
    return n["soil_factor"] * one * n["tools"] * n["depth"] / (1 if us else 1000)


def load_under_pull(n: dict[str, Any], us: bool) -> float:
    # moments about the front contact: the rear axle holds the weight's share and the pull's moment
    return (n["weight"] * (n["wheelbase"] - n["center_ahead"]) + n["pull"] * n["drawbar_height"]) / n["wheelbase"]


def stress_at_depth(n: dict[str, Any], us: bool) -> float:
    area = n["wheel_load"] / n["inflation"]  # in² or m²
    radius = math.sqrt(area / math.pi)
    depth = n["stress_depth"] / (1 if us else 100)
    slant = math.atan2(radius, depth)  # half the angle under which the contact is seen from there
    return n["inflation"] * (1 - math.cos(slant) ** n["concentration_factor"])


def turning(n: dict[str, Any], us: bool) -> float:
    circumference = 2 * math.pi * n["rolling_radius"] * (IN if us else 0.01)
    return circumference * n["engine_speed"] / n["total_ratio"] / 60 / (MPH if us else 1 / 3.6)


def covered(n: dict[str, Any], us: bool) -> float:
    return n["width"] * n["speed"] * n["field_efficiency"] / 100 / (8.25 if us else 10)


def slip_from_distance(n: dict[str, Any], us: bool) -> float:
    without = n["turns"] * 2 * math.pi * n["rolling_radius"] * (1 / 12 if us else 0.01)  # ft or m
    return 100 * (without - n["distance"]) / without


def over_the_section(n: dict[str, Any], us: bool) -> float:
    return n["draft"] / (n["width"] * (12 if us else 1) * n["depth"] / (1 if us else 100))


def draft_of_plow(n: dict[str, Any], us: bool) -> float:
    one = n["width_a"] + n["width_c"] * n["speed"] ** 2  # of a foot or meter of width and an inch or cm of depth
    return n["soil_factor"] * one * n["width"] * n["depth"] / (1 if us else 1000)


def power_of_tool(n: dict[str, Any], us: bool) -> float:
    draft = n["specific_draft"] * n["width"] * (12 if us else 1) * n["depth"] / (1 if us else 100)  # lbf or kN
    return draft * n["speed"] / (375 if us else 3.6) * 100 / n["loading"]


def power_at_axles(n: dict[str, Any], us: bool) -> float:
    useful = n["axle_force"] * n["travel_speed"] / (375 if us else 3.6)  # what would be left without the loss by slip
    return useful + useful * n["slip"] / (100 - n["slip"])


def efficiency_of_tyre(n: dict[str, Any], us: bool) -> float:
    # American lengths in inches and forces in lbf, metric in m and kN: the mobility number has no unit in either
    wide = n["section_width"] / (1 if us else 100)
    aspect = wide / n["diameter"]
    number = n["cone_index"] * wide * n["diameter"] / n["wheel_load"] * (1 + n["deflection_ratio"] / 20) / (1 + 3 * aspect)
    slip = n["slip"] / 100
    thrust = 0.0325 + 0.88 * -math.expm1(-number / 10) * -math.expm1(-9.5 * slip)
    rolling = 0.9 / number + 0.0325 + slip / 2 / math.sqrt(number)
    return (100 - n["slip"]) * (1 - rolling / thrust)


def front_uphill(n: dict[str, Any], us: bool) -> float:
    """By the angle of the line from the contact to the center: its lever to the vertical, when the ground is tilted."""
    reach = math.hypot(n["center_ahead"], n["center_height"])
    angle = math.atan2(n["center_height"], n["center_ahead"]) + math.radians(n["grade"])
    return (n["weight"] * reach * math.cos(angle) - n["pull"] * n["drawbar_height"]) / n["wheelbase"]


def fuel_of_acre(n: dict[str, Any], us: bool) -> float:
    hours = (8.25 if us else 10) / (n["width"] * n["speed"] * n["field_efficiency"] / 100)  # for one acre or hectare
    return n["power"] * hours / n["fuel_efficiency"]


def depth_of_stress(n: dict[str, Any], us: bool) -> float:
    radius = math.sqrt(n["wheel_load"] / n["inflation"] / math.pi)  # in or m
    half = math.acos((1 - n["stress"] / n["inflation"]) ** (1 / n["concentration_factor"]))
    return radius / math.tan(half) * (1 if us else 100)


OTHER = {
    "strength_from_draft": over_the_section,
    "draft_of_plow": draft_of_plow,
    "pull_uphill": lambda n, us: (
        n["draft"] + n["weight"] * (n["rolling_ratio"] + math.cos(math.pi / 2 - math.pi * n["grade"] / 180))
    ),
    "fuel_of_hour": lambda n, us: n["power"] / n["fuel_efficiency"],
    "power_at_axles": power_at_axles,
    "power_of_tool": power_of_tool,
    "slip_from_speeds": lambda n, us: 100 * (n["no_slip_speed"] - n["travel_speed"]) / n["no_slip_speed"],
    "efficiency_of_tyre": efficiency_of_tyre,
    "center_of_gravity": lambda n, us: n["wheelbase"] - n["wheelbase"] * (n["weight"] - n["axle_weight"]) / n["weight"],
    "lifting_pull": lambda n, us: n["weight"] / (n["drawbar_height"] / n["center_ahead"]),
    "liquid_in_tyres": lambda n, us: 2 * n["tyre_volume"] * n["fill"] / 100 * n["liquid_density"],
    "front_uphill": front_uphill,
    "efficiency_from_time": lambda n, us: 100 - 100 * (n["total_time"] - n["working_time"]) / n["total_time"],
    "fuel_of_acre": fuel_of_acre,
    "patch_of_tyre": lambda n, us: n["axle_load"] / (2 * n["inflation"]) * (1 if us else 10_000),
    "depth_of_stress": depth_of_stress,
    "residue_after": lambda n, us: n["start"] * n["first_left"] * n["second_left"] / 10_000,
    "draft_of_tool": draft_of_tool,
    "draft_from_specific": lambda n, us: n["specific_draft"] * n["width"] * (12 if us else 1) * n["depth"] / (1 if us else 100),
    "drawbar_power": lambda n, us: n["draft"] * n["speed"] / (375 if us else 3.6),
    "pull_from_pto": lambda n, us: n["pto_power"] * n["drawbar_ratio"] * (375 if us else 3.6) / n["speed"],
    "speed_in_gear": turning,
    "slip_from_turns": lambda n, us: 100 * (1 - n["turns_unloaded"] / n["turns_loaded"]),
    "slip_from_distance": slip_from_distance,
    "tractive_efficiency": lambda n, us: (
        (100 - n["slip"]) * (1 - n["motion_resistance_ratio"] / n["gross_traction_ratio"])
    ),
    "load_under_pull": load_under_pull,
    "weights_in_front": lambda n, us: n["piece_mass"] + n["piece_mass"] * (n["piece_ahead"] - n["wheelbase"]) / n["wheelbase"],
    "field_capacity": covered,
    "days_needed": lambda n, us: n["area"] / covered(n, us) / n["hours_per_day"],
    "stress_at_depth": stress_at_depth,
}  # fmt: skip


def test_there_are_thirty_kinds_over_three_levels_and_each_has_another_path() -> None:
    assert len(kinds()) == 30
    assert set(OTHER) == set(kinds())
    assert list(kinds()) == sorted(kinds(), key=lambda name: (kinds()[name].level, name)), "the easy ones first"
    lessons: dict[str, list[int]] = {}
    for kind in kinds().values():
        lessons.setdefault(kind.lesson, []).append(kind.level)
        assert len(kind.hints) >= 2
        assert len(kind.slips) >= 2
    assert set(lessons) == {"draft", "power", "slip", "weight", "capacity", "soil"}
    assert all({1, 2} <= set(levels) <= {1, 2, 3} for levels in lessons.values())
    assert sum(levels.count(3) for levels in lessons.values()) >= 5


@pytest.mark.parametrize(("kind", "system"), KINDS)
def test_five_hundred_seeds_are_five_hundred_problems(kind: str, system: Any) -> None:
    there_are = places(kind, system)
    assert len(there_are) >= len(SEEDS)
    assert len({draw(kind, "somebody", seed, system).place for seed in SOME}) == len(SOME)


@pytest.mark.parametrize(("kind", "system"), KINDS)
def test_every_seed_is_solved_physical_and_its_own(kind: str, system: Any) -> None:
    seen = set()
    about = kinds()[kind]
    for seed in SOME:
        problem = draw(kind, "somebody", seed, system)
        # rigcalc's acre is that of surveys, 4 millionths more than 43,560 square feet
        assert problem.answer == pytest.approx(
            other_path(problem), rel=5e-6 if kind in ("field_capacity", "days_needed", "fuel_of_acre") else 1e-9
        )
        assert math.isfinite(problem.answer)
        assert problem.answer > 0
        values = worked(about, problem.given)
        for name, (low, high) in about.within.items():
            assert low.number <= values[name].in_(low.unit) <= high.in_(low.unit)
        seen.add(tuple(amount.number for amount in problem.given.values()))
        for name, span in about.given[system].items():
            assert problem.given[name].number in span.values
            assert problem.given[name].unit == span.unit
        assert {*problem.given, *problem.texts} == {
            *about.given[system], *(name for pick in about.picks[system] for name in pick[0])
        }  # fmt: skip
    assert len(seen) == len(SOME)


@pytest.mark.parametrize(("kind", "system"), KINDS)
def test_given_numbers_are_round(kind: str, system: Any) -> None:
    for span in kinds()[kind].given[system].values():
        for value in span.values:
            assert len(f"{value:g}".replace(".", "").strip("0")) <= 3
            assert float(f"{value:.4g}") == value


@pytest.mark.parametrize(("kind", "system"), KINDS)
def test_slips_are_told_from_right_answers(kind: str, system: Any) -> None:
    """What comes out with a slip is told as that slip, never as right; the right answer never is a slip."""
    told = dict.fromkeys((slip.key for slip in kinds()[kind].slips if slip.only in ("", system)), 0)
    for seed in SEEDS if LONG else SEEDS[::25]:
        problem = draw(kind, "somebody", seed, system)
        right = mark(problem, f"{problem.answer:.5g} {problem.unit}")
        assert right.outcome is Outcome.RIGHT, (seed, right)
        assert mark(problem, f"{problem.answer:.3g} {problem.unit}").outcome is Outcome.RIGHT
        for key, value in problem.slips.items():
            made = mark(problem, f"{value:.5f} {problem.unit}")
            assert not made.right
            if made.outcome is Outcome.SLIP:
                assert key in made.slips
                told[key] += 1
    assert all(told.values()), f"never told: {[key for key, count in told.items() if not count]}"


@pytest.mark.parametrize("system", SYSTEMS)
def test_where_rounding_on_the_way_costs_the_answer_the_end_alone_is_right(system: Any) -> None:
    """A way without slip that is rounded to three figures: the small rest that slip is made of falls out of tolerance."""
    kept = []
    for seed in SOME:
        problem = draw("slip_from_distance", "somebody", seed, system)
        n = {name: amount.number for name, amount in problem.given.items()}
        without = float(f"{n['turns'] * 2 * math.pi * n['rolling_radius'] * (1 / 12 if system == 'us' else 0.01):.3g}")
        kept.append(mark(problem, f"{100 * (without - n['distance']) / without:.4g} %").right)
        assert mark(problem, f"{other_path(problem):.3g} %").right
    assert not all(kept)


def test_another_student_and_another_seed_get_other_problems() -> None:
    one = draw("drawbar_power", "A", 1)
    assert one == draw("drawbar_power", "A", 1)
    assert len({draw("drawbar_power", student, 1).place for student in "ABCDEFGH"}) == 8
    assert draw("drawbar_power", "A", 1, taken={one.place}).place != one.place
    everything = set(places("slip_from_turns", "us").tolist())
    assert draw("slip_from_turns", "A", 1, taken=everything).place in everything  # more students than problems


def test_bounds_belong_to_what_is_physical() -> None:
    answers = [at_place("efficiency_from_time", "us", int(place)).answer for place in places("efficiency_from_time", "us")]
    assert (min(answers), max(answers)) == (pytest.approx(60), pytest.approx(95))  # 6 of 10 h and 9.5 of 10 h


def test_draws_are_the_same_in_another_process() -> None:
    code = "from rigcalc.models.classroom import draw; print(draw('days_needed', 'Ünal', 7, 'si').place)"
    out = subprocess.run(
        [sys.executable, "-c", code], check=True, capture_output=True, text=True, env={**os.environ, "PYTHONHASHSEED": "7"}
    )
    assert int(out.stdout) == draw("days_needed", "Ünal", 7, "si").place


def test_numbers_of_the_tables_are_those_of_the_tables() -> None:
    """What a kind's file repeats of a published table stands there so."""
    tools = {row["a_us"]: row for row in table("d497_draft") if str(row["tool"]).startswith("chisel_")}
    for system in SYSTEMS:
        for option in kinds()["draft_of_tool"].picks[system][0]:
            a, b = option["draft_a"].number, option["draft_b"].number
            assert (a, b) in {(row[f"a_{system}"], row[f"b_{system}"]) for row in tools.values()}
    for soil in kinds()["draft_of_tool"].picks["us"][1]:
        assert soil["soil_factor"].number == next(iter(tools.values()))[f"f_{soil['soil']}"]
    names = {"two-wheel drive": "2WD", "front-wheel assist": "MFWD", "four-wheel drive": "4WD", "tracks": "track"}
    ratios = table("power_ratios")
    for option in kinds()["pull_from_pto"].picks["si"][0]:
        row = ratios["drawbar_from_pto", names[option["drive"]], option["surface"]]
        assert row["value"] == option["drawbar_ratio"].number


def test_densities_and_shares_of_residue_are_those_of_the_tables() -> None:
    for system, unit, rel in (("us", "lb/gal", 1e-12), ("si", "kg/L", 4e-3)):  # metric ones rounded to a hundredth
        for option in kinds()["liquid_in_tyres"].picks[system][0]:  # type: ignore[index]
            row = {"water": "water", "beet juice": "beet_juice"}.get(str(option["liquid"]), "calcium_chloride_strong")
            printed = table("liquid_ballast")[row]["density"] * factor("lb/gal", unit)
            assert option["liquid_density"].in_(unit) == pytest.approx(printed, rel=rel)  # type: ignore[union-attr]
    plow = table("d497_draft")["moldboard_plow"]
    for system in SYSTEMS:
        (option,) = kinds()["draft_of_plow"].picks[system][0]
        assert (option["width_a"].number, option["width_c"].number) == (plow[f"a_{system}"], plow[f"c_{system}"])  # type: ignore[union-attr]
        assert plow[f"b_{system}"] == 0
        for soil in kinds()["draft_of_plow"].picks[system][1]:
            assert soil["soil_factor"].number == plow[f"f_{soil['soil']}"]  # type: ignore[union-attr]
    left = [
        row for row in table("residue") if str(row["operation"]).startswith("chisel_plow") and row["residue"] == "non_fragile"
    ]
    first = kinds()["residue_after"].given["us"]["first_left"].values
    assert min(first) <= min(row["low"] for row in left)
    assert max(first) <= max(row["high"] for row in left)


def test_what_there_isnt_is_refused_all_at_once() -> None:
    with pytest.raises(InputError) as caught:
        draw("plowing", "A", -1, "cgs")  # type: ignore[arg-type]
    assert [fault.where for fault in caught.value.faults] == ["kind", "seed", "system"]
    for seed in (MOST_SEED + 1, True, 1.5, "1"):
        with pytest.raises(InputError):
            draw("drawbar_power", "A", seed)  # type: ignore[arg-type]


GOOD = """
title = "T"
lesson = "power"
level = 1
text = "{draft} at {speed}"
hints = ["h"]
source = "s"
asked = { name = "drawbar_power", us = "hp", si = "kW" }
[given.draft]
us = "1000 to 2000 step 100 lbf"
si = "10 to 20 step 1 kN"
[given.speed]
us = "4 to 6 step 1 mph"
si = "6 to 9 step 1 km/h"
[[step]]
equation = "drawbar_power"
"""


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (("level = 1", "levels = 1"), "levels"),
        (("title = \"T\"", ""), "title"),
        (("step 100 lbf", "100 lbf"), "no span"),
        (("drawbar_power\"\n", "drawbar_powers\"\n"), "no equation named drawbar_powers"),
        (("level = 1", "level = "), "Invalid"),
        (("step 1 kN", "step 1 kNewton"), "kNewton"),
    ],
)  # fmt: skip
def test_a_file_that_doesnt_hold_together_says_why(change: tuple[str, str], says: str) -> None:
    assert read_kind("good", GOOD).title == "T"
    assert change[0] in GOOD
    with pytest.raises(DeclarationError, match=says):
        read_kind("bad", GOOD.replace(*change))
