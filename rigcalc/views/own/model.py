"""The model behind a rig of one's own: what is typed, what is still missing, and the rig once nothing is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from rigcalc.core.errors import Fault, InputError
from rigcalc.models import Rig, size
from rigcalc.models.rig.file import rig_from
from rigcalc.models.rig.tool import by_width
from rigcalc.views.own.fields import gear_of, texture_of
from rigcalc.views.rig.model import RigModel, nested
from rigcalc.words.numbers import System
from rigcalc.words.size import SizeWords

_DRIVES = {"two": "track", "four": "track"}
_MEASURED = ("section_width", "diameter", "rim_diameter", "deflection_ratio", "static_loaded_radius")
# What an entry from the seat takes the place of.
_INSTEAD = {
    "tractor.total_mass": ("tractor.front_axle_mass", "tractor.rear_axle_mass", "tractor.front_share"),
    **{
        f"tractor.{axle}.size": tuple(f"tractor.{axle}.{name}" for name in (*_MEASURED, "kind", "tyre.load_index"))
        for axle in ("front", "rear")
    },
}

_GONE = (*_MEASURED, "tyres", "tracks", "size", "track_width", "contact_length", "driven")  # of another kind of running gear


@dataclass(frozen=True)
class Own:
    """What stands so far: the answer in words once the rig is whole, the entries that are missing, and what can't be used."""

    words: SizeWords | None
    missing: tuple[str, ...]
    faults: tuple[Fault, ...]


class OwnModel(RigModel):
    """`results` is an Own. What is missing is no fault: it is what is asked next."""

    results: Own | None
    defaults: ClassVar = {**RigModel.defaults, "own.gear": gear_of(RigModel.defaults)}

    def compute(self, inputs: Mapping[str, str]) -> Own:
        """Give the answer where nothing is missing; else what is."""
        asked = [path for path in self.asked() if not inputs.get(path, "").strip()]
        if asked:
            return Own(None, tuple(asked), _typed_badly(inputs))
        return Own(SizeWords(size(rig_from(nested(inputs))), self.system), (), ())

    def asked(self) -> tuple[str, ...]:
        """Give the entries that a rig can't do without, in the order of the cards."""
        gear = gear_of(self.inputs)
        running = _running(gear, self.inputs)
        weights = () if self.inputs.get("tractor.front_axle_mass", "").strip() else ("tractor.total_mass",)
        return (
            *("own.gear", "tractor.rated_power", "tractor.power_rating", *weights, *running),
            "implement.tool",
            *(
                ("implement.width",)
                if by_width(self.inputs.get("implement.tool", ""))
                else ("implement.tools", "implement.spacing")
            ),
            *("ground.texture", "ground.surface", "work.depth", "work.speed"),
        )

    def edit(self, changes: Mapping[str, str], live: bool = False) -> None:
        """Take one change set, with what follows from it: drive and axles of a silhouette, a texture of ribbon and feel."""
        changes = dict(changes)
        gear = changes.get("own.gear")
        if gear:
            changes |= _gear_entries(gear, self.inputs)
        now = {**self.inputs, **changes}
        if not {"own.ribbon", "own.feel"}.isdisjoint(changes):
            texture = texture_of(now.get("own.ribbon", ""), now.get("own.feel", ""))
            changes |= {"ground.texture": texture, "ground.sand": "", "ground.clay": ""} if texture else {}
        for path, others in _INSTEAD.items():
            if changes.get(path, "").strip():
                changes |= {other: "" for other in others if self.inputs.get(other)}
        for axle, other in (("rear", "front"), ("front", "rear")):
            size_typed = changes.get(f"tractor.{axle}.size", "").strip()
            # A four-wheel drive has the same tyres all round, unless somebody says otherwise.
            if size_typed and now.get("tractor.drive") == "4WD" and not _has_tyres(now, other):
                changes[f"tractor.{other}.size"] = size_typed
        if "tractor.rear.track_width" in changes and now.get("tractor.front.kind") == "track":
            changes.setdefault("tractor.front.track_width", changes["tractor.rear.track_width"])
        super().edit(changes, live)

    def bring(self, path: str, text: str) -> dict[str, str]:
        """Bring nothing along with a choice: what it needs is asked, or assumed by a rule."""
        return {}

    def clear(self) -> None:
        """Start from nothing: every card empty, the units as they are."""
        self.replace_all({**{"rig": self.defaults["rig"]}, **self.sheet()})

    def replace_all(self, inputs: Mapping[str, str], system: System | None = None, undoable: bool = True) -> None:
        """Take a whole new state; the silhouette follows the drive and the axles."""
        super().replace_all({**inputs, "own.gear": gear_of(inputs)}, system, undoable)

    def hides(self, path: str) -> bool:
        """Hide what the silhouette has no use for."""
        return super().hides(path) or (path.startswith("tractor.front.") and gear_of(self.inputs) == "two")

    def is_own(self, path: str) -> bool:
        """Say whether an entry belongs to this page alone."""
        return path.startswith("own.")

    def to_carry(self) -> dict[str, str]:
        """Give the rig for another page. Raises InputError while something is missing."""
        if self.results is None or self.results.words is None:
            missing = self.results.missing if self.results is not None else ()
            raise InputError(
                [Fault(path, "nothing", "an answer, before the rig goes along") for path in missing] or self.faults
            )
        return {path: text for path, text in self.inputs.items() if not self.is_own(path)}

    def rig_shown(self) -> Rig | None:
        """Give the rig, once it is whole."""
        return self.results.words.answer.rig if self.results is not None and self.results.words is not None else None


def _gear_entries(gear: str, inputs: Mapping[str, str]) -> dict[str, str]:
    """Give what a silhouette says: the drive, and what each axle runs on; what the axles had of the other kind goes."""
    kind = "track" if gear in _DRIVES else ""
    out = {"tractor.drive": _DRIVES.get(gear, gear), "tractor.rear.kind": kind}
    out["tractor.front.kind"] = "none" if gear == "two" else kind
    before = gear_of(inputs)
    if before != gear:
        out |= {
            f"tractor.{axle}.{name}": "" for axle in ("front", "rear") for name in _GONE if inputs.get(f"tractor.{axle}.{name}")
        }
        if gear == "two" and inputs.get("tractor.front_axle_mass"):
            out |= {"tractor.front_axle_mass": "", "tractor.rear_axle_mass": ""}
    if gear in _DRIVES:
        out |= {f"tractor.{axle}.tracks": "2" for axle in ("front", "rear") if out[f"tractor.{axle}.kind"] == "track"}
    return out


def _running(gear: str, inputs: Mapping[str, str]) -> tuple[str, ...]:
    if gear in _DRIVES:
        return ("tractor.rear.track_width",)
    axles = ("rear", "front") if gear else ()
    return tuple(f"tractor.{axle}.size" for axle in axles if not _has_tyres(inputs, axle))


def _has_tyres(inputs: Mapping[str, str], axle: str) -> bool:
    return any(inputs.get(f"tractor.{axle}.{name}", "").strip() for name in ("size", "section_width"))


def _typed_badly(inputs: Mapping[str, str]) -> tuple[Fault, ...]:
    """Give what is wrong with the entries that stand already; that others are missing is no fault."""
    try:
        rig_from(nested(inputs))
    except InputError as error:
        typed = {path for path, text in inputs.items() if text.strip()}
        return tuple(fault for fault in error.faults if fault.where in typed)
    return ()
