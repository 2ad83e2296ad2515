"""`rigcalc new` and `rigcalc check`: a rig file to fill in, and what is wrong with one."""

from __future__ import annotations

import shlex
from pathlib import Path

import click

from rigcalc.cli.writing import write_beside
from rigcalc.core.errors import Fault, InputError, printable, shown


@click.command()
@click.argument("file", required=False)
def new(file: str | None) -> None:
    """Write a commented starter rig to FILE (default: print it). Never writes over a file."""
    from rigcalc.models.rig.file import starter_text

    text = starter_text()
    if file is None:
        click.echo(text, nl=False)
        return
    try:
        write_beside(Path(file), text.encode(), over=False)
    except FileExistsError:
        raise InputError([Fault("FILE", shown(file), "a file that isn't there yet", "another name")]) from None
    except (OSError, ValueError) as error:  # a name that the system can't have is a ValueError
        why = getattr(error, "strerror", None) or "not a name of a file"
        raise InputError([Fault("FILE", shown(file), f"a place that can be written to ({why})", "another name")]) from None
    click.echo(f"Wrote {printable(file)}. Edit it, then: rigcalc size {printable(shlex.quote(file))}")


@click.command()
@click.argument("rig")
def check(rig: str) -> None:
    """Check the rig file RIG and list every fault in it."""
    from rigcalc.models.rig.file import load_rig

    loaded = load_rig(rig)
    implement, work = loaded.implement, loaded.work
    click.echo(f"{printable(rig)}: in order. {implement.tools} shanks, {work.depth} deep at {work.speed}.")
