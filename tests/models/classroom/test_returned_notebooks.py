"""Class lists, sets and notebooks that come back: read whole or refused; nothing is run, followed or read without end."""

from __future__ import annotations

import json
import os
import tracemalloc
from pathlib import Path
from typing import Any

import pytest

from rigcalc.core.errors import InputError
from rigcalc.models.classroom import Outcome
from rigcalc.models.classroom.answers import Unread
from rigcalc.models.classroom.class_list import MOST_STUDENTS, load_class, read_class
from rigcalc.models.classroom.class_marks import class_marks
from rigcalc.models.classroom.problem_set import ProblemSet, assigned, file_stem, load_set, set_text, token
from rigcalc.models.classroom.returned import LARGEST_NOTEBOOK, Refused, read_returned
from rigcalc.views.classroom.sheets import sheet_html, sheet_notebook
from rigcalc.views.spreadsheet.classroom import marks_csv, totals_csv

SET = ProblemSet(("Ada", "Bo", "Cy"), ("drawbar_power", "slip_from_turns"), 3, "si")
GIVEN = assigned(SET)


def notebook(student: str, *answers: str, given: Any = GIVEN) -> dict[str, Any]:
    page = json.loads(sheet_notebook(student, given[student]))
    for number, text in enumerate(answers, 1):
        for cell in page["cells"]:
            if cell["id"] == f"answer-{number}":
                cell["source"] = text
    return page


def put(folder: Path, name: str, page: Any) -> Path:
    file = folder / name
    file.write_text(page if isinstance(page, str) else json.dumps(page), encoding="utf-8")
    return file


def test_a_class_list_is_read() -> None:
    assert read_class("student\nAda\nBo\n") == ("Ada", "Bo")
    assert read_class("Ada\nBo") == ("Ada", "Bo")
    assert read_class("student\n" + "x" * 80) == ("x" * 80,)
    assert read_class("group;Name\n1;Ada\n2;Ünal, Ö.\n") == ("Ada", "Ünal, Ö.")
    assert read_class('id,student\n1,"B, Ann"\n\n') == ("B, Ann",)
    assert read_class("name\tmail\r\nAda\ta@b\r\n") == ("Ada",)


def test_a_class_list_says_all_that_is_wrong(tmp_path: Path) -> None:
    with pytest.raises(InputError) as caught:
        read_class("student\nAda\n" + "x" * 81 + "\nada\n\x1b[2J\n")
    assert [fault.where for fault in caught.value.faults] == [f"class list, student {place}" for place in (2, 3, 4)]
    for text in ("", "a,b\nc,d\n", "student\n", "student\n" + "\n".join(map(str, range(MOST_STUDENTS + 1)))):
        with pytest.raises(InputError):
            read_class(text)
    (tmp_path / "bytes.csv").write_bytes(b"student\n\xff\xfe\n")
    for path in (tmp_path / "none.csv", tmp_path / "bytes.csv", tmp_path, "\0"):
        with pytest.raises(InputError):
            load_class(path)


def test_a_set_is_kept_and_read_again(tmp_path: Path) -> None:
    strange = ProblemSet(('O"Neil', "Ünal, Ö.", "<b>", "a\\b"), ("drawbar_power",) * 3, 10**9, "us")
    for each in (SET, strange):
        put(tmp_path, "set.toml", set_text(each))
        assert load_set(tmp_path / "set.toml") == each
    assert len({problem.place for problem in assigned(strange)["<b>"]}) == 3


@pytest.mark.parametrize(
    "text",
    ["", "seed = 1", "seed = [", 'seed = 1\nunits = "us"\nkinds = 3\nstudents = ["A"]', "x" * 2_000_000, "a = " + "[" * 20000,
     'seed = 1\nunits = "us"\nkinds = ["drawbar_power"]\nstudents = ["A"]\nmore = 1',
     'seed = -1\nunits = "xx"\nkinds = ["no"]\nstudents = ["A", "a"]'],
)  # fmt: skip
def test_a_set_that_isnt_one_is_refused(tmp_path: Path, text: str) -> None:
    with pytest.raises(InputError):
        load_set(put(tmp_path, "set.toml", text))


def test_a_set_says_all_that_is_wrong() -> None:
    with pytest.raises(InputError) as caught:
        ProblemSet(("A", "a"), ("no",), -1, "xx")  # type: ignore[arg-type]
    assert len(caught.value.faults) == 4


def test_nobody_in_a_class_gets_anothers_problem() -> None:
    students = tuple(f"student {count}" for count in range(200))
    given = assigned(ProblemSet(students, ("slip_from_turns", "drawbar_power", "slip_from_turns"), 1, "us"))
    places = [(problem.kind.name, problem.place) for problems in given.values() for problem in problems]
    assert len(set(places)) == len(places)


def test_answers_come_out_and_are_marked(tmp_path: Path) -> None:
    right = f'answer_1 = "{GIVEN["Ada"][0].answer:.4g} kW"'
    put(tmp_path, "1.ipynb", notebook("Ada", right, "answer_2 = '0.999'"))
    put(tmp_path, "2.ipynb", notebook("Bo", "x = 1\nanswer_1 = 3 * 4", 'answer_2 = f"{1 + 1} %"  # so'))
    marks = {each.student: each for each in class_marks(GIVEN, read_returned(tmp_path, GIVEN))}
    assert [each.outcome for each in marks["Ada"].marks] == [Outcome.RIGHT, Outcome.WRONG]
    assert marks["Ada"].right == 1
    assert [each.typed for each in marks["Bo"].marks] == ["3 * 4", "{1 + 1} %"]
    assert [each.outcome for each in marks["Bo"].marks] == [Outcome.UNREAD] * 2
    assert marks["Cy"].marks == ()
    assert marks["Cy"].refused is None


@pytest.mark.parametrize(
    ("source", "typed"),
    [
        ('answer_1 = "5 kW"', "5 kW"), ("answer_1 = '5 kW'", "5 kW"), ('answer_1="5 kW" # mine', "5 kW"),
        ('  answer_1 = """5 kW"""', "5 kW"), ('answer_1 = f"5 kW"', "5 kW"), ("answer_1 = 5 kW", "5 kW"),
        ('answer_1 = "5 kW"\nanswer_1 = "6 kW"', "6 kW"), ('answer_1 = "6 kW"\nanswer_1 = ""', "6 kW"),
        ('answer_1 = "5 kW";', "5 kW"), ('Answer_1 = "5 kW"', "5 kW"), ('answer 1 = "5 kW"', "5 kW"),
        ('answer1 = "5 kW"', "5 kW"), ('answer_1: str = "5 kW"', "5 kW"), ('answer_1 = ("5 kW")', '("5 kW")'),
        ('answer_11 = "5 kW"', ""),
        ('answer_1 == "5 kW"', ""), ('# answer_1 = "5 kW"', ""), ('answer_9 = "5 kW"', ""), ('answer_0 = "5 kW"', ""),
        ('answer_1 = "5 kW', '"5 kW'), ('answer_1 = ""', ""), ("answer_1 =", ""), (["answer_1 = ", '"5 kW"\n'], "5 kW"),
        (None, ""), ({"a": 1}, ""), ([1, None], ""), ('answer_1 = "' + "9" * 10**6 + '"', '"' + "9" * 388),
    ],
)  # fmt: skip
def test_an_answer_in_a_cell(tmp_path: Path, source: Any, typed: str) -> None:
    page = notebook("Ada")
    page["cells"] = [{"cell_type": "code", "source": source}, {"cell_type": "markdown", "source": 'answer_1 = "7 kW"'}, 3]
    put(tmp_path, "1.ipynb", page)
    (read,) = read_returned(tmp_path, GIVEN)
    assert read.answers.get(1, "") == typed


def test_a_line_that_is_gone_is_told_from_an_answer_that_isnt_there(tmp_path: Path) -> None:
    put(tmp_path, "1.ipynb", notebook("Ada", '"125 kW"', 'answer_2 = ""'))
    page = notebook("Bo")
    page["cells"] = [cell for cell in page["cells"] if cell["id"] != "answer-2"]
    put(tmp_path, "2.ipynb", page)
    ada, bo, cy = class_marks(GIVEN, read_returned(tmp_path, GIVEN))
    assert [each.unread for each in ada.marks] == [Unread.GONE, Unread.EMPTY]
    assert [each.unread for each in bo.marks] == [Unread.EMPTY, Unread.GONE]
    assert not cy.marks
    totals = totals_csv([ada, bo, cy]).decode("utf-8-sig").splitlines()
    assert ["line for an answer is gone" in line for line in totals] == [False, True, True, False]
    assert "no line" in marks_csv([ada]).decode("utf-8-sig").splitlines()[1]
    blank = notebook("Ada", "x = 1", "y = 2")
    put(tmp_path, "1.ipynb", blank)
    ada, *_ = class_marks(GIVEN, read_returned(tmp_path, GIVEN))
    assert "2 lines for answers are gone" in totals_csv([ada]).decode("utf-8-sig")


@pytest.mark.parametrize("names", [("1.ipynb", "2.ipynb"), ("2.ipynb", "1.ipynb")])
def test_the_sheet_that_was_given_out_goes_before_another(tmp_path: Path, names: tuple[str, str]) -> None:
    other = notebook("Ada")
    other["metadata"]["rigcalc"]["classroom"]["problems"] = []
    for name, page in zip(names, (notebook("Ada"), other), strict=True):
        put(tmp_path, name, page)
    ada, *_ = class_marks(GIVEN, read_returned(tmp_path, GIVEN))
    assert (ada.file, len(ada.marks), ada.refused) == (names[0], 2, None)


def test_code_of_a_notebook_is_never_run(tmp_path: Path) -> None:
    flag = tmp_path / "run"
    code = f"open({str(flag)!r}, 'w')"
    page = notebook("Ada", f'answer_1 = __import__("pathlib").Path({str(flag)!r}).touch()', f'answer_2 = f"{{{code}}}"')
    page["cells"] += [{"cell_type": "code", "source": code, "outputs": [], "execution_count": 1, "metadata": {}, "id": "x"}]
    page["metadata"]["kernelspec"] = {"name": "python3", "argv": ["touch", str(flag)]}
    put(tmp_path, "1.ipynb", page)
    list(class_marks(GIVEN, read_returned(tmp_path, GIVEN)))
    assert not flag.exists()


def test_whats_no_notebook_of_the_class_is_named_and_passed_over(tmp_path: Path) -> None:
    secret = put(tmp_path, "secret.txt", notebook("Bo", 'answer_1 = "1 kW"'))
    folder = tmp_path / "returned"
    folder.mkdir()
    (folder / "a_link.ipynb").symlink_to(secret)
    (folder / "b_dangling.ipynb").symlink_to(tmp_path / "none")
    (folder / "c_folder.ipynb").mkdir()
    os.mkfifo(folder / "d_pipe.ipynb")
    with (folder / "e_large.ipynb").open("wb") as large:
        large.truncate(50 * 1024 * 1024)
    for name, text in {
        "f_empty": "", "g_list": "[]", "h_null": "null", "i_deep": "[" * 200_000, "j_cells": '{"cells": 3}',
        "k_number": "9" * 9000, "l_nan": '{"cells": NaN}', "m_bytes": "\udcff",
    }.items():  # fmt: skip
        (folder / f"{name}.ipynb").write_bytes(text.encode("utf-8", "surrogateescape"))
    stranger = notebook("Ada")
    stranger["metadata"]["rigcalc"]["classroom"]["student"] = "Eve"
    put(folder, "n_stranger.ipynb", stranger)
    bare = notebook("Ada")
    del bare["metadata"]
    put(folder, "o_bare.ipynb", bare)
    other = notebook("Bo")
    other["metadata"]["rigcalc"]["classroom"]["problems"] = [token(each) for each in GIVEN["Ada"]]
    put(folder, "p_other.ipynb", other)
    for name in ("q_one", "r_two"):
        put(folder, f"{name}.ipynb", notebook("Cy"))
    (folder / "s_note.txt").write_text("no notebook")
    tracemalloc.start()
    read = {each.file[0]: each for each in read_returned(folder, GIVEN)}
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert peak < 4 * LARGEST_NOTEBOOK
    assert {key: each.refused for key, each in read.items()} == {
        "a": Refused.LINK, "b": Refused.LINK, "c": Refused.NO_FILE, "d": Refused.NO_FILE, "e": Refused.LARGE,
        **dict.fromkeys("fghijklm", Refused.NO_NOTEBOOK), "n": Refused.STRANGER, "o": Refused.STRANGER,
        "p": Refused.OTHER_SHEET, "q": Refused.TWICE, "r": Refused.TWICE,
    }  # fmt: skip
    marks = list(class_marks(GIVEN, read_returned(folder, GIVEN)))
    assert [each.student for each in marks[:3]] == ["Ada", "Bo", "Cy"]
    assert not any(each.marks for each in marks)
    assert marks[1].refused is Refused.OTHER_SHEET
    assert len(marks) == 3 + 15


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root reads everything")
def test_a_file_that_may_not_be_read_is_named(tmp_path: Path) -> None:
    file = put(tmp_path, "1.ipynb", notebook("Ada"))
    file.chmod(0)
    (read,) = read_returned(tmp_path, GIVEN)
    assert read.refused is Refused.UNREADABLE


def test_a_folder_that_isnt_there_or_is_empty_is_refused(tmp_path: Path) -> None:
    for folder in (tmp_path, tmp_path / "none", put(tmp_path, "file.txt", "x")):
        with pytest.raises(InputError):
            list(read_returned(folder, GIVEN))


def test_tables_hold_texts_that_no_program_obeys(tmp_path: Path) -> None:
    put(tmp_path, "=1.ipynb", notebook("Ada", 'answer_1 = "=HYPERLINK(1)"', 'answer_2 = "+1 %"'))
    marks = list(class_marks(GIVEN, read_returned(tmp_path, GIVEN)))
    table, totals = marks_csv(marks).decode("utf-8-sig"), totals_csv(marks).decode("utf-8-sig")
    assert "'=HYPERLINK(1)" in table
    assert "'+1 %" in table
    assert "'=1.ipynb" in totals
    assert table.splitlines()[0].startswith("Student,Problem")
    assert len(table.splitlines()) == 1 + 2 + 1 + 1
    assert "Nothing returned." in totals


def test_a_sheet_shows_names_and_never_obeys_them() -> None:
    name = "<script>alert(1)</script> **b** [x](javascript:1) $1"
    given = assigned(ProblemSet((name,), SET.kinds, 1, "us"))[name]
    for answers in (False, True):
        page = sheet_html(name, given, answers)
        assert "<script" not in page
        assert "&lt;script&gt;" in page
        cells = json.loads(sheet_notebook(name, given, answers))["cells"]
        head = cells[0]["source"]
        assert "<script" not in head
        assert "](" not in head
        assert "**b" not in head


def test_a_sheet_without_answers_has_none() -> None:
    for student, given in GIVEN.items():
        for made in (sheet_html, sheet_notebook):
            text = made(student, given)
            for problem in given:
                assert f"{problem.answer:.4g}" not in text.replace(token(problem), "")
                assert "That is" not in text
            assert "That is" in made(student, given, answers=True)


def test_a_sheet_is_a_good_notebook() -> None:
    import nbformat

    for answers in (False, True):
        nbformat.validate(nbformat.reads(sheet_notebook("Ada", GIVEN["Ada"], answers), as_version=4))


def test_names_of_files_are_plain() -> None:
    assert file_stem(7, "Ünal, Ö.") == "007_Unal_O"
    assert file_stem(1, "../../etc/passwd") == "001_etc_passwd"
    assert file_stem(2, "李") == "002_student"
    assert file_stem(3, "a" * 80) == "003_" + "a" * 40
