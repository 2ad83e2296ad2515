"""The sheet as PDF, set by typst. Every text goes in as JSON data and is never read as markup."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict
from pathlib import Path
from typing import Any

from rigcalc.core.errors import Fault, InputError
from rigcalc.models.ballast.answer import BallastAnswer
from rigcalc.models.season.answer import SeasonAnswer
from rigcalc.views.sheet.data import sheet_data
from rigcalc.views.sheet.picture import chance_svg
from rigcalc.views.sheet.working import NOTE, TITLE
from rigcalc.words.compare import CompareWords
from rigcalc.words.size import SizeWords

PAPERS = {"a4": "a4", "letter": "us-letter"}
_HERE = Path(__file__).parent


def sheet_pdf(
    words: SizeWords, *, paper: str | None = None, ballast: BallastAnswer | None = None, season: SeasonAnswer | None = None,
    working: bool = False, **about: str | None,
) -> bytes:  # fmt: skip
    """Give the setup sheet of an answer in words as a PDF: two pages, more with the working. Same input, same bytes.

    paper: "a4" or "letter"; where none is given, letter for American units and A4 for metric ones. ballast: the answer on
    ballast for the same rig, for a part on its plan; season: that on the season of this rig alone, likewise. working: with
    every step of the working on pages behind. about: who, where, when, gear, comment, as text; all optional. Raises InputError.
    """
    paper = paper_for(words, paper)
    data = sheet_data(words, ballast=ballast, season=season, working=working, **about)
    inputs = {
        "sheet": json.dumps(asdict(data), ensure_ascii=False),
        "picture": chance_svg(words),
        "paper": PAPERS[paper],
        "working_title": TITLE,
        "working_note": NOTE,
    }
    return set_by_typst(_HERE / "page.typ", inputs)


def set_by_typst(page: Path, inputs: Mapping[str, str]) -> bytes:
    """Give a page of typst as PDF with texts put in; the same input gives the same bytes. Raises InputError without typst.

    The machine's own fonts are left out, so that a sheet is the same on every machine.
    """
    made = load_typst().compile(
        page, root=page.parent, format="pdf", sys_inputs={"font": "DejaVu Sans", **inputs},
        ignore_system_fonts=True, font_paths=[_HERE / "fonts"],
    )  # fmt: skip
    return bytes(made)


def load_typst() -> Any:
    """Give typst. Raises InputError that says how to install it where it isn't."""
    try:
        import typst
    except ImportError:
        raise InputError(
            [Fault("sheet", "no typst here", "the extra that makes PDFs", "pip install 'rigcalc[sheet]'")]
        ) from None
    return typst


def paper_for(words: SizeWords | CompareWords, paper: str | None) -> str:
    """Give the paper: as chosen, else by the units. Raises InputError for one that the sheet isn't made for."""
    if paper is None:
        return "letter" if words.units == "us" else "a4"
    if paper not in PAPERS:
        raise InputError([Fault("paper", repr(paper)[:60], "a4 or letter", 'paper="letter"')])
    return paper
