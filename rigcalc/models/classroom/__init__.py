"""The classroom: problems as data, drawn for a student, and answers marked by their number and unit.

`kinds/` holds a file for each kind of problem, `kinds.py` reads them, `chain.py` works a kind's equations, right and with a
slip, `problem.py` draws, `answers.py` reads what a student typed, `marking.py` marks it. `class_list.py`, `problem_set.py` and
`returned.py` read a class list, the file that the teacher keeps, and the notebooks that come back; nothing in them is run.
"""

from rigcalc.models.classroom.kinds import Kind, kinds
from rigcalc.models.classroom.marking import Mark, Outcome, mark
from rigcalc.models.classroom.problem import Problem, draw

__all__ = ["Kind", "Mark", "Outcome", "Problem", "draw", "kinds", "mark"]
