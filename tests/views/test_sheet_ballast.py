"""The ballast part of the setup sheet: the plan's numbers, overleaf, the same bytes, and refusals in words."""

from __future__ import annotations

import hashlib
import io
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from known_rigs import known_path, known_rig
from pypdf import PdfReader
from sheet_readers import pdf_text

from rigcalc.cli.sheet import sheet as sheet_command
from rigcalc.core.errors import InputError
from rigcalc.models import replaced, size
from rigcalc.models.ballast.answer import ballast
from rigcalc.views.sheet import sheet_data, sheet_html, sheet_pdf
from rigcalc.views.sheet.words import ROOM
from rigcalc.words import in_words
from rigcalc.words.ballast.notes import cautions
from rigcalc.words.ballast.plan import said
from rigcalc.words.ballast.steps import step_said
from rigcalc.words.numbers import percent, say

HOSTILE = "#panic() $x$ <script>alert(1)</script> `a` 🚜"
LONG = {name: "A long text that goes on and on. " * 320 for name in ROOM}


def both(name: str = "front_wheel_assist", job: str = "full", units: Any = "us", **changes: Any) -> tuple[Any, Any]:
    """Size a demo rig and plan its ballast."""
    rig = replaced(known_rig(name), {key.replace("__", "."): value for key, value in changes.items()})
    return in_words(size(rig), units), ballast(rig, job, units=units)


def many_pieces(count: int) -> list[dict[str, Any]]:
    """Give many kinds of weight with long names, all of which have to come off."""
    return [
        {"name": f"{place} {'long name ' * 5}", "mass": "20 kg", "count": 2, "on": 2, "in_pairs": True, "axle": "front",
         "ahead": "1.1 m"}
        for place in range(count)
    ]  # fmt: skip


MANY: dict[str, Any] = {
    "ballast": many_pieces(12), "setup__mass_limit": "11800 kg", "setup__front_share_low": "20 percent",
    "setup__front_share_high": "60 percent",
}  # fmt: skip


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_plan_is_on_the_sheet_with_its_numbers(units: Any) -> None:
    answer, found = both(units=units)
    after = found.plan.chosen
    assert after.changes
    pull, road = (next(t for t in found.tyres_after if (t.axle, t.when) == ("rear", when)) for when in ("pull", "road"))
    assert pull.inflation.how == "table"
    wanted = [step_said(step, units).order.removeprefix("take").removeprefix("bring") for step in after.changes]
    wanted += [say(mass, "kg", units) for mass in (after.front_mass, after.rear_mass, after.front_mass + after.rear_mass)]
    wanted += [f"{percent(after.front_share)} on the front at rest, {percent(after.front_share_pull)} at work"]
    wanted += [f"{say(pull.inflation.pressure, 'kPa', units, 2)} under pull"]
    wanted += [f"{say(road.inflation.pressure, 'kPa', units, 2)} on the road", found.rig.tractor.rear.tyre.table_from]
    caps = answer.answer.caps
    wanted += [f"{percent(caps.slip_low)} to {percent(caps.slip_high)}, {percent(after.slip)} expected"]
    wanted += [*cautions(found), *answer.cautions]
    text, page = pdf_text(sheet_pdf(answer, ballast=found)), " ".join(sheet_html(answer, ballast=found).split())
    page = page.replace("&#39;", "'")
    assert [word for word in wanted if word not in text] == []
    assert [word for word in wanted if word not in page] == []


def test_pressures_are_those_after_the_plan() -> None:
    answer, found = both()
    rear = next(t for t in found.tyres_after if (t.axle, t.when) == ("rear", "rest"))
    assert rear.each * found.rig.tractor.rear.tyres == pytest.approx(found.plan.chosen.rear_mass)
    assert sheet_data(answer, ballast=found).ballast is not None
    assert sheet_data(answer).ballast is None
    assert set(found.cautions) - set(answer.answer.cautions)
    assert sheet_data(answer).cautions == answer.cautions


def test_no_set_that_works_gives_no_step() -> None:
    answer, found = both(setup__mass_limit="20000 lb")
    part = sheet_data(answer, ballast=found).ballast
    assert not found.works
    assert part.steps == ()
    assert part.masses == ""
    text = pdf_text(sheet_pdf(answer, ballast=found))
    assert all(part in text for part in (said(found.plan, "us").headline, *said(found.plan, "us").rest))


def test_leaving_it_is_said() -> None:
    answer, found = both("four_wheel_drive")
    assert found.works
    assert not found.plan.chosen.changes
    assert "Leave it as it stands." in pdf_text(sheet_pdf(answer, ballast=found))


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_two_pages_however_long_and_large_enough_to_read(paper: str) -> None:
    answer, found = both(**MANY)
    pdf = sheet_pdf(answer, ballast=found, paper=paper, **LONG)
    text = pdf_text(pdf)
    assert [caution for caution in (*answer.cautions, *cautions(found)) if caution not in text] == []
    assert f"and {len(found.plan.chosen.changes) - 5} more" in text
    sizes: list[float] = []
    PdfReader(io.BytesIO(pdf)).pages[1].extract_text(
        visitor_text=lambda words, cm, tm, font, point: sizes.append(abs(cm[0] * tm[0] * point)) if words.strip() else None
    )
    assert min(sizes) > 4.8


def test_html_prints_on_two_pages(tmp_path: Path) -> None:
    browser = shutil.which("chromium")
    if browser is None:
        pytest.skip("missing: chromium; apt-get install chromium")
    answer, found = both(**MANY)
    (tmp_path / "sheet.html").write_text(sheet_html(answer, ballast=found, paper="letter", **LONG), encoding="utf-8")
    options = ["--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer", f"--user-data-dir={tmp_path}/profile"]
    call = [browser, *options, f"--print-to-pdf={tmp_path}/sheet.pdf", f"{tmp_path}/sheet.html"]
    subprocess.run(call, check=True, capture_output=True, timeout=60)
    assert len(PdfReader(tmp_path / "sheet.pdf").pages) == 2


def test_same_bytes_in_a_fresh_process() -> None:
    code = (
        "import hashlib\nfrom rigcalc.models import load_rig, size\nfrom rigcalc.models.ballast.answer import ballast\n"
        "from rigcalc.views.sheet import sheet_pdf\nfrom rigcalc.words import in_words\n"
        f"rig = load_rig({str(known_path('front_wheel_assist'))!r})\n"
        "print(hashlib.sha256(sheet_pdf(in_words(size(rig)), ballast=ballast(rig, 'full'))).hexdigest())\n"
    )
    env = {"PYTHONHASHSEED": "7", "TZ": "Asia/Tokyo"}
    made = subprocess.run([sys.executable, "-c", code], env=env, capture_output=True, text=True, check=True).stdout.strip()
    answer, found = both()
    assert made == hashlib.sha256(sheet_pdf(answer, ballast=found)).hexdigest()


def test_hostile_names_are_printed_as_text() -> None:
    pieces = [{"name": HOSTILE, "mass": "100 lb", "count": 18, "on": 10, "axle": "front", "ahead": "1.1 m"}]
    answer, found = both(ballast=pieces, tractor__rear__tyre__table_from=HOSTILE)
    assert found.plan.chosen.changes
    assert "#panic()$x$<script>" in pdf_text(sheet_pdf(answer, ballast=found)).replace(" ", "")
    assert "<script>" not in sheet_html(answer, ballast=found)


def test_what_does_not_belong_together_is_refused() -> None:
    answer, _ = both("tracks")
    bare = ballast(known_rig("tracks"), "full")
    with pytest.raises(InputError, match="without weights or liquid at hand"):
        sheet_pdf(answer, ballast=bare)
    with pytest.raises(InputError, match="another rig"):
        sheet_html(answer, ballast=both()[1])


def test_command(tmp_path: Path) -> None:
    runner, out = CliRunner(), tmp_path / "sheet.pdf"
    call = [str(known_path("front_wheel_assist")), "--out", str(out), "--with-ballast", "--job", "full"]
    assert runner.invoke(sheet_command, call).exit_code == 0
    assert "Take front plates from 10 to 2" in pdf_text(out.read_bytes())
    refused = runner.invoke(sheet_command, [str(known_path("tracks")), "--out", str(tmp_path / "no.pdf"), "--with-ballast"])
    assert isinstance(refused.exception, InputError)
    assert not (tmp_path / "no.pdf").exists()
    alone = runner.invoke(sheet_command, ["--out", str(tmp_path / "no.pdf"), "--job", "full"])
    assert "--with-ballast" in str(alone.exception)
