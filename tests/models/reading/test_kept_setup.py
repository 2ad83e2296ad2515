"""What a reading keeps of tyres, gangs and ground: the machine that made it stays, whatever the rig file says later."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from rigcalc.core.errors import InputError
from rigcalc.models.machine.field import made_with, told_of
from rigcalc.models.reading.adding import made_now, with_reading
from rigcalc.models.rig.bare import BareGear, bare
from rigcalc.models.rig.beside import add_beside, load_beside, reading_from
from rigcalc.models.rig.field_reading import Reading
from rigcalc.models.rig.file import demo_rig, replaced, rig_text
from rigcalc.models.rig.kept_setup import KEPT, LONGEST, kept_data, kept_text, setup_changes
from rigcalc.models.rig.rig import Rig
from rigcalc.words.reading.listed import rows

DEMOS = ("articulated", "front_wheel_assist", "two_track", "two_wheel_drive")
READ = {"date": "2026-11-04", "depth": "9 in", "speed": "5 mph", "slip": "8 percent"}


def read_by(rig: Rig, **changes: Any) -> Reading:
    return reading_from(READ | {"made_with": made_now(rig)} | changes)


def without_limits(value: Any) -> Any:
    """What a tyre may carry changes no reading, and isn't kept."""
    return replace(value, load_limit=None, pressure_limit=None) if isinstance(value, BareGear) else value


@pytest.mark.parametrize("name", DEMOS)
def test_a_rig_is_its_own_setup(name: str) -> None:
    rig = demo_rig(name)
    for section in KEPT:
        text = kept_text(rig, section)
        assert text
        assert len(text) <= LONGEST
        assert setup_changes(rig, section, text) == {}


@pytest.mark.parametrize(("name", "other"), [(one, other) for one in DEMOS for other in DEMOS if one != other])
def test_a_reading_of_one_tractor_is_worked_with_it_whatever_stands_in_the_rig_file_now(name: str, other: str) -> None:
    """Tyres, tracks, drive and stance come back; what a reading doesn't hang on may be the other's."""
    rig, now = demo_rig(name), demo_rig(other)
    now = replaced(now, {f"implement.{entry}": value for entry, value in rig.implement.model_dump(exclude_none=True).items()})
    now = replaced(now, {"ground": rig.ground.model_dump(exclude_none=True), "work": rig.work.model_dump(exclude_none=True)})
    reading = read_by(rig)
    back, was = made_with(now, reading), made_with(rig, reading)
    for entry in ("wheelbase", "center_height", "drawbar_height", "hitch_behind", "front_weight", "rear_weight", "rated_pto",
                  "cone_index", "grade", "covered_width", "gangs"):  # fmt: skip
        assert getattr(back, entry) == getattr(was, entry), entry
    for axle in ("front", "rear"):
        one, two = getattr(back, axle), getattr(was, axle)
        assert (one is None) == (two is None)
        for entry in ("kind", "driven", "count", "width", "length", "deflection_ratio") if one is not None else ():
            assert getattr(one, entry) == getattr(two, entry), (axle, entry)


@pytest.mark.parametrize(("changes", "entry"), [
    ({"tractor.rear.diameter": "1.8 m"}, "rear"), ({"tractor.drawbar_height": "0.4 m"}, "drawbar_height"),
    ({"tractor.front.tyres": 2}, "front"), ({"ground.surface": "soft"}, "cone_index"), ({"ground.grade": "-3 deg"}, "grade"),
    ({"implement.wheel_share": "60 percent"}, "wheel_share"), ({"ground.cone_index": "700 kPa"}, "cone_index"),
    ({"implement.gangs": [{"tool": "disk_tandem_secondary", "depth": "3 in"}]}, "gangs"),
])  # fmt: skip
def test_what_is_changed_later_leaves_a_reading_alone(changes: dict[str, Any], entry: str) -> None:
    rig = demo_rig("articulated")
    reading, later = read_by(rig), replaced(rig, changes)
    assert getattr(bare(later), entry) != getattr(bare(rig), entry)
    assert without_limits(getattr(made_with(later, reading), entry)) == without_limits(getattr(made_with(rig, reading), entry))
    without = reading.model_copy(update={"made_with": None})
    assert getattr(made_with(later, without), entry) != getattr(made_with(rig, without), entry), (
        "one that kept nothing goes along"
    )


def test_a_reading_of_another_soil_is_told_apart() -> None:
    rig = demo_rig("articulated")
    kept = with_reading(rig, read_by(rig))
    assert told_of(kept) is not None
    sandy = replaced(kept, {"ground.texture": "loamy sand"})
    assert told_of(sandy) is None, "its row of the table is another one"
    assert "another soil" in rows(sandy, None, "us")[0][-1]
    both = with_reading(sandy, read_by(replaced(sandy, {"reading": None}), slip="10 percent"))
    told = told_of(both)
    assert told is not None
    assert told.left_out == {0: "other_ground"}
    soft = told_of(replaced(kept, {"ground.surface": "soft"}))
    assert soft is not None, "the same soil in another state"
    assert soft.seen[0].rig.cone_index == bare(rig).cone_index


def test_it_is_kept_in_the_file_beside_and_read_again(tmp_path: Path) -> None:
    rig = replaced(demo_rig("articulated"), {"implement.gangs": [{"tool": "disk_tandem_secondary", "depth": "3 in"}]})
    file = tmp_path / "my.toml"
    file.write_text(rig_text(rig), encoding="utf-8")
    reading = read_by(rig)
    add_beside(file, reading)
    assert [Reading.model_validate(each) for each in load_beside(file)] == [reading]
    assert "gangs.0.depth=3 in" in str(reading.made_with)


@pytest.mark.parametrize(("section", "text", "says"), [
    ("tractor", "drive", "an entry of tractor"), ("tractor", "colour=red", "an entry of tractor"),
    ("tractor", "drive=4WD; drive=2WD", "drive twice"), ("ground", "surface=", "an entry of ground"),
    ("implement", "gangs.9.tool=chisel_straight", "an entry of implement"), ("ground", "x" * 600, "ground"),
])  # fmt: skip
def test_a_text_that_is_none_is_refused(section: str, text: str, says: str) -> None:
    with pytest.raises(InputError) as error:
        reading_from(READ | {"made_with": {section: text}})
    assert says in str(error.value)
    assert f"made_with.{section}" in str(error.value)


def test_a_setup_that_no_rig_can_have_names_its_reading() -> None:
    rig = demo_rig("articulated")
    for section, text in (
        ("tractor", "drive=4WD; wheelbase=3 kg"),
        ("ground", "texture=gravel"),
        ("tractor", "rear.kind=square"),
    ):
        with pytest.raises(InputError) as error:
            told_of(replaced(rig, {"reading": [READ | {"made_with": {section: text}}]}))
        assert "reading 1, made_with: " in str(error.value)
    assert kept_data("rear.tyres=4; rear.driven=true; drive=4WD", "tractor") == {
        "rear": {"tyres": 4, "driven": True}, "drive": "4WD"}  # fmt: skip
