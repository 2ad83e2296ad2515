"""This one or that one: two to eight rigs, or one with variations, side by side.

A question about answers: `answer.py` asks `size` of each rig with the same draws, `choice.py` decides which is ahead and
whether that matters, `figures.py` lists what is laid side by side, `vary.py` makes the variations of a rig,
`alike.py` asks them all what the first is asked.
"""

from rigcalc.models.compare.answer import Compared, Comparison, compare
from rigcalc.models.compare.choice import Choice, Outcome
from rigcalc.models.compare.vary import variations

__all__ = ["Choice", "Compared", "Comparison", "Outcome", "compare", "variations"]
