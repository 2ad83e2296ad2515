"""The two commands: exit codes, JSON, tables from files, bad input in words."""

import json
import os

import pytest
from click.testing import CliRunner
from known_rigs import known_path

from rigcalc.cli.main import cli
from rigcalc.cli.writing import libraries_quiet
from rigcalc.core.errors import InputError
from rigcalc.models import DEMO_RIGS


def run(*args):
    return CliRunner().invoke(cli, args, catch_exceptions=True)


def test_ballast_says_the_plan_first():
    result = run("ballast", str(known_path("front_wheel_assist")), "--job", "full")
    assert result.exit_code == 0, result.output
    assert result.output.lstrip().startswith("Move weight: For full engine load: take front plates")
    for heading in ("The pieces", "As it stands", "Limits on weight", "What the physics says", "What tables advise", "Tires",
                    "Gear up", "Cautions"):  # fmt: skip
        assert heading in result.output


def test_ballast_that_does_not_work_exits_with_1():
    result = run("ballast", "articulated", "--front", "37000 lb", "--rear", "32000 lb")
    assert result.exit_code == 1
    assert "can't be met by any set" in " ".join(result.output.split())


@pytest.mark.parametrize("name", DEMO_RIGS)
def test_first_sight_of_a_demo_is_a_plan_that_works_for_a_full_load(name):
    result = run("ballast", name)
    assert result.exit_code == 0, result.output
    assert "full engine load" in result.output.splitlines()[0]


@pytest.mark.parametrize("name", DEMO_RIGS)
@pytest.mark.parametrize("units", ["us", "si"])
def test_json_is_json(name, units):
    result = run("ballast", name, "--json", "--units", units)
    data = json.loads(result.output)
    assert data["version"] == 2
    assert data["plan"]["sets"] >= 1
    assert isinstance(data["cautions"], list)


def test_working_shows_formulas():
    assert "lifting_pull = " in run("ballast", "--working").output


def test_tickets_and_tables_from_the_command_line(tmp_path):
    file = tmp_path / "tyre.csv"
    file.write_text("pressure psi, load lb\n8,6000\n12,8000\n16,9500\n", encoding="utf-8")
    result = run(
        "ballast", "--front", "28000 lb", "--rear", "23000 lb", "--total", "51000 lb", "--table", f"rear={file}", "--json"
    )
    data = json.loads(result.output)
    assert data["stands"]["front_mass"]["value"] == pytest.approx(28000 * 0.45359237)
    rear = next(t for t in data["tyres"] if t["axle"] == "rear" and t["when"] == "pull")
    assert rear["how"] == "table"
    # Between 6000 lb at 8 psi and 8000 lb at 12 psi.
    pounds = rear["each"]["value"] / 0.45359237
    assert rear["inflation"]["value"] / 6.894757293168 == pytest.approx(8 + (pounds - 6000) / 2000 * 4)


@pytest.mark.parametrize(
    ("args", "words"),
    [
        (["ballast", "--front", "28000 lb", "--rear", "23000 lb", "--total", "60000 lb"], "add up"),
        (["ballast", "--job", "heavy"], "light, this, full"),
        (["ballast", "--table", "middle=x.csv"], "front= or rear="),
        (["ballast", "--table", "rear=no-such-file.csv"], "a file that exists"),
        (["sliptest"], "one whole way"),
        (["sliptest", "--loaded", "10"], "one whole way"),
        (["sliptest", "--loaded", "10", "--unloaded", "9", "--ground", "5 mph", "--wheel", "6 mph"], "one whole way"),
        (["sliptest", "--loaded", "ten", "--unloaded", "9"], "a number"),
        (["sliptest", "--loaded", "8", "--unloaded", "10"], "slip can't be below zero"),
        (["sliptest", "--turns", "10", "--per-turn", "15", "--distance", "120 ft"], "converts to m"),
        (["sliptest", "--loaded", "100", "--unloaded", "90", "--band", "8-13"], "two percentages"),
        (["sliptest", "--loaded", "100", "--unloaded", "90", "--band", "8 to 300"], "two shares"),
    ],
)
def test_bad_calls_are_refused_in_words(args, words):
    result = run(*args)
    assert isinstance(result.exception, InputError), result.output
    assert words in str(result.exception)


@pytest.mark.parametrize(
    ("args", "code", "words"),
    [
        (["--loaded", "1000", "--unloaded", "900", "--off", "0.1"], 0, "Inside the band"),
        (["--loaded", "1000", "--unloaded", "800", "--off", "0.1"], 1, "Over the band"),
        (["--loaded", "10", "--unloaded", "9"], 1, "don't settle it"),
        (["--turns", "100", "--per-turn", "20 ft", "--distance", "1800 ft", "--off", "0.1"], 0, "Inside"),
        (["--ground", "5.40 mph", "--wheel", "6.00 mph", "--band", "8 to 13"], 0, "Inside"),
    ],
)
def test_slip_test(args, code, words):
    result = run("sliptest", *args)
    assert result.exit_code == code, result.output
    assert words in " ".join(result.output.split())


@pytest.mark.parametrize(("typed", "code"), [("12%", 0), ("12 %", 0), ("12.5 percent", 0), ("18 %", 1)])
def test_a_slip_read_off_a_screen_can_be_typed(typed, code):
    result = run("sliptest", "--slip", typed)
    assert result.exit_code == code, result.output
    assert "A screen is right only" in " ".join(result.output.split())


@pytest.mark.parametrize("typed", ["12", "twelve %", "120 %", "-3 %"])
def test_a_screen_slip_that_is_none_is_refused(typed):
    result = run("sliptest", "--slip", typed)
    assert isinstance(result.exception, InputError), result.output
    assert "12 %" in str(result.exception)


def test_json_says_word_headline_and_rest():
    data = json.loads(run("ballast", str(known_path("front_wheel_assist")), "--json").output)
    assert data["word"] == "Move weight"
    assert data["headline"].startswith("For full engine load: take front plates from 10 to 2")
    assert data["rest"][0].startswith("Then ")
    assert data["plan"]["job"] == "full"


def test_what_a_library_prints_past_python_stays_out(capfd):
    with libraries_quiet():
        os.write(1, b"a line of a solver")
    os.write(1, b"the answer")
    assert capfd.readouterr().out == "the answer"


def test_the_answer_is_worked_out_while_libraries_are_quiet(monkeypatch, capfd):
    from rigcalc.models.ballast import answer

    def noisy(*args, **named):
        os.write(1, b"a line of a solver")
        return real(*args, **named)

    real = answer.ballast
    monkeypatch.setattr(answer, "ballast", noisy)
    assert run("ballast", "--json").exit_code == 0
    assert "solver" not in capfd.readouterr().out
