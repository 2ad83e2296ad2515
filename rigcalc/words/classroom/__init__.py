"""The phrases of the classroom: a problem's text, its answer and working, and what is said of a student's answer."""

from rigcalc.words.classroom.marks import refused_said, told
from rigcalc.words.classroom.problem import ProblemWords

__all__ = ["ProblemWords", "refused_said", "told"]
