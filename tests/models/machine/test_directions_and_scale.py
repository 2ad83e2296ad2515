"""What must hold of any rig: directions, scale laws, and that units on paper don't matter."""

import dataclasses
import tomllib

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from known_rigs import KNOWN_RIGS, known_rig, known_text
from made_rigs import KINDS, many, one

from rigcalc.core.errors import InputError
from rigcalc.core.units import ALLOWED, Q
from rigcalc.models import operating_point, rig_text, size
from rigcalc.models.machine.operating_point import UNITS, solve
from rigcalc.models.rig import file as rig_file_module
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.file import read_rig
from rigcalc.models.rig.measure import Measure
from rigcalc.words import in_words

rigs_drawn = st.tuples(st.sampled_from(list(KINDS)), st.integers(0, 199), st.integers(0, 9))
modest = settings(deadline=None, max_examples=60)


def rig_of(drawn):
    kind, place, seed = drawn
    return one(many(kind, 200, seed), place)


def climbs(values, strictly=True):
    steps = np.diff(values[np.isfinite(values)])
    return bool((steps > 0).all() if strictly else (steps >= 0).all())


@pytest.mark.parametrize(("name", "sweep"), [
    ("depth", np.linspace(4, 60, 60)), ("tools", np.arange(1.0, 41.0)), ("soil_factor", np.linspace(0.3, 1.5, 40)),
    ("speed", np.linspace(2, 16, 40)), ("implement_weight", np.linspace(5, 150, 40)), ("grade", np.linspace(-4, 12, 40)),
])  # fmt: skip
@modest
@given(drawn=rigs_drawn)
def test_more_work_takes_more(name, sweep, drawn):
    """Deeper, more shanks, firmer soil, faster, heavier, steeper: draft or pull, slip and power go up until grip ends."""
    rig = rig_of(drawn)
    if name == "grade":
        rig = rig.at(center_height=0.0)  # a high center of gravity helps a rear axle up a slope
    if name == "implement_weight":
        rig = rig.at(grade=abs(rig.grade))  # downhill a heavier implement pushes
    with np.errstate(divide="ignore", invalid="ignore"):
        p = solve(rig.at(**{name: sweep}))
    stuck = np.isnan(p.slip)
    assert climbs(p.net_pull, strictly=name not in ("speed", "implement_weight"))
    if name not in ("implement_weight", "grade"):
        assert climbs(p.draft, strictly=name != "speed")
    lifted = np.broadcast_to(p.tipping >= 1, stuck.shape)  # past that a wheelie, no model of anything
    on = ~stuck & ~lifted & (p.slip > 1e-9)
    assert climbs(np.where(on, p.slip, np.nan), strictly=False)
    assert climbs(np.where(on, p.engine_power, np.nan), strictly=False)
    if name != "speed":
        first = int(stuck.argmax()) if stuck.any() else len(stuck)
        assert stuck[first:][~lifted[first:]].all(), "once stuck, more work doesn't free it"


@modest
@given(drawn=rigs_drawn, factor=st.floats(0.3, 3))
def test_a_rig_twice_as_big_slips_the_same(drawn, factor):
    """All weights, tools and powers by one factor, on as many more tyres or tracks of the same size: the same slip."""
    rig = rig_of(drawn)

    def bigger(gear):
        return gear and dataclasses.replace(gear, count=gear.count * factor)

    big = dataclasses.replace(
        rig, front=bigger(rig.front), rear=bigger(rig.rear),
        **{name: getattr(rig, name) * factor for name in
           ("front_weight", "rear_weight", "hitch_load", "implement_weight", "tools", "rated_pto", "maximum_pto")},
    )  # fmt: skip
    with np.errstate(divide="ignore", invalid="ignore"):
        a, b = solve(rig), solve(big)
    assume(np.all(a.tipping < 1))  # an axle in the air has no mobility number
    for name in (
        "slip",
        "slip_at_peak",
        "engine_share",
        "tractive_efficiency",
        "front_mobility",
        "rear_mobility",
        "fuel_per_area",
    ):
        np.testing.assert_allclose(getattr(b, name), getattr(a, name), rtol=1e-9, atol=1e-12)
    for name in ("draft", "net_pull", "peak_pull", "missing_pull", "front_load", "rear_load", "engine_power", "fuel_rate",
                 "field_capacity"):  # fmt: skip
        np.testing.assert_allclose(getattr(b, name), np.multiply(getattr(a, name), factor), rtol=1e-9, atol=1e-9)


@modest
@given(drawn=rigs_drawn)
def test_twice_the_shanks_half_as_deep(drawn):
    rig = rig_of(drawn)
    with np.errstate(divide="ignore", invalid="ignore"):
        a, b = solve(rig), solve(rig.at(tools=2 * rig.tools, depth=rig.depth / 2, spacing=rig.spacing / 2))
    for name in UNITS:
        if name not in ("tools", "depth", "specific_draft"):
            np.testing.assert_allclose(getattr(b, name), getattr(a, name), rtol=1e-9, atol=1e-12, err_msg=name)
    np.testing.assert_allclose(b.specific_draft, 2 * a.specific_draft)


@modest
@given(drawn=rigs_drawn)
def test_a_speed_without_speed_terms_changes_power_alone(drawn):
    rig = rig_of(drawn).at(draft_b=0.0, draft_c=0.0)
    with np.errstate(divide="ignore", invalid="ignore"):
        a, b = solve(rig), solve(rig.at(speed=2 * rig.speed))
    np.testing.assert_array_equal(a.slip, b.slip)
    np.testing.assert_allclose(b.engine_power, 2 * a.engine_power, rtol=1e-12)


def measured(data, system):
    """The same rig file with every quantity in another unit, to the last digit."""
    swap = {
        "si": {"length": "cm", "mass": "kg", "power": "kW", "force": "N", "pressure": "bar", "volume": "L", "speed": "km/h",
               "area": "ha", "angle": "rad"},
        "us": {"length": "ft", "mass": "ton", "power": "metric_horsepower", "force": "lbf", "pressure": "psi", "volume": "gal",
               "speed": "mph", "area": "acre", "angle": "deg"},
    }[system]  # fmt: skip
    if isinstance(data, dict):
        return {key: measured(value, system) for key, value in data.items()}
    if isinstance(data, list):
        return [measured(value, system) for value in data]
    if not isinstance(data, str) or not data[:1].lstrip("-").isdigit():
        return data
    number, _, unit = data.partition(" ")
    kind = "speed" if unit in ("mph", "km/h") else ALLOWED[unit][0] if unit in ALLOWED else None
    if kind not in swap:
        return data
    return f"{Measure(data, float(number), unit).to(swap[kind])!r} {swap[kind]}"


@pytest.mark.parametrize("name", KNOWN_RIGS)
@pytest.mark.parametrize("system", ["si", "us"])
def test_the_same_rig_on_paper_in_other_units(name, system):
    typed = tomllib.loads(known_text(name))
    changed = measured(typed, system)
    assert changed != typed
    rig, other = rig_file_module.rig_from(typed), rig_file_module.rig_from(changed)
    a, b = size(rig), size(other)
    for field in UNITS:
        assert getattr(b.point.bare, field) == pytest.approx(getattr(a.point.bare, field), rel=1e-9, nan_ok=True), field
    assert [m.name for m in b.margins] == [m.name for m in a.margins]
    for ours, theirs in zip(a.margins, b.margins, strict=True):
        assert (theirs.used is None) == (ours.used is None)
        assert theirs.used is None or theirs.used == pytest.approx(ours.used, rel=1e-9)
    for ours, theirs in zip(a.reverse, b.reverse, strict=True):
        assert theirs.value == pytest.approx(ours.value, rel=1e-6)
        assert theirs.binds == ours.binds
    assert str(in_words(b, "us")) == str(in_words(a, "us"))
    assert b.sure.chance_works == a.sure.chance_works


@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_words_change_with_the_units(name):
    answer = size(known_rig(name))
    us, si = str(in_words(answer, "us")), str(in_words(answer, "si"))
    assert us != si
    assert " mph" in us
    assert " km/h" in si


def test_quantities_in_any_unit_and_shape():
    rig = known_rig()
    a = operating_point(rig, depth=Q(np.array([[10.0], [12.0], [14.0]]), "in"), speed=Q(np.array([5.0, 6.0]), "mph"))
    b = operating_point(
        rig, depth=Q(np.array([[25.4], [30.48], [35.56]]), "cm"), speed=Q(np.array([5.0, 6.0]) * 1.609344, "km/h")
    )
    assert a.slip.shape == (3, 2) == a.pulls.shape
    np.testing.assert_allclose(a.engine_power.m_as("hp"), b.engine_power.m_as("hp"), rtol=1e-12)
    assert a.travel_speed.m_as("mph")[0, 1] == pytest.approx(6)
    with pytest.raises(AttributeError, match="it has"):
        _ = a.colour
    assert "draft" in repr(operating_point(rig))


@pytest.mark.parametrize(("given", "words"), [
    ({"depth": 14}, "depth"), ({"depth": Q(14.0, "kg")}, "depth"), ({"depth": Q(-1.0, "in")}, "above zero"),
    ({"depth": Q(float("nan"), "in")}, "finite"), ({"speed": Q(float("inf"), "mph")}, "finite"),
    ({"speed": Q(0.0, "mph")}, "above"),
    ({"tools": 2.5}, "whole"), ({"tools": 0}, "above zero"), ({"tools": "many"}, "tools"), ({"tools": []}, "above zero"),
    ({"depth": Q(np.array([10.0, np.nan]), "in")}, "finite"), ({"depth": "14 in"}, "depth"),
])  # fmt: skip
def test_nonsense_is_refused(given, words):
    with pytest.raises(InputError, match=words) as refused:
        operating_point(known_rig(), **given)
    assert next(iter(given)) in refused.value.faults[0].where


def test_all_nonsense_at_once():
    with pytest.raises(InputError) as refused:
        operating_point(known_rig(), depth=14, speed=Q(1.0, "kg"), tools=2.5)
    assert [fault.where for fault in refused.value.faults] == ["depth", "speed", "tools"]
    with pytest.raises(InputError, match=r"depth of shape \(2,\), speed of shape \(3,\)") as refused:
        operating_point(known_rig(), depth=Q([10.0, 12.0], "in"), speed=Q([5.0, 6.0, 7.0], "mph"), tools=2.5)
    assert [fault.where for fault in refused.value.faults] == ["tools", "operating_point"]


@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_the_text_of_a_rig_gives_the_same_point(name):
    rig = known_rig(name)
    assert repr(solve(bare(read_rig(rig_text(rig))))) == repr(solve(bare(rig)))
