"""The ballast page's text parts as HTML: the answer, the plan, limits, jobs, advice. Words come from words/ballast."""

from __future__ import annotations

from markupsafe import Markup

from rigcalc.models.ballast.answer import BallastAnswer
from rigcalc.models.ballast.limits import Check
from rigcalc.models.ballast.plan import BallastSet
from rigcalc.models.machine.limits import state_of
from rigcalc.views.rig.gauges import gauge, noted
from rigcalc.widgets.templates import render
from rigcalc.words.ballast import limits as words_limits
from rigcalc.words.ballast import notes as words_notes
from rigcalc.words.ballast import plan as words
from rigcalc.words.ballast import tables as words_tables
from rigcalc.words.ballast.jobs import job_said, jobs_text
from rigcalc.words.ballast.steps import orders_text, step_said
from rigcalc.words.numbers import System, percent, say

_FULLEST = 5  # limits shown at once; the rest are folded


def verdict(answer: BallastAnswer | None) -> str:
    """Give the answer in a word or two and one sentence, in large type."""
    said = words.said(answer.plan, answer.units) if answer is not None else None
    return str(render(__file__, "answer.html.j2", said=said, state="ok" if answer and answer.works else "over"))


def facts(answer: BallastAnswer | None) -> str:
    """Give the few numbers that the plan is about, after and now."""
    if answer is None:
        return ""
    now, after, units = answer.plan.now, shown_set(answer), answer.units
    cards = [
        ("Power delivery", words.share_text(after.delivery), words.share_text(now.delivery)),
        ("Slip", words.share_text(after.slip), words.share_text(now.slip)),
        ("Mass", words.mass_text(after, units), words.mass_text(now, units)),
        ("On the front, at rest", percent(after.front_share), percent(now.front_share)),
        ("On the front, at work", percent(after.front_share_pull), percent(now.front_share_pull)),
    ]
    # With a plan that works the cards say all of it; without one, what follows the headline stands here.
    rest = words.said(answer.plan, units).rest
    rest = rest[1:] if answer.works else rest
    return str(render(__file__, "facts.html.j2", cards=cards, rest=rest))


def plan(answer: BallastAnswer | None) -> str:
    """Give the plan in steps, with what each does to each axle, and the sets it was chosen from."""
    if answer is None:
        return ""
    found, units, second = answer.plan, answer.units, answer.plan.runner_up
    why = words.why_text(found, units)
    return str(render(
        __file__, "plan.html.j2",
        works=found.works,
        steps=[step_said(step, units) for step in shown_set(answer).changes],
        why=[why] if why else [],
        runner_up=(orders_text(second, units), words.set_text(second, units)) if second else None,
        title=f"Sets compared: {found.sets:,}",
        heads=("Set", "Mass", "Front, at rest", "Front, at work", "Power delivery", "Slip", "To handle"),
        rows=_sets(answer),
        method=words.method_text(found),
    ))  # fmt: skip


def _sets(answer: BallastAnswer) -> list[tuple[str, ...]]:
    found, units = answer.plan, answer.units
    named = (("now", found.now), ("plan", found.chosen), ("runner-up", found.runner_up), ("nearest", found.nearest))
    return [
        (name, words.mass_text(s, units), percent(s.front_share), percent(s.front_share_pull), words.share_text(s.delivery),
         words.share_text(s.slip), say(s.handled, "kg", units))
        for name, s in named if s is not None
    ]  # fmt: skip


def limits(answer: BallastAnswer | None) -> str:
    """Give every limit as a gauge with its words, the fullest first: with the plan, or as it stands without one."""
    if answer is None:
        return ""
    moved = bool(answer.plan.chosen and answer.plan.chosen.changes)
    checks = answer.plan.chosen.checks if answer.plan.chosen else answer.checks
    near = max(_FULLEST, sum(not check.holds for check in checks))
    ahead = [check for check in checks[:near] if check.which.what != "steer"]
    steer = [check for check in checks if check.which.what == "steer"]
    first = [_gauge(check, answer.units) for check in ahead + steer]
    tip = answer.tip_after if moved else answer.tip
    if tip is not None:
        text = words_limits.tip_text(tip, answer.units)
        first.append(_bar("pull that lifts the front axle", tip[0], tip[0] <= 1, text))
    rest = [_gauge(check, answer.units) for check in checks if check not in ahead + steer]
    return str(render(__file__, "limits.html.j2", moved=moved, first=first, rest=rest))


def _gauge(check: Check, units: System) -> Markup:
    text = words_limits.check_text(check, units)
    if check.source not in ("rig_file", "advice"):
        text += f" ({words_limits.source_text(check)})"
    return _bar(words_limits.limit_title(check.which, units), check.used, check.holds, text)


def _bar(title: str, used: float, holds: bool, text: str) -> Markup:
    return gauge(title, used, state_of(used) if holds else "over", text)


def jobs(answer: BallastAnswer | None) -> str:
    """Give the mass that suits a light, this and a full job, each with a button that plans for it."""
    if answer is None:
        return ""
    items = []
    for job in answer.jobs.jobs:
        said = job_said(job, answer.units)
        items.append((job.name, f"{said.title[:1].upper()}{said.title[1:]}", said, job.name == answer.plan.job.name))
    return str(render(__file__, "jobs.html.j2", jobs=items, all=jobs_text(answer.jobs, answer.units)))


def advice(answer: BallastAnswer | None) -> str:
    """Give what tables advise: the band, and who says what."""
    if answer is None:
        return ""
    units = answer.units
    return str(render(
        __file__, "advice.html.j2",
        mass=words_tables.mass_band_text(answer.mass_band, units),
        front=words_tables.front_band_text(answer.front_band),
        per_power=words_tables.per_power_text(answer.stands.per_power, units),
        rows=[(words_tables.kind_text(row), words_tables.advice_text(row, units), row.condition, f"{row.who} ({row.sure})")
              for row in answer.advice],
    ))  # fmt: skip


def notes(answer: BallastAnswer | None) -> str:
    """Give every caution and the weightiest notes."""
    return noted(words_notes.cautions(answer), words_notes.notes(answer)) if answer is not None else ""


def shown_set(answer: BallastAnswer) -> BallastSet:
    """Give the set that the page is about: the plan, or the nearest one, or the tractor as it stands."""
    return answer.plan.chosen or answer.plan.nearest or answer.plan.now
