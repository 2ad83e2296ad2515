"""Daily weather on the page: picked, read by its units, faults at their boxes in words for a page, left out again."""

import pytest
from made_station import station
from picking import Browser

from rigcalc import season
from rigcalc.models import demo_rig, replaced
from rigcalc.models.machine.judgement import Judgement
from rigcalc.models.machine.weather import LARGEST_WEATHER
from rigcalc.views.season.fields import OF_WEATHER, OWN, UNITS
from rigcalc.widgets import SeasonApp, SeasonBox, SeasonModel, SeasonWeather
from rigcalc.widgets.picked import PIECE

DATES = {f"{OWN}start": "1 Oct", f"{OWN}by": "15 Nov"}


STATION = station()


def page(text=STATION, units="tenths", name="station.csv"):
    made = SeasonModel()
    made.start_from("articulated")
    made.edit(DATES | {"ground.texture": "loam"})
    card = SeasonWeather(made)
    Browser(card).pick(name, text.encode() if isinstance(text, str) else text)
    if units:
        made.edit({UNITS: units})
    return made, card


def test_the_page_says_what_the_question_says_of_the_same_file(tmp_path):
    made, card = page()
    (tmp_path / "station.csv").write_text(STATION)
    plan = {"start": "1 Oct", "by": "15 Nov", "days": {"weather": str(tmp_path / "station.csv"), "weather_units": "tenths"}}
    asked = season(replaced(demo_rig("articulated"), {"ground.texture": "loam"}), plan)
    found = made.results.answer
    assert made.faults == ()
    assert found.finish.chance == asked.finish.chance
    assert found.seasons.years == asked.seasons.years
    assert found.judgement is not Judgement.GO  # nobody counted these days
    assert "4,018 days, 2000-01-01 to 2010-12-31, latitude 46.9" in card.html
    assert found.of_one(0).finish.chance == found.finish.chance  # without its file, which is no file of this machine


def test_units_are_asked_for_at_their_box_and_no_terminal_is_named():
    made, card = page(units="")
    (fault,) = made.faults
    assert fault.where == UNITS
    assert made.results is None
    assert "tenths" in fault.expected
    assert "not read yet" in card.html
    bare, _ = page(text=station(latitude=False))
    assert [each.where for each in bare.faults] == [f"{OWN}days.latitude"]
    bare.edit({f"{OWN}days.latitude": "46.9 N"})
    assert bare.faults == ()
    short, _ = page(text=station(last=2003))
    assert "4 whole years" in short.faults[0].got
    for each in (*made.faults, *page(text=station(latitude=False))[0].faults, *short.faults):
        assert "--" not in f"{each.got}{each.expected}{each.type_this}"
        assert " in [" not in each.type_this


def test_every_box_of_the_file_does_something_and_is_hidden_without_one():
    made, _card = page()
    before = made.results.answer.seasons.fit.sum()
    assert before > 0
    for name, text in ((f"{OWN}days.water_left", "100 percent"), (f"{OWN}days.latitude", "20")):
        other, _ = page()
        other.edit({name: text})
        assert other.faults == ()
        assert other.results.answer.seasons.fit.sum() != before, name
    assert not any(made.hides(path) for path in OF_WEATHER)
    without = SeasonModel()
    assert all(without.hides(path) for path in OF_WEATHER)
    without.edit({UNITS: "tenths"})  # as a link may bring it, without its file
    assert without.faults == ()


def test_faults_of_the_file_stand_with_their_lines_in_the_box_of_faults():
    made, _card = page(text=STATION.replace("2003-03-04", "2003-02-29"))
    app = SeasonApp(made)
    assert "weather file, line 1160" in app.faults.html
    assert "days.weather" not in app.faults.html
    made, _card = page(text=b"\xff\xfe\x00" + bytes(range(256)))
    assert "bytes that are not text" in made.faults[0].got
    made, _card = page(name="<b>x</b>.csv", units="")
    assert "<b>x" not in SeasonWeather(made).html


def test_a_file_that_is_left_out_leaves_the_days_as_they_were():
    made, card = page()
    assert not made.fits_a_link()
    card.act("leave")
    assert made.results.answer.seasons.worked is None
    assert made.inputs[UNITS] == ""
    assert made.fits_a_link()


def test_it_outlives_a_change_of_rig_and_days_that_are_typed_beside_it_are_a_fault():
    made, _card = page()
    made.start_from_demo("two_track")
    assert made.results.answer.seasons.worked is not None
    made.edit({f"{OWN}days.share": "50 percent"})
    assert [each.where for each in made.faults] == [f"{OWN}days.share"]


def test_a_file_on_its_way_shows_how_far_it_is_and_one_too_big_is_told():
    made = SeasonModel()
    card = SeasonWeather(made)
    Browser(card).pick("long.csv", bytes(3 * PIECE), at_most=1)
    assert 'value="33"' in card.html
    card.act("pick", {"name": "big.csv", "size": LARGEST_WEATHER + 1})
    assert "<progress" not in card.html
    assert "at most 32 MiB" in made.faults[0].expected
    assert made.results is not None  # what stood goes on standing
    assert SeasonBox(made).answer is not None


@pytest.mark.parametrize("text", ["", "DATE", "DATE,TMAX (C),TMIN (C),PRCP (mm)\n", "a;b\n1;2", "\0\0", '"' * 9000])
def test_what_is_no_weather_is_told(text):
    made, _card = page(text=text, units="")
    assert made.faults
    assert made.results is None
    assert all("error inside the program" not in fault.got for fault in made.faults)
