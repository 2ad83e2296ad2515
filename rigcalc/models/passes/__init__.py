"""Fields as they are: boundaries from a file, passes laid into them at any heading, the best heading by time, a farm's order.

`files.py` reads a file, `geojson.py` and `shape_file.py` each kind, `boundary.py` looks it over, `plane.py` turns degrees
into metres. `lay.py` lays rounds and passes, `turning.py` a turn, `heading.py` tries headings, `order.py` orders the fields,
`answer.py` puts it together.
"""

from rigcalc.models.passes.answer import FieldAnswer, field

__all__ = ["FieldAnswer", "field"]
