"""The marks of a class: what came back against what was given out, a row for each student and problem."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from rigcalc.models.classroom.answers import Unread
from rigcalc.models.classroom.marking import Mark, Outcome, mark
from rigcalc.models.classroom.problem import Problem
from rigcalc.models.classroom.returned import Refused, Returned

GONE = Mark(Outcome.UNREAD, "", unread=Unread.GONE)


@dataclass(frozen=True)
class StudentMarks:
    """A student's marks: the file they are from ("" for none), a mark for each problem in order, or why it isn't marked."""

    student: str
    problems: tuple[Problem, ...]
    file: str = ""
    marks: tuple[Mark, ...] = ()
    refused: Refused | None = None

    @property
    def right(self) -> int:
        """Count the right answers."""
        return sum(each.right for each in self.marks)


def class_marks(given_out: Mapping[str, list[Problem]], returned: Iterable[Returned]) -> Iterator[StudentMarks]:
    """Give every student's marks in the order of the class; then each file that belongs to no student."""
    files: dict[str, Returned] = {}
    strangers = []
    for each in returned:
        if each.student not in given_out:
            strangers.append(each)
        elif each.student not in files or each.refused is None:  # the sheet that was given out goes before another
            files[each.student] = each
    for student, problems in given_out.items():
        file = files.get(student)
        if file is None:
            yield StudentMarks(student, tuple(problems))
        elif file.refused is not None:
            yield StudentMarks(student, tuple(problems), file.file, refused=file.refused)
        else:
            marks = tuple(
                GONE if number in file.gone else mark(problem, file.answers.get(number, ""))
                for number, problem in enumerate(problems, 1)
            )
            yield StudentMarks(student, tuple(problems), file.file, marks)
    for each in strangers:
        yield StudentMarks("", (), each.file, refused=each.refused)
