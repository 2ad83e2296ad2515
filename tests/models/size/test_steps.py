"""The working's sums where an axle on tracks only rolls along: its belt loss is a loss of its own, no share of the drive's."""

from dataclasses import replace

import pytest
from known_rigs import known_rig

from rigcalc.models.rig.bare import bare
from rigcalc.models.size.steps import Sum, steps


@pytest.mark.parametrize(("rolls", "drives"), [("front", "rear"), ("rear", "front")])
def test_the_belt_loss_of_an_axle_that_rolls_along_is_taken_from_the_pull(rolls, drives):
    b = bare(known_rig("tracks")).at(depth=15.0)
    b = replace(b, **{rolls: replace(getattr(b, rolls), driven=False)})
    sums = {step.name: step for step in steps(b) if isinstance(step, Sum)}
    balance, force = ({name: value for name, value, _ in sums[name].terms} for name in ("slip_balance", "axle_force"))
    assert set(balance) == {
        f"{drives}_gross_traction", "front_motion_resistance", "rear_motion_resistance", f"{rolls}_belt_loss",
    }  # fmt: skip
    assert set(force) == {f"{drives}_gross_traction", f"{drives}_belt_loss"}
    assert balance[f"{rolls}_belt_loss"] < 0 < force[f"{drives}_belt_loss"]
    for name, terms in (("slip_balance", balance), ("axle_force", force)):
        assert sum(terms.values()) == pytest.approx(sums[name].value)
