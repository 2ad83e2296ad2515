"""The sizing app's text parts as HTML: the answer, what gives out, how far it goes, numbers. Words come from words/size."""

from __future__ import annotations

from markupsafe import Markup

from rigcalc.models.machine.operating_point import UNITS
from rigcalc.models.size.answer import Margin
from rigcalc.views.rig.gauges import gauge, noted
from rigcalc.views.size.side import picture_of, side_words
from rigcalc.widgets.html import fold
from rigcalc.widgets.templates import render
from rigcalc.words.numbers import chance_short, percent, say
from rigcalc.words.quantities import OUT_OF_REACH, QUANTITY_TITLES
from rigcalc.words.size import SizeWords
from rigcalc.words.size.parts import MarginWords

_SETS = {"deepest": "work.depth", "fastest": "work.speed", "most tools": "implement.tools"}
_NEAREST = 3  # limits that are always in sight; the others are folded while they hold


def verdict(words: SizeWords | None) -> str:
    """Give the answer in one word and one sentence, in large type."""
    if words is None:
        headline = "Something needs mending first; it stands below."
        return str(render(__file__, "verdict.html.j2", state="none", word="No answer", headline=headline))
    answer, said = words.answer, words.said
    state = {"go": "ok", "try": "tight", "dont": "over"}[answer.verdict.judgement]
    return str(render(__file__, "verdict.html.j2", state=state, word=said.word, headline=said.headline))


def facts(words: SizeWords | None) -> str:
    """Give the few numbers that are read in the cab, and the rest of the answer's words."""
    if words is None:
        return ""
    answer, units = words.answer, words.units
    p, caps = answer.point.bare, answer.caps
    cards = [("Sure", chance_short(answer.sure.chance_works), f"{words.sure_of}: every limit holds")]
    if answer.point.pulls:
        cards = [
            ("Slip", percent(p.slip), f"aim for {percent(caps.slip_low)} to {percent(caps.slip_high)}"),
            ("Engine load", percent(p.engine_share), "of rated"),
            ("Area", say(p.field_capacity, "ha/h", units, 2), words.season.a_day or "turning included"),
            ("Fuel", say(p.fuel_rate, "L/h", units, 2), say(p.fuel_per_area, "L/ha", units, 2)),
            *cards,
        ]
    return str(render(__file__, "facts.html.j2", cards=cards, more=" ".join(words.said.rest)))


def limits(words: SizeWords | None) -> str:
    """Give every limit as a gauge with its words, the nearest first."""
    if words is None:
        return ""
    binding = words.answer.binding.name
    known = sorted(words.fullest_first(), key=lambda pair: pair[0].name != binding)
    stops, advice = ([pair for pair in known if pair[0].hard is hard] for hard in (True, False))
    near = [pair for index, pair in enumerate(stops) if index < _NEAREST or pair[0].state in ("over", "tight")]
    heed = [pair for pair in advice if pair[0].state in ("over", "tight")]
    others = [pair for pair in known if pair not in near and pair not in heed]
    pairs = zip(words.answer.margins, words.margins, strict=True)
    unknown = [f"{said.title}: {said.text}" for margin, said in pairs if margin.used is None]

    def gauges(pairs: list[tuple[Margin, MarginWords]]) -> list[Markup]:
        return [_gauge(margin, said, margin.name == binding) for margin, said in pairs]

    return str(render(__file__, "limits.html.j2", near=gauges(near), heed=gauges(heed), others=gauges(others), unknown=unknown))


def _gauge(margin: Margin, said: MarginWords, first: bool) -> Markup:
    title = said.title if margin.hard or margin.state in ("over", "tight") else f"{said.title} (advice)"
    return gauge(title, margin.used or 0.0, margin.state, said.text, first)


def reverse(words: SizeWords | None) -> str:
    """Give how far it goes, each with a button that tries it."""
    if words is None:
        return ""
    pairs = zip(words.answer.reverse, words.reverse, strict=True)
    answers = [
        (
            said,
            found.value is not None and found.question in _SETS and not (found.question == "most tools" and found.unit == "m"),
        )
        for found, said in pairs
    ]
    return str(render(__file__, "reverse.html.j2", answers=answers))


def path_of(question: str) -> str | None:
    """Give the entry that a reverse answer sets, None where it sets none."""
    return _SETS.get(question)


def drawing(words: SizeWords | None) -> str:
    """Give the drawing of the rig, and the same in words."""
    if words is None:
        return ""
    picture = Markup(picture_of(words))  # noqa: S704 (its maker escapes)
    return str(render(__file__, "drawing.html.j2", picture=picture, lines=side_words(words)))


def notes(words: SizeWords | None) -> str:
    """Give every caution and the weightiest notes."""
    return noted(words.cautions, words.notes) if words is not None else ""


def sheet(words: SizeWords | None, come: str = "") -> str:
    """Give the buttons that save the setup sheet and the file to take along; `come`: how far that has come."""
    return str(render(__file__, "sheet.html.j2", off=words is None, come=come))


def numbers(words: SizeWords | None, wanted: bool) -> str:
    """Give every number with the range that 8 fields in 10 fall into; made only when its fold was opened once."""
    if words is None:
        return ""
    about = {"season": words.season.text, "best_slip": words.best_slip}
    inside = render(__file__, "numbers.html.j2", rows=_number_rows(words), **about) if wanted else ""
    return fold("numbers", "Every number, with its range", inside, ask="open", value="numbers")


def _number_rows(words: SizeWords) -> list[tuple[str, str, str]]:
    answer, rows = words.answer, []
    for name, title in QUANTITY_TITLES.items():
        value = float(getattr(answer.point.bare, name))
        band = ""
        if name in answer.sure.bands:
            low, _, high, unit = answer.sure.bands[name]
            band = f"{_say(low, unit, words)} to {_say(high, unit, words)}"
        rows.append((title, _say(value, UNITS[name], words) if value == value else "none: it can't pull", band))
    return rows


def first(words: SizeWords | None, wanted: bool) -> str:
    """Give what to measure first; worked out only when its fold was opened once."""
    if words is None:
        return ""
    inside = ""
    if wanted:
        rows = [(each.name, each.stands, each.tried, each.verdict or "the same", each.chance, each.slip, each.engine_load)
                for each in words.first]  # fmt: skip
        inside = str(render(__file__, "first.html.j2", lines=words.first_lines, rows=rows))
    return fold("first", "What to measure first", inside or "<p>Being worked out …</p>", ask="open", value="first")


def _say(value: float | None, unit: str, words: SizeWords) -> str:
    if value is None:
        return OUT_OF_REACH
    return percent(value) if unit == "1" else say(value, unit, words.units)
