"""Verdicts held to bounds that were written down beforehand, each with its reason: verdict_table.toml."""

import pytest
from judged_jobs import JOBS, TABLE, rig_of

from rigcalc.models.machine.case import case_of
from rigcalc.models.machine.sure import how_sure
from rigcalc.models.size.verdict import Judgement, beyond, verdict


def judged(rig):
    case = case_of(rig)
    return verdict(case.point, case.used, how_sure(case.bare, case.caps).chance_works, beyond(case.bare))


@pytest.mark.parametrize("job", JOBS, ids=[job["id"] for job in JOBS])
def test_the_verdict_is_one_that_a_specialist_would_sign(job):
    found = judged(rig_of(job))
    assert found.judgement in job["may"], f"{found.state}: {job['why']}"


def test_the_table_is_wide_and_says_why():
    assert len(JOBS) >= 40
    assert len({job["id"] for job in JOBS}) == len(JOBS)
    known = {str(one) for one in Judgement}
    for job in JOBS:
        assert set(job["may"]) < known, job["id"]
        assert len(job["why"]) > 20, job["id"]
    drives = {TABLE["tractor"][job["rig"][0]]["drive"] for job in JOBS}
    assert drives == {"2WD", "MFWD", "4WD", "track"}
    for verdict_alone in known:
        assert sum(job["may"] == [verdict_alone] for job in JOBS) >= 3, verdict_alone
