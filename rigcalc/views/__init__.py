"""What people see: figures, the app, the terminal and the setup sheet. Nothing here is imported until it is used."""

from __future__ import annotations

from typing import Any


def __getattr__(name: str) -> Any:
    """Give `SizeApp` or `BallastApp` on first use, so that the terminal never loads a widget."""
    if name == "SizeApp":
        from rigcalc.views.size.app import SizeApp

        return SizeApp
    if name == "BallastApp":
        from rigcalc.views.ballast.app import BallastApp

        return BallastApp
    raise AttributeError(f"module 'rigcalc.views' has no attribute {name!r}")
