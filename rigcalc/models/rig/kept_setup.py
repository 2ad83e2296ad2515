"""How a tractor stood, what worked beside the tool, and the ground, kept with a reading: names and values of each section.

Such as "drive=4WD; wheelbase=3.8 m; rear.kind=radial; rear.tyres=4": short enough for a cell of the CSV file and for a link,
and readable. What a reading doesn't hang on (limits, tanks, names) is left out.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from rigcalc.core.errors import shown
from rigcalc.models.rig.parts import fault

if TYPE_CHECKING:
    from rigcalc.models.rig.rig import Rig

_GEAR = ("kind", "driven", "tyres", "section_width", "diameter", "rim_diameter", "static_loaded_radius", "deflection_ratio",
         "tracks", "track_width", "contact_length")  # fmt: skip
_GANG = ("tool", "on", "tools", "width", "depth")
# Section -> its entries that a reading hangs on, beside those that stand in `made_with` by themselves.
KEPT = {
    "tractor": ("drive", "wheelbase", "drawbar_height", "hitch_behind_axle", "center_of_gravity_height",
                *(f"{axle}.{name}" for axle in ("front", "rear") for name in _GEAR)),
    "implement": ("width", "wheel_share", *(f"gangs.{place}.{name}" for place in range(6) for name in _GANG)),
    "ground": ("texture", "sand", "clay", "soil_group", "surface", "cone_index", "grade", "wheels_follow_in_track"),
}  # fmt: skip
_WHOLE = ("tyres", "tracks", "tools")
_YES_OR_NO = {"true": True, "false": False}
_EXAMPLE = {
    "tractor": "drive=4WD; rear.tyres=4",
    "implement": "wheel_share=30 percent",
    "ground": "texture=loam; surface=firm",
}
LONGEST = 480  # letters; a cell of the CSV file holds 500


def kept_text(rig: Rig, section: str) -> str:
    """Give what is kept of a section of a rig: "tractor", "implement" or "ground". Empty where it would be too long for a cell,
    as six gangs may be: then a reading goes by the rig file there."""  # fmt: skip
    data = getattr(rig, section).model_dump(mode="json", exclude_none=True)
    flat = dict(_flat(data, ""))
    text = "; ".join(f"{name}={flat[name]}" for name in KEPT[section] if name in flat)
    return text if len(text) <= LONGEST else ""


def kept_data(text: str, section: str) -> dict[str, Any]:
    """Give the entries of such a text, as a rig file holds them. Raises InputError's kind of fault for a text that is none."""
    data: dict[str, Any] = {}
    for part in text.split(";"):
        name, found, value = (each.strip() for each in part.partition("="))
        if not found or name not in KEPT[section] or not value:
            raise fault(
                shown(part.strip()), f"an entry of {section} that a reading hangs on, = and its value", _EXAMPLE[section]
            )
        *path, last = name.split(".")
        inner = data
        for step in path:
            inner = inner.setdefault(step, {})
        if last in inner:
            raise fault(f"{name} twice", "each entry once", _EXAMPLE[section])
        inner[last] = _typed(last, value)
    if isinstance(data.get("gangs"), dict):
        data["gangs"] = [data["gangs"][place] for place in sorted(data["gangs"])]
    return data


def setup_changes(rig: Rig, section: str, text: str) -> dict[str, Any]:
    """Give the changes, by path, that make a section of a rig what it was; none where it is so."""
    if text == kept_text(rig, section):
        return {}
    data, top = kept_data(text, section), dict.fromkeys(name.split(".")[0] for name in KEPT[section])
    return {f"{section}.{name}": data.get(name) for name in top}


def _typed(name: str, value: str) -> Any:
    if value in _YES_OR_NO:
        return _YES_OR_NO[value]
    return int(value) if name in _WHOLE and value.isascii() and value.isdigit() and len(value) < 4 else value


def _flat(data: Any, before: str) -> Iterator[tuple[str, str]]:
    for name, value in data.items() if isinstance(data, dict) else enumerate(data):
        if isinstance(value, (dict, list, tuple)):
            yield from _flat(value, f"{before}{name}.")
        else:
            yield f"{before}{name}", str(value).lower() if isinstance(value, bool) else str(value)
