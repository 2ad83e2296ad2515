"""`rigcalc reading log`: a display's or the tractor's log taken apart, its steady stretches added as readings."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from rigcalc.cli.common import typed_units, units_option
from rigcalc.cli.reading import added, print_added
from rigcalc.cli.writing import file_faults, write_file
from rigcalc.core.errors import Fault, InputError, printable, shown

if TYPE_CHECKING:
    from rigcalc.models.reading.log_columns import Columns


@click.command()
@click.argument("rig")
@click.argument("file")
@click.option("--column", "columns", multiple=True,
              help='A quantity, its column and unit: "speed=Ground speed;km/h". Kept beside FILE.')  # fmt: skip
@click.option("--load-of", type=click.Choice(["available", "rated"]), help="What a column of load is a share of.")
@click.option("--depth", help="Depth dug out behind a shank; with it the longest stretches are added as readings.")
@click.option("--behind", type=int, default=1, show_default=True, help="How many shanks it was dug out behind.")
@click.option("--date", help="The day of the log, such as 2026-11-04.")
@click.option("--field", help="Which field.")
@click.option("--most", type=click.IntRange(1, 12), default=3, show_default=True, help="How many stretches to add.")
@click.option("--picture", help="Draw speed, load, slip and the passes over time into this file, such as pass.svg.")
@click.option("--force", is_flag=True, help="Write over that file if it is there.")
@units_option
@click.option("--json", "as_json", is_flag=True, help="Print JSON with units and nothing else.")
def log(
    rig: str, file: str, columns: tuple[str, ...], load_of: str | None, depth: str | None, behind: int, date: str | None,
    field: str | None, most: int, picture: str | None, force: bool, units: Any, as_json: bool,
) -> None:  # fmt: skip
    """Take FILE apart: its steady stretches, and what was thrown away; with --depth add the longest as readings.

    Where the log has a heading, the headland is kept apart, and its longest stretch added as a reading of the headland.

    FILE is a display's CSV, or a log of the tractor's CAN bus (.asc, .log, .trc). Quantities of a CSV: time (in s, or clock),
    speed, and any of wheel_speed, slip, load, fuel_rate, engine_speed, heading, tool_down (1 or 0). Which column is which is
    asked once and kept in the folder of FILE; --column says it anew.
    """
    from rigcalc.models.reading.can_log import SUFFIXES, read_can
    from rigcalc.models.reading.log import entries, passes, read_log
    from rigcalc.models.reading.log_columns import Columns, kept_columns
    from rigcalc.models.rig.file import load_rig
    from rigcalc.words.reading.log import spent_lines, stretch_text

    loaded, path = load_rig(rig), Path(file)
    on_the_bus = path.suffix.lower() in SUFFIXES and not columns
    faults: list[Fault] = []
    if depth is not None and date is None:
        faults.append(Fault("--date", "nothing", "the day of the log beside --depth", "--date 2026-11-04"))
    if picture is not None:
        faults += file_faults("--picture", Path(picture), (".svg",), force, "pass.svg")
    kept: Columns | None = None
    if on_the_bus:
        named = Columns({}, "available")  # engine load on the bus is of what the engine gives at its speed
    elif columns:
        named = _typed(columns, load_of, faults)
    else:
        kept = kept_columns(path)
        named = kept if kept is not None else _asked(path)
        named = named if load_of is None else Columns(named.columns, load_of)
    faults += named.faults()
    if faults:
        raise InputError(faults)
    with click.progressbar(length=100, label=f"Reading {printable(path.name)}", file=sys.stderr) as bar:
        told: Callable[[float], None] = lambda share: bar.update(round(100 * share) - bar.pos)  # noqa: E731
        read = read_can(path, told) if on_the_bus else read_log(path, named.columns, told)
    found = passes(read)
    if not on_the_bus and named != kept:
        _keep(path, named, as_json)
    shows = units or typed_units(loaded)
    if picture is not None:
        from rigcalc.views.reading.time_line import time_line

        text = time_line(read, found, shows, f"{path.name} over time")
        write_file("--picture", Path(picture), text.encode(), force)
        if not as_json:
            click.echo(f"Wrote {printable(click.format_filename(picture))}.")
    if not found.stretches:
        raise InputError([Fault(printable(file), "no steady stretch", "half a minute and more at an even speed and load")])
    if not as_json:
        for line in spent_lines(found):
            click.echo(line)
        for place, stretch in enumerate(found.stretches, 1):
            click.echo(f"Stretch {place}: {stretch_text(stretch, shows)}")
        for stretch in found.headland[:1]:
            click.echo(f"On the headland: {stretch_text(stretch, shows)}")
    done = []
    chosen = [("", f"stretch {place}", each) for place, each in enumerate(found.stretches[:most], 1)]
    chosen += [("headland", "headland", each) for each in found.headland[:1]]
    for zone, which, stretch in chosen if depth is not None else ():
        about = {"note": f"log {path.name}, {which}"[:200], "zone": zone}
        about |= {name: text for name, text in (("field", field), ("date", date), ("depth", depth)) if text is not None}
        done.append(added(rig, entries(stretch, named.load_of) | about, behind))
        if not as_json:
            print_added(done[-1], shows)
    if as_json:
        from rigcalc.cli.writing import json_text
        from rigcalc.views.json.reading import added_data, log_data

        data = log_data(found)
        data |= added_data([(each.place, each.made, each.said) for each in done], str(done[0].file)) if done else {"added": []}
        click.echo(json_text(data))
    elif depth is None:
        click.echo("Nothing added: --depth and --date make readings of the longest stretches.")


def _typed(columns: tuple[str, ...], load_of: str | None, faults: list[Fault]) -> Columns:
    """Give the columns of the options; what is wrong with them goes to `faults`."""
    from rigcalc.models.reading.log import typed_column
    from rigcalc.models.reading.log_columns import Columns

    named: dict[str, Any] = {}
    for text in columns:
        try:
            name, column = typed_column(text)
        except InputError as error:
            faults += error.faults
            continue
        if name in named:
            faults.append(Fault("--column", shown(text), f"{name} once", "one of the two"))
        named[name] = column
    return Columns(named, load_of)


def _asked(path: Path) -> Columns:
    """Ask at a terminal which column is what. Raises InputError where nobody sits at one."""
    from rigcalc.models.reading.log import COLUMNS, typed_column
    from rigcalc.models.reading.log_columns import NAME, Columns, headings

    if not _at_a_terminal():
        raise InputError([Fault("--column", f"nothing, and no {NAME} beside the log", "which column is what",
                                '--column "time=Time;s" --column "speed=Ground speed;km/h" ...')])  # fmt: skip
    heads = headings(path)
    click.echo("Columns of this log: " + ", ".join(f"{at} {printable(head)}" for at, head in enumerate(heads, 1)))
    click.echo("Answer with a column's number and its unit, such as: 3 km/h. Enter: there is none.")
    found: dict[str, Any] = {}
    for name, unit in COLUMNS.items():
        while text := _reply(f"{name} ({unit if unit != '1' else 'percent, or 1'})?"):
            number, _, typed = text.partition(" ")
            try:
                if not (number.isascii() and number.isdigit() and 0 < int(number[:5]) <= len(heads)):
                    raise InputError([Fault(name, shown(text), f"a number from 1 to {len(heads)} and a unit", f"1 {unit}")])
                found[name] = typed_column(f"{name}={heads[int(number) - 1]};{typed.strip() or unit}")[1]
                break
            except InputError as error:
                for fault in error.faults:
                    click.echo(f"  {fault}")
    load_of = None
    while "load" in found and load_of not in ("available", "rated"):
        load_of = _reply("load: of what the engine gives at its speed (available; most displays), or of rated power (rated)?")
    return Columns(found, load_of)


def _at_a_terminal() -> bool:
    return sys.stdin is not None and sys.stdin.isatty() and sys.stdout.isatty()


def _reply(text: str) -> str:
    return str(click.prompt(text, default="", show_default=False, prompt_suffix=" ")).strip()


def _keep(path: Path, named: Columns, quiet: bool) -> None:
    """Keep the columns beside the log, whole or not at all; a folder that can't be written to is said and does no harm."""
    from rigcalc.cli.writing import write_beside
    from rigcalc.models.reading.log_columns import columns_text, kept_beside
    from rigcalc.words.reading.log import COLUMNS_HEAD

    file = kept_beside(path)
    try:
        write_beside(file, columns_text(named, COLUMNS_HEAD).encode(), over=True)
        text = f"Which column is what is kept in {printable(click.format_filename(file))}."
    except OSError as error:
        text = f"Which column is what couldn't be kept in {printable(click.format_filename(file))} ({error.strerror})."
    if not quiet:
        click.echo(text)
