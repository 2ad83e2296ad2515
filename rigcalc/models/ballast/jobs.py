"""Jobs of one tractor: half this draft, this draft, and as much as the engine gives; and the mass that suits each."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.ballast.mass_curve import Best, best_mass, delivery_of
from rigcalc.models.machine.limits import Caps
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import BareRig

LIGHT = 0.5  # our choice: a light job takes half the draft of the one in the rig file
JOBS = ("light", "this", "full")


@dataclass(frozen=True)
class Job:
    """One job at the rig's own speed: draft as a multiple of the rig's, pull in kN, share of rated power, slip as it stands.

    best is the mass that suits it (None where there is none); delivery is what arrives now, lost the share of it that the
    best mass would add.
    """

    name: str
    title: str
    draft_factor: float
    pull: float
    engine_share: float
    slip: float
    delivery: float
    best: Best | None

    @property
    def lost(self) -> float | None:
        """Share of the best delivery that is lost at today's mass."""
        return None if self.best is None or not np.isfinite(self.delivery) else 1 - self.delivery / self.best.delivery


@dataclass(frozen=True)
class Jobs:
    """All jobs, and the masses in kg that suit every one within 1 percent (None where none does)."""

    jobs: tuple[Job, ...]
    low: float | None
    high: float | None

    def __getitem__(self, name: str) -> Job:
        """Give a job by its name. Raises InputError."""
        for job in self.jobs:
            if job.name == name:
                return job
        raise InputError([Fault("job", shown(name), f"one of {', '.join(JOBS)}", "this")])


def jobs(b: BareRig, c: Caps) -> Jobs:
    """Work out the jobs of a rig and the mass that suits each."""
    full, title = full_draft(b, c)
    listed = (
        _job(b, "light", "half this draft", LIGHT),
        _job(b, "this", "this job", 1.0),
        _job(b, "full", title, full),
    )
    found = [job.best for job in listed if job.best is not None]
    low = max((best.low for best in found), default=None)
    high = min((best.high for best in found), default=None)
    if low is None or high is None or low > high or len(found) < len(listed):
        low = high = None
    return Jobs(listed, low, high)


def full_draft(b: BareRig, c: Caps) -> tuple[float, str]:
    """Give the draft, as a multiple of the rig's, that takes rated power at this speed with the tractor as it stands.

    Where grip ends before the engine does, the draft that brings slip to the end of its band; with words for which.
    """
    grid = np.geomspace(0.05, 20.0, 257)
    title = "all of the rated power"
    for _ in range(3):
        p = solve(b, draft_factor=grid)
        strong = p.engine_share <= 1.0
        grips = np.isfinite(p.slip) & (p.slip <= c.slip_high)
        fits = strong & grips
        if not fits.any():
            return float(grid[0]), title
        last = int(np.flatnonzero(fits)[-1])
        if last == grid.size - 1:
            break
        if not grips[last + 1]:
            title = f"all that grip gives at {100 * c.slip_high:.0f} % slip"
        grid = np.linspace(grid[last], grid[last + 1], 257)
    return float(grid[0]), title


def _job(b: BareRig, name: str, title: str, draft_factor: float) -> Job:
    p = solve(b, draft_factor=draft_factor)
    best = best_mass(b, draft_factor=draft_factor)
    return Job(name, title, draft_factor, float(p.drawbar_pull), float(p.engine_share), float(p.slip),
               float(delivery_of(p)), best)  # fmt: skip
