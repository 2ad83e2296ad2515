"""Headland and cart lanes on the setup sheet: how much harder they pull and what to do there, on its two pages still."""

from __future__ import annotations

from html import unescape
from typing import Any

import pytest
from known_rigs import known_rig
from sheet_readers import pdf_pages

from rigcalc.models import replaced, size
from rigcalc.models.reading.zones import zones
from rigcalc.views.sheet import sheet_data, sheet_html, sheet_pdf
from rigcalc.words import in_words
from rigcalc.words.numbers import chance
from rigcalc.words.size import SizeWords

LAND = {"date": "2026-11-04", "zone": "headland", "depth": "12 in", "speed": "5 mph", "slip": "9 percent"}


def words(**changes: Any) -> SizeWords:
    return in_words(size(replaced(known_rig(), changes)), "us")


def test_zones_that_nobody_read_are_said_in_one_line_by_the_published_band() -> None:
    said = words()
    (line,) = sheet_data(said).zones
    assert line.startswith("The headland and cart lanes (no reading there): 1.3 to 2.1 times the draft, and ")
    found = zones(said.answer.rig)[0]
    assert found.depth is not None
    assert f"holds in {chance(found.chance)} cases there. Raise to " in line


def test_a_reading_of_the_headland_has_a_line_of_its_own() -> None:
    said = words(reading=[LAND])
    one, other = sheet_data(said).zones
    assert one.startswith("The headland (1 reading there): ")
    assert other.startswith("Cart lanes (no reading there): 1.3 to 2.1 ")
    page = unescape(sheet_html(said))
    assert "Where it pulls harder" in page
    assert one in page
    assert other in page


def test_a_sheet_that_says_don_t_has_none() -> None:
    assert sheet_data(words(**{"work.depth": "30 in"})).zones == ()


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_it_stays_on_two_pages(paper: str) -> None:
    pages = pdf_pages(sheet_pdf(words(reading=[LAND]), paper=paper))
    assert len(pages) == 2
    assert "Where it pulls harder" in pages[1]
