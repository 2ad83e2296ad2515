"""What a setup sheet says, read back out of its PDF and its HTML."""

from __future__ import annotations

import io
from html.parser import HTMLParser
from typing import Any

from pypdf import PdfReader


def pdf_text(pdf: bytes) -> str:
    """Give the text of a PDF that must have two pages, with every run of blanks as one."""
    return " ".join(pdf_pages(pdf))


def pdf_pages(pdf: bytes) -> list[str]:
    """Give the text of both pages."""
    reader = PdfReader(io.BytesIO(pdf))
    assert len(reader.pages) == 2
    return [flat(page.extract_text()) for page in reader.pages]


def sizes_of(page: Any) -> list[float]:
    """Give the sizes of print on a page, in points."""
    sizes: list[float] = []
    page.extract_text(
        visitor_text=lambda text, cm, tm, _font, size: sizes.append(abs(cm[0] * tm[0] * size)) if text.strip() else None
    )
    return sizes


def flat(text: str) -> str:
    """Give text with every run of blanks as one and the invisible places where a long word may break left out."""
    return " ".join(text.replace("\u200b", "").split())


class _Text(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.words: list[str] = []
        self.tags: list[str] = []
        self.links: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Keep the tag, and whatever could lead outside."""
        self.tags.append(tag)
        self.links += [str(value) for name, value in attrs if name in ("src", "href", "action", "data", "srcset")]

    def handle_data(self, data: str) -> None:
        """Keep the words that are shown."""
        self.words.append(data)


def read_html(page: str) -> _Text:
    """Read a page as a browser would."""
    reader = _Text()
    reader.feed(page)
    return reader
