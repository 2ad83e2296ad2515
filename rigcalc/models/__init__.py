"""The machine: rigs, operating points, limits, reverse questions, season, how sure. Composes the equations of the book."""

from rigcalc.models.answer import Answer, Margin, Reverse, size
from rigcalc.models.operating_point import OperatingPoint, operating_point
from rigcalc.models.rig import Rig
from rigcalc.models.rig_file import DEMO_RIGS, demo_rig, load_rig, read_rig, replaced, rig_text

__all__ = ["DEMO_RIGS", "Answer", "Margin", "OperatingPoint", "Reverse", "Rig", "demo_rig", "load_rig", "operating_point",
           "read_rig", "replaced", "rig_text", "size"]  # fmt: skip
