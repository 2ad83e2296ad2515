"""A student's sheet of problems as PDF, set by typst. Names and texts go in as data and are never read as markup."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path

from rigcalc.models.classroom.problem import Problem
from rigcalc.views.sheet.pdf import PAPERS, set_by_typst
from rigcalc.views.sheet.words import clean
from rigcalc.words.classroom import ProblemWords
from rigcalc.words.classroom.sheet import heading

_PAGE = Path(__file__).parent / "problems.typ"
_NAME = 80  # letters of a name on paper


def sheet_pdf(student: str, problems: Sequence[Problem], answers: bool = False) -> bytes:
    """Give a student's sheet as PDF: problems with room to work, or with answers and working.

    Parameters
    ----------
    student : str
        Whose it is; shown as text.
    problems : sequence of Problem
        In order; at least one. American numbers are set on letter paper, metric ones on A4.
    answers : bool, optional
        Whether the right answers and the working stand below each problem.

    Returns
    -------
    bytes
        The same for the same input, on every machine. Hints are left out on paper.

    Raises
    ------
    InputError
        Where typst isn't installed.
    """
    name = clean(student, _NAME)
    shown = []
    for problem in problems:
        words = ProblemWords(problem)
        below = {"answer": words.answer, "working": words.working} if answers else {"answer": "", "working": []}
        shown.append({"title": words.title, "text": words.text, "asks": words.asks, **below})
    sheet = {"title": heading(name, answers), "footer": name, "problems": shown}
    paper = "letter" if problems[0].system == "us" else "a4"
    return set_by_typst(_PAGE, {"sheet": json.dumps(sheet, ensure_ascii=False), "paper": PAPERS[paper]})
