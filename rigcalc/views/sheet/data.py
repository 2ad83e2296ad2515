"""Everything that a setup sheet shows, as text, in the order in which a cab needs it."""

from __future__ import annotations

from dataclasses import dataclass

import rigcalc
from rigcalc.models.ballast.answer import BallastAnswer
from rigcalc.models.reading.zones import zones
from rigcalc.models.rig.rig import Rig
from rigcalc.models.season.answer import SeasonAnswer
from rigcalc.models.size.answer import Margin, size
from rigcalc.views.sheet.ballast import BallastPart, ballast_part
from rigcalc.views.sheet.readings import Reading, readings
from rigcalc.views.sheet.words import clean, clean_about
from rigcalc.views.sheet.working import WorkedStep, worked_steps
from rigcalc.words.cautions import caution_texts
from rigcalc.words.ground.sheet import sheet_lines
from rigcalc.words.numbers import System, capital, figure
from rigcalc.words.reading import zones as zone_words
from rigcalc.words.season.sheet import season_lines
from rigcalc.words.size import SizeWords
from rigcalc.words.size import sheet as sheet_words
from rigcalc.words.size.parts import MarginWords
from rigcalc.words.tools import pieces

MOST_NOTES = 5  # the weightiest come first; `rigcalc size` has them all
_LONGEST = 1.25  # share at which a bar ends


@dataclass(frozen=True)
class Setting:
    """One thing to set: name, value and its unit. The first two are the ones to read from afar."""

    name: str
    value: str
    unit: str = ""


@dataclass(frozen=True)
class LimitRow:
    """One limit: title, how full in words and as a share for the bar (0 to 1.25), state in a word, its numbers.

    near: it is nearly used up, or over. first: it gives out first.
    """

    title: str
    used: str
    share: float
    state: str
    text: str
    near: bool
    first: bool


@dataclass(frozen=True)
class Sheet:
    """A setup sheet. verdict is "go", "care" (try it first) or "no", which has neither settings nor readings."""

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
    rest: str
    doubt: str
    settings_title: str
    settings: tuple[Setting, ...]
    readings: tuple[Reading, ...]
    first_title: str
    first: str
    stops: tuple[str, ...]
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
    soil: tuple[str, ...] = ()
    zones: tuple[str, ...] = ()
    days: tuple[str, ...] = ()
    working: tuple[WorkedStep, ...] = ()


def answered(rig: Rig, units: System) -> SizeWords:
    """Give what a sheet is made of for a rig, for pages that answer another question about it."""
    return SizeWords(size(rig), units)


def sheet_data(
    words: SizeWords, *, ballast: BallastAnswer | None = None, season: SeasonAnswer | None = None, working: bool = False,
    **about: str | None,
) -> Sheet:  # fmt: skip
    """Make the sheet of an answer in words. about: who, where, when, gear, comment; all optional. Raises InputError.

    ballast: the answer on ballast for the same rig; with it the sheet has a part on the plan, and its cautions. season: the
    season of the same rig alone; with it the sheet has a part on it, in place of the line that the rig file gives. working:
    with every step of the answer's working, for pages behind the two.
    """
    given = clean_about(about)
    part = ballast_part(words, ballast) if ballast is not None else None
    answer, state = words.answer, words.answer.verdict.state
    days = season_lines(season, answer.rig, words.units) if season is not None else ()
    rig, deepest = answer.rig, next(said for said in words.reverse if said.question == "deepest")
    keys = tuple(dict.fromkeys((*answer.cautions, *(ballast.cautions if ballast is not None else ()))))
    verdict = {"go": "go", "try": "care", "dont": "no"}[answer.verdict.judgement]
    go = verdict != "no"
    names = [clean(text, 90) for text in (rig.tractor.name, rig.implement.name) if text]
    return Sheet(
        title="Setup sheet",
        who=given["who"],
        where=given["where"],
        when=given["when"],
        comment=given["comment"],
        farm=clean(rig.farm, 80),
        rig=" with ".join(names),
        ground=clean(sheet_words.ground_text(rig), 120),
        verdict=verdict,
        word=words.said.word,
        sentence=capital(words.said.headline),
        rest=" ".join(words.said.rest),
        doubt=sheet_words.doubt_text(answer),
        settings_title=sheet_words.SETTINGS_TITLES.get(answer.verdict.judgement, ""),
        settings=_settings(words, given["gear"]) if go else (),
        readings=readings(words) if go else (),
        first_title=sheet_words.FIRST_TITLES.get(state, sheet_words.FIRST_TITLE) if go else "",
        first=sheet_words.first_text(answer, words.units, deepest.text) if go else "",
        stops=sheet_words.stop_signs(answer, words.units) if go else (),
        ways=() if go else sheet_words.ways_out(words),
        limits=tuple(_limit(margin, said, margin.name == answer.binding.name) for margin, said in words.fullest_first()),
        unknown=", ".join(words.unknown_limits()),
        sure=sheet_words.sure_on_sheet(answer),
        season=words.season.text if go and not days else "",
        notes=(*words.notes[:MOST_NOTES], *([f"Taken by rule: {words.taken_in_short}"] if words.taken_in_short else [])),
        cautions=caution_texts(keys, rig, words.units),
        sources=sheet_words.sources_text(answer, keys),
        version=f"rigcalc {rigcalc.__version__}",
        ballast=part,
        soil=sheet_lines(rig, words.units),
        zones=zone_words.sheet_lines(zones(rig), rig, words.units) if go else (),
        days=days,
        working=worked_steps(words) if working else (),
    )


def _settings(words: SizeWords, gear: str) -> tuple[Setting, ...]:
    p, units, implement = words.answer.point.bare, words.units, words.answer.rig.implement
    rows = [
        Setting("Depth", *figure(p.depth, "cm", units)),
        Setting("Speed", *figure(p.speed, "km/h", units)),
        Setting("Gear", gear),
        *(
            []
            if implement.width is not None
            else [
                Setting(capital(pieces(implement.tool)), str(implement.tools)),
                Setting("Spacing", *figure(implement.spacing.to("cm"), "cm", units)),
            ]
        ),
        Setting("Width", *figure(p.width, "m", units)),
    ]
    return tuple(row for row in rows if row.value)


def _limit(margin: Margin, said: MarginWords, first: bool) -> LimitRow:
    title = capital(f"{said.title} (advice)" if said.advice else said.title)
    share = round(min(max(margin.used or 0.0, 0.0), _LONGEST), 3)
    near = margin.state in ("tight", "over")
    return LimitRow(title, said.used or "none left", share, said.state, said.text, near, first)
