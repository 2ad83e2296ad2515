"""`rigcalc take-along`: an answer with sliders as one file that needs no rigcalc."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

import click

from rigcalc.cli.common import EXITS, changed, units_option
from rigcalc.cli.writing import file_faults, write_file
from rigcalc.core.errors import Fault, InputError, printable


@click.command("take-along")
@click.argument("rig", required=False)
@click.option("--out", required=True, help="File to write, such as field.html.")
@units_option
@click.option("--depth", help='Working depth, such as "14 in".')
@click.option("--speed", help='Travel speed, such as "5.5 mph".')
@click.option("--tools", help="Number of shanks, such as 13.")
@click.option("--force", is_flag=True, help="Write over the file if it is there.")
def take_along(
    rig: str | None, out: str, units: Any, depth: str | None, speed: str | None, tools: str | None, force: bool
) -> None:
    """Write one HTML file with the answer, the sheet and sliders, for a phone at the edge of the field or a class offline."""
    from rigcalc.models import DEMO_RIGS, load_rig, size
    from rigcalc.words import in_words

    file = Path(out)
    faults = file_faults("--out", file, (".html",), force, "field.html")
    try:
        loaded = changed(load_rig(DEMO_RIGS[0] if rig is None else rig), depth, speed, tools)
    except InputError as error:
        raise InputError([*faults, *error.faults]) from None
    if faults:
        raise InputError(faults)
    try:
        from rigcalc.views.along import take_along as made
    except ModuleNotFoundError as error:
        fault = Fault("rigcalc take-along", f"no {error.name}", "the app's libraries", "pip install 'rigcalc[app]'")
        raise InputError([fault]) from None
    words = in_words(size(loaded), units)
    with click.progressbar(length=100, label="Working out the answers around it", file=sys.stderr) as bar:
        text = made(words, lambda share: bar.update(round(100 * share) - bar.pos))
    write_file("--out", file, text.encode(), force)
    click.echo(f"Wrote {printable(click.format_filename(file))}: {printable(str(words))}")
    sys.exit(EXITS[words.answer.verdict.judgement])
