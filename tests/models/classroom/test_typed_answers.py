"""Answers as students type them: what each is taken for. Right numbers are by hand; a conversion stands beside them."""

from __future__ import annotations

import builtins
import os
import subprocess
import tracemalloc
from typing import Any

import pytest

from rigcalc.core.units import factor
from rigcalc.models.classroom import Outcome, Problem, kinds, mark
from rigcalc.models.classroom.answers import _MULTIPLES, _NAMES, MOST_LETTERS, Unread, read_answer, read_unit
from rigcalc.models.classroom.kinds import Amount


def problem(kind: str, answer: float, unit: str, system: Any = "si", **given: tuple[float, str]) -> Problem:
    return Problem(kinds()[kind], system, 0, {name: Amount(*amount) for name, amount in given.items()}, {}, answer, unit)


PROBLEMS = {
    # 50 kN at 9 km/h = 50 * 2.5 = 125 kW = 125 / 0.7457 = 167.6 hp = 170.0 metric horsepower
    "power": problem("drawbar_power", 125.0, "kW", draft=(50.0, "kN"), speed=(9.0, "km/h")),
    # 10,000 lbf at 4.5 mph / 375 = 120 hp = 89.48 kW = 121.7 metric horsepower
    "power us": problem("drawbar_power", 120.0, "hp", "us", draft=(10000.0, "lbf"), speed=(4.5, "mph")),
    # 60 kPa on 5 m x 0.2 m = 60 kN = 13,489 lbf
    "force": problem("draft_from_specific", 60.0, "kN", specific_draft=(60.0, "kPa"), width=(5.0, "m"), depth=(20.0, "cm")),
    # 40 turns for 32: 8 / 40 = 20 %; over 32 it would be 25 %
    "share": problem("slip_from_turns", 20.0, "percent", turns_unloaded=(32.0, ""), turns_loaded=(40.0, "")),
    # 500 kg * 3.9 / 3 = 650 kg = 1,433 lb
    "mass": problem("weights_in_front", 650.0, "kg", piece_mass=(500.0, "kg"), piece_ahead=(3.9, "m"), wheelbase=(3.0, "m")),
    # 6 m * 8 km/h * 0.8 / 10 = 3.84 ha/h = 9.489 acre/h
    "area": problem("field_capacity", 3.84, "ha/h", width=(6.0, "m"), speed=(8.0, "km/h"), field_efficiency=(80.0, "percent")),
    # 200 ha / (3.84 ha/h * 10 h) = 5.208 days
    "days": problem(
        "days_needed", 5.2083333, "day", area=(200.0, "ha"), width=(6.0, "m"), speed=(8.0, "km/h"),
        field_efficiency=(80.0, "percent"), hours_per_day=(10.0, "h/day"),
    ),
    # 2 * pi * 0.8 m * 2000 / 100 turns a minute = 100.5 m/min = 6.032 km/h = 3.748 mph = 1.676 m/s
    "speed": problem("speed_in_gear", 6.0318579, "km/h", engine_speed=(2000.0, "rpm"), total_ratio=(100.0, ""),
                     rolling_radius=(80.0, "cm")),
}  # fmt: skip

# 75 % of 100 kW at 9 km/h = 75 / 2.5 = 30 kN; all of it 40, divided 53.3, what is lost 10, by km/h as if m/s 8.33
PROBLEMS["pull"] = problem("pull_from_pto", 30.0, "kN", pto_power=(100.0, "kW"), drawbar_ratio=(0.75, ""), speed=(9.0, "km/h"))
# (0.5 - 0.1) / 0.5 * (1 - 0.1) = 72 %; without slip 80, without rolling 90, by slip itself 8, pull over load 40
PROBLEMS["efficiency"] = problem(
    "tractive_efficiency", 72.0, "percent", gross_traction_ratio=(0.5, ""), motion_resistance_ratio=(0.1, ""),
    slip=(10.0, "percent"),
)  # fmt: skip
# 128 hp / 16 hp h/gal = 8 gal/h = 30.28 L/h
PROBLEMS["fuel"] = problem("fuel_of_hour", 8.0, "gal/h", "us", power=(128.0, "hp"), fuel_efficiency=(16.0, "hp*h/gal"))
# 20,000 lbf on two tyres of 20 psi: 500 in² each = 3,226 cm² = 3.472 ft²
PROBLEMS["patch"] = problem("patch_of_tyre", 500.0, "in**2", "us", axle_load=(20000.0, "lbf"), inflation=(20.0, "psi"))
# 30 kN of draft, 0.05 of 50 kN = 2.5 kN to roll, sin(6°) of 50 kN = 5.226 kN: 37.73 kN; down the slope 27.27; sin(6) -0.2794
PROBLEMS["uphill"] = problem(
    "pull_uphill", 37.7264, "kN", weight=(50.0, "kN"), draft=(30.0, "kN"), rolling_ratio=(0.05, ""), grade=(6.0, "deg")
)
# the front carries 40 of 100 kN: 0.4 of 3 m = 1.2 m ahead of the rear axle, 1.8 m behind the front one, 40/60 of 3 m = 2 m
PROBLEMS["center"] = problem(
    "center_of_gravity", 1.2, "m", weight=(100.0, "kN"), axle_weight=(40.0, "kN"), wheelbase=(3.0, "m")
)
# 14,400 lbf on 120 in x 10 in: 12 psi = 1728 lbf/ft² = 82.74 kPa
PROBLEMS["pressure"] = problem(
    "strength_from_draft", 12.0, "psi", "us", draft=(14400.0, "lbf"), width=(10.0, "ft"), depth=(10.0, "in")
)
RIGHT = {
    "fuel": "8 gal/h|8.0 gal/hr|8 gallons per hour|8.00 gph|30.3 L/h|30.28 liters per hour|30.3 l/h",
    "patch": """500 in^2|500 in²|500 sq in|500 square inches|3226 cm^2|3,226 cm²|0.3226 m^2|3.47 ft^2|3.47 sq ft|
        500 in2|500 sq. in.|500 sq.in.|500 sqin|500 inches squared|500 in. squared|500 in^(2)|3226 cm2|3226 square cm|3226 CM^2|
        0.3226 m2|3.47 ft2""",
    "uphill": "37.7 kN|8481 lbf|37700 N",
    "center": '1.2 m|120 cm|47.2 in|3.94 ft|1200 mm|47.2 in.|47.2 Inches|47.2"|47.2″|47.2 ins',
    "pull": "30 kN|30.0 kN|6744 lbf",
    "efficiency": "72 %|0.72|18/25",
    "power": """125 kW|125kW|125.0 kW|124.9 kW|126 kW|124 kW|125000 W|125,000 W|125 000 W|1.25e5 W|1.25E5 W|1.25 x 10^5 W|
        1.25·10⁵ W|1.25*10**5 W|0.125 MW|167.6 hp|167.6 HP|167.6 horsepower|168 hp|170 PS|170.0 metric horsepower|
        = 125 kW|P = 125 kW|power: 125 kW|about 125 kW|~125 kW|≈125 kW|approx. 125 kW|125 kilowatts|125 KW|125 kw|125 kW.|
        125 kN*m/s|125 kN·m/s|+125 kW|250/2 kW|124 1/2 kW|125 1/4 kW|125 kN m/s|125 kN.m/s|125 kNm/s|125 kJ/s|125000 J/s|
        P1 = 125 kW|P(db) = 125 kW|the power is 125 kW|Answer: 125 kW|answer 125 kW|P -> 125 kW|125 kW approx.|125 kW;|125 kW!|
        125 kW (3 s.f.)|125 kW to 3 sig figs|125 [kW]|125 (kW)|125(kW)|(125 kW)|'125 kW'|125" "kW|("125 kW")|"125 kW";|“125 kW”|
        125, kW|125 kilo-watts|
        125 kilo watts|1.25 E5 W|125 000 Nm/s""",
    "power us": """120 hp|120. hp|119.5 hp|89.5 kW|89,484 W|121.7 PS|66000 ft*lbf/s|3.96e6 ft*lbf/min|120 h.p.|66000 ft-lb/s|
        66,000 foot-pounds per second|120 H.P.""",
    "force": """60 kN|60.0 kN|60 kn|60,000 N|6e4 N|0.06 MN|6000 daN|13490 lbf|13,490 lbf|13.49 kip|13.49 kips|
        13490 pounds force|13490 pounds-force|13490 pounds of force|6118 kgf|60 kilonewtons|60000 newtons|draft = 60 kN|
        60 kPa*m**2|60 kPa*m^2|60 kPa*m²|60 kPa m2|13490 lbs force|13490 lbs of force|13490 lb-force|13490 lbs-f|60 kNewtons""",
    "pressure": """12 psi|12 PSI|12 p.s.i.|12 lbf/in2|12 lbf/in²|12 lb/in^2|12 lb/in2|12 lbs per square inch|12 lb/sq. in.|
        12 pounds per square inch|1728 lbf/ft2|1728 lb/sq ft|82.7 kN/m2|82.7 kN per square meter|0.0827 N/mm2|82737 N/m2""",
    "share": "20 %|20%|20.0 %|20 percent|20 per cent|20 pct|0.20|0.2|.2|1/5|20.1 %|slip = 20 %|s = 0.200",
    "mass": """650 kg|650.0 kg|0.65 t|0.65 tonnes|1433 lb|1,433 lbs|1433 pounds|650 kilograms|650000 g|0.7165 ton|0.65 Mg|
        1433 lbm|1433 lbs mass|650 kilos|650 KG""",
    "area": """3.84 ha/h|3.84 ha/hr|3.84 hectares per hour|3.84 ha per hour|9.49 acre/h|9.49 ac/h|9.49 acres/hour|
        9.49 acres per hour|9.49 ac/hr|38400 m^2/h|38,400 m²/h|38400 m**2/h|640 m^2/min|92.2 ha/day|
        9.49 acres an hour|9.49 acres each hour|3.84 HA/H|38400 m2/h|3.84 hectares in an hour""",
    "days": "5.21 workdays|5.21 work days|5.21 days|5.21 day|5.21 working days|5.2083 d|5 1/5 days|5.21 Days",
    "speed": """6.03 km/h|6.03 kph|6.03 km/hr|6.03 kmh|3.75 mph|3.75 mi/h|3.75 miles per hour|3.75 MPH|1.676 m/s|5.50 ft/s|
        5.50 fps|100.5 m/min|330 ft/min|v = 6.03 km/h|6.03 KPH|6.03 Km/H|3.75 m.p.h.|3.75 miles an hour|
        6.03 k.p.h.""",
}
# the same in American units: 7 psi on 120 in by 10 in are 8,400 lbf, on 10 in by 10 in 700
# 1,000 lb hung 130 in ahead of the rear axle, by a wheelbase of 100 in
PROBLEMS["force us"] = problem("draft_from_specific", 8400.0, "lbf", "us", specific_draft=(7.0, "psi"), width=(10.0, "ft"),
                               depth=(10.0, "in"))  # fmt: skip
PROBLEMS["mass us"] = problem("weights_in_front", 1300.0, "lb", "us", piece_mass=(1000.0, "lb"), piece_ahead=(130.0, "in"),
                              wheelbase=(100.0, "in"))  # fmt: skip
OTHERWISE = {
    "force us": {
        Outcome.MASS: "8400 lb|8400 lbs.|8,400 pounds|3810 kg",
        Outcome.DIMENSION: "8400 psi",
        Outcome.SLIP: "700 lbf",
    },
    "mass us": {Outcome.FORCE: "1300 lbf|5.78 kN", Outcome.DIMENSION: "1300 in", Outcome.SLIP: "1000 lb"},
    "fuel": {Outcome.SLIP: "30.3 gal/h|5.97 gal/h", Outcome.OTHER_UNIT: "8 L/h", Outcome.DIMENSION: "8 gal|8 gal/acre"},
    "patch": {Outcome.SLIP: "1000 in^2|250 in^2|3.47 in^2", Outcome.DIMENSION: "500 in", Outcome.OTHER_UNIT: "500 cm^2"},
    "uphill": {Outcome.SLIP: "32.5 kN|35.2 kN|27.3 kN|30 kN|18.5 kN", Outcome.WRONG: "41 kN", Outcome.MASS: "3847 kg"},
    "center": {Outcome.SLIP: "1.8 m|1.5 m|2.00 m", Outcome.OTHER_UNIT: "1.2 ft|47.2 m", Outcome.WRONG: "1.3 m"},
    "pull": {Outcome.SLIP: "40 kN|53.3 kN|10.0 kN|8.33 kN", Outcome.WRONG: "33 kN"},
    "efficiency": {Outcome.SLIP: "80 %|90 %|8.0 %|40 %|0.90", Outcome.WRONG: "65 %"},
    "power": {
        Outcome.SLIP: "450 kW|1620 kW",
        Outcome.ROUNDED: "100 kW|130 kW|120 kW",
        Outcome.TEN: "1250 kW|12.5 kW",
        Outcome.SIGN: "-125 kW|−125 kW|-124.9 kW|-167.6 hp",
        Outcome.OTHER_UNIT: "125 W|125 hp|167.6 kW|0.1676 MW",
        Outcome.HORSEPOWER: "170.0 hp|167.6 PS",
        Outcome.WRONG: "137 kW|0 kW|-300 kW|-1250 kW",
        Outcome.DIMENSION: "125 kN|125 km/h|125 kW*h|125 %|12 degC|125 Nm|125 kJ",
        Outcome.UNREAD: "125 kWh",
        Outcome.NO_UNIT: "125|125.|lambda: 125|(125)|125 (3 s.f.)",
    },
    "power us": {
        Outcome.SLIP: "81.8 hp|1.364 hp|55.8 hp",
        Outcome.HORSEPOWER: "121.7 hp",
        Outcome.OTHER_UNIT: "89.48 hp|120 ft lbf/s|120 ft-lb/s",
        Outcome.TEN: "1200 hp",
        Outcome.UNREAD: "120 bhp",
    },
    "force": {
        Outcome.MASS: "60 kg|6118 kg|13490 lb|13490 pounds|6.1 t",
        Outcome.DIMENSION: "60 kPa|60 kN/m",
        Outcome.OTHER_UNIT: "60 N|13490 N",
        Outcome.TEN: "6000 kN|60 mN",
        Outcome.SLIP: "300 kN|30 kN",
        Outcome.SIGN: "-60 kN",
        Outcome.NO_UNIT: "60",
        Outcome.WRONG: "61 kN",
    },
    "share": {
        Outcome.SLIP: "25 %|0.25|80 %",
        Outcome.TEN: "20|0.2 %|0.2 percent",
        Outcome.DIMENSION: "20 deg|20 mph|20 rad",
        Outcome.SIGN: "-20 %",
        Outcome.WRONG: "33 %",
        Outcome.UNREAD: "20 turns",
    },
    "mass": {
        Outcome.SLIP: "500 kg|384.6 kg",
        Outcome.FORCE: "6.5 kN|1433 lbf",
        Outcome.OTHER_UNIT: "1433 kg|650 lb",
        Outcome.NO_UNIT: "650",
        Outcome.DIMENSION: "650 m",
        Outcome.ROUNDED: "700 kg",
        Outcome.TEN: "6500 kg",
    },
    "area": {
        Outcome.SLIP: "4.8 ha/h|6 ha/h|4.655 ha/h|13.82 ha/h",
        Outcome.ROUNDED: "4 ha/h|3.8 ha/h",
        Outcome.OTHER_UNIT: "9.49 ha/h",
        Outcome.WRONG: "9.9 ha/h",
        Outcome.DIMENSION: "3.84 ha|3.84 acres|3.84 ha/h/h",
        Outcome.TEN: "38.4 ha/h",
    },
    "days": {
        Outcome.ROUNDED: "6 days|5 days",
        Outcome.SLIP: "52.08 days|52.08 h|3125 min|4.17 days|3.33 days|2.17 days",
        Outcome.DIMENSION: "5.21 ha|125 h|5.21 h|130 hours",
        Outcome.NO_UNIT: "5.21",
        Outcome.UNREAD: "5.21 weeks",
    },
    "speed": {
        Outcome.SLIP: "3.02 km/h|12.06 km/h|1.92 km/h|0.1005 km/h",
        Outcome.RIGHT: "6 km/h",
        Outcome.OTHER_UNIT: "6.03 mph|3.75 km/h",
        Outcome.DIMENSION: "6.03 km|6.03 rpm",
        Outcome.WRONG: "7 km/h",
        Outcome.TEN: "60.3 km/h",
    },
}
UNREAD = [
    ("", Unread.EMPTY), ("   ", Unread.EMPTY), ("\n", Unread.EMPTY), ("I don't know", Unread.NO_NUMBER),
    ("?", Unread.NO_NUMBER), ("kW", Unread.NO_NUMBER), ("kW 125", Unread.NO_NUMBER), ("one hundred kW", Unread.NO_NUMBER),
    ("nan kW", Unread.NO_NUMBER), ("inf kW", Unread.NO_NUMBER), ("-inf", Unread.NO_NUMBER),
    ("1e999 kW", Unread.NOT_FINITE), ("1/0 kW", Unread.NOT_FINITE), ("0/0", Unread.NOT_FINITE), ("12,5 kW", Unread.COMMA),
    ("0,125 MW", Unread.COMMA), ("1.234,5 kW", Unread.COMMA), ("12,34,567 W", Unread.COMMA), ("1,2345 W", Unread.COMMA),
    ("50*2.5 kW", Unread.SUM), ("50 * 2.5 kW", Unread.SUM), ("50 x 2.5 kW", Unread.SUM), ("50 × 2.5 kW", Unread.SUM),
    ("100 + 25 kW", Unread.SUM), ("450/3.6 kW", Unread.SUM), ("2**7 kW", Unread.SUM), ("5^3 kW", Unread.SUM),
    ("125(kW) + 1", Unread.SUM), ("125 (13)", Unread.TWO), ("125 [13] kW", Unread.UNIT), ("125, 13 kW", Unread.COMMA),
    ("125 kW or 130 kW", Unread.TWO), ("125 13 kW", Unread.TWO), ("125 kW 130", Unread.TWO),
    ("1.2.3 kW", Unread.TWO), ("125 kW = 167.6 hp", Unread.TWO), ("125 bananas", Unread.UNIT),
    ("125 kiloWatt-ish", Unread.UNIT), ("125 k W", Unread.UNIT), ("125 W/J", Unread.UNIT), ("125 Nm^2", Unread.UNIT),
    ("125 kW; rm -rf /", Unread.UNIT), ("125 $(id)", Unread.UNIT), ("125 `id`", Unread.UNIT), ("125 kW#", Unread.UNIT),
    ("__import__('os').system('id')", Unread.NO_NUMBER), ("exec('1')", Unread.NO_NUMBER),
    ("125 if True else 0", Unread.TWO), ("{{125}} kW", Unread.NO_NUMBER), ("[125] kW", Unread.NO_NUMBER),
    ("<script>125 kW</script>", Unread.NO_NUMBER), ("125 <b>kW</b>", Unread.UNIT), ("0x7D kW", Unread.SUM),
    ("0b1 kW", Unread.UNIT), ("１２５ kW", Unread.NO_NUMBER), ("١٢٥ kW", Unread.NO_NUMBER), ("①②⑤ kW", Unread.NO_NUMBER),
    ("CXXV kW", Unread.NO_NUMBER), ("125\u202ekW", Unread.UNIT), ("125 \x00kW", Unread.UNIT),
    ("125 kW" + " " * 90, Unread.LONG), ("9" * 81, Unread.LONG), ("9" * 79 + " kW", Unread.LONG),
    ("9" * 60 + " kW", Unread.TWO), ("125 kW**9**9**9", Unread.UNIT), ("125 kW**99", Unread.UNIT),
    ("125 " + "kW/" * 20 + "s", Unread.UNIT), ("125 kW/0", Unread.UNIT), ("'125 kW", Unread.NO_NUMBER),
    ("125_000 W", Unread.UNIT), ("=SUM(A1:A9)", Unread.NO_NUMBER), ("=125+1", Unread.SUM), ("@125", Unread.NO_NUMBER),
    ("1 2 5 kW", Unread.TWO), ("125 kW/(s", Unread.UNIT), ("125 kW?", Unread.UNIT), ("1/2/3 kW", Unread.SUM),
    ("12 34/5 6 kW", Unread.TWO), ("- kW", Unread.NO_NUMBER), ("--125 kW", Unread.NO_NUMBER), ("1e kW", Unread.UNIT),
    ("1e5e5 kW", Unread.UNIT),
]  # fmt: skip
ROWS = [(name, typed.strip(), Outcome.RIGHT) for name, text in RIGHT.items() for typed in text.split("|")]
ROWS += [
    (name, typed, outcome) for name, rows in OTHERWISE.items() for outcome, text in rows.items() for typed in text.split("|")
]


def test_there_are_enough_answers() -> None:
    assert len({typed for _, typed, _ in ROWS} | {typed for typed, _ in UNREAD}) >= 250


@pytest.mark.parametrize(("name", "typed", "outcome"), ROWS)
def test_answer(name: str, typed: str, outcome: Outcome) -> None:
    assert mark(PROBLEMS[name], typed).outcome is outcome


@pytest.mark.parametrize(("typed", "why"), UNREAD)
def test_what_is_no_answer(typed: str, why: Unread) -> None:
    assert read_answer(typed) is why
    marked = mark(PROBLEMS["power"], typed)
    assert marked.outcome is Outcome.UNREAD
    assert not marked.right


def test_nothing_is_evaluated(monkeypatch: pytest.MonkeyPatch) -> None:
    """Neither Python's ways to run a text nor pint's reader of expressions are asked, whatever is typed."""
    import pint

    def refuse(*_a: Any, **_k: Any) -> None:
        raise AssertionError("a text was evaluated")

    with monkeypatch.context() as patched:
        for name in ("eval", "exec", "compile"):
            patched.setattr(builtins, name, refuse)
        patched.setattr(os, "system", refuse)
        patched.setattr(subprocess, "Popen", refuse)
        patched.setattr(pint.UnitRegistry, "parse_expression", refuse)
        patched.setattr(pint.UnitRegistry, "parse_units", refuse)
        made = [mark(PROBLEMS[name], typed).outcome for name, typed, _ in ROWS]
        unread = [mark(PROBLEMS["mass"], typed).unread for typed, _ in UNREAD]
    assert made == [outcome for *_, outcome in ROWS]
    assert unread == [why for _, why in UNREAD]


def test_a_very_long_answer_costs_nothing() -> None:
    text = "1" * 20_000_000
    tracemalloc.start()
    assert mark(PROBLEMS["power"], text).unread is Unread.LONG
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert peak < 1_000_000
    assert read_answer("1" * MOST_LETTERS) is not Unread.LONG


@pytest.mark.parametrize("typed", [None, 125, 125.0, b"125 kW", ["125 kW"]])
def test_what_is_no_text_is_refused(typed: Any) -> None:
    with pytest.raises(TypeError, match="an answer is a text"):
        mark(PROBLEMS["power"], typed)


@pytest.mark.parametrize(("typed", "outcome"), [
    # 12 m * 8 km/h * 0.75 / 10 = 7.2 ha/h; without the share 9.6; by 7.2 and by 9.6 rounded to one figure
    ("7 ha/h", Outcome.ROUNDED), ("7.2 ha/h", Outcome.RIGHT), ("9.6 ha/h", Outcome.SLIP), ("10 ha/h", Outcome.WRONG),
])  # fmt: skip
def test_rounded_to_one_figure(typed: str, outcome: Outcome) -> None:
    made = problem("field_capacity", 7.2, "ha/h", width=(12.0, "m"), speed=(8.0, "km/h"), field_efficiency=(75.0, "percent"))
    assert mark(made, typed).outcome is outcome


@pytest.mark.parametrize(("typed", "right"), [
    ("123.75 kW", True), ("126.25 kW", True), ("123.749 kW", False), ("126.251 kW", False),  # 1 % of 125 is 1.25
])  # fmt: skip
def test_one_percent_either_way_of_the_right_answer(typed: str, right: bool) -> None:
    assert mark(PROBLEMS["power"], typed).right is right


def test_two_figures_are_those_of_the_right_number() -> None:
    made = problem("drawbar_power", 103.0, "kW", draft=(41.2, "kN"), speed=(9.0, "km/h"))
    assert mark(made, "100 kW").outcome is Outcome.ROUNDED
    assert mark(made, "98 kW").outcome is Outcome.WRONG, "103 with two figures is 100"


def test_two_figures_of_the_right_number_go_before_a_slip() -> None:
    # 60 kPa on 4 m x 0.25 m at 6 km/h = 100 kW, over 0.8 = 125; times 1.2 it is 120, and so is 125 with two figures
    made = problem("power_of_tool", 125.0, "kW", width=(4.0, "m"), depth=(25.0, "cm"), specific_draft=(60.0, "kPa"),
                   speed=(6.0, "km/h"), loading=(80.0, "percent"))  # fmt: skip
    assert mark(made, "120 kW").outcome is Outcome.ROUNDED
    assert mark(made, "120.1 kW").slips == ("reserve_added",)


def test_a_thousandfold_with_a_comma_is_a_comma_before_decimals() -> None:
    made = problem("speed_in_gear", 4.165, "mph", "us", engine_speed=(1500.0, "rpm"), total_ratio=(100.0, ""),
                   rolling_radius=(30.0, "in"))  # fmt: skip
    assert mark(made, "4,165 mph").unread is Unread.COMMA
    assert mark(made, "4165 mph").outcome is Outcome.TEN
    assert mark(made, "41.65 mph").outcome is Outcome.TEN
    assert mark(PROBLEMS["mass"], "6,500 kg").outcome is Outcome.TEN, "ten times as much is no comma"


def test_a_slip_goes_before_a_number_rounded_to_one_figure() -> None:
    # 20 m * 10 km/h * 0.8 / 10 = 16 ha/h, which 20 might be in tens; without the share it is 20
    given = {"width": (20.0, "m"), "speed": (10.0, "km/h")}
    made = problem("field_capacity", 16.0, "ha/h", **given, field_efficiency=(80.0, "percent"))
    assert mark(made, "20 ha/h").slips == ("no_efficiency",)
    # 0.97 leaves 19.4: that with two figures, and no slip
    assert mark(problem("field_capacity", 19.4, "ha/h", **given, field_efficiency=(97.0, "percent")), "19 ha/h").outcome is (
        Outcome.ROUNDED
    )


def test_figures_are_counted() -> None:
    for text, sure, most in (("12000 N", 2, 5), ("12000. N", 5, 5), ("0.0120 N", 3, 3), ("1.250 N", 4, 4), ("7 N", 1, 1)):
        read = read_answer(text)
        assert not isinstance(read, Unread)
        assert (read.figures, read.most_figures) == (sure, most)
    assert mark(PROBLEMS["power"], "125.001 kW").too_many_figures
    assert not mark(PROBLEMS["power"], "125.00 kW").too_many_figures


def test_a_unit_of_two_slashes_divides_by_both() -> None:
    assert read_unit("kN*m/s") == (1.0, "kN*m/s")
    assert read_unit("N*h/km/cm") == (1.0, "N*h/km/cm")
    assert read_unit("MN/m^2") == (1000.0, "kN/m**2")
    assert read_unit("N/dm^2") == (pytest.approx(100.0), "N/m**2")


# By the definitions of the SI prefixes; a kip is a thousand pounds of force, a kgf 9.80665 N, a joule a newton meter.
SIZES = [
    ("MN", "N", 1e6), ("daN", "N", 10), ("mN", "N", 1e-3), ("MW", "W", 1e6), ("mW", "W", 1e-3), ("hPa", "Pa", 100),
    ("GPa", "Pa", 1e9), ("mbar", "Pa", 100), ("kip", "N", 4448.2216152605), ("kips", "lbf", 1000), ("klbf", "lbf", 1000),
    ("kgf", "N", 9.80665),
    ("Mg", "kg", 1000), ("dm", "m", 0.1), ("J/s", "W", 1), ("kJ/s", "W", 1000), ("MJ/s", "W", 1e6), ("Nm/s", "W", 1),
    ("kNm/s", "W", 1000), ("N m/s", "W", 1), ("kN m/s", "W", 1000), ("ft lb/s", "ft*lbf/s", 1), ("lph", "L/h", 1),
    ("gph", "gal/h", 1), ("fps", "ft/s", 1), ("ps", "W", 735.49875), ("metric horsepower", "W", 735.49875),
    ("lb/in2", "Pa", 6894.757293168),
    ("lb/ft2", "Pa", 47.88025898), ("lbm", "kg", 0.45359237), ("dm2", "m**2", 0.01), ("N/cm2", "Pa", 1e4),
]  # fmt: skip


@pytest.mark.parametrize(("text", "unit", "size"), SIZES)
def test_a_unit_is_as_large_as_it_is(text: str, unit: str, size: float) -> None:
    read = read_unit(text)
    assert read is not None
    assert read[0] * factor(read[1], unit) == pytest.approx(size)


def test_every_name_is_one_of_a_unit() -> None:
    for name in (*_NAMES, *_MULTIPLES):
        assert read_unit(name) is not None, name
    assert set(_MULTIPLES) - {text.removesuffix("/s") for text, _, _ in SIZES} == set(), "each by its size"
