"""Which tractor for this tool, and how wide a tool for this tractor, with power in reserve.

A question about answers: `classes.py` makes a tractor of a drive and a power by rule, `trial.py` puts one job to the limits
and the judgement of `size`, `answer.py` seeks the smallest tractor and the widest tool, and asks `size` of each it names.
"""

from rigcalc.models.shortlist.answer import Fit, Shortlist, Widest, shortlist
from rigcalc.models.shortlist.classes import DRIVES

__all__ = ["DRIVES", "Fit", "Shortlist", "Widest", "shortlist"]
