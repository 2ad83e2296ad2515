"""Formulas as MathML, which browsers set themselves: no script, nothing fetched, read aloud by screen readers.

Reads the LaTeX that `rigcalc.core.formula` and the nomenclature write: fractions, powers, indices, roots, fences, named
functions, Greek letters. Anything else is shown as it stands, never dropped.
"""

from __future__ import annotations

import re
from functools import lru_cache

from rigcalc.widgets.html import esc

_TOKEN = re.compile(r"\\[A-Za-z]+|\\.|[{}^_]|\d+(?:\.\d+)?(?:e[+-]?\d+)?|[A-Za-z]|\s+|.", re.DOTALL)
_GREEK = {
    name: chr(code)
    for name, code in zip(
        "alpha beta gamma delta epsilon zeta eta theta iota kappa lambda mu nu xi omicron pi rho".split(),
        range(0x3B1, 0x3C2),
        strict=True,
    )
} | {
    "sigma": "σ",
    "tau": "τ",
    "varphi": "φ",
    "phi": "ϕ",
    "chi": "χ",
    "psi": "ψ",
    "omega": "ω",
    "Delta": "Δ",
    "Omega": "Ω",
    "varepsilon": "ε",
}
_SIGNS = {
    "times": "×",
    "cdot": "·",
    "le": "≤",
    "ge": "≥",
    "leq": "≤",
    "geq": "≥",
    "pm": "±",
    "circ": "°",
    "approx": "≈",
    "infty": "∞",
}
_NAMED = {"sin", "cos", "tan", "exp", "ln", "log", "min", "max"}
_SPACES = {"\\,": "", "\\;": "", "\\ ": "", "\\!": "", "\\quad": ""}


@lru_cache(maxsize=2000)
def mathml(latex: str) -> str:
    """Give a formula as one `math` element. `latex` has at most a few hundred letters; odd input is shown as text."""
    pieces = [piece for piece in _TOKEN.findall(latex) if not piece.isspace()]
    try:
        parts, rest = _row(pieces, 0, "")
        if rest != len(pieces):
            raise ValueError(latex)
    except (ValueError, IndexError, RecursionError):
        return f"<code>{esc(latex)}</code>"
    return f'<math display="block"><mrow>{"".join(parts)}</mrow></math>'


def _row(pieces: list[str], at: int, end: str) -> tuple[list[str], int]:
    """Read up to `end` (which is taken along), or to the end of the formula."""
    parts: list[str] = []
    while at < len(pieces):
        piece = pieces[at]
        if piece == end:
            return parts, at + 1
        if piece in ("^", "_"):
            raised, at = _one(pieces, at + 1)
            tag = "msup" if piece == "^" else "msub"
            base = parts.pop() if parts else "<mrow></mrow>"
            if tag == "msup" and base.startswith("<msub>"):
                base, tag = base.removeprefix("<msub>").removesuffix("</msub>"), "msubsup"
            parts.append(f"<{tag}>{base}{raised}</{tag}>")
            continue
        part, at = _one(pieces, at)
        if part:
            parts.append(part)
    if end:
        raise ValueError(end)
    return parts, at


def _one(pieces: list[str], at: int) -> tuple[str, int]:
    """Read one item: a group, a command with its arguments, a number, a letter or a sign."""
    piece = pieces[at]
    name = piece[1:] if piece.startswith("\\") else ""
    if piece == "{":
        parts, at = _row(pieces, at + 1, "}")
        return f"<mrow>{''.join(parts)}</mrow>", at
    if name == "frac":
        top, at = _one(pieces, at + 1)
        below, at = _one(pieces, at)
        return f"<mfrac>{top}{below}</mfrac>", at
    if name == "sqrt":
        inside, at = _one(pieces, at + 1)
        return f"<msqrt>{inside}</msqrt>", at
    if name in ("mathrm", "text", "operatorname"):
        close = pieces.index("}", at)
        return f"<mtext>{esc(''.join(pieces[at + 2 : close]))}</mtext>", close + 1
    if name == "left":
        parts, after = _row(pieces, at + 2, "\\right")
        fences = (esc(pieces[at + 1]), esc(pieces[after]))
        return f"<mrow><mo>{fences[0]}</mo>{''.join(parts)}<mo>{fences[1]}</mo></mrow>", after + 1
    return _leaf(piece, name), at + 1


def _leaf(piece: str, name: str) -> str:
    if piece in _SPACES:
        return ""
    if name in _GREEK:
        return f"<mi>{_GREEK[name]}</mi>"
    if name in _SIGNS:
        return f"<mo>{_SIGNS[name]}</mo>"
    if name in _NAMED:
        return f"<mi>{name}</mi>"
    if piece[0].isdigit():
        return f"<mn>{esc(piece)}</mn>"
    if piece.isalpha():
        return f"<mi>{esc(piece)}</mi>"
    if piece == "-":
        return "<mo>−</mo>"
    if piece in "+=()[]|,<>*":
        return f"<mo>{esc(piece)}</mo>"
    if piece in "/'.:":
        return f"<mo>{'′' if piece == chr(39) else piece}</mo>"
    raise ValueError(piece)
