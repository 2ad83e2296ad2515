"""rigcalc in a terminal. Exit codes: 0 the rig works; 1 it doesn't (the answer says why); 2 bad input or a wrong call."""

from __future__ import annotations

import io
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from rigcalc import cli_ballast
from rigcalc.cli_common import EXIT_BAD_INPUT, EXIT_DOES_NOT, EXIT_WORKS, changed, typed_units, units_option
from rigcalc.cli_sheet import sheet
from rigcalc.core.errors import Fault, InputError, RigcalcError, printable

if TYPE_CHECKING:
    from rich.console import Console


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="rigcalc")
def cli() -> None:
    """Size a chisel plow to a tractor: how deep, how fast, with how many shanks, and what gives out first.

    Exit codes: 0 the rig works, 1 it doesn't, 2 bad input.
    """


cli.add_command(sheet)


@cli.command()
@click.argument("rig", required=False)
@click.option("--depth", help='Working depth, such as "14 in".')
@click.option("--speed", help='Travel speed, such as "5.5 mph".')
@click.option("--tools", help="Number of shanks, such as 13.")
@click.option("--texture", help='USDA texture class, such as "silty clay loam".')
@units_option
@click.option("--working", "with_working", is_flag=True, help="Show every equation with its numbers and source.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON with units and nothing else.")
@click.option("--seed", default=0, show_default=True, help="Seed of the draws behind 'how sure'.")
def size(
    rig: str | None, depth: str | None, speed: str | None, tools: str | None, texture: str | None, units: Any,
    with_working: bool, as_json: bool, seed: int,
) -> None:  # fmt: skip
    """Answer the main question for RIG (a rig file or a demo rig; default: the demo rig four_wheel_drive)."""
    from rigcalc.models.answer import size as answer_for
    from rigcalc.models.rig_file import DEMO_RIGS, load_rig

    loaded = changed(load_rig(rig or DEMO_RIGS[0]), depth, speed, tools, texture)
    if seed < 0:
        raise InputError([Fault("--seed", str(seed), "a whole number from 0 up", "--seed 0")])
    answer = answer_for(loaded, units=units or typed_units(loaded), seed=seed)
    if as_json:
        import json

        from rigcalc.models.to_json import answer_data

        click.echo(json.dumps(answer_data(answer, with_working), indent=2, ensure_ascii=False))
    else:
        from rigcalc.views.terminal.answer import print_answer, print_working

        console = _console()
        print_answer(answer, console)
        if with_working:
            print_working(answer.working, console)
    sys.exit(EXIT_WORKS if answer.works else EXIT_DOES_NOT)


@cli.command()
@click.argument("word", nargs=-1, required=True)
def find(word: tuple[str, ...]) -> None:
    """Find equations, and tools of the draft table, by WORD."""
    from rich.text import Text

    from rigcalc.core.tables import table
    from rigcalc.core.working import text
    from rigcalc.equations import find as find_equations
    from rigcalc.views.terminal.answer import rows

    wanted = " ".join(word)
    found = find_equations(wanted)
    tools = [row for row in table("d497_draft") if wanted.lower() in f"{row['tool']} {row['title']}".lower().replace("_", " ")]
    console = _console()
    for eq in found:
        console.print(Text(f"\n{eq.__name__}", style="bold"), Text(eq.summary))
        unit = "" if eq.gives.unit in ("1", "text") else f" [{eq.gives.unit}]"
        place = f"{eq.source}{', ' + eq.where if eq.where else ''} ({eq.sure})"
        console.print(rows([("formula", text(eq) + unit), ("file", _place(eq)), ("source", place)]))
    if tools:
        console.print(Text("\nTools of the draft table", style="bold"))
        console.print(rows([(row["tool"], row["title"]) for row in tools]))
    if not found and not tools:
        raise InputError([Fault("find", repr(wanted), "a word of an equation or tool", "rigcalc find slip")])


cli.add_command(cli_ballast.ballast)
cli.add_command(cli_ballast.sliptest)


def _place(eq: Any) -> str:
    return f"{eq.__module__.replace('.', '/')}.py:{eq.bare.__code__.co_firstlineno}"


@cli.command()
@click.argument("file", required=False)
def new(file: str | None) -> None:
    """Write a commented starter rig to FILE (default: print it). Never writes over a file."""
    text = (Path(__file__).parent / "models" / "demo" / "starter.toml").read_text(encoding="utf-8")
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


@cli.command()
@click.argument("rig")
def check(rig: str) -> None:
    """Check the rig file RIG and list every fault in it."""
    from rigcalc.models.rig_file import load_rig

    loaded = load_rig(rig)
    implement, work = loaded.implement, loaded.work
    click.echo(f"{printable(rig)}: in order. {implement.tools} shanks, {work.depth} deep at {work.speed}.")


def _console() -> Console:
    from rigcalc.views.terminal.answer import new_console

    return new_console()


@cli.command()
@click.option(
    "--host", default="127.0.0.1", show_default=True, help="Address to listen on; beyond this computer a token is asked for."
)
@click.option("--port", default=8866, show_default=True, type=click.IntRange(1, 65535))
@click.option("--token", help="Token to ask for, 16 letters or more (default: made anew beyond this computer, none on it).")
@click.option("--browser/--no-browser", default=True, help="Open the browser.")
def app(host: str, port: int, token: str | None, browser: bool) -> None:
    """Serve the apps to a browser until Ctrl+C: sliders, pictures and the setup sheet. Needs no network."""
    try:
        from rigcalc.views.serving.serve import serve

        serve(host=host, port=port, token=token, open_browser=browser)
    except ValueError as error:
        raise InputError([Fault("--token", "one too short", str(error), "rigcalc app --host … without --token")]) from None
    except ModuleNotFoundError as error:
        raise InputError(
            [Fault("rigcalc app", f"no {error.name}", "the app's libraries", "pip install 'rigcalc[app]'")]
        ) from None


def main() -> None:
    """Run the command line; every fault ends in words and exit code 2, never in a traceback."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")  # an old terminal that lacks a letter shows a mark in its place
    try:
        cli.main(standalone_mode=False)
    except click.exceptions.Exit as error:
        sys.exit(error.exit_code)
    except click.ClickException as error:
        error.show()
        sys.exit(EXIT_BAD_INPUT)
    except click.Abort:
        sys.exit(130)
    except RigcalcError as error:
        click.echo(str(error), err=True)
        sys.exit(EXIT_BAD_INPUT)
    except BrokenPipeError:
        sys.stderr.close()
        sys.exit(0)


if __name__ == "__main__":
    main()
