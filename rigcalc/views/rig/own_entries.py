"""A page with entries of its own that are the farm's: no other page has them, a link does, and they outlive a change of rig."""

from __future__ import annotations

from collections.abc import Collection
from typing import ClassVar

from rigcalc.views.rig.model import RigModel


class OwnEntries(RigModel):
    """A model of such a page. own: what the paths of its entries begin with; own_paths: those that a link may bring."""

    own: ClassVar[str]
    own_paths: ClassVar[Collection[str]]

    def is_own(self, path: str) -> bool:
        """Say whether an entry belongs to this page alone."""
        return path.startswith(self.own)

    def sheet(self) -> dict[str, str]:
        """Give what outlives a change of rig: the texts of the sheet, and what is the farm's."""
        return {**super().sheet(), **{path: text for path, text in self.inputs.items() if self.is_own(path)}}

    def may_be(self, path: str) -> bool:
        """Take an entry of this page from a link too."""
        return super().may_be(path) or path in self.own_paths
