"""The ballast page's text parts as HTML: the answer, the plan, limits, jobs, advice. Sentences come from models/ballast."""

from __future__ import annotations

import math

from rigcalc.models.ballast.answer import BallastAnswer
from rigcalc.models.ballast.limits import Check
from rigcalc.models.ballast.plan import BallastSet
from rigcalc.models.machine.limits import state_of
from rigcalc.views.rig.gauges import gauge, noted
from rigcalc.widgets.html import button, esc, fold, table
from rigcalc.words.ballast import plan as words
from rigcalc.words.ballast import tables as words_tables
from rigcalc.words.cautions import caution_text
from rigcalc.words.numbers import System, percent, say

_FULLEST = 5  # limits shown at once; the rest are folded


def verdict(answer: BallastAnswer | None) -> str:
    """Give the answer in a word or two and one sentence, in large type."""
    if answer is None:
        return (
            '<p class="rig-verdict is-none"><span class="rig-word">No answer</span>'
            '<span class="rig-sentence">Something needs mending first; it stands below.</span></p>'
        )
    state = "ok" if answer.works else "over"
    return (
        f'<p class="rig-verdict is-{state}"><span class="rig-word">{word_of(answer)}</span>'
        f'<span class="rig-sentence">{esc(parted(answer)[0])}</span></p>'
    )


def word_of(answer: BallastAnswer) -> str:
    """Say in a word or two what to do."""
    plan = answer.plan
    if plan.chosen is None:
        return "No set works" if plan.sets > 1 else "Nothing at hand"
    signs = {step.change > 0 for step in plan.chosen.changes}
    return {(): "Leave it", (True,): "Put on", (False,): "Take off"}.get(tuple(signs), "Move weight")


def parted(answer: BallastAnswer) -> tuple[str, str]:
    """Part the answer's sentence into what to do, or why no set works, and the rest."""
    text = answer.sentence
    if not answer.works:
        text = text.partition(": ")[2]
    moves = answer.plan.chosen is None or answer.plan.chosen.changes
    first, _, rest = text.partition(". " if moves else ": ")
    return f"{first[:1].upper()}{first[1:].rstrip('.')}.", rest[:1].upper() + rest[1:]


def facts(answer: BallastAnswer | None) -> str:
    """Give the few numbers that the plan is about, after and now."""
    if answer is None:
        return ""
    now, after, units = answer.plan.now, shown_set(answer), answer.units
    cards = [
        ("Arrives at the drawbar", _share(after.delivery), _share(now.delivery)),
        ("Slip", _share(after.slip), _share(now.slip)),
        ("Mass", _mass(after, units), _mass(now, units)),
        ("On the front, at rest", percent(after.front_share), percent(now.front_share)),
        ("On the front, at work", percent(after.front_share_pull), percent(now.front_share_pull)),
    ]
    items = "".join(f"<li>{esc(n)}<b>{esc(v)}</b><small>{esc(f'now {was}')}</small></li>" for n, v, was in cards)
    rest = "" if answer.works else parted(answer)[1]
    return f'<ul class="rig-cards">{items}</ul>' + (f"<p class='rig-more'>{esc(rest)}</p>" if rest else "")


def plan(answer: BallastAnswer | None) -> str:
    """Give the plan in steps, with what each does to each axle, and the sets it was chosen from."""
    if answer is None:
        return ""
    found, units, after = answer.plan, answer.units, shown_set(answer)
    title = "The plan, piece by piece" if found.chosen else "The nearest set, which still misses"
    steps = "".join(
        f"<li>{esc(step.name)}<b>{esc(step.before)} to {esc(step.after)}</b>"
        f"<small>{esc(words.gain(step.front, units))} on the front axle<br>"
        f"{esc(words.gain(step.rear, units))} on the rear axle</small></li>"
        for step in after.changes
    )
    why = words.why_text(found, units)
    out = f"<h2>{title if steps else 'The plan'}</h2>" + (f"<p>{esc(why)}</p>" if why else "")
    out += f'<ol class="rig-cards">{steps}</ol>' if steps else "<p>Nothing to move.</p>"
    if found.chosen and steps:
        out += "<p>" + button("take", "Done: the tractor now stands like this") + "</p>"
    if found.runner_up is not None:
        orders = "; ".join(words.step_short(step) for step in found.runner_up.changes) or "leave it as it stands"
        out += f"<p><b>Runner-up:</b> {esc(orders)}. Then {esc(words.set_text(found.runner_up, units))}.</p>"
    return out + fold("sets", f"Sets compared: {found.sets:,}", _sets(answer))


def _sets(answer: BallastAnswer) -> str:
    found, units = answer.plan, answer.units
    named = (("now", found.now), ("plan", found.chosen), ("runner-up", found.runner_up), ("nearest", found.nearest))
    rows = [
        (name, _mass(s, units), percent(s.front_share), percent(s.front_share_pull), _share(s.delivery), _share(s.slip),
         say(s.handled, "kg", units))
        for name, s in named if s is not None
    ]  # fmt: skip
    heads = ("Set", "Mass", "Front, at rest", "Front, at work", "Arrives", "Slip", "To handle")
    how = "Every one was looked at." if found.method == "every set" else "Too many to walk: an integer programme chose."
    return table("Sets", heads, rows) + (
        f"<p>{how} The least mass to handle wins, among those that keep every limit and deliver within 1 % of the best.</p>"
    )


def limits(answer: BallastAnswer | None) -> str:
    """Give every limit as a gauge with its words, the fullest first: with the plan, or as it stands without one."""
    if answer is None:
        return ""
    moved = bool(answer.plan.chosen and answer.plan.chosen.changes)
    checks = answer.plan.chosen.checks if answer.plan.chosen else answer.checks
    rows = [_gauge(check, answer.units) for check in checks]
    near = max(_FULLEST, sum(not check.holds for check in checks))
    tip = answer.tip_after if moved else answer.tip
    steer = [row for row, check in zip(rows, checks, strict=True) if check.name.startswith("steer")]
    first = [row for row in rows[:near] if row not in steer] + steer
    if tip is not None:
        text = words_tables.tip_text(tip, answer.units)
        first.append(_bar("pull that lifts the front axle", tip[0], tip[0] <= 1, text))
    rest = [row for row in rows if row not in first]
    out = f"<h2>Limits {'with the plan' if moved else 'as it stands'}, the fullest first</h2><ol>{''.join(first)}</ol>"
    if rest:
        out += fold("other-limits", f"{len(rest)} more limits, all of which hold", f"<ol>{''.join(rest)}</ol>")
    return out


def _gauge(check: Check, units: System) -> str:
    source = f" ({check.source})" if check.source != "rig file" and not check.name.startswith("front_share") else ""
    return _bar(check.title, check.used, check.holds, words.check_text(check, units) + source)


def _bar(title: str, used: float, holds: bool, text: str) -> str:
    return gauge(title, used, state_of(used) if holds else "over", text)


def jobs(answer: BallastAnswer | None) -> str:
    """Give the mass that suits a light, this and a full job, each with a button that plans for it."""
    if answer is None:
        return ""
    units, items = answer.units, []
    for job in answer.jobs.jobs:
        here = job.name == answer.plan.job.name
        big, _, text = words.job_text(job, units).partition(" (") if job.best else ("none", "", words.job_text(job, units))
        go = button("job", "Planned for" if here else "Plan for it", job.name, pressed=here)
        title = job.title[:1].upper() + job.title[1:]
        items.append(f"<li>{esc(title)}<b>{esc(big)}</b><small>{esc(text.replace(')', '', 1))}</small> {go}</li>")
    return (
        f'<h2>Which mass suits which job</h2><ul class="rig-cards">{"".join(items)}</ul>'
        f"<p>{esc(words.jobs_text(answer.jobs, units))}</p>"
    )


def advice(answer: BallastAnswer | None) -> str:
    """Give what tables advise: the band, and who says what."""
    if answer is None:
        return ""
    units = answer.units
    rows = [(row.kind, words_tables.advice_text(row, units), row.condition, f"{row.who} ({row.sure})") for row in answer.advice]
    per = words_tables.per_power_text(answer.stands.per_power, units)
    said = (
        f"<h2>What tables advise</h2><p>Mass: {esc(words.mass_band_text(answer.mass_band, units))}. Front axle: "
        f"{esc(words.front_band_text(answer.front_band))}. Now {esc(per)} at the power take-off.</p>"
    )
    if not rows:
        return said
    return said + fold(
        "advice", f"Who says what: {len(rows)} rows", table("What each source says", ("On", "Says", "For", "Who"), rows)
    )


def shown_set(answer: BallastAnswer) -> BallastSet:
    """Give the set that the page is about: the plan, or the nearest one, or the tractor as it stands."""
    return answer.plan.chosen or answer.plan.nearest or answer.plan.now


def _mass(found: BallastSet, units: System) -> str:
    return say(found.front_mass + found.rear_mass, "kg", units)


def _share(value: float) -> str:
    return percent(value) if math.isfinite(value) else "can't pull"


def notes(answer: BallastAnswer | None) -> str:
    """Give every caution in sight, and the notes in a fold."""
    return noted([caution_text(key, answer.units) for key in answer.cautions], answer.notes) if answer is not None else ""
