r"""A formula of the book for typst: its LaTeX, of which `core/formula.py` makes a small part, turned into typst's notation.

Only what is known here gets through, so that nothing in a formula can be a command of typst.
"""

from __future__ import annotations

import re

_MARK = re.compile(r"\\text\{[^{}]*\}|\\(?:[A-Za-z]+|.)|[0-9]+(?:\.[0-9]+)?|\S")
_NAMES = frozenset(
    "times sin cos tan ln sqrt alpha beta gamma delta epsilon zeta eta theta kappa lambda mu nu xi pi rho sigma tau phi chi "
    "psi omega Delta".split()
)
_OTHERS = {r"\,": "thin", r"\cdot": "dot.op", r"\varphi": "phi.alt", r"\circ": "compose", r"\left": "", r"\right": ""}
_SIGNS = frozenset("=+-().|'")
_ESCAPED = {"/": r"\/", ",": r"\,", ";": r"\;"}  # in an argument of typst they would part it


def typst_math(latex: str) -> str:
    r"""Give a formula in typst's notation. Raises ValueError for what no formula of the book holds.

    >>> typst_math(r"P_d = \frac{F \, v}{3.6}")
    'P _(d) = frac(F thin v, 3.6)'
    """
    marks = _MARK.findall(latex)
    out, rest = _part(marks, 0)
    if rest != len(marks):
        raise ValueError(f"a bracket too many in {latex[:80]!r}")
    return " ".join(out)


def _part(marks: list[str], at: int) -> tuple[list[str], int]:
    """Give what stands up to the end or to the bracket that closes, and where that is."""
    out: list[str] = []
    while at < len(marks) and marks[at] != "}":
        mark = marks[at]
        if mark == r"\frac":
            above, at = _group(marks, at + 1)
            below, at = _group(marks, at)
            out.append(f"frac({above}, {below})")
        elif mark == r"\sqrt":
            inside, at = _group(marks, at + 1)
            out.append(f"sqrt({inside})")
        elif mark in ("_", "^"):
            inside, at = _argument(marks, at + 1)
            out.append(f"{mark}({inside})")
        elif mark == "{":
            inside, at = _group(marks, at)
            out.append(inside)
        else:
            out.append(_one(mark))
            at += 1
    return [part for part in out if part], at


def _argument(marks: list[str], at: int) -> tuple[str, int]:
    """Give what is raised or lowered: what stands in brackets, or one mark."""
    if marks[at : at + 1] in ([], ["{"]):
        return _group(marks, at)
    return _one(marks[at]), at + 1


def _group(marks: list[str], at: int) -> tuple[str, int]:
    if at >= len(marks) or marks[at] != "{":
        raise ValueError("a part in brackets was expected")
    inside, end = _part(marks, at + 1)
    if end >= len(marks):
        raise ValueError("a bracket isn't closed")
    return " ".join(inside), end + 1


def _one(mark: str) -> str:
    if mark.startswith(r"\text{"):
        inside = mark[6:-1].replace("\\", "").replace('"', "")
        return f'"{inside}"'
    if mark in _OTHERS:
        return _OTHERS[mark]
    if mark[:1] == "\\" and mark[1:] in _NAMES:
        return mark[1:]
    if mark in _ESCAPED:
        return _ESCAPED[mark]
    if mark in _SIGNS or mark[0].isdigit() or (len(mark) == 1 and mark.isascii() and mark.isalpha()):
        return mark
    raise ValueError(f"{mark[:20]!r} isn't known here")
