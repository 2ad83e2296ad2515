"""Made-up rigs of every kind of running gear, as arrays of bare numbers: a thousand rigs are one BareRig."""

from dataclasses import fields

import numpy as np

from rigcalc.models.rig.bare import BareGear, BareRig

# name -> (front: (kind, driven) or None, rear: (kind, driven), rear wheels follow in the track of the front wheels)
KINDS = {
    "radials, firmer track": (("radial", True), ("radial", True), True),
    "radials, no firmer": (("radial", True), ("radial", True), False),
    "bias": (("bias", True), ("bias", True), True),
    "front axle rolls along": (("bias", False), ("radial", True), True),
    "rear axle rolls along": (("radial", True), ("bias", False), True),
    "radial and bias": (("radial", True), ("bias", True), True),
    "bias and radial, no firmer": (("bias", True), ("radial", True), False),
    "four tracks": (("track", True), ("track", True), False),
    "two tracks": (None, ("track", True), True),
    "wheels and tracks": (("radial", True), ("track", True), True),
    "steered wheels, driven tracks": (("bias", False), ("track", True), True),
}


def gear(rng, kind, driven, count):
    wide, long = ((0.4, 0.9), (1.5, 3.0)) if kind == "track" else ((0.4, 0.9), (1.3, 2.2))
    return BareGear(
        kind=kind, driven=driven, count=rng.choice([2, 4] if kind == "track" else [2, 4, 6], count), load_limit=None,
        width=rng.uniform(*wide, count), length=rng.uniform(*long, count), deflection_ratio=rng.uniform(0.12, 0.28, count),
        pressure_limit=None,
    )  # fmt: skip


def many(kind, count, seed=0):
    """A BareRig whose numbers are arrays of `count` made-up rigs of one kind, from easy jobs to hopeless ones."""
    rng = np.random.default_rng([seed, list(KINDS).index(kind)])
    front, rear, multipass = KINDS[kind]

    def draw(low, high):
        return rng.uniform(low, high, count)

    rated = draw(80, 450)
    return BareRig(
        front=gear(rng, *front, count) if front else None, rear=gear(rng, *rear, count),
        front_weight=draw(40, 150), rear_weight=draw(50, 150), wheelbase=draw(2.4, 4.2), center_height=draw(0.8, 1.5),
        drawbar_height=draw(0.35, 0.6), hitch_behind=draw(0.5, 1.6), hitch_load=draw(0, 15), implement_weight=draw(10, 80),
        wheel_share=draw(0, 0.5), rolling_ratio=draw(0.04, 0.1), grade=draw(-6, 6), cone_index=draw(350, 2000),
        multipass=multipass, area_factor=draw(2, 4), shear_modulus=draw(0.01, 0.04), belt_ratio=draw(0.03, 0.09),
        soil_factor=draw(0.45, 1), draft_a=draw(40, 250), draft_b=draw(0, 8), draft_c=draw(0, 2), draft_range=0.5,
        tools=rng.integers(3, 22, count).astype(float), spacing=draw(0.3, 0.6), depth=draw(10, 45), speed=draw(4, 12),
        rated_pto=rated, maximum_pto=rated * 1.1, axle_ratio=0.96, engine_per_pto=1 / 0.9, engine_speed_share=draw(0.7, 1),
        field_efficiency=draw(0.7, 0.9), def_share=0.04,
    )  # fmt: skip


def one(rigs, place):
    """Rig number `place` of many, in plain floats."""

    def pick(part):
        return type(part)(**{f.name: pick_value(getattr(part, f.name)) for f in fields(part)})

    def pick_value(value):
        if isinstance(value, (BareGear, BareRig)):
            return pick(value)
        return value[place].item() if isinstance(value, np.ndarray) else value

    return pick(rigs)
