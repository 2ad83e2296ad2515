"""The season on the setup sheet: what the season says, for this rig alone, never on more than two pages."""

import pytest
from sheet_readers import pdf_pages

from rigcalc import season
from rigcalc.core.errors import InputError
from rigcalc.models import demo_rig, size
from rigcalc.views.sheet import sheet_data, sheet_html, sheet_pdf
from rigcalc.words import in_words

RIG = demo_rig("articulated")
PRICES = {"tractor_price": 400_000, "tool_price": 80_000, "fuel_price": "3.50 per gal"}
PLAN = {"start": "1 Oct", "by": "15 Nov", "money": PRICES}


def words(units="us"):
    return in_words(size(RIG), units)


def test_without_a_plan_the_line_of_the_rig_file_stands():
    sheet = sheet_data(words())
    assert sheet.days == ()
    assert sheet.season
    assert "The season, with this rig alone" not in sheet_html(words())


def test_the_lines_say_what_the_season_says():
    found = season(RIG, PLAN)
    sheet, said = sheet_data(words(), season=found), in_words(found, "us")
    assert sheet.season == ""
    assert sheet.days[0] == f"{said.said.word}: {said.said.headline}"
    lines = " ".join(sheet.days)
    for part in (
        "begin by",
        "Clock day 14.5 h",
        "t work, full width 8.4 h",
        "fillings of the tank",
        "an acre",
        "your own share",
    ):
        assert part in lines, part
    metric = " ".join(sheet_data(words("si"), season=found).days)
    assert "a hectare" in metric
    assert "acre" not in metric


def test_a_season_without_prices_has_no_cost():
    assert "Costs" not in " ".join(sheet_data(words(), season=season(RIG, {"start": "1 Oct", "by": "15 Nov"})).days)


def test_it_stays_on_two_pages():
    front, back = pdf_pages(sheet_pdf(words(), season=season(RIG, PLAN)))
    assert "The season, with this rig alone" in back
    assert "Clock day 14.5 h" in back
    assert "Clock day" not in front
    assert "The season, with this rig alone" in sheet_html(words(), season=season(RIG, PLAN))


@pytest.mark.parametrize("rigs", [["two_wheel_drive"], ["articulated", "articulated"]])
def test_a_season_of_other_rigs_is_refused(rigs):
    found = season(rigs, PLAN)
    with pytest.raises(InputError, match="this sheet's rig alone"):
        sheet_data(words(), season=found)
