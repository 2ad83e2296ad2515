"""Widgets as they stand, kept in one HTML page: no kernel, no server, no network.

`nbconvert --to html` makes such a page too, but one that fetches ipywidgets' own script from a network when it is opened.
"""

from __future__ import annotations

import base64
import json
import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import ipywidgets
from markupsafe import Markup

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.widgets.figure import Figure
from rigcalc.widgets.figure_script import plotly_script
from rigcalc.widgets.page_look import look
from rigcalc.widgets.part import Part, script
from rigcalc.widgets.templates import render

_BOXES = (ipywidgets.Box, ipywidgets.Tab, ipywidgets.Accordion, ipywidgets.Stack)
_IN_A_ROW = ipywidgets.HBox


def save_page(file: str | os.PathLike[str], *widgets: ipywidgets.Widget, title: str = "rigcalc", force: bool = False) -> Path:
    """Write widgets as they stand to an HTML file, and give its path.

    Parameters
    ----------
    file : str or path
        Where to write; its end must be .html.
    widgets : Widget
        Widgets of rigcalc's, boxes of them, and ipywidgets' HTML and Label. What needs a calculation is shown switched off.
    title : str
        The page's title.
    force : bool
        Write over a file that is there.

    Raises
    ------
    InputError
        For a file that is there or can't be written, no widget, and widgets that can't be kept; all at once.
    """
    path, end = Path(file), "a name that ends in .html"
    faults = [] if path.suffix.lower() == ".html" else [Fault("file", shown(path.name), end, "rig.html")]
    try:
        text = page_of(*widgets, title=title)
    except InputError as error:
        faults += error.faults
    if path.exists() and not force:
        faults.append(Fault("file", shown(path.name), "a file that isn't there yet", "another name, or force=True"))
    if faults:
        raise InputError(faults)
    try:
        path.write_text(text, encoding="utf-8")
    except OSError as error:
        raise InputError([Fault("file", shown(str(path)), f"a place that can be written to ({error.strerror})")]) from None
    return path


def page_of(*widgets: ipywidgets.Widget, title: str = "rigcalc") -> str:
    """Give the page's text. Raises InputError for no widget and for widgets that can't be kept, all at once."""
    scripts: list[str] = []
    odd: list[Fault] = [] if widgets else [Fault("widgets", "none", "a widget", 'AnswerCard("two_track")')]
    places = [_place(widget, scripts, odd) for widget in widgets]
    if odd:
        raise InputError(odd)
    kept = [_plain("saved", json.dumps({"scripts": scripts, "shown": places}).replace("<", "\\u003c"), "application/json")]
    if any(isinstance(each, Figure) for widget in widgets for each in _inside(widget)):
        kept.append(_plain("plotly", plotly_script().read_text(encoding="utf-8"), "text/plain"))
    kept.append(f"<script>{script('static.js')}</script>")
    sheet = Markup(look())  # noqa: S704 (our own style sheets)
    return str(render(__file__, "static.html.j2", title=title, look=sheet, kept=Markup("\n".join(kept))))  # noqa: S704


def _plain(name: str, text: str, kind: str) -> str:
    """Give a text that a script of the page reads; it must not end the element that holds it."""
    text = text.replace("</script", r"<\/script")
    return f'<script type="{kind}" id="{name}">{text}</script>'


def _place(widget: Any, scripts: list[str], odd: list[Fault]) -> dict[str, Any]:
    classes = [name for name in getattr(widget, "_dom_classes", ()) if name.startswith("rig-")]
    if isinstance(widget, Part):
        widget.complete()
        code = str(widget._esm)
        if code not in scripts:
            scripts.append(code)
        state = {
            name: value for name, value in widget.get_state().items() if not name.startswith("_") and name not in _NOT_SHOWN
        }
        return {"classes": classes, "script": scripts.index(code), "state": _frozen(state)}
    if isinstance(widget, _BOXES):
        row = ["rig-row"] if isinstance(widget, _IN_A_ROW) else []
        return {"classes": [*classes, *row], "children": [_place(child, scripts, odd) for child in widget.children]}
    if isinstance(widget, ipywidgets.HTML):
        return {"classes": classes, "html": widget.value}
    if isinstance(widget, ipywidgets.Label):
        return {"classes": classes, "html": str(Markup.escape(widget.value))}
    odd.append(Fault("widgets", type(widget).__name__, "a widget of rigcalc's, a box, an HTML or a Label"))
    return {}


_NOT_SHOWN = frozenset(["layout", "tabbable", "tooltip", "held_by"])


def _inside(widget: Any) -> Iterator[Any]:
    yield widget
    for child in getattr(widget, "children", ()):
        yield from _inside(child)


def _frozen(value: Any) -> Any:
    """Replace bytes by text."""
    if isinstance(value, bytes | memoryview):
        return {"@bytes": base64.b64encode(bytes(value)).decode()}
    if isinstance(value, dict):
        return {key: _frozen(item) for key, item in value.items()}
    return [_frozen(item) for item in value] if isinstance(value, list | tuple) else value
