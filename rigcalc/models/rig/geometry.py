"""Whether sizes that stand side by side can belong to one machine: tyre, rim and loaded radius; axles and what stands on them.

A size that is worked out from others is held to the same bounds as one that is typed. All bounds here are generous: they ask
about slips of a unit, a diameter for a radius, a width for a diameter; they don't judge a machine.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from rigcalc.equations import tyre as book
from rigcalc.models.rig.parts import fault

if TYPE_CHECKING:
    from rigcalc.models.rig.rig import Gear, Tractor

LEAST_DEFLECTION, MOST_DEFLECTION = 0.05, 0.45  # as typed: hard as a solid tyre to lying on its rim (common practice)
# Farm tyres have 0.65 to 1.05 (rice) of their width as section height, row crop tyres 0.14 to turf tyres 0.5 of their diameter
# as width (from memory); twice that is left open.
HEIGHT_OVER_WIDTH = (0.25, 2.0)
WIDTH_OVER_DIAMETER = (0.07, 0.9)
MOST_TYRES, MOST_TRACKS = 8, 4  # on one axle: triples are 6
LEAST_GAP = 0.75  # wheelbase over the sum of both radii: wheels in one track can't overlap, those in two can a little
MOST_STEEP = 1.2  # height of the center of gravity over wheelbase: no machine that stands is near


def check_gear(gear: Gear) -> None:
    """Refuse tyres and tracks whose sizes can't belong together; whatever is given of them is looked at."""
    if gear.kind == "track":
        assert gear.tracks is not None
        if gear.tracks > MOST_TRACKS:
            raise fault(f"{gear.tracks} tracks on one axle", f"at most {MOST_TRACKS}", "tracks = 2")
        width, length = _m(gear.track_width), _m(gear.contact_length)
        if width > length:
            raise fault(f"track_width of {gear.track_width} and contact_length of {gear.contact_length}",
                        "a track that is longer on the ground than wide", "the one for the other, perhaps")  # fmt: skip
        return
    assert gear.tyres is not None
    if gear.tyres > MOST_TYRES:
        raise fault(
            f"{gear.tyres} tyres on one axle", f"at most {MOST_TYRES}", "tyres = 2 for single, 4 for dual, 6 for triple"
        )
    diameter, width = _m(gear.diameter), _m(gear.section_width)
    low, high = WIDTH_OVER_DIAMETER
    if not low <= width / diameter <= high:
        raise fault(f"section_width of {gear.section_width} and diameter of {gear.diameter}",
                    f"a width of {low:g} to {high:g} of the diameter",
                    "both as on the sidewall, each with its unit")  # fmt: skip
    _check_rim(gear, diameter, width)
    _check_radius(gear, diameter)


def _check_rim(gear: Gear, diameter: float, width: float) -> None:
    if gear.rim_diameter is None:
        return
    rim = _m(gear.rim_diameter)
    low, high = HEIGHT_OVER_WIDTH
    if not low * width <= (diameter - rim) / 2 <= high * width:
        raise fault(f"rim_diameter of {gear.rim_diameter} in a tyre of {gear.diameter} by {gear.section_width}",
                    f"a section height, from rim to tread, of {low:g} to {high:g} of the section width",
                    "the rim's nominal size, such as 42 in, and the tyre's overall diameter")  # fmt: skip


def _check_radius(gear: Gear, diameter: float) -> None:
    if gear.static_loaded_radius is None:
        return
    radius = _m(gear.static_loaded_radius)
    if radius >= diameter / 2:
        raise fault(f"static_loaded_radius of {gear.static_loaded_radius} for a diameter of {gear.diameter}",
                    "less than half the diameter: the ground to the middle of the axle",
                    f"{radius / 2:.4g} m, half of it, if it is the loaded diameter")  # fmt: skip
    if gear.rim_diameter is None:
        if radius < 0.55 * diameter / 2:  # a rim lies between
            raise fault(f"static_loaded_radius of {gear.static_loaded_radius} for a diameter of {gear.diameter}",
                        "more than half the radius of the tyre without load", "the loaded radius of the data book")  # fmt: skip
        return
    height = book.section_height_from_rim.bare(diameter, _m(gear.rim_diameter))
    share = float(book.deflection_ratio.bare(book.tyre_deflection.bare(diameter, radius), height))
    if not LEAST_DEFLECTION <= share <= MOST_DEFLECTION:
        raise fault(f"diameter of {gear.diameter}, static_loaded_radius of {gear.static_loaded_radius} and rim_diameter of "
                    f"{gear.rim_diameter}, which make a deflection of {share:.0%} of the section height",
                    f"{LEAST_DEFLECTION:.0%} to {MOST_DEFLECTION:.0%}, as for a deflection_ratio that is typed",
                    "all three from one page of the data book")  # fmt: skip


def check_stance(tractor: Tractor) -> None:
    """Refuse a tractor whose axles, gear, hitch and center of gravity can't be where they are said to be."""
    wheelbase = tractor.wheelbase.to("m")
    if tractor.center_of_gravity_height.to("m") > MOST_STEEP * wheelbase:
        raise fault(f"center_of_gravity_height of {tractor.center_of_gravity_height} on a wheelbase of {tractor.wheelbase}",
                    f"a height of at most {MOST_STEEP:g} of the wheelbase", 'center_of_gravity_height = "1.1 m"')  # fmt: skip
    if tractor.rear.kind != "track" and tractor.drawbar_height.to("m") >= _m(tractor.rear.diameter):
        raise fault(f"drawbar_height of {tractor.drawbar_height} with rear tyres of {tractor.rear.diameter}",
                    "a drawbar below the top of the tyres", 'drawbar_height = "20 in"')  # fmt: skip
    if tractor.front is None or "track" in (tractor.front.kind, tractor.rear.kind):
        return
    radii = (_m(tractor.front.diameter) + _m(tractor.rear.diameter)) / 2
    if wheelbase < LEAST_GAP * radii:
        raise fault(f"wheelbase of {tractor.wheelbase} with tyres of {tractor.front.diameter} and {tractor.rear.diameter}",
                    f"at least {LEAST_GAP * radii:.2g} m, so that front and rear tyres don't overlap",
                    'wheelbase = "3 m", from the middle of one axle to that of the other')  # fmt: skip


def _m(measure: Any) -> float:
    return float(measure.to("m"))
