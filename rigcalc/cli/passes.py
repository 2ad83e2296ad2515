"""`rigcalc field`: which way to drive fields as they are, and what their shape costs."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from rigcalc.cli.common import EXITS, changed, units_option
from rigcalc.core.errors import Fault, InputError, printable

_FEW = 0.1  # share that one field has of a few, which are laid before anybody waits


@click.command()
@click.argument("rig")
@click.argument("boundary", required=False)
@click.option("--heading", help='Drive every field at this heading, such as "88 deg"; the best of each without it.')
@click.option("--rounds", help="Rounds along the boundary; what the turn needs, or 2, without it.")
@click.option("--turn-time", help='Time of a turn, such as "25 s".')
@click.option("--turn-radius", help='Circle that the rig turns on, such as "30 ft": works out the turn and the rounds.')
@click.option("--overlap", help='What a pass overlaps the next by, such as "8 in".')
@click.option("--steering", type=click.Choice(["hand", "satellite", "rtk"]), default="hand", show_default=True,
              help="What is usual to overlap by.")  # fmt: skip
@click.option("--move", help='Time to the next field, such as "30 min".')
@click.option("--speed", help='Working speed, such as "5.5 mph".')
@click.option("--picture", help="Draw fields and passes into this file, such as field.svg.")
@click.option("--passes-out", help="Write the passes as lines into this file, such as passes.geojson.")
@click.option("--plan-out", help="Write a plan for `rigcalc season` into this file, such as season.toml.")
@click.option("--force", is_flag=True, help="Write over those files where they are there.")
@units_option
@click.option("--json", "as_json", is_flag=True, help="Print JSON with units and nothing else.")
def field(
    rig: str, boundary: str | None, rounds: str | None, speed: str | None, picture: str | None, passes_out: str | None,
    plan_out: str | None, force: bool, units: Any, as_json: bool, **typed: str | None,
) -> None:  # fmt: skip
    """Say which way to drive the fields of BOUNDARY with RIG (a rig file or a demo rig), and what their shape costs.

    BOUNDARY is a GeoJSON file or a shapefile, each polygon a field; an invented farm without it. The exit code is 0 go, 3 try
    it first (no room, or it hangs on the time of a turn), 1 where the rig can't do the work or can't turn, 2 bad input.
    """
    from rigcalc.cli.writing import file_faults
    from rigcalc.models.passes import field as field_of
    from rigcalc.models.rig.file import load_rig
    from rigcalc.words import in_words

    faults: list[Fault] = []
    outs = {"--picture": (picture, ".svg", "field.svg"), "--passes-out": (passes_out, ".geojson", "passes.geojson"),
            "--plan-out": (plan_out, ".toml", "season.toml")}  # fmt: skip
    for option, (name, kind, example) in outs.items():
        if name is not None:
            faults += file_faults(option, Path(name), (kind,), force, example)
    loaded: Any = None
    try:
        loaded = changed(load_rig(rig), None, speed, None)
    except InputError as error:
        faults += error.faults
    try:
        # Without a rig nothing is worked out; the boundary and the options are looked over all the same.
        found = field_of(loaded, boundary, rounds=_count(rounds), progress=_progress(), **typed)  # type: ignore[arg-type]
    except InputError as error:
        named = {*typed, "rounds"}
        faults += [_by_option(fault, named) for fault in error.faults if loaded is not None or fault.where != "rig"]
    if faults:
        raise InputError(faults)
    words = in_words(found, units)
    _write(words, outs, force, as_json)
    if as_json:
        from rigcalc.cli.writing import json_text
        from rigcalc.views.json.passes import field_data

        click.echo(json_text(field_data(words)))
    else:
        from rigcalc.views.terminal.parts import new_console
        from rigcalc.views.terminal.passes import print_fields

        if boundary is None:
            click.echo("No boundary named: asked of an invented farm in the middle of an ocean.", err=True)
        print_fields(words, new_console())
    sys.exit(EXITS[found.judgement])


def _write(words: Any, outs: dict[str, tuple[str | None, str, str]], force: bool, quiet: bool) -> None:
    from rigcalc.cli.writing import write_file

    for option, (name, _, _) in outs.items():
        if name is None:
            continue
        if option == "--picture":
            from rigcalc.views.passes.picture import field_picture

            text = field_picture(words)
        elif option == "--passes-out":
            from rigcalc.views.json.passes import passes_geojson

            text = json.dumps(passes_geojson(words), ensure_ascii=False)
        else:
            text = words.plan
        write_file(option, Path(name), text.encode(), force)
        if not quiet:
            click.echo(f"Wrote {printable(click.format_filename(name))}.")


def _progress() -> Callable[[float], None]:
    """Tell how far it is where somebody sits at the terminal and there are more than a few fields."""
    quiet = sys.stderr is None or not sys.stderr.isatty()
    begun = False

    def told(share: float) -> None:
        nonlocal begun
        begun = begun or share < _FEW
        if begun and not quiet:
            click.echo(f"\rLaying passes: {100 * share:3.0f} %", err=True, nl=share >= 1)

    return told


def _count(text: str | None) -> Any:
    """Give a count as a number; what isn't one stays as it is, and is refused with the rest."""
    return int(text) if text is not None and text.isascii() and text.isdecimal() and len(text) < 5 else text


def _by_option(fault: Fault, names: set[str]) -> Fault:
    """Call a fault of an option by the option's name."""
    if fault.where not in names:
        return fault
    option = f"--{fault.where.replace('_', '-')}"
    return Fault(option, fault.got, fault.expected, f'{option} "{fault.type_this}"' if fault.type_this else "")
