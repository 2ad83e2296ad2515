"""The words of a ballast plan: every number in a sentence is the plan's own, and no name can part a sentence."""

import itertools
import re
from dataclasses import replace

import pytest
from known_rigs import KNOWN_RIGS, known_rig

from rigcalc.models import replaced
from rigcalc.models.ballast.answer import ballast
from rigcalc.models.ballast.jobs import Job
from rigcalc.models.ballast.limits import Which
from rigcalc.models.ballast.plan import Plan, Step, Unmet
from rigcalc.words.ballast import plan as words
from rigcalc.words.ballast.jobs import job_said, job_title, jobs_text
from rigcalc.words.ballast.limits import check_text, limit_title
from rigcalc.words.ballast.notes import notes
from rigcalc.words.ballast.steps import gain, step_said

LB = 0.45359237
NAMES = (
    "No. 2 plates",
    "a: b; c",
    "plates. Then: x",
    "Take off. No!",
    "front",
    "calcium chloride in the front tyres",
    "50 % of it",
)


def first_number(text, after):
    """The first number behind some words, thousands without their comma."""
    return float(re.search(r"[\d,.]*\d", text.partition(after)[2])[0].replace(",", ""))


def fwa(job="full", **changes):
    return ballast(replaced(known_rig("front_wheel_assist"), {k.replace("__", "."): v for k, v in changes.items()}), job)


def piece(name, **more):
    return {"name": name, "mass": "100 lb", "count": 18, "on": 10, "axle": "front", "ahead": "1.1 m", **more}


@pytest.mark.parametrize("name", NAMES)
def test_a_weight_may_have_any_name(name):
    setup = {"front_share_low": "36 percent", "front_share_high": "38 percent"}
    found = fwa(ballast=[piece(name)], setup=setup, tractor__rear__tyre=None)
    step = found.plan.chosen.changes[0]
    said = words.said(found.plan, "us")
    assert said.word == "Take off"
    assert said.headline == f"For full engine load: take {name} from 10 to {step.after:.0f}."
    assert said.rest[0].startswith("Then ")
    assert step_said(step, "us").name == name


def test_numbers_of_the_sentence_are_those_of_the_plan():
    plan = fwa().plan
    after = plan.chosen
    text = " ".join(words.said(plan, "us").rest)
    assert first_number(text, "Then ") == round(100 * after.delivery)
    was = replace(plan, now=replace(plan.now, delivery=0.614))
    assert first_number(" ".join(words.said(was, "us").rest), "now ") == 61
    assert first_number(text, "drawbar, ") == pytest.approx(100 * after.slip, abs=0.06)
    assert first_number(text, "slip, ") == round(100 * after.front_share)
    assert first_number(text, "at rest, ") == round(100 * after.front_share_pull)


def test_how_far_the_nearest_set_is_off_is_its_own_mass_against_the_end_of_the_flat_range():
    plan = fwa(setup__mass_limit="20000 lb").plan
    assert not plan.works
    near = plan.nearest.front_mass + plan.nearest.rear_mass
    best = replace(plan.job.best, low=10000.0, high=near - 700.0)
    heavy = words.said(replace(plan, job=replace(plan.job, best=best)), "si").rest
    assert heavy == ("For that, the nearest set is 700 kg heavier than it should be.",)
    light = words.said(replace(plan, job=replace(plan.job, best=replace(best, low=near + 300.0, high=near + 900.0))), "si").rest
    assert light == ("For that, the nearest set is 300 kg lighter than it should be.",)
    inside = words.said(replace(plan, job=replace(plan.job, best=replace(best, low=near - 1, high=near + 1))), "si").rest
    assert inside == ()
    one = words.said(replace(plan, sets=1, job=replace(plan.job, best=best)), "si")
    assert one.word == "Nothing at hand"
    assert one.rest == ("For that, the tractor is 700 kg heavier than it should be.",)


@pytest.mark.parametrize(
    ("unmet", "text"),
    [
        (Unmet(Which("axle", "rear", "pull"), 250.0, "kg", True),
         "rear axle, under pull can't be met by any set, missed by 250 kg"),
        (Unmet(Which("mass_limit"), 40.0, "kg", False),
         "mass with ballast, by the maker can't be met together with the rest, missed by 40 kg"),
        (Unmet(Which("delivery"), 0.028, "1", True), "delivery stays 2.8 % below what counts as good (within 1 % of the best)"),
        (Unmet(Which("delivery"), 0.028, "1", False),
         "delivery within 1 % of the best can't be met together with the rest, 2.8 % short"),
    ],
)  # fmt: skip
def test_what_cannot_be_met_is_said_with_how_much_is_missed(unmet, text):
    assert words.unmet_text(unmet, "si") == text


def test_one_step_names_both_axles_with_their_signs():
    step = Step("plates", "front", "", 14.0, 2.0, -545.0, -650.0, 105.0)
    said = step_said(step, "si")
    assert (said.order, said.change) == ("take plates from 14 to 2", "14 to 2")
    assert str(said) == "14 to 2: -650 kg on the front axle, +105 kg on the rear"
    up = step_said(replace(step, liquid="calcium_chloride", name="", axle="rear", before=0.4, after=0.75, change=300.0), "si")
    assert up.order == "bring calcium chloride in the rear tyres from 40 % to 75 %"
    assert [gain(mass, "si") for mass in (0.0, 0.04, 12.0, -12.0)] == ["nothing", "nothing", "+12 kg", "-12 kg"]


def test_steps_are_said_in_the_order_of_the_rig_file_and_only_those_that_change():
    plan = fwa().plan
    order = [piece.name for piece in known_rig("front_wheel_assist").ballast]
    named = [step.name for step in plan.chosen.changes if step.name]
    assert named == [name for name in order if name in named]
    steps = plan.chosen.steps
    assert [bool(step.change) for step in steps] == sorted((bool(step.change) for step in steps), reverse=True)


@pytest.mark.parametrize("units", ["us", "si"])
def test_a_set_in_one_line(units):
    found = fwa().plan.chosen
    text = words.set_text(found, units)
    scale = LB if units == "us" else 1.0
    assert first_number(f"x{text}", "x") == pytest.approx((found.front_mass + found.rear_mass) / scale, rel=5e-3)
    assert first_number(text, "in all, ") == round(100 * found.front_share)
    assert first_number(text, "power delivery ") == round(100 * found.delivery)
    assert first_number(text, f"{round(100 * found.delivery)} %, ") == pytest.approx(100 * found.slip, abs=0.06)
    assert first_number(text, "slip; ") == pytest.approx(found.handled / scale, rel=5e-3)


def test_a_limit_that_is_passed_never_reads_as_equal_to_its_bound():
    found = fwa("this")
    check = next(c for c in found.checks if c.name == "front_share_high")
    close = replace(check, value=0.3504, limit=0.35, short=1.0)
    assert check_text(close, "us") == "35.04 %; at most 35 %"
    assert check_text(replace(close, short=0.0), "us") == "35 %; at most 35 %"
    heavy = replace(check, share=False, value=10000.4, limit=10000.0, short=0.4)
    assert check_text(heavy, "si") == "10,000.4 kg; at most 10,000 kg"


def test_every_limit_has_a_title_of_its_own():
    for name, units in itertools.product(KNOWN_RIGS, ("us", "si")):
        titles = [limit_title(check.which, units) for check in ballast(known_rig(name)).checks]
        assert len(set(titles)) == len(titles)


def test_jobs_say_what_suits_them():
    found = fwa()
    light, this, full = found.jobs.jobs
    assert [job_title(job) for job in (light, this, full)] == ["half this draft", "this job", "full engine load"]
    assert job_title(replace(full, ends="grip", slip_most=0.13)) == "all that grip gives at 13 % slip"
    said = job_said(full, "us")
    best = full.best
    assert float(said.mass.split(" ")[0].replace(",", "")) == pytest.approx(best.mass / LB, rel=5e-3)
    assert first_number(said.span, "from ") == pytest.approx(best.low / LB, rel=5e-3)
    assert first_number(said.span, " to ") == pytest.approx(best.high / LB, rel=5e-3)
    assert "the maker's limit" in job_said(replace(full, best=replace(best, cut="mass_limit")), "us").cut
    assert "nothing more comes off" in job_said(replace(full, best=replace(best, cut="bare")), "us").cut
    lost = job_said(replace(full, delivery=0.9 * best.delivery), "us").loss
    assert lost == "today's mass loses 10 % of what could arrive"
    assert job_said(replace(full, delivery=float("nan")), "us").loss == "as it stands it can't pull this"
    assert jobs_text(replace(found.jobs, low=1000.0, high=1200.0), "si").startswith("1,000 kg to 1,200 kg suits all")
    assert jobs_text(replace(found.jobs, low=None, high=None), "si").startswith("No one mass suits")


def test_advice_that_gives_way_is_said_after_the_plan():
    heavy = {"name": "rear weights", "mass": "400 kg", "count": 2, "on": 0, "axle": "rear", "ahead": "0 m"}
    found = fwa("this", ballast=[heavy], tractor__rear__tyre=None)
    assert [check.name for check in found.plan.bent] == ["front_share_high"]
    last = words.said(found.plan, "us").rest[-1]
    assert last.startswith("No set keeps this advice of tables as well: share on the front axle")


def test_models_of_ballast_hold_no_sentence():
    plain = [field for cls in (Plan, Step, Unmet, Job) for field in cls.__dataclass_fields__]
    assert not {"title", "text", "why", "sentence", "amount"} & set(plain)
    assert all(isinstance(text, str) and text.endswith(".") for text in notes(fwa()))
