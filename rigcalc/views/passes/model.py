"""The model of the page about fields as they are: a rig, a file of boundaries, how they are driven, and what that costs."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from rigcalc.core.errors import Fault, InputError
from rigcalc.models import Rig
from rigcalc.models.passes import FieldAnswer, field
from rigcalc.models.passes.answer import DEMO_FIELD
from rigcalc.models.rig.file import rig_from
from rigcalc.views.passes.fields import OWN, PATHS
from rigcalc.views.rig.model import nested
from rigcalc.views.rig.own_entries import OwnEntries
from rigcalc.widgets.picked import Picked
from rigcalc.words.passes import FieldWords
from rigcalc.words.passes.boxes import at_its_box

MOST_ON_PAGE = 60  # fields: more would make every entry wait for seconds, our choice
_LONGEST_COUNT = 4  # digits


class PassesModel(OwnEntries):
    """`results` is a FieldWords. Boundaries are the farm's: they outlive a change of rig, and no link holds them.

    Without a file it is about an invented field.
    """

    own, own_paths = OWN, PATHS
    results: FieldWords | None
    boundary_file: Picked | None = None
    _kept: tuple[Any, FieldAnswer] | None = None

    def compute(self, inputs: Mapping[str, str]) -> FieldWords:
        """Lay the passes. Raises InputError with the faults of the rig, of the boxes and of the file, each at its place."""
        faults: list[Fault] = []
        rig: Rig | None = None
        try:
            rig = rig_from(nested(inputs))
        except InputError as error:
            faults += error.faults
        typed: dict[str, Any] = {path.removeprefix(OWN): inputs.get(path, "").strip() for path in sorted(PATHS)}
        typed = {name: text for name, text in typed.items() if text}
        if (count := typed.get("rounds", "")).isascii() and count.isdecimal() and len(count) <= _LONGEST_COUNT:
            typed["rounds"] = int(count)
        asked = (rig, tuple(typed.items()), self.boundary_file)
        if not faults and self._kept is not None and self._kept[0] == asked:
            return FieldWords(self._kept[1], self.system)  # other units alone
        held = self.boundary_file.data if self.boundary_file is not None else DEMO_FIELD
        try:
            found = field(rig if rig is not None else "", held, most=MOST_ON_PAGE, **typed)  # without one the rest is looked at
        except InputError as error:
            faults += [at_its_box(fault, OWN, PATHS) for fault in error.faults if rig is not None or fault.where != "rig"]
        if faults:
            raise InputError(dict.fromkeys(faults))
        self._kept = (asked, found)
        return FieldWords(found, self.system)

    def take_boundary(self, picked: Picked | None) -> None:
        """Take the fields of a file that was picked, or the invented field again."""
        self.boundary_file = picked
        self._computed_from = None
        self.recompute()

    def rig_shown(self) -> Rig | None:
        """Give the rig that the page is about."""
        return self.results.answer.rig if self.results is not None else None

    def fits_a_link(self) -> bool:
        """Say whether the address of the page holds everything: never a file of boundaries."""
        return super().fits_a_link() and self.boundary_file is None
