"""The printed page of a comparison: one page on both papers, every word on it, the same bytes, texts that stay texts."""

import io
import shutil
import subprocess

import pytest
from known_rigs import KNOWN_RIGS, known_rig
from pypdf import PdfReader

from rigcalc.core.errors import InputError
from rigcalc.models.compare import compare
from rigcalc.views.sheet.compare import comparison_html, comparison_pdf
from rigcalc.words import in_words
from rigcalc.words.numbers import capital

HOSTILE = "#panic() $x$ <script>alert(1)</script> `a` 🚜"
LONG = "a long name of a rig from the far end of the valley number "


def words_of(count, units="us", name="rig "):
    rigs = [known_rig(KNOWN_RIGS[at % 3]) for at in range(count)]
    return in_words(compare(rigs, [f"{name}{at}" for at in range(count)]), units)


def pdf_text(pdf):
    (page,) = PdfReader(io.BytesIO(pdf)).pages
    return page.extract_text()


def squeezed(text):
    return "".join(text.replace("\u200b", "").split())


@pytest.mark.parametrize("units", ["us", "si"])
def test_every_word_is_on_it(units):
    words = words_of(3, units)
    pdf, page = squeezed(pdf_text(comparison_pdf(words))), squeezed(comparison_html(words).replace("&#39;", "'"))
    wanted = [words.said.headline, *map(capital, words.said.rest), words.same]
    wanted += [text for name, said in words.each for text in (name, str(said))]
    wanted += [cell for row in words.differing for cell in (row.title, *row.cells)]
    assert [text for text in wanted if squeezed(text) not in pdf] == []
    assert [text for text in wanted if squeezed(text) not in page] == []


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize(("count", "name"), [(2, "rig "), (3, LONG), (5, "rig "), (8, "rig "), (8, LONG)])
def test_it_is_one_page_whose_figures_can_be_read(paper, count, name):
    words = words_of(count, name=name)
    pages = PdfReader(io.BytesIO(comparison_pdf(words, paper=paper))).pages
    assert len(pages) == 1
    sizes = []
    pages[0].extract_text(
        visitor_text=lambda text, cm, tm, font, point: sizes.append(abs(cm[0] * tm[0] * point)) if text.strip() else None
    )
    assert min(sizes) > 4.8
    assert squeezed(words.differing[-1].title) in squeezed(pages[0].extract_text())


def test_the_same_bytes_and_the_paper_of_the_units():
    words, metric = words_of(2), words_of(2, "si")
    assert comparison_pdf(words) == comparison_pdf(words) == comparison_pdf(words, paper="letter")
    assert comparison_pdf(metric) == comparison_pdf(metric, paper="a4")
    assert "size:letter" in comparison_html(words)
    assert "size:A4" in comparison_html(metric)
    with pytest.raises(InputError, match="a4 or letter"):
        comparison_pdf(words, paper="foolscap")


def test_names_stay_texts():
    words = words_of(2, name=HOSTILE)
    assert "<script" not in comparison_html(words)
    assert squeezed("#panic() $x$ <script>") in squeezed(pdf_text(comparison_pdf(words)))


@pytest.mark.parametrize(("count", "name"), [(2, "rig "), (3, LONG), (5, "rig "), (8, LONG)])
def test_html_prints_on_one_page(tmp_path, count, name):
    browser = shutil.which("chromium")
    if browser is None:
        pytest.skip("missing: chromium; apt-get install -y chromium")
    (tmp_path / "page.html").write_text(comparison_html(words_of(count, name=name)), encoding="utf-8")
    call = [
        browser,
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--no-pdf-header-footer",
        f"--print-to-pdf={tmp_path / 'page.pdf'}",
    ]
    subprocess.run([*call, str(tmp_path / "page.html")], check=True, capture_output=True, timeout=120)
    assert len(PdfReader(tmp_path / "page.pdf").pages) == 1
