"""rigcalc in a terminal. Exit codes: 0 the rig works; 1 it doesn't (the answer says why); 2 bad input or a wrong call."""

from __future__ import annotations

import io
import sys

import click

from rigcalc.cli.app import app
from rigcalc.cli.ballast import ballast, sliptest
from rigcalc.cli.common import EXIT_BAD_INPUT
from rigcalc.cli.find import find
from rigcalc.cli.rig import check, new
from rigcalc.cli.sheet import sheet
from rigcalc.cli.size import size
from rigcalc.core.errors import RigcalcError


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="rigcalc")
def cli() -> None:
    """Size a chisel plow to a tractor: how deep, how fast, with how many shanks, and what gives out first.

    Exit codes: 0 the rig works, 1 it doesn't, 2 bad input.
    """


for command in (size, ballast, sliptest, sheet, app, find, new, check):
    cli.add_command(command)


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
