"""What people see: figures, the app, the terminal and the setup sheet. Nothing here is imported until it is used."""

from __future__ import annotations

from importlib import import_module
from typing import Any

_WHERE = {"SizeApp": "size.app", "BallastApp": "ballast.app", "CompareApp": "compare.app", "RigPages": "pages"}


def __getattr__(name: str) -> Any:
    """Give `SizeApp`, `BallastApp`, `CompareApp` or `RigPages` on first use, so that the terminal never loads a widget."""
    if name in _WHERE:
        return getattr(import_module(f"rigcalc.views.{_WHERE[name]}"), name)
    raise AttributeError(f"module 'rigcalc.views' has no attribute {name!r}")
