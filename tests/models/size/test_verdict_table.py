"""Verdicts held to bounds that were written down beforehand, each with its reason: verdict_table.toml."""

import tomllib
from pathlib import Path

import pytest

from rigcalc.models import replaced
from rigcalc.models.machine.case import case_of
from rigcalc.models.machine.sure import how_sure
from rigcalc.models.rig.file import rig_from
from rigcalc.models.size.verdict import Judgement, verdict

TABLE = tomllib.loads(Path(__file__).with_name("verdict_table.toml").read_text(encoding="utf-8"))
JOBS = TABLE["job"]


def rig_of(job):
    tractor, tool, tools, depth, speed, texture, surface = job["rig"]
    a_tool = TABLE["tool"][tool]
    each = {name: float(a_tool[name].split()[0]) * tools for name in ("mass", "hitch_load")}
    rig = rig_from({
        "tractor": TABLE["tractor"][tractor],
        "implement": a_tool | {"tools": tools, "mass": f"{each['mass']} lb", "hitch_load": f"{each['hitch_load']} lbf"},
        "ground": {"texture": texture, "surface": surface},
        "work": {"depth": f"{depth} in", "speed": f"{speed} mph"},
    })  # fmt: skip
    return replaced(rig, job.get("change", {}))


def judged(rig):
    case = case_of(rig)
    return verdict(case.point, case.used, how_sure(case.bare, case.caps).chance_works)


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
