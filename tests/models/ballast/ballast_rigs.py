"""Rigs for the tests of ballast: the demo rigs without their pieces, and with pieces of the test's own."""

from known_rigs import known_rig

from rigcalc.models import replaced


def plain(name="four_wheel_drive", **changes):
    """A demo rig without ballast at hand, limits or tyres' tables; changes by key, with __ for the dot."""
    gone = {"ballast": None, "setup": None, "scale": None, "gears": None, "tractor.front.tyre": None, "tractor.rear.tyre": None}
    if name == "tracks":
        gone = {}
    return replaced(replaced(known_rig(name), gone), {key.replace("__", "."): value for key, value in changes.items()})


def piece(name, mass, count, on=0, axle="front", ahead="0 m", **more):
    """One entry of [[ballast]]."""
    return {"name": name, "mass": mass, "count": count, "on": on, "axle": axle, "ahead": ahead, **more}
