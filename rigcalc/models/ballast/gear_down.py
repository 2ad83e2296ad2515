"""Gear up, throttle down: the same ground speed at a lower engine speed, what fuel it saves, and the torque that is left."""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.core.errors import Fault, InputError
from rigcalc.equations import gearing as book
from rigcalc.models.machine.engine import burn, saved_by_throttling, torque_at
from rigcalc.models.machine.field import in_field
from rigcalc.models.machine.operating_point import Point, solve
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.rig.rig import Rig

LEAST_SPEED = 0.5  # the fuel equation's range ends here (d497, from memory); the engine's own manual may end earlier
RESERVE = 0.10  # our assumption: less torque in hand than this, and hard spots lug the engine down


@dataclass(frozen=True)
class GearChoice:
    """One gear that can give the ground speed. engine_speed and load are shares of rated speed and rated power.

    rpm is None without rated_speed. torque_used and torque_there are multiples of the torque at rated power; reserve is the
    share left. fuel in L/h; saved is the share saved against the same work at rated speed. state: "fits", "below_lowest"
    (engine speed), "too_much_torque" (the engine can't give it) or "little_torque" (less in hand than `RESERVE`).
    """

    name: str
    gear_speed: float
    engine_speed: float
    rpm: float | None
    load: float
    torque_used: float
    torque_there: float
    reserve: float
    fuel: float
    saved: float
    state: str

    @property
    def fits(self) -> bool:
        """True where reserve and engine speed are in order."""
        return self.state == "fits"


def gear_choices(
    rig: Rig, draft_factor: float = 1.0, b: BareRig | None = None, point: Point | None = None
) -> tuple[GearChoice, ...]:
    """Give every gear of the rig file that can give the job's ground speed, the lowest first.

    draft_factor: the job's draft as a multiple of the rig's. b, point: the rig's bare numbers and the job's operating point,
    where they are known already. Raises InputError without [gears], and where the tractor can't
    pull the job.
    """
    gears = rig.gears
    if gears is None:
        raise InputError([Fault("gears", "no [gears] in the rig file", "the speeds of the gears",
                                '[gears] with speeds = ["4.2 mph", "5.0 mph", "5.9 mph"]')])  # fmt: skip
    b = in_field(rig) if b is None else b
    p = solve(b, draft_factor=draft_factor) if point is None else point
    load, wheel_speed = float(p.engine_share), float(p.no_slip_speed)
    if not load > 0:
        raise InputError([Fault("work", "a job that this tractor can't pull, or that needs no power", "a job that takes power",
                                "another depth or speed")])  # fmt: skip
    rated = gears.rated_speed.to("rpm") if gears.rated_speed else None
    lowest = gears.lowest_speed.to("rpm") / rated if gears.lowest_speed and rated else LEAST_SPEED
    out = []
    for place, measure in enumerate(gears.speeds):
        speed = measure.to("km/h")
        ratio = float(book.engine_speed_in_gear.bare(wheel_speed, speed))
        if ratio > 1.0 + 1e-9:  # a gear for just this speed counts, however its speed was rounded
            continue
        ratio = min(ratio, 1.0)
        used = float(book.torque_used.bare(load, ratio))
        there = float(torque_at(b, ratio))
        reserve = float(book.torque_reserve.bare(used, there))
        state = "fits"
        if ratio < lowest:
            state = "below_lowest"
        elif reserve < 0:
            state = "too_much_torque"
        elif reserve < RESERVE:
            state = "little_torque"
        name = gears.names[place] if gears.names else str(place + 1)
        out.append(GearChoice(name, speed, ratio, rated * ratio if rated else None, load, used, there, reserve,
                              float(burn(b, load, ratio)), float(saved_by_throttling(load, ratio)),
                              state))  # fmt: skip
    return tuple(out)


def best_gear(choices: tuple[GearChoice, ...]) -> GearChoice | None:
    """Give the gear that fits and burns least; None where none fits."""
    fitting = [choice for choice in choices if choice.fits]
    return min(fitting, key=lambda choice: choice.fuel) if fitting else None
