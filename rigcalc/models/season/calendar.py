"""Each rig's calendar: on which days of the season it is there, and what share of all the rigs' work a day then has."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from rigcalc.core.errors import Fault
from rigcalc.models.season.plan import Plan
from rigcalc.models.season.reading_plan import day_text


def calendar_faults(plan: Plan, rigs: int, start: int, by: int) -> list[Fault]:
    """Give what is wrong with the calendars of a plan: too few or many, days out of order, or out of the season."""
    if not plan.calendar:
        return []
    if len(plan.calendar) != rigs:
        return [Fault("calendar", f"calendars of {len(plan.calendar)} rigs", f"one for each of {rigs}, in order",
                      "[[calendar]] once for each rig")]  # fmt: skip
    faults = []
    for place, each in enumerate(plan.calendar):
        comes, goes = each.comes or start, each.goes or by
        if not start <= comes <= goes <= by:
            faults.append(Fault(f"calendar.{place}", f"{day_text(comes)} to {day_text(goes)}",
                                f"days of the season, {day_text(start)} to {day_text(by)}, the first before the last",
                                f'"{day_text(start)}"'))  # fmt: skip
    return faults


def there(plan: Plan, rigs: int, start: int, by: int) -> np.ndarray:
    """Give 1 where a rig is there, else 0: an array (rigs, days). A rig more than calendars are typed has the first one's."""
    days = np.arange(start, by + 1)
    made = []
    for place in range(rigs):
        own = plan.calendar_of(place)
        made.append((days >= (own.comes or start)) & (days <= (own.goes or by)))
    return np.array(made, float).reshape(rigs, len(days))


def share_of_work(present: np.ndarray, area_a_day: Sequence[float]) -> np.ndarray:
    """Give each day's share, 0 to 1, of what all the rigs do in a fit day. present: (rigs, days); area_a_day: of each rig.

    Draft moves all the rigs of one farm alike, so the mean over the draws parts the work between them: our choice.
    """
    area = np.asarray(area_a_day, float)
    together = float(area.sum())
    found: np.ndarray = area @ present / together if together > 0 else present.mean(axis=0)
    return found
