"""What sphinx and its theme leave to be mended: formulas without a script, code in ink, what a keyboard can scroll."""

from __future__ import annotations

import re
from functools import lru_cache
from pathlib import Path
from typing import Any, ClassVar

from docutils import nodes
from latex2mathml.converter import convert
from pygments.style import Style
from pygments.token import Comment, Keyword, Name, Token, _TokenType
from sphinx.application import Sphinx

_MENDS = (
    # Empty heads of tables say nothing to who hears the page; an empty cell does no harm.
    (re.compile(r'<th class="head">(?:<p></p>)?</th>'), "<td></td>"),
    # Wide tables, code and formulas scroll sideways: they have to be reached by the keyboard for that.
    (re.compile(r'<pre>|<div class="(?:table-wrapper|math-block)[^>]*'), None),
    (re.compile(r'role="heading">'), 'role="heading" aria-level="2">'),  # sphinx's captions of the list of pages
    (re.compile(r'<aside class="sidebar-drawer"'), r'\g<0> aria-label="Pages"'),  # two asides have to be told apart
    (re.compile(r'<aside class="toc-drawer[^"]*"'), r'\g<0> aria-label="On this page"'),
    (re.compile(r'(<article role="main" id="furo-main-content">\s*)(?=<noscript>)'), r"\1<h1>Search</h1>"),
    (re.compile(r"Made with\s.*?Furo</a>", re.DOTALL), "Made with Sphinx and Furo"),  # no address outside the site itself
)


class InkOnPaper(Style):
    """Code as on paper: ink, words of the language bold, remarks set back."""

    background_color = "#f5f4ef"
    styles: ClassVar[dict[_TokenType, str]] = {
        Token: "#1b1b18", Comment: "italic #5a5952", Keyword: "bold #1b1b18", Name.Function: "#0b4f8a", Name.Class: "#0b4f8a",
    }  # fmt: skip


class PaperOnInk(Style):
    """The same at night."""

    background_color = "#201f1b"
    styles: ClassVar[dict[_TokenType, str]] = {
        Token: "#f0efe9", Comment: "italic #b5b3a8", Keyword: "bold #f0efe9", Name.Function: "#8fc3f5", Name.Class: "#8fc3f5",
    }  # fmt: skip


def mended(page: str) -> str:
    """Give a page's HTML with what scrolls in reach of the keyboard, headings with a level, landmarks with names."""
    for fault, instead in _MENDS:
        page = fault.sub(instead or (lambda tag: f'{tag[0].removesuffix(">")} tabindex="0"{">" * tag[0].endswith(">")}'), page)
    return page


_mathml = lru_cache(maxsize=None)(convert)  # a symbol stands on many lines of the book


def _inline(writer: Any, node: nodes.math) -> None:
    writer.body.append(f'<span class="math">{_mathml(node.astext())}</span>')
    raise nodes.SkipNode


def _block(writer: Any, node: nodes.math_block) -> None:
    writer.body.append(f'<div class="math-block">{_mathml(node.astext(), display="block")}</div>')
    raise nodes.SkipNode


def _same_list(app: Sphinx, name: str, template: str, context: dict[str, Any], tree: Any) -> None:
    """Let the pages that show a file share their list of pages, which is the same for a whole folder and slow to make."""
    make = context.get("toctree")
    if make and "nosearch" in (app.env.metadata.get(name) or {}):
        kept: dict[Any, str] = app.__dict__.setdefault("_kept_lists", {})
        folder = name.rpartition("/")[0]

        def shared(**how: Any) -> str:
            key = (folder, *sorted(how.items()))
            return kept[key] if key in kept else kept.setdefault(key, make(**how))

        context["toctree"] = shared


def _mend_all(app: Sphinx, error: Exception | None) -> None:
    if error is None and app.builder.format == "html":
        for path in Path(app.outdir).rglob("*.html"):
            path.write_text(mended(path.read_text(encoding="utf-8")), encoding="utf-8")


def setup(app: Sphinx) -> dict[str, Any]:
    """Tell sphinx of all this."""
    app.add_html_math_renderer("mathml", inline_renderers=(_inline, None), block_renderers=(_block, None))
    app.connect("html-page-context", _same_list, priority=100)  # before the theme asks for the list
    app.connect("build-finished", _mend_all)
    return {"parallel_read_safe": True, "parallel_write_safe": True}
