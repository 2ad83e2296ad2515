"""Everything that a setup sheet shows, as text, in the order in which a cab needs it."""

from __future__ import annotations

import math
from dataclasses import dataclass

import rigcalc
from rigcalc.core.sources import sources
from rigcalc.core.tables import table
from rigcalc.models import Answer, Margin
from rigcalc.models.ballast.answer import BallastAnswer
from rigcalc.models.machine.limits import LIMITS
from rigcalc.models.machine.operating_point import Record, solve
from rigcalc.views.sheet.ballast import BallastPart, ballast_part
from rigcalc.views.sheet.readings import Reading, readings
from rigcalc.views.sheet.words import clean, clean_about
from rigcalc.words.numbers import chance, in_units, percent, say

MOST_NOTES = 3  # the weightiest come first; `rigcalc size` has them all
_STATES = {"ok": "holds", "tight": "tight", "over": "PASSED", "unknown": "not known"}


@dataclass(frozen=True)
class Setting:
    """One thing to set: name and value with its unit. The first two are the ones to read from afar."""

    name: str
    value: str


@dataclass(frozen=True)
class LimitRow:
    """One limit: title, how full in words and as a share for the bar (0 to 1.25), state in a word, and its numbers."""

    title: str
    used: str
    share: float
    state: str
    text: str
    first: bool


@dataclass(frozen=True)
class Sheet:
    """A setup sheet. verdict is "go", "care" (pulls, but slips too much) or "no", which has neither settings nor readings."""

    title: str
    who: str
    where: str
    when: str
    comment: str
    farm: str
    rig: str
    ground: str
    verdict: str
    word: str
    sentence: str
    settings_title: str
    settings: tuple[Setting, ...]
    readings: tuple[Reading, ...]
    first_title: str
    first: str
    ways: tuple[str, ...]
    limits: tuple[LimitRow, ...]
    unknown: str
    sure: str
    season: str
    notes: tuple[str, ...]
    cautions: tuple[str, ...]
    sources: str
    version: str
    ballast: BallastPart | None = None


def sheet_data(answer: Answer, *, ballast: BallastAnswer | None = None, **about: str | None) -> Sheet:
    """Make the sheet of an answer. about: who, where, when, gear, comment; all optional. Raises InputError.

    ballast: the answer on ballast for the same rig; with it the sheet has a part on the plan, and its cautions.
    """
    given = clean_about(about)
    part = ballast_part(answer, ballast) if ballast is not None else None
    cautions = tuple(dict.fromkeys((*answer.cautions, *(ballast.cautions if ballast is not None else ()))))
    rig = answer.rig
    verdict, word = _verdict(answer)
    go = verdict != "no"
    parts = [clean(text, 90) for text in (rig.tractor.name, rig.implement.name) if text]
    return Sheet(
        title="Setup sheet",
        who=given["who"],
        where=given["where"],
        when=given["when"],
        comment=given["comment"],
        farm=clean(rig.farm, 80),
        rig=" with ".join(parts),
        ground=_ground(answer),
        verdict=verdict,
        word=word,
        sentence=answer.sentence,
        settings_title="As asked for, though it slips too much" if verdict == "care" else "Set this",
        settings=_settings(answer, given["gear"]) if go else (),
        readings=readings(answer) if go else (),
        first_title="Past its limit already" if verdict == "care" else "Going deeper, this gives out first",
        first=_first(answer) if go else "",
        ways=() if go else _ways(answer),
        limits=_limits(answer),
        unknown=", ".join(m.title for m in answer.margins if m.limit is None and "pressure" not in m.name),
        sure=_sure(answer),
        season=answer.season_text if go else "",
        notes=answer.notes[:MOST_NOTES],
        cautions=cautions,
        sources=_sources(answer, cautions),
        version=f"rigcalc {rigcalc.__version__}",
        ballast=part,
    )


def _verdict(answer: Answer) -> tuple[str, str]:
    if not answer.point.pulls:
        return "no", "Can't be pulled"
    if not answer.pulls:
        return "no", "Not enough engine"
    if any(margin.hard and (margin.used or 0) > 1 for margin in answer.margins):
        return "no", "Not as it stands"
    return ("go", "It pulls") if answer.works else ("care", "Too much slip")


def _ground(answer: Answer) -> str:
    ground = answer.rig.ground
    texture = ground.texture or f"sand {ground.sand}, clay {ground.clay}"
    strength = f"cone index {ground.cone_index}" if ground.cone_index else f"{ground.surface} ground"
    slope = f"slope {ground.grade}" if ground.grade.value else ""
    return clean(", ".join(part for part in (texture, strength, slope) if part), 120)


def _settings(answer: Answer, gear: str) -> tuple[Setting, ...]:
    p, units = answer.point.bare, answer.units
    rows = [
        Setting("Depth", say(p.depth, "cm", units)),
        Setting("Speed", say(p.speed, "km/h", units)),
        Setting("Gear", gear),
        Setting("Shanks", str(answer.rig.implement.tools)),
        Setting("Spacing", say(answer.rig.implement.spacing.to("cm"), "cm", units)),
        Setting("Width", say(p.width, "m", units)),
    ]
    return tuple(row for row in rows if row.value)


def _first(answer: Answer) -> str:
    deepest = next(line for line in answer.reverse if line.question == "deepest")
    if deepest.value is None or deepest.binds not in LIMITS:
        return deepest.text
    return f"{LIMITS[deepest.binds].title}, at {say(deepest.value, deepest.unit, answer.units)}"


def _ways(answer: Answer) -> tuple[str, ...]:
    """Give what would work instead: the reverse answers that have a value, or why none has."""
    asked = answer.reverse[:3]
    return tuple(line.text for line in asked if line.value is not None) or tuple(line.text for line in asked)


def _limits(answer: Answer) -> tuple[LimitRow, ...]:
    known = sorted((m for m in answer.margins if m.used is not None), key=lambda m: -(m.used or 0))
    return tuple(_limit(margin, margin.name == answer.binding.name) for margin in known)


def _limit(margin: Margin, first: bool) -> LimitRow:
    used = margin.used or 0.0
    full = percent(used) if math.isfinite(used) and used < 100 else "none left"
    title = f"{margin.title} (advice)" if margin.name in ("critical_depth", "extreme_depth") else margin.title
    return LimitRow(title, full, round(min(max(used, 0.0), 1.25), 3), _STATES[margin.state], margin.text, first)


def _sure(answer: Answer) -> str:
    sure = answer.sure
    return (
        f"Enough grip and engine in {chance(sure.chance_pulls)} such fields; every limit kept, slip too, in "
        f"{chance(sure.chance_works)}. Bands are what 8 fields in 10 fall into: the draft table scatters by "
        f"{percent(sure.draft_range)} either way, and soil strength scatters too."
    )


def _sources(answer: Answer, cautions: tuple[str, ...]) -> str:
    """Name every source behind the figures and the cautions, each with how sure it is."""
    record: Record = []
    solve(answer.bare_rig, record=record)
    pairs = [(str(eq.source), eq.sure) for eq, _ in record]
    text = f"Figures: {_listed(pairs)}. Slip band: {answer.caps.slip_source}. "
    shown = [
        (str(sources()[row["source"]]), row["sure"])
        for row in table("cautions")
        if in_units(row["text"], answer.units) in cautions
    ]
    return text + f"Cautions: {_listed(shown)}. What is said to be from memory was not checked in print."


def _listed(pairs: list[tuple[str, str]]) -> str:
    """Give "source (how sure)", each source once, in the order in which it is used."""
    found: dict[str, list[str]] = {}
    for source, sure in pairs:
        if sure not in found.setdefault(source, []):
            found[source].append(sure)
    return "; ".join(f"{source} ({', '.join(sure)})" for source, sure in found.items())
