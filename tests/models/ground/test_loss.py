"""Yield that compaction costs: the table's span, what is typed, how it fades by hand, and where there is no figure."""

import numpy as np
import pytest

import rigcalc
from rigcalc.core.errors import InputError
from rigcalc.models.ground.loss import yield_loss
from rigcalc.models.rig.file import load_rig, replaced

NONE = {"loss": None, "lasting": None, "fades": None}
HEAVY, LIGHT = load_rig("articulated"), load_rig("two_wheel_drive")


def test_the_span_of_published_trials_and_how_it_fades_by_hand():
    """6 percent, 2.5 of it for good and 3.5 fading over 5 years: 3.5 x (5 + 4 + 3 + 2 + 1) / 5 and twelve times 2.5."""
    found = yield_loss(NONE, {})
    assert (found.first, found.lasting, found.fades) == ((0.06, 0.3), (0.025, 0.1), (5.0, 10.0))
    assert found.low[:6] == pytest.approx(np.array([6, 5.3, 4.6, 3.9, 3.2, 2.5]) / 100)
    assert found.high[[0, 9, 10, 11]] == pytest.approx([0.3, 0.12, 0.1, 0.1])
    assert found.in_all == pytest.approx(((3.5 * 3 + 12 * 2.5) / 100, (20 * 5.5 + 12 * 10) / 100))


def test_typed_goes_before_the_rig_file_and_the_file_before_the_table():
    file = replaced(HEAVY, {"ground.yield_loss": "8 percent", "ground.yield_loss_fades": "3 years"})
    own = rigcalc.ground(file).loss
    assert (own.first, own.lasting, own.fades) == ((0.08, 0.08), (0.025, 0.08), (3.0, 3.0))
    assert own.typed == ("loss", "fades")
    assert yield_loss(NONE | {"loss": "1 to 20 percent"}, {}).lasting == (0.01, 0.1), "no more for good than at first"
    typed = rigcalc.ground(file, loss="4 to 9.5 %", lasting="0 percent").loss
    assert (typed.first, typed.lasting) == ((0.04, 0.095), (0.0, 0.0))
    said = " ".join(rigcalc.in_words(rigcalc.ground(file, lasting="0 percent")).pressing)
    assert "as typed" in said
    assert "from memory, the rest" not in said


def test_light_axles_have_no_figure_unless_somebody_types_one():
    found = rigcalc.ground(LIGHT)
    assert (found.loss.deep, found.loss.known) == (False, False)
    said = " ".join(rigcalc.in_words(found).pressing)
    assert "small and gone within two years" in said
    assert "for good" not in said
    assert rigcalc.ground(LIGHT, loss="3 percent").loss.known
    assert rigcalc.ground(LIGHT, axles=["cart: 18 t on 2 tyres of 42 in by 78 in"]).loss.deep
    wide = rigcalc.ground(LIGHT, axles=["cart: 10.5 t on 4 tyres of 42 in by 78 in"])
    assert (wide.pressing.breaks_rule, wide.loss.deep) == ((), True), "over 10 t, if on wide tyres"
    heavy = rigcalc.ground(HEAVY)
    assert heavy.loss.deep
    said = " ".join(rigcalc.in_words(heavy).pressing)
    assert "6 % to 30 % less in the first year, 2.5 % to 10 % for good, the least of it from memory, the rest" in said
    assert "no promise" in said
    assert "of the field wheeled" not in said


def test_with_a_field_the_loss_goes_by_the_share_that_is_wheeled():
    answer = rigcalc.ground(HEAVY, field="800 m by 400 m", traffic=["combine: 9 m apart, 2 tyres of 750 mm"], loss="10 percent")
    share = answer.zones.lanes.now
    assert answer.loss.wheeled == share
    (said,) = [line for line in rigcalc.in_words(answer).pressing if "of the field wheeled" in line]
    assert f"{100 * share:.0f} % of the field wheeled, {10 * share:.1f} % of its yield" in said


@pytest.mark.parametrize(
    ("texts", "where"),
    [
        ({"loss": "6"}, ["loss"]),
        ({"loss": "30 to 6 percent", "fades": "0 years"}, ["loss", "fades"]),
        ({"loss": "600 percent", "lasting": "-1 percent", "fades": "5 percent"}, ["loss", "lasting", "fades"]),
        ({"loss": "5 percent", "lasting": "10 percent"}, ["lasting"]),
        ({"loss": "5 to 6 percent", "lasting": "0 to 10 percent"}, ["lasting"]),
        ({"loss": 6, "lasting": "\u0661 percent"}, ["loss", "lasting"]),
    ],
)
def test_what_is_no_loss_is_refused_at_once(texts, where):
    with pytest.raises(InputError) as error:
        yield_loss(NONE | texts, {})
    assert [fault.where for fault in error.value.faults] == where


def test_a_fault_of_the_rig_file_is_named_there():
    with pytest.raises(InputError, match=r"ground\.yield_loss_fades: .*1 to 50 year"):
        rigcalc.ground(replaced(HEAVY, {"ground.yield_loss_fades": "soon"}))
