"""The setup sheet: the answer's numbers, a page for the cab and one overleaf, the same bytes, any text printed as text."""

from __future__ import annotations

import io
import json
import re
import shutil
import subprocess
import sys
from dataclasses import asdict
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from known_rigs import KNOWN_RIGS, known_path, known_rig
from pypdf import PdfReader
from sheet_readers import flat, pdf_pages, pdf_text, read_html, sizes_of

import rigcalc
from rigcalc.cli.sheet import sheet as sheet_command
from rigcalc.core.errors import InputError
from rigcalc.models import replaced, size
from rigcalc.views.sheet import sheet_data, sheet_html, sheet_pdf
from rigcalc.views.sheet.words import ROOM, clean
from rigcalc.words import in_words
from rigcalc.words.numbers import capital, percent, say
from rigcalc.words.size import SizeWords

HOSTILE = [
    "<script>alert(1)</script>", '"quoted" and \'single\'', "$x^2$ and $ 5", "`code` and ```raw```", "#panic(\"typst\")",
    "#sys.inputs", "back\\slash \\u{41}", "*bold* _under_ = heading", "@label <label> // gone?", "]]>--><!--", "{{ 7*7 }}",
    "&amp; &lt;", "- + / item", "emoji 😀 and é ü ß",
]  # fmt: skip
SLIPPING = {"ground__surface": "soft", "implement__tools": 56, "work__speed": "2.5 mph"}
LONG = {name: "A long text that goes on and on. " * 320 for name in ROOM}


def answer_for(name: str = KNOWN_RIGS[0], units: Any = "us", **changes: Any) -> SizeWords:
    """Size a demo rig with some fields changed: `work__depth="18 in"`."""
    rig = known_rig(name)
    changed = {key.replace("__", "."): value for key, value in changes.items()}
    return in_words(size(replaced(rig, changed) if changed else rig), units)


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_numbers_are_those_of_the_answer(name: str, units: Any) -> None:
    words = answer_for(name, units)
    answer = words.answer
    p, bands = answer.point.bare, answer.sure.bands
    slip_top = min(bands["slip"][2] or 1, answer.caps.slip_high)
    wanted = [
        say(p.depth, "cm", units), say(p.speed, "km/h", units), str(answer.rig.implement.tools), say(p.width, "m", units),
        say(answer.rig.implement.spacing.to("cm"), "cm", units), percent(p.slip), percent(p.engine_share),
        say(p.fuel_rate, "L/h", units), say(p.field_capacity, "ha/h", units),
        percent(bands["slip"][0] or 0), percent(slip_top), say(bands["fuel_rate"][0], "L/h", units),
        capital(words.said.headline), *words.said.rest, words.season.text, *words.cautions,
        f"rigcalc {rigcalc.__version__}",
    ]  # fmt: skip
    wanted += [said.text for _, said in words.fullest_first()]
    deepest = answer.reverse[0]
    wanted.append(f"{words.binding.title}" if deepest.value is None else f", at {say(deepest.value, 'cm', units)}")
    text = pdf_text(sheet_pdf(words))
    page = flat(" ".join(read_html(sheet_html(words)).words).replace("\xa0", " "))
    assert [word for word in wanted if word not in text] == []
    assert [word for word in wanted if word not in page] == []


def test_gear_and_about_are_printed() -> None:
    about = {"who": "The new hand", "where": "Well field", "when": "14 May, dry", "gear": "F9", "comment": "Mind the ditch."}
    text = pdf_text(sheet_pdf(answer_for(), **about))
    assert [word for word in about.values() if word not in text] == []


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize(
    ("name", "changes"),
    [
        ("tracks", {"work__depth": "18 in"}),
        ("four_wheel_drive", {"work__depth": "18 in"}),
        ("four_wheel_drive", {"work__depth": "40 in", "implement__tools": 60}),
        ("front_wheel_assist", {}),
    ],
)
def test_two_pages_however_long(paper: str, name: str, changes: dict[str, Any]) -> None:
    answer = answer_for(name, **changes)
    pdf = sheet_pdf(answer, paper=paper, **LONG)
    box = PdfReader(io.BytesIO(pdf)).pages[0].mediabox
    assert (round(box.width), round(box.height)) == {"a4": (595, 842), "letter": (612, 792)}[paper]
    front, text = pdf_pages(pdf)
    assert [caution for caution in answer.cautions if caution not in text] == []
    assert front.count("…") >= 4
    assert front.endswith("Overleaf: limits, cautions, sources."), "the foot of page 1 is cut off"
    assert text.endswith(f"rigcalc {rigcalc.__version__}"), "the foot of the page is cut off"


@pytest.mark.parametrize(
    ("name", "changes"), [("tracks", {"work__depth": "18 in"}), ("four_wheel_drive", {"work__depth": "40 in"})]
)
def test_page_1_is_in_print_of_12_points(name: str, changes: dict[str, Any]) -> None:
    answer = answer_for(name, **changes)
    front, back = PdfReader(io.BytesIO(sheet_pdf(answer, paper="letter", **LONG))).pages
    assert max(sizes_of(front)) > 30, "the setting, or the refusal, isn't in large type"
    assert min(sizes_of(front)) > 11.9
    assert min(sizes_of(back)) > 5.5, "the small print is too small"


def test_page_1_is_what_the_cab_needs() -> None:
    words = answer_for(work__depth="14 in", implement__point_width="3 in")
    data = sheet_data(words)
    front, back = pdf_pages(sheet_pdf(words))
    wanted = [
        words.said.word,
        capital(words.said.headline),
        *(reading.high for reading in data.readings),
        *data.stops,
        "read read read",
    ]
    assert [text for text in wanted if text not in front] == []
    assert any("buried line" in sign for sign in data.stops)
    assert not any("buried line" in sign for sign in sheet_data(answer_for(work__depth="10 in")).stops)
    for text in (*words.cautions, "Limits, the fullest first", "Sources."):
        assert text in back
        assert text not in front
    assert not re.search(r"mobility number|from memory|d497|\w_\w", front)


@pytest.mark.parametrize(
    ("units", "paper", "size"), [("us", None, 612), ("si", None, 595), ("us", "a4", 595), ("si", "letter", 612)]
)
def test_paper_follows_the_units_unless_chosen(units: str, paper: str | None, size: int) -> None:
    words = answer_for(units=units)
    assert round(PdfReader(io.BytesIO(sheet_pdf(words, paper=paper))).pages[0].mediabox.width) == size
    assert ("size:letter" in sheet_html(words, paper=paper)) == (size == 612)


@pytest.mark.parametrize("kind", ["pdf", "html"])
def test_same_bytes_in_fresh_processes(kind: str) -> None:
    code = (
        "import hashlib, rigcalc\n"
        f"from rigcalc.views.sheet import sheet_{kind} as make\n"
        "made = make(rigcalc.in_words(rigcalc.size(rigcalc.load_rig('two_track'))), who='A', when='today', comment='x' * 99)\n"
        "print(hashlib.sha256(made if isinstance(made, bytes) else made.encode()).hexdigest())\n"
    )
    made = {
        subprocess.run(
            [sys.executable, "-c", code], env={"PYTHONHASHSEED": seed, "TZ": zone}, capture_output=True, text=True, check=True
        ).stdout
        for seed, zone in (("1", "UTC"), ("2", "Asia/Tokyo"))
    }
    assert len(made) == 1


def test_no_time_is_written() -> None:
    reader = PdfReader(io.BytesIO(sheet_pdf(answer_for())))
    assert reader.metadata is not None
    assert reader.metadata.creation_date is None
    assert reader.metadata.modification_date is None
    assert re.search(r"\b20\d\d-\d\d-\d\d\b", sheet_html(answer_for())) is None


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_is_printed_as_text(text: str) -> None:
    answer = answer_for(farm=text, tractor__name=text, implement__name=text)
    about = dict.fromkeys(ROOM, text)
    data = sheet_data(answer, **about)
    pdf = re.sub(r"\s", "", pdf_text(sheet_pdf(answer, **about)))
    page = sheet_html(answer, **about)
    read = read_html(page)
    for shown in (data.farm, data.who, data.where, data.when, data.comment, clean(text, ROOM["gear"])):
        assert re.sub(r"\s", "", shown) in pdf
        assert shown.split()[0] in flat(" ".join(read.words))
    assert flat(data.comment) in flat(" ".join(read.words))
    assert "script" not in read.tags


def test_long_texts_are_shortened_and_odd_signs_left_out() -> None:
    assert clean("x" * 10_000, 60) == "x" * 59 + "…"
    assert clean("x" * 60, 60) == "x" * 60
    assert clean("one\ntwo\tthree\x00\u202eevil\u202c", 60) == "one two three evil"
    assert clean("\ud800 lone", 60) == "\N{REPLACEMENT CHARACTER} lone"
    assert clean("a" + "\u0301" * 500, 60) == "a\u0301\u0301"
    assert clean("  ", 60) == ""


@pytest.mark.parametrize(
    "text", ["W" * 10_000, "😀" * 10_000, "a" + "\u0301" * 10_000, "漢" * 10_000, "\ud800" * 50, "\x00" * 50]
)
def test_unbroken_text_stays_on_the_paper(text: str) -> None:
    reader = PdfReader(io.BytesIO(sheet_pdf(answer_for(farm="W" * 200), **dict.fromkeys(ROOM, text))))
    right: list[float] = []
    for page in reader.pages:
        page.extract_text(visitor_text=lambda _text, cm, tm, *_: right.append(cm[0] * tm[4] + cm[4]))
    assert len(reader.pages) == 2
    if text[0] != "漢":  # drawn as the sign for a missing letter, whose width pypdf doesn't know
        assert max(right) < page.mediabox.width - 20


def test_a_rig_that_cannot_pull_gets_no_setting() -> None:
    answer = answer_for(work__depth="40 in", implement__tools=60)
    data = sheet_data(answer, gear="F9")
    assert (data.verdict, data.settings, data.readings, data.first, data.season) == ("no", (), (), "", "")
    text = pdf_text(sheet_pdf(answer, gear="F9"))
    assert "DON'T" in text
    assert "Set this" not in text
    assert "Watch these" not in text
    assert "Stop and look" not in text
    assert "F9" not in text
    assert capital(answer.said.headline) in text
    assert "every limit holds in less than 1 in 100 such fields" in pdf_pages(sheet_pdf(answer))[0]
    assert "Set this" not in sheet_html(answer, gear="F9")


@pytest.mark.parametrize(
    ("changes", "verdict", "word"),
    [
        ({}, "go", "Go"),
        ({"work__depth": "18 in"}, "no", "Don't"),
        ({"work__speed": "18 mph", "implement__rated_power_per_tool": None}, "no", "Don't"),
        (SLIPPING, "care", "Try it first"),
    ],
)
def test_verdict(changes: dict[str, Any], verdict: str, word: str) -> None:
    data = sheet_data(answer_for(**changes))
    assert (data.verdict, data.word) == (verdict, word)


def test_a_rig_that_slips_too_much_is_not_told_to_go_ahead() -> None:
    answer = answer_for(**SLIPPING)
    for text in (pdf_text(sheet_pdf(answer)), sheet_html(answer)):
        assert "Try it first" in text
        assert "Try it with this" in text
        assert "Set this" not in text


def test_bands_hold_the_value_and_end_at_limits() -> None:
    for name in KNOWN_RIGS:
        answer = answer_for(name)
        for reading in sheet_data(answer).readings:
            low, value, high = (float(re.sub(r"[^\d.]", "", text)) for text in (reading.low, reading.value, reading.high))
            assert low < value < high, reading
    wet = answer_for(**SLIPPING)
    slip = sheet_data(wet).readings[0]
    assert slip.high == percent(wet.answer.caps.slip_high)
    hard = answer_for(work__depth="14 in", work__speed="7 mph", implement__rated_power_per_tool=None)
    load = sheet_data(hard).readings[1]
    assert load.high == percent(hard.answer.bare_rig.maximum_pto / hard.answer.bare_rig.rated_pto)


def test_html_stands_alone() -> None:
    page = sheet_html(answer_for("tracks"))
    read = read_html(page)
    assert read.links == []
    assert {"script", "link", "img", "iframe"}.isdisjoint(read.tags)
    assert re.findall(r"(?:https?:)?//[\w.]+", page.replace("http://www.w3.org/2000/svg", "")) == []
    assert "url(" not in page
    assert "@import" not in page


def test_html_prints_on_two_pages(tmp_path: Path) -> None:
    browser = shutil.which("chromium")
    if browser is None:
        pytest.skip("missing: chromium; apt-get install chromium")
    sheets = {
        "a4": sheet_html(answer_for()),
        "letter": sheet_html(answer_for("tracks", work__depth="18 in"), paper="letter", **LONG),
        "no": sheet_html(answer_for(work__depth="40 in"), paper="letter", **LONG),
    }
    for name, page in sheets.items():
        (tmp_path / f"{name}.html").write_text(page, encoding="utf-8")
        options = [
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--no-pdf-header-footer",
            f"--user-data-dir={tmp_path}/profile",
        ]
        out = f"--print-to-pdf={tmp_path}/{name}.pdf"
        subprocess.run([browser, *options, out, f"{tmp_path}/{name}.html"], check=True, capture_output=True, timeout=60)
        pages = PdfReader(tmp_path / f"{name}.pdf").pages
        assert len(pages) == 2, name
        assert "Overleaf:" in pages[0].extract_text()
        assert min(sizes_of(pages[0])) > 11.9, "page 1 is in print of 12 points"


def test_data_is_plain_text() -> None:
    data = asdict(sheet_data(answer_for()))
    assert json.loads(json.dumps(data)) == json.loads(json.dumps(data, ensure_ascii=False))


def test_bad_calls_name_every_fault() -> None:
    with pytest.raises(InputError, match="paper"):
        sheet_pdf(answer_for(), paper="a3")
    with pytest.raises(InputError) as caught:
        sheet_data(answer_for(), who=5, colour="red")  # type: ignore[arg-type]
    assert {fault.where for fault in caught.value.faults} == {"who", "colour"}


def test_typst_is_loaded_only_for_a_pdf() -> None:
    code = (
        "import sys, rigcalc; from rigcalc.views.sheet import sheet_html; "
        "sheet_html(rigcalc.in_words(rigcalc.size(rigcalc.load_rig('two_track')))); "
        "assert not {'typst', 'matplotlib', 'sympy', 'ipywidgets'} & set(sys.modules)"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


def test_command_writes_and_never_writes_over(tmp_path: Path) -> None:
    out = tmp_path / "sheet.pdf"
    call = [str(known_path("tracks")), "--out", str(out), "--depth", "34 cm", "--who", "<b>me</b>"]
    runner = CliRunner()
    assert runner.invoke(sheet_command, call).exit_code == 0
    text = pdf_text(out.read_bytes())
    assert "34 cm" in text
    assert "<b>me</b>" in text
    again = runner.invoke(sheet_command, call)
    assert isinstance(again.exception, InputError)
    assert "--force" in str(again.exception)
    assert runner.invoke(sheet_command, [*call, "--force", "--speed", "7 km/h"]).exit_code == 0
    assert "7 km/h" in pdf_text(out.read_bytes())
    deep = runner.invoke(sheet_command, ["--out", str(tmp_path / "no.html"), "--depth", "18 in"])
    assert deep.exit_code == 1
    assert "Don&#39;t" in (tmp_path / "no.html").read_text(encoding="utf-8")


def test_command_lists_every_fault(tmp_path: Path) -> None:
    result = CliRunner().invoke(sheet_command, ["--out", str(tmp_path / "gone" / "x.doc"), "--depth", "18"])
    assert isinstance(result.exception, InputError)
    assert [fault.where for fault in result.exception.faults] == ["--out", "--out", "work.depth"]
    long = CliRunner().invoke(sheet_command, ["--out", str(tmp_path / ("x" * 5000 + ".pdf"))])
    assert isinstance(long.exception, InputError)
