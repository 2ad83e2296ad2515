"""The answer about fields as they are, as facts: which way to drive each, what its shape costs, in what order to work them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from dataclasses import field as part_of
from os import PathLike
from typing import Any

import numpy as np
from pydantic_core import PydanticCustomError

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.land.boundary import Boundary, geometry
from rigcalc.models.land.files import DEMO, boundaries_given
from rigcalc.models.machine.case import Case, case_of
from rigcalc.models.machine.judgement import Judgement
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.passes.heading import COARSE, STEP, Driven, Driving, Way, driven
from rigcalc.models.passes.order import ordered
from rigcalc.models.passes.turning import Turn, choice, span, turn_on
from rigcalc.models.passes.zoned import Zoned, zoned
from rigcalc.models.rig.asked import asked
from rigcalc.models.rig.measure import Kind, Measure
from rigcalc.models.rig.rig import Rig

DEMO_FARM, DEMO_FIELD = "demo_farm", "demo_field"
_WITH_A_POND = 3  # place of the demo farm's field that is shown alone
_SLOWED = 0.1  # share of the hours that zones may take more before the answer is a try: our choice
MANY = 40  # fields from which headings are tried in coarser steps
STEERING = ("hand", "satellite", "rtk")
MOST_ROUNDS = 40
_KINDS = {
    "turn_time": Kind("s", "25 s", least=0, most=600), "turn_radius": Kind("m", "30 ft", above=0, most=60),
    "overlap": Kind("m", "8 in", least=0, most=10), "move": Kind("h", "30 min", least=0, most=12),
    "heading": Kind("deg", "88 deg", least=0, most=360),
}  # fmt: skip


@dataclass(frozen=True)
class FieldAnswer:
    """Everything found about some fields. driving: width, speed, turn in bare numbers; turn: one turn, and how it is known
    ("typed", "circle" or "usual"); fields: as they stand in the file; order: places among them, and km between their middles in
    straight lines; doubled: pairs of fields that lie on each other; limit: the rig's hard limit that doesn't hold, or None;
    zoned: headland, lanes and the rest, None where the rig file doesn't say what else drove there.

    taken: entries that nobody typed. `rigcalc.in_words(answer)` says it.
    """

    rig: Rig
    case: Case = part_of(repr=False)
    driving: Driving
    turn: Turn
    turn_known: str
    fields: tuple[Driven, ...] = part_of(repr=False)
    heading: float | None
    order: tuple[int, ...]
    way: float
    move: float
    doubled: tuple[tuple[int, int, float], ...]
    limit: str | None
    taken: tuple[str, ...]
    step: float
    zoned: Zoned | None = part_of(default=None, repr=False)

    @property
    def area(self) -> float:
        """Area of all fields, ha."""
        return sum(each.boundary.area for each in self.fields)

    @property
    def hours(self) -> float:
        """Field hours of all fields, each at the heading that is asked for or its best one."""
        return float(sum(self.way_of(each).hours for each in self.fields))

    @property
    def capacity(self) -> float:
        """Area an hour at full width and speed, ha/h."""
        return self.driving.width * self.driving.speed * 0.36

    @property
    def efficiency(self) -> float:
        """Field efficiency by the shape of these fields, as a decimal."""
        return self.area / (self.capacity * self.hours)

    @property
    def small(self) -> tuple[Driven, ...]:
        """Fields with no room for the rounds that are asked for."""
        return tuple(each for each in self.fields if each.inside.rounds < self.driving.rounds)

    @property
    def cramped(self) -> bool:
        """Whether fewer rounds are typed than a turn on the circle typed needs."""
        return self.turn.rounds is not None and self.driving.rounds < self.turn.rounds

    @property
    def judgement(self) -> Judgement:
        """ "dont" where the rig passes a hard limit or no field has room for a round; "try" where a field hasn't room for the
        rounds or a turn hasn't in those typed, where fields lie on each other, where the best heading hangs on the time of a
        turn that nobody typed, or where a zone can't be worked at the job's depth or
        zones take much longer."""
        if self.limit is not None or all(each.inside.rounds < min(self.driving.rounds, 1) for each in self.fields):
            return Judgement.DONT
        soft = self.zoned is not None and (bool(self.zoned.failing) or self.zoned.more > _SLOWED * self.hours)
        return Judgement.TRY if self.small or self.cramped or self.doubled or self.hanging or soft else Judgement.GO

    @property
    def hanging(self) -> tuple[Driven, ...]:
        """Fields whose best heading is another, and not one nearly as good, if a turn takes less or more than usual."""
        if self.turn_known != "usual" or self.heading is not None:
            return ()
        return tuple(each for each in self.fields if any(self._otherwise(each, turn) for turn in span("turn")))

    def _otherwise(self, each: Driven, turn: float) -> bool:
        return each.best_with(turn, self.driving.turn) not in each.alike

    def way_of(self, each: Driven) -> Way:
        """Give the way that a field is driven: at the heading that is asked for, or its best one."""
        return each.also.get("asked", each.best)

    @property
    def row_length(self) -> float | None:
        """Length of a pass, m, at which `rigcalc season` loses as much as these fields do; None where there is none."""
        kept = (1 - (self.driving.width - self.driving.spacing) / self.driving.width) * (1 - self.driving.adjust)
        share = self.efficiency / kept
        if not 0 < share < 1:
            return None
        return self.driving.speed * self.driving.turn * share / (1 - share)


def field(
    rig: Rig | str | PathLike[str], boundary: str | PathLike[str] | bytes | None = None, *, heading: Any = None,
    rounds: int | None = None, turn_time: Any = None, turn_radius: Any = None, overlap: Any = None, steering: str = "hand",
    move: Any = None, progress: Callable[[float], None] | None = None, most: int | None = None,
) -> FieldAnswer:  # fmt: skip
    """Say which way to drive fields as they are, and what their shape costs: turns, point rows, overlap, hours.

    Parameters
    ----------
    rig : Rig, str or pathlib.Path
        A Rig, the path of a rig file, or the name of a demo rig. Its width and speed count.
    boundary : str, pathlib.Path or bytes, optional
        The path of a GeoJSON file (RFC 7946) or a shapefile (plain or zipped), each polygon a field; the bytes of GeoJSON or
        of a zip; or "demo_farm", an invented farm in the middle of an ocean, which is taken where none is given ("demo_field":
        one field of it).
    heading : str or float, optional
        Degrees clockwise from true north that every field is driven at, such as "88 deg"; the best of each where none is given.
    rounds : int, optional
        Rounds along the boundary, 0 to 40; what the turn needs, or 2, where none is given.
    turn_time, turn_radius : str, optional
        Seconds of a turn ("25 s"), or the circle that the rig turns on ("30 ft"), from which they are worked out.
    overlap : str, optional
        What a pass overlaps the one beside it by, such as "8 in"; else as is usual with `steering`.
    steering : str, optional
        "hand", "satellite" or "rtk".
    move : str, optional
        Time to the next field, such as "30 min".
    progress : callable, optional
        Told the share of the fields that is done.
    most : int, optional
        Fields that a file may have here, fewer than one may have at all.

    Returns
    -------
    FieldAnswer
        Facts in bare numbers: ha, m, km, h, degrees. `rigcalc.in_words(answer)` says them.

    Raises
    ------
    InputError
        For a rig, a boundary or options that can't be, each with its place; all at once. Where shapely isn't installed.

    Examples
    --------
    >>> answer = field("articulated", "demo_farm")
    >>> len(answer.fields), answer.judgement.value
    (6, 'go')
    """
    faults: list[Fault] = []
    typed = {"turn_time": turn_time, "turn_radius": turn_radius, "overlap": overlap, "move": move, "heading": heading}
    read = {name: _read(name, value, faults) for name, value in typed.items()}
    if rounds is not None and (isinstance(rounds, bool) or not isinstance(rounds, int) or not 0 <= rounds <= MOST_ROUNDS):
        faults.append(Fault("rounds", shown(rounds), f"a whole number from 0 to {MOST_ROUNDS}", "2"))
    if steering not in STEERING:
        faults.append(Fault("steering", shown(steering), f"one of {', '.join(STEERING)}", "satellite"))
    if turn_time is not None and turn_radius is not None:
        faults.append(Fault("turn_time", "both turn_time and turn_radius", "one of the two", "the time, where you have it"))
    boundaries: tuple[Boundary, ...] = ()
    try:
        boundaries = _boundaries(boundary)
        if most is not None and len(boundaries) > most:
            faults.append(Fault("BOUNDARY", f"{len(boundaries):,} fields", f"at most {most} at once here", "a file of fewer"))
    except InputError as error:
        faults += error.faults
    loaded = asked(rig, faults)
    return _answer(loaded, boundaries, read, rounds, steering, progress)


def _read(name: str, value: Any, faults: list[Fault]) -> Measure | None:
    if value is None:
        return None
    if name == "heading" and isinstance(value, (int, float)) and not isinstance(value, bool):
        value = f"{float(value):.10g} deg"
    try:
        return _KINDS[name].read(value)
    except PydanticCustomError as error:
        about = error.context or {}
        faults.append(Fault(name, about["got"], about["expected"], about["type_this"].strip('"')))
        return None


def _boundaries(given: Any) -> tuple[Boundary, ...]:
    one = isinstance(given, str) and given == DEMO_FIELD
    farm = given is None or (isinstance(given, str) and given == DEMO_FARM)
    found = boundaries_given(DEMO if one or farm else given)
    return found[_WITH_A_POND : _WITH_A_POND + 1] if one else found


def _answer(
    rig: Rig, boundaries: tuple[Boundary, ...], read: dict[str, Measure | None], rounds: int | None, steering: str,
    progress: Callable[[float], None] | None,
) -> FieldAnswer:  # fmt: skip
    case = case_of(rig)
    width = float(solve(case.bare, want=("width",)).width)
    overlap, time, radius = read["overlap"], read["turn_time"], read["turn_radius"]
    lap = overlap.to("m") if overlap is not None else {"hand": choice("overlap") * width}.get(steering) or choice(steering)
    if lap > width / 2:
        raise InputError([Fault("overlap", f"{lap:.3g} m", f"less than half the tool's width of {width:.3g} m", "8 in")])
    if time is not None:
        turn, known = Turn(time.to("s")), "typed"
    elif radius is not None:
        turn, known = turn_on(radius.to("m"), width - lap, width), "circle"
    else:
        turn, known = Turn(choice("turn")), "usual"
    if (turn.rounds or 0) > MOST_ROUNDS:
        raise InputError(
            [
                Fault(
                    "turn_radius",
                    f"a circle whose turn needs {turn.rounds} rounds of this tool",
                    f"a turn that needs at most {MOST_ROUNDS}",
                    "the circle that the outside wheel draws, halved",
                )
            ]
        )
    count = rounds if rounds is not None else turn.rounds or int(choice("rounds"))
    driving = Driving(width, width - lap, float(case.bare.speed) / 3.6, turn.seconds, count, choice("adjust"))
    heading = read["heading"].to("deg") if read["heading"] is not None else None
    step = STEP if len(boundaries) < MANY else COARSE
    found = []
    for place, each in enumerate(boundaries, 1):
        found.append(driven(each, driving, heading, step))
        if progress is not None:
            progress(place / len(boundaries))
    order, way = ordered([each.middle for each in boundaries])
    taken = [name for name, value in (("turn_time", time or radius), ("overlap", overlap), ("rounds", rounds or turn.rounds))
             if value is None and not (name == "rounds" and rounds == 0)]  # fmt: skip
    return FieldAnswer(
        rig=rig, case=case, driving=driving, turn=turn, turn_known=known, fields=tuple(found), heading=heading, order=order,
        way=way, move=read["move"].to("h") if read["move"] is not None else choice("move"), doubled=_doubled(boundaries),
        limit=case.passed, taken=tuple(taken), step=step, zoned=zoned(rig, case, found, driving),
    )  # fmt: skip


def _doubled(boundaries: tuple[Boundary, ...]) -> tuple[tuple[int, int, float], ...]:
    """Give pairs of fields that share ground, each with how much, ha; what an edge may be off by isn't counted."""
    shapely = geometry()
    plane = boundaries[0].plane
    on_one = []
    for each in boundaries:
        rings = [shapely.get_coordinates(ring) for ring in (each.polygon.exterior, *each.polygon.interiors)]
        laid = [plane.to_metres(*each.plane.to_degrees(ring)) for ring in rings]
        on_one.append(shapely.Polygon(laid[0], laid[1:]))
    shapes = np.array(on_one)
    one, other = shapely.STRtree(shapes).query(shapes, predicate="intersects")
    one, other = one[one < other], other[one < other]
    shared = shapely.area(shapely.intersection(shapely.buffer(shapes[one], 0), shapely.buffer(shapes[other], 0))) / 1e4
    return tuple((int(a), int(b), float(area)) for a, b, area in zip(one, other, shared, strict=True)
                 if area > max(0.02 * min(boundaries[a].area, boundaries[b].area), 0.05))  # fmt: skip
