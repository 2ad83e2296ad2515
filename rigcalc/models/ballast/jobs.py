"""Jobs of one tractor: half this draft, this draft, and as much as the engine gives; and the mass that suits each."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import numpy as np

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.ballast.mass_curve import Best, best_masses, delivery_of, over_masses
from rigcalc.models.ballast.reach import Reach
from rigcalc.models.machine.limits import Caps
from rigcalc.models.machine.operating_point import Point, solve
from rigcalc.models.machine.seeking import edge
from rigcalc.models.rig.bare import BareRig

LIGHT = 0.5  # our choice: a light job takes half the draft of the one in the rig file
JOBS = ("light", "this", "full")


@dataclass(frozen=True)
class Job:
    """One job at the rig's own speed: draft as a multiple of the rig's, pull in kN, share of rated power, slip as it stands.

    name: "light", "this" or "full". ends: what ends the full job, "engine" (all of the rated power) or "grip" (the end of the
    slip band, `slip_most`); empty for the others. best is the mass that suits it (None where there is none); delivery is what
    arrives now, lost the share of it that the best mass would add. point: all that is known of the job as the tractor stands.
    """

    name: str
    ends: str
    slip_most: float
    draft_factor: float
    pull: float
    engine_share: float
    slip: float
    delivery: float
    best: Best | None
    point: Point = field(repr=False)

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
        raise InputError([Fault("job", shown(name), f"one of {', '.join(JOBS)}", "full")])


def jobs(b: BareRig, c: Caps, reach: Reach | None = None) -> Jobs:
    """Work out the jobs of a rig and the mass that suits each, among the masses in reach (any when None)."""
    full, ends = full_draft(b, c)
    factors = [LIGHT, 1.0, full]
    masses = over_masses(b, factors)
    bests = best_masses(b, factors, masses, reach=reach)
    points = [Point(**{name: value[k, 0] for name, value in vars(masses).items()}) for k in range(len(factors))]
    listed = tuple(
        Job(
            name=name,
            ends=ends if name == "full" else "",
            slip_most=c.slip_high,
            draft_factor=factor,
            pull=float(p.drawbar_pull),
            engine_share=float(p.engine_share),
            slip=float(p.slip),
            delivery=float(delivery_of(p)),
            best=best,
            point=p,
        )
        for name, factor, p, best in zip(JOBS, factors, points, bests, strict=True)
    )
    found = [job.best for job in listed if job.best is not None]
    low = max((best.low for best in found), default=None)
    high = min((best.high for best in found), default=None)
    if low is None or high is None or low > high or len(found) < len(listed):
        low = high = None
    return Jobs(listed, low, high)


def full_draft(b: BareRig, c: Caps) -> tuple[float, str]:
    """Give the draft, as a multiple of the rig's, that takes rated power at this speed with the tractor as it stands.

    Where grip ends before the engine does, the draft that brings slip to the end of its band. With "engine" or "grip".
    """
    grip_ends = np.inf  # the least draft seen that is too much for grip

    def fits(factor: Any) -> Any:
        nonlocal grip_ends
        p = solve(b, draft_factor=factor, want=("slip", "engine_share"))
        grips = np.isfinite(p.slip) & (p.slip <= c.slip_high)
        grip_ends = min(grip_ends, float(np.min(factor[~grips], initial=np.inf)))
        return grips & (p.engine_share <= 1.0)

    grid = np.geomspace(0.05, 20.0, 257)
    passing = np.flatnonzero(fits(grid))
    if not passing.size:
        return float(grid[0]), "engine"
    last = int(passing[-1])
    if last == grid.size - 1:
        return float(grid[-1]), "engine"
    inside, outside = edge(fits, grid[last], grid[last + 1], rounds=2)
    return float(inside), "grip" if grip_ends <= outside else "engine"
