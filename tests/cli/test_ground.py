"""`rigcalc ground` in a terminal and as JSON: exit codes, every fault at once, and what a narrow terminal shows."""

import json

import pytest

DRY = ("--thread", "crumbles")
TEN = "; ".join(  # eight layers, all got under from 10 in, and two flags without
    ["7 in to 8 in", "7 in to 8.5 in", "7 in to 9 in", "6 in to 8 in", "6 in to 9 in"] + ["7 in to 8 in"] * 3 + ["none"] * 2
)
WORDS = {0: "Go: ", 1: "Don't: ", 3: "Try it first: "}


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        ((*DRY, "--flag", TEN), 0, "10 in gets under the layer at 8 of the 8 flags"),
        (("--thread", "rolls", "--flag", TEN), 1, "too wet at 10 in"),
        ((*DRY, "--flag", TEN, "--depth", "8 in"), 1, "8 in is too shallow"),
        ((*DRY, "--flag", ";".join(["none"] * 12)), 1, "there is no layer to lift"),
        (DRY, 3, "nobody has probed"),
        (("--flag", TEN), 3, "nobody has said how wet it is"),
        ((), 3, "nobody has"),
        (("--wetness", "frozen"), 1, "frozen at 10 in"),
        ((*DRY, "--flag", "8 in to deeper"), 3, "probe deeper"),
        ((*DRY, "--flag", "7 in to 8 in"), 3, "too few"),
        ((*DRY, "--water-by-mass", "33 percent"), 3, "disagree"),
        (("--water-by-volume", "50 percent", "--sampled-at", "10 in"), 1, "too wet"),
    ],
)
def test_exit_codes_and_first_sentences(run, words, code, said):
    got, out, err = run("ground", "front_wheel_assist", *words, width=300)
    assert (got, err) == (code, "")
    first = out.split("\n\n")[0].replace("\n", " ")
    assert first.startswith(WORDS[code])
    assert said in first


CART = "cart: 18 t on 2 tyres of 42 in by 78 in"
HEAVY = "cart: 30 t on 2 tyres of 600 mm by 1.5 m"
COVER = ("--cover", "90 percent", "--pass", "overwinter_weathering", "--pass", "this", "--keep")


@pytest.mark.parametrize(
    ("words", "code", "said", "first"),
    [
        (("--axle", CART), 3, "cart brings more than 7.25 psi down to 19.7 in", True),
        (
            ("--water-by-mass", "20 percent", "--axle", HEAVY),
            1,
            "cart presses the ground",
            True,
        ),
        ((*COVER, "30 percent"), 0, "The 2 passes leave 38 % to 65 % of the ground covered, 30 % to keep.", False),
        ((*COVER, "50 percent"), 3, "the 2 passes may leave less cover than the 50 % to keep (38 % to 65 %)", True),
        ((*COVER, "80 percent"), 1, "the 2 passes would leave 38 % to 65 % of the ground covered, less than the 80 %", True),
        (("--cover", "90 percent"), 0, "10 in gets under", True),
    ],
)
def test_what_is_left_and_what_is_put_back_can_say_no(run, words, code, said, first):
    rig = "articulated" if "--water-by-mass" in words else "front_wheel_assist"
    got, out, err = run("ground", rig, *DRY, "--flag", TEN, *words, width=400)
    assert (got, err) == (code, "")
    sentence = out.split("\n\n")[0].replace("\n", " ")
    assert sentence.startswith(WORDS[code])
    assert said in sentence
    assert (sentence.split(": ", 1)[1].startswith(said)) == first


def test_putting_it_back_and_residue_have_their_parts(run):
    _, out, _ = run("ground", "articulated", "--cover", "90 percent", "--axle", HEAVY, "--units", "si", width=200)
    for part in ("Putting it back", "front at rest", "rear pulling", "at 50 cm", "The ground bears", "broken", "over it",
                 "Residue",
                 "Chisel plow twisted point: leaves 50 % to 70 % of it, so 45 % to 63 %", "over 150 cm"):  # fmt: skip
        assert part in out
    code, out, _ = run("ground", "articulated", "--cover", "90 percent", "--keep", "80 percent", "--axle", HEAVY, "--json")
    data = json.loads(out)
    assert (code, data["residue"]["verdict"], data["residue"]["lost_at"]) == (1, "dont", "chisel_plow_twisted_point")
    assert data["residue"]["after"]["high"] == {"value": pytest.approx(0.63), "unit": "1"}
    back = data["putting_back"]
    assert [axle["name"] for axle in back["axles"]] == ["front", "rear", "cart"]
    assert back["axles"][2]["mass"] == {"value": pytest.approx(30_000), "unit": "kg"}
    assert len(back["axles"][2]["stress"]["high"]["values"]) == len(back["depth"]["values"])
    grid = back["section"]["stress"]["values"]
    assert (len(grid), len(grid[0])) == (len(back["section"]["down"]["values"]), len(back["section"]["across"]["values"]))
    assert (back["section"]["axle"], back["axles"][2]["keeps_50_50"], back["axles"][0]["over_10_t"]) == ("cart", False, True)


def test_without_a_rig_it_says_whose_answer_it_is(run):
    _, _, err = run("ground", *DRY)
    assert "demo rig" in err


def test_parts_and_metric(run):
    _, out, _ = run("ground", "front_wheel_assist", *DRY, "--flag", TEN, "--units", "si", width=200)
    for part in ("The layer", "Flags", "flag 10", "The tool", "Cautions", "25.4 cm", "8 of 10 flags pass 2.07 MPa"):
        assert part in out
    assert " psi" not in out
    assert " in deep" not in out


def test_a_narrow_terminal_cuts_no_word_off(run):
    _, out, _ = run("ground", "front_wheel_assist", *DRY, "--flag", TEN, width=40)
    assert all(len(line) <= 40 for line in out.splitlines())
    assert "…" not in out


def test_json(run, tmp_path):
    log = tmp_path / "log.csv"
    log.write_text(
        "site;depth (cm);reading (MPa)\n" + "".join(f"<b>;{d};{2.9 if 20 < d < 30 else 0.8}\n" for d in range(2, 60, 2))
    )
    code, out, _ = run("ground", "front_wheel_assist", "--log", log, "--flag", "none", "--json")
    data = json.loads(out)
    assert (code, data["depth"]["plan"]) == (1, "shallow")
    assert data["layers"]["names"] == ["flag 1", "<b>"]
    assert data["layers"]["found"] == [False, True]
    assert 20 < data["layers"]["top"]["values"][1] < 23
    assert data["layers"]["top"]["values"][0] is None
    assert data["depth"]["need"]["low"]["unit"] == "cm"
    assert len(data["tool"]["depth"]["values"]) == len(data["tool"]["draft"]["values"])
    assert data["wetness"] is None
    code, out, _ = run("ground", "front_wheel_assist", "--thread", "rolls", "--json")
    data = json.loads(out)
    assert (code, data["verdict"], data["wetness"]["state"], data["depth"]) == (1, "dont", "wet", None)
    assert data["word"] == "Don't"


def test_size_in_json_has_wetness_where_it_is_said_and_only_there(run, tmp_path):
    code, out, _ = run("size", "front_wheel_assist", "--json")
    assert (code, "wetness" in json.loads(out)) == (0, False)
    _, text, _ = run("new")
    wet = tmp_path / "wet.toml"
    wet.write_text(text.replace("[ground]", '[ground]\nthread_test = "rolls"'))
    code, out, _ = run("size", wet, "--json")
    data = json.loads(out)
    assert (code, data["wetness"]["state"], data["verdict"]) == (1, "wet", "dont")


def test_every_fault_at_once(run):
    code, out, err = run("ground", "front_wheel_assist", "--thread", "maybe", "--flag", "8 in", "--share", "0 percent",
                         "--limit", "300", "--log", "nowhere.csv", "--depth", "10",
                         "--axle", "cart", "--cover", "7", "--pass", "disk", "--residue", "straw", "--keep", "2")  # fmt: skip
    assert (code, out) == (2, "")
    for where in ("--share", "work.depth", "limit", "flag 1", "log", "axle 1", "cover", "pass 1", "residue", "keep"):
        assert where in err


@pytest.mark.parametrize(
    "word",
    [
        "--thread",
        "--wetness",
        "--water-by-mass",
        "--flag",
        "--log",
        "--share",
        "--limit",
        "--axle",
        "--cover",
        "--pass",
        "--residue",
        "--keep",
        "--field",
        "--headland",
        "--traffic",
        "--slope",
        "--after",
        "--after-log",
        "--see",
        "--scatter",
        "--pairs",
    ],
)
@pytest.mark.parametrize("text", ["", "\x1b[31m", "-1", "1e999 percent", "𝟙𝟚", "a" * 5000, "8 in to 8 in; none to none"])
def test_odd_words_are_refused_without_a_traceback(run, word, text):
    code, _, err = run("ground", "front_wheel_assist", word, text)
    assert code == 2
    assert "Traceback" not in err
    assert "\x1b" not in err


NOTHING = "; ".join(["none"] * 10)


@pytest.mark.parametrize(
    ("after", "code", "said"),
    [
        (NOTHING, 0, "It worked: no layer"),
        (TEN, 1, "It didn't work: a layer"),
        ("none; none", 3, "Not sure: no layer"),
    ],
)
def test_did_it_work_in_the_terminal_and_in_json(run, after, code, said):
    asked = ("ground", "front_wheel_assist", "--flag", TEN, "--after", after, "--see", "5 percent", "--pairs", "6")
    got, out, err = run(*asked, width=200)
    assert (got, err) == (code, "")
    assert out.startswith(said)
    assert "Before: a layer at 8 of 10 flags" in out
    assert "6 pairs are too few" in out
    got, out, _ = run(*asked, "--json")
    data = json.loads(out)
    assert (got, data["verdict"]) == (code, data["worked"]["verdict"])
    assert data["worked"]["before"] == {"with_layer": 8, "flags": 10, "hardest": None}
    assert data["strip_trial"]["needed"] == {"low": 10, "high": 48}
    assert data["strip_trial"]["enough"] is False


def test_zones_show_in_the_terminal_and_in_json(run):
    asked = (
        "ground",
        "front_wheel_assist",
        "--field",
        "2600 ft by 1300 ft",
        "--traffic",
        "combine: 30 ft apart, 2 tyres of 30 in",
    )
    _, out, _ = run(*asked)
    assert [line.split()[0] for line in out.splitlines() if " gal" in line and "acre" in line] == ["headland", "rest", "whole"]
    _, out, _ = run(*asked, "--json")
    zones = json.loads(out)["zones"]
    assert [zone["name"] for zone in zones["each"]] == ["headland", "rest"]
    assert zones["fuel"]["value"] > 0
    assert zones["each"][0]["draft_rise"]["likely"] > zones["each"][1]["draft_rise"]["likely"] > 1
    assert set(json.loads(out)["draft_voices"]) >= {"table", "row", "wedge", "apart"}


def test_weather_shows_in_the_terminal_and_in_json(run, tmp_path):
    """A soaked day in October with nine years before it; no LATITUDE, no units in the file."""
    lines = ["DATE,TMAX,TMIN,PRCP"]
    for year in range(2001, 2011):
        days = [(9, day) for day in range(1, 31)] + [(10, day) for day in range(1, 32)] + [(11, day) for day in range(1, 31)]
        days += [(12, day) for day in range(1, 15)]
        for month, day in days if year < 2010 else days[:44]:
            lines.append(f"{year}-{month:02d}-{day:02d},20,10,{12 if (year, month, day) == (2010, 10, 14) else 0}")
    path = tmp_path / "station.csv"
    path.write_text("\n".join(lines))
    asked = ("ground", "front_wheel_assist", "--texture", "sandy loam", "--weather", path)
    code, out, err = run(*asked, width=300)
    assert (code, out) == (2, "")
    assert "--weather-units tenths" in err
    asked += ("--weather-units", "metric", "--latitude", "46.9 N")
    code, out, err = run(*asked, width=400)
    assert (code, err) == (1, "")
    assert out.startswith("Don't: too wet at 10 in on 14 Oct 2010, worked out from weather and not read: 0.47 in of rain fell")
    assert "Fit again by past years in 1 day, about 15 Oct" in out
    assert "By the weather" in out
    code, out, _ = run(*asked, "--json")
    weather = json.loads(out)["weather"]
    assert (code, weather["worked_out"], weather["verdict"], weather["ground"]["state"]) == (1, True, "dont", "wet")
    assert weather["fit_in"]["middle"] == {"value": 1, "unit": "day"}
    assert weather["fit_in"]["years"] == list(range(2001, 2010))
    assert json.loads(out)["wetness"] is None
    code, out, _ = run(*asked, "--day", "2010-10-13", *DRY, "--flag", TEN, width=400)
    assert code == 0
    assert "What somebody read of the ground counts" in out
    assert json.loads(run("ground", "--json")[1])["weather"] is None
