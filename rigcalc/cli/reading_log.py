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
    from rigcalc.models.reading.any_log import AnyLog
    from rigcalc.models.reading.log import Passes
    from rigcalc.models.reading.log_columns import Columns
    from rigcalc.models.rig.rig import Rig


@click.command()
@click.argument("rig")
@click.argument("file")
@click.option("--column", "columns", multiple=True,
              help='A quantity, its column and unit: "speed=Ground speed;km/h". Kept beside FILE.')  # fmt: skip
@click.option("--load-of", type=click.Choice(["available", "rated"]), help="What a column of load is a share of.")
@click.option("--task", help="Which task of task data, by its name or identifier, where several have logs.")
@click.option("--depth", help='Depth dug out behind a shank, or "log" for the depth that the log holds; '
              "with it the longest stretches are added as readings.")  # fmt: skip
@click.option("--behind", type=int, default=1, show_default=True, help="How many shanks it was dug out behind.")
@click.option("--date", help="The day of the log, such as 2026-11-04. Task data says it by itself.")
@click.option("--field", help="Which field.")
@click.option("--most", type=click.IntRange(1, 12), default=3, show_default=True, help="How many stretches to add.")
@click.option("--picture", help="Draw speed, load, slip, draft and the passes over time into this file, such as pass.svg.")
@click.option("--map", "map_file", help="Draw the field as it was driven into this file, such as field.svg; needs positions.")
@click.option("--map-of", type=click.Choice(["draft", "slip", "load", "fuel_rate", "speed", "depth"]),
              help="What the map shows: draft where the log tells it, else slip.")  # fmt: skip
@click.option("--force", is_flag=True, help="Write over those files if they are there.")
@units_option
@click.option("--json", "as_json", is_flag=True, help="Print JSON with units and nothing else.")
def log(
    rig: str, file: str, columns: tuple[str, ...], load_of: str | None, task: str | None, depth: str | None, behind: int,
    date: str | None, field: str | None, most: int, picture: str | None, map_file: str | None, map_of: str | None, force: bool,
    units: Any, as_json: bool,
) -> None:  # fmt: skip
    """Take FILE apart: its steady stretches, and what was thrown away; with --depth add the longest as readings.

    Where the log has a heading or positions, the headland is kept apart, and its longest stretch added as a reading of it.

    FILE is a display's CSV, a log of the tractor's CAN bus (.asc, .log, .trc), or task data of ISO 11783-10: its folder, or a
    zip of it. Quantities of a CSV: time (in s, or clock), speed, and any of wheel_speed, slip, load, torque, fuel_rate,
    engine_speed, pull, depth, heading, tool_down (1 or 0), latitude, longitude. Which column is which is asked once and
    kept in the folder of FILE; --column says it anew.
    """
    from rigcalc.models.reading.any_log import engine_speed_used, log_kind, stretch_entries
    from rigcalc.models.reading.log import entries, passes
    from rigcalc.models.rig.file import load_rig
    from rigcalc.words.reading.log import ENGINE_SPEED_UNUSED, log_lines, spent_lines, stretch_text

    loaded, path = load_rig(rig), Path(file)
    kind, faults = log_kind(path, bool(columns)), []
    if depth is not None and date is None and kind != "task":
        faults.append(Fault("--date", "nothing", "the day of the log beside --depth", "--date 2026-11-04"))
    for option, name, text in (("--picture", picture, "pass.svg"), ("--map", map_file, "field.svg")):
        faults += file_faults(option, Path(name), (".svg",), force, text) if name is not None else []
    if task is not None and kind != "task":
        faults.append(Fault("--task", shown(task), "task data to choose from", "a folder TASKDATA, or a zip of it"))
    if map_of is not None and map_file is None:
        faults.append(Fault("--map", "nothing", "a file to draw into beside --map-of", "--map field.svg"))
    read, to_keep = _read(path, kind, columns, load_of, task, faults)
    found = passes(read.columns)
    if to_keep is not None:
        _keep(path, to_keep, as_json)
    shows = units or typed_units(loaded)
    drawn = _drawn(loaded, read, found, shows, path, {"--picture": picture, "--map": map_file}, map_of)
    for option, name, text in drawn:
        write_file(option, Path(name), text.encode(), force)
        if not as_json:
            click.echo(f"Wrote {printable(click.format_filename(name))}.")
    if not found.stretches:
        raise InputError([Fault(printable(file), "no steady stretch", "half a minute and more at an even speed and load")])
    if not as_json:
        for line in (*(log_lines(read.task) if read.task is not None else ()), *spent_lines(found)):
            click.echo(printable(line))
        for place, stretch in enumerate(found.stretches, 1):
            click.echo(f"Stretch {place}: {stretch_text(stretch, shows)}")
        for stretch in found.headland[:1]:
            click.echo(f"On the headland: {stretch_text(stretch, shows)}")
        if "engine_speed" in read.columns and not engine_speed_used(loaded, entries(found.stretches[0], read.load_of)):
            click.echo(ENGINE_SPEED_UNUSED)
    chosen = [("", f"stretch {place}", each) for place, each in enumerate(found.stretches[:most], 1)]
    chosen += [("headland", "headland", each) for each in found.headland[:1]]
    wanted = []
    for zone, which, stretch in chosen if depth is not None else ():
        made = stretch_entries(loaded, read, stretch, f"log {path.name}, {which}", zone) | (
            {} if field is None else {"field": field}
        )
        made |= {"date": date or _day(made), "depth": _depth(str(depth), made, which)}
        wanted.append(made)
    done = []
    for made in wanted:
        done.append(added(rig, made, behind))
        if not as_json:
            print_added(done[-1], shows)
    if as_json:
        from rigcalc.cli.writing import json_text
        from rigcalc.views.json.reading import added_data, log_data

        data = log_data(found, read.task)
        data |= added_data([(each.place, each.made, each.said) for each in done], str(done[0].file)) if done else {"added": []}
        click.echo(json_text(data))
    elif depth is None:
        click.echo("Nothing added: --depth makes readings of the longest stretches"
                   f"{'' if kind == 'task' else ', with --date'}.")  # fmt: skip


def _read(
    path: Path, kind: str, columns: tuple[str, ...], load_of: str | None, task: str | None, faults: list[Fault]
) -> tuple[AnyLog, Columns | None]:
    """Read a log of any kind, with a bar; and which column is what, where that is new.

    Raises InputError: `faults` and every other of the options, before it is read.
    """
    from rigcalc.models.reading.any_log import read_any
    from rigcalc.models.reading.log_columns import Columns, kept_columns

    named, kept = Columns({}, "available"), None  # engine load on the bus is of what the engine gives at its speed
    if kind == "task" and columns:
        faults.append(Fault("--column", shown(columns[0]), "no columns: task data says by itself what it holds"))
    elif kind == "csv" and columns:
        named = _typed(columns, load_of, faults)
    elif kind == "csv":
        if faults:
            raise InputError(faults)
        kept = kept_columns(path)
        named = kept if kept is not None else _asked(path)
        named = named if load_of is None else Columns(named.columns, load_of)
    faults += named.faults()
    if faults:
        raise InputError(faults)
    with click.progressbar(length=100, label=f"Reading {printable(path.name)}", file=sys.stderr) as bar:
        told: Callable[[float], None] = lambda share: bar.update(round(100 * share) - bar.pos)  # noqa: E731
        found = read_any(path, kind, named.columns, named.load_of, task, told)
    return found, named if kind == "csv" and named != kept else None


def _drawn(
    loaded: Rig, read: AnyLog, found: Passes, units: Any, path: Path, files: dict[str, str | None], map_of: str | None
) -> list[tuple[str, str, str]]:
    """Give (option, file, SVG) of each picture that is wanted; all are drawn before one is written."""
    out = []
    if (name := files["--picture"]) is not None:
        from rigcalc.models.machine.field import in_field
        from rigcalc.models.reading.field_map import worked_drafts
        from rigcalc.views.reading.time_line import time_line

        drafts = worked_drafts(in_field(loaded), read.columns, found, read.load_of)
        out.append(("--picture", name, time_line(read.columns, found, units, f"{path.name} over time", *drafts)))
    if (name := files["--map"]) is not None:
        from rigcalc.models.machine.field import in_field
        from rigcalc.models.reading.field_map import field_map, kind_of
        from rigcalc.views.reading.field_map import field_map_svg

        kind = map_of or kind_of(read.columns, read.load_of) or "speed"
        out.append(("--map", name, field_map_svg(field_map(in_field(loaded), read.columns, found, kind, read.load_of),
                                                 units, path.name)))  # fmt: skip
    return out


def _day(made: dict[str, str]) -> str:
    """Give the day that the log itself says of a stretch. Raises InputError where it says none."""
    if "date" not in made:
        raise InputError(
            [Fault("--date", "nothing, and a log whose clock wasn't set", "the day of the log", "--date 2026-11-04")]
        )
    return made["date"]


def _depth(typed: str, made: dict[str, str], which: str) -> str:
    """Give the depth of a stretch: as typed, or as the log has it. Raises InputError where it has none."""
    if typed.strip().lower() != "log":
        return typed
    if "depth" not in made:
        raise InputError(
            [Fault("--depth", f"log, and no depth over {which} in it", "the depth that you dug", '--depth "14 in"')]
        )
    return made["depth"]


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
        if name == "torque" and "load" in found:
            continue  # load says the same and better
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
