"""A display's log in words: how its time was spent, what was thrown away, and the steady stretches."""

from __future__ import annotations

from collections.abc import Iterator

from rigcalc.models.reading.log import STATES, Passes, Stretch
from rigcalc.models.reading.task_data import TaskLog
from rigcalc.words.numbers import System, percent, say

# In front of what is kept of a log's columns.
COLUMNS_HEAD = """Which column of the logs in this folder is what, for `rigcalc reading log`.
Yours to change; delete it to be asked again."""
ENGINE_SPEED_UNUSED = (
    "The log's engine speed isn't used, for the rig has no rated engine speed: the engine is taken to turn as the rig has it. "
    "With rated_speed under [gears] it is."
)
# What was done, in a word or two.
DONE = {"steady": "steady work", "unsteady": "other work", "short": "other work, short", "turning": "turning or up",
        "stopped": "standing", "no_data": "no data", "headland": "headland"}  # fmt: skip
_SPENT = {
    "steady": "steady work",
    "unsteady": "work that wasn't steady, thrown away",
    "short": "steady for too short a time, thrown away",
    "turning": "turning, or the tool up, thrown away",
    "stopped": "standing, thrown away",
    "no_data": "without data, thrown away",
    "headland": "worked across the others, on the headland: kept apart",
}


_SPEED_FROM = {"radar": "radar or satellite, as the tractor's bus has it", "positions": "the positions",
               "actual": "the speed that the machine goes by: if that is the wheels', slip is in it"}  # fmt: skip


def log_lines(found: TaskLog) -> Iterator[str]:
    """Say which task it is, and where its speed over the ground comes from."""
    logs = "1 log" if found.logs == 1 else f"{found.logs} logs"
    yield f"Task {found.task or 'without a name'}: {logs}, {found.columns['time'].size:,} records."
    yield f"Speed over the ground from {_SPEED_FROM[found.speed_from]}."


def spent_lines(found: Passes) -> Iterator[str]:
    """Say how the time of a log was spent."""
    whole = sum(found.seconds.values())
    for state in STATES:
        seconds = found.seconds[state]
        if seconds > 0:
            yield f"{_minutes(seconds)} ({percent(seconds / whole)}): {_SPENT[state]}"


def stretch_text(stretch: Stretch, units: System) -> str:
    """Say what a stretch read."""
    means = stretch.means
    parts = [f"{_minutes(stretch.seconds)} at {say(means['speed'], 'km/h', units)}"]
    for name, title, unit in (("slip", "slip", "1"), ("wheel_speed", "wheel speed", "km/h"), ("load", "engine load", "1"),
                              ("torque", "engine torque", "1"), ("fuel_rate", "fuel rate", "L/h"), ("pull", "pull", "kN"),
                              ("depth", "depth", "cm")):  # fmt: skip
        if name in means:
            parts.append(f"{title} {percent(means[name]) if unit == '1' else say(means[name], unit, units)}")
    return ", ".join(parts)


def _minutes(seconds: float) -> str:
    return f"{seconds / 60:.1f} min"
