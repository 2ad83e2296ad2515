"""The sheet as one HTML page that stands alone: no script, no outside link, made to be printed on one page."""

from __future__ import annotations

from pathlib import Path

from markupsafe import Markup

from rigcalc.models.ballast.answer import BallastAnswer
from rigcalc.views.sheet.ballast import BallastPart
from rigcalc.views.sheet.data import Sheet, sheet_data
from rigcalc.views.sheet.pdf import PAPERS, check_paper
from rigcalc.views.sheet.picture import chance_svg
from rigcalc.widgets.templates import render
from rigcalc.words.size import SizeWords

_CSS = Path(__file__).with_name("page.css")
_PAPERS = {"a4": "A4", "us-letter": "letter"}
# Size of print, in points, at which the page stays one page: a straight line through sizes measured in a browser for short
# and long sheets on both papers, less four percent. A sheet without a setting has room for so many letters more.
_SIZE, _BY_LETTER, _ROOM_WITHOUT_SETTING = 10.2, 0.00063, 2900
_SMALLEST, _LARGEST = 6.0, 9.5


def sheet_html(words: SizeWords, *, paper: str = "a4", ballast: BallastAnswer | None = None, **about: str | None) -> str:
    """Give the setup sheet of an answer in words as an HTML page; the same input gives the same text.

    paper: "a4" or "letter". ballast: the answer on ballast for the same rig, for a part on its plan. about: who, where, when,
    gear, comment, as text; all optional. Raises InputError.
    """
    check_paper(paper)
    s = sheet_data(words, ballast=ballast, **about)
    css, picture = Markup(_CSS.read_text(encoding="utf-8")), Markup(chance_svg(words))  # noqa: S704 (our own file and drawing)
    page = render(__file__, "page.html.j2", s=s, css=css, paper=_PAPERS[PAPERS[paper]], size=_size(s), picture=picture)
    return f"{page}\n"


def _size(s: Sheet) -> float:
    letters = sum(map(len, (*s.cautions, *s.notes, *s.ways, s.sources, s.comment, s.comment, s.sure, s.season, s.sentence)))
    letters += sum(map(len, _ballast_texts(s.ballast))) * 2 + 400 if s.ballast else 0
    letters -= _ROOM_WITHOUT_SETTING if s.verdict == "no" else 0
    return round(min(max(_SIZE - _BY_LETTER * letters, _SMALLEST), _LARGEST), 1)


def _ballast_texts(part: BallastPart) -> list[str]:
    return [part.sentence, *part.steps, part.masses, *part.pressures, part.slip]
