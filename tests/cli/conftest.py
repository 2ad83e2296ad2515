"""What the tests of the commands share."""

import sys

import pytest

from rigcalc.cli import main as cli


@pytest.fixture
def run(monkeypatch, capsys):
    """Run the command line in this process: (exit code, standard output, standard error)."""

    def call(*words, width=None, **env):
        for name in ("COLUMNS", "NO_COLOR", "FORCE_COLOR", "TERM"):
            monkeypatch.delenv(name, raising=False)
        for name, value in (env | ({"COLUMNS": str(width)} if width else {})).items():
            monkeypatch.setenv(name, value)
        monkeypatch.setattr(sys, "argv", ["rigcalc", *map(str, words)])
        code = 0
        try:
            cli.main()
        except SystemExit as end:
            code = end.code or 0
        out = capsys.readouterr()
        return code, out.out, out.err

    return call
