"""The ballast page's parts for shed and field as HTML: tyres, gears, the slip test, the setup sheet."""

from __future__ import annotations

from collections.abc import Iterable

from rigcalc.models.ballast.answer import BallastAnswer
from rigcalc.models.ballast.gear_down import best_gear
from rigcalc.models.ballast.tyres import TyreLoad
from rigcalc.models.machine.limits import caps
from rigcalc.views.ballast.model import WAYS, Found
from rigcalc.widgets.templates import render
from rigcalc.words.ballast import slip as words_slip
from rigcalc.words.ballast import tables as words_tables
from rigcalc.words.ballast.gears import engine_text, gear_text, gears_text
from rigcalc.words.ballast.jobs import job_title
from rigcalc.words.ballast.limits import when_text
from rigcalc.words.limits import slip_source
from rigcalc.words.numbers import System, percent, say


def tyres(answer: BallastAnswer | None) -> str:
    """Give the load on each tyre and the pressure it asks for: with the plan, or as it stands."""
    if answer is None:
        return ""
    moved, units = answer.plan.chosen is not None and answer.plan.chosen.changes, answer.units
    return str(render(
        __file__, "tyres.html.j2", units=units,
        after=_tyre_rows(answer.tyres_after, units) if moved else (),
        now=_tyre_rows(answer.tyres, units),
        rollers=[percent(share) for share in answer.rollers] if answer.rollers else (),
        liquids=[(liquid.axle, words_tables.liquid_text(liquid, units)) for liquid in answer.liquids],
    ))  # fmt: skip


def _tyre_rows(loads: Iterable[TyreLoad], units: System) -> list[tuple[str, ...]]:
    return [
        (f"{load.axle}, {when_text(load.when)}", words_tables.pressure_text(load, units), say(load.each, "kg", units),
         "not known" if load.used is None else percent(load.used), say(load.ground_pressure, "kPa", units, 2),
         words_tables.how_text(load, units))
        for load in loads
    ]  # fmt: skip


def gears(answer: BallastAnswer | None) -> str:
    """Give gear up and throttle down as a table; where there are no gears, how to get it."""
    if answer is None:
        return ""
    best = best_gear(answer.gears)
    rows = [
        (gear.name, engine_text(gear), say(gear.fuel, "L/h", answer.units), percent(gear.saved),
         percent(gear.reserve), gear_text(gear, best))
        for gear in answer.gears
    ]  # fmt: skip
    said = "Put the speeds of the gears under Gears to see what a higher gear at less throttle would save."
    if answer.gears:
        said = gears_text(answer)
    return str(render(__file__, "gears.html.j2", said=said, rows=rows, job=job_title(answer.plan.job)))


def slip_how(found: Found | None) -> str:
    """Say what the slip test is for and what slip to aim for."""
    low = high = source = ""
    if found is not None:
        c = caps(found.ballast.rig, found.ballast.bare_rig)
        low, high, source = percent(c.slip_low), percent(c.slip_high), slip_source(c.slip_source)
    return str(render(__file__, "slip_how.html.j2", low=low, high=high, source=source))


def slip_verdict(found: Found | None, way: str) -> str:
    """Give the verdict of the slip test, how sure it is, and how it was worked out."""
    if found is None:
        return ""
    wanting = {1: "reading is", 2: "two readings are", 3: "three readings are"}[len(WAYS.get(way, ("",)))]
    said = measured = band = step = state = None
    if found.test is not None and found.verdict is not None:
        units, state, step = found.ballast.units, found.verdict.state, found.test.working
        said = words_slip.said(found.verdict, units)
        measured, band = words_slip.slip_text(found.test, units), slip_source(found.verdict.band_source)
    return str(render(__file__, "slip_verdict.html.j2", faults=found.faults, said=said, measured=measured, band=band, step=step,
                      state=state, wanting=wanting))  # fmt: skip


def sheet(answer: BallastAnswer | None) -> str:
    """Give the buttons that save the setup sheet with the ballast on it."""
    off = answer is None or answer.plan.sets < 2
    return str(render(__file__, "sheet.html.j2", off=off, wants=answer is not None and off))


def weights(model_places: Iterable[tuple[int, str]]) -> str:
    """Give the buttons that add and remove kinds of weight."""
    return str(render(__file__, "weights.html.j2", places=list(model_places)))
