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
from rigcalc.views.terminal.parts import bullets, headed, rows, safe
from rigcalc.words.ballast import plan as words
from rigcalc.words.ballast import slip as words_slip
from rigcalc.words.ballast import tables as words_tables
from rigcalc.words.cautions import caution_text
from rigcalc.words.limits import slip_source
from rigcalc.words.numbers import System, percent, say

_FULLEST = 8  # limits shown; the rest are counted


def print_ballast(answer: BallastAnswer, console: Console) -> None:
    """Print a whole answer on ballast."""
    for part in ballast_parts(answer):
        console.print(part)


def ballast_parts(answer: BallastAnswer) -> Iterable[RenderableType]:
    """Give the answer's parts in the order in which they are read."""
    plan, units = answer.plan, answer.units
    yield safe(answer.sentence, style="bold green" if answer.works else "bold red")
    if why := words.why_text(plan, units):
        yield safe(why)
    shown = plan.chosen or plan.nearest
    if shown is not None and shown.changes:
        yield from headed("The pieces" if plan.chosen else "The nearest set, which still misses", rows(
            (step.name, words.step_text(step, units)) for step in shown.changes
        ))  # fmt: skip
    yield from headed("Sets compared", _sets(answer))
    yield from headed("As it stands", _stands(answer))
    yield from headed("Limits on weight, the fullest first", _limits(answer))
    yield from headed("What the physics says", _jobs(answer))
    yield from headed("What tables advise", _advice(answer))
    yield from headed("Tyres", _tyres(answer))
    if answer.gears:
        yield from headed("Gear up, throttle down", _gears(answer))
    yield from headed("Notes", bullets(answer.notes))
    yield from headed("Cautions", bullets(caution_text(key, answer.units) for key in answer.cautions))


def print_slip_test(test: SlipTest, found: Verdict, units: System, console: Console) -> None:
    """Print a slip test: what was measured, the formula, the verdict."""
    style = {"inside": "bold green", "unsure": "bold yellow"}.get(found.state, "bold red")
    console.print(safe(words_slip.verdict_text(found, units), style=style))
    console.print(safe(f"\n{words_slip.slip_text(test)}"))
    step = test.working
    left = step.text.split(" = ", 1)[0]
    console.print(Padding(safe(f"\n{step.text}\n{left} = {step.text_numbers} = {step.result}"), (0, 0, 0, 2)))
    console.print(Padding(safe(f"{step.source} ({step.sure})", style="italic"), (0, 0, 0, 2)))
    console.print(Padding(safe(f"band: {slip_source(found.band_source)}", style="italic"), (0, 0, 0, 2)))


def _sets(answer: BallastAnswer) -> Table:
    plan, units = answer.plan, answer.units
    pairs = [("now", words.set_text(plan.now, units))]
    for name, found in (("plan", plan.chosen), ("runner-up", plan.runner_up), ("nearest", plan.nearest)):
        if found is not None:
            pairs.append((name, words.set_text(found, units)))
    if plan.runner_up is not None:
        orders = "; ".join(words.step_short(step) for step in plan.runner_up.changes) or "leave it as it stands"
        pairs.append(("", f"the runner-up: {orders}"))
    how = f"{plan.sets:,} set{'s' if plan.sets > 1 else ''} at hand"
    pairs.append(
        ("", how + (", every one looked at" if plan.method == "every set" else ", too many to walk: integer programme"))
    )
    return rows(pairs)


def _stands(answer: BallastAnswer) -> Table:
    s, units = answer.stands, answer.units
    table = _columns(("", "left"), ("front axle", "right"), ("rear axle", "right"), ("front share", "right"))
    for when, (front, rear) in s.loads.items():
        share = percent(front / (front + rear))
        table.add_row(when, say(front, "kg", units), say(rear, "kg", units), share)
    table.add_row(f"{words_tables.per_power_text(s.per_power, units)} at the PTO", "", "", "")
    if answer.rollers:
        table.add_row("rollers under pull", percent(answer.rollers[0]), percent(answer.rollers[1]), "")
    return table


def _limits(answer: BallastAnswer) -> Table:
    table = _columns(("limit", "left"), ("used", "right"), ("", "left"), ("", "left"))
    shown = [c for place, c in enumerate(answer.checks) if place < _FULLEST or not c.holds or c.name.startswith("steer")]
    for check in shown:
        word, style = ("holds", "green") if check.holds else ("PASSED", "bold red")
        table.add_row(check.title, percent(check.used), safe(word, style=style), words.check_text(check, answer.units))
    if answer.tip is not None:
        used = answer.tip[0]
        word, style = ("holds", "green") if used <= 1 else ("PASSED", "bold red")
        text = words_tables.tip_text(answer.tip, answer.units)
        share = percent(used) if used < 100 else "none left"
        table.add_row("pull that lifts the front axle", share, safe(word, style=style), text)
    rest = len(answer.checks) - len(shown)
    if rest:
        table.add_row(safe(f"{rest} more hold with more to spare", style="dim"))
    return table


def _jobs(answer: BallastAnswer) -> Table:
    pairs: list[tuple[str, Any]] = []
    for job in answer.jobs.jobs:
        pairs.append((job.title, words.job_text(job, answer.units)))
    pairs.append(("all", words.jobs_text(answer.jobs, answer.units)))
    curve = answer.curve
    if curve.best is not None:
        low, high = curve.mass[0], curve.mass[-1]
        for place in sorted({int(abs(curve.mass - mass).argmin()) for mass in (low, curve.mass_now, curve.best.mass, high)}):
            pairs.append((say(curve.mass[place], "kg", answer.units), words_tables.curve_text(answer, place)))
    return rows(pairs)


def _advice(answer: BallastAnswer) -> Table:
    units = answer.units
    pairs = [("mass", words.mass_band_text(answer.mass_band, units)), ("front share", words.front_band_text(answer.front_band))]
    for row in answer.advice:
        span = words_tables.advice_text(row, units)
        pairs.append((row.kind, f"{span}: {row.condition}; {row.who} ({row.sure})"))
    return rows(pairs)


def _tyres(answer: BallastAnswer) -> Table:
    table = _columns(("axle", "left"), ("when", "left"), ("on each", "right"), ("used", "right"), ("on the ground", "right"),
                     ("pressure it asks for", "left"))  # fmt: skip
    for load in answer.tyres:
        used = percent(load.used) if load.used is not None else "not known"
        ground = say(load.ground_pressure, "kPa", answer.units)
        table.add_row(
            load.axle,
            load.when,
            say(load.each, "kg", answer.units),
            used,
            ground,
            words_tables.pressure_text(load, answer.units),
        )
    for liquid in answer.liquids:
        table.add_row(liquid.axle, "liquid", "", "", "", words_tables.liquid_text(liquid, answer.units))
    return table


def _gears(answer: BallastAnswer) -> Table:
    table = _columns(("gear", "left"), ("engine", "right"), ("torque left", "right"), ("fuel", "right"), ("saved", "right"),
                     ("", "left"))  # fmt: skip
    best = best_gear(answer.gears)
    for gear in answer.gears:
        word = "best" if gear is best else gear.why
        table.add_row(
            gear.name,
            words_tables.engine_text(gear),
            percent(gear.reserve),
            say(gear.fuel, "L/h", answer.units),
            percent(gear.saved),
            word,
        )
    return table


def _columns(*columns: tuple[str, str]) -> Table:
    table = Table(box=None, pad_edge=False, show_header=True, header_style="dim")
    for title, side in columns:
        table.add_column(title, justify=side)  # type: ignore[arg-type]
    return table
