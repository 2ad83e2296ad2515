"""rigcalc: depth, speed and shanks for a chisel plow behind a tractor. What it takes, what gives out first, how sure.

Everything here is loaded when first asked for: `import rigcalc` costs numpy alone.
"""

import importlib

import numpy  # noqa: F401 (the one import that every use needs)

__version__ = "0.1.0"

_HOME = {
    "Q": "core.units", "find": "equations", "load_all": "equations", "table": "core.tables",
    "InputError": "core.errors", "working": "core.working",
    "Rig": "models", "load_rig": "models", "read_rig": "models", "rig_text": "models", "demo_rig": "models",
    "operating_point": "models", "size": "models", "in_words": "words", "ballast": "models.ballast",
}  # fmt: skip


def __getattr__(name: str) -> object:
    if name in _HOME:
        return getattr(importlib.import_module(f"rigcalc.{_HOME[name]}"), name)
    raise AttributeError(f"rigcalc has no {name}; it has {', '.join(_HOME)}")


def __dir__() -> list[str]:
    return [*_HOME, "__version__"]
