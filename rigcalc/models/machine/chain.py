"""The chain from draft to fuel, a step a name: each is worked out when first asked for, so what nobody wants costs nothing.

Every step puts the book's equations together through `use`. With `plain` they run on bare numbers and the running gear takes
its quick way (`grip.py`); with a recorder each equation is evaluated as it stands in the book. A test holds both together.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from rigcalc.equations import balance, capacity, draft, draft_shift, fuel, power, traction_wheel
from rigcalc.models.machine import engine, statics
from rigcalc.models.machine.draft_force import draft_force
from rigcalc.models.machine.draws import Draws, likely_of
from rigcalc.models.machine.grip import Grip, QuickGrip
from rigcalc.models.machine.once import once
from rigcalc.models.machine.statics import Use, plain
from rigcalc.models.rig.bare import BareRig


class Chain:
    """The operating point of one rig, step by step; the units of each name stand in `operating_point.UNITS`.

    draft_factor, cone_factor: multiply draft and cone index. use: how an equation of the book is evaluated. drawn: what is
    uncertain, as combinations; the likely one where it is None.
    """

    def __init__(
        self, b: BareRig, draft_factor: Any = 1.0, cone_factor: Any = 1.0, use: Use = plain, drawn: Draws | None = None
    ):
        self.b, self.use, self.drawn = b, use, drawn
        self.draft_factor, self.cone_factor = draft_factor, cone_factor
        self.depth, self.speed, self.tools = b.depth, b.speed, b.tools

    # --- what pulls back -------------------------------------------------------------------------------------------

    @once
    def draft(self) -> Any:
        """Draft of the tool, kN."""
        return draft_force(self.b, self.use, self.drawn) * self.draft_factor

    @once
    def width(self) -> Any:
        """Working width, m."""
        return self.b.tools * self.b.spacing

    @once
    def drawbar_pull(self) -> Any:
        """Draft, rolling of the implement and its part of the grade, kN."""
        b, use = self.b, self.use
        force = self.draft
        rolling = use(balance.implement_rolling_resistance, b.rolling_ratio, b.implement_weight * b.wheel_share)
        # Sums of single numbers first: they cost nothing, whatever the draft's shape.
        return force + (rolling + use(balance.grade_resistance, b.implement_weight, b.grade))

    @once
    def net_pull(self) -> Any:
        """What the running gear has to give: drawbar pull and the tractor's own part of the grade, kN."""
        return self.drawbar_pull + self.use(balance.grade_resistance, self.b.weight, self.b.grade)

    # --- what stands on the ground ---------------------------------------------------------------------------------

    @once
    def _ahead(self) -> Any:
        return statics.center_ahead(self.b, self.use)

    @once
    def _rest(self) -> tuple[Any, Any]:
        return statics.gear_loads(self.b, *statics.axle_loads(self.b, self._ahead, 0.0, 0.0))

    @once
    def _stands(self) -> statics.Standing:
        b, pull = self.b, self.drawbar_pull
        ends = statics.axle_loads(b, self._ahead, pull, b.hitch_load, self.use)
        return statics.Standing(b, self._ahead, pull, ends, self.use)

    @once
    def _loads(self) -> tuple[Any, Any]:
        return statics.gear_loads(self.b, self._stands.front, self._stands.rear)

    @property
    def tipping(self) -> Any:
        """How near the tractor is to tipping over: 1 where an end leaves the ground."""
        return self._stands.share

    @property
    def resultant_ahead(self) -> Any:
        """Place of the load ahead of the middle of two tracks, m; NaN for other tractors."""
        return self._stands.resultant

    @once
    def _needed(self) -> Any:
        # A tractor that tips over has no contact to reckon with: no slip, no peak, nothing that stands on them.
        return np.where(self._stands.tips, np.nan, self.net_pull)[()] if np.any(self._stands.tips) else self.net_pull

    @property
    def front_load_at_rest(self) -> Any:
        """Front axle load at rest without the implement, kN."""
        return self._rest[0]

    @property
    def rear_load_at_rest(self) -> Any:
        """Rear axle load at rest without the implement, kN."""
        return self._rest[1]

    @property
    def front_load(self) -> Any:
        """Front axle load under pull, kN."""
        return self._loads[0]

    @property
    def rear_load(self) -> Any:
        """Rear axle load under pull, kN."""
        return self._loads[1]

    # --- grip ------------------------------------------------------------------------------------------------------

    @once
    def grip(self) -> Grip:
        """The running gear at these axle loads, with the mobility numbers of its wheels."""
        b = self.b
        grip = QuickGrip(self.use) if self.use is plain else Grip(self.use)
        drawn = likely_of(b) if self.drawn is None and b.told is not None else self.drawn
        factor = self.cone_factor if drawn is None else self.cone_factor * drawn.cone
        factor = np.asarray(factor, float)[()]
        read = b.told is not None and self.drawn is None
        cone = self.use(draft_shift.cone_index_as_read, b.cone_index, factor) if read else b.cone_index * factor
        grip.front_mobility = grip.axle(b, b.front, self.front_load, cone) if b.front else np.nan
        if b.multipass and b.front and b.front.kind != "track" and b.rear.kind != "track":
            cone = self.use(traction_wheel.cone_index_after_pass, cone, grip.front_mobility)
        grip.rear_mobility = grip.axle(b, b.rear, self.rear_load, cone)
        return grip

    @property
    def front_mobility(self) -> Any:
        """Mobility number of the front wheels; NaN without."""
        return self.grip.front_mobility

    @property
    def rear_mobility(self) -> Any:
        """Mobility number of the rear wheels; NaN without."""
        return self.grip.rear_mobility

    @once
    def slip(self) -> Any:
        """Slip; NaN where it can't pull."""
        return self.grip.slip(self._needed)

    @property
    def slip_at_peak(self) -> Any:
        """Slip at which net pull is greatest."""
        return self.grip.peak[0]

    @property
    def peak_pull(self) -> Any:
        """The most net pull, kN; NaN where the tractor tips over."""
        return np.where(self._stands.tips, np.nan, self.grip.peak[1])[()] if np.any(self._stands.tips) else self.grip.peak[1]

    @once
    def missing_pull(self) -> Any:
        """Net pull that is missing, kN; 0 where it pulls."""
        return np.where(np.isfinite(self.slip), 0.0, self._needed - self.peak_pull)

    # --- from the axles back to the engine -------------------------------------------------------------------------

    @once
    def axle_force(self) -> Any:
        """Gross traction of all driven axles, kN; none where slope and tool push the tractor on."""
        force = self.grip.force_in_pull(self.slip, self._needed)
        return np.where(self._pushed, 0.0, force)[()] if np.any(self._pushed) else force

    @once
    def _pushed(self) -> Any:
        over = self._needed + self.grip.resistance
        return False if np.min(over, initial=np.inf) > 0 else over <= 0

    @once
    def braking(self) -> Any:
        """What engine and brakes hold back where slope and tool push the tractor on, kN."""
        if not np.any(self._pushed):
            return 0.0 * self.slip
        return np.maximum(self.use(balance.braking_force, -self._needed, self.grip.rolling), 0.0)

    @once
    def no_slip_speed(self) -> Any:
        """Speed at which the running gear turns, km/h."""
        return self.use(power.no_slip_speed, self.b.speed, self.slip)

    @once
    def axle_power(self) -> Any:
        """Power at the driven axles, kW."""
        return self.use(power.axle_power, self.axle_force, self.no_slip_speed / 3.6)

    @once
    def pto_power(self) -> Any:
        """Power at the power take-off that goes with it, kW."""
        return self.axle_power / self.b.axle_ratio

    @once
    def engine_share(self) -> Any:
        """Share of rated power in use."""
        return self.pto_power / self.b.rated_pto

    @once
    def engine_power(self) -> Any:
        """Power in the rating that the rig file names, kW."""
        return self.pto_power * self.b.engine_per_pto

    # --- what comes of it ------------------------------------------------------------------------------------------

    @once
    def specific_draft(self) -> Any:
        """Draft for each unit of tilled cross-section, kPa."""
        return self.use(draft.specific_draft, self.draft, self.width, self.b.depth / 100)

    @once
    def drawbar_power(self) -> Any:
        """Power that leaves through the drawbar, kW; NaN where it can't pull."""
        return self.use(power.drawbar_power, self.drawbar_pull + 0 * self.slip, self.b.speed)

    @once
    def tractive_efficiency(self) -> Any:
        """Share of axle power that arrives as net pull at ground speed; none (NaN) where nothing is pulled."""
        useful, spent = np.asarray(self.net_pull * self.b.speed / 3.6), np.asarray(self.axle_power)
        pulls = (useful > 0) & (spent > 0)
        if pulls.all():
            return np.divide(useful, spent)[()]
        return np.divide(useful, spent, out=np.full(np.broadcast_shapes(useful.shape, spent.shape), np.nan), where=pulls)[()]

    @once
    def field_capacity(self) -> Any:
        """Area for each hour, ha/h; NaN where it can't pull."""
        b = self.b
        return self.use(capacity.effective_field_capacity, b.speed, self.width, b.field_efficiency) + 0 * self.slip

    @once
    def fuel_rate(self) -> Any:
        """Fuel for each hour, L/h."""
        return engine.burn(self.b, self.engine_share, self.b.engine_speed_share, self.use)

    @once
    def mean_fuel_rate(self) -> Any:
        """Fuel for each hour in the field, turns and stops counted in, L/h."""
        turning = engine.burn(self.b, engine.TURNING_LOAD, self.b.engine_speed_share)
        return self.use(fuel.fuel_rate_in_field, self.fuel_rate, turning, self.b.field_efficiency)

    @once
    def fuel_per_area(self) -> Any:
        """Fuel for each area, L/ha."""
        return self.use(fuel.fuel_per_area, self.mean_fuel_rate, self.field_capacity)

    @once
    def def_rate(self) -> Any:
        """Exhaust fluid for each hour, L/h."""
        return self.use(fuel.def_use, self.mean_fuel_rate, self.b.def_share)
