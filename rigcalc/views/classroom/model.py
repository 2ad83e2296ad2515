"""The model behind the part to practice with: it has nothing to compute but shares the ways of every model."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from rigcalc.widgets.model import AppModel


class PracticeModel(AppModel):
    """State that is the widget's own stands in the widget; this one carries faults and the unit system."""

    def compute(self, inputs: Mapping[str, str]) -> Any:
        """Give nothing: a problem is drawn by the widget."""
        return None
