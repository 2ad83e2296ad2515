"""Take it along: one HTML file with the answer, its sheet and sliders over a table of answers. No server, no network."""

from rigcalc.views.along.page import take_along

__all__ = ["take_along"]
