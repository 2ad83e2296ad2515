"""Everything that is known of a tractor's ballast, in one object: as it stands, advice, physics, plan, tyres, cautions."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from os import PathLike
from typing import Literal

from rigcalc.core.tables import table
from rigcalc.core.units import mass_of
from rigcalc.core.working import Working, working
from rigcalc.equations import ballast as book
from rigcalc.models.ballast.advice import Advice, Band, advice, front_band, mass_band
from rigcalc.models.ballast.at_hand import overfilled
from rigcalc.models.ballast.gear_down import GearChoice, gear_choices
from rigcalc.models.ballast.jobs import Jobs, jobs
from rigcalc.models.ballast.limits import Check, Tip, checks, weight_limits
from rigcalc.models.ballast.mass_curve import Curve, mass_curve
from rigcalc.models.ballast.plan import Plan, make_plan
from rigcalc.models.ballast.reach import reach_of
from rigcalc.models.ballast.tyres import TyreLoad, tyre_loads
from rigcalc.models.machine import statics
from rigcalc.models.machine.field import in_field
from rigcalc.models.machine.limits import caps
from rigcalc.models.machine.statics import Situations, raised_tool
from rigcalc.models.rig.asked import asked
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.rig.liquid import Liquid, liquid_of
from rigcalc.models.rig.rig import Rig

System = Literal["us", "si"]


@dataclass(frozen=True)
class Note:
    """Something to know about an answer: its name, the axle it is about, and a number or a symbol that belongs to it.

    names, with their number: "overfilled" (axle), "speed_of_index" (axle; km/h; the symbol), "no_pieces", "raised_unweighed",
    "no_mass_limit", "no_road_limits", "lighter_job" (share of rated power), "pressure_follows" (height of the center of
    gravity, m), "from_memory".
    """

    name: str
    axle: str = ""
    value: float | None = None
    symbol: str = ""


@dataclass(frozen=True)
class Stands:
    """The tractor as it stands: kg, kg for each kW at the PTO, shares.

    loads: situation (as in `Situations.each`) -> (front, rear) in kg. slip and delivery are NaN where it can't pull the job.
    """

    front_mass: float
    rear_mass: float
    front_share: float
    front_share_pull: float
    per_power: float
    slip: float
    delivery: float
    tractive_efficiency: float
    loads: dict[str, tuple[float, float]]


@dataclass(frozen=True)
class BallastAnswer:
    """What rigcalc knows of ballast for one rig and job. Bare numbers: kg, kPa, kN, m, shares.

    units: the system that was asked for, handed on to whoever puts it into words. cautions: keys of the table of cautions.

    tip and tip_after: (share used, lifting pull in kN, most pull in kN) now and with the plan; None on two tracks. tyres and
    tyres_after: what each carries now and with the plan (empty without one). loads_after: axle loads as in Stands, with the
    plan or, without one, the nearest set. gears is empty without [gears]. rollers: shares on front and rear rollers of a
    two-track tractor, else None.
    """

    rig: Rig
    units: System
    stands: Stands
    checks: tuple[Check, ...]
    advice: tuple[Advice, ...]
    mass_band: Band | None
    front_band: Band | None
    jobs: Jobs
    curve: Curve
    plan: Plan
    tip: Tip | None
    tip_after: Tip | None
    loads_after: dict[str, tuple[float, float]]
    tyres: tuple[TyreLoad, ...]
    tyres_after: tuple[TyreLoad, ...]
    rollers: tuple[float, float] | None
    liquids: tuple[Liquid, ...]
    gears: tuple[GearChoice, ...]
    notes: tuple[Note, ...]
    cautions: tuple[str, ...]
    bare_rig: BareRig = field(repr=False)

    @property
    def works(self) -> bool:
        """True where a set at hand brings everything into place."""
        return self.plan.works

    @cached_property
    def working(self) -> tuple[Working, ...]:
        """The equations of statics and advice with their numbers. Slip's own stand in `rigcalc size --working`."""
        b, s = self.bare_rig, self.stands
        total = s.front_mass + s.rear_mass
        steps = [working(book.front_share, {"front_mass": s.front_mass, "mass": total})]
        if b.front is not None:
            ahead = s.front_mass / total * b.wheelbase
            steps.append(working(book.lifting_pull, {
                "weight": b.weight, "center_ahead": ahead, "center_height": b.center_height, "grade": b.grade,
                "hitch_load": b.hitch_load, "hitch_behind": b.hitch_behind, "drawbar_height": b.drawbar_height,
            }))  # fmt: skip
        for row in self.advice:
            if row.per_power is not None:
                power = row.high / row.per_power[1]
                steps.append(working(book.ballast_mass, {"power": power, "mass_per_power": row.per_power[1]}))
        for axle, gear in (("front", self.rig.tractor.front), ("rear", self.rig.tractor.rear)):
            liquid = next((found for found in self.liquids if found.axle == axle), None)
            if liquid and liquid.fill and gear and gear.tyre and gear.tyre.volume:
                volume = gear.tyre.volume.to("L")
                steps.append(working(book.liquid_mass, {
                    "tyre_volume": volume, "fill": liquid.fill, "liquid_density": liquid.density,
                    "filled_tyres": liquid.full_mass / volume / liquid.density,
                }))  # fmt: skip
        return tuple(steps)


def ballast(rig: Rig | str | PathLike[str], job: str = "full", *, units: System = "us") -> BallastAnswer:
    """Answer the question of ballast for a rig: where the weight goes, what to hang on and what to take off.

    Parameters
    ----------
    rig : Rig, str or pathlib.Path
        The rig, the path of its file, or the name of a demo rig.
    job : str, optional
        "light", "this" (the rig file's own) or "full" (rated power at this speed).
    units : str, optional
        "us" or "si": the system of the words to come. Numbers don't depend on it.

    Returns
    -------
    BallastAnswer
        Facts in bare numbers: masses in kg, forces in kN, pressures in kPa, lengths in m, slip and the like as decimals.

    Raises
    ------
    InputError
        For a rig that can't be read and options that aren't known: all at once; for a job that has no best mass.

    Examples
    --------
    >>> answer = ballast("front_wheel_assist", "this")
    >>> answer.stands.front_mass > 0, answer.plan.job.name
    (True, 'this')
    """
    rig = asked(rig, job=job, units=units)
    b = in_field(rig)
    c = caps(rig, b)
    reach = reach_of(rig, b)
    found = jobs(b, c, reach)
    plan = make_plan(rig, job, found_jobs=found, b=b)
    factor = plan.job.draft_factor
    p = plan.job.point
    front, rear = rig.tractor.front_axle_mass.to("kg"), rig.tractor.rear_axle_mass.to("kg")
    at = statics.situations(rig, b, plan.job.pull)
    loads = _loads(at, front, rear)
    after = plan.chosen
    then = after or plan.nearest or plan.now
    loads_after = _loads(at, then.front_mass, then.rear_mass)
    stands = Stands(
        front_mass=front,
        rear_mass=rear,
        front_share=float(book.front_share.bare(front, front + rear)),
        front_share_pull=loads["pull"][0] / sum(loads["pull"]),
        per_power=(front + rear) / b.rated_pto,
        slip=plan.job.slip,
        delivery=plan.job.delivery,
        tractive_efficiency=float(p.tractive_efficiency),
        loads=loads,
    )
    liquids = tuple(x for x in (liquid_of("front", rig.tractor.front), liquid_of("rear", rig.tractor.rear)) if x is not None)
    return BallastAnswer(
        rig=rig,
        units=units,
        stands=stands,
        checks=checks(weight_limits(rig, b, at=at), front, rear),
        advice=advice(rig, b),
        mass_band=mass_band(rig, b),
        front_band=front_band(rig, b),
        jobs=found,
        curve=mass_curve(b, draft_factor=factor, best=plan.job.best, reach=reach),
        plan=plan,
        tip=plan.now.tip,
        tip_after=after.tip if after else None,
        loads_after=loads_after,
        tyres=tyre_loads(rig, loads),
        tyres_after=tyre_loads(rig, loads_after) if after else (),
        rollers=statics.roller_shares(b, found["this"].pull),
        liquids=liquids,
        gears=gear_choices(rig, factor, b, p) if rig.gears and float(p.engine_share) > 0 else (),
        notes=_notes(rig, b, plan),
        cautions=cautions(rig),
        bare_rig=b,
    )


def _loads(at: Situations, front: float, rear: float) -> dict[str, tuple[float, float]]:
    """Give situation -> (front, rear) axle load in kg, for static axle masses in kg."""
    return {when: (x[0] * front + x[1] * rear + x[2], y[0] * front + y[1] * rear + y[2]) for when, (x, y) in at.each().items()}


def cautions(rig: Rig) -> tuple[str, ...]:
    """Give the keys of the cautions for weights, liquids, tyres and the road; those of a liquid only where it is used."""
    liquids = {tyre.liquid for gear in (rig.tractor.front, rig.tractor.rear) if gear and (tyre := gear.tyre) and tyre.liquid}
    only_with = {
        "calcium_chloride": {"calcium_chloride", "calcium_chloride_strong"},
        "methanol": {"washer_fluid"},
        "ethylene_glycol": {"glycol_half"},
    }
    return tuple(
        row["id"]
        for row in table("cautions")
        if row["when"] in ("ballast", "tyres", "road") and (row["id"] not in only_with or liquids & only_with[row["id"]])
    )


def _notes(rig: Rig, b: BareRig, plan: Plan) -> tuple[Note, ...]:
    """Give what is to be known, the weightiest first."""
    setup, best = rig.setup, plan.job.best
    out = [Note("overfilled", axle) for axle in overfilled(rig)]
    if raised_tool(rig) is None and setup is not None and setup.hitching == "mounted":
        out.append(Note("raised_unweighed"))
    if not rig.ballast and plan.sets == 1:
        out.append(Note("no_pieces"))
    if best is not None and plan.job.name == "this" and mass_of(b.weight) > best.high:
        out.append(Note("lighter_job", value=plan.job.engine_share))
    if setup is None or setup.mass_limit is None:
        out.append(Note("no_mass_limit"))
    if setup is None or setup.road_front_limit is None or setup.road_rear_limit is None:
        out.append(Note("no_road_limits"))
    for axle, gear in (("front", rig.tractor.front), ("rear", rig.tractor.rear)):
        if gear and gear.tyre and gear.tyre.load_index is not None and gear.tyre.speed_symbol is not None:
            row = table("speed_symbols")[gear.tyre.speed_symbol]
            out.append(Note("speed_of_index", axle, row["speed"], gear.tyre.speed_symbol))
    return (*out, Note("pressure_follows", value=b.center_height), Note("from_memory"))
