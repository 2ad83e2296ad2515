"""Who has a calculation of their own: at most so many at once, none that nobody looks at."""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

FIRST_SOCKET = 20.0  # seconds in which a page that was sent has to connect to its calculation
WITHOUT_SOCKET = 180.0  # seconds that a calculation waits for a page whose connection broke off, as after a tab crashed
MEMORY_EACH = 110e6  # bytes of a calculation; docs/app_speed.md measures 97 MB
MEMORY_SHARE = 0.5  # of what is free when the server starts
EACH_CORE = 24  # forty at once stay quick on two cores (docs/app_speed.md)
_CGROUP = Path("/sys/fs/cgroup/memory.max")  # what a container may take, where there is one


def most_visits(free: float | None = None, cores: int | None = None) -> int:
    """Give how many calculations this computer carries at once, by its free memory in bytes and its cores; at least 2."""
    if cores is None:
        cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    free = _free_memory() if free is None else free
    return max(2, min(EACH_CORE * cores, int(MEMORY_SHARE * free / MEMORY_EACH)))


def _free_memory() -> float:
    import psutil  # ipykernel brings it

    free = float(psutil.virtual_memory().available)
    try:
        allowed = _CGROUP.read_text().strip()
    except OSError:
        return free
    return min(free, float(allowed)) if allowed.isdecimal() else free


@dataclass(eq=False)
class Place:
    """One visitor's place: the name of the calculation once there is one, and when a page last held on to it."""

    kernel: str = ""
    sent: bool = False  # the whole page has gone out
    met: bool = False  # the page has connected to its calculation at least once
    since: float = field(default_factory=time.monotonic)


class Visits:
    """The places of a server. `manager` is the one that starts and ends calculations."""

    def __init__(
        self, manager: Any, most: int, first: float = FIRST_SOCKET, later: float = WITHOUT_SOCKET,
        clock: Callable[[], float] = time.monotonic,
    ):  # fmt: skip
        self.manager, self.most, self.first, self.later, self._clock = manager, most, first, later, clock
        self._places: set[Place] = set()

    def take(self) -> Place | None:
        """Give a place, or None where all are taken."""
        self._places = {place for place in self._places if not place.kernel or place.kernel in self.manager}
        if len(self._places) >= self.most:
            return None
        place = Place(since=self._clock())
        self._places.add(place)
        return place

    def was_sent(self, place: Place) -> None:
        """Note that a place's page has gone out; from now on it has to connect."""
        place.sent, place.since = True, self._clock()

    async def give_up(self, place: Place) -> None:
        """Free a place and end its calculation."""
        self._places.discard(place)
        await self._end(place.kernel)

    async def tidy(self) -> None:
        """End the calculations that no page holds on to any more."""
        now = self._clock()
        for place in [place for place in self._places if place.sent]:
            if self.manager._kernel_connections.get(place.kernel, 0) > 0:
                place.met, place.since = True, now
            elif now - place.since > (self.later if place.met else self.first):
                await self.give_up(place)

    async def _end(self, kernel: str) -> None:
        if kernel and kernel in self.manager:
            try:
                await self.manager.shutdown_kernel(kernel, now=True)
            except (KeyError, RuntimeError):
                pass  # it ended by itself in the meantime
