"""Statics: what each axle carries at rest, under pull, on the road and with a tool raised; the pull that lifts the front.

The one home of the moment balance: the book's two equations for axle loads are put together here and nowhere else. At a
given pull the loads are straight functions of the two static axle masses, which is what `Situations` holds.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.core.equation import Equation
from rigcalc.core.units import mass_of
from rigcalc.equations import balance, contact
from rigcalc.equations import ballast as book
from rigcalc.models.machine.once import once
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.rig.rig import Rig

Use = Callable[..., Any]
Straight = tuple[float, float, float]  # per kg on the front axle, per kg on the rear axle, kg


def plain(eq: Equation, *values: Any) -> Any:
    """Evaluate an equation of the book on bare numbers: the usual `use`, which keeps no record."""
    return eq.bare(*values)


def center_ahead(b: BareRig, use: Use = plain) -> Any:
    """Give how far the center of gravity lies ahead of the rear axle (of two tracks: of the rear end roller), m.

    Two tracks whose front mass is not known are taken to balance in the middle.
    """
    if center_assumed(b):
        return b.wheelbase / 2
    return use(balance.center_of_gravity_ahead, b.front_weight, b.weight, b.wheelbase)


def center_assumed(b: BareRig) -> bool:
    """Say whether a two-track tractor's center of gravity is taken as in the middle, its front mass not being weighed."""
    return b.front is None and not np.any(b.front_weight)


class Standing:
    """How a tractor stands under pull, from the axle loads of the moment balance, which knows nothing of the ground.

    front, rear: loads in kN that never exceed the weight there is. tips: whether an end has left the ground.
    """

    def __init__(self, b: BareRig, ahead: Any, pull: Any, ends: tuple[Any, Any], use: Use = plain):
        self._b, self._ahead, self._pull, self._ends, self._use = b, ahead, pull, ends, use
        self.front, self.rear = ends
        if b.front is None:
            self.tips: Any = np.abs(self.resultant) >= b.rear.length / 2
            return
        self.tips = False
        # Below zero the balance would pull an axle down: the ground can't. There may be no points at all.
        if not (np.min(ends[0], initial=np.inf) >= 0 and np.min(ends[1], initial=np.inf) >= 0):
            self.tips = (ends[0] < 0) | (ends[1] < 0)
            total = ends[0] + ends[1]
            self.front = np.clip(ends[0], 0.0, total)
            self.rear = total - self.front

    @once
    def resultant(self) -> Any:
        """Place of the load ahead of the middle of two tracks, m; NaN for other tractors."""
        if self._b.front is None:
            return self._use(contact.resultant_ahead, *self._ends, self._b.wheelbase)
        return np.nan * self._ends[0]

    @once
    def share(self) -> Any:
        """How near the tractor is to tipping over: 1 where an end leaves the ground."""
        b = self._b
        if b.front is None:
            return np.abs(self.resultant) / (b.rear.length / 2)
        back = self._use(
            balance.tipping_share,
            b.weight, self._ahead, b.center_height, self._pull, b.drawbar_height, b.hitch_load, b.hitch_behind, b.grade,
        )  # fmt: skip
        back = np.maximum(back, 0.0)
        return (
            np.where(self._ends[1] < 0, self._ends[0] / (self._ends[0] + self._ends[1]), back)[()]
            if np.any(self.tips)
            else back
        )


def axle_loads(b: BareRig, ahead: Any, pull: Any, hitch_load: Any, use: Use = plain) -> tuple[Any, Any]:
    """Give the loads on front and rear axle (or end rollers of two tracks) under a drawbar pull, all in kN."""
    front = use(
        balance.front_axle_load,
        b.weight, ahead, b.center_height, b.wheelbase, pull, b.drawbar_height, hitch_load, b.hitch_behind, b.grade,
    )  # fmt: skip
    return front, use(balance.rear_axle_load, b.weight, b.grade, hitch_load, front)


def gear_loads(b: BareRig, front: Any, rear: Any) -> tuple[Any, Any]:
    """Give what front and rear running gear carry: a tractor on two tracks stands on its rear gear alone."""
    return (0.0 * front, front + rear) if b.front is None else (front, rear)


def lifting_pull(b: BareRig) -> Any:
    """Give the drawbar pull in kN that takes the last load off the front axle on the rig's grade; weights may be arrays."""
    return book.lifting_pull.bare(
        b.weight, center_ahead(b), b.center_height, b.grade, b.hitch_load, b.hitch_behind, b.drawbar_height
    )


def roller_shares(b: BareRig, pull: float) -> tuple[float, float] | None:
    """Give the shares of a two-track tractor's load on its front and rear rollers under a pull; None for other tractors.

    `wheelbase` is then the distance between the end rollers, and the axle masses those weighed under them.
    """
    if b.front is not None or not b.front_weight:
        return None
    front, rear = axle_loads(b, center_ahead(b), pull, b.hitch_load)
    return float(front / (front + rear)), float(rear / (front + rear))


@dataclass(frozen=True)
class Situations:
    """Where the two axle loads come from, each as (front, rear) straight functions of the static masses, in kg.

    raised is None where no tool is known to be carried.
    """

    rest: tuple[Straight, Straight]
    pull: tuple[Straight, Straight]
    road: tuple[Straight, Straight]
    raised: tuple[Straight, Straight] | None

    def each(self) -> dict[str, tuple[Straight, Straight]]:
        """Give those that differ by name: "rest", "pull", "road", and "raised" where the road isn't the same."""
        out = {"rest": self.rest, "pull": self.pull, "road": self.road}
        if self.raised is not None and self.raised is not self.road:
            out["raised"] = self.raised
        return out


def situations(rig: Rig, b: BareRig, pull: float) -> Situations:
    """Give the axle loads at rest, under a drawbar pull in kN, on the road (level) and with a raised tool."""
    setup = rig.setup
    on_road = setup.road_hitch_load.to("kN") if setup and setup.road_hitch_load else b.hitch_load
    road = _straight(b, 0.0, on_road, 0.0)
    tool = raised_tool(rig)
    raised = None
    if tool is not None:
        mass, behind = tool
        off_front = -book.front_mass_with_tool.bare(0.0, mass, behind, b.wheelbase)
        raised = ((1.0, 0.0, -off_front), (0.0, 1.0, mass + off_front))
        if setup is None or setup.road_hitch_load is None:
            road = raised
    return Situations(((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)), _straight(b, pull, b.hitch_load, b.grade), road, raised)


def _straight(b: BareRig, pull: float, hitch_load: float, grade: float) -> tuple[Straight, Straight]:
    """Read the straight functions off the balance itself: a kilogram over either axle, then pull and hitch alone."""
    level = b.at(grade=grade)
    parts = []
    for weights, ahead, drawn, hung in (((1.0, 0.0), b.wheelbase, 0.0, 0.0), ((0.0, 1.0), 0.0, 0.0, 0.0),
                                        ((0.0, 0.0), 0.0, pull, hitch_load)):  # fmt: skip
        parts.append(axle_loads(level.at(front_weight=weights[0], rear_weight=weights[1]), ahead, drawn, hung))
    (a, d), (e, f), (g, h) = parts
    return (float(a), float(e), float(mass_of(g))), (float(d), float(f), float(mass_of(h)))


def raised_tool(rig: Rig) -> tuple[float, float] | None:
    """Give (mass in kg, center of gravity in m behind the rear axle) of a tool carried on the hitch; None where unknown."""
    if rig.setup is not None and rig.setup.raised_mass is not None and rig.setup.raised_behind is not None:
        return rig.setup.raised_mass.to("kg"), rig.setup.raised_behind.to("m")
    scale = rig.scale
    if scale is None or scale.front_raised is None or scale.rear_raised is None:
        return None
    front, rear = rig.tractor.front_axle_mass.to("kg"), rig.tractor.rear_axle_mass.to("kg")
    mass = scale.front_raised.to("kg") + scale.rear_raised.to("kg") - front - rear
    behind = book.tool_center_behind.bare(front, scale.front_raised.to("kg"), rig.tractor.wheelbase.to("m"), mass)
    return mass, float(behind)
