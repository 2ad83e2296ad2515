"""`rigcalc reading`: readings from the field, kept beside the rig file. Exit codes: 0 in order, 2 bad input."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

import click

from rigcalc.cli.common import changed, typed_units, units_option
from rigcalc.core.errors import Fault, InputError, printable, shown

if TYPE_CHECKING:
    from rich.console import Console

    from rigcalc.models.reading.foretold import Span
    from rigcalc.models.rig.field_reading import Reading
    from rigcalc.models.rig.rig import Rig

_json_option = click.option("--json", "as_json", is_flag=True, help="Print JSON with units and nothing else.")
_field_option = click.option("--field", help="Which field (default: that of the last reading).")
_day_option = click.option("--day", help='Which day, such as 2026-11-04, or "another" (default: the last that was read).')


class Added(NamedTuple):
    """A reading that was added: its file, its place among the rig's from 1, itself, what was said before, and the rig."""

    file: Path
    place: int
    made: Reading
    said: dict[str, Span]
    rig: Rig


@click.group()
def reading() -> None:
    """Readings from the field: add one, list them, what they tell, what to read next, and whether we said it right.

    They are kept in NAME.readings.csv beside NAME.toml, a line each, and in [[reading]] sections of the rig file. `size`,
    `compare`, `ballast` and `sheet` go by them from then on.
    """


@reading.command()
@click.argument("rig")
@click.option("--date", help="The day, such as 2026-11-04 (default: today).")
@click.option("--field", help="Which field.")
@click.option("--zone", type=click.Choice(["headland", "cart lane"]), help="Where it isn't of the open field.")
@click.option("--depth", required=True, help='Depth dug out behind a shank, such as "14 in".')
@click.option("--behind", type=int, default=1, show_default=True, help="How many shanks it was dug out behind.")
@click.option("--speed", required=True, help='Speed over the ground, such as "5.1 mph".')
@click.option("--slip", help='Slip as the display shows it, such as "12 percent".')
@click.option("--wheel-speed", help='Or the wheel speed beside it, such as "5.8 mph".')
@click.option("--turns-loaded", help="Or wheel turns over one distance under load,")
@click.option("--turns-unloaded", help="and without.")
@click.option("--load", help='Engine load, such as "82 percent".')
@click.option("--load-of", type=click.Choice(["available", "rated", "torque"]),
              help="Of what the engine gives at its speed (most monitors), of rated power, or torque of the most.")  # fmt: skip
@click.option("--engine-speed", help='Engine speed, such as "1900 rpm"; the rig file then needs rated_speed.')
@click.option("--fuel-rate", help='Fuel rate, such as "22 gal/h".')
@click.option("--pull", help='Drawbar pull of a load cell, such as "18000 lbf".')
@click.option("--depth-error", help="How far the depth may be off (two readings in three are nearer).")
@click.option("--slip-error", help='How far slip may be off, in points, such as "1 percent".')
@click.option("--load-error", help="How far the load may be off, as a share of it.")
@click.option("--fuel-error", help="How far the fuel rate may be off, as a share of it.")
@click.option("--pull-error", help="How far the pull may be off, as a share of it.")
@click.option("--note", help="A line of your own.")
@units_option
@_json_option
def add(rig: str, behind: int, units: Any, as_json: bool, **typed: str | None) -> None:
    """Add a reading to the file beside RIG, with what was said of it before; nothing that stands there is touched."""
    done = added(rig, {name: value for name, value in typed.items() if value is not None}, behind)
    _answer(as_json, lambda view: view.added_data([(done.place, done.made, done.said)], str(done.file)),
            lambda _view, _console: print_added(done, units))  # fmt: skip


@reading.command("list")
@click.argument("rig")
@units_option
@_json_option
def list_(rig: str, units: Any, as_json: bool) -> None:
    """List the readings of RIG and say which of them count."""
    from rigcalc.models.machine.field import told_of

    loaded = _with_some(rig)
    told = told_of(loaded)
    _answer(as_json, lambda view: view.list_data(loaded, told),
            lambda view, console: view.print_list(loaded, told, units or typed_units(loaded), console))  # fmt: skip


@reading.command()
@click.argument("rig")
@_field_option
@_day_option
@units_option
@_json_option
def tell(rig: str, field: str | None, day: str | None, units: Any, as_json: bool) -> None:
    """Say what the readings of RIG tell, which number told what, and which don't go together."""
    from rigcalc.models.reading import tells

    loaded = changed(_with_some(rig), None, None, None, field=field, day=day)
    telling = tells(loaded)
    if telling is None:
        raise InputError([Fault("RIG", "readings of which none counts", "one that isn't set aside, of this tool and field",
                                "rigcalc reading list RIG says why each doesn't")])  # fmt: skip
    units = units or typed_units(loaded)
    _answer(as_json, lambda view: view.telling_data(telling, loaded, units),
            lambda view, console: view.print_telling(telling, loaded, units, console))  # fmt: skip


@reading.command("next")
@click.argument("rig")
@_field_option
@_day_option
@units_option
@_json_option
def next_(rig: str, field: str | None, day: str | None, units: Any, as_json: bool) -> None:
    """Say what to read next to learn most about the job of RIG, or that it is time to stop."""
    from rigcalc.models.machine.field import told_of
    from rigcalc.models.reading import next_reading
    from rigcalc.models.rig.file import load_rig

    loaded = changed(load_rig(rig), None, None, None, field=field, day=day)
    found = next_reading(loaded)
    _answer(as_json, lambda view: view.next_data(found),
            lambda view, console: view.print_next(found, told_of(loaded), units or typed_units(loaded), console))  # fmt: skip


@reading.command()
@click.argument("rig")
@_field_option
@_day_option
@units_option
@_json_option
def zones(rig: str, field: str | None, day: str | None, units: Any, as_json: bool) -> None:
    """Say how much harder headland and cart lanes of RIG's field pull, and how deep or fast the job goes there."""
    from rigcalc.models.reading.zones import zones as zones_of
    from rigcalc.models.rig.file import load_rig

    loaded = changed(load_rig(rig), None, None, None, field=field, day=day)
    found = zones_of(loaded)
    _answer(as_json, lambda view: view.zones_data(found),
            lambda view, console: view.print_zones(found, loaded, units or typed_units(loaded), console))  # fmt: skip


@reading.command()
@click.argument("rig")
@units_option
@_json_option
def record(rig: str, units: Any, as_json: bool) -> None:
    """Say how often what was read at RIG lay inside the band that was said before it."""
    from rigcalc.models.reading import record as record_of

    loaded = _with_some(rig)
    found = record_of(loaded)
    _answer(as_json, lambda view: view.record_data(found),
            lambda view, console: view.print_record(found, units or typed_units(loaded), console))  # fmt: skip


def _answer(as_json: bool, data: Callable[[Any], dict[str, Any]], lines: Callable[[Any, Console], None]) -> None:
    """Print an answer as JSON or in lines. Each is given the view that it is made by, which is loaded only where it is used."""
    if as_json:
        from rigcalc.cli.writing import json_text
        from rigcalc.views.json import reading as as_data

        click.echo(json_text(data(as_data)))
        return
    from rigcalc.views.terminal import reading as as_lines
    from rigcalc.views.terminal.parts import new_console

    lines(as_lines, new_console())


def added(rig: str, typed: dict[str, str], behind: int) -> Added:
    """Add a reading beside a rig file, with what was said of it before. Raises InputError."""
    from rigcalc.models.reading import foretold
    from rigcalc.models.reading.adding import made_now, with_reading
    from rigcalc.models.rig.beside import add_beside
    from rigcalc.models.rig.file import DEMO_RIGS, load_rig
    from rigcalc.words.reading.listed import said_entry

    loaded = load_rig(rig)
    if rig in DEMO_RIGS:
        fault = Fault("RIG", shown(rig), "a rig file of your own: readings stand beside it", "rigcalc new my.toml")
        raise InputError([fault])
    data: dict[str, Any] = {"date": datetime.date.today().isoformat(), **typed, "depth_behind": behind}
    made = _checked(data | {"made_with": made_now(loaded)})
    said = foretold(loaded, made)
    made = made.model_copy(update={f"said_{kind}": said_entry(kind, span) for kind, span in said.items()})
    with_reading(loaded, made)  # refuses what doesn't go with the rig
    return Added(add_beside(Path(rig), made), len(loaded.reading) + 1, made, said, loaded)


def print_added(done: Added, units: Any) -> None:
    """Say where a reading was added, and what was said of it before."""
    from rigcalc.words.reading.listed import KIND_TITLES, span_text

    click.echo(f"Added reading {done.place} to {printable(click.format_filename(done.file))}.")
    for kind, span in done.said.items():
        value, shows = done.made.numbers[kind][0], units or typed_units(done.rig)
        inside = "inside" if span.low <= value <= span.high else "outside"
        click.echo(f"Said before: {KIND_TITLES[kind]} {span_text(kind, span, shows)}; what was read lies {inside}.")


def _with_some(path: str) -> Rig:
    from rigcalc.models.rig.file import load_rig

    rig = load_rig(path)
    if not rig.reading:
        raise InputError([Fault("RIG", f"{shown(path)}, a rig without readings", "one reading at least",
                                "rigcalc reading add RIG --depth ... --speed ... --slip ...")])  # fmt: skip
    return rig


def _checked(data: dict[str, Any]) -> Reading:
    """Make a reading of what was typed. Raises InputError that names every fault by its option."""
    from rigcalc.models.rig.beside import reading_from

    try:
        return reading_from(data)
    except InputError as error:
        faults = [Fault(_option(each.where), each.got, each.expected, each.type_this) for each in error.faults]
        raise InputError(faults, title="This reading isn't added") from None


def _option(where: str) -> str:
    return {"reading": "reading", "depth_behind": "--behind"}.get(where, "--" + where.replace("_", "-"))
