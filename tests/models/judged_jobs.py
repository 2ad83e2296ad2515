"""The made-up jobs of size/verdict_table.toml as rigs."""

import tomllib
from pathlib import Path

from rigcalc.models import replaced
from rigcalc.models.rig.file import rig_from

TABLE = tomllib.loads(Path(__file__).with_name("size").joinpath("verdict_table.toml").read_text(encoding="utf-8"))
JOBS = TABLE["job"]


def rig_of(job):
    tractor, tool, tools, depth, speed, texture, surface = job["rig"]
    a_tool = TABLE["tool"][tool]
    each = {name: float(a_tool[name].split()[0]) * tools for name in ("mass", "hitch_load")}
    rig = rig_from({
        "tractor": TABLE["tractor"][tractor],
        "implement": a_tool | {"tools": tools, "mass": f"{each['mass']} lb", "hitch_load": f"{each['hitch_load']} lbf"},
        "ground": {"texture": texture, "surface": surface},
        "work": {"depth": f"{depth} in", "speed": f"{speed} mph"},
    })  # fmt: skip
    return replaced(rig, job.get("change", {}))
