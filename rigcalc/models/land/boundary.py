"""A field's boundary: rings of degrees, looked over strictly, and the same in metres. Faults name their place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any

import numpy as np

from rigcalc.core.errors import Fault, InputError, shown
from rigcalc.models.land.plane import Plane, apart, on_ellipsoid

MOST_BYTES = 16 * 1024**2  # of a file
MOST_FIELDS = 2_000
MOST_POSITIONS = 200_000  # in a file
WIDEST = 20_000.0  # m from end to end: up to there a plane's area is within 3e-6 of the ellipsoid's, and no field is larger
SMALLEST = 100.0  # m²: our choice
FARTHEST = 300.0  # km from the middle of the farm: our choice
_AGAIN = "the same, as [longitude, latitude]"


@dataclass(frozen=True)
class Rings:
    """One field as it stands in a file. place: of it in the file; rings: the outer one first, arrays (n, 2) of degrees."""

    name: str
    place: str
    rings: tuple[Any, ...] = field(repr=False)

    def at(self, ring: int, position: int | None = None) -> str:
        """Name a ring, or a position in it, counted from one."""
        text = f"{self.place}, ring {ring + 1}"
        return text if position is None else f"{text}, position {position + 1}"


@dataclass(frozen=True, eq=False)
class Boundary:
    """One field. polygon: in metres on its plane (shapely), outer ring counter-clockwise, holes clockwise; valid."""

    name: str
    plane: Plane
    polygon: Any = field(repr=False)

    @property
    def area(self) -> float:
        """Area on the ellipsoid, holes taken out, ha."""
        return float(self.polygon.area) / 1e4

    @cached_property
    def middle(self) -> tuple[float, float]:
        """Longitude and latitude of the centre of its area, in degrees."""
        point = self.polygon.centroid
        lon, lat = self.plane.to_degrees(np.array([point.x, point.y]))
        return float(lon), float(lat)


def geometry() -> Any:
    """Give shapely. Raises InputError where the extra isn't installed."""
    try:
        import shapely
    except ModuleNotFoundError:
        raise InputError([Fault("BOUNDARY", "a field, and no shapely", "the libraries that lay passes",
                                "pip install 'rigcalc[fields]'")]) from None  # fmt: skip
    return shapely


def held(path: Path) -> bytes:
    """Give what stands in a file. Raises InputError for one that can't be read or is too large."""
    try:
        with path.open("rb") as stream:
            data = stream.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or str(error)
        raise InputError([Fault("BOUNDARY", f"{shown(str(path))} ({why})", "a file that can be read", "its path")]) from None
    if len(data) > MOST_BYTES:
        raise InputError([Fault("BOUNDARY", f"more than {MOST_BYTES // 1024**2} MiB", "the boundaries of one farm",
                                "fewer fields, or fewer positions in each")])  # fmt: skip
    return data


def looked_over(found: Sequence[Rings], faults: Iterable[Fault] = ()) -> tuple[Boundary, ...]:
    """Make boundaries of what stands in a file. faults: what the reader found. Raises InputError that lists every fault."""
    out, wrong = list(faults), []
    made: list[Boundary] = []
    for each in found:
        if faulty := list(_of_positions(each)):
            wrong += faulty
            continue
        boundary, faulty = _made(each)
        wrong += faulty
        if boundary is not None:
            made.append(boundary)
    if not wrong and made:
        wrong = list(_far_off(made, found))
    if out or wrong:
        raise InputError([*out, *wrong], title="This boundary can't be used as it stands")
    if not made:
        raise InputError([Fault("BOUNDARY", "no field", "a polygon", "a file with the field's boundary")])
    return tuple(made)


def _of_positions(each: Rings) -> Iterator[Fault]:
    """Give what is wrong with the numbers of a field, ring by ring."""
    for number, ring in enumerate(each.rings):
        lon, lat = ring[:, 0], ring[:, 1]
        bad = np.flatnonzero(~((np.abs(lon) <= 180) & (np.abs(lat) <= 90)))
        if bad.size:
            at = int(bad[0])
            got = f"[{lon[at]:.7g}, {lat[at]:.7g}]" + (f" and {bad.size - 1:,} more like it" if bad.size > 1 else "")
            swapped = ((np.abs(lat) <= 180) & (np.abs(lon) <= 90)).all()
            if np.abs(ring[bad]).max() > 1000:
                yield Fault(each.at(number, at), got, "degrees; these look like metres of a map projection",
                            "the file saved anew in WGS 84, longitude and latitude")  # fmt: skip
            elif swapped:
                yield Fault(each.at(number, at), f"{got}, a latitude beyond 90",
                            "longitude first; these look swapped", f"[{lat[at]:.7g}, {lon[at]:.7g}]")  # fmt: skip
            else:
                yield Fault(each.at(number, at), got, "longitude from -180 to 180, then latitude from -90 to 90", _AGAIN)
            continue
        if len(ring) < 4:
            yield Fault(each.at(number), f"{len(ring)} positions", "4 or more, the last the same as the first",
                        "the corners that are missing")  # fmt: skip
        elif (ring[0] != ring[-1]).any():
            yield Fault(each.at(number, len(ring) - 1), f"[{lon[-1]:.7g}, {lat[-1]:.7g}], which isn't the first one",
                        "a ring that closes", f"the first again at its end: [{lon[0]:.7g}, {lat[0]:.7g}]")  # fmt: skip


def _made(each: Rings) -> tuple[Boundary | None, list[Fault]]:
    """Lay a field on its plane and look at its shape."""
    shapely = geometry()
    outer = each.rings[0]
    middle = np.median(outer, axis=0)
    if fault := _spread(each, middle):
        return None, [fault]
    plane = Plane.under(outer[:-1, 0], outer[:-1, 1])
    metres = [plane.to_metres(ring[:, 0], ring[:, 1]) for ring in each.rings]
    for number, ring in enumerate(metres):
        hull = float(shapely.MultiPoint(ring).convex_hull.area)
        if hull < (SMALLEST if number == 0 else 1e-6):
            return None, [Fault(each.at(number), f"a ring of {hull:.3g} m²", "a ring with an area: its positions lie in a "
                                "line, or nearly in one place", "the boundary driven or drawn anew")]  # fmt: skip
    polygon = shapely.Polygon(metres[0], metres[1:])
    if not polygon.is_valid:
        return None, [_crossing(each, plane, metres, shapely.is_valid_reason(polygon))]
    if polygon.area < SMALLEST:
        return None, [Fault(each.place, f"{polygon.area:.3g} m² left beside its holes", f"{SMALLEST:.0f} m² or more",
                            "the holes put right")]  # fmt: skip
    return Boundary(each.name, plane, shapely.remove_repeated_points(shapely.geometry.polygon.orient(polygon))), []


def _spread(each: Rings, middle: Any) -> Fault | None:
    """Give what is wrong with a ring whose positions lie too far apart for one field: often one of them is swapped."""
    for number, ring in enumerate(each.rings):
        here = on_ellipsoid(ring[:, 0], ring[:, 1])
        if (np.ptp(here, axis=0) > WIDEST).any() or number:
            off = apart(here, on_ellipsoid(*middle)) * 1000
            at = int(off.argmax())
            if off[at] <= WIDEST:
                if number == 0:
                    return Fault(each.at(0), f"a ring {np.ptp(here, axis=0).max() / 1000:.3g} km wide",
                                 f"at most {WIDEST / 1000:g} km", "one field at a time")  # fmt: skip
                continue
            lon, lat = ring[at]
            turned = abs(lon) <= 90 and apart(on_ellipsoid(lat, lon), on_ellipsoid(*middle)) * 1000 <= WIDEST
            if turned:
                return Fault(each.at(number, at), f"[{lon:.7g}, {lat:.7g}]", "longitude first; this one looks swapped",
                             f"[{lat:.7g}, {lon:.7g}]")  # fmt: skip
            return Fault(each.at(number, at), f"[{lon:.7g}, {lat:.7g}], {off[at] / 1000:.3g} km from the others",
                         f"a field at most {WIDEST / 1000:g} km wide", _AGAIN)  # fmt: skip
    return None


def _crossing(each: Rings, plane: Plane, metres: list[Any], reason: str) -> Fault:
    """Say in which place a boundary crosses or touches itself. reason: as shapely gives it, with the place in brackets."""
    what, _, rest = reason.partition("[")
    try:
        spot = np.array([float(number) for number in rest.rstrip("]").split()[:2]])
        lon, lat = plane.to_degrees(spot)
    except ValueError:  # no place given
        return Fault(each.place, what.lower(), "a boundary that doesn't cross itself", "the boundary drawn anew")
    sides = []
    for number, ring in enumerate(metres):
        start, along = ring[:-1], np.diff(ring, axis=0)
        share = np.clip(((spot - start) * along).sum(axis=1) / np.maximum((along**2).sum(axis=1), 1e-12), 0, 1)
        near = np.linalg.norm(start + share[:, None] * along - spot, axis=1) < 1e-3
        sides += [f"{number + 1}:{at + 1}-{at + 2}" for at in np.flatnonzero(near).tolist()]
    where = f"longitude {float(lon):.6f}, latitude {float(lat):.6f}"
    between = f" (ring:positions {', '.join(sides[:6])})" if sides else ""
    return Fault(each.place, f"{what.strip().lower()} at {where}{between}",
                 "rings that neither cross nor touch themselves or each other, holes inside the outer ring",
                 "the boundary with that corner put right")  # fmt: skip


def _far_off(made: list[Boundary], found: Sequence[Rings]) -> Iterator[Fault]:
    """Give the fields that lie too far from the rest to be of one farm; one whose numbers are swapped lands far away."""
    middles = np.array([each.middle for each in made])
    farm = np.median(middles, axis=0)
    off = apart(on_ellipsoid(*middles.T), on_ellipsoid(*farm))
    for at in np.flatnonzero(off > FARTHEST).tolist():
        lon, lat = middles[at]
        turned = abs(lon) <= 90 and apart(on_ellipsoid(lat, lon), on_ellipsoid(*farm)) <= FARTHEST
        where = f"about longitude {lon:.4f}, latitude {lat:.4f}, {off[at]:,.0f} km from the rest"
        if turned:
            yield Fault(found[at].place, where, "longitude first, then latitude; these look swapped", f"[{lat:.4f}, {lon:.4f}]")
        else:
            yield Fault(found[at].place, where, f"fields of one farm, within {FARTHEST:g} km", "a file of its own")


def called(texts: Iterable[Any], otherwise: str) -> str:
    """Give a field's name: the first of some texts that is one, safe to be shown."""
    for text in texts:
        if isinstance(text, (str, int)) and not isinstance(text, bool) and str(text).strip():
            return shown(str(text).strip(), 60).strip("'")
    return otherwise
