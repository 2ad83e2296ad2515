"""What is said of an answer: kindly, and so that the right one can't be told from it."""

from __future__ import annotations

from rigcalc.models.classroom.answers import MOST_LETTERS, Unread
from rigcalc.models.classroom.marking import Mark, Outcome
from rigcalc.models.classroom.problem import Problem
from rigcalc.models.classroom.returned import LARGEST_NOTEBOOK, Refused
from rigcalc.words.classroom.problem import unit_to_type
from rigcalc.words.spelling import spelt

_SAID = {
    Outcome.RIGHT: "Right.",
    Outcome.ROUNDED: "On the way, but rounded too far. Give three figures.",
    Outcome.OTHER_UNIT: "The number fits another unit than the one you wrote. Look at the unit again.",
    Outcome.HORSEPOWER: "The way is right, but there are two kinds of horsepower: hp is 550 ft lbf in a second,"
                        " the metric one (PS) 75 kilograms lifted a meter in a second.",
    Outcome.TEN: "The digits are right. The decimal point isn't: look at the units that you put in, and at the answer's.",
    Outcome.SIGN: "The size is right, the sign isn't.",
    Outcome.WRONG: "Not yet. Write each number with its unit, and see whether the units come out as they should.",
    Outcome.MASS: "What you wrote is a mass, and a force is asked for. Write lbf for pounds of force, or N or kN.",
    Outcome.FORCE: "What you wrote is a force, and a mass is asked for. Write lb or kg.",
}  # fmt: skip
_UNREAD = {
    Unread.EMPTY: "No answer yet.",
    Unread.GONE: "The line for this answer is gone from its cell, or was changed. What stands elsewhere wasn't looked at.",
    Unread.LONG: f"This is too long to be an answer. Write one number and its unit, in at most {MOST_LETTERS} letters.",
    Unread.NO_NUMBER: "No number stands at the beginning. Write a number in digits, then its unit.",
    Unread.COMMA: "A comma parts thousands here. Write a point before decimals.",
    Unread.SUM: "This is a sum, and nothing is worked out here. Write its result.",
    Unread.TWO: "There are two numbers. Write one number, then its unit.",
    Unread.NOT_FINITE: "This number has no size that can be looked at. Write it in digits.",
}
_REFUSED = {
    Refused.LINK: "A link, not a file. It was not followed.",
    Refused.NO_FILE: "Not a plain file. It was not read.",
    Refused.LARGE: f"Larger than {LARGEST_NOTEBOOK // 1024**2} MiB. It was not read; ask for it without its output.",
    Refused.UNREADABLE: "It can't be read.",
    Refused.NO_NOTEBOOK: "Not a notebook.",
    Refused.STRANGER: "Not a sheet of this class: it holds no name, or one that isn't on the list.",
    Refused.OTHER_SHEET: "Not the sheet that this student got: the problems in it are others.",
    Refused.TWICE: "This student returned more than one sheet. Keep the one that counts.",
}


def told(mark: Mark, problem: Problem) -> str:
    """Say what is the matter with an answer."""
    if mark.outcome is Outcome.RIGHT:
        more = " It has more figures than any field gives; three or four are enough." if mark.too_many_figures else ""
        return _SAID[mark.outcome] + more
    if mark.outcome is Outcome.SLIP:
        says = {slip.key: slip.say for slip in problem.kind.slips if slip.only in ("", problem.system)}
        return spelt("Not yet. " + " Or: ".join(says[key] for key in mark.slips), problem.system)
    if mark.outcome is Outcome.NO_UNIT:
        return f"The unit is missing. Write one behind the number, such as {unit_to_type(problem.unit)}."
    if mark.outcome is Outcome.DIMENSION:
        return f"This unit measures something else than what is asked for. One that fits is {unit_to_type(problem.unit)}."
    if mark.outcome is Outcome.UNREAD and mark.unread is Unread.UNIT:
        return f"This unit isn't known here. One that fits is {unit_to_type(problem.unit)}."
    if mark.unread is not None:
        return _UNREAD[mark.unread]
    if mark.outcome is Outcome.TEN and problem.unit == "percent":
        return (
            "The digits are right, the point isn't. A share is a plain number below 1; with the sign % it is a hundred times"
            " as large."
        )
    return _SAID[mark.outcome]


def refused_said(refused: Refused) -> str:
    """Say why a file that came back isn't marked."""
    return _REFUSED[refused]
