"""Depth, speed and shanks for a chisel plow behind a tractor: what it takes, what gives out first, and how sure that is.

A rig
    `load_rig("rig.toml")` reads a rig file, or a demo rig by its name ("front_wheel_assist", "articulated", "two_track",
    "two_wheel_drive"). `read_rig` reads a text, `rig_text` writes one, `demo_rig` gives a demo rig. All make a `Rig`.

Questions
    `size(rig)`: will it pull, what gives out first, how sure. `ballast(rig)`: where the weight goes, and what to hang on or
    take off. `compare([one, other])`: this one or that one, and does it matter. `shortlist(rig)`: the smallest tractor for this
    tool, the widest tool for this tractor. `ground(rig, flags)`: may the ground be worked, and how deep.
    `season(rigs, plan)`: is it done in time, what a day holds, what it costs.
    `field(rig, "fields.geojson")`: which way to drive fields as they are, and what their shape costs.
    `in_words(answer, "si")` says an answer of these. `operating_point(rig, depth=..., speed=...)`: draft, slip, power, fuel on
    arrays of any shape.

The book
    `find("slip")` gives equations by word, `load_all()` all of them. Each is called on quantities, checks and converts their
    units, and names its source. `working` shows one with numbers, `solve_for` solves it for another symbol, `table` gives a
    published table.

Quantities
    `Q(14, "in")` makes a pint quantity of the application's registry. American and metric units are equals.

What can't be right raises `InputError`, which names every fault at once and what to type instead. An equation outside the
range of its source is worked all the same; `strict=True` refuses, `strict="warn"` warns (`OutsideRange`).

>>> import rigcalc
>>> rig = rigcalc.load_rig("articulated")
>>> point = rigcalc.operating_point(rig, depth=rigcalc.Q([10, 14], "in"))
>>> point.draft.to("lbf").round(-2).magnitude.tolist()
[17200.0, 24400.0]

Each name is loaded when first asked for: `import rigcalc` costs numpy alone.
"""

import lazy_loader
import numpy  # noqa: F401 (the one import that every use needs)

__version__ = "0.1.0"
__getattr__, __dir__, __all__ = lazy_loader.attach_stub(__name__, __file__)
