"""`rigcalc problems` and `rigcalc mark`: from a class list to a table of marks."""

import csv
import json
import sys

import pytest

from rigcalc.models.classroom import kinds
from rigcalc.models.classroom.problem_set import assigned, load_set


@pytest.fixture
def place(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "class.csv").write_text("student,group\nAda,1\nBo,2\n", encoding="utf-8")
    return tmp_path


def test_kinds_are_listed(run):
    for width in (80, 120):
        code, out, _err = run("problems", width=width)
        assert code == 0
        assert all(f"\n{name} " in out for name in kinds()), "a name is whole, to be typed as it stands"


def test_titles_are_spelled_for_their_units(run):
    assert "Patch of a tire" in run("problems", width=120)[1]
    assert "Patch of a tyre" in run("problems", "--units", "si", width=120)[1]


def test_a_problem_is_shown_with_hints_or_with_the_answer(run):
    code, out, _err = run("problems", "drawbar_power", "--units", "si", "--seed", "2")
    assert code == 0
    assert "Power at the drawbar" in out
    assert "Power is force times speed." in out
    assert "That is" not in out
    assert "That is" in run("problems", "drawbar_power", "--units", "si", "--seed", "2", "--answers")[1]
    assert run("problems", "drawbar_power", "--seed", "3")[1] != run("problems", "drawbar_power", "--seed", "2")[1]
    assert run("problems", "--lesson", "soil", "--count", "9")[1].count("Stress under a wheel") == 2


def test_from_a_class_list_to_marks(run, place):
    code, out, err = run(
        "problems", "drawbar_power", "slip_from_turns", "--class", "class.csv", "--to", "sheets", "--seed", "5"
    )
    assert code == 0
    assert "Wrote 4 sheets for 2 students" in out
    assert "Sheets" in err
    names = sorted(path.name for path in (place / "sheets").iterdir())
    assert names == ["001_Ada.html", "001_Ada.ipynb", "002_Bo.html", "002_Bo.ipynb", "problem-set.toml"]
    assert run("problems", "drawbar_power", "slip_from_turns", "--class", "class.csv", "--to", "sheets", "--seed", "5",
               "--answers", "--as", "html")[0] == 0  # fmt: skip
    assert (place / "sheets" / "001_Ada_answers.html").is_file()
    given = assigned(load_set("sheets/problem-set.toml"))
    page = json.loads((place / "sheets" / "001_Ada.ipynb").read_text())
    for number, problem in enumerate(given["Ada"], 1):
        cell = next(cell for cell in page["cells"] if cell["id"] == f"answer-{number}")
        cell["source"] = cell["source"].replace('""', f'"{problem.answer:.4g} {problem.unit}"')
    (place / "returned").mkdir()
    (place / "returned" / "mine.ipynb").write_text(json.dumps(page))
    code, out, _err = run(
        "mark", "returned", "--set", "sheets/problem-set.toml", "--csv", "marks.csv", "--totals", "totals.csv"
    )
    assert code == 0
    assert "Nothing returned." in out
    with open("totals.csv", encoding="utf-8-sig", newline="") as file:
        assert [row[:3] for row in csv.reader(file)] == [["Student", "Right", "Of"], ["Ada", "2", "2"], ["Bo", "0", "2"]]
    with open("marks.csv", encoding="utf-8-sig", newline="") as file:
        assert [row[4] for row in csv.reader(file)] == ["What", "right", "right", "none"]


def test_sheets_as_pdf_with_and_without_answers(run, place):
    words = ("problems", "drawbar_power", "--class", "class.csv", "--to", "sheets")
    code, out, err = run(*words, "--as", "pdf")
    assert (code, "Wrote 2 sheets for 2 students" in out, "Sheets" in err) == (0, True, True)
    assert run(*words, "--as", "all", "--answers")[0] == 0
    names = sorted(path.name for path in (place / "sheets").iterdir() if path.name.startswith("001"))
    assert names == ["001_Ada.pdf", "001_Ada_answers.html", "001_Ada_answers.ipynb", "001_Ada_answers.pdf"]
    assert all(path.read_bytes().startswith(b"%PDF") for path in (place / "sheets").glob("*.pdf"))
    assert run(*words, "--as", "pdf")[0] == 2, "nothing is written over"


def test_without_typst_nothing_is_written(run, place, monkeypatch):
    monkeypatch.setitem(sys.modules, "typst", None)
    for form in ("pdf", "all"):
        code, _out, err = run("problems", "--class", "class.csv", "--to", "sheets", "--as", form)
        assert code == 2
        assert "pip install 'rigcalc[sheet]'" in err
    assert not (place / "sheets").exists()


def test_nothing_is_written_over(run, place):
    first = run("problems", "--class", "class.csv", "--to", "sheets")
    before = {path: path.read_bytes() for path in (place / "sheets").iterdir()}
    code, _out, err = run("problems", "--class", "class.csv", "--to", "sheets", "--seed", "2")
    assert first[0] == 0
    assert code == 2
    assert err.count("a file that isn't there yet") == 5
    assert {path: path.read_bytes() for path in (place / "sheets").iterdir()} == before
    assert run("problems", "--class", "class.csv", "--to", "sheets", "--seed", "2", "--force")[0] == 0
    assert {path: path.read_bytes() for path in (place / "sheets").iterdir()} != before


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["plowing", "sowing", "--count", "0", "--lesson", "math"], ["'plowing'", "'sowing'", "--count", "'math'"]),
        (["--class", "class.csv"], ["both, to write sheets"]),
        (["--to", "sheets"], ["both, to write sheets"]),
        (["--class", "none.csv", "--to", "sheets"], ["none.csv"]),
        (["drawbar_power", "--seed", "-1"], ["seed"]),
        (["drawbar_power", "--student", ""], ["a name of 1 to"]),
        (["drawbar_power", "--lesson", "power"], ["not both"]),
        (["--class", "class.csv", "--to", "no/such/folder"], ["a folder"]),
        (["--class", "class.csv", "--to", "class.csv"], ["a folder"]),
    ],
)
def test_bad_calls_say_all_that_is_wrong(run, place, words, said):
    code, out, err = run("problems", *words)
    assert code == 2
    assert out == ""
    assert all(text in err for text in said)


def test_bad_marking_says_all_that_is_wrong(run, place):
    code, _out, err = run("mark", "none", "--set", "none.toml", "--csv", "marks.txt", "--totals", "no/totals.csv")
    assert code == 2
    assert all(text in err for text in ("none.toml", "marks.txt", "no/totals.csv"))
    assert run("mark", "none")[0] == 2
