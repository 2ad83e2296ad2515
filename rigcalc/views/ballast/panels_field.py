"""The ballast page's parts for shed and field as HTML: tyres, gears, the slip test, the setup sheet."""

from __future__ import annotations

from collections.abc import Iterable

from rigcalc.models.ballast.answer import BallastAnswer
from rigcalc.models.ballast.gear_down import best_gear
from rigcalc.models.ballast.tyres import TyreLoad
from rigcalc.models.machine.limits import caps
from rigcalc.views.ballast.model import WAYS, Found
from rigcalc.widgets.html import button, esc, fold, table
from rigcalc.words.ballast import slip as words_slip
from rigcalc.words.ballast import tables as words_tables
from rigcalc.words.limits import slip_source
from rigcalc.words.numbers import System, percent, say


def tyres(answer: BallastAnswer | None) -> str:
    """Give the load on each tyre and the pressure it asks for: with the plan, or as it stands."""
    if answer is None:
        return ""
    moved = answer.plan.chosen is not None and answer.plan.chosen.changes
    out = "<h2>Tyres: load and pressure</h2>"
    if moved:
        out += _tyre_table("With the plan", answer.tyres_after, answer.units)
        out += fold("tyres-now", "As it stands now", _tyre_table("As it stands", answer.tyres, answer.units))
    else:
        out += _tyre_table("As it stands", answer.tyres, answer.units)
    if answer.rollers:
        front, rear = (percent(share) for share in answer.rollers)
        out += f"<p>Under pull {front} of the load is on the front rollers, {rear} on the rear ones.</p>"
    for liquid in answer.liquids:
        out += f"<p>In the {liquid.axle} tyres: {esc(words_tables.liquid_text(liquid, answer.units))}.</p>"
    return out + (
        "<p>The pressure comes from the table under the tyres' entries, in a straight line between its rows and never past its "
        "ends. On the ground: the mean pressure under a track, by a rule of thumb under a tyre.</p>"
    )


def _tyre_table(caption: str, loads: Iterable[TyreLoad], units: System) -> str:
    rows = []
    for load in loads:
        needs = load.inflation
        pressure = "not known" if needs.pressure is None else say(needs.pressure, "kPa", units, 2)
        used = "not known" if load.used is None else percent(load.used)
        ground = say(load.ground_pressure, "kPa", units, 2)
        rows.append((f"{load.axle}, {load.when}", pressure, say(load.each, "kg", units), used, ground, needs.text))
    return table(caption, ("Axle", "Pressure", "On each", "Used", "On the ground", "How the pressure is known"), rows)


def gears(answer: BallastAnswer | None) -> str:
    """Give gear up and throttle down as a table; where there are no gears, how to get it."""
    if answer is None:
        return ""
    title = "<h2>Gear up, throttle down</h2>"
    if not answer.gears:
        return title + "<p>Put the speeds of the gears under Gears to see what a higher gear at less throttle would save.</p>"
    best = best_gear(answer.gears)
    rows = [
        (gear.name, words_tables.engine_text(gear), say(gear.fuel, "L/h", answer.units), percent(gear.saved),
         percent(gear.reserve), "best" if gear is best else gear.why or "fits")
        for gear in answer.gears
    ]  # fmt: skip
    said = "No gear fits: see why in the table."
    if best is not None:
        said = f"Gear {best.name} at {words_tables.engine_text(best)} saves {percent(best.saved)} of the fuel of this job"
        said += f" and keeps {percent(best.reserve)} of the torque there in hand."
    heads = ("Gear", "Engine", "Fuel", "Saved", "Torque in hand", "Verdict")
    return title + f"<p>{esc(said)}</p>" + table("The same ground speed in each gear", heads, rows)


def slip_how(found: Found | None) -> str:
    """Say what the slip test is for and what slip to aim for."""
    aim = ""
    if found is not None:
        answer = found.ballast
        c = caps(answer.rig, answer.bare_rig)
        aim = f" Aim for {percent(c.slip_low)} to {percent(c.slip_high)} on this ground ({esc(slip_source(c.slip_source))})."
    return (
        "<h2>Slip test: did it work?</h2><p>Mark a wheel, drive under load between two marks and count its turns; drive back "
        f"over the same ground with the tool raised and count again.{aim}</p>"
    )


def slip_verdict(found: Found | None, way: str) -> str:
    """Give the verdict of the slip test, how sure it is, and how it was worked out."""
    if found is None:
        return ""
    if found.faults:
        return "<p><b>No verdict:</b> a reading can't be used; it says why above.</p>"
    if found.test is None or found.verdict is None:
        count = {1: "reading", 2: "two readings", 3: "three readings"}[len(WAYS.get(way, ()))]
        return f"<p>The verdict stands here once the {count} are in.</p>"
    units, step = found.ballast.units, found.test.working
    tag = {"inside": "Inside the band", "high": "Too much slip", "low": "Little slip", "unsure": "Not settled"}
    left = step.text.split(" = ", 1)[0]
    return (
        f'<p class="rig-slip is-{found.verdict.state}"><span class="rig-tag">{tag[found.verdict.state]}</span> '
        f"{esc(words_slip.verdict_text(found.verdict, units))}</p><p>{esc(words_slip.slip_text(found.test))}</p>"
        + fold(
            "slip-working",
            "How it is worked out",
            f"<p><code>{esc(step.text)}</code></p><p><code>{esc(f'{left} = {step.text_numbers} = {step.result}')}</code></p>"
            f"<p>Source: {esc(step.source)} ({esc(step.sure)}). Band: {esc(slip_source(found.verdict.band_source))}.</p>",
        )
    )


def sheet(answer: BallastAnswer | None) -> str:
    """Give the buttons that save the setup sheet with the ballast on it."""
    off = answer is None or answer.plan.sets < 2
    why = " It needs weights or liquid at hand." if answer is not None and off else ""
    return (
        "<h2>Setup sheet for cab and shed</h2><p>One page: the setting for this job, the plan's steps, masses, pressures and "
        f"the slip to expect. Who, where and when stand under the entries.{why}</p>"
        + button("sheet", "Save as PDF", "pdf", disabled=off)
        + " "
        + button("sheet", "Save as HTML", "html", disabled=off)
    )


def weights(model_places: Iterable[tuple[int, str]]) -> str:
    """Give the buttons that add and remove kinds of weight."""
    removes = "".join(button("remove", f"Remove {name}", str(place)) for place, name in model_places)
    return (
        "<h2>Weights at hand</h2>"
        + (f"<p>{button('add', 'Add a kind of weight')}</p>")
        + (fold("remove-weights", "Remove", removes) if removes else "<p>None yet.</p>")
    )
