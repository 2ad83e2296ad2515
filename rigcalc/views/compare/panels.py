"""The comparing page's text parts as HTML. Words come from words/compare."""

from __future__ import annotations

from collections.abc import Sequence

from rigcalc.models.compare.answer import Compared, Comparison
from rigcalc.models.compare.choice import Outcome
from rigcalc.views.compare.inputs import rig_query
from rigcalc.views.compare.model import Found
from rigcalc.widgets.figure_holder import served
from rigcalc.widgets.templates import render
from rigcalc.words.compare import CompareWords
from rigcalc.words.compare.names import LETTERS
from rigcalc.words.compare.rows import RowWords
from rigcalc.words.field import such_fields
from rigcalc.words.numbers import capital
from rigcalc.words.size.sentence import JUDGEMENTS
from rigcalc.words.spelling import fault_spelt

_STATES = {"go": "ok", "try": "tight", "dont": "over"}
# What a card shows below the verdict and the chance, in this order.
_ON_A_CARD = ("gives_out_first", "used_of_it", "power_per_tool", "power_per_width", "field_capacity", "fuel_per_area")
_LONG = 240  # letters; a longer sentence scrolls with the page, or it would fill a phone
_LEADS = (Outcome.BEST, Outcome.SOME)


def verdict(found: Found | None) -> str:
    """Give the best verdict in a word and which rig in one sentence, in large type."""
    words = found.words if found is not None else None
    if words is None:
        lone = found is not None and not found.faults
        return str(render(__file__, "verdict.html.j2", state="none", lone=lone, word="", sentence="", long=False))
    judgement, said = words.comparison.choice.judgement, words.said
    sentence = capital(f"{said.word}: {said.headline}")
    return str(render(__file__, "verdict.html.j2", state=_STATES[judgement], lone=False,
                      word=JUDGEMENTS[judgement], sentence=sentence, long=len(sentence) > _LONG))  # fmt: skip


def why(words: CompareWords | None) -> str:
    """Give the sentences that follow the first."""
    if words is None:
        return ""
    even = words.comparison.choice.outcome in (Outcome.EVEN, Outcome.SAME)
    return str(render(__file__, "why.html.j2", even=even, rest=[capital(text) for text in words.said.rest]))


def cards(found: Found | None, links: bool) -> str:
    """Give a card for each rig, then one for each that was left out. links: whether a page about one rig can be opened."""
    if found is None:
        return ""
    words, shown = found.words, []
    if words is not None:
        rows = {row.name: row for row in words.rows}
        for at, side in enumerate(words.comparison.rigs):
            shown.append(_card(at, side, words.comparison, rows, links and served()))
    units = words.units if words is not None else "us"
    left_out = [(name, [fault_spelt(fault, units) for fault in error.faults])
                for name, error in found.gathered.left_out.items()]  # fmt: skip
    return str(render(__file__, "cards.html.j2", cards=shown, left_out=left_out))


def _card(at: int, side: Compared, comparison: Comparison, rows: dict[str, RowWords], link: bool) -> dict[str, object]:
    leads = comparison.choice.outcome in _LEADS and at in comparison.choice.front
    return {
        **{"letter": LETTERS[at], "name": side.name, "state": _STATES[side.answer.verdict.judgement], "leads": leads},
        **{"verdict": rows["verdict"].cells[at], "chance": rows["chance_works"].cells[at]},
        "figures": [(rows[name].title, rows[name].cells[at]) for name in _ON_A_CARD],
        "fields": such_fields(side.answer.bare_rig.told),
        "link": rig_query(side.answer.rig) if link else "",
    }


def rows(words: CompareWords | None) -> str:
    """Give the table of what differs, and the folds below it."""
    if words is None:
        return ""
    names = [f"{letter}  {side.name}" for letter, side in zip(LETTERS, words.comparison.rigs, strict=False)]
    return str(render(
        __file__, "rows.html.j2",
        heads=("", *names),
        differing=[(row.title, *row.cells) for row in words.differing],
        same=[(row.title, row.cells[0]) for row in words.rows if not row.differs],
        each=words.each,
    ))  # fmt: skip


def rig_list(
    names: Sequence[tuple[int, str]], demos: Sequence[tuple[str, str]], full: bool, most: int, fits: bool
) -> str:  # fmt: skip
    """Give the rigs on the list, with buttons. full: there is no room for another. fits: the address holds them all."""
    return str(render(__file__, "rig_list.html.j2", names=names, demos=demos, full=full, most=most, fits=fits))


def tables(words: CompareWords | None) -> str:
    """Give the buttons that save the comparison."""
    return str(render(__file__, "tables.html.j2", off=words is None))
