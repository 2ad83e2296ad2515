"""Facts about a rig: what it is, what it does, what each question finds. No sentence for people stands here; see `words`."""

from rigcalc.models.machine.operating_point import OperatingPoint, operating_point
from rigcalc.models.rig.file import DEMO_RIGS, demo_rig, load_rig, read_rig, replaced, rig_text
from rigcalc.models.rig.rig import Rig
from rigcalc.models.size.answer import Answer, Margin, size

__all__ = ["DEMO_RIGS", "Answer", "Margin", "OperatingPoint", "Rig", "demo_rig", "load_rig", "operating_point",
           "read_rig", "replaced", "rig_text", "size"]  # fmt: skip
