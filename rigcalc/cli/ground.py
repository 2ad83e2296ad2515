"""`rigcalc ground`: should I, and how deep."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

import click

from rigcalc.cli.common import EXITS, changed, units_option
from rigcalc.cli.writing import file_faults, write_file
from rigcalc.core.errors import Fault, InputError, shown

_KINDS = ("texture", "wettest", "room", "draft", "used")


@click.command()
@click.argument("rig", required=False)
@click.option("--depth", help='Working depth, such as "14 in".')
@click.option("--texture", help='USDA texture class, such as "silty clay loam".')
@click.option("--thread", help="A clod from working depth, rolled to 1/8 in (3 mm): crumbles or rolls.")
@click.option("--wetness", help="How it feels: dry, slightly_moist, moist, very_moist, wet or frozen.")
@click.option("--water-by-mass", help='Of a sample weighed and dried, such as "18 percent".')
@click.option("--water-by-volume", help='Of a moisture probe, such as "25 percent".')
@click.option("--sampled-at", help="Depth that the clod or sample is from, where it isn't the working depth.")
@click.option("--flag", "flags", multiple=True, help='Probe by hand: "8 in to 12 in", "9 in to deeper", none, or '
              '"120 180 320 310 210 psi each 3 in"; several parted by semicolons.')  # fmt: skip
@click.option("--log", help="A recording cone's CSV file: site, depth (cm), reading (kPa), or a column a site.")
@click.option("--share", help="Share of the flags with a layer to get under; 80 percent where the rig file says nothing.")
@click.option("--limit", default="300 psi", show_default=True, help="Resistance that stops roots.")
@click.option("--axle", "axles", multiple=True, help='Another axle: "cart: 40000 lb on 2 tyres of 42 in by 78 in".')
@click.option("--cover", help='Residue cover before the passes, such as "85 percent".')
@click.option("--pass", "passes", multiple=True, help="An operation of the residue table, in order; this: the rig's own.")
@click.option("--residue", help="non_fragile (corn, cereals; where the rig file says nothing) or fragile (soybean).")
@click.option("--keep", help='The least residue cover to keep, such as "30 percent".')
@click.option("--field", help='Length along the passes by width, such as "2600 ft by 1300 ft": headland, lanes and the rest.')
@click.option("--boundary", help="Instead of --field: a GeoJSON file or a shapefile of fields; the headland runs all round.")
@click.option("--heading", help='Of the passes inside a boundary, such as "88 deg"; along its longest side where nobody says.')
@click.option("--headland", help='Its depth at each end, such as "80 ft"; two widths of the tool where nobody says.')
@click.option("--traffic", multiple=True, help='What else drove there: "combine: 30 ft apart, 2 tyres of 30 in", or '
              '"cart: lanes 120 ft apart, 2 tyres of 42 in".')  # fmt: skip
@click.option("--slope", help='How steep the field is and how the passes run: "6 percent across" or "along".')
@click.option("--loss", help='Yield that compaction costs in the first year where wheels ran, such as "6 to 30 percent".')
@click.option("--lasting", help='What of it stays for good, such as "2.5 to 10 percent".')
@click.option("--fades", help='How long the rest takes to fade, such as "5 to 10 years".')
@click.option("--first", help='Depth of the first of two passes, such as "8 in"; 60 percent of the depth where nobody says.')
@click.option("--after", multiple=True, help="Flags as above, probed after the pass: did it work?")
@click.option("--after-log", help="A log as above, of after the pass.")
@click.option("--see", help='Difference in yield that strips with and without the pass are to show, such as "5 percent".')
@click.option("--scatter", help='What the two strips of a pair differ by for no reason, such as "8 percent" of the yield.')
@click.option("--pairs", help="How many pairs of strips there are.")
@click.option("--weather", help="A CSV of daily weather (DATE, TMAX, TMIN, PRCP): how wet the ground should be by it.")
@click.option("--weather-units", help="Its units where it doesn't say: tenths (of C and mm), metric or us.")
@click.option("--latitude", help="Where it was read, in degrees, such as 46.9; south negative.")
@click.option("--day", help="A day of the file, such as 1996-10-01; its last one where nobody says.")
@click.option("--water-left", help='Share of the water that plants can take which the crop left, such as "20 percent".')
@click.option("--soil", help='A CSV of soil samples: "x (m)", "y (m)", "clay (%)", "sand (%)", "organic carbon (%)".')
@click.option("--map", "map_file", help="Draw those samples into this file, such as soil.svg; needs their positions.")
@click.option("--map-of", type=click.Choice(_KINDS), help="What the map shows: the wettest that tills where nobody says.")
@click.option("--force", is_flag=True, help="Write over that file if it is there.")
@units_option
@click.option("--json", "as_json", is_flag=True, help="Print JSON with units and nothing else.")
def ground(
    rig: str | None, depth: str | None, texture: str | None, flags: tuple[str, ...], log: str | None, share: str | None,
    limit: str, axles: tuple[str, ...], cover: str | None, passes: tuple[str, ...], residue: str | None, keep: str | None,
    field: str | None, headland: str | None, traffic: tuple[str, ...], slope: str | None, first: str | None,
    after: tuple[str, ...], after_log: str | None, see: str | None, scatter: str | None, pairs: str | None, units: Any,
    as_json: bool, loss: str | None, lasting: str | None, fades: str | None, weather: str | None, weather_units: str | None,
    latitude: str | None, day: str | None, soil: str | None, map_file: str | None, map_of: str | None, force: bool,
    boundary: str | None, heading: str | None, water_left: str | None,
    **wet: str | None,
) -> None:  # fmt: skip
    """Say whether the ground of RIG (a rig file or a demo rig) is fit for the work, and how deep that has to be.

    With readings of after the pass (--after, --after-log) it says whether that worked instead. The exit code is 0 go (or it
    worked), 3 try it first (or not sure), 1 don't (or it didn't), 2 bad input. What isn't looked at is a reason to try first.
    """
    from rigcalc.models.ground import ground as ground_for
    from rigcalc.models.rig.file import DEMO_RIGS, load_rig, replaced
    from rigcalc.words import in_words

    faults: list[Fault] = []
    loaded = load_rig(DEMO_RIGS[0] if rig is None else rig)
    wanted = _share(share, faults)
    try:
        loaded = changed(loaded, depth, None, None, texture)
        changes: dict[str, Any] = {f"ground.{_entry(name)}": value for name, value in wet.items() if value is not None}
        loaded = replaced(loaded, changes) if changes else loaded
    except InputError as error:
        faults += error.faults
    _map_faults(soil, map_file, map_of, force, faults)
    try:
        answer = ground_for(loaded, flags, log=log, share=wanted, limit=limit, axles=axles, cover=cover, passes=passes,
                            residue=residue, keep=keep, field=field, headland=headland, traffic=traffic, after=after,
                            after_log=after_log, slope=slope, first=first, see=see, scatter=scatter,
                            pairs=_count(pairs), loss=loss, lasting=lasting, fades=fades,
                            weather=weather, weather_units=weather_units, latitude=latitude, day=day, water_left=water_left,
                            soil=soil, boundary=boundary, heading=heading)  # fmt: skip
    except InputError as error:
        faults += error.faults
    if faults:
        raise InputError(faults)
    words = in_words(answer, units)
    if map_file is not None and soil is not None:
        _draw(answer.soil, map_file, map_of, words.units, Path(soil).name, force)
    if as_json:
        from rigcalc.cli.writing import json_text
        from rigcalc.views.json.ground import ground_data

        click.echo(json_text(ground_data(words)))
    else:
        from rigcalc.views.terminal.ground import print_ground
        from rigcalc.views.terminal.parts import new_console

        if rig is None:
            click.echo(f"No rig named: asked of the demo rig {DEMO_RIGS[0]}.", err=True)
        print_ground(words, new_console())
    sys.exit(EXITS[answer.judgement])


def _map_faults(soil: str | None, file: str | None, kind: str | None, force: bool, faults: list[Fault]) -> None:
    """Note what is wrong with the options about a map."""
    if file is not None:
        faults += file_faults("--map", Path(file), (".svg",), force, "soil.svg")
    if file is not None and soil is None:
        faults.append(Fault("--soil", "nothing", "a file of soil samples beside --map", "--soil samples.csv"))
    if kind is not None and file is None:
        faults.append(Fault("--map", "nothing", "a file to draw into beside --map-of", "--map soil.svg"))


def _draw(found: Any, file: str, kind: str | None, units: Any, name: str, force: bool) -> None:
    """Draw the map and write it. Raises InputError where the samples have no positions."""
    from rigcalc.models.ground.soil_map import map_kind
    from rigcalc.views.ground.soil_map import soil_map_svg

    write_file("--map", Path(file), soil_map_svg(found, map_kind(found, kind), units, name).encode(), force)


def _entry(name: str) -> str:
    return "thread_test" if name == "thread" else name


def _count(text: str | None) -> Any:
    """Give a count as a number; what isn't one stays as it is, and is refused with the rest."""
    return int(text) if text is not None and text.isascii() and text.isdecimal() and len(text) < 5 else text


def _share(text: str | None, faults: list[Fault]) -> float | None:
    """Read a share typed as "80 percent" or 0.8."""
    from rigcalc.core.units import parse

    if text is None:
        return None
    try:
        number, unit = parse(text)
    except InputError:
        number, unit = -1.0, ""
    share = number / 100 if unit == "percent" else number
    if unit not in ("", "percent") or not 0 < share <= 1:
        faults.append(Fault("--share", shown(text), "a share above 0, up to 100 percent", '--share "80 percent"'))
        return 0.8
    return share
