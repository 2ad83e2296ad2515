"""A reading from the field, and what it tells: of draft and soil, of the monitor, of what to read next, of our own word.

`adding.py` puts one beside a rig, `foretold.py` says what a reading will show before it is made, `tells.py` which number told
what and which don't go together, `before_after.py` what they change at each depth, `next_reading.py` what to read next,
`record.py` how often what was foretold came true, `log.py` takes steady stretches out of a display's log, `can_log.py` of the
tractor's bus, `task_data.py` of ISO 11783-10 task data (`task_files.py`, `task_xml.py`, `task_header.py`); `positions.py`
lays positions on a plane, `field_map.py` what was read along them. `zones.py` says how headland and cart lanes go. What
changes in every other answer is worked in `machine/field.py`.
"""

from rigcalc.models.reading.foretold import foretold
from rigcalc.models.reading.next_reading import next_reading
from rigcalc.models.reading.record import record
from rigcalc.models.reading.tells import tells

__all__ = ["foretold", "next_reading", "record", "tells"]
