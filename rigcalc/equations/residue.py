"""What does a pass leave of the residue on top?"""

from __future__ import annotations

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S


@equation(
    gives=S.cover,
    takes=(S.cover_before, S.residue_left),
    source="scs_emi_1992",
    where="how its shares are used",
    sure="from memory",
    table="residue",
)
def cover_after(cover_before, residue_left):
    """Share of the ground that residue covers after a pass, from the share before it."""
    return cover_before * residue_left
