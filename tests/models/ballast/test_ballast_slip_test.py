"""The slip test: formulas against counts, errors against every corner, verdicts, refusals."""

import itertools

import pytest
from ballast_rigs import plain
from hypothesis import given
from hypothesis import strategies as st

from rigcalc.core.errors import InputError
from rigcalc.core.units import GRAVITY
from rigcalc.models.ballast.mass_curve import with_mass
from rigcalc.models.ballast.slip_test import from_distance, from_speeds, from_turns, mass_for_slip, verdict, where
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.measure import Measure
from rigcalc.words.ballast import slip as words_slip


def measure(text):
    number, unit = text.split()
    return Measure(text, float(number), unit)


def test_three_ways_agree():
    # 50 turns under load cover what 45 turns cover without: 10 percent.
    turns = from_turns(50, 45)
    distance = from_distance(50, measure("5 m"), measure("225 m"))
    speeds = from_speeds(measure("9.00 km/h"), measure("10.00 km/h"))
    assert turns.slip == pytest.approx(0.10)
    assert distance.slip == pytest.approx(0.10)
    assert speeds.slip == pytest.approx(0.10)
    assert turns.wrong_base == pytest.approx(1 / 9)
    assert distance.wrong_base == pytest.approx(1 / 9)


@given(st.floats(5, 500), st.floats(0.6, 1.0), st.sampled_from([0.0, 0.1, 0.5]))
def test_the_error_covers_every_true_count(loaded, kept, error):
    unloaded = loaded * kept
    test = from_turns(loaded, unloaded, error)
    for a, b in itertools.product((-1, -0.3, 0.5, 1), repeat=2):
        true = 1 - (unloaded + b * error) / (loaded + a * error)
        assert test.low - 1e-12 <= max(true, 0) <= test.high + 1e-12


def test_turns_for_a_point_bring_the_error_to_a_point():
    first = from_turns(10, 8.5)
    again = from_turns(first.turns_for_a_point, 0.85 * first.turns_for_a_point)
    assert (again.high - again.low) / 2 == pytest.approx(0.01, rel=0.02)
    first = from_distance(10, measure("5 m"), measure("42.5 m"))
    n = first.turns_for_a_point
    again = from_distance(n, measure("5 m"), measure(f"{0.85 * n * 5} m"))
    assert (again.high - again.low) / 2 == pytest.approx(0.01, rel=0.03)


def test_speeds_are_off_by_half_their_last_digit():
    test = from_speeds(measure("5.4 mph"), measure("6.0 mph"))
    assert test.low == pytest.approx(1 - 5.45 / 5.95)
    assert test.high == pytest.approx(1 - 5.35 / 6.05)
    finer = from_speeds(measure("5.40 mph"), measure("6.00 mph"))
    assert finer.high - finer.low < (test.high - test.low) / 5


@pytest.mark.parametrize(
    "make",
    [
        lambda: from_turns(8, 10),
        lambda: from_turns(0, 0),
        lambda: from_turns(-10, -12),
        lambda: from_turns(float("nan"), 8),
        lambda: from_turns(float("inf"), 8),
        lambda: from_turns(10, 8, error=-0.5),
        lambda: from_turns(10, 8, error=3),
        lambda: from_distance(10, measure("5 m"), measure("51 m")),
        lambda: from_distance(10, measure("0 m"), measure("45 m")),
        lambda: from_speeds(measure("6 mph"), measure("5 mph")),
        lambda: from_speeds(measure("0 mph"), measure("5 mph")),
    ],
)
def test_readings_that_give_no_slip_are_refused(make):
    with pytest.raises(InputError):
        make()


def test_all_faults_at_once():
    with pytest.raises(InputError) as caught:
        from_turns(-1, float("nan"), error=9)
    assert len(caught.value.faults) == 3


@pytest.mark.parametrize(
    ("loaded", "unloaded", "off", "state"),
    [(1000, 900, 0.1, "inside"), (1000, 800, 0.1, "high"), (1000, 980, 0.1, "low"), (10, 9, 0.5, "unsure")],
)
def test_verdict(loaded, unloaded, off, state):
    found = verdict(from_turns(loaded, unloaded, off), plain())
    assert found.state == state
    assert found.band == pytest.approx((0.06, 0.13))


def test_advised_mass_brings_slip_to_the_band():
    rig = plain("front_wheel_assist", ground__surface="tilled")
    test = from_turns(1000, 780, 0.1)
    found = verdict(test, rig)
    b = bare(rig)
    # The draft that slips as measured, found here by bisection on its own.
    low, high = 0.1, 10.0
    for _ in range(80):
        middle = (low + high) / 2
        slip = float(solve(b, draft_factor=middle).slip)
        low, high = (middle, high) if slip < test.slip else (low, middle)
    now = b.weight / GRAVITY * 1000
    assert float(solve(b, draft_factor=low).slip) == pytest.approx(test.slip, rel=1e-6)
    after = solve(with_mass(b, now + found.to_edge), draft_factor=low)
    assert float(after.slip) == pytest.approx(found.band[1], rel=1e-4)
    assert found.to_middle > found.to_edge > 0
    assert found.front + found.rear == pytest.approx(found.to_edge)
    assert "Add about" in str(words_slip.said(found, "us"))


def test_too_little_slip_takes_mass_off():
    rig = plain()
    found = verdict(from_turns(1000, 950, 0.1), rig)
    assert found.state == "low"
    assert found.to_edge < 0
    assert found.front <= 0
    assert found.rear <= 0
    # The rig file lists nothing that hangs on it, so nothing is told to come off.
    assert "lists nothing that could come off" in str(words_slip.said(found, "si"))


def test_where_the_mass_goes():
    # 39 percent in front is over the 35 that tables give: what is added goes to the rear, what comes off comes off the front.
    rig = plain("front_wheel_assist")
    assert where(rig, 500) == (0, 500)
    assert where(rig, -300) == (-300, 0)
    # Inside the band the split stays as it is.
    split = where(plain(tractor__front_axle_mass="5.3 t", tractor__rear_axle_mass="4.7 t"), 1000)
    assert split == pytest.approx((530, 470))


def test_a_slip_that_no_mass_gives():
    assert mass_for_slip(plain(), 0.02, 0.14) is None
    found = verdict(from_turns(1000, 995, 0.1), plain())
    assert found.to_edge is None
    assert "No mass" in str(words_slip.said(found, "us"))


@pytest.mark.parametrize(("unloaded", "is_high", "to_edge"), [(920, False, 0.0), (880, True, 0.0)])
def test_inside_the_band_nothing_has_to_move_and_the_half_is_named(unloaded, is_high, to_edge):
    found = verdict(from_turns(1000, unloaded, 0.1), plain())
    assert found.band == pytest.approx((0.06, 0.13))
    assert (found.state, found.slip_is_high, found.to_edge) == ("inside", is_high, to_edge)
    assert (found.front, found.rear, found.move) == (0.0, 0.0, None)
    assert (found.to_middle > 0) == is_high


def test_band_as_typed_needs_no_rig():
    found = verdict(from_turns(1000, 900, 0.1), band=(0.08, 0.13))
    assert found.state == "inside"
    assert found.to_edge is None
    for band in ((0.13, 0.08), (-0.1, 0.1), (0.1, 1.2)):
        with pytest.raises(InputError):
            verdict(from_turns(1000, 900), band=band)
    with pytest.raises(InputError):
        verdict(from_turns(1000, 900))


def test_the_wrong_base_is_explained():
    text = words_slip.slip_text(from_turns(10, 8.5))
    assert "17.6 %" in text
    assert "not slip" in text
    assert "15.0 %" in text
