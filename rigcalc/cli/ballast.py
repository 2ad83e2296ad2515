"""The commands `rigcalc ballast` and `rigcalc sliptest`. Exit codes: 0 in order, 1 something to change, 2 bad input."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from rigcalc.cli.common import EXIT_DOES_NOT, EXIT_WORKS, typed_units, units_option
from rigcalc.cli.writing import libraries_quiet
from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.core.units import plain_number

if TYPE_CHECKING:
    from rigcalc.models.rig.measure import Measure
    from rigcalc.models.rig.rig import Rig


@click.command()
@click.argument("rig", required=False)
@click.option("--job", default="full", show_default=True, help="Job to plan for: light, this or full.")
@click.option("--front", help='Scale ticket of the front axle, such as "27500 lb".')
@click.option("--rear", help='Scale ticket of the rear axle, such as "22500 lb".')
@click.option("--total", help="Scale ticket of the whole tractor, to check the two.")
@click.option("--table", "tables", multiple=True, help="Inflation table: front=FILE.csv or rear=FILE.csv.")
@units_option
@click.option("--working", "with_working", is_flag=True, help="Show the equations with their numbers and source.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON with units and nothing else.")
def ballast(
    rig: str | None, job: str, front: str | None, rear: str | None, total: str | None, tables: tuple[str, ...], units: Any,
    with_working: bool, as_json: bool,
) -> None:  # fmt: skip
    """Plan ballast for RIG in pieces: what to put on, what to take off, and what stands in the way.

    Exit codes: 0 a set at hand works (or nothing need change), 1 none does, 2 bad input.
    """
    from rigcalc.models.ballast.answer import ballast as answer_for
    from rigcalc.models.rig.file import replaced

    loaded = _rig(rig)
    changes: dict[str, Any] = {}
    for key, value in (("tractor.front_axle_mass", front), ("tractor.rear_axle_mass", rear), ("scale.total", total)):
        if value is not None:
            changes[key] = value
    for entry in tables:
        changes |= _table(entry)
    loaded = replaced(loaded, changes) if changes else loaded
    with libraries_quiet():
        answer = answer_for(loaded, job, units=units or typed_units(loaded))
    if as_json:
        from rigcalc.cli.writing import json_text
        from rigcalc.views.json.ballast import ballast_data

        click.echo(json_text(ballast_data(answer)))
    else:
        from rigcalc.views.terminal.ballast import print_ballast
        from rigcalc.views.terminal.parts import new_console, print_working

        console = new_console()
        print_ballast(answer, console)
        if with_working:
            print_working(answer.working, console)
    sys.exit(EXIT_WORKS if answer.works else EXIT_DOES_NOT)


@click.command()
@click.argument("rig", required=False)
@click.option("--loaded", help="Wheel turns over the marked distance under load.")
@click.option("--unloaded", help="Wheel turns over the same distance without load.")
@click.option("--turns", help="Wheel turns counted under load.")
@click.option("--per-turn", help='Distance for one turn without load, such as "15.2 ft".')
@click.option("--distance", help='Distance covered in those turns under load, such as "110 ft".')
@click.option("--ground", help='Ground speed, such as "5.1 mph".')
@click.option("--wheel", help='Wheel speed read at the same time, such as "5.6 mph".')
@click.option("--slip", "slip_shown", help='Slip that a screen shows, such as "12 %".')
@click.option("--off", default="0.5", show_default=True, help="How far each count may be off, in turns.")
@click.option("--band", help='Slip band in percent, such as "8 to 13" (default: by the ground in RIG).')
@units_option
def sliptest(
    rig: str | None, loaded: str | None, unloaded: str | None, turns: str | None, per_turn: str | None, distance: str | None,
    ground: str | None, wheel: str | None, slip_shown: str | None, off: str, band: str | None, units: Any,
) -> None:  # fmt: skip
    """Work out slip from a test in the field, and what to do about it.

    Give one of four: --loaded and --unloaded; --turns, --per-turn and --distance; --ground and --wheel; or --slip. With RIG the
    verdict names a mass. Exit codes: 0 inside the band, 1 not or not sure, 2 bad input.
    """
    from rigcalc.models.ballast.slip_test import from_distance, from_screen, from_speeds, from_turns, verdict
    from rigcalc.views.terminal.ballast import print_slip_test
    from rigcalc.views.terminal.parts import new_console

    ways = {
        "turns": {"--loaded": loaded, "--unloaded": unloaded},
        "distance": {"--turns": turns, "--per-turn": per_turn, "--distance": distance},
        "speeds": {"--ground": ground, "--wheel": wheel},
        "screen": {"--slip": slip_shown},
    }
    begun = [name for name, parts in ways.items() if any(part is not None for part in parts.values())]
    if len(begun) != 1 or any(part is None for part in ways[begun[0]].values()):
        given = [key for parts in ways.values() for key, part in parts.items() if part is not None]
        raise InputError([Fault("sliptest", ", ".join(given) or "no reading", "one whole way of measuring",
                                "--loaded 100 --unloaded 88, or one of the ways in `rigcalc sliptest -h`")])  # fmt: skip
    error = _number("--off", off)
    if begun == ["turns"]:
        test = from_turns(_number("--loaded", loaded), _number("--unloaded", unloaded), error)
    elif begun == ["distance"]:
        test = from_distance(
            _number("--turns", turns),
            _measure("--per-turn", per_turn, "m", "15.2 ft"),
            _measure("--distance", distance, "m", "110 ft"),
            error,
        )
    elif begun == ["screen"]:
        test = from_screen(slip_shown or "")
    else:
        test = from_speeds(_measure("--ground", ground, "km/h", "5.1 mph"), _measure("--wheel", wheel, "km/h", "5.6 mph"))
    known = _rig(rig) if rig is not None or band is None else None
    found = verdict(test, known, _band(band))
    print_slip_test(test, found, units or (typed_units(known) if known else "us"), new_console())
    sys.exit(EXIT_WORKS if found.state == "inside" else EXIT_DOES_NOT)


def _rig(rig: str | None) -> Rig:
    from rigcalc.models.rig.file import DEMO_RIGS, load_rig

    return load_rig(DEMO_RIGS[0] if rig is None else rig)


def _number(name: str, text: str | None) -> float:
    try:
        return plain_number(text or "")
    except InputError:
        raise InputError([Fault(name, shown(text), "a number", f"{name} 10")]) from None


def _measure(name: str, text: str | None, unit: str, example: str) -> Measure:
    from pydantic_core import PydanticCustomError

    from rigcalc.models.rig.measure import Kind

    try:
        return Kind(unit, example).read(text)
    except PydanticCustomError as error:
        about = error.context or {}
        raise InputError([Fault(name, about["got"], about["expected"], f'"{example}"')]) from None


def _band(text: str | None) -> tuple[float, float] | None:
    if text is None:
        return None
    parts = text.replace("%", "").split(" to ")
    if len(parts) != 2:
        raise InputError([Fault("--band", shown(text), "two percentages with 'to' between them", '--band "8 to 13"')])
    low, high = (_number("--band", part) / 100 for part in parts)
    return low, high


def _table(entry: str) -> dict[str, Any]:
    """Read front=FILE.csv or rear=FILE.csv into changes of the rig."""
    from rigcalc.models.ballast.tyres import LARGEST_TABLE, read_table

    axle, _, name = entry.partition("=")
    path = Path(name)
    if axle not in ("front", "rear") or not path.is_file():
        raise InputError([Fault("--table", shown(entry), "front= or rear= and a file that exists", "--table rear=tyre.csv")])
    with path.open("rb") as stream:
        data = stream.read(LARGEST_TABLE + 1)
    try:
        found = read_table(data.decode("utf-8-sig"))
    except UnicodeDecodeError:
        raise InputError([Fault("--table", shown(name), "a text file", "a CSV file in UTF-8")]) from None
    return {
        f"tractor.{axle}.tyre.pressures": [f"{p:.9g} kPa" for p in found.pressures],
        f"tractor.{axle}.tyre.loads": [f"{m:.9g} kg" for m in found.loads],
        f"tractor.{axle}.tyre.table_from": name[:200],
    }
