"""What readings leave of the doubt, against slow integrals and draws of the prior that share nothing with it but the chain."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

import numpy as np
import pytest
from scipy import stats
from weighed_readings import LONG, PLAIN, RANGES, RIG, moments, seen, weighed

from rigcalc.models.machine.draft_force import draft_force
from rigcalc.models.machine.draws import Draws, number
from rigcalc.models.machine.engine import OVER_TEST
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.machine.posterior import COUNT, Posterior
from rigcalc.models.machine.scores import Layout, doubt, draws_of
from rigcalc.models.machine.seen import Seen, error_of, levels_said
from rigcalc.models.machine.statics import plain


def trapezoid(low: float, high: float, count: int) -> tuple[Any, Any]:
    """Give points and their weights."""
    points = np.linspace(low, high, count)
    share = np.full(count, (high - low) / (count - 1))
    share[[0, -1]] /= 2
    return points, share


def cut_normal(level: Any, spread: float) -> Any:
    sigma = spread / 2
    return stats.truncnorm(-1 / sigma, 1 / sigma, loc=1, scale=sigma).ppf(level)


def slow_moments(readings: list[Seen]) -> dict[str, float]:
    """Integrate over draft, cone index, the load's and fuel's bias and each stretch of one day, by the trapezoid rule."""
    (row_score, row_share), (cone_score, cone_share) = trapezoid(-4.8, 4.8, 121), trapezoid(-4.0, 4.0, 25)
    (bias, bias_share), (stretch, stretch_share) = trapezoid(-3.8, 3.8, 25), trapezoid(-5.0, 5.0, 81)
    for points, share in ((row_score, row_share), (cone_score, cone_share), (bias, bias_share), (stretch, stretch_share)):
        share *= stats.norm.pdf(points)
    rho = number("correlation")
    row = cut_normal(stats.norm.cdf(row_score), RANGES[0])[:, None, None]
    both = rho * row_score[:, None] + np.sqrt(1 - rho**2) * cone_score[None, :]
    cone = cut_normal(stats.norm.cdf(both), RANGES[1])[:, :, None]
    whole = np.ones((row_score.size, cone_score.size, bias.size, 1))
    fuels = any("fuel" in each.numbers for each in readings)
    fuel_bias, fuel_share = (bias, bias_share) if fuels else (np.zeros(1), np.ones(1))
    whole = whole * np.ones(fuel_bias.size)
    for each in readings:
        nothing = np.zeros(())
        drawn = Draws(row=row, cone=cone, deep=nothing, texture=nothing, behind=nothing + 2.0, usual=nothing + 0.3)
        point = solve(each.rig, draft_factor=np.exp(each.spread * stretch)[None, None, :], drawn=drawn)
        fits = np.where(np.isfinite(point.slip), 1.0, 0.0)
        if "slip" in each.numbers:
            value, error = each.numbers["slip"]
            fits = fits * np.nan_to_num(stats.norm.pdf(point.slip, value, error_of("slip", value, error)))
        if "pull" in each.numbers:
            value, error = each.numbers["pull"]
            fits = fits * stats.norm.pdf(np.log(point.drawbar_pull / value) + 0 * fits, 0, error)
        by_load, by_fuel = np.ones((*fits.shape, 1)), np.ones((*fits.shape, 1))
        if "load" in each.numbers:
            value, error = each.numbers["load"]
            load = point.engine_share * each.rig.rated_pto / each.rig.maximum_pto  # at rated speed all of it is there
            off = np.log(np.nan_to_num(load, nan=1e9) / value)[..., None] + doubt("load_bias") * bias
            by_load = stats.norm.pdf(off, 0, error)
        if "fuel" in each.numbers:
            value, error = each.numbers["fuel"]
            rate = np.log(np.nan_to_num(point.fuel_rate, nan=1e9) / value) - np.log(1 + OVER_TEST) / 2
            by_fuel = stats.norm.pdf(rate[..., None] + doubt("fuel_bias") * fuel_bias, 0, error)
        whole = whole * np.einsum("rcs,s,rcsl,rcsf->rclf", fits, stretch_share, by_load, by_fuel, optimize=True)
    left = np.einsum("rclf,l,f,r,c->rc", whole, bias_share, fuel_share, row_share, cone_share, optimize=True)
    left /= left.sum()
    out = {}
    for name, values in (("row", row[:, :, 0] + 0 * left), ("cone", cone[:, :, 0])):
        mean = float(np.sum(left * values))
        out |= {name: mean, f"{name} off": float(np.sqrt(np.sum(left * (values - mean) ** 2)))}
    return out


def cases() -> list[list[Seen]]:
    random = np.random.default_rng(7)
    out = []
    for _ in range(50):
        readings = []
        kinds = [["load"], ["slip"], ["pull"], ["load", "slip"], ["load", "fuel"], ["load", "slip", "fuel"]][random.integers(6)]
        for place in range(random.integers(1, 4)):
            depth = float(random.uniform(26, 36))
            # Numbers around a common draft: 0.8 to 1.25 times the likely one.
            there = solve(PLAIN.at(depth=depth, speed=8.0), draft_factor=float(random.uniform(0.8, 1.25)))
            value = {"load": there.engine_share, "slip": there.slip, "pull": there.drawbar_pull, "fuel": there.fuel_rate}
            numbers = {kind: (float(value[kind]), 0.01 if kind == "slip" else 0.03) for kind in kinds}
            readings.append(seen(numbers, PLAIN, place=place, depth=depth, spread=float(random.uniform(0.05, 0.12))))
        out.append(readings)
    return out


SHARE = range(0, 50, 1 if LONG else 7)


@lru_cache(maxsize=50)
def slowly(place: int) -> dict[str, float]:
    return slow_moments(cases()[place])


def farthest_off(place: int, count: int) -> float:
    """How far means and standard deviations of so many draws lie off the integrals, as a share, at most."""
    quick, slow = moments(weighed(*cases()[place], count=count)), slowly(place)
    return max(abs(quick[name] / slow[name] - 1) for name in slow)


@pytest.mark.slow
@pytest.mark.parametrize("place", SHARE)
def test_agrees_with_slow_integrals_to_one_percent(place: int) -> None:
    assert farthest_off(place, COUNT) <= 0.01, "as many draws as answers go by"
    assert farthest_off(place, 4 * COUNT) <= 0.0075, "and nearer with more"


@pytest.mark.slow
def test_half_as_many_draws_are_too_few_for_one_percent() -> None:
    """So `COUNT` is as small as one percent allows; sizes are powers of two."""
    assert COUNT & (COUNT - 1) == 0
    off = [farthest_off(place, COUNT // 2) for place in SHARE]
    assert max(off) > 0.01


def test_two_days_agree_with_slow_integrals() -> None:
    """Pull alone: nothing but the field's draft, each day's and each stretch's comes in."""
    readings = [seen({"pull": (value, 0.03)}, PLAIN, place=place, day=day, spread=0.06)
                for place, (day, value) in enumerate((("a", 80.0), ("a", 84.0), ("b", 105.0)))]  # fmt: skip
    points, share = trapezoid(-4.5, 4.5, 121)
    share = share * stats.norm.pdf(points)
    own, stays = np.sqrt(doubt("day_share")), np.sqrt(1 - doubt("day_share"))
    row = cut_normal(stats.norm.cdf(stays * points[:, None] + own * points[None, :]), RANGES[0])  # field, day
    fit = {}
    for day in "ab":
        fit[day] = np.ones_like(row)
        for each in (each for each in readings if each.day == day):
            pull = solve(each.rig, draft_factor=row[:, :, None] * np.exp(each.spread * points)).drawbar_pull
            fit[day] = fit[day] * (stats.norm.pdf(np.log(pull / each.numbers["pull"][0]), 0, 0.03) @ share)
    field = share * (fit["b"] @ share)
    left = field[:, None] * fit["a"] * share[None, :]
    left /= left.sum()
    mean = float(np.sum(left * row))
    off = float(np.sqrt(np.sum(left * (row - mean) ** 2)))
    quick = moments(weighed(*readings, count=65536))
    assert quick["row"] == pytest.approx(mean, rel=0.01)
    assert quick["row off"] == pytest.approx(off, rel=0.03)


def test_everything_uncertain_together_agrees_with_a_million_draws_of_the_prior() -> None:
    """Deep chisel, texture and wheel tracks in play: plain weights on draws of the prior, which nothing steers."""
    readings = [seen({"load": (1.0, 0.08), "slip": (0.1, 0.02)}, spread=0.1, depth=36.0)]
    random = np.random.default_rng(3)
    layout = Layout(1, 1)
    scores = random.standard_normal((1 << 20, layout.count))
    drawn = draws_of(scores, layout.day(0), *RANGES)
    levels = levels_said(readings[0], scores, drawn, np.exp(0.1 * scores[:, layout.stretch(0)]))
    off = (levels - readings[0].levels) / readings[0].errors
    weights = np.nan_to_num(np.exp(-0.5 * np.sum(off**2, axis=1)))
    brute = Posterior(scores, weights / weights.sum(), layout, ("a",), RANGES)
    quick = weighed(*readings, count=65536)
    for name, value in moments(brute).items():
        assert moments(quick)[name] == pytest.approx(value, rel=0.02), name
    draft = [each.weights @ draft_force(RIG.at(depth=43.0), plain, draws_of(each.scores, each.day("a"), *RANGES))
             for each in (brute, quick)]  # fmt: skip
    assert draft[1] == pytest.approx(draft[0], rel=0.01)
