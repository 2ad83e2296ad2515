"""`rigcalc size`: the main question in a terminal."""

from __future__ import annotations

import sys
from typing import Any

import click

from rigcalc.cli.common import EXITS, changed, units_option
from rigcalc.core.errors import Fault, InputError


@click.command()
@click.argument("rig", required=False)
@click.option("--depth", help='Working depth, such as "14 in".')
@click.option("--speed", help='Travel speed, such as "5.5 mph".')
@click.option("--tools", help="Number of shanks, such as 13.")
@click.option("--texture", help='USDA texture class, such as "silty clay loam".')
@click.option("--field", help="Which field that was read (default: that of the last reading).")
@click.option("--day", help='Which day that was read, or "another" (default: the last).')
@units_option
@click.option("--working", "with_working", is_flag=True, help="Show every equation with its numbers and source.")
@click.option("--solve-for", metavar="SYMBOL", help="The working, each step that has SYMBOL solved for it too, such as depth.")
@click.option("--notes", "all_notes", is_flag=True, help="Show every note, not the weightiest five alone.")
@click.option(
    "--first", "all_first", is_flag=True, help="Show what to measure first in full: each entry, what was tried, what moved."
)
@click.option("--json", "as_json", is_flag=True, help="Print JSON with units and nothing else.")
@click.option("--seed", default=0, show_default=True, help="Seed of the draws behind 'how sure'.")
def size(
    rig: str | None, depth: str | None, speed: str | None, tools: str | None, texture: str | None,
    field: str | None, day: str | None, units: Any,
    with_working: bool, solve_for: str | None, all_notes: bool, all_first: bool, as_json: bool, seed: int,
) -> None:  # fmt: skip
    """Answer the main question for RIG (a rig file or a demo rig; default: front_wheel_assist)."""
    from rigcalc.models.rig.file import DEMO_RIGS, load_rig
    from rigcalc.models.size.answer import size as answer_for
    from rigcalc.words import in_words
    from rigcalc.words.solved import hold_to_symbols

    loaded = changed(load_rig(DEMO_RIGS[0] if rig is None else rig), depth, speed, tools, texture, field, day)
    if seed < 0:
        raise InputError([Fault("--seed", str(seed), "a whole number from 0 up", "--seed 0")])
    answer = answer_for(loaded, seed=seed)
    words = in_words(answer, units)
    if solve_for is not None:
        hold_to_symbols(words.working, solve_for)
    if as_json:
        from rigcalc.cli.writing import json_text
        from rigcalc.views.json.size import answer_data

        data = answer_data(words, with_working or solve_for is not None, solve_for or "")
        click.echo(json_text(data))
    else:
        from rigcalc.views.terminal.costs import print_costs
        from rigcalc.views.terminal.parts import new_console, print_working
        from rigcalc.views.terminal.size import print_answer
        from rigcalc.words.size.notes import ranges_left

        console = new_console()
        print_answer(words, console, all_notes, all_first)
        if with_working or solve_for is not None:
            print_working(words.working, console, ranges_left(answer), solve_for or "")
            print_costs(words, console)
    sys.exit(EXITS[answer.verdict.judgement])
