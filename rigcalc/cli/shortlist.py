"""`rigcalc shortlist`: the smallest tractor for this tool, the widest tool for this tractor."""

from __future__ import annotations

import sys
from typing import Any

import click

from rigcalc.cli.common import EXITS, changed, units_option
from rigcalc.core.errors import Fault, InputError

_DRIVES = ["2WD", "MFWD", "4WD", "track"]


@click.command()
@click.argument("rig", required=False)
@click.option(
    "--reserve", default="15 percent", show_default=True, help="Share of engine power to be left; 15 to 20 percent is usual."
)
@click.option("--drive", "drives", multiple=True, type=click.Choice(_DRIVES), help="A drive to look at; all without it.")
@click.option("--depth", help='Working depth, such as "14 in".')
@click.option("--speed", help='Working speed, such as "5.5 mph".')
@click.option("--tools", help="Number of shanks.")
@click.option("--texture", help='USDA texture class, such as "silty clay loam".')
@units_option
@click.option("--json", "as_json", is_flag=True, help="Print JSON with units and nothing else.")
@click.option("--seed", default=0, show_default=True, help="Seed of the draws behind every chance.")
def shortlist(
    rig: str | None, reserve: str, drives: tuple[str, ...], depth: str | None, speed: str | None, tools: str | None,
    texture: str | None, units: Any, as_json: bool, seed: int,
) -> None:  # fmt: skip
    """Seek the smallest tractor by class for the tool and work of RIG, and the widest tool for its tractor, with a reserve.

    RIG is a rig file or a demo rig. The exit code is 0 where a tractor by class is go, 3 where one fits that is to be tried
    first, 1 where none fits, 2 for bad input.
    """
    from rigcalc.models.rig.file import DEMO_RIGS, load_rig
    from rigcalc.models.shortlist import DRIVES
    from rigcalc.models.shortlist import shortlist as shortlist_of
    from rigcalc.words import in_words

    faults: list[Fault] = []
    loaded = load_rig(DEMO_RIGS[0] if rig is None else rig)
    try:
        loaded = changed(loaded, depth, speed, tools, texture)
    except InputError as error:
        faults += error.faults
    try:
        found = shortlist_of(loaded, reserve=reserve, drives=drives or DRIVES, seed=seed)
    except InputError as error:
        faults += error.faults
    if faults:
        raise InputError([_by_option(fault) for fault in faults])
    words = in_words(found, units)
    if as_json:
        from rigcalc.cli.writing import json_text
        from rigcalc.views.json.shortlist import shortlist_data

        click.echo(json_text(shortlist_data(words)))
    else:
        from rigcalc.views.terminal.parts import new_console
        from rigcalc.views.terminal.shortlist import print_shortlist

        if rig is None:
            click.echo(f"No rig named: asked of the demo rig {DEMO_RIGS[0]}.", err=True)
        print_shortlist(words, new_console())
    sys.exit(EXITS[found.judgement])


def _by_option(fault: Fault) -> Fault:
    """Call a fault of an option by the option's name."""
    if fault.where not in ("reserve", "seed"):
        return fault
    return Fault(f"--{fault.where}", fault.got, fault.expected, f"--{fault.where} {fault.type_this}")
