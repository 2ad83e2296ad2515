"""The picture of a log over time: of one size however long, what counts drawn where it is, titles escaped."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import numpy as np
import pytest

from rigcalc.models.machine.field import in_field
from rigcalc.models.reading.field_map import worked_drafts
from rigcalc.models.reading.log import passes
from rigcalc.models.rig.file import load_rig
from rigcalc.views.reading.time_line import time_line

NAME = "{http://www.w3.org/2000/svg}"


def log_of(rows: int, step: float = 1.0) -> dict[str, np.ndarray]:
    time = np.arange(rows) * step
    works = time % 180 < 150
    speed = np.where(works, 8.0, 6.0)
    return {"time": time, "speed": speed, "wheel_speed": speed / 0.9, "load": np.where(works, 0.85, 0.3)}


def bars(text: str, state: str) -> list[tuple[float, float]]:
    return [(float(each.get("x")), float(each.get("width"))) for each in ElementTree.fromstring(text).iter(f"{NAME}rect")
            if each.get("class") == state]  # fmt: skip


def test_passes_and_turns_stand_where_they_were() -> None:
    log = log_of(540)
    text = time_line(log, passes(log), "us", "a day")
    steady, turns = bars(text, "steady"), bars(text, "turning")
    assert len(steady) == 3
    assert len(turns) == 3
    wide = sum(width for _, width in steady + turns + bars(text, "unsteady"))
    assert wide == pytest.approx(1030, rel=0.01), "no time is left out"
    assert sum(width for _, width in steady) / wide == pytest.approx(450 / 540, abs=0.03)
    assert all(one < other for (one, _), (other, _) in zip(steady, turns, strict=True))
    words = "".join(ElementTree.fromstring(text).itertext())
    for said in ("Speed", "Engine load", "Slip", "What was done", "steady work", "turning or up", "mph"):
        assert said in words, said
    assert "km/h" in time_line(log, passes(log), "si", "a day")


def test_a_long_log_gives_no_larger_picture() -> None:
    short, long = log_of(5_000), log_of(200_000, 0.2)
    sizes = [len(time_line(each, passes(each), "si", "a day")) for each in (short, long)]
    assert sizes[1] < 2 * sizes[0]
    assert sizes[1] < 400_000


def test_a_title_that_could_do_harm_is_escaped() -> None:
    log = log_of(540)
    text = time_line(log, passes(log), "us", '"><script>alert(1)</script>')
    assert "<script" not in text
    assert ElementTree.fromstring(text).find(f"{NAME}title").text == '"><script>alert(1)</script>'


def test_what_has_no_number_is_left_out() -> None:
    log = log_of(540)
    log["load"] = np.full(540, np.nan)
    log["fuel_rate"] = np.full(540, 90.0)
    text = time_line(log, passes(log), "si", "a day")
    assert "Engine load" not in text
    assert not re.search("nan|inf", text)


def test_draft_stands_over_time_where_it_worked_and_says_what_tells_it() -> None:
    log = log_of(540)
    taken = passes(log)
    drafts, by = worked_drafts(in_field(load_rig("articulated")), log, taken, "rated")
    assert by == "load"
    works = log["time"] % 180 < 150
    assert np.isfinite(drafts[works]).mean() > 0.9
    assert not np.isfinite(drafts[~works]).any(), "turns have none"
    begins = (log["time"] % 180 < 3) & (log["time"] > 10)
    assert not np.isfinite(drafts[begins]).any(), "nor has the beginning of a pass, where speed and load lag each other"
    plain, text = (time_line(log, taken, "us", "a day", *more) for more in ((), (drafts, by)))
    words = "".join(ElementTree.fromstring(text).itertext())
    assert "Draft" in words
    assert "by engine load" in words
    assert re.search(r"\d\d,\d00 lbf", words), "no powers of ten"
    assert "Draft" not in plain
    high = [float(ElementTree.fromstring(each).get("viewBox").split()[3]) for each in (plain, text)]
    assert high[1] == high[0] + 144, "one strip more"
    assert worked_drafts(in_field(load_rig("articulated")), {name: log[name] for name in ("time", "speed")}, taken, None) == (
        None,
        "",
    )
    assert not re.search("nan|inf", text)
