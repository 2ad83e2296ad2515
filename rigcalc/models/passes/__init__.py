"""Fields as they are: passes laid into them at any heading, the best heading by time, a farm's order.

Boundaries are read in models/land. `lay.py` lays rounds and passes, `turning.py` a turn, `heading.py` tries headings,
`order.py` orders the fields, `answer.py` puts it together.
"""

from rigcalc.models.passes.answer import FieldAnswer, field

__all__ = ["FieldAnswer", "field"]
