"""Sheets for a class of 200 with ten problems each, against writing the files, as a ratio in one run."""

import time

from rigcalc.cli.writing import write_beside
from rigcalc.models.classroom import kinds
from rigcalc.models.classroom.problem_set import ProblemSet, assigned
from rigcalc.views.classroom.sheets import sheet_html, sheet_notebook

# Making them took as long as writing them whole on a busy machine (26 November 2026).
MOST = 4


def test_making_sheets_costs_little_beside_writing_them(tmp_path):
    students = tuple(f"student {count}" for count in range(200))
    class_of_200 = ProblemSet(students, tuple(kinds())[:10], 1, "us")
    assigned(ProblemSet(students[:1], class_of_200.kinds, 1, "us"))  # what is worked out once for all
    start = time.perf_counter()
    given = assigned(class_of_200)
    sheets = [make(student, problems) for student, problems in given.items() for make in (sheet_html, sheet_notebook)]
    made = time.perf_counter()
    for place, sheet in enumerate(sheets):
        write_beside(tmp_path / f"{place}.sheet", sheet.encode(), over=False)
    written = time.perf_counter()
    assert len(sheets) == 400
    assert made - start < MOST * (written - made)
