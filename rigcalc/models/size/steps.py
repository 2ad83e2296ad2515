"""The working of an answer as facts: every equation in the order of the story, for which axle or body, and the sums between.

The chain records what it evaluates. What the kernel does in closed form (motion resistance, the balance that gives slip) and
the plain sums and quotients between equations are put in where they belong.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np

from rigcalc.core.equation import Equation
from rigcalc.equations import balance, draft, power, traction_track, traction_wheel
from rigcalc.models.machine.draft_force import deep_most, gang_forces
from rigcalc.models.machine.operating_point import Point, Record, solve
from rigcalc.models.rig.bare import BareGear, BareRig

_MOTION = {"radial": traction_wheel.motion_resistance_ratio_radial, "bias": traction_wheel.motion_resistance_ratio_bias}
_GROSS = {"radial": traction_wheel.gross_traction_ratio_radial, "bias": traction_wheel.gross_traction_ratio_bias,
          "track": traction_track.track_thrust}  # fmt: skip
_GANG = {"counted": draft.implement_draft, "width": draft.implement_draft_by_width, "spread": draft.draft_without_depth}
_EACH_WHEEL = (traction_wheel.mobility_number,)
_EACH_TRACK = (traction_track.belt_mobility_number, traction_track.belt_resistance_ratio, traction_track.belt_loss,
               traction_track.belt_thrust_limit)  # fmt: skip


@dataclass(frozen=True)
class Step:
    """One equation with its values.

    of: "front", "rear", "tracks", "tractor", "implement", a gang's row of d497_draft, or empty.
    """

    equation: Equation
    values: tuple[float, ...]
    of: str = ""


@dataclass(frozen=True)
class Sum:
    """A sum or quotient between equations: its name, and its terms by name as (bare value, unit); the result likewise.

    name: "draft" (of the tool and its gangs), "drawbar_pull", "net_pull", "axle_force", "slip_balance", "pto_power",
    "engine_load" or "engine_power".
    """

    name: str
    terms: tuple[tuple[str, float, str], ...]
    value: float
    unit: str


@dataclass(frozen=True)
class _Axle:
    """One axle at the working point: loads and forces in kN; ratios where it runs on tyres."""

    of: str
    gear: BareGear
    load: float
    mobility: float


def steps(b: BareRig) -> tuple[Step | Sum, ...]:
    """Give the working of a rig's point. Steps that have no number, such as those on slip where it can't pull, are left out."""
    record: Record = []
    point = solve(b, record=record)
    told = [step for step in _named(b, record) if all(math.isfinite(value) for value in step.values)]
    return tuple(dict.fromkeys(_with_sums(b, point, told)))


def _named(b: BareRig, record: Record) -> Iterator[Step]:
    """Say of which axle or body each equation is: they come in a fixed order, implement before tractor, front before rear."""
    gears = {"front": b.front, "rear": b.rear} if b.front else {"tracks": b.rear}
    left: dict[Equation, list[str]] = {balance.grade_resistance: ["implement", "tractor"],
                                       balance.implement_rolling_resistance: ["implement"]}  # fmt: skip
    for gang in b.gangs:
        left.setdefault(_GANG[gang.kind], []).append(gang.tool)
    own = draft.implement_draft_by_width if b.by_width else draft.implement_draft
    deep = b.deep_from is not None and float(np.max(deep_most(b))) > 0  # the tool's own row comes first, and the deep one
    left[own] = ["", *([""] if deep else []), *left.get(own, [])]
    for name, gear in gears.items():
        for eq in _EACH_TRACK if gear.kind == "track" else _EACH_WHEEL:
            left.setdefault(eq, []).append(name)
        if gear.driven:
            left.setdefault(_GROSS[gear.kind], []).append(name)
    for eq, values in record:
        waiting = left.get(eq, [])
        yield Step(eq, tuple(float(value) for value in values), waiting.pop(0) if waiting else "")


def _with_sums(b: BareRig, p: Point, told: list[Step]) -> Iterator[Step | Sum]:
    pulls = math.isfinite(float(p.slip)) and float(p.axle_force) > 0
    last_gross = max((place for place, step in enumerate(told) if step.equation in _GROSS.values()), default=-1)
    last_gang = (
        max((place for place, step in enumerate(told) if step.equation in _GANG.values()), default=-1) if b.gangs else -1
    )
    for place, step in enumerate(told):
        yield step
        if place == last_gang:
            forces = [float(force) for force in gang_forces(b)]
            gangs = tuple((gang.tool, force, "kN") for gang, force in zip(b.gangs, forces, strict=True))
            yield Sum("draft", (("own_draft", float(p.draft) - sum(forces), "kN"), *gangs), float(p.draft), "kN")
        if step.equation is balance.grade_resistance and step.of == "implement":
            yield _drawbar_pull(told, step, p)
        elif step.equation is balance.grade_resistance:
            terms = (("drawbar_pull", float(p.drawbar_pull), "kN"), ("grade_resistance", _result(step), "kN"))
            yield Sum("net_pull", terms, float(p.net_pull), "kN")
        elif place == last_gross and pulls:
            yield from _slip_balance(b, p, told)
        elif step.equation is power.axle_power and pulls:
            yield from _back_to_the_engine(b, p)


def _drawbar_pull(told: list[Step], grade: Step, p: Point) -> Sum:
    rolling = next((_result(step) for step in told if step.equation is balance.implement_rolling_resistance), 0.0)
    terms = (("draft", float(p.draft), "kN"), ("rolling_resistance", rolling, "kN"), ("grade_resistance", _result(grade), "kN"))
    return Sum("drawbar_pull", terms, float(p.drawbar_pull), "kN")


def _slip_balance(b: BareRig, p: Point, told: list[Step]) -> Iterator[Step | Sum]:
    """Give motion resistance of each axle at the slip found, then the sums of gross traction and of the balance."""
    slip, gross, net, losses = float(p.slip), [], [], []
    axles = [_Axle("front", b.front, float(p.front_load), float(p.front_mobility))] if b.front else []
    axles.append(_Axle("rear" if b.front else "tracks", b.rear, float(p.rear_load), float(p.rear_mobility)))
    for axle in axles:
        at = slip if axle.gear.driven else 0.0
        if axle.gear.kind == "track":
            motion = Step(traction_track.belt_resistance_ratio, (axle.mobility, b.belt_rolling, b.belt_drag, at), axle.of)
            losses.append((f"{axle.of}_belt_loss", float(traction_track.belt_loss.bare(b.belt_ratio, axle.load)), "kN"))
        else:
            motion = Step(_MOTION[axle.gear.kind], (axle.mobility, at), axle.of)
        yield motion
        found = next((step for step in told if step.of == axle.of and step.equation in _GROSS.values()), None)
        if found is not None:
            force = _result(found) * (1.0 if axle.gear.kind == "track" else axle.load)
            gross.append((f"{axle.of}_gross_traction", force, "kN"))
        net.append((f"{axle.of}_motion_resistance", -axle.load * _result(motion), "kN"))
        if axle.gear.kind == "track" and not axle.gear.driven:
            net.append((losses[-1][0], -losses.pop()[1], "kN"))
    yield Sum("slip_balance", (*gross, *net), float(p.net_pull), "kN")
    yield Sum("axle_force", (*gross, *losses), float(p.axle_force), "kN")


def _back_to_the_engine(b: BareRig, p: Point) -> Iterator[Sum]:
    pto = float(p.pto_power)
    yield Sum("pto_power", (("axle_power", float(p.axle_power), "kW"), ("axle_ratio", float(b.axle_ratio), "1")), pto, "kW")
    terms = (("pto_power", pto, "kW"), ("rated_pto_power", float(b.rated_pto), "kW"))
    yield Sum("engine_load", terms, float(p.engine_share), "1")
    per_pto = (("pto_power", pto, "kW"), ("engine_per_pto", float(b.engine_per_pto), "1"))
    yield Sum("engine_power", per_pto, float(p.engine_power), "kW")


def _result(step: Step) -> Any:
    return float(step.equation.bare(*step.values))
