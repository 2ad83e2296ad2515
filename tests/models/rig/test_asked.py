"""Questions asked from a program: a rig in any of its forms, options that are refused in words, every fault at once."""

from pathlib import Path

import numpy as np
import pytest

import rigcalc
from rigcalc import InputError, Q

QUESTIONS = [rigcalc.size, rigcalc.operating_point, rigcalc.ballast]


@pytest.mark.parametrize("ask", QUESTIONS)
def test_a_rig_a_path_or_a_name(ask, tmp_path):
    rig = rigcalc.load_rig("two_track")
    path = tmp_path / "rig.toml"
    path.write_text(rigcalc.rig_text(rig), encoding="utf-8")
    answers = [ask(form) for form in (rig, "two_track", str(path), path)]
    found = {str(getattr(answer, "sure", None) or getattr(answer, "stands", answer)) for answer in answers}
    assert len(found) == 1


@pytest.mark.parametrize("ask", QUESTIONS)
@pytest.mark.parametrize("rig", [None, 5, {"tractor": {}}, "tracs", Path("/nowhere/rig.toml"), "x\x00y"])
def test_what_is_no_rig(ask, rig):
    with pytest.raises(InputError, match="rig"):
        ask(rig)


@pytest.mark.parametrize("seed", [-1, 1.5, "1", None, True, np.float64(1)])
def test_seeds_that_are_none(seed):
    with pytest.raises(InputError, match="seed") as refused:
        rigcalc.size("two_track", seed=seed)
    assert len(refused.value.faults) == 1


def test_a_seed_of_numpy_is_one():
    assert rigcalc.size("two_track", seed=np.int64(3)).sure == rigcalc.size("two_track", seed=3).sure


@pytest.mark.parametrize("strict", ["yes", 1, 0, None, "warn"])
def test_strict_that_is_neither(strict):
    with pytest.raises(InputError, match="strict"):
        rigcalc.size("two_track", strict=strict)


def test_every_fault_of_a_call_at_once():
    with pytest.raises(InputError) as refused:
        rigcalc.operating_point("tracs", depth=3, speed=Q(1.0, "kg"), tools=2.5, threads=0, strict="maybe")
    said = str(refused.value)
    assert [word for word in ("tracs", "depth", "speed", "tools", "threads", "strict") if word not in said] == []
    assert len(refused.value.faults) == 6
    with pytest.raises(InputError) as refused:
        rigcalc.size(5, seed=-1)
    assert [fault.where for fault in refused.value.faults] == ["rig", "seed"]


def test_ballast_names_rig_job_and_units_at_once():
    with pytest.raises(InputError) as refused:
        rigcalc.ballast("tracs", job="nope", units="metric")
    assert [fault.where for fault in refused.value.faults] == ["rig file", "job", "units"]
    assert "light, this, full" in str(refused.value)


def test_strict_refuses_what_leaves_a_range_and_names_it():
    rig = rigcalc.demo_rig()
    assert rigcalc.size(rig, strict=True).works
    slow = Q([1.0, 5.5], "mph")
    assert rigcalc.operating_point(rig, speed=slow).pulls.all()
    with pytest.raises(InputError, match=r"load_ratio.*expected 0\.2 to 1"):
        rigcalc.operating_point(rig, speed=slow, strict=True)


@pytest.mark.parametrize(("call", "said"), [
    (lambda: rigcalc.table("d497_draf"), "d497_draft"), (lambda: rigcalc.table("d497_drafts"), "d497_draft"),
    (lambda: rigcalc.table("../rigcalc/models/rig/demo/two_track"), "published table"),
    (lambda: rigcalc.table(3), "published table"),
    (lambda: rigcalc.demo_rig("track"), "articulated"), (lambda: rigcalc.read_rig(b"x"), "text of a rig file"),
    (lambda: rigcalc.rig_text("two_track"), "load_rig"), (lambda: rigcalc.find(3), "a word"),
    (lambda: rigcalc.load_rig(3), "a path"),
])  # fmt: skip
def test_other_public_functions_refuse_in_words(call, said):
    with pytest.raises(InputError, match=said):
        call()
