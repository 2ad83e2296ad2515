"""Strip trials against printed numbers, another package's noncentral t, and trials drawn by chance."""

import math

import numpy as np
import pytest
from scipy import stats

import rigcalc
from rigcalc.models.ground.trial import least_shown, paired_power, pairs_needed, strip_trial, t_power


def test_printed_pairs_and_powers():
    """Printed in texts on a statistics language, read 2026-11-26.

    Dalgaard, Introductory Statistics with R, 2nd ed., p. 145: a difference of 10, deviation of differences 10 times root 2,
    power 0.85 asks for 19.97 pairs. The page "T tests" of uvastatlab: two groups, a third of a deviation,
    power 0.9 asks for 190.0991 in each, whose t has 2 (n - 1) degrees of freedom and a shift of root (n / 2) thirds.
    """
    assert pairs_needed(10 / (10 * math.sqrt(2)), power=0.85) == 20
    assert paired_power(19, 1 / math.sqrt(2)) < 0.85 < paired_power(20, 1 / math.sqrt(2))
    count = 190.0991
    assert t_power(2 * (count - 1), math.sqrt(count / 2) / 3, 0.05) == pytest.approx(0.9, abs=1e-6)


@pytest.mark.parametrize("pairs", [2, 3, 4, 6, 10, 34, 200, 1000])
@pytest.mark.parametrize("ratio", [0.0, 0.05, 0.3, 1.0, 3.0])
def test_power_is_that_of_another_package(pairs, ratio):
    edge, shift = stats.t.ppf(0.975, pairs - 1), ratio * math.sqrt(pairs)
    expected = stats.nct.sf(edge, pairs - 1, shift) + stats.nct.cdf(-edge, pairs - 1, shift) if ratio else 0.05
    assert paired_power(pairs, ratio) == pytest.approx(expected, abs=1e-9)


def test_drawn_trials_show_it_as_often_as_said():
    draws = np.random.default_rng(5).normal(0.05, 0.06, (20_000, pairs_needed(5 / 6)))
    seen = stats.ttest_1samp(draws, 0.0, axis=1).pvalue < 0.05
    assert 0.8 < seen.mean() < 0.84


def test_pairs_needed_and_least_shown_turn_each_other_round():
    for pairs in (2, 3, 6, 24, 100):
        least = least_shown(pairs)
        assert paired_power(pairs, least) == pytest.approx(0.8, abs=1e-9)
        assert pairs_needed(least * 1.0001) == pairs
        assert pairs == 2 or pairs_needed(least * 0.999) == pairs + 1 or pairs > 50
    assert pairs_needed(0.05) is None
    assert pairs_needed(100.0) == 2


@pytest.mark.parametrize(("pairs", "enough"), [(6, False), (30, None), (60, True)])
def test_pairs_can_be_too_few(pairs, enough):
    trial = strip_trial("5 percent", None, pairs)
    assert (trial.enough, trial.needed, trial.known) == (enough, (10, 48), False)
    words = rigcalc.in_words(rigcalc.ground("front_wheel_assist", see="5 percent", pairs=pairs)).trial
    assert {False: "too few", None: "may do or may not", True: "are enough"}[enough] in words[1]
    assert "none is promised" in words[-1]


def test_what_is_typed_goes_before_what_is_from_memory():
    trial = strip_trial("1 percent", "8 percent", 4)
    assert (trial.scatter, trial.known) == ((0.08, 0.08), True)
    assert trial.shows[0] == trial.shows[1] == pytest.approx(0.08 * least_shown(4))
    assert strip_trial("0.2 percent", "8 percent", None).needed == (None, None)
    said = rigcalc.in_words(rigcalc.ground("front_wheel_assist", see="0.2 percent", scatter="8 percent")).trial[0]
    assert "over 1000 pairs" in said
    assert strip_trial(None, None, None) is None
    assert rigcalc.ground("front_wheel_assist").trial is None


@pytest.mark.parametrize("typed", [
    {"see": "5"}, {"see": "5 bu"}, {"see": "nan percent"}, {"see": "0 percent"}, {"see": "101 percent"},
    {"scatter": "8 percent"}, {"pairs": 1}, {"pairs": 1001}, {"pairs": True}, {"pairs": "six"}, {"pairs": 2.5},
    {"see": "5 percent", "scatter": "-1 percent"},
])  # fmt: skip
def test_bad_input_gives_no_number(typed):
    with pytest.raises(rigcalc.InputError):
        rigcalc.ground("front_wheel_assist", **typed)
