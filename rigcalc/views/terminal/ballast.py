"""Ballast and slip test in a terminal: the plan first, then how it stands, limits, physics, advice, tyres, gears."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from rich.console import Console, RenderableType
from rich.padding import Padding
from rich.table import Table

from rigcalc.models.ballast.answer import BallastAnswer
from rigcalc.models.ballast.gear_down import best_gear
from rigcalc.models.ballast.slip_test import SlipTest, Verdict
from rigcalc.models.machine.limits import state_of
from rigcalc.views.terminal.parts import bullets, headed, rows, safe
from rigcalc.words.apart import share_used
from rigcalc.words.ballast import limits as words_limits
from rigcalc.words.ballast import notes as words_notes
from rigcalc.words.ballast import plan as words
from rigcalc.words.ballast import slip as words_slip
from rigcalc.words.ballast import tables as words_tables
from rigcalc.words.ballast.gears import engine_text, gear_text, gears_text
from rigcalc.words.ballast.jobs import job_said, job_title, jobs_text
from rigcalc.words.ballast.limits import when_text
from rigcalc.words.ballast.steps import orders_text, step_name, step_said
from rigcalc.words.limits import STATE_WORDS, slip_source
from rigcalc.words.numbers import System, percent, say
from rigcalc.words.spelling import spelt

_FULLEST = 8  # limits shown; the rest are counted


def print_ballast(answer: BallastAnswer, console: Console) -> None:
    """Print a whole answer on ballast."""
    for part in ballast_parts(answer):
        console.print(part)


def ballast_parts(answer: BallastAnswer) -> Iterable[RenderableType]:
    """Give the answer's parts in the order in which they are read."""
    plan, units = answer.plan, answer.units
    said = words.said(plan, units)
    yield safe(str(said), style="bold green" if answer.works else "bold red")
    if why := words.why_text(plan, units):
        yield safe(why)
    shown = plan.chosen or plan.nearest
    if shown is not None and shown.changes:
        yield from headed("The pieces" if plan.chosen else "The nearest set, which still misses", rows(
            (step_name(step, units), str(step_said(step, units))) for step in shown.changes
        ))  # fmt: skip
    yield from headed("Sets compared", _sets(answer))
    yield from headed("As it stands", _stands(answer))
    yield from headed("Limits on weight, the fullest first", _limits(answer))
    yield from headed("What the physics says", _jobs(answer))
    yield from headed("What tables advise", _advice(answer))
    yield from headed(spelt("Tyres", units), _tyres(answer))
    if answer.gears:
        yield from headed(f"Gear up, throttle down, for {job_title(plan.job)}", _gears(answer))
        yield safe(gears_text(answer))
    yield from headed("Notes", bullets(words_notes.notes(answer)))
    yield from headed("Cautions", bullets(words_notes.cautions(answer)))


def print_slip_test(test: SlipTest, found: Verdict, units: System, console: Console) -> None:
    """Print a slip test: what was measured, the formula, the verdict."""
    style = {"inside": "bold green", "unsure": "bold yellow"}.get(found.state, "bold red")
    said, step = words_slip.said(found, units), test.working
    console.print(safe(" ".join((said.headline, *said.rest)), style=style))
    console.print(safe(f"\n{words_slip.slip_text(test, units)}"))
    if step is not None:
        console.print(Padding(safe(f"\n{step.text}\n= {step.text_numbers}\n= {step.result}"), (0, 0, 0, 2)))
        console.print(Padding(safe(f"{step.source} ({step.sure})", style="italic"), (0, 0, 0, 2)))
    console.print(Padding(safe(f"band: {slip_source(found.band_source)}", style="italic"), (0, 0, 0, 2)))


def _sets(answer: BallastAnswer) -> Table:
    plan, units = answer.plan, answer.units
    pairs = [("now", words.set_text(plan.now, units))]
    for name, found in (("plan", plan.chosen), ("runner-up", plan.runner_up), ("nearest", plan.nearest)):
        if found is not None:
            pairs.append((name, words.set_text(found, units)))
    if plan.runner_up is not None:
        pairs.append(("", f"the runner-up: {orders_text(plan.runner_up, units)}"))
    pairs.append(("", f"{plan.sets:,} set{'s' if plan.sets > 1 else ''} at hand, {words.method_text(plan)}"))
    return rows(pairs)


def _stands(answer: BallastAnswer) -> Table:
    s, units = answer.stands, answer.units
    table = _columns(("", "left"), ("front axle", "right"), ("rear axle", "right"), ("front share", "right"))
    for when, (front, rear) in s.loads.items():
        share = percent(front / (front + rear))
        table.add_row(when_text(when), say(front, "kg", units), say(rear, "kg", units), share)
    table.add_row(f"{words_tables.per_power_text(s.per_power, units)} at the PTO", "", "", "")
    if answer.rollers:
        table.add_row("rollers under pull", percent(answer.rollers[0]), percent(answer.rollers[1]), "")
    return table


def _limits(answer: BallastAnswer) -> Table:
    table = _columns(("limit", "left"), ("used", "right"), ("", "left"), ("", "left"))
    shown = [c for place, c in enumerate(answer.checks) if place < _FULLEST or not c.holds or c.which.what == "steer"]
    for check in shown:
        text = words_limits.check_text(check, answer.units)
        table.add_row(
            words_limits.limit_title(check.which, answer.units), share_used(check.used), _state(check.used, check.holds), text
        )
    if answer.tip is not None:
        used = answer.tip[0]
        share = percent(used) if used < 100 else "none left"
        text = words_limits.tip_text(answer.tip, answer.units)
        table.add_row("pull that lifts the front axle", share, _state(used, used <= 1), text)
    rest = len(answer.checks) - len(shown)
    if rest:
        table.add_row(safe(f"{rest} more hold with more to spare", style="dim"))
    return table


def _state(used: float, holds: bool) -> RenderableType:
    state = state_of(used) if holds else "over"
    return safe(STATE_WORDS[state], style={"ok": "green", "tight": "yellow", "over": "bold red"}[state])


def _jobs(answer: BallastAnswer) -> Table:
    pairs: list[tuple[str, Any]] = []
    for job in answer.jobs.jobs:
        pairs.append((job_title(job), str(job_said(job, answer.units))))
    pairs.append(("all", jobs_text(answer.jobs, answer.units)))
    curve = answer.curve
    if curve.best is not None:
        low, high = curve.mass[0], curve.mass[-1]
        for place in sorted({int(abs(curve.mass - mass).argmin()) for mass in (low, curve.mass_now, curve.best.mass, high)}):
            pairs.append((say(curve.mass[place], "kg", answer.units), words_tables.curve_text(answer, place)))
    return rows(pairs)


def _advice(answer: BallastAnswer) -> Table:
    units = answer.units
    mass, front = words_tables.mass_band_text(answer.mass_band, units), words_tables.front_band_text(answer.front_band)
    pairs = [("mass", mass), ("front share", front)]
    for row in answer.advice:
        span = words_tables.advice_text(row, units)
        pairs.append((words_tables.kind_text(row), f"{span}: {row.condition}; {row.who} ({row.sure})"))
    return rows(pairs)


def _tyres(answer: BallastAnswer) -> Table:
    table = _columns(("axle", "left"), ("when", "left"), ("on each", "right"), ("used", "right"), ("on the ground", "right"),
                     ("pressure it asks for", "left"))  # fmt: skip
    for load in answer.tyres:
        used = percent(load.used) if load.used is not None else "not known"
        ground = say(load.ground_pressure, "kPa", answer.units)
        table.add_row(
            load.axle,
            when_text(load.when),
            say(load.each, "kg", answer.units),
            used,
            ground,
            f"{words_tables.pressure_text(load, answer.units)}: {words_tables.how_text(load, answer.units)}",
        )
    for liquid in answer.liquids:
        table.add_row(liquid.axle, "liquid", "", "", "", words_tables.liquid_text(liquid, answer.units))
    return table


def _gears(answer: BallastAnswer) -> Table:
    table = _columns(("gear", "left"), ("engine", "right"), ("torque left", "right"), ("fuel", "right"), ("saved", "right"),
                     ("", "left"))  # fmt: skip
    best = best_gear(answer.gears)
    for gear in answer.gears:
        table.add_row(
            gear.name,
            engine_text(gear),
            percent(gear.reserve),
            say(gear.fuel, "L/h", answer.units),
            percent(gear.saved),
            gear_text(gear, best),
        )
    return table


def _columns(*columns: tuple[str, str]) -> Table:
    table = Table(box=None, pad_edge=False, show_header=True, header_style="dim")
    for title, side in columns:
        table.add_column(title, justify=side)  # type: ignore[arg-type]
    return table
