"""rigcalc in a terminal. Exit codes: 0 go, 1 don't, 3 try it first (the answer says why), 2 bad input or a wrong call."""

from __future__ import annotations

import io
import os
import sys

import click

from rigcalc.cli.along import take_along
from rigcalc.cli.app import app
from rigcalc.cli.ballast import ballast, sliptest
from rigcalc.cli.common import EXIT_BAD_INPUT, EXIT_WORKS, units_meant
from rigcalc.cli.compare import compare
from rigcalc.cli.find import find
from rigcalc.cli.ground import ground
from rigcalc.cli.passes import field
from rigcalc.cli.problems import mark_command, problems
from rigcalc.cli.reading import reading
from rigcalc.cli.reading_log import log
from rigcalc.cli.rig import check, new
from rigcalc.cli.season import season
from rigcalc.cli.sheet import sheet
from rigcalc.cli.shortlist import shortlist
from rigcalc.cli.size import size
from rigcalc.cli.writing import standard
from rigcalc.core.errors import Fault, InputError, RigcalcError, printable, shown
from rigcalc.words.spelling import faults_text


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="rigcalc")
def cli() -> None:
    """Size a chisel plow to a tractor: how deep, how fast, with how many shanks, and what gives out first.

    Exit codes: 0 go, 1 don't, 3 try it first, 2 bad input or an answer that could not be written.
    """


reading.add_command(log)
for command in (size, ground, compare, shortlist, season, field, ballast, sliptest, reading, sheet, take_along, app, find):
    cli.add_command(command)
for command in (new, check, problems, mark_command):
    cli.add_command(command)


def main() -> None:
    """Run the command line; every fault ends in words and exit code 2, never in a traceback.

    The exit code is the answer's own where the reader had enough, as with `| head -1`; 2 where the answer couldn't be written.
    """
    before = sys.stdout, sys.stderr
    out, err = standard("stdout"), standard("stderr")
    sys.stdout, sys.stderr = out, err
    try:
        code = _run()
        out.flush()
        if out.lost:
            why = getattr(out.failed, "strerror", None) or str(out.failed)
            click.echo(f"The answer could not be written: {why}.", err=True)
            code = EXIT_BAD_INPUT
        err.flush()
    finally:
        for stream in (out, err):
            stream.close_quietly()
        sys.stdout, sys.stderr = before
    sys.exit(code)


def _run() -> int:
    try:
        cli.main(args=_typed(sys.argv[1:]), standalone_mode=False)
    except click.exceptions.Exit as error:
        return error.exit_code
    except SystemExit as error:  # a command ends with its answer's code
        return error.code if isinstance(error.code, int) else EXIT_BAD_INPUT
    except click.ClickException as error:
        click.echo(_shown_by_click(error), err=True)
    except click.Abort:
        return 130
    except InputError as error:
        click.echo(faults_text(str(error), error.faults, units_meant(sys.argv[1:])), err=True)
    except RigcalcError as error:
        click.echo(str(error), err=True)
    else:
        return EXIT_WORKS
    return EXIT_BAD_INPUT


def _typed(words: list[str]) -> list[str]:
    """Give the words of the command line. One that isn't text may name a file that is there; else InputError is raised."""
    odd = [word for word in words if not word.isascii() and not _is_text(word) and not os.path.lexists(word)]
    if odd:
        raise InputError([Fault("command line", shown(word), "text, or the name of a file that is there") for word in odd])
    return words


def _is_text(word: str) -> bool:
    try:
        word.encode("utf-8")
    except UnicodeEncodeError:  # bytes that this terminal's encoding doesn't know
        return False
    return True


def _shown_by_click(error: click.ClickException) -> str:
    held = io.StringIO()
    error.show(held)
    return "\n".join(printable(line) for line in held.getvalue().rstrip("\n").split("\n"))


if __name__ == "__main__":
    main()
