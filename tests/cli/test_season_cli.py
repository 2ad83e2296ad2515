"""`rigcalc season`: what is printed, the JSON with units, exit codes, and every fault at once by its option."""

import json

import pytest

PLAN = ("--start", "1 Oct", "--by", "15 Nov")


def test_it_says_whether_and_shows_the_day(run):
    code, out, _err = run("season", "articulated", *PLAN)
    assert code == 0
    for part in ("Yes: by 15 Nov", "at work, full width", "█", "What should I change?", "price of the tractor"):
        assert part in out


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (["articulated", *PLAN], 0),
        (["front_wheel_assist", "--by", "24 Oct"], 1),
        (["articulated", "--area", "1300 acre", *PLAN], 3),
        (["two_track", *PLAN], 1),
    ],
)
def test_exit_codes(run, words, code):
    assert run("season", *words)[0] == code


def test_json_has_units_and_every_part(run, tmp_path):
    plan = tmp_path / "plan.toml"
    plan.write_text('area = "900 acre"\n[money]\ntractor_price = 400000\ntool_price = 80000\nfuel_price = "3.50 per gal"\n')
    code, out, _err = run("season", "articulated", "two_wheel_drive", "--plan", plan, *PLAN, "--fit", "60 percent", "--json")
    data = json.loads(out)
    assert code == 0
    assert data["area"] == {"value": pytest.approx(900 * 0.404687, rel=1e-5), "unit": "ha"}
    assert len(data["rigs"]) == 2
    day = data["rigs"][0]
    assert sum(part["value"] for part in day["parts"].values()) == pytest.approx(day["clock_hours"]["value"])
    assert day["money"]["per_area"]["unit"] == "1/ha"
    assert data["days"]["there"]["0.8"]["unit"] == "day"
    assert len(data["done_by_day"]) == 46
    assert data["by"] == "15 Nov"
    assert {change["change"] for change in data["changes"]} >= {"hour", "fewer", "second_rig"}


def test_json_of_a_rig_that_stands_is_still_json(run):
    code, out, _err = run("season", "two_wheel_drive", "--depth", "30 in", *PLAN, "--json")
    assert code == 1
    assert "NaN" not in out
    assert json.loads(out)["rigs"][0]["limit"]


def test_every_fault_at_once_by_the_option(run):
    code, out, err = run(
        "season", "articulated", "--area", "lots", "--by", "29 Feb", "--leave", "25:00", "--seed", "-1", "--depth", "12"
    )
    assert code == 2
    assert out == ""
    for name in ("--area", "--by", "--leave", "work.depth"):
        assert name in err


def test_a_plan_file_that_is_none(run, tmp_path):
    code, _out, err = run("season", "articulated", "--plan", tmp_path / "none.toml")
    assert code == 2
    assert "can be read" in err


def test_an_option_beats_the_plan_file(run, tmp_path):
    plan = tmp_path / "plan.toml"
    plan.write_text('by = "24 Oct"\n[days]\ncounted = [3, 4, 5, 6, 7]\n')
    data = json.loads(run("season", "articulated", "--plan", plan, *PLAN, "--fit", "60 percent", "--json")[1])
    assert data["by"] == "15 Nov"
    assert data["days"]["kind"] == "own_share"


def test_a_section_that_is_none(run, tmp_path):
    plan = tmp_path / "plan.toml"
    plan.write_text('day = "long"\n')
    code, _out, err = run("season", "articulated", "--plan", plan, "--leave", "6:30")
    assert code == 2
    assert "[day]" in err


def weather_file(folder):
    """Eight dry mild years of one station in tenths, without a word on their units."""
    days = [f"{year}-{month:02d}-{day:02d}" for year in range(2001, 2009) for month in (8, 9, 10, 11) for day in range(1, 31)]
    days += [f"{year}-{month}-31" for year in range(2001, 2009) for month in ("08", "10")]
    path = folder / "station.csv"
    path.write_text("\n".join(["DATE,TMAX,TMIN,PRCP,LATITUDE", *(f"{day},210,90,0,46.9" for day in days)]))
    return path


def test_weather_is_asked_for_its_units_and_used(run, tmp_path):
    path = weather_file(tmp_path)
    code, _out, err = run("season", "articulated", *PLAN, "--weather", path)
    assert code == 2
    assert "--weather-units tenths" in err
    code, out, _err = run("season", "articulated", *PLAN, "--weather", path, "--weather-units", "tenths", "--json")
    data = json.loads(out)
    assert code == 3
    assert data["days"]["kind"] == "weather"
    assert len(data["chance_by_year"]) == len(data["days"]["years"]) == 8
    assert data["days"]["worked_out"]["fit_shares"]["middle"] == {"value": 1.0, "unit": "1"}
    assert data["days"]["worked_out"]["begins"]["value"] == 0.5


def test_a_plan_names_its_weather_from_where_it_stands(run, tmp_path):
    weather_file(tmp_path)
    plan = tmp_path / "plan.toml"
    plan.write_text('[days]\nweather = "station.csv"\nweather_units = "tenths"\n')
    assert json.loads(run("season", "articulated", "--plan", plan, *PLAN, "--json")[1])["days"]["kind"] == "weather"
    own = json.loads(run("season", "articulated", "--plan", plan, *PLAN, "--fit", "50 percent", "--json")[1])
    assert own["days"]["kind"] == "own_share"
    assert "at once" in run("season", "articulated", *PLAN, "--fit", "50 percent", "--weather", "x.csv")[2]


def test_another_file_brings_its_own_units_and_place(run, tmp_path):
    path = weather_file(tmp_path)
    plan = tmp_path / "plan.toml"
    plan.write_text('[days]\nweather = "other.csv"\nweather_units = "us"\nlatitude = -33\nwater_left = "90 percent"\n')
    options = ("--plan", plan, *PLAN, "--weather", path)
    assert "--weather-units tenths" in run("season", "articulated", *options)[2]
    found = json.loads(run("season", "articulated", *options, "--weather-units", "tenths", "--json")[1])["days"]
    assert found["worked_out"]["begins"]["value"] == 0.9
    path.write_text(path.read_text().replace(",46.9", ""))
    assert "the latitude, which the file doesn't say" in run("season", "articulated", *options, "--weather-units", "tenths")[2]


def test_what_to_type_for_a_weather_file_can_be_typed(run, tmp_path):
    path = weather_file(tmp_path)
    path.write_text(path.read_text().replace(",210,90,", ",5,4,"))
    err = run("season", "articulated", *PLAN, "--weather", path, "--weather-units", "tenths")[2]
    assert "Type --weather-units metric" in err
    path.write_text("DATE,TMAX\n")
    err = run("season", "articulated", *PLAN, "--weather", path)[2]
    assert "Type DATE,TMAX,TMIN,PRCP and a line for each day" in err


def test_the_sheet_takes_a_plan(run, tmp_path):
    plan, sheet = tmp_path / "plan.toml", tmp_path / "sheet.html"
    plan.write_text('start = "1 Oct"\nby = "15 Nov"\n')
    code, _out, _err = run("sheet", "articulated", "--plan", plan, "--out", sheet)
    assert code in (0, 3)
    assert "Yes: by 15 Nov it is done in 8 of 10 autumns" in sheet.read_text()
    plan.write_text('by = "never"\n')
    code, _out, err = run("sheet", "articulated", "--plan", plan, "--out", tmp_path / "other.html")
    assert code == 2
    assert "never" in err
    assert not (tmp_path / "other.html").exists()


def test_who_drives_and_who_brings_the_fuel(run, tmp_path):
    plan = tmp_path / "plan.toml"
    plan.write_text('[day]\noperators = 2\nfuel_helper = true\nleave = "6:00"\nhome = "2:00"\n')
    typed = json.loads(run("season", "articulated", "--plan", plan, *PLAN, "--json")[1])
    options = ("--operators", "2", "--fuel-helper", "--leave", "6:00", "--home", "2:00")
    assert json.loads(run("season", "articulated", *options, *PLAN, "--json")[1]) == typed
    day = typed["rigs"][0]
    assert day["clock_hours"] == {"value": 20, "unit": "h/day"}
    assert day["operators"] == {"value": 2, "unit": "1"}
    assert day["hours_each"]["value"] == pytest.approx(10.125)
    assert day["helper_hours"]["value"] > 0.5
    assert {change["change"] for change in typed["changes"]} & {"second_driver", "fuel_helper"} == {"second_driver"}
    code, _out, err = run("season", "articulated", "--operators", "9", "--home", "2:00")
    assert code == 2
    assert "--operators" in err
    assert "--home" in err
