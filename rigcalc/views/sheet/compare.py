"""A comparison as one printed page, PDF or HTML: which one and why, the rows that differ, what is the same, each by itself."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from pathlib import Path

from markupsafe import Markup

import rigcalc
from rigcalc.views.sheet.pdf import PAPERS, paper_for, set_by_typst
from rigcalc.views.sheet.words import clean
from rigcalc.widgets.templates import render
from rigcalc.words.compare import CompareWords
from rigcalc.words.compare.names import LETTERS
from rigcalc.words.numbers import capital
from rigcalc.words.size.sentence import JUDGEMENTS

_HERE = Path(__file__).parent
_CSS_PAPERS = {"a4": "A4", "us-letter": "letter"}
_MOST_EACH = 3  # rigs; of more, what is said of each would make the print too small to read
_NAME, _LONG_NAME = 40, 60  # letters of a name at the head of a column, and in the list below it

# Size of the HTML page's print, in points, at which it stays one page: a straight line through what a browser printed for two
# to eight rigs with short and long names, less a few percent.
_SIZE, _BY_LETTER = 10.95, 0.00103
_SMALLEST, _LARGEST = 3.8, 10.0


@dataclass(frozen=True)
class CompareSheet:
    """Everything on the page, as text. names: letter and name of each rig; rows: title and a cell for each rig."""

    title: str
    word: str
    sentence: str
    rest: tuple[str, ...]
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    same: str
    each: tuple[tuple[str, str], ...]
    version: str


def comparison_sheet(words: CompareWords) -> CompareSheet:
    """Make what the page of a comparison shows."""
    said, names = words.said, [clean(side.name, _LONG_NAME) for side in words.comparison.rigs]
    return CompareSheet(
        title="This one or that one",
        word=JUDGEMENTS[words.comparison.choice.judgement],
        sentence=capital(f"{said.word}: {said.headline}"),
        rest=tuple(capital(text) for text in said.rest),
        heads=("", *(f"{letter} {clean(name, _NAME)}" for letter, name in zip(LETTERS, names, strict=False))),
        rows=tuple((row.title, *row.cells) for row in words.differing),
        same=words.same,
        each=()
        if len(names) > _MOST_EACH
        else tuple(
            (f"{letter} {name}", str(text)) for letter, name, (_, text) in zip(LETTERS, names, words.each, strict=False)
        ),
        version=f"rigcalc {rigcalc.__version__}",
    )


def comparison_pdf(words: CompareWords, *, paper: str | None = None) -> bytes:
    """Give a comparison as a PDF of one page; the same input gives the same bytes.

    paper: "a4" or "letter"; where none is given, letter for American units and A4 for metric ones. Raises InputError.
    """
    paper = paper_for(words, paper)
    inputs = {"sheet": json.dumps(asdict(comparison_sheet(words)), ensure_ascii=False), "paper": PAPERS[paper]}
    return set_by_typst(_HERE / "compare.typ", inputs)


def comparison_html(words: CompareWords, *, paper: str | None = None) -> str:
    """Give a comparison as an HTML page that stands alone; the same input gives the same text. paper: as for the PDF."""
    s = comparison_sheet(words)
    letters = len(s.sentence) + sum(map(len, (*s.rest, s.same, *(text for _, text in s.each))))
    letters += len(s.rows) * (55 + 12 * max(len(s.heads) - 3, 0))
    size = round(min(max(_SIZE - _BY_LETTER * letters, _SMALLEST), _LARGEST), 2)
    css = Markup((_HERE / "page.css").read_text(encoding="utf-8"))  # noqa: S704 (our own file)
    page = render(__file__, "compare.html.j2", s=s, css=css, paper=_CSS_PAPERS[PAPERS[paper_for(words, paper)]], size=size)
    return f"{page}\n"
