"""Residue over a chain of passes: sums by hand on the table's rows, verdicts that say no, every fault at once."""

import math

import pytest

from rigcalc import InputError
from rigcalc.core.tables import table
from rigcalc.models.ground import residue as module
from rigcalc.models.ground.residue import operations, own_pass, residue_left
from rigcalc.models.machine.judgement import Judgement

CHAIN = ["overwinter_weathering", "chisel_plow_twisted_point", "disk_tandem_finishing"]


def left(keep=None, cover="90 percent", passes=CHAIN, kind="non_fragile", tool="chisel_twisted"):
    return residue_left(tool, cover, passes, kind, keep)


def test_a_chain_is_the_product_of_its_rows():
    found = left()
    assert found.after == pytest.approx((0.9 * 0.7 * 0.5 * 0.4, 0.9 * 0.9 * 0.7 * 0.7))
    assert [one.cover[1] for one in found.passes] == pytest.approx([0.81, 0.567, 0.3969])
    assert found.judgement is None
    assert found.lost_at is None


@pytest.mark.parametrize(
    ("keep", "judgement", "lost"),
    [
        ("10 percent", Judgement.GO, None),
        ("30 percent", Judgement.TRY, "disk_tandem_finishing"),
        ("40 percent", Judgement.DONT, "chisel_plow_twisted_point"),
        ("12.6 percent", Judgement.GO, None),  # to the bit of the least that is left
        ("39.69 percent", Judgement.TRY, "chisel_plow_twisted_point"),
        ("0 percent", Judgement.GO, None),
    ],
)
def test_it_can_say_no(keep, judgement, lost):
    found = left(keep)
    assert found.judgement is judgement
    assert (found.lost_at.operation if found.lost_at else None) == lost


def test_fragile_residue_keeps_less_and_the_sources_of_one_operation_span():
    assert left(kind="fragile").after[1] < left().after[1]
    one = left(passes=["chisel_plow_straight_point"]).passes[0]
    assert one.left == (0.6, 0.8)
    rod = left(passes=["rod_weeder"], kind="fragile").passes[0]
    assert (rod.left, rod.by_kind) == ((0.9, 0.9), False)


def test_rows_of_several_sources_are_joined(monkeypatch):
    both = [{"operation": "made", "residue": "fragile", "low": low, "high": high, "source": "", "sure": "computed", "note": ""}
            for low, high in ((30, 50), (40, 70))]  # fmt: skip
    monkeypatch.setattr(module, "table", lambda name: both if name == "residue" else [])
    assert residue_left("made", "50 percent", ["made"], "fragile").after == pytest.approx((0.15, 0.35))


def test_the_rigs_own_pass():
    assert left(passes=[]).passes[0].operation == "chisel_plow_twisted_point"
    assert [one.operation for one in left(passes=["this", "this"], tool="subsoiler_narrow").passes] == [
        "subsoiler_v_ripper"
    ] * 2
    known = set(operations())
    assert all(row["operation"] in known for row in table("residue_of_tools"))
    assert own_pass("coulter") is None
    with pytest.raises(InputError, match="residue table for coulter"):
        left(passes=["this"], tool="coulter")


def test_nothing_asked_is_no_answer():
    assert residue_left("chisel_straight") is None


def test_every_fault_at_once():
    with pytest.raises(InputError) as caught:
        residue_left("chisel_straight", "0 percent", ["disk", "this", ""], "straw", "130 percent")
    assert [fault.where for fault in caught.value.faults] == ["cover", "keep", "residue", "pass 1", "pass 3"]
    assert "disk_" in caught.value.faults[3].type_this


@pytest.mark.parametrize(
    "words",
    [
        (None, ["this"]), ("85", ["this"]), ("85 in", ["this"]), (85, ["this"]), ("nan percent", ["this"]),
        ("85 percent", "this"), ("85 percent", [1]), ("85 percent", ["this"] * 31), ("85 percent", ["this"], 7),
        ("85 percent", ["this"], "fragile", "x"),
        (None, (), "non_fragile", "30 percent"), (None, (), "straw"),
    ],
)  # fmt: skip
def test_bad_input_gives_no_number(words):
    with pytest.raises(InputError):
        residue_left("chisel_straight", *words)


def test_every_operation_leaves_a_share_and_never_adds():
    for name in operations():
        for kind in ("non_fragile", "fragile"):
            try:
                one = left(passes=[name], kind=kind).passes[0]
            except InputError:
                continue  # sources with one kind alone
            assert 0 <= one.left[0] <= one.left[1] <= 1
            assert all(math.isfinite(end) for end in one.cover)
