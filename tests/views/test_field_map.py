"""The map of a log: the passes where they were, of one size however long, and draft that the load asked for."""

from __future__ import annotations

import re
from typing import Any
from xml.etree import ElementTree

import numpy as np
import pytest
from made_task_data import driven

from rigcalc.core.errors import InputError
from rigcalc.models.machine.field import in_field
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.machine.seen import fuel_offset
from rigcalc.models.reading.field_map import MOST_PIECES, field_map, kind_of
from rigcalc.models.reading.log import passes
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.rig.file import load_rig
from rigcalc.views.reading.field_map import field_map_svg
from rigcalc.words.numbers import System

NAME = "{http://www.w3.org/2000/svg}"


def log_of(**more: Any) -> dict[str, Any]:
    log, _ = driven(passes=4)
    out = {"time": np.arange(log["east"].size, dtype=float), "latitude": 52 + log["north"] / 111_266,
           "longitude": 10 + log["east"] / 68_678}  # fmt: skip
    return out | {name: log[name] for name in ("speed", "load", "tool_down")} | more


@pytest.fixture
def b() -> BareRig:
    return in_field(load_rig("articulated"))


def test_passes_lie_where_they_were(b: BareRig) -> None:
    log = log_of()
    found = field_map(b, log, passes(log), "load", "available")
    worked = found.pieces[np.isfinite(found.values)]
    ways = np.degrees(np.arctan2(worked[:, 2] - worked[:, 0], worked[:, 3] - worked[:, 1])) % 180
    assert np.mean((np.abs(ways - 30) < 1) | (np.abs(ways - 120) < 1)) > 0.97, "to and fro at 30 degrees, the headland across"
    passes_long = 4 * 150 * 8 / 3.6 + 4 * 60 * 7 / 3.6
    assert np.hypot(worked[:, 2] - worked[:, 0], worked[:, 3] - worked[:, 1]).sum() == pytest.approx(passes_long, rel=0.06)
    assert np.median(found.worked[found.worked > 0.93]) == pytest.approx(0.97, abs=0.01)
    assert np.isfinite(found.values).sum() < found.values.size, "turns have no number"


def test_draft_is_what_the_engine_load_asked_for(b: BareRig) -> None:
    """Draft of known factors over the table gives loads by the chain; the map reads them back."""
    log = log_of()
    factors = np.linspace(0.7, 1.2, log["speed"].size)
    point = solve(b.at(speed=np.maximum(log["speed"], 1.0)), draft_factor=factors, want=("draft", "engine_share", "fuel_rate"))
    half_off = np.exp(fuel_offset(b)[0])  # what is taken off the book's allowance where a reading's fuel is weighed
    log["load"], log["fuel_rate"] = point.engine_share, point.fuel_rate * half_off
    taken = passes(log)
    of_maximum = point.engine_share * b.rated_pto / b.maximum_pto  # at rated speed all of it is there
    for columns, load_of in ((("load",), "rated"), (("fuel_rate",), None), (("load",), "available")):
        kept = {name: values for name, values in log.items() if name not in ("load", "fuel_rate") or name in columns}
        kept |= {"load": of_maximum} if load_of == "available" else {}
        found = field_map(b, kept, taken, "draft", load_of)
        assert found.by == columns[0]
        expected = field_map(b, kept | {"pull": point.draft}, taken, "draft", load_of)
        assert expected.by == "pull"
        there = np.isfinite(expected.values)
        assert found.values[there] == pytest.approx(expected.values[there], rel=0.01)
    assert found.unit == "kN"


def test_what_a_map_is_of(b: BareRig) -> None:
    log = log_of()
    assert kind_of(log, "available") == "draft"
    assert kind_of(log, None) is None
    assert (
        kind_of({name: values for name, values in log.items() if name != "load"} | {"wheel_speed": log["speed"]}, None)
        == "slip"
    )
    slip = field_map(b, log | {"wheel_speed": log["speed"] / 0.9}, passes(log), "slip", None)
    assert slip.worked == pytest.approx(np.full(slip.worked.size, 0.1))
    for kind, without, says in (("depth", (), "of which this log tells nothing.* Type load, speed$"),
                                ("load", ("latitude",), "without positions"),
                                ("draft", ("load",), "tells nothing.* Type speed$")):  # fmt: skip
        with pytest.raises(InputError, match=says):
            field_map(b, {name: values for name, values in log.items() if name not in without}, passes(log), kind, None)


def test_pieces_never_bridge_a_gap_and_without_any_there_is_no_map(b: BareRig) -> None:
    log = log_of()
    thin = {name: values[::20] for name, values in log.items()}  # one row in 20 s, each pause over 15 s
    with pytest.raises(InputError, match="positions over 60 m or 15 s apart; expected some that lie nearer"):
        field_map(b, thin, passes(thin), "load", "available")
    near = {name: np.insert(values, 1, values[0] + (name == "time")) for name, values in thin.items()}
    found = field_map(b, near, passes(near), "load", "available")
    assert np.hypot(found.pieces[:, 2] - found.pieces[:, 0], found.pieces[:, 3] - found.pieces[:, 1]).max() < 1e-6


def test_a_long_log_and_far_positions_give_no_larger_picture(b: BareRig) -> None:
    rows = 200_000
    time = np.arange(rows) * 0.2
    log = {"time": time, "speed": np.full(rows, 8.0), "load": 0.8 + 0.1 * np.sin(time / 50),
           "latitude": 52 + 0.01 * np.abs((time / 500) % 2 - 1), "longitude": 10 + time // 500 * 1e-4}  # fmt: skip
    log["latitude"][100:140] = 10.0 + 1e-6 * np.arange(40)
    found = field_map(b, log, passes(log), "load", "available")
    assert found.values.size <= 1.2 * MOST_PIECES
    assert np.abs(found.pieces).max() < 2000, "the position of another place is left out"
    text = field_map_svg(found, "si", "day")
    assert len(text) < 300_000
    assert not re.search("nan|inf", text)


def test_the_picture_says_what_it_shows_by_word_width_and_colour(b: BareRig) -> None:
    log = log_of()
    taken = passes(log)
    text = field_map_svg(field_map(b, log, taken, "draft", "available"), "us", '"><script>alert(1)</script>')
    assert "<script" not in text
    root = ElementTree.fromstring(text)
    assert root.find(f"{NAME}title").text.startswith('"><script>')
    classes = [root.find(f".//{NAME}path[@class='class{place}']") for place in range(1, 6)]
    widths = [float(each.get("stroke-width")) for each in classes]
    assert widths == sorted(widths)
    assert len({each.get("stroke") for each in classes}) == 5
    words = "".join(root.itertext())
    for said in ("Draft, as the engine load asks for it", "lbf", "ft", "8 in 10 of the way"):
        assert said in words, said
    even = field_map_svg(field_map(b, log | {"depth": np.full(log["time"].size, 30.0)}, taken, "depth", None), "si", "day")
    assert "Depth: 30 cm in the middle" in even
    assert "30 to 30" in even
    raised = log | {"tool_down": np.zeros(log["time"].size)}
    up = field_map(b, raised, passes(raised), "load", "available")
    assert "no number where it worked" in field_map_svg(up, "si", "day")


@pytest.mark.parametrize(("units", "unit", "long"), [("si", "m", 1.0), ("us", "ft", 0.3048)])
def test_north_is_up_and_the_measure_is_true(b: BareRig, units: System, unit: str, long: float) -> None:
    log = log_of()
    root = ElementTree.fromstring(field_map_svg(field_map(b, log, passes(log), "load", "available"), units, "day"))
    drawn = [path for path in root.iter(f"{NAME}path") if (path.get("class") or "").startswith(("class", "way"))]
    found = [place for path in drawn for place in re.findall(r"[ML]([\d.]+ [\d.]+)", path.get("d"))]
    places = [tuple(map(float, place.split())) for place in found]
    x, y = np.array(places).T
    east, north = np.ptp(log["longitude"]) * 68_678, np.ptp(log["latitude"]) * 111_266
    assert np.ptp(x) / np.ptp(y) == pytest.approx(east / north, rel=0.02)
    assert x[np.argmin(y)] > x.mean(), "the far end of passes to the north-east lies up and to the right"
    (bar,) = [path.get("d") for path in root.iter(f"{NAME}path") if "v8h" in path.get("d")]
    (length,) = [found[1] for text in root.iter(f"{NAME}text") if (found := re.fullmatch(rf"(\d+) {unit}", text.text))]
    metres = float(length) * long
    assert float(re.search(r"v8h([\d.]+)", bar).group(1)) / metres == pytest.approx(np.ptp(x) / east, rel=0.02)
