"""The season: what the clock leaves, fuel, days fit for work, whether it is done in time, and what it costs.

`plan.py` reads what the farm does (`reading_plan.py` its texts), `day.py` builds the real day, `record.py` holds the days
fit for work year by year (worked out by `workable.py`, from a file and a bucket of `models/machine`), `rate.py` the
area an hour that each likely field allows, `finish.py` runs whole seasons, `change.py` looks at what would help, `money.py`
adds up the costs, `answer.py` puts it all together, `abreast.py` lays cost against chance.
"""

from rigcalc.models.season.answer import SeasonAnswer, season
from rigcalc.models.season.plan import Plan, load_plan, plan_from

__all__ = ["Plan", "SeasonAnswer", "load_plan", "plan_from", "season"]
