"""Slip of one tractor on two grounds, as a trial printed them: its mass isn't known, so one slip tells the other."""

import numpy as np
import pytest

from rigcalc.models import demo_rig
from rigcalc.models.machine import blocks
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.file import replaced


def slips(surface: str, mass: float) -> tuple[np.ndarray, np.ndarray]:
    """Give pull and slip of a two-wheel drive on this ground, pulling more and more. mass: over the demo's."""
    rig = demo_rig("two_wheel_drive")
    axles = {f"tractor.{axle}": f"{getattr(rig.tractor, axle).to('kg') * mass} kg"
             for axle in ("front_axle_mass", "rear_axle_mass")}  # fmt: skip
    found = blocks.run(bare(replaced(rig, {"ground.surface": surface, **axles})), np.linspace(0.2, 3, 400), 1.0, None,
                       ("slip", "drawbar_pull"), {}, 1)  # fmt: skip
    pulls = np.isfinite(found["slip"])
    return found["drawbar_pull"][pulls], found["slip"][pulls]


@pytest.mark.parametrize("mass", [0.9, 1.0, 1.1])
def test_ground_that_was_disked_slips_more_at_less_pull_as_printed(mass: float) -> None:
    """beltwide_chisel, abstract: 5030 lbf at 12.5 percent slip on silt loam just disked, 5870 lbf at 10.3 percent without.

    The two drafts are taken for the pulls. From the first we know how heavy the tractor pulls, and with it the second. Within
    two points: which class of ground either was isn't printed.
    """
    pull, slip = slips("soft", mass)
    there = np.interp(0.125, slip, pull)
    pull, slip = slips("firm", mass)
    assert np.interp(there * 5870 / 5030, pull, slip) == pytest.approx(0.103, abs=0.02)
