"""A field by its soil samples: real ones, and made ones whose answers are known; what can't be used, all at once."""

import csv
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
from known_rigs import known_rig

from rigcalc.core.errors import InputError
from rigcalc.core.tables import table
from rigcalc.equations.soil_water import drained_water
from rigcalc.models import replaced
from rigcalc.models.ground import ground
from rigcalc.models.ground.soil_map import KINDS, map_kind, soil_map
from rigcalc.models.ground.soil_points import MOST_POINTS, soil_points
from rigcalc.models.machine.field import in_field
from rigcalc.models.machine.judgement import Judgement
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.machine.wetness import Wet, water_limits, wetness
from rigcalc.views.ground.soil_map import soil_map_svg
from rigcalc.words import in_words
from rigcalc.words.ground.soil_map import map_said

REAL = Path(__file__).parents[2] / "soil" / "limesoda_g104.csv"
GOOD = {"x (m)": [0, 100], "y (m)": [0, 50], "clay (%)": [12, 45], "sand (%)": [60, 20], "organic matter (%)": [2, 3]}


def with_(**columns):
    """Give the good samples with columns changed or taken away: by their first word."""
    kept = {name: cells for name, cells in GOOD.items() if name.split(" ")[0] not in columns}
    return kept | {name: cells for pair in columns.values() if pair for name, cells in [pair]}


def test_a_real_field_goes_through_texture_wetness_draft_and_limits():
    with REAL.open(encoding="utf-8") as file:
        rows = [{name: float(cell) for name, cell in row.items()} for row in csv.DictReader(file)]
    found = soil_map(known_rig(), REAL)
    clay = np.array([row["clay (%)"] for row in rows])
    carbon = np.array([row["organic carbon (%)"] for row in rows])
    assert (found.count, found.outside, found.left_out, found.matter, found.sand) == (104, 0, 0, "carbon", "rig")
    # Terzaghi and others (1988), with organic matter by the usual factor, worked out here
    assert found.limits.upper[1] == pytest.approx((7.5 + 1.91 * 1.724 * carbon + 0.34 * clay) / 100)
    assert np.ptp(found.east) == pytest.approx(1243.4, abs=0.1)  # the extent that the collection's coordinates have
    assert np.ptp(found.north) == pytest.approx(1286.5, abs=0.1)
    # texture by clay alone is in doubt over borders, never past them: no clay loam has over 40 % of it, no loam over 27 %
    assert all(27 <= c < 40 for c, name in zip(clay, found.textures, strict=True) if name.endswith("clay loam"))
    assert {each.texture for each in found.classes} == set(found.textures)
    assert sum(each.count for each in found.classes) == 104
    assert (found.drafts[0] <= found.drafts[1]).all()
    assert (found.drafts[1] <= found.drafts[2]).all()
    fine = np.array([table("soil_groups")[name]["group"] == "fine" for name in found.textures])
    assert found.drafts[1][fine].min() > found.drafts[1][~fine].max()
    assert 0.0 < found.values("used").min() < found.values("used").max()


@pytest.mark.parametrize("kind", KINDS)
def test_a_map_of_a_real_field_holds_every_sample(kind):
    found = soil_map(known_rig(), REAL)
    text = soil_map_svg(found, map_kind(found, kind), "si", '"><script>')
    root = ElementTree.fromstring(text)
    legend = [each for each in root.iter() if each.get("class", "").startswith("class")]
    marks = len(legend) - len({each.get("class") for each in legend})
    assert marks == 104 or kind == "room"  # the map of the doubt shows classes that no sample is in
    assert "<script>" not in text
    assert "104" in root.findtext("{http://www.w3.org/2000/svg}desc") or kind == "texture"


def test_a_sample_has_the_limits_and_the_draft_that_a_rig_has_on_such_ground():
    found = soil_map(known_rig(), GOOD)
    for at, (clay, sand, organic) in enumerate(((12, 60, 2), (45, 20, 3))):
        there = replaced(known_rig(), {
            "ground.texture": None, "ground.clay": f"{clay} percent", "ground.sand": f"{sand} percent",
            "ground.organic_matter": f"{organic} percent", "ground.wetness": "moist",
        })  # fmt: skip
        limits = water_limits(there)
        for name in ("wilting", "drained", "dry", "optimum", "density"):
            assert getattr(found.limits, name)[at] == pytest.approx(getattr(limits, name), rel=1e-12)
        assert [end[at] for end in found.limits.upper] == pytest.approx(list(limits.upper), rel=1e-12)
        assert found.drafts[1][at] == pytest.approx(float(solve(in_field(there)).draft), rel=1e-12)
        felt = soil_map(replaced(known_rig(), {"ground.wetness": "moist"}), GOOD)
        assert felt.states[at] == wetness(there).state.value
    assert found.textures.tolist() == ["sandy loam", "clay"]
    assert found.states is None


def test_water_of_each_sample_decides_and_a_handful_for_all_never_says_no():
    wet = with_(by=("water by mass (%)", [40, 40]))
    found = soil_map(known_rig(), wet)
    assert (found.states.tolist(), found.judgement) == (["wet", "wet"], Judgement.DONT)
    half = soil_map(known_rig(), with_(by=("water by mass (%)", [40, 12])))
    assert (half.share_of(Wet.WET), half.judgement) == (0.5, Judgement.DONT)
    third = {name: [*cells, cells[0]] for name, cells in GOOD.items()} | {"water by mass (%)": [8, 40, 8]}
    assert soil_map(known_rig(), third).judgement is Judgement.TRY
    felt = soil_map(replaced(known_rig(), {"ground.wetness": "wet"}), GOOD)
    assert (felt.share_of(Wet.WET), felt.judgement) == (1.0, Judgement.TRY)
    volume = soil_map(known_rig(), with_(by=("water by volume (%)", [12, 52])))
    assert volume.water[1] == pytest.approx(np.array([0.12, 0.52]) / volume.limits.density)
    assert (np.diff(volume.water, axis=0) > 0).all()  # low, likely, high
    assert soil_map(known_rig(), with_(by=("water by mass (%)", [8, 8]))).judgement is None


def test_the_room_is_that_at_field_capacity_where_nobody_read_water():
    found = soil_map(known_rig(), GOOD)
    held = drained_water.bare(np.array([0.6, 0.2]), np.array([0.12, 0.45]), np.array([2.0, 3.0])) / found.limits.density
    assert found.values("room") == pytest.approx(found.limits.upper[1] - held)
    dry = soil_map(known_rig(), with_(by=("water by mass (%)", [8, 9])))
    assert dry.values("room") == pytest.approx(dry.limits.upper[1] - [0.08, 0.09])


def test_words_say_which_side_of_the_limit_a_soil_drains_to():
    """Sand twice and clay once: sand drains to less than the wettest that it tills."""
    third = {name: [*cells, cells[0]] for name, cells in GOOD.items()}
    found = ground(known_rig(), soil=third)
    assert found.soil.values("room")[0] > 0 > found.soil.values("room")[1]
    assert "2 of 3 samples come under their limit by draining alone" in " ".join(in_words(found, "si").soil_lines)
    assert map_said(found.soil, "room", "si").endswith("2.5 points over it to 2.5 points under it.")


def test_without_sand_every_class_that_the_clay_allows_stays_possible():
    sandless = with_(sand=None)
    found = soil_map(replaced(known_rig(), {"ground.texture": "sandy loam"}), sandless)
    # the sand beside the clay as in the middle of the rig's class: 65 of 90
    assert found.textures.tolist() == ["sandy loam", "clay"]
    assert found.doubtful.all()
    silty = soil_map(replaced(known_rig(), {"ground.texture": "silt loam"}), sandless)
    assert silty.textures.tolist() == ["silt loam", "silty clay"]
    assert silty.drafts[0][0] <= found.drafts[1][0] <= silty.drafts[2][0]
    by_silt = soil_map(known_rig(), with_(sand=("silt (%)", [28, 35])))
    assert not by_silt.doubtful.any()
    assert by_silt.textures.tolist() == soil_map(known_rig(), GOOD).textures.tolist()


def test_a_soil_that_no_regression_is_for_has_no_limits():
    heavy = with_(clay=("clay (%)", [12, 70]), organic=("organic matter (%)", [9, 3]), by=("water by mass (%)", [20, 20]))
    found = soil_map(known_rig(), heavy)
    assert found.outside == 2
    assert found.states.tolist() == ["", ""]
    assert np.isnan(found.values("wettest")).all()
    assert "not known" in soil_map_svg(found, "wettest", "us", "a")
    words = in_words(ground(known_rig(), soil=heavy), "us")
    assert any("2 samples have over 60 % clay or 8 % organic matter" in line for line in words.soil_lines)


def test_units_are_read_and_never_guessed():
    grams = with_(clay=("Clay [g/kg]", [120, 450]), organic=("SOC (g/kg)", [11.6, 17.4]))
    found = soil_points(grams)
    assert found.clay == pytest.approx([0.12, 0.45])
    assert found.organic == pytest.approx([0.0116 * 1.724, 0.0174 * 1.724])
    feet = soil_map(known_rig(), with_(x=("easting (ft)", [0, 1000])))
    assert np.ptp(feet.east) == pytest.approx(304.8)
    degrees = soil_map(known_rig(), with_(x=("longitude", [10.0, 10.01]), y=("lat (deg)", [50.0, 50.0])))
    # a hundredth of a degree of longitude at 50 degrees north is 716.95 m on WGS 84 (pyproj, geodesic: 716.97)
    assert np.ptp(degrees.east) == pytest.approx(716.97, abs=0.1)


@pytest.mark.parametrize(
    ("samples", "said"),
    [
        (with_(clay=("clay", [12, 45])), ["soil: clay", "no unit"]),
        (with_(clay=("clay (deg)", [12, 45])), ["soil: clay", "deg", "a share"]),
        (with_(clay=("clay (%)", [120, 450])), ["line 1: clay", "line 2: clay", "450"]),
        (with_(clay=("clay (%)", [50, 45])), ["line 1", "110 percent of clay, sand and silt together"]),
        (with_(clay=None), ["a column of clay"]),
        (with_(y=None), ["x alone", "y beside it"]),
        (with_(more=("SOM (%)", [1, 1])), ["SOM", "one column of organic matter"]),
        (with_(more=("organic carbon (%)", [1, 1])), ["organic carbon and organic matter", "one of the two"]),
        (with_(more=("silt (%)", [2, 35])), ["line 1", "74 percent", "100 percent together"]),
        (with_(clay=("clay (%)", [None, ""])), ["no sample without an empty cell"]),
        (with_(clay=("clay (%)", ["a", True]), sand=("sand (m)", [1, 2])), ["line 1: clay", "line 2: clay", "soil: sand"]),
        (with_(x=("x (m)", [0, 60_000])), ["over 50 km apart"]),
        (with_(x=("lon", [10, 50]), y=("lat", [50, 10])), ["over 50 km apart", "swapped"]),
        ({"clay (%)": [1, 2], "sand (%)": [3]}, ["columns of 1 to 2 cells"]),
        (7, ["the path of a CSV file"]),
        ({}, ["the path of a CSV file"]),
        ({"clay (%)": [1] * (MOST_POINTS + 1)}, ["20,001 samples"]),
        ("nowhere.csv", ["a file that exists"]),
    ],
)  # fmt: skip
def test_what_cant_be_used_is_refused_with_all_that_is_wrong(samples, said):
    with pytest.raises(InputError) as caught:
        soil_map(known_rig(), samples)
    for words in said:
        assert words in str(caught.value)


def test_a_file_may_have_decimal_commas_empty_cells_and_columns_of_others(tmp_path):
    file = tmp_path / "samples.csv"
    file.write_text(
        "Name;x (m);y (m);pH;Clay (%);Sand (%)\na;0,5;1;6,5;12,5;60\nb;10;20;;45;20\nc;20;20;7;;20\n", encoding="utf-8"
    )
    found = soil_map(known_rig(), file)
    assert (found.count, found.left_out, found.aside, found.matter) == (2, 1, ("Name", "pH"), "rig")
    file.write_text("x (m);clay (%)\n1;2;3\n", encoding="utf-8")
    with pytest.raises(InputError, match="line 2"):
        soil_map(known_rig(), file)


def test_a_part_that_the_rig_cant_pull_through_keeps_it_from_a_go():
    deep = replaced(known_rig(), {"work.depth": "36 in", "implement.rated_depth": None})
    found = soil_map(deep, GOOD)
    assert {each.texture: each.hold for each in found.classes} == {"clay": "depth", "sandy loam": "speed"}
    assert found.judgement is Judgement.TRY
    assert "in clay (1 of 2 samples)" in str(in_words(ground(deep, soil=GOOD), "us")).replace("In clay", "in clay")
    heavy = soil_map(deep, with_(clay=("clay (%)", [45, 45]), sand=("sand (%)", [20, 20])))
    assert heavy.judgement is Judgement.DONT
    assert soil_map(known_rig(), GOOD).judgement is None


def test_a_map_has_north_up_and_the_wettest_darkest():
    found = soil_map(known_rig(), with_(by=("water by mass (%)", [40, 8])))
    marks = [each for each in ElementTree.fromstring(soil_map_svg(found, "room", "si", "a")).iter() if each.get("cx")][:2]
    assert [each.get("class") for each in marks] == ["class4", "class1"], "over the limit, and well under it"
    (x, y), (to_x, to_y) = ((float(each.get("cx")), float(each.get("cy"))) for each in marks)
    assert (x < to_x, y > to_y) == (True, True), "the second sample lies east and north of the first"
    dry = soil_map_svg(soil_map(known_rig(), GOOD), "wettest", "si", "a")
    marks = [each for each in ElementTree.fromstring(dry).iter() if each.get("cx")][:2]
    assert [float(each.get("r")) for each in marks] == sorted(float(each.get("r")) for each in marks), "clay tills wetter"
