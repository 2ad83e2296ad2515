"""The page docs/how_good.md: what was measured beside what rigcalc says, bias and coverage in front."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from rigcalc.core.sources import sources
from rigcalc.models.measured import Compared, Score, score

_TITLES = {
    "draft": "Draft",
    "wedge": "Draft of narrow tines by the wedge, a third voice",
    "fuel": "Fuel",
    "power_ratio": "Power from shaft to drawbar",
    "traction": "Slip, pull and grip",
}
_ABOUT = {
    "draft": "The band is that of every answer, for 8 fields in 10. The tractor is unknown, so its wheels are left out.",
    "wedge": "The same rows by another way: the wedge of soil before a tine, with strength of the ground by texture from "
    "memory, taken as moist, and points whose width and rake aren't stated. Low confidence; it decides nothing.",
    "fuel": "The relation is meant to hold an allowance for engines in the field, so it should lie above a test report. It "
    "gives no band. A tractor's own test report, typed into the rig file, takes its place.",
    "power_ratio": "Here the band is theirs: the middle 8 of 10 tests. On a concrete track, ballasted for it: this says "
    "nothing of soil.",
    "traction": "The best efficiency of our curves, against that of a whole tractor on tyres that are not stated.",
}
_READINGS = {
    "two_deviations": "two standard deviations of a normal distribution",
    "hard_limits": "hard ends, every draft between them as likely",
}


def how_good_page(by_reading: Mapping[str, tuple[Compared, ...]], used: str) -> str:
    """Write the page as Markdown. by_reading: the same rows under each reading of the printed range; used: the one in use."""
    rows = by_reading[used]
    lines = ["# How good is it?", "",
             "Made from `tests/published/measured_*.toml` by `uv run python docs/make.py`; don't edit it by hand. A row added",
             "there shows here. Predictions and bands come from the code that answers for a rig.", "",
             *_front(rows), "", *_readings(by_reading, used), "", *_thin()]  # fmt: skip
    for kind in dict.fromkeys(row.kind for row in rows):
        lines += ["", f"## {_TITLES[kind]}", "", _ABOUT[kind], "", *_table([row for row in rows if row.kind == kind])]
        left = [row for row in rows if row.kind == kind and row.skip]
        lines += ["", "Measured, but not comparable:", "", *(_left(row) for row in left)] if left else []
    return "\n".join(lines) + "\n"


def _front(rows: tuple[Compared, ...]) -> Iterator[str]:
    yield "| | rows | prediction over measurement, middle | inside the band | inside, without rows that set a number of ours |"
    yield "|---|---|---|---|---|"
    for kind in dict.fromkeys(row.kind for row in rows):
        of_kind = [row for row in rows if row.kind == kind]
        whole, free = score(of_kind), score(row for row in of_kind if not row.used_for)
        if whole is not None:
            yield f"| {_TITLES[kind]} | {whole.rows} | {whole.bias:.2f} | {_inside(whole)} | {_inside(free)} |"


def _inside(found: Score | None) -> str:
    if found is None or not found.banded:
        return "no band"
    return f"{found.inside} of {found.banded}"


def _readings(by_reading: Mapping[str, tuple[Compared, ...]], used: str) -> Iterator[str]:
    yield '## Two readings of "plus or minus 50 percent"'
    yield ""
    yield "The draft table prints a range and no more. Scored on the drafts that set no number of ours (the score is the mean"
    yield "distance between draws and measurement, as a share of it: less is better):"
    yield ""
    yield "| reading | inside its 8-in-10 band | score | |"
    yield "|---|---|---|---|"
    for reading, rows in by_reading.items():
        found = score(row for row in rows if row.kind == "draft" and not row.used_for)
        if found is not None and found.crps is not None:
            mark = "in use" if reading == used else ""
            yield f"| {_READINGS[reading]} | {_inside(found)} | {found.crps:.3f} | {mark} |"
    yield ""
    yield "The scores can't tell the two apart on so few rows. The one in use keeps the share inside that it claims, and is"
    yield 'the usual reading of a range without a shape (decision 0002). `how_sure(reading="hard_limits")` gives the other.'


def _thin() -> Iterator[str]:
    yield "**This is thin.** The drafts come from three trials, one of them a fit at three speeds, none with every input."
    yield "No slip and no pull on soil could be compared: the abstracts leave out the tractor. Who has a trial with its inputs"
    yield "can add a row and see at once."


def _table(rows: list[Compared]) -> Iterator[str]:
    yield "| row | predicted | band | measured | inside | source |"
    yield "|---|---|---|---|---|---|"
    for row in rows:
        if row.predicted is None:
            continue
        notes = "; ".join(part for part in (f"*set {row.used_for}*" if row.used_for else "", row.note) if part)
        measured = _number(row.measured, row.unit)
        if row.measured_low is not None and row.measured_high is not None:
            measured += f" ({row.measured_low:.3g} to {row.measured_high:.3g})"
        band = "none" if row.low is None or row.high is None else f"{row.low:.3g} to {row.high:.3g}"
        inside = {True: "yes", False: "**no**", None: ""}[row.inside]
        source = f"{row.source}, {row.where}" + (f". {notes}" if notes else "")
        yield f"| {row.name} | {_number(row.predicted, row.unit)} | {band} | {measured} | {inside} | {source} |"


def _left(row: Compared) -> str:
    about = sources()[row.source]
    return f"- {_number(row.measured, row.unit)}, {about} ({row.where}): {row.skip}."


def _number(value: float, unit: str) -> str:
    return f"{value:.3g}{'' if unit == '1' else f' {unit}'}"
