"""How hard does the tool pull back? Draft from the table's coefficients, specific draft."""

from __future__ import annotations

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S


@equation(
    gives=S.draft,
    takes=(S.soil_factor, S.draft_a, S.draft_b, S.draft_c, S.speed, S.tools, S.depth),
    source="d497",
    where="cl. 4.1.1",
    table="d497_draft",
)
def implement_draft(soil_factor, draft_a, draft_b, draft_c, speed, tools, depth):
    """Horizontal force to pull a tillage tool at steady speed, for tools counted one by one."""
    return soil_factor * (draft_a + draft_b * speed + draft_c * speed**2) * tools * depth


@equation(
    gives=S.draft,
    takes=(S.soil_factor, S.width_a, S.width_b, S.width_c, S.speed, S.width, S.depth),
    source="d497",
    where="cl. 4.1.1",
    table="d497_draft",
)
def implement_draft_by_width(soil_factor, width_a, width_b, width_c, speed, width, depth):
    """Horizontal force to pull a tillage tool at steady speed, for tools measured by their width."""
    return soil_factor * (width_a + width_b * speed + width_c * speed**2) * width * depth


@equation(
    gives=S.draft,
    takes=(S.soil_factor, S.spread_a, S.spread_b, S.speed, S.width),
    source="d497",
    where="cl. 4.1.1",
    table="d497_draft",
)
def draft_without_depth(soil_factor, spread_a, spread_b, speed, width):
    """Horizontal force for minor tillage and seeding tools, whose table rows leave depth out."""
    return soil_factor * (spread_a + spread_b * speed) * width


@equation(
    gives=S.specific_draft,
    takes=(S.draft.in_("kN"), S.width, S.depth.in_("m")),
    source="asabe_s296",
    sure="from memory",
)
def specific_draft(draft, width, depth):
    """Draft for each unit of tilled cross-section, width times depth."""
    return draft / (width * depth)


@equation(
    gives=S.draft.in_("kN"),
    takes=(S.specific_draft, S.width, S.depth.in_("m")),
    source="asabe_s296",
    sure="from memory",
)
def draft_from_specific(specific_draft, width, depth):
    """Draft of a tool whose specific draft was measured."""
    return specific_draft * width * depth
