"""The sheet as one HTML page that stands alone: no script, no outside link, made to be printed on two pages."""

from __future__ import annotations

from pathlib import Path

from markupsafe import Markup

from rigcalc.models.ballast.answer import BallastAnswer
from rigcalc.models.season.answer import SeasonAnswer
from rigcalc.views.rig.working import step_inside
from rigcalc.views.sheet.ballast import BallastPart
from rigcalc.views.sheet.data import Sheet, sheet_data
from rigcalc.views.sheet.pdf import PAPERS, paper_for
from rigcalc.views.sheet.picture import chance_svg
from rigcalc.views.sheet.working import NOTE, TITLE
from rigcalc.widgets.templates import render
from rigcalc.words.size import SizeWords

_CSS = Path(__file__).with_name("page.css")
_PAPERS = {"a4": "A4", "us-letter": "letter"}
# Page 1 is set in 12 points. Size of print overleaf, in points, at which that stays one page: a straight line through sizes
# measured in a browser for short and long sheets on both papers, less a few percent.
_SIZE, _BY_LETTER = 12.8, 0.00080
_SMALLEST, _LARGEST = 6.0, 10.0
_ROOMY = 640  # letters on page 1 up to which it has room for wide gaps and the largest figures; measured likewise


def sheet_html(
    words: SizeWords, *, paper: str | None = None, ballast: BallastAnswer | None = None, season: SeasonAnswer | None = None,
    working: bool = False, **about: str | None,
) -> str:  # fmt: skip
    """Give the setup sheet of an answer in words as an HTML page; the same input gives the same text.

    paper: "a4" or "letter"; where none is given, letter for American units and A4 for metric ones. ballast: the answer on
    ballast for the same rig, for a part on its plan; season: that on the season of this rig alone, likewise. working: with
    every step of the working on pages behind. about: who, where, when, gear, comment, as text; all optional. Raises InputError.
    """
    kind = _PAPERS[PAPERS[paper_for(words, paper)]]
    s = sheet_data(words, ballast=ballast, season=season, working=False, **about)  # that of the PDF is in its notation
    css, picture = Markup(_CSS.read_text(encoding="utf-8")), Markup(chance_svg(words))  # noqa: S704 (our own file and drawing)
    page = render(__file__, "page.html.j2", s=s, css=css, paper=kind, size=_size(s), picture=picture,
                  tight=_front_letters(s) > _ROOMY,
                  steps=_steps(words) if working else (), working=(TITLE, NOTE))  # fmt: skip
    return f"{page}\n"


def _steps(words: SizeWords) -> list[tuple[str, Markup]]:
    return [(f"{step.title}: {step.result}", step_inside(step)) for step in words.working]


def _front_letters(s: Sheet) -> int:
    return sum(map(len, (s.who, s.where, s.when, s.comment, s.sentence, s.rest, *s.stops)))


def _size(s: Sheet) -> float:
    letters = sum(map(len, (*s.cautions, *s.notes, *s.soil, *s.zones, *s.days, s.sources, s.sure, s.season, s.farm, s.rig)))
    letters += 60 * len(s.limits)
    letters += sum(map(len, _ballast_texts(s.ballast))) * 2 + 400 if s.ballast else 0
    return round(min(max(_SIZE - _BY_LETTER * letters, _SMALLEST), _LARGEST), 1)


def _ballast_texts(part: BallastPart) -> list[str]:
    return [part.sentence, *part.steps, part.masses, *part.pressures, part.slip]
