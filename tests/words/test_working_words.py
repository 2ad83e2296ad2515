"""The working in words: nothing is left out, axles are named, units are those chosen, four figures at most, sums add up."""

import re
from statistics import NormalDist

import pytest
from known_rigs import KNOWN_RIGS, known_rig

from rigcalc.equations import load_all, traction_track, traction_wheel
from rigcalc.models import demo_rig, replaced, size
from rigcalc.models.rig.bare import bare
from rigcalc.models.size.chances import chances
from rigcalc.models.size.steps import Step, Sum, steps
from rigcalc.words import in_words
from rigcalc.words.numbers import chance

TWO_TRACKS = {
    "tractor.drive": "track", "tractor.front": None, "tractor.front_axle_mass": "0 kg", "tractor.rear_axle_mass": "18000 kg",
    "tractor.wheelbase": "2.6 m", "implement.tools": 5, "setup": None, "ballast": (),
    "tractor.rear": {"kind": "track", "tracks": 2, "track_width": "30 in", "contact_length": "2.6 m"},
}  # fmt: skip
TWO_WHEELS = {"tractor.drive": "2WD", "tractor.front.driven": False, "implement.tools": 5}
BIAS_IN_FRONT = {"tractor.front.kind": "bias"}
RIGS = [(name, {}) for name in KNOWN_RIGS] + [
    ("four_wheel_drive", TWO_TRACKS), ("front_wheel_assist", TWO_WHEELS), ("front_wheel_assist", BIAS_IN_FRONT),
    ("front_wheel_assist", {"ground.grade": "6 deg"}), ("tracks", {"work.depth": "16 in"}),
]  # fmt: skip
QUOTIENTS = {"pto_power": lambda a, b: a / b, "engine_load": lambda a, b: a / b, "engine_power": lambda a, b: a * b}


def rig(name, changes):
    return replaced(known_rig(name), changes) if changes else known_rig(name)


@pytest.mark.parametrize(("name", "changes"), RIGS)
def test_every_sum_is_that_of_its_terms(name, changes):
    found = steps(bare(rig(name, changes)))
    sums = {step.name: step for step in found if isinstance(step, Sum)}
    assert set(sums) == {"drawbar_pull", "net_pull", "slip_balance", "axle_force", "pto_power", "engine_load", "engine_power"}
    for step in sums.values():
        values = [value for _, value, _ in step.terms]
        made = QUOTIENTS[step.name](*values) if step.name in QUOTIENTS else sum(values)
        assert step.value == pytest.approx(made, rel=1e-6), step.name


@pytest.mark.parametrize(("name", "changes"), RIGS)
def test_each_axle_has_its_own_steps(name, changes):
    the_rig = rig(name, changes)
    found = [step for step in steps(bare(the_rig)) if isinstance(step, Step)]
    axles = {"front", "rear"} if the_rig.tractor.front else {"tracks"}
    motion = (traction_wheel.motion_resistance_ratio_radial, traction_wheel.motion_resistance_ratio_bias,
              traction_track.belt_resistance_ratio)  # fmt: skip
    assert {step.of for step in found if step.equation in motion} == axles
    assert {step.of for step in found if step.equation.__name__ == "grade_resistance"} == {"implement", "tractor"}
    each = [step for step in found if "mobility" in step.equation.__name__ or step.equation in motion]
    assert all(step.of for step in each)


@pytest.mark.parametrize("units", ["us", "si"])
def test_figures_units_and_names(units):
    said = in_words(size(rig("four_wheel_drive", {"ground.grade": "4 deg"})), units).working
    titles = [step.title for step in said]
    for title in ("mobility number, front axle", "motion resistance ratio radial, rear axle", "balance that gives slip",
                  "drawbar pull", "PTO power", "engine power", "grade resistance, implement",
                  "grade resistance, tractor"):  # fmt: skip
        assert title in titles
    for step in said:
        shown = " ".join((step.text_numbers, step.result, *step.inputs))
        assert "*" not in " ".join((step.result, *step.inputs)), "units as they are written by hand"
        for figure in re.findall(r"\d[\d,]*\.?\d*", shown):
            digits = figure.replace(",", "").replace(".", "").strip("0")
            assert len(digits) <= 4, (step.title, figure)
    implement = said[titles.index("grade resistance, implement")]
    assert implement.inputs[0].endswith("weight of the implement")
    pull = said[titles.index("drawbar pull")]
    assert re.match(r"[\d,]+ lbf \([\d.]+ kN\)$" if units == "us" else r"[\d.]+ kN$", pull.result)


def test_a_step_says_for_which_values_its_source_holds():
    said = in_words(size(rig("front_wheel_assist", {})), "us").working
    lines = [line for step in said for line in step.inputs if "the source covers" in line]
    assert any(line.startswith("slip = ") and line.endswith("the source covers 0 to 0.5") for line in lines)
    assert any(line.startswith("mobility_number = ") and line.endswith("the source covers 5 to 80") for line in lines)
    assert not any("outside" in line for line in lines)
    # a load that the fuel relation wasn't measured for: below a fifth of the rating
    light = in_words(size(rig("front_wheel_assist", {"work.depth": "3 in", "implement.tools": 3})), "us").working
    outside = [line for step in light for line in step.inputs if "which this is outside of" in line]
    assert outside
    for line in outside:
        value, low, high = re.search(r"= ([\d.]+).*covers ([\d.]+) to ([\d.]+), which", line).groups()
        assert not float(low) <= float(value) <= float(high), line


def test_no_formula_of_the_book_has_one_name_on_both_sides():
    for name, eq in load_all().items():
        assert eq.gives.name not in {symbol.name for symbol in eq.takes}, name


def test_where_it_cannot_pull_there_is_no_balance():
    words = in_words(size(replaced(known_rig(), {"work.depth": "40 in"})), "us")
    titles = [step.title for step in words.working]
    assert "drawbar pull" in titles
    assert "balance that gives slip" not in titles
    assert not any("nan" in " ".join((step.result, *step.inputs)) for step in words.working)


@pytest.mark.parametrize("texture", ["clay", "clay loam", "loam", "sandy loam", "loamy sand"])
@pytest.mark.parametrize("depth", ["10 in", "17 in"])
def test_each_row_looked_up_gives_the_factor_that_the_draft_is_worked_out_with(texture, depth):
    steps = in_words(size(replaced(demo_rig(), {"ground.texture": texture, "work.depth": depth})), "us").working
    looked_up = [step.result for step in steps if step.equation == "d497_draft"]
    used = [line for step in steps for line in step.inputs if line.startswith("soil_factor")]
    assert len(looked_up) == len(used) == (2 if depth == "17 in" else 1)
    assert all(line.startswith(f"soil_factor = {factor}:") for factor, line in zip(looked_up, used, strict=True))


def test_a_soil_group_that_is_typed_is_said_to_be():
    typed = replaced(demo_rig(), {"ground.soil_group": "coarse"})
    first = in_words(size(typed), "us").working[0]
    assert (first.result, "coarse soil as typed" in first.inputs[1]) == ("0.65", True)
    doubtful = in_words(size(replaced(demo_rig(), {"ground.texture": "clay loam"})), "us").working[0]
    assert doubtful.inputs[1].endswith("medium soil by the table soil_groups; some texts call it fine")


READING = {"date": "2026-11-04", "depth": "14 in", "speed": "5 mph", "slip": "9 percent"}
COULTERS = {"tool": "coulter_smooth_or_ripple", "tools": 14, "depth": "4 in"}
SOFT = {"ground.surface": "soft", "work.speed": "1.5 mph"}
CHANCES = {
    "by the table": ({}, ["draft_deviation", "draft_most", "chance_of_draft"]),
    "far too heavy": ({"work.depth": "30 in"}, ["draft_deviation", "draft_most", "chance_of_draft"]),
    "hardly a load": ({"work.depth": "3 in", "implement.tools": 3}, ["draft_deviation", "draft_most"]),
    "coulters": ({"implement.gangs": [COULTERS]}, ["draft_deviation", "draft_most", "chance_of_draft"]),
    "read": ({"reading": [READING]}, []),
}  # fmt: skip


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize(("changes", "alone"), CHANCES.values(), ids=CHANCES)
def test_it_ends_with_the_chance_that_the_verdict_names(changes, alone, units):
    words = in_words(size(rig("front_wheel_assist", {"work.depth": "14 in", **changes})), units)
    last = words.working[-2 - len(alone) :]
    assert [step.equation for step in last] == [*alone, "chance_pulls", "chance_works"]
    for step in last[-2:]:
        held, tried = (int(number) for number in step.text_numbers.split(" / "))
        assert step.result == chance(held / tried)
    assert last[-1].result in " ".join((words.said.headline, *words.said.rest, words.sure))
    assert ("readings leave" in last[-2].inputs[0]) == (not alone)
    for step in last:
        assert step.result not in ("", "nan")


@pytest.mark.parametrize("changes", [changes for changes, _ in CHANCES.values()], ids=CHANCES)
def test_the_counts_behind_a_chance_are_said(changes):
    answer = size(rig("front_wheel_assist", {"work.depth": "14 in", **changes}))
    found = chances(answer.bare_rig, answer.caps, answer.sure.seed)
    pulls, works = in_words(answer, "us").working[-2:]
    assert pulls.text_numbers == f"{found.pulls} / {found.tried}"
    assert works.text_numbers == f"{found.works} / {found.tried}"
    missing, by_engine = (
        int(number) for number in re.search(r"in (\d+), the engine alone in (\d+)$", pulls.inputs[1]).groups()
    )
    assert missing + by_engine + found.pulls == found.tried
    assert by_engine == found.grip - found.pulls
    beyond, of = (int(number) for number in re.match(r"in (\d+) of the (\d+) with", works.inputs[0]).groups())
    assert (of, of - beyond) == (found.pulls, found.works)
    assert (pulls.sure, works.sure) == ("common practice" if found.alone else "computed", "computed")


def test_what_gives_out_and_what_each_chance_step_measures():
    said = {}
    out = {"by the table": "the engine gives out", "soft": "grip gives out", "hardly a load": "it never gives out",
           "coulters": "the engine gives out"}  # fmt: skip
    for name, ends in out.items():
        changes = {"work.depth": "14 in", **(SOFT if name == "soft" else CHANCES[name][0])}
        steps = {step.equation: step for step in in_words(size(rig("front_wheel_assist", changes)), "si").working}
        assert steps["draft_most"].inputs[1].endswith(ends), name
        said[name] = steps
    assert said["hardly a load"]["draft_most"].result.startswith("more than ")
    assert said["hardly a load"]["draft_most"].inputs[1].startswith("times = 3:")
    assert not said["by the table"]["draft_most"].result.startswith("more than")
    checks = {name: step.dimensions.text for name, step in said["by the table"].items() if "chance" in name or "draft_" in name}
    assert checks["draft_deviation"] == "[kN] = [kN] * [1]"
    assert checks["draft_most"] == "[kN] = [kN] * [1]"
    assert checks["chance_of_draft"] == "[1] = [kN] / [kN]"
    assert checks["chance_works"] == "[1] = [1] / [1]"
    assert said["coulters"]["draft_deviation"].dimensions.text == "[kN] = [kN] - [kN]"
    assert all(step.dimensions.agree for name, step in said["coulters"].items() if name in checks)


def by_hand(text):
    """Work out what was put into a formula: numbers, fences and signs alone."""
    assert re.fullmatch(r"[-\d.()* /]+", text), text
    return eval(text)


@pytest.mark.parametrize("changes", [{}, {"implement.gangs": [COULTERS]}, {"work.depth": "30 in"}])
def test_the_scatter_of_draft_is_worked_by_hand(changes):
    words = in_words(size(rig("front_wheel_assist", {"work.depth": "14 in", **changes})), "si")
    deviation, most, score = words.working[-5:-2]
    draft = next(step for step in words.working if step.title == "drawbar pull").inputs[0].split(" = ")[1].removesuffix(" kN")
    for step in (deviation, most):
        assert by_hand(step.text_numbers) == pytest.approx(float(step.result.removesuffix(" kN")), rel=2e-3)
    assert draft in deviation.text_numbers
    assert draft in most.text_numbers
    left, right = score.text_numbers.removeprefix("normal probability of ").split(" = normal probability of ")
    assert by_hand(left) == pytest.approx(float(right.strip("()")), rel=0.01, abs=0.01)
    assert score.result == chance(NormalDist().cdf(float(right.strip("()"))))
