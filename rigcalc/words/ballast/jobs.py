"""The words of a tractor's jobs and of the mass that suits each."""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.models.ballast.jobs import Job, Jobs
from rigcalc.words.numbers import System, percent, say


@dataclass(frozen=True)
class JobSaid:
    """One job: its title, the mass that suits it, masses that are as good, what today's mass loses, what ends it there."""

    title: str
    mass: str
    span: str
    loss: str
    cut: str

    def __str__(self) -> str:
        """Give mass, span and loss in one line."""
        start = f"{self.mass} ({self.span})" if self.span else self.mass
        return "; ".join(part for part in (start, self.loss, self.cut) if part)


def job_title(job: Job) -> str:
    """Say a job: "half this draft", "all of the rated power"."""
    if job.name == "full":
        return "full engine load" if job.ends == "engine" else f"all that grip gives at {percent(job.slip_most)} slip"
    return {"light": "half this draft", "this": "this job"}[job.name]


def job_said(job: Job, units: System) -> JobSaid:
    """Say which mass suits a job, and what today's mass loses on it."""
    if job.best is None:
        return JobSaid(job_title(job), "none", "", "no mass is best: there is no pull, or none that grip could give", "")
    best = job.best
    span = f"as good from {say(best.low, 'kg', units)} to {say(best.high, 'kg', units)}"
    loss = "as it stands it can't pull this"
    if job.lost is not None:
        lost = "nothing" if job.lost < 5e-4 else percent(job.lost)
        loss = f"today's mass loses {lost} of what could arrive"
    return JobSaid(job_title(job), say(best.mass, "kg", units), span, loss, _CUT[best.cut])


_CUT = {
    "": "",
    "bare": "lighter would be better still, but nothing more comes off",
    "mass_limit": "heavier would be better still, but the maker's limit ends it there",
    "equations": "the equations of grip reach no farther, so nothing beyond is said",
}


def jobs_text(found: Jobs, units: System) -> str:
    """Say whether one mass suits every job."""
    if found.low is not None and found.high is not None:
        return f"{say(found.low, 'kg', units)} to {say(found.high, 'kg', units)} suits all of these jobs within 1 %."
    return ("No one mass suits all of these jobs within 1 %: ballast for the heavy work you do most, and take off what comes "
            "off easily for the rest.")  # fmt: skip
