"""How sure: the draws are the distribution they claim to be, and what comes of them is ordered, monotone and repeatable."""

import numpy as np
import pytest
from scipy.optimize import brentq
from scipy.stats import truncnorm

from rigcalc.models import DEMO_RIGS, demo_rig, replaced, size
from rigcalc.models.machine.limits import caps, shares
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.machine.sure import DRAWS, chance_over, draws, how_sure
from rigcalc.models.rig.bare import bare

LEVELS = np.linspace(0.02, 0.98, 33)


@pytest.mark.parametrize("spread", [0.15, 0.3, 0.5, 1.0])
def test_draws_are_the_cut_off_normal(spread):
    """A range of 50 percent is two standard deviations of 25 percent, cut at nothing and at double."""
    draft, cone = draws(spread, 0.3, 0)
    sigma = spread / 2
    wanted = truncnorm(-1 / sigma, 1 / sigma, loc=1, scale=sigma)
    np.testing.assert_allclose(np.quantile(draft, LEVELS, method="hazen"), wanted.ppf(LEVELS), rtol=1e-4)
    assert draft.mean() == pytest.approx(1, abs=1e-9)
    assert draft.std() == pytest.approx(wanted.std(), rel=5e-3)
    assert draft.min() > 0
    assert draft.max() < 2
    assert len(draft) == len(cone) == DRAWS
    assert abs(np.corrcoef(draft, cone)[0, 1]) < 0.08, "draft and strength are drawn apart"


def test_no_spread_no_scatter():
    draft, cone = draws(0.0, 0.0, 0)
    assert (draft == 1).all()
    assert (cone == 1).all()


@pytest.mark.parametrize("name", DEMO_RIGS)
def test_the_same_seed_gives_the_same_answer(name):
    a, b = size(demo_rig(name), seed=7).sure, size(demo_rig(name), seed=7).sure
    assert a == b
    other = size(demo_rig(name), seed=8).sure
    assert other.chance_works == pytest.approx(a.chance_works, abs=0.02)
    for field, (low, middle, high, unit) in a.bands.items():
        theirs = other.bands[field]
        assert theirs[3] == unit
        assert middle == pytest.approx(theirs[1], rel=0.02)
        assert low == pytest.approx(theirs[0], rel=0.05)
        assert high == pytest.approx(theirs[2], rel=0.05)


@pytest.mark.parametrize("name", DEMO_RIGS)
@pytest.mark.parametrize("depth", ["8 in", "14 in", "20 in", "30 in"])
def test_bands_are_ordered_and_hold_the_likely_value(name, depth):
    rig = replaced(demo_rig(name), {"work.depth": depth})
    answer = size(rig)
    for field, (low, middle, high, _) in answer.sure.bands.items():
        ends = [np.inf if end is None else end for end in (low, middle, high)]
        assert ends == sorted(ends), field
        likely = float(getattr(answer.point.bare, field))
        if np.isfinite(likely) and np.isfinite(ends[2]):
            assert ends[0] <= likely <= ends[2], field
    assert 0 <= answer.sure.chance_works <= answer.sure.chance_pulls <= 1


def test_the_draft_band_is_the_table_s_range():
    """Eight fields in ten of a 50 percent range: 1.28 standard deviations of 25 percent either way."""
    low, middle, high, unit = size(demo_rig()).sure.bands["draft"]
    draft = float(size(demo_rig()).point.bare.draft)
    wanted = truncnorm(-4, 4, loc=1, scale=0.25).ppf([0.1, 0.5, 0.9])
    assert unit == "kN"
    np.testing.assert_allclose([low / draft, middle / draft, high / draft], wanted, rtol=2e-3)


def test_the_chance_is_that_of_the_draft_that_is_just_too_much():
    """With soil strength held, the chance that it pulls is the share of drafts under the one that is just too much."""
    rig = replaced(demo_rig(), {"work.depth": "22 in", "implement.rated_depth": None})
    b = bare(rig)
    c = caps(rig, b)

    def margin(factor):
        return float(shares(b, solve(b, draft_factor=factor), c)["engine"]) - 1

    just = brentq(margin, 0.2, 1.6)
    assert shares(b, solve(b, draft_factor=just), c)["grip"] < 1
    wanted = truncnorm(-4, 4, loc=1, scale=0.25).cdf(just)
    assert 0.2 < wanted < 0.9
    assert how_sure(b, c, cone_spread=0.0).chance_pulls == pytest.approx(wanted, abs=1 / DRAWS + 1e-9)


@pytest.mark.parametrize("name", DEMO_RIGS)
def test_deeper_is_never_surer(name):
    rig = replaced(demo_rig(name), {"implement.rated_depth": None, "implement.rated_power_per_tool": None})
    b = bare(rig)
    depths = np.linspace(8, 90, 60)
    pulls, works = chance_over(b, caps(rig, b), depths)
    assert (np.diff(pulls) <= 0).all()
    assert pulls[0] > 0.99
    assert pulls[-1] < 0.5
    assert (works <= pulls + 1e-12).all()
    spot = how_sure(b.at(depth=float(depths[30])), caps(rig, b))
    assert pulls[30] == pytest.approx(spot.chance_pulls, abs=0.03)
