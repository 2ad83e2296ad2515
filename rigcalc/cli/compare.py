"""`rigcalc compare`: this one or that one, or one with variations."""

from __future__ import annotations

import sys
from math import prod
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from rigcalc.cli.common import EXITS, units_option
from rigcalc.cli.writing import file_faults, json_text, write_file
from rigcalc.core.errors import Fault, InputError, printable, shown
from rigcalc.words.spelling import faults_text

if TYPE_CHECKING:
    from rigcalc.models.compare import Comparison
    from rigcalc.models.rig.rig import Rig
    from rigcalc.words.compare import CompareWords
    from rigcalc.words.compare.gathered import Gathered

_EXAMPLE = '--vary tools=11,13 or --vary "depth=12 in,14 in"'


@click.command()
@click.argument("rigs", nargs=-1)
@click.option("--vary", multiple=True, help='An entry and its values: "tools=11,13,15", "implement.spacing=12 in,16 in".')
@click.option(
    "--same",
    type=click.Choice(["work", "tool", "tractor"]),
    default=None,
    help="Ask all what the first is asked: its work and ground, and with tool or tractor that of the first too.",
)
@units_option
@click.option("--json", "as_json", is_flag=True, help="Print JSON with units and nothing else.")
@click.option("--csv", "csv_file", help="Write the figures to this file too; its name ends in .csv.")
@click.option("--xlsx", "xlsx_file", help="Write the figures and the answer to this file too; its name ends in .xlsx.")
@click.option("--sheet", "sheet_file", help="Write one printed page to this file too; its name ends in .pdf or .html.")
@click.option("--force", is_flag=True, help="Write over files that are there.")
@click.option("--seed", default=0, show_default=True, help="Seed of the draws behind every chance, the same for all rigs.")
def compare(
    rigs: tuple[str, ...], vary: tuple[str, ...], same: str | None, units: Any, as_json: bool, csv_file: str | None,
    xlsx_file: str | None, sheet_file: str | None, force: bool, seed: int,
) -> None:  # fmt: skip
    """Say which of two to eight RIGS, and whether it matters (rig files or demo rigs).

    --vary lays variations of a rig side by side: entries by their path in the rig file, or depth, speed, tools and texture.
    Values are parted by commas, or by semicolons where a value holds a comma; several --vary make every combination.

    A rig that can't be used is named with its faults, and the rest is shown where two are left. The exit code is that of the
    best one: 0 go, 3 try it first, 1 all are don't, 2 bad input or fewer than two rigs left.
    """
    from rigcalc.words import in_words

    files = {
        option: Path(name)
        for option, name in (("--csv", csv_file), ("--xlsx", xlsx_file), ("--sheet", sheet_file))
        if name is not None
    }
    gathered = _gathered(
        rigs, vary, same or "", seed, [fault for option, file in files.items() for fault in _file_faults(option, file, force)]
    )
    comparison = _compared(gathered, seed)
    words = in_words(comparison, units)
    for option, file in files.items():
        write_file(option, file, _content(option, file, words), force)
        click.echo(f"Wrote {printable(click.format_filename(file))}", err=True)
    _show(words, gathered, as_json)
    sys.exit(EXITS[comparison.choice.judgement])


def _file_faults(option: str, file: Path, force: bool) -> list[Fault]:
    if option == "--sheet":
        return file_faults(option, file, (".pdf", ".html"), force, "rigs.pdf")
    end = option.replace("--", ".")
    return file_faults(option, file, (end,), force, f"rigs{end}")


def _gathered(rigs: tuple[str, ...], vary: tuple[str, ...], same: str, seed: int, faults: list[Fault]) -> Gathered:
    """Load every rig and make its variations. Raises InputError for a call that can't be meant: all that is wrong at once."""
    from rigcalc.models.compare import variations
    from rigcalc.models.compare.answer import FEWEST, MOST
    from rigcalc.models.rig.file import DEMO_RIGS

    if vary and not rigs:
        rigs = (DEMO_RIGS[0],)
    if seed < 0:
        faults.append(Fault("--seed", str(seed), "a whole number from 0 up", "--seed 0"))
    unread: list[Fault] = []
    entries = _entries(vary, unread)
    faults += unread
    ways, count = prod(map(len, entries.values())), len(rigs)
    if not unread and not FEWEST <= count * ways <= MOST:
        got = f"{count * ways} rig{'' if count * ways == 1 else 's'}{f' ({count} times {ways} variations)' if ways > 1 else ''}"
        faults.append(Fault("RIGS", got, "two to eight in all", f"rigcalc compare A.toml B.toml, or {_EXAMPLE}"))
    if faults:
        raise InputError(faults)
    return _loaded(rigs, variations(entries), same)


def _entries(vary: tuple[str, ...], faults: list[Fault]) -> dict[str, list[str]]:
    """Take `entry=value,value` apart; the same entry twice takes all of its values."""
    from rigcalc.models.compare.vary import doubtful, listed_values

    entries: dict[str, list[str]] = {}
    for text in vary:
        entry, _, rest = text.partition("=")
        values = listed_values(rest)
        if not entry.strip() or not all(values):
            faults.append(Fault("--vary", shown(text), "an entry, = and its values parted by commas", _EXAMPLE))
            continue
        if doubtful(rest):
            expected = "semicolons between the values where a value holds a comma, and a unit behind each"
            faults.append(
                Fault("--vary", shown(text), expected, '--vary "speed=9,5 km/h; 11 km/h" or --vary "depth=12 in, 14 in"')
            )
            continue
        entries.setdefault(entry.strip(), []).extend(values)
    return entries


def _loaded(rigs: tuple[str, ...], ways: list[dict[str, str]], same: str) -> Gathered:
    from rigcalc.models.compare.answer import default_names
    from rigcalc.models.rig.file import load_rig
    from rigcalc.words.compare.gathered import gathered

    given: list[tuple[str, Rig | InputError]] = []
    for name, path in zip(default_names(rigs), rigs, strict=True):
        try:
            given.append((name, load_rig(path)))
        except InputError as error:
            given.append((name, error))
    return gathered(given, ways, same)


def _compared(gathered: Gathered, seed: int) -> Comparison:
    """Compare what can be used. Raises InputError with every fault where fewer than two rigs are left."""
    from rigcalc.models.compare import compare as comparison_of
    from rigcalc.models.compare.answer import FEWEST

    if len(gathered.rigs) < FEWEST:
        raise InputError(
            [
                Fault(f"{name}: {fault.where}", fault.got, fault.expected, fault.type_this)
                for name, error in gathered.left_out.items()
                for fault in error.faults
            ],
            title="Fewer than two rigs can be used",
        )
    return comparison_of(list(gathered.rigs.values()), list(gathered.rigs), seed=seed)


def _content(option: str, file: Path, words: CompareWords) -> bytes:
    if option == "--sheet":
        return _page(file, words)
    from rigcalc.views.spreadsheet.compare import comparison_csv, comparison_xlsx

    return comparison_csv(words) if option == "--csv" else comparison_xlsx(words)


def _page(file: Path, words: CompareWords) -> bytes:
    try:
        from rigcalc.views.sheet.compare import comparison_html, comparison_pdf
    except ModuleNotFoundError as error:
        fault = Fault("--sheet", f"no {error.name}", "the sheet's libraries", "pip install 'rigcalc[sheet]'")
        raise InputError([fault]) from None
    return comparison_pdf(words) if file.suffix.lower() == ".pdf" else comparison_html(words).encode()


def _show(words: CompareWords, gathered: Gathered, as_json: bool) -> None:
    for name, error in gathered.left_out.items():
        told = InputError(error.faults, title=f"{printable(name)} is left out, because it can't be used as it stands")
        click.echo(faults_text(str(told), told.faults, words.units), err=True)
    if as_json:
        from rigcalc.views.json.compare import comparison_data

        click.echo(json_text(comparison_data(words, gathered.left_out)))
    else:
        from rigcalc.views.terminal.compare import print_comparison
        from rigcalc.views.terminal.parts import new_console

        print_comparison(words, new_console())
