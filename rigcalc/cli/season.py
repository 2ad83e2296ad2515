"""`rigcalc season`: is it done in time, what a day is made of, what it costs."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

import click

from rigcalc.cli.common import EXITS, changed, units_option
from rigcalc.cli.writing import file_faults, write_file
from rigcalc.core.errors import Fault, InputError, printable

# Option -> where it stands in a plan.
_ENTRIES = {
    "area": ("area",), "start": ("start",), "by": ("by",), "leave": ("day", "leave"), "home": ("day", "home"),
    "operators": ("day", "operators"), "fuel_helper": ("day", "fuel_helper"),
    "field_hours": ("day", "field_hours"), "fit": ("days", "share"),
    "weather": ("days", "weather"), "weather_units": ("days", "weather_units"), "latitude": ("days", "latitude"),
    "water_left": ("days", "water_left"), "row_length": ("field", "row_length"),
    "tractor_price": ("money", "tractor_price"), "tool_price": ("money", "tool_price"), "fuel_price": ("money", "fuel_price"),
    "wage": ("money", "wage"), "hire": ("money", "hire"),
}  # fmt: skip
_OF_FILE = ("weather_units", "latitude")  # what a weather file doesn't say of itself
_OPTIONS = {".".join(path): f"--{name.replace('_', '-')}" for name, path in _ENTRIES.items()}


@click.command()
@click.argument("rigs", nargs=-1)
@click.option("--plan", "plan_file", help="A plan file (TOML) with all of it; docs/season.md names the entries.")
@click.option("--area", help='Area to be worked, such as "3000 acre"; the rig file\'s without it.')
@click.option("--start", help='First day, such as "1 Oct".')
@click.option("--by", help='Deadline, such as "15 Nov".')
@click.option("--leave", help='When the day begins, such as "6:30".')
@click.option("--home", help='When it ends, such as "21:00".')
@click.option("--operators", help="How many people take turns on one rig, 1 to 4; the day may then go past midnight.")
@click.option("--fuel-helper", is_flag=True, default=None, help="Somebody comes with a trailer and fuels at the field.")
@click.option("--field-hours", help='Hours in the field a day, where you know them, such as "10 h/day".')
@click.option("--fit", help='Your own share of days fit for work in a middle year, such as "60 percent".')
@click.option("--weather", help="A CSV of daily weather (DATE, TMAX, TMIN, PRCP) from which fit days are worked out.")
@click.option("--weather-units", help="Its units where it doesn't say: tenths (of C and mm), metric or us.")
@click.option("--latitude", help="Where it was read, in degrees, such as 46.9; south negative.")
@click.option("--water-left", help='Share of the water that plants can take which the crop leaves, such as "50 percent".')
@click.option("--row-length", help='Length of a pass, such as "2500 ft": builds the field efficiency.')
@click.option("--tractor-price", help="Price of the tractor, in your money, no unit.")
@click.option("--tool-price", help="Price of the tool.")
@click.option("--fuel-price", help='Such as "3.50 per gal".')
@click.option("--wage", help='Such as "25 per h".')
@click.option("--hire", help='What a hired rig costs, such as "24 per acre".')
@click.option("--depth", help='Working depth of every rig, such as "14 in".')
@click.option("--speed", help='Working speed of every rig, such as "5.5 mph".')
@click.option("--csv", help="Write each rig alone, its cost and chance, to this file; needs prices.")
@click.option("--xlsx", help="The same as a workbook whose costs are formulas, with a picture.")
@click.option("--force", is_flag=True, help="Write over files that are there.")
@units_option
@click.option("--json", "as_json", is_flag=True, help="Print JSON with units and nothing else.")
@click.option("--seed", default=0, show_default=True, help="Seed of the draws behind every chance.")
def season(
    rigs: tuple[str, ...], plan_file: str | None, depth: str | None, speed: str | None, csv: str | None, xlsx: str | None,
    force: bool, units: Any, as_json: bool, seed: int, **typed: Any,
) -> None:  # fmt: skip
    """Say whether the rigs RIGS, which share the fields, are done by the deadline; their real day, fuel and cost.

    RIGS are rig files or demo rigs. Options go before the plan file's entries. The exit code is 0 where it is done in 8 years
    of 10 or more by your own days, 1 where it isn't in half of them or a rig can't do the work, 3 between, 2 for bad input.
    """
    from rigcalc.models.rig.file import DEMO_RIGS, load_rig
    from rigcalc.models.season import season as season_of
    from rigcalc.words import in_words

    files = {option: Path(name) for option, name in (("--csv", csv), ("--xlsx", xlsx)) if name is not None}
    faults: list[Fault] = []
    for option, file in files.items():
        end = option.replace("--", ".")
        faults += file_faults(option, file, (end,), force, f"season{end}")
    loaded: list[Any] = []
    for name in rigs or (DEMO_RIGS[0],):
        try:
            loaded.append(changed(load_rig(name), depth, speed, None))
        except InputError as error:
            faults += [fault for fault in error.faults if fault not in faults]
    try:
        plan = _plan(plan_file, typed)
        if loaded:
            found = season_of(loaded, plan, seed=seed)
    except InputError as error:
        faults += [_by_option(fault, typed) for fault in error.faults]
    if faults:
        raise InputError(dict.fromkeys(faults))
    words = in_words(found, units)
    for option, file in files.items():
        from rigcalc.views.spreadsheet.season import season_csv, season_xlsx

        write_file(option, file, season_csv(words) if option == "--csv" else season_xlsx(words), force)
        click.echo(f"Wrote {printable(click.format_filename(file))}", err=True)
    if as_json:
        from rigcalc.cli.writing import json_text
        from rigcalc.views.json.season import season_data

        click.echo(json_text(season_data(words)))
    else:
        from rigcalc.views.terminal.parts import new_console
        from rigcalc.views.terminal.season import print_season

        if not rigs:
            click.echo(f"No rig named: asked of the demo rig {DEMO_RIGS[0]}.", err=True)
        print_season(words, new_console())
    sys.exit(EXITS[found.judgement])


def _plan(plan_file: str | None, typed: dict[str, Any]) -> Any:
    """Give the plan of the file with what was typed laid over it. Raises InputError with the faults of both."""
    from rigcalc.models.season.plan import plan_data, plan_from

    data = plan_data(plan_file) if plan_file is not None else {}
    days = data.get("days")
    if isinstance(days, dict) and (typed["fit"] or typed["weather"]):  # what is typed takes the place of the file's
        for entry in ("share", "counted", "weather", *_OF_FILE, *(("water_left",) if typed["fit"] else ())):
            days.pop(entry, None)
    for name, text in typed.items():
        if text is None:
            continue
        *path, last = _ENTRIES[name]
        part = data
        for section in path:
            part = part.setdefault(section, {})
            if not isinstance(part, dict):
                raise InputError([Fault(section, "an entry that is no section", "a section of a plan", f"[{section}]")])
        part[last] = text
    return plan_from(data)


def _by_option(fault: Fault, typed: dict[str, Any]) -> Fault:
    """Call a fault of an option by the option's name."""
    option = _OPTIONS.get(fault.where)
    if fault.where == "seed":
        return Fault("--seed", fault.got, fault.expected, f"--seed {fault.type_this}")
    if option is None or typed.get(option.lstrip("-").replace("-", "_")) is None:
        return fault
    # What is wrong in a weather file isn't mended by what follows the option.
    as_it_is = fault.where == "days.weather" or fault.type_this.startswith("--")
    return Fault(option, fault.got, fault.expected, fault.type_this if as_it_is else f"{option} {fault.type_this}")
