"""How sure: the draws are the distribution they claim to be, and what comes of them is ordered, monotone and repeatable."""

import numpy as np
import pytest
from known_rigs import KNOWN_RIGS, known_rig
from scipy.optimize import brentq
from scipy.stats import truncnorm

from rigcalc.core.tables import table
from rigcalc.models import replaced, size
from rigcalc.models.machine.draft_force import deep_most
from rigcalc.models.machine.draws import DRAWS, draws
from rigcalc.models.machine.limits import caps, shares
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.machine.sure import chance_over, how_sure
from rigcalc.models.rig.bare import bare

LEVELS = np.linspace(0.02, 0.98, 33)


@pytest.mark.parametrize("spread", [0.15, 0.3, 0.5, 1.0])
def test_draws_are_the_cut_off_normal(spread):
    """A range of 50 percent is two standard deviations of 25 percent, cut at nothing and at double."""
    drawn = draws(spread, 0.3, 0)
    draft, cone = drawn.row, drawn.cone
    sigma = spread / 2
    wanted = truncnorm(-1 / sigma, 1 / sigma, loc=1, scale=sigma)
    np.testing.assert_allclose(np.quantile(draft, LEVELS, method="hazen"), wanted.ppf(LEVELS), rtol=1e-4)
    assert draft.mean() == pytest.approx(1, abs=1e-9)
    assert draft.std() == pytest.approx(wanted.std(), rel=5e-3)
    assert draft.min() > 0
    assert draft.max() < 2
    assert len(draft) == len(cone) == DRAWS
    np.testing.assert_allclose(np.quantile(cone, LEVELS, method="hazen"), truncnorm(-1 / 0.15, 1 / 0.15, 1, 0.15).ppf(LEVELS),
                               rtol=1e-4)  # fmt: skip


@pytest.mark.parametrize("correlation", [0.0, 0.5, 0.8])
def test_hard_ground_pulls_harder(correlation):
    """Draft and cone index are drawn together; nothing else is."""
    drawn = draws(0.5, 0.3, 0, correlation=correlation)
    assert np.corrcoef(drawn.row, drawn.cone)[0, 1] == pytest.approx(correlation, abs=0.05)
    assert table("draft_doubt")["correlation_across_fields"]["value"] < table("draft_doubt")["correlation"]["value"]
    assert table("draft_doubt")["correlation"]["value"] < table("draft_doubt")["correlation_one_field"]["value"]
    for name in ("deep", "texture", "behind", "usual"):
        assert abs(np.corrcoef(getattr(drawn, name), drawn.row)[0, 1]) < 0.08, name
        assert abs(np.corrcoef(getattr(drawn, name), drawn.cone)[0, 1]) < 0.08, name


def test_hard_limits_reach_their_ends_and_no_further():
    drawn = draws(0.5, 0.3, 0, reading="hard_limits")
    assert drawn.row.min() == pytest.approx(0.5, abs=1e-3)
    assert drawn.row.max() == pytest.approx(1.5, abs=1e-3)
    assert np.quantile(drawn.row, 0.9) == pytest.approx(1.4, abs=1e-3)


def test_no_spread_no_scatter():
    drawn = draws(0.0, 0.0, 0)
    assert (drawn.row == 1).all()
    assert (drawn.cone == 1).all()


@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_the_same_seed_gives_the_same_answer(name):
    a, b = size(known_rig(name), seed=7).sure, size(known_rig(name), seed=7).sure
    assert a == b
    other = size(known_rig(name), seed=8).sure
    assert other.chance_works == pytest.approx(a.chance_works, abs=0.02)
    for field, (low, middle, high, unit) in a.bands.items():
        theirs = other.bands[field]
        assert theirs[3] == unit
        assert middle == pytest.approx(theirs[1], rel=0.02)
        assert low == pytest.approx(theirs[0], rel=0.05)
        assert high == pytest.approx(theirs[2], rel=0.05)


@pytest.mark.parametrize("name", KNOWN_RIGS)
@pytest.mark.parametrize("depth", ["8 in", "14 in", "20 in", "30 in"])
def test_bands_are_ordered_and_hold_the_likely_value(name, depth):
    rig = replaced(known_rig(name), {"work.depth": depth})
    answer = size(rig)
    for field, (low, middle, high, _) in answer.sure.bands.items():
        ends = [np.inf if end is None else end for end in (low, middle, high)]
        assert ends == sorted(ends), field
        likely = float(getattr(answer.point.bare, field))
        if np.isfinite(likely) and np.isfinite(ends[2]):
            assert ends[0] <= likely <= ends[2], field
    assert 0 <= answer.sure.chance_works <= answer.sure.chance_pulls <= 1


def on_its_row(rig):
    """The rig as bare numbers, with nothing that moves draft off its row."""
    return bare(rig).at(deep_from=None, covered_width=None)


def test_the_draft_band_is_the_table_s_range():
    """Eight fields in ten of a 50 percent range: 1.28 standard deviations of 25 percent either way."""
    b = on_its_row(known_rig())
    draft = float(solve(b).draft)
    low, middle, high, unit = how_sure(b, caps(known_rig(), b)).bands["draft"]
    wanted = truncnorm(-4, 4, loc=1, scale=0.25).ppf([0.1, 0.5, 0.9])
    assert unit == "kN"
    np.testing.assert_allclose([low / draft, middle / draft, high / draft], wanted, rtol=2e-3)


def test_the_chance_is_that_of_the_draft_that_is_just_too_much():
    """With soil strength held, the chance that it pulls is the share of drafts under the one that is just too much."""
    rig = replaced(known_rig(), {"work.depth": "22 in", "implement.rated_depth": None})
    b = on_its_row(rig)
    c = caps(rig, b)

    def margin(factor):
        return float(shares(b, solve(b, draft_factor=factor), c)["engine"]) - 1

    just = brentq(margin, 0.2, 1.6)
    assert shares(b, solve(b, draft_factor=just), c)["grip"] < 1
    wanted = truncnorm(-4, 4, loc=1, scale=0.25).cdf(just)
    assert 0.2 < wanted < 0.9
    assert how_sure(b, c, cone_spread=0.0).chance_pulls == pytest.approx(wanted, abs=1 / DRAWS + 1e-9)


MEASURED_DEEP = {"implement.tools": 5, "work.depth": "45 cm", "work.speed": "4.23 km/h", "ground.texture": "clay"}


def test_the_deep_measurement_lies_in_our_band():
    """schlosser: five shanks 0.45 m deep in clay pulled 40.26 kN, 45 percent of the way from chisel to subsoiler row."""
    b = bare(replaced(known_rig(), MEASURED_DEEP)).at(covered_width=None)
    low, _, high, _ = how_sure(b, caps(known_rig(), b)).bands["draft"]
    assert low < 40.26 < high
    alone = how_sure(b.at(deep_from=None), caps(known_rig(), b)).bands["draft"]
    assert alone[2] < 40.26, "the chisel row alone leaves it out"


def test_doubt_about_the_row_begins_at_the_usual_depth_and_grows():
    b = bare(known_rig())
    depths = np.array([20.0, 30.48, 33.0, 40.0, 45.72, 60.0])
    most = deep_most(b.at(depth=depths))
    assert most[0] == most[1] == 0
    assert (np.diff(most[1:]) > 0).all()
    assert most[4] == pytest.approx(table("draft_doubt")["deep_most"]["value"])
    assert most.max() <= 1
    widths = []
    for depth in depths:
        low, middle, high, _ = how_sure(b.at(depth=float(depth)), caps(known_rig(), b)).bands["draft"]
        widths.append((high - low) / middle)
    assert (np.diff(widths) >= -1e-9).all()
    assert widths[4] > 1.2 * widths[0]


def test_a_subsoiler_is_not_mixed_with_itself():
    assert deep_most(bare(replaced(known_rig(), {"implement.tool": "subsoiler_narrow", "work.depth": "18 in"}))) == 0


def test_a_texture_between_groups_scatters_to_the_other_side_alone():
    """Clay loam counts as medium here and as fine in many texts: drafts up to the fine factor, none below the medium one."""
    between = on_its_row(replaced(known_rig(), {"ground.texture": "clay loam"}))
    chosen = on_its_row(replaced(known_rig(), {"ground.texture": "clay loam", "ground.soil_group": "medium"}))
    assert float(solve(between).draft) == float(solve(chosen).draft)
    band, narrow = (how_sure(b, caps(known_rig(), b)).bands["draft"] for b in (between, chosen))
    assert band[1] > 1.05 * narrow[1]
    assert band[2] > 1.05 * narrow[2]


@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_deeper_is_never_surer(name):
    rig = replaced(known_rig(name), {"implement.rated_depth": None, "implement.rated_power_per_tool": None})
    b = bare(rig)
    depths = np.linspace(8, 90, 60)
    pulls, works = chance_over(b, caps(rig, b), depths)
    assert (np.diff(pulls) <= 0).all()
    assert pulls[0] > 0.99
    assert pulls[-1] < 0.5
    assert (works <= pulls + 1e-12).all()
    spot = how_sure(b.at(depth=float(depths[30])), caps(rig, b))
    assert pulls[30] == pytest.approx(spot.chance_pulls, abs=0.03)
