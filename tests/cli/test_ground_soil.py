"""`rigcalc ground --soil`: the samples in the answer, the map in a file, and what is wrong with the options about it."""

import json
from pathlib import Path
from xml.etree import ElementTree

REAL = Path(__file__).parents[1] / "soil" / "limesoda_g104.csv"


def test_the_command_draws_the_map_and_says_what_is_wrong(run, tmp_path):
    picture = tmp_path / "soil.svg"
    code, out, err = run(
        "ground", "front_wheel_assist", "--soil", str(REAL), "--map", str(picture), "--map-of", "draft", width=200
    )
    assert (code, err) == (3, "")
    assert "The field by its samples" in out
    assert ElementTree.parse(picture).getroot().tag.endswith("svg")
    code, out, err = run("ground", "front_wheel_assist", "--map", str(picture), "--json")
    assert code == 2
    assert "isn't there yet" in err
    assert "--soil samples.csv" in err
    code, out, err = run("ground", "front_wheel_assist", "--soil", str(REAL), "--json")
    data = json.loads(out)["soil"]
    assert (data["samples"], len(data["textures"]), data["states"]) == (104, 104, None)
    bare = tmp_path / "bare.csv"
    bare.write_text("clay (%)\n20\n", encoding="utf-8")
    code, out, err = run("ground", "front_wheel_assist", "--soil", str(bare), "--map", str(tmp_path / "new.svg"))
    assert code == 2
    assert "without positions" in err
    assert not (tmp_path / "new.svg").exists()
