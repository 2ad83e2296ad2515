"""`rigcalc compare`: rigs and variations, exit codes, a broken rig among good ones, JSON, CSV and XLSX."""

import csv
import io
import json
import re
import zipfile
from xml.etree import ElementTree

import pytest
from known_rigs import KNOWN_RIGS, known_path, known_rig, known_text

from rigcalc.models import replaced, rig_text, size
from rigcalc.models.compare.figures import FIGURES
from rigcalc.models.size.verdict import Judgement
from rigcalc.views.spreadsheet.parts import csv_bytes, xlsx_bytes

PATHS = {name: str(known_path(name)) for name in KNOWN_RIGS}
GO = {"implement.tools": 5, "work.depth": "10 in"}  # little to pull
DONT = {"tractor.rated_power": "150 hp", "tractor.maximum_power": None}


@pytest.fixture
def compared(run):
    return lambda *words, width=120: run("compare", *words, width=width)


def file_with(tmp_path, name, changes=None):
    path = tmp_path / f"{name}.toml"
    path.write_text(rig_text(replaced(known_rig(), changes or {})), encoding="utf-8")
    return path


def test_exit_code_is_that_of_the_best(compared, tmp_path):
    go, dont, dont2 = (file_with(tmp_path, name, changes) for name, changes in (("go", GO), ("dont", DONT), ("dont2", DONT)))
    trying = file_with(tmp_path, "try", next(
        changes for changes in ({"work.depth": f"{depth} in", "implement.rated_depth": None} for depth in range(10, 24))
        if size(replaced(known_rig(), changes)).verdict.judgement is Judgement.TRY
    ))  # fmt: skip
    assert compared(dont, go)[0] == 0
    assert compared(go, trying)[0] == 0
    assert compared(dont, trying)[0] == 3
    code, out, err = compared(dont, dont2)
    assert (code, err) == (1, "")
    assert out.startswith("It doesn't matter which: they are the same in every figure; each is don't")


def test_the_sentence_comes_first_then_what_differs_then_the_rest(compared, tmp_path):
    code, out, err = compared(file_with(tmp_path, "small", GO), file_with(tmp_path, "weak", DONT))
    assert (code, err) == (0, "")
    assert out.startswith("small: go, ")
    places = [out.index(head) for head in ("weak is don't", "What differs", "Verdict", "The same in all:", "Each by itself")]
    assert places == sorted(places)


@pytest.mark.parametrize("width", [40, 60, 80, 120])
def test_width_is_kept_and_no_rig_is_lost(compared, width):
    code, out, _ = compared("--vary", "tools=3,5,7,9,11,13,15,17", width=width)
    assert code == 0
    assert max(len(line) for line in out.splitlines()) <= width
    heads = re.sub(r"\s+", " ", out)
    assert all(f"{count} shanks" in heads for count in range(3, 18, 2))


def test_variations_make_every_combination(compared):
    _, out, _ = compared(PATHS["tracks"], "--vary", "tools=11,13", "--vary", "depth=12 in;14 in", "--json")
    data = json.loads(out)
    assert [rig["name"] for rig in data["rigs"]] == [
        "11 shanks, 12 in deep", "11 shanks, 14 in deep", "13 shanks, 12 in deep", "13 shanks, 14 in deep",
    ]  # fmt: skip
    assert data["rigs"][3]["rig"]["work"]["depth"] == "14 in"
    assert data["rigs"][3]["rig"]["implement"]["tools"] == 13
    assert data["different_work"] == ["depth"]
    _, out, _ = compared(PATHS["tracks"], PATHS["four_wheel_drive"], "--vary", "speed=4 mph", "--vary", "speed=5 mph", "--json")
    assert [rig["name"] for rig in json.loads(out)["rigs"]] == [
        "tracks, 4 mph", "tracks, 5 mph", "four_wheel_drive, 4 mph", "four_wheel_drive, 5 mph",
    ]  # fmt: skip


def test_json_says_what_size_says(compared):
    _, out, err = compared(PATHS["tracks"], PATHS["four_wheel_drive"], "--json", "--seed", "2", "--units", "si")
    data = json.loads(out)
    assert err == ""
    for name, rig in zip(("tracks", "four_wheel_drive"), data["rigs"], strict=True):
        answer = size(known_rig(name), seed=2)
        assert rig["name"] == name
        assert rig["figures"]["chance_works"] == {"value": answer.sure.chance_works, "unit": "1"}
        assert rig["figures"]["verdict"] == answer.verdict.judgement.value
        assert rig["figures"]["draft"]["value"] == pytest.approx(float(answer.point.bare.draft))
    assert data["left_out"] == []
    assert set(data["ahead"]) <= {"tracks", "four_wheel_drive"}


def test_one_broken_of_eight_is_named_and_the_rest_is_shown(compared, tmp_path):
    good = [file_with(tmp_path, f"rig{at}", GO | {"implement.tools": at}) for at in range(3, 10)]
    broken = tmp_path / "broken.toml"
    broken.write_text(known_text().replace('depth = "12 in"', 'depth = "12"').replace("tools = 15", "tools = 0"))
    code, out, err = compared(*good[:4], broken, *good[4:])
    assert code == 0
    assert err.startswith("broken is left out")
    assert "work.depth" in err
    assert "implement.tools" in err
    assert all(f"rig{at}" in out for at in range(3, 10))
    assert "broken" not in out
    data = json.loads(compared(*good[:4], broken, *good[4:], "--json")[1])
    assert len(data["rigs"]) == 7
    assert [each["name"] for each in data["left_out"]] == ["broken"]
    assert {fault["where"] for fault in data["left_out"][0]["faults"]} == {"work.depth", "implement.tools"}


def test_one_broken_variation_is_left_out(compared):
    code, out, err = compared(PATHS["four_wheel_drive"], "--vary", "depth=9 ft,10 in,11 in", "--vary", "tools=5")
    assert code in (0, 1, 3)
    assert "9 ft deep, 5 shanks is left out" in err
    assert "9 ft" not in out


@pytest.mark.parametrize(("words", "told"), [
    ((), "two to eight"), (("articulated",), "two to eight"), (["articulated"] * 9, "two to eight"),
    (("--vary", "tools=1,2,3,4,5,6,7,8,9"), "9 rigs"), (("--vary", "tools=1,2,3", "--vary", "depth=1 in,2 in,3 in"), "9 rigs"),
    (("--vary", "tools"), "parted by commas"), (("--vary", "tools=11,,13"), "parted by commas"),
    (("--vary", "=11,13"), "parted by commas"),
    (("--vary", "tools=many,few"), "whole number"), (("--vary", "colour=red,green"), "path of one entry"),
    (("--vary", "implement.colour=red,green"), "implement.colour"), (("--vary", "depth=12,14"), "unit"),
    (("no_such.toml", "articulated"), "exists"), (("no_such.toml", "nor_this.toml"), "nor_this"),
    (("articulated", "two_track", "--seed", "-1"), "seed"), (("articulated", "two_track", "--units", "imperial"), "us"),
    (("articulated", "two_track", "--csv", "rigs.txt"), ".csv"),
    (("articulated", "two_track", "--xlsx", "no/such/x.xlsx"), "folder"),
    (("articulated", "two_track", "--csv", "x" * 5000 + ".csv"), "name"),
    (("articulated", "two_track", "--xlsx", "."), ".xlsx"),
    (("a\x1b[31m.toml", "b\x1b[31m.toml"), "exists"), (("--vary", "tools=11,13\x1b[31m"), "whole number"),
])  # fmt: skip
def test_bad_calls_end_in_words(compared, words, told):
    code, out, err = compared(*words)
    assert code == 2, (out, err)
    assert out == ""
    assert told in err
    assert "Traceback" not in err
    assert all(line.isprintable() for line in err.split("\n"))


def test_everything_that_is_wrong_is_named_at_once(compared):
    err = compared("--vary", "tools", "--csv", "x.txt", "--seed", "-2", "articulated")[2]
    assert all(place in err for place in ("--vary", "--csv", "--seed"))
    assert "RIGS" not in err, "how many there are isn't known before --vary can be read"
    err = compared("--xlsx", "x.txt", "--seed", "-2", "articulated")[2]
    assert all(place in err for place in ("RIGS: got 1 rig;", "--xlsx", "--seed"))


def test_csv_has_units_in_its_heads_and_a_row_for_each_rig(compared, tmp_path):
    file = tmp_path / "rigs.csv"
    _, _, err = compared(PATHS["tracks"], PATHS["four_wheel_drive"], "--csv", file, "--units", "si")
    assert "Wrote" in err
    rows = list(csv.reader(io.StringIO(file.read_text(encoding="utf-8-sig"))))
    assert [len(row) for row in rows] == [len(FIGURES) + 1] * 3
    assert [row[0] for row in rows] == ["Rig", "tracks", "four_wheel_drive"]
    found = dict(zip(rows[0], rows[2], strict=True))
    answer = size(known_rig("four_wheel_drive"))
    assert float(found["Draft, kN"]) == pytest.approx(float(answer.point.bare.draft), rel=1e-9)
    assert float(found["Slip, %"]) == pytest.approx(100 * float(answer.point.bare.slip), rel=1e-9)
    assert float(found["Every limit holds in, %"]) == pytest.approx(100 * answer.sure.chance_works)
    assert {"Area worked, ha/h", "Fuel use, turns included, L/ha", "Engine power by width, kW/m", "Number of shanks"} <= set(
        rows[0]
    )
    before = file.read_bytes()
    code, _, err = compared(PATHS["tracks"], PATHS["four_wheel_drive"], "--csv", file)
    assert code == 2
    assert "--force" in err
    assert file.read_bytes() == before
    compared(PATHS["tracks"], PATHS["four_wheel_drive"], "--csv", file, "--force", "--units", "us")
    assert "Draft, lbf" in file.read_text(encoding="utf-8-sig")


def cells(content, sheet="sheet1"):
    """Read a workbook's cells: place -> (type, text)."""
    main = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
    with zipfile.ZipFile(io.BytesIO(content)) as book:
        strings = ["".join(part.itertext()) for part in ElementTree.fromstring(book.read("xl/sharedStrings.xml"))]
        tree = ElementTree.fromstring(book.read(f"xl/worksheets/{sheet}.xml"))
    assert not list(tree.iter(f"{main}f")), "no formula"
    out = {}
    for each in tree.iter(f"{main}c"):
        value = each.find(f"{main}v")
        if value is not None:
            out[each.get("r")] = strings[int(value.text)] if each.get("t") == "s" else float(value.text)
    return out


def test_xlsx_holds_numbers_as_numbers_and_the_answer(compared, tmp_path):
    file = tmp_path / "rigs.xlsx"
    _, out, _ = compared(PATHS["tracks"], PATHS["four_wheel_drive"], "--xlsx", file, "--units", "us", width=2000)
    found = cells(file.read_bytes())
    heads = {text: place.rstrip("1") for place, text in found.items() if re.fullmatch("[A-Z]+1", place)}
    assert found["A3"] == "four_wheel_drive"
    draft = float(size(known_rig("four_wheel_drive")).point.bare.draft)
    assert found[f"{heads['Draft, lbf']}3"] == pytest.approx(draft * 1000 / 4.4482216152605)
    assert isinstance(found[f"{heads['Verdict']}2"], str)
    assert cells(file.read_bytes(), "sheet2")["B2"] == out.splitlines()[0].strip()


EVIL = ["=1+1", "+1", "-1", "@SUM(A1)", '=HYPERLINK("http://x.invalid","x")', "\t=1", "\r=1", " =1"]


@pytest.mark.parametrize("text", EVIL)
def test_no_text_is_taken_for_a_formula(text):
    row = list(csv.reader(io.StringIO(csv_bytes(["Rig", "n"], [[text, -1.5]]).decode("utf-8-sig"))))[1]
    assert row[0].startswith("'")
    assert row[1] == "-1.5"
    found = cells(xlsx_bytes({"One": (["Rig", "n"], [[text, -1.5]])}))
    assert found["A2"].lstrip("\N{REPLACEMENT CHARACTER} ").startswith(text.strip())
    assert found["B2"] == -1.5


def test_a_rig_file_named_like_a_formula_stays_text(compared, tmp_path):
    one, other = file_with(tmp_path, "=cmd()"), file_with(tmp_path, "@b", GO)
    file, book = tmp_path / "out.csv", tmp_path / "out.xlsx"
    compared(one, other, "--csv", file, "--xlsx", book)
    rows = list(csv.reader(io.StringIO(file.read_text(encoding="utf-8-sig"))))
    assert [row[0] for row in rows[1:]] == ["'=cmd()", "'@b"]
    assert cells(book.read_bytes())["A2"] == "=cmd()"


def test_two_tractors_for_the_tool_and_work_of_the_first(compared):
    one, two = PATHS["four_wheel_drive"], PATHS["front_wheel_assist"]
    code, out, err = compared(one, two, "--same", "tool", "--json")
    data = json.loads(out)
    assert (code in (0, 1, 3), err, data["different_work"]) == (True, "", [])
    rigs = [side["rig"] for side in data["rigs"]]
    assert rigs[0]["implement"] == rigs[1]["implement"]
    assert rigs[0]["tractor"]["drive"] != rigs[1]["tractor"]["drive"]
    assert compared(one, two, "--same", "all")[0] == 2


def test_a_printed_page_is_written_and_other_ends_are_refused(compared, tmp_path):
    for name, start in (("rigs.pdf", b"%PDF"), ("rigs.html", b"<!doctype html>")):
        code, _, err = compared(PATHS["four_wheel_drive"], PATHS["tracks"], "--sheet", tmp_path / name)
        assert code in (0, 1, 3)
        assert "Wrote" in err
        assert (tmp_path / name).read_bytes().startswith(start)
    code, out, err = compared(PATHS["four_wheel_drive"], PATHS["tracks"], "--sheet", tmp_path / "rigs.docx")
    assert (code, out) == (2, "")
    assert ".pdf or .html" in err


@pytest.mark.parametrize("values", ["speed=9,5 km/h, 11 km/h", "speed=9,5 km/h", "implement.mass=5,500 lb, 6,100 lb"])
def test_a_comma_that_may_be_a_decimal_point_gives_no_number(run, values):
    code, out, err = run("compare", "two_wheel_drive", "--vary", values)
    assert (code, out) == (2, "")
    assert "semicolons" in err
    assert "9,5 km/h; 11 km/h" in err


def test_decimal_commas_work_between_semicolons(run):
    code, out, err = run("compare", "two_wheel_drive", "--vary", "speed=9,5 km/h; 8,5 km/h", "--units", "si", "--json")
    speeds = [rig["figures"]["speed"]["value"] for rig in json.loads(out)["rigs"]]
    assert speeds == pytest.approx([9.5, 8.5])
    assert (code, err) != (2, "")
