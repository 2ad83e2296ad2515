"""The answer on ballast as JSON-ready data: every number with its unit; what can't be a number is null."""

from __future__ import annotations

from typing import Any

from rigcalc.models.ballast.answer import BallastAnswer
from rigcalc.models.ballast.plan import BallastSet
from rigcalc.views.json.field import told_data
from rigcalc.views.json.numbers import number as _n
from rigcalc.words.ballast import plan as words
from rigcalc.words.ballast.jobs import job_title
from rigcalc.words.ballast.limits import limit_title, source_text
from rigcalc.words.ballast.notes import cautions, notes
from rigcalc.words.ballast.steps import step_name
from rigcalc.words.numbers import System

VERSION = 2  # raised when a name or a unit changes


def ballast_data(answer: BallastAnswer) -> dict[str, Any]:
    """Give nested dicts and lists. Numbers stand as {"value": 12.3, "unit": "kg"}; a share has the unit "1"."""
    plan, stands = answer.plan, answer.stands
    said = words.said(plan, answer.units)
    return {
        "version": VERSION,
        "word": said.word,
        "headline": said.headline,
        "rest": list(said.rest),
        "works": answer.works,
        **({"readings": told_data(plan.told)} if plan.told is not None else {}),
        "stands": {
            "front_mass": _n(stands.front_mass, "kg"), "rear_mass": _n(stands.rear_mass, "kg"),
            "front_share": _n(stands.front_share, "1"), "front_share_pull": _n(stands.front_share_pull, "1"),
            "per_power": _n(stands.per_power, "kg/kW"), "slip": _n(stands.slip, "1"), "delivery": _n(stands.delivery, "1"),
            "loads": {when: {"front": _n(f, "kg"), "rear": _n(r, "kg")} for when, (f, r) in stands.loads.items()},
        },
        "limits": [
            {"name": c.name, "title": limit_title(c.which, answer.units), "value": _n(c.value, "1" if c.share else "kg"),
             "limit": _n(c.limit, "1" if c.share else "kg"), "most": c.most, "used": _n(c.used, "1"), "holds": c.holds,
             "hard": c.hard, "source": source_text(c)}
            for c in answer.checks
        ],
        "tipping": None if answer.tip is None else {
            "used": _n(answer.tip[0], "1"), "lifts_at": _n(answer.tip[1], "kN"), "tyres_hold": _n(answer.tip[2], "kN"),
        },
        "jobs": [
            {"name": job.name, "title": job_title(job), "pull": _n(job.pull, "kN"), "engine_share": _n(job.engine_share, "1"),
             "delivery": _n(job.delivery, "1"), "lost": _n(job.lost, "1"),
             "best": None if job.best is None else {
                 "mass": _n(job.best.mass, "kg"), "low": _n(job.best.low, "kg"), "high": _n(job.best.high, "kg"),
                 "delivery": _n(job.best.delivery, "1"), "slip": _n(job.best.slip, "1")}}
            for job in answer.jobs.jobs
        ],
        "advice": [
            {"kind": a.kind, "low": _n(a.low, "kg" if a.per_power else "1"), "high": _n(a.high, "kg" if a.per_power else "1"),
             "condition": a.condition, "who": a.who, "sure": a.sure} for a in answer.advice
        ],
        "plan": {
            "job": plan.job.name, "sets": plan.sets, "method": plan.method, "wanted_delivery": _n(plan.wanted, "1"),
            "chosen": _set(plan.chosen, answer.units), "runner_up": _set(plan.runner_up, answer.units),
            "nearest": _set(plan.nearest, answer.units),
            "unmet": [
                {"name": u.name, "title": limit_title(u.which, answer.units),
                 "short": _n(u.short, u.unit), "alone": u.alone} for u in plan.unmet
            ],
        },
        "tyres": [
            {"axle": t.axle, "when": t.when, "each": _n(t.each, "kg"), "capacity": _n(t.capacity, "kg"),
             "ground_pressure": _n(t.ground_pressure, "kPa"),
             "inflation": _n(t.inflation.pressure, "kPa"), "how": t.inflation.how} for t in answer.tyres
        ],
        "gears": [
            {"name": g.name, "engine_speed": _n(g.engine_speed, "1"), "load": _n(g.load, "1"), "reserve": _n(g.reserve, "1"),
             "fuel": _n(g.fuel, "L/h"), "saved": _n(g.saved, "1"), "state": g.state} for g in answer.gears
        ],
        "notes": list(notes(answer)),
        "cautions": list(cautions(answer)),
    }  # fmt: skip


def _set(found: BallastSet | None, units: System) -> dict[str, Any] | None:
    if found is None:
        return None
    return {
        "handled": _n(found.handled, "kg"), "front_mass": _n(found.front_mass, "kg"), "rear_mass": _n(found.rear_mass, "kg"),
        "front_share": _n(found.front_share, "1"), "front_share_pull": _n(found.front_share_pull, "1"),
        "delivery": _n(found.delivery, "1"), "slip": _n(found.slip, "1"),
        "steps": [
            {"name": step_name(s, units), "liquid": s.liquid or None,
             "before": _n(s.before, "1"), "after": _n(s.after, "1"), "change": _n(s.change, "kg"),
             "front": _n(s.front, "kg"), "rear": _n(s.rear, "kg")} for s in found.steps
        ],
    }  # fmt: skip
