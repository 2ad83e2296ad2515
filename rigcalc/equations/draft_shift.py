"""What moves draft off its row of the table? Depth below the usual, wheel tracks under the tool, hard ground."""

from __future__ import annotations

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S


@equation(
    gives=S.draft,
    takes=(S.draft_before, S.deep_draft, S.deep_share),
    source="rigcalc_assumption",
    where="docs/decisions/0011-deep-chisels.md",
    sure="common practice",
    table="draft_doubt",
)
def draft_between_rows(draft_before, deep_draft, deep_share):
    """Draft of a chisel below its usual depth: part of the way from its own row to the subsoiler row."""
    return (1 - deep_share) * draft_before + deep_share * deep_draft


@equation(
    gives=S.draft,
    takes=(S.draft_before, S.covered, S.usual_covered, S.behind_wheels),
    source="tullberg_2000",
    where="abstract: the ratio behind wheels; the average in the rows is ours",
    sure="common practice",
    table="draft_doubt",
)
def draft_with_wheel_tracks(draft_before, covered, usual_covered, behind_wheels):
    """Draft where wheels cover more or less of the tool's width than the average that stands in the table's rows."""
    return draft_before * (1 + covered * (behind_wheels - 1)) / (1 + usual_covered * (behind_wheels - 1))


@equation(
    gives=S.draft,
    takes=(S.draft_before, S.correlation, S.draft_range, S.cone_range, S.cone_deviation),
    source="rigcalc_assumption",
    where="docs/decisions/0002-how-sure.md",
    sure="common practice",
    table="draft_doubt",
)
def draft_on_hard_ground(draft_before, correlation, draft_range, cone_range, cone_deviation):
    """Draft to expect where the measured cone index is off that of the named surface: the two go together in part."""
    return draft_before * (1 + correlation * draft_range / cone_range * cone_deviation)


@equation(
    gives=S.draft,
    takes=(S.draft_before, S.field_factor),
    source="rigcalc_assumption",
    where="docs/decisions/0018-readings.md",
    sure="common practice",
    table="reading_doubt",
)
def draft_as_read(draft_before, field_factor):
    """Draft of a field that was read: what its readings leave of the row's range, as a factor."""
    return draft_before * field_factor


@equation(
    gives=S.cone_index,
    takes=(S.cone_index_before, S.field_factor),
    source="rigcalc_assumption",
    where="docs/decisions/0018-readings.md",
    sure="common practice",
    table="reading_doubt",
)
def cone_index_as_read(cone_index_before, field_factor):
    """Cone index of a field that was read: what its readings leave of the surface's range, as a factor."""
    return cone_index_before * field_factor
