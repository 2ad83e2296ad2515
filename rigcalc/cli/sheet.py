"""`rigcalc sheet`: the setup sheet as a file."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

import click

from rigcalc.cli.common import EXITS, changed, units_option
from rigcalc.cli.writing import file_faults, write_file
from rigcalc.core.errors import Fault, InputError, printable, shown

KINDS = (".pdf", ".html")


@click.command()
@click.argument("rig", required=False)
@click.option("--out", required=True, help="File to write; its end says the kind: .pdf or .html.")
@click.option("--paper", type=click.Choice(["a4", "letter"]), help="Paper (default: letter for American units, else a4).")
@units_option
@click.option("--depth", help='Working depth, such as "14 in".')
@click.option("--speed", help='Travel speed, such as "5.5 mph".')
@click.option("--tools", help="Number of shanks, such as 13.")
@click.option("--who", help="Who it is for.")
@click.option("--where", help="Which field.")
@click.option("--when", help="When; nothing is put there that you don't type.")
@click.option("--gear", help="Gear to drive in, if known.")
@click.option("--comment", help="A line of your own.")
@click.option("--with-ballast", is_flag=True, help="Add the ballast plan: needs weights or liquid at hand in RIG.")
@click.option("--job", help="Job to plan ballast for: light, this or full (default: full).")
@click.option("--plan", "plan_file", help="A season's plan file (docs/season.md): adds the season of this rig alone.")
@click.option("--working", is_flag=True, help="Add pages with every equation, its numbers and its source.")
@click.option("--force", is_flag=True, help="Write over the file if it is there.")
def sheet(
    rig: str | None, out: str, paper: str | None, units: Any, depth: str | None, speed: str | None, tools: str | None,
    with_ballast: bool, job: str | None, plan_file: str | None, working: bool, force: bool, **about: str | None,
) -> None:  # fmt: skip
    """Write a setup sheet: a page for the cab, the rest overleaf. RIG: a rig file or a demo rig (front_wheel_assist)."""
    from rigcalc.models import DEMO_RIGS, load_rig, size
    from rigcalc.words import in_words

    file = Path(out)
    faults = file_faults("--out", file, KINDS, force, "sheet.pdf")
    try:
        loaded = changed(load_rig(DEMO_RIGS[0] if rig is None else rig), depth, speed, tools)
    except InputError as error:
        raise InputError([*faults, *error.faults]) from None
    if job is not None and not with_ballast:
        faults.append(Fault("--job", shown(job), "--with-ballast beside it", "--with-ballast --job full"))
    if faults:
        raise InputError(faults)
    words = in_words(size(loaded), units)
    more = {"ballast": _ballast(loaded, job or "full", words.units)} if with_ballast else {}
    more["working"] = working
    if plan_file is not None:
        from rigcalc.models.season import season

        more["season"] = season(loaded, plan_file)
    write_file("--out", file, _made(words, file.suffix.lower(), paper, {**about, **more}), force)
    click.echo(f"Wrote {printable(click.format_filename(file))}: {printable(str(words))}")
    sys.exit(EXITS[words.answer.verdict.judgement])


def _ballast(rig: Any, job: str, units: Any) -> Any:
    from rigcalc.models.ballast.answer import ballast

    return ballast(rig, job, units=units)


def _made(words: Any, kind: str, paper: str | None, about: dict[str, Any]) -> bytes:
    try:
        from rigcalc.views.sheet import sheet_html, sheet_pdf
    except ModuleNotFoundError as error:
        fault = Fault("rigcalc sheet", f"no {error.name}", "the sheet's libraries", "pip install 'rigcalc[sheet]'")
        raise InputError([fault]) from None
    if kind == ".pdf":
        return sheet_pdf(words, paper=paper, **about)
    return sheet_html(words, paper=paper, **about).encode()
