"""The jobs of one tractor: their draft, what they take, the mass that suits each, and the job that has no pull at all."""

import numpy as np
import pytest
from ballast_rigs import plain

from rigcalc.core.errors import InputError
from rigcalc.models.ballast.jobs import JOBS, jobs
from rigcalc.models.ballast.mass_curve import FLAT, delivery_of, with_mass
from rigcalc.models.machine.limits import caps
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import bare


def jobs_of(**changes):
    rig = plain(**changes)
    b = bare(rig)
    return b, caps(rig, b), jobs(b, caps(rig, b))


def test_each_job_is_the_operating_point_at_its_draft():
    b, _, found = jobs_of()
    assert tuple(job.name for job in found.jobs) == JOBS
    assert [job.draft_factor for job in found.jobs[:2]] == [0.5, 1.0]
    for job in found.jobs:
        p = solve(b, draft_factor=job.draft_factor)
        assert job.pull == pytest.approx(float(p.drawbar_pull), rel=1e-12)
        assert job.slip == pytest.approx(float(p.slip), rel=1e-12)
        assert job.engine_share == pytest.approx(float(p.engine_share), rel=1e-12)
        assert job.delivery == pytest.approx(float(p.drawbar_power / (p.axle_power / b.axle_ratio)), rel=1e-12)
        assert job.lost == pytest.approx(1 - job.delivery / job.best.delivery)
        assert found[job.name] is job


def test_the_full_job_takes_all_of_the_rated_power():
    b, c, found = jobs_of()
    full = found["full"]
    assert full.engine_share == pytest.approx(1, abs=1e-4)
    assert full.engine_share <= 1
    assert full.slip < c.slip_high
    assert float(solve(b, draft_factor=full.draft_factor * 1.001).engine_share) > 1


def test_where_grip_ends_first_the_full_job_ends_there():
    b, c, found = jobs_of(ground__surface="soft", tractor__rated_power="900 hp", tractor__maximum_power=None)
    full = found["full"]
    assert full.engine_share < 1
    assert full.slip == pytest.approx(c.slip_high, abs=1e-4)
    assert full.slip <= c.slip_high
    assert float(solve(b, draft_factor=full.draft_factor * 1.001).slip) > c.slip_high


def test_masses_that_suit_all_jobs_suit_each(monkeypatch):
    # Half the draft wants about half the mass, so the usual three jobs have none in common; three that are alike have.
    monkeypatch.setattr("rigcalc.models.ballast.jobs.LIGHT", 0.95)
    b, _, found = jobs_of(tractor__rated_power="310 hp", tractor__maximum_power=None)
    assert 1 < found["full"].draft_factor < 1.2
    for job in found.jobs:
        ends = solve(with_mass(b, np.array([found.low, found.high])), draft_factor=job.draft_factor)
        assert (delivery_of(ends) >= FLAT * job.best.delivery * (1 - 1e-6)).all()
    assert found.low == max(job.best.low for job in found.jobs)
    assert found.high == min(job.best.high for job in found.jobs)


def test_jobs_far_apart_have_no_mass_in_common():
    _, _, found = jobs_of()
    assert found["light"].best.high < found["full"].best.low
    assert (found.low, found.high) == (None, None)


def test_a_job_without_pull_has_no_best_mass_and_no_loss():
    # So steep a slope downhill that the tractor's own weight pushes harder than half the draft holds back.
    _, _, found = jobs_of(ground__grade="-20 deg")
    light = found["light"]
    assert light.slip == 0, "the wheels have nothing to do"
    assert light.best is None
    assert light.lost is None
    assert (found.low, found.high) == (None, None), "no mass suits a job that has none"


def test_a_job_nobody_can_pull_has_no_loss():
    _, _, found = jobs_of(work__depth="40 in", ground__surface="soft")
    assert np.isnan(found["this"].slip)
    assert found["this"].lost is None


def test_no_job_takes_more_than_twenty_times_the_draft():
    b, _, found = jobs_of(implement__tools=1, work__depth="2 in")
    assert found["full"].draft_factor == 20
    assert float(solve(b, draft_factor=20.0).engine_share) < 1


def test_a_tractor_that_can_do_nothing_has_a_full_job_of_a_twentieth():
    _, _, found = jobs_of(tractor__rated_power="20 hp", tractor__maximum_power=None)
    assert (found["full"].draft_factor, found["full"].ends) == (0.05, "engine")


def test_another_job_is_refused():
    with pytest.raises(InputError, match="light, this, full"):
        jobs_of()[2]["heavy"]
