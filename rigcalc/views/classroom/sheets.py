"""A student's sheet of problems: HTML that prints on paper and needs nothing else, or a notebook that is answered and returned.

Names and texts from outside are escaped; in the notebook they are data. Neither needs a library beside Python's own.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from html import escape
from typing import Any

from rigcalc.models.classroom.problem import Problem
from rigcalc.models.classroom.problem_set import token
from rigcalc.words.classroom import ProblemWords
from rigcalc.words.classroom.sheet import ANSWER_HERE, HOW_TO_RETURN, heading

_STYLE = """
body { font: 11pt/1.5 Georgia, 'DejaVu Serif', serif; max-width: 42em; margin: 2em auto; padding: 0 1em; color: #111; }
h1 { font-size: 1.4em; margin: 0; } h2 { font-size: 1.05em; margin: 0 0 .3em; } header { margin-bottom: 1.5em; }
section { break-inside: avoid; margin: 0 0 1.4em; } .space { border-bottom: 1px solid #555; height: 2.6em; }
.working { font-family: 'DejaVu Sans Mono', monospace; font-size: .85em; margin: .4em 0; padding-left: 1em; }
summary { cursor: pointer; } @media print { body { margin: 0; } details { display: none; } }
"""


def sheet_html(student: str, problems: Sequence[Problem], answers: bool = False) -> str:
    """Give a student's sheet as one HTML page: problems and space for the answers, or with answers and working.

    Parameters
    ----------
    student : str
        Whose it is; shown, escaped.
    problems : sequence of Problem
        In order.
    answers : bool, optional
        Whether the right answers and the working stand below each problem.

    Returns
    -------
    str
        A whole page. Hints are folded, and left out on paper.
    """
    title = heading(student, answers)
    body = "".join(_section(number, ProblemWords(problem), answers) for number, problem in enumerate(problems, 1))
    return (
        f'<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8"><title>{escape(title)}</title>'
        f'<meta name="viewport" content="width=device-width, initial-scale=1"><style>{_STYLE}</style></head>\n'
        f"<body><header><h1>{escape(title)}</h1></header>\n<main>{body}</main></body></html>\n"
    )


def _section(number: int, words: ProblemWords, answers: bool) -> str:
    inside = f"<h2>{number}. {escape(words.title)}</h2><p>{escape(words.text)}</p><p>{escape(words.asks)}</p>"
    if answers:
        lines = "<br>".join(escape(line) for line in words.working)
        inside += f'<p><strong>{escape(words.answer)}</strong></p><p class="working">{lines}</p>'
    else:
        hints = "".join(f"<li>{escape(hint)}</li>" for hint in words.hints)
        inside += f'<details><summary>Hints</summary><ol>{hints}</ol></details><div class="space"></div>'
    return f"<section>{inside}</section>\n"


def sheet_notebook(student: str, problems: Sequence[Problem], answers: bool = False) -> str:
    """Give a student's sheet as a notebook: below each problem a cell for the answer, or the answer and its working.

    The notebook's metadata say whose sheet it is and which problems are in it; marking looks there. See `sheet_html` for the
    parameters.
    """
    cells = [_cell("head", "markdown", f"# {_plain(heading(student, answers))}" + ("" if answers else f"\n\n{HOW_TO_RETURN}"))]
    for number, problem in enumerate(problems, 1):
        words = ProblemWords(problem)
        text = f"## {number}. {words.title}\n\n{words.text}\n\n{words.asks}"
        if answers:
            text += f"\n\n**{words.answer}**\n\n" + "\n".join(f"    {line}" for line in words.working)
        else:
            text += "".join(f"\n\n<details><summary>Hint {at}</summary>{escape(hint)}</details>"
                            for at, hint in enumerate(words.hints, 1))  # fmt: skip
        cells.append(_cell(f"problem-{number}", "markdown", text))
        if not answers:
            cells.append(_cell(f"answer-{number}", "code", f'{ANSWER_HERE}\nanswer_{number} = ""'))
    about = {"student": student, "problems": [token(problem) for problem in problems]}
    metadata = {
        "kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"},
        "language_info": {"name": "python"},
        "rigcalc": {"classroom": about},
    }
    return json.dumps({"cells": cells, "metadata": metadata, "nbformat": 4, "nbformat_minor": 5}, indent=1) + "\n"


def _cell(key: str, kind: str, source: str) -> dict[str, Any]:
    cell: dict[str, Any] = {"cell_type": kind, "id": key, "metadata": {}, "source": source}
    return {**cell, "execution_count": None, "outputs": []} if kind == "code" else cell


def _plain(text: str) -> str:
    """Make a name harmless in Markdown: marks that it obeys become plain letters."""
    marked = "".join(f"\\{letter}" if letter in "\\`*_{}[]()#+-.!|~$" else letter for letter in text)
    return escape(marked, quote=False)
