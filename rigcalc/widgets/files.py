"""Files that somebody picks in a browser: limited in size, read strictly."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.widgets.model import AppModel

MOST_UPLOADED = 1_000_000  # bytes


def take_file(model: AppModel, value: Any) -> None:
    """Start from a file that was picked: a mapping with `name`, `size` and `text`. Raises InputError where it is none."""
    model.forget_complaints()  # those of the file before
    size, text = (value.get("size"), value.get("text", "")) if isinstance(value, Mapping) else (None, "")
    if not isinstance(size, int | float) or not isinstance(text, str):
        raise InputError([Fault("file", shown(value), "a file")])
    if size > MOST_UPLOADED:
        got = f"a file of {size / 1e6:,.1f} MB named {shown(value.get('name', ''))}"
        raise InputError([Fault("file", got, "a rig file, a few thousand letters of text", "another file")])
    model.start_from_toml(text)
