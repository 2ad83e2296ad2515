"""A log of any kind, read by what it is: a display's table, the tractor's bus, or task data; and its stretches as readings."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from rigcalc.models.reading.can_log import SUFFIXES, read_can
from rigcalc.models.reading.log import Column, Stretch, entries, read_log
from rigcalc.models.reading.task_data import TaskLog, read_task_data
from rigcalc.models.reading.task_files import is_task_data
from rigcalc.models.rig.rig import Rig

KINDS = ("csv", "bus", "task")


@dataclass(frozen=True, eq=False)
class AnyLog:
    """A log that was read. columns: by name, arrays as `read_log` gives them. load_of: what its load is a share of. task: of
    task data."""  # fmt: skip

    columns: dict[str, Any]
    load_of: str | None
    task: TaskLog | None = None

    def day(self, stretch: Stretch) -> str | None:
        """Give the day that the log itself says of a stretch; None where it says none."""
        return self.task.day(stretch.first) if self.task is not None else None


def log_kind(path: Path, named: bool = False) -> str:
    """Say what a log is, one of KINDS. named: columns were named for it, so it is a table whatever its file is called."""
    if is_task_data(path):
        return "task"
    return "bus" if path.suffix.lower() in SUFFIXES and not named else "csv"


def read_any(
    path: Path,
    kind: str,
    columns: Mapping[str, Column] | None = None,
    load_of: str | None = None,
    task: str | None = None,
    progress: Callable[[float], None] | None = None,
) -> AnyLog:
    """Read a log. kind: one of KINDS. columns, load_of: of a table alone. task: of task data where several have logs.

    progress: told the share that is done now and then; what it raises stops the reading. Raises InputError.
    """
    if kind == "task":
        found = read_task_data(path, task, progress)
        return AnyLog(found.columns, "available", found)  # on the bus, load is of what the engine gives at its speed
    if kind == "bus":
        return AnyLog(read_can(path, progress), "available")
    return AnyLog(read_log(path, columns or {}, progress), load_of)


def stretch_entries(rig: Rig, log: AnyLog, stretch: Stretch, note: str, zone: str = "") -> dict[str, str]:
    """Give a stretch as entries of a reading, all but its depth, which a log may hold; its day where the log says it.

    An engine speed that the rig can't take is left out (`engine_speed_used`).
    """
    made = entries(stretch, log.load_of)
    if not engine_speed_used(rig, made):
        made.pop("engine_speed", None)
    day = log.day(stretch)
    return made | {"note": note[:200], "zone": zone} | ({} if day is None else {"date": day})


def engine_speed_used(rig: Rig, made: Mapping[str, str]) -> bool:
    """Say whether a log's engine speed is of use: as a share of the rated one, which the rig has to know.

    Torque tells nothing without it, so there it stays, and adding the reading asks for the rated speed.
    """
    return (rig.gears is not None and rig.gears.rated_speed is not None) or made.get("load_of") == "torque"
