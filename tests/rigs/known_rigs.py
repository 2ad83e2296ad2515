"""Rigs that the tests know well. They stay as they are when the demo rigs change."""

from functools import cache
from pathlib import Path

from rigcalc.models import Rig, read_rig

KNOWN_RIGS = ("four_wheel_drive", "tracks", "front_wheel_assist")
SHEET_RIG = "by_its_sheet"  # filled in by rule


def known_path(name: str = KNOWN_RIGS[0]) -> Path:
    return Path(__file__).parent / f"{name}.toml"


def known_text(name: str = KNOWN_RIGS[0]) -> str:
    return known_path(name).read_text(encoding="utf-8")


@cache
def known_rig(name: str = KNOWN_RIGS[0]) -> Rig:
    return read_rig(known_text(name))
