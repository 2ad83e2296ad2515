"""Daily weather on the page about the ground: picked, read by its units, a clod before it, faults at boxes, left out again."""

import pytest
from made_station import station
from picking import Browser

from rigcalc import ground
from rigcalc.models import demo_rig
from rigcalc.models.machine.judgement import Judgement
from rigcalc.views.ground.fields import OF_WEATHER, OWN, UNITS
from rigcalc.widgets import GroundApp, GroundModel, SoilAnswer, SoilWeather

STATION = station()
DAY = f"{OWN}day"


def page(text=STATION, units="tenths", day="2010-10-20"):
    made = GroundModel()
    made.start_from("articulated")
    card = SoilWeather(made)
    Browser(card).pick("station.csv", text.encode() if isinstance(text, str) else text)
    made.edit({UNITS: units, DAY: day})
    return made, card


def test_the_page_says_what_the_question_says_of_the_same_file(tmp_path):
    made, card = page()
    (tmp_path / "station.csv").write_text(STATION)
    asked = ground(demo_rig("articulated"), weather=tmp_path / "station.csv", weather_units="tenths", day="2010-10-20")
    found = made.results.answer
    assert made.faults == ()
    assert found.weather == asked.weather
    assert found.judgement is asked.judgement is not Judgement.GO  # nobody has looked
    assert "4,018 days, 2000-01-01 to 2010-12-31, latitude 46.9" in card.html
    assert "worked out from weather and not read" in SoilAnswer(made).html
    assert all(line.split(";")[0].replace("'", "&#39;") in card.html for line in made.results.weather)


def test_a_clod_counts_before_the_weather():
    made, _card = page()
    wet = made.results.answer.weather.wet.state
    made.edit({"ground.thread_test": "rolls"})
    assert made.results.answer.weather.wet.state is wet
    assert made.results.answer.judgement is Judgement.DONT
    assert "worked out from weather" not in made.results.said.headline
    assert any("What somebody read of the ground counts" in line for line in made.results.weather)


def test_units_are_asked_for_at_their_box_and_no_terminal_is_named():
    made, card = page(units="")
    (fault,) = made.faults
    assert (fault.where, made.results) == (UNITS, None)
    assert "not read yet" in card.html
    bare, _ = page(text=station(latitude=False))
    assert [each.where for each in bare.faults] == [f"{OWN}latitude"]
    odd, _ = page(day="2010-04-31")
    assert [each.where for each in odd.faults] == [DAY]
    odd.edit({f"{OWN}latitude": "99", f"{OWN}water_left": "300 percent", "work.depth": "9 parsec"})
    assert {each.where for each in odd.faults} == {DAY, f"{OWN}latitude", f"{OWN}water_left", "work.depth"}, "all at once"
    for each in (*made.faults, *bare.faults, *odd.faults):
        assert "--" not in f"{each.got}{each.expected}{each.type_this}"
        assert " in [" not in each.type_this
    bare.edit({f"{OWN}latitude": "46.9 N"})
    assert bare.faults == ()


def test_every_box_of_the_file_does_something_and_is_hidden_without_one():
    before = page()[0].results.answer.weather
    for name, text in ((f"{OWN}water_left", "100 percent"), (f"{OWN}latitude", "20"), (DAY, "2009-05-20")):
        other, _ = page()
        other.edit({name: text})
        assert other.faults == ()
        assert other.results.answer.weather != before, name
        assert not other.hides(name)
    without = GroundModel()
    assert all(without.hides(path) for path in OF_WEATHER)
    without.edit({UNITS: "tenths", DAY: "nonsense"})  # as a link may bring it, without its file
    assert without.faults == ()


def test_it_is_the_farms_and_no_other_page_carries_it():
    made, card = page()
    assert not any(path.startswith(OWN) for path in made.to_carry())
    assert not made.fits_a_link()
    made.start_from_demo("two_track")
    assert made.results.answer.weather.day.isoformat() == "2010-10-20"
    card.act("leave")
    assert made.results.answer.weather is None
    assert made.inputs[DAY] == ""
    assert made.fits_a_link()


@pytest.mark.parametrize("text", ["", "DATE", "a;b\n1;2", "\0\0", b"\xff\xfe\x00", STATION.replace("2003-03-04", "2003-02-29")])
def test_what_is_no_weather_is_told_with_its_line(text):
    made, _card = page(text=text, day="")
    assert made.results is None
    assert all("error inside the program" not in fault.got and "days." not in fault.where for fault in made.faults)
    if "2003-02-29" in str(text):
        assert "weather file, line 1160" in GroundApp(made).faults.html
