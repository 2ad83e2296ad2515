"""What a rig file may hold, at the very ends: the longest file, the deepest section, the shortest table, all weights on."""

import json
from pathlib import Path
from typing import get_args

import pytest
from known_rigs import known_rig
from pydantic import BaseModel
from pydantic_core import PydanticCustomError

from rigcalc.core.errors import InputError
from rigcalc.models import replaced
from rigcalc.models.rig.bare import bare
from rigcalc.models.rig.bounds import too_much
from rigcalc.models.rig.changes import typed_changes
from rigcalc.models.rig.measure import Kind
from rigcalc.models.rig.rig import Rig
from rigcalc.models.rig.running_gear import mounting_factor
from rigcalc.models.rig.tyre_size import tyre_size

SCHEMA = json.loads((Path(__file__).parents[3] / "docs" / "rig.schema.json").read_text(encoding="utf-8"))
PIECE = {"name": "plate", "mass": "45 kg", "axle": "front", "ahead": "0.9 m"}


def refused(**changes):
    with pytest.raises(InputError) as error:
        replaced(known_rig(), {path.replace("__", "."): value for path, value in changes.items()})
    (fault,) = error.value.faults
    return fault


def kinds(model=Rig):
    """Every (name of the section, entry, kind) of the reader, once."""
    for entry, field in model.model_fields.items():
        parts = [field.annotation, *field.metadata]
        for part in parts:
            parts += [*getattr(part, "__metadata__", ()), *get_args(part)]
            if isinstance(part, Kind):
                yield model.__name__, entry, part
            elif isinstance(part, type) and issubclass(part, BaseModel):
                yield from kinds(part)


def usual_in_print(section, entry):
    """The span that stands in the schema for an entry, be it a text, a text or nothing, or a list of texts."""
    parts = [(SCHEMA if section == "Rig" else SCHEMA["$defs"][section])["properties"][entry]]
    for part in parts:
        if "x-usual" in part:
            return part["x-usual"]
        parts += [*part.get("anyOf", ()), *([part["items"]] if "items" in part else ())]
    raise AssertionError(f"the schema has no span for {section}.{entry}")


def test_what_the_schema_calls_usual_is_taken_and_what_is_beyond_is_asked_about():
    held = {(section, entry): kind for section, entry, kind in kinds() if kind.usual}
    assert len(held) > 30
    for (section, entry), kind in held.items():
        low, high = usual_in_print(section, entry)
        for value, taken in ((low, True), (high, True), (low - 0.001 * abs(low), low == 0), (high * 1.0005, False)):
            text = f"{value!r} {'' if kind.unit == '1' else kind.unit}"
            if taken:
                assert kind.read(text).to(kind.unit) == pytest.approx(value)
            else:
                with pytest.raises(PydanticCustomError):
                    kind.read(text)


def test_a_file_may_have_256_kib():
    assert too_much("#" * 262_144) is None
    assert "256 KiB" in too_much("#" * 262_145).got


def test_brackets_side_by_side_are_not_deep():
    assert too_much("\n".join(f"[a{number}]\nb = [[1], [2], {{c = 3}}]" for number in range(100))) is None
    assert too_much(f"a = {'[' * 8}{']' * 8}") is None
    assert "8 deep" in too_much(f"a = {'[' * 9}{']' * 9}").got


@pytest.mark.parametrize(("tyres", "share"), [(2, 1.0), (4, 0.88), (6, 0.82)])
def test_duals_and_triples_carry_less_each(tyres, share):
    """Tyre yearbooks, from memory (reference_tables/tyre_rules.csv): 88 percent of what a single carries, and 82."""
    assert mounting_factor(tyres) == pytest.approx(share)


def test_all_weights_on_and_not_one_more():
    assert replaced(known_rig(), {"ballast": [PIECE | {"count": 4, "on": 4}]}).ballast[0].on == 4
    assert "5 of 'plate' on the tractor, 4 in all" in refused(ballast=[PIECE | {"count": 4, "on": 5}]).got


def test_a_table_of_a_tyre_has_two_rows_and_as_many_of_each():
    def tyre(pressures, loads):
        return {"pressures": pressures, "loads": loads}

    two = replaced(known_rig(), {"tractor.rear.tyre": tyre(["10 psi", "14 psi"], ["2500 kg", "3000 kg"])})
    assert [load.to("kg") for load in two.tractor.rear.tyre.loads] == [2500, 3000]
    for pressures, loads in ((["10 psi"], ["2500 kg"]), (["10 psi", "14 psi", "18 psi"], ["2500 kg", "3000 kg"])):
        got = refused(tractor__rear__tyre=tyre(pressures, loads)).got
        assert f"{len(pressures)} pressures and {len(loads)} loads" in got


def test_only_too_many_weights_are_told_to_go_under_one_name():
    weights = refused(ballast=[PIECE | {"name": f"plate {number}", "count": 1} for number in range(41)])
    assert (weights.got, "one name" in weights.type_this or "one name" in weights.expected) == ("41 entries", True)
    points = refused(fuel_test=[{"power": f"{number + 50} kW", "fuel": f"{number + 20} L/h"} for number in range(61)])
    assert (points.where, points.got, points.expected) == ("fuel_test", "61 entries", "at most 60")
    assert "weights" not in str(points)


@pytest.mark.parametrize("rating", ["net engine", "gross engine", "pto"])
def test_maximum_power_is_brought_to_the_shaft_as_rated_power_is(rating):
    b = bare(
        replaced(
            known_rig(), {"tractor.power_rating": rating, "tractor.rated_power": "300 hp", "tractor.maximum_power": "330 hp"}
        )
    )
    assert b.maximum_pto / b.rated_pto == pytest.approx(1.1)
    assert b.maximum_pto * b.engine_per_pto == pytest.approx(330 * 0.745699871582)


def test_a_typed_entry_is_a_number_a_truth_or_a_text():
    rig = known_rig()
    assert typed_changes(rig, "tractor.rear.tyres", "2") == {"tractor.rear.tyres": 2}
    assert typed_changes(rig, "ground.wheels_follow_in_track", "false") == {"ground.wheels_follow_in_track": False}
    assert typed_changes(rig, "implement.spacing", "15 in") == {"implement.spacing": "15 in"}
    assert typed_changes(rig, "tractor.rear.load_limit_each", "5000 kg") == {"tractor.rear.load_limit_each": "5000 kg"}
    with pytest.raises(InputError, match="the path of one entry"):
        typed_changes(rig, "tractor.rear", "2")


@pytest.mark.parametrize("text", ["26x12.00-24", "66x43-60", "660x43-25", "66x430-25"])
def test_a_rim_nearly_as_wide_as_the_tyre_and_sizes_of_no_tyre_are_refused(text):
    with pytest.raises(InputError):
        tyre_size(text)
