"""What the shanks loosen: section and ridge over depth, draft for each area, the cheapest depth, spacing against depth."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from rigcalc.core.tables import table
from rigcalc.equations import loosening as book
from rigcalc.models.ground.depth import probing
from rigcalc.models.ground.layers import Floats
from rigcalc.models.machine.draft_force import draft_force
from rigcalc.models.machine.statics import plain
from rigcalc.models.rig.bare import BareRig
from rigcalc.models.rig.rig import Rig
from rigcalc.models.rig.tool import usual

_SHALLOWEST, _STEP = 10.0, 1.0  # cm


@dataclass(frozen=True)
class Shanks:
    """Over depths (cm): the section each shank loosens (m2), the ridge left (cm), the share of the full section, draft (kN),
    draft for each area (kPa).

    critical: (low, high) in cm, None where the point's width isn't known; below its middle nothing more is loosened.
    cheapest: the depth in cm with the least draft for each area. multiple: spacing over the work's depth; usual_multiple: the
    span of plain points, by the table shank_spacing.
    """

    depths: Floats
    section: Floats
    ridge: Floats
    loosened: Floats
    draft: Floats
    specific: Floats
    critical: tuple[float, float] | None
    cheapest: float
    spacing: float
    width: float
    work: float
    multiple: float
    usual_multiple: tuple[float, float]

    def at(self, depth: float, name: str) -> float:
        """Give a value at a depth in cm, between the depths of the arrays."""
        return float(np.interp(depth, self.depths, getattr(self, name)))

    def places(self, half: float, tools: float) -> Floats:
        """Give where shanks stand across a slice, cm from its middle: those of so many tools that reach within `half` of it."""
        each = np.arange(int(min(tools, 2 * half / self.spacing + 5))) * self.spacing
        shown = each - each.mean()
        return np.asarray(shown[np.abs(shown) <= half + self.work + self.width])

    def loosened_to(self, across: Floats, places: Floats) -> Floats:
        """Give how deep (cm) the soil is loosened at places across (cm), by shanks at `places` at the work's depth.

        Its sides rise at the angle of the table probing from the point's edges; below the middle of the critical depth nothing.
        """
        reach = self.work if self.critical is None else min(self.work, sum(self.critical) / 2)
        aside = np.abs(np.asarray(across, float)[:, None] - places).min(axis=1) - self.width / 2
        rise = np.tan(np.deg2rad(probing("side_angle", "deg")))
        return np.asarray(np.clip(reach - rise * np.maximum(aside, 0.0), 0.0, reach))

    @property
    def wide(self) -> bool:
        """True where the shanks stand farther apart than plain points loosen all of the width at this depth."""
        return self.multiple > self.usual_multiple[1] + 1e-9


def critical_band(rig: Rig) -> tuple[float, float] | None:
    """Give the low and high end of the critical depth of a rig's points in cm; None where a table or the width is missing."""
    width, widths = rig.implement.point_width, usual(rig.implement.tool).critical_ratio
    return None if width is None or widths is None else (width.to("cm") * widths[0], width.to("cm") * widths[1])


def shanks(rig: Rig, b: BareRig, to: float) -> Shanks:
    """Work out what a rig's shanks loosen from 10 cm down to `to` cm."""
    work, spacing = float(b.depth), float(b.spacing)
    critical = critical_band(rig)
    width = rig.implement.point_width.to("m") if rig.implement.point_width is not None else 0.0
    depths = np.arange(_SHALLOWEST, max(to, work, _SHALLOWEST + 10 * _STEP) + _STEP, _STEP)
    reached = depths / 100 if critical is None else np.minimum(depths, sum(critical) / 2) / 100
    angle = probing("side_angle", "deg")
    ridge = np.minimum(book.ridge_between.bare(spacing, width, angle), reached)
    apart = ridge >= reached
    section = np.where(
        apart,
        book.section_of_one.bare(reached, width, angle),
        book.section_with_ridge.bare(reached, spacing, width, ridge),
    )
    draft = np.asarray(draft_force(b.at(depth=depths), plain)) * np.ones(depths.shape)
    specific = book.draft_for_area.bare(1000.0 * draft / b.tools, section) / 1000.0  # kN and kPa outside the book
    row = table("shank_spacing")["plain"]
    return Shanks(
        depths=depths,
        section=section,
        ridge=100 * (ridge + depths / 100 - reached),
        loosened=section / (spacing * depths / 100),
        draft=draft,
        specific=specific,
        critical=critical,
        cheapest=float(depths[int(specific.argmin())]),
        spacing=100 * spacing,
        width=100 * width,
        work=work,
        multiple=100 * spacing / work,
        usual_multiple=(row["low"], row["high"]),
    )
