"""`rigcalc new` and `rigcalc check`: a rig file to fill in, and what is wrong with one."""

from __future__ import annotations

from pathlib import Path

import click

from rigcalc.core.errors import Fault, InputError, printable


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
        with Path(file).open("x", encoding="utf-8") as out:
            out.write(text)
    except FileExistsError:
        raise InputError([Fault("FILE", file, "a file that isn't there yet", "another name")]) from None
    except OSError as error:
        raise InputError([Fault("FILE", file, f"a place that can be written to ({error.strerror})", "another name")]) from None
    click.echo(f"Wrote {file}. Edit it, then: rigcalc size {file}")


@click.command()
@click.argument("rig")
def check(rig: str) -> None:
    """Check the rig file RIG and list every fault in it."""
    from rigcalc.models.rig.file import load_rig

    loaded = load_rig(rig)
    implement, work = loaded.implement, loaded.work
    click.echo(f"{printable(rig)}: in order. {implement.tools} shanks, {work.depth} deep at {work.speed}.")
