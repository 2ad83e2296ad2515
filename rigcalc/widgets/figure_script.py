"""Where plotly's own script lies, found without importing plotly."""

from __future__ import annotations

from importlib.util import find_spec
from pathlib import Path


def plotly_script() -> Path:
    """Give the place of plotly's script. Raises ModuleNotFoundError with the line that installs it."""
    found = find_spec("plotly")
    if found is None or not found.submodule_search_locations:
        raise ModuleNotFoundError("the pictures need plotly: pip install 'rigcalc[app]'")
    return Path(found.submodule_search_locations[0]) / "package_data" / "plotly.min.js"
