"""The text parts about readings as HTML. Words come from words/reading and words/size."""

from __future__ import annotations

from rigcalc.core.errors import InputError
from rigcalc.models.reading.tells import impossible
from rigcalc.views.reading.model import FieldModel, Found
from rigcalc.widgets.html import fault_list, fold
from rigcalc.widgets.templates import render
from rigcalc.words.reading import listed as list_words
from rigcalc.words.reading import told as told_words
from rigcalc.words.reading.page import ASIDE, misfit_lines
from rigcalc.words.reading.zones import zone_lines
from rigcalc.words.size.readings_said import says_before
from rigcalc.words.size.sentence import JUDGEMENTS
from rigcalc.words.spelling import fault_spelt

_STATES = {"go": "ok", "try": "tight", "dont": "over"}
_WORDS = {judgement.value: word for judgement, word in JUDGEMENTS.items()}


def verdict(found: Found | None) -> str:
    """Give the answer in one word and one sentence, in large type."""
    words = found.words if found is not None else None
    if words is None:
        return str(render(__file__, "verdict.html.j2", state="none", word="", headline=""))
    state = _STATES[words.answer.verdict.judgement]
    return str(render(__file__, "verdict.html.j2", state=state, word=words.said.word, headline=words.said.headline))


def says(found: Found | None) -> str:
    """Give what the field said: in a sentence, against the answer without it, and what to look at again."""
    if found is None:
        return ""
    told, words, again = found.weighed.told, found.words, []
    if told is not None:
        again = [told_words.contradiction(each, told, found.weighed.rig, found.units, ASIDE) for each in impossible(told)]
        again += misfit_lines(told)
    before = says_before(words.answer, _WORDS) if words is not None else ""
    return str(render(__file__, "says.html.j2", headline=found.headline, before=before, again=again,
                      empty=not found.weighed.rig.reading))  # fmt: skip


def listed(found: Found | None, asking: int | None, why: str, fits: bool) -> str:
    """Give the readings. asking: the place of the one of which it is asked why. fits: the address holds them all."""
    rows = [] if found is None else [
        {"place": place, "row": row, "aside": found.weighed.rig.reading[place].set_aside, "asked": place == asking}
        for place, row in enumerate(list_words.rows(found.weighed.rig, found.weighed.told, found.units))
    ]  # fmt: skip
    return str(render(__file__, "list.html.j2", heads=list_words.HEADS, rows=rows, why=why, fits=fits))


def button(model: FieldModel) -> str:
    """Give the buttons below the boxes, and what came of the last press."""
    own = [fault for fault in model.refused if model.is_own(fault.where)]
    others = [fault_spelt(fault, model.system) for fault in model.refused if fault not in own]
    return str(render(__file__, "button.html.j2", mend=len(own), added=model.added, off=model.rig_shown() is None)) + (
        fault_list(others, "Not added") if others else "")  # fmt: skip


def changes(found: Found | None) -> str:
    """Give before and after, row by row; nothing where no reading counts."""
    words = found.words if found is not None else None
    if words is None or not words.changed:
        return ""
    return str(render(__file__, "changes.html.j2", rows=[(row.title, row.before, row.after) for row in words.changed]))


def told(found: Found | None, wanted: bool) -> str:
    """Give which number told what; worked out only when its fold was opened once."""
    if found is None or found.weighed.told is None:
        return ""
    inside = ""
    if wanted and (telling := found.weighed.telling) is not None:
        lines = list(told_words.lines(telling, found.weighed.rig, found.units, ASIDE))
        inside = str(render(__file__, "told.html.j2", heads=told_words.HEADS, rows=told_words.rows(telling), lines=lines))
    return fold("told", "What each number told", inside or "<p>Being worked out …</p>", ask="open", value="told")


def next_one(found: Found | None, wanted: bool) -> str:
    """Give what to read next; worked out only when its fold was opened once."""
    if found is None or found.words is None:
        return ""
    inside = ""
    if wanted:
        lines = list(told_words.next_lines(found.weighed.next, found.units, found.weighed.told))
        inside = str(render(__file__, "next.html.j2", lines=lines))
    return fold("next", "What to read next", inside or "<p>Being worked out …</p>", ask="open", value="next")


def zones(found: Found | None, wanted: bool) -> str:
    """Give headland and cart lanes; worked out only when its fold was opened once."""
    if found is None or found.words is None:
        return ""
    inside = ""
    if wanted:
        try:
            lines = list(zone_lines(found.weighed.zones, found.weighed.rig, found.units))
        except InputError as error:  # readings of a zone that the field can't have; the open field's answer stands
            return fold(
                "zones", "Headland and cart lanes", fault_list(error.faults, "No answer there"), ask="open", value="zones"
            )
        inside = str(render(__file__, "next.html.j2", lines=lines))
    return fold("zones", "Headland and cart lanes", inside or "<p>Being worked out …</p>", ask="open", value="zones")


def record(found: Found | None) -> str:
    """Give how often what was read lay inside the band said before, and each number in a fold."""
    if found is None or not found.weighed.rig.reading:
        return ""
    known = found.weighed.record
    rows = [(f"{each.title} of reading {each.reading}", each.said, each.came, each.inside)
            for each in list_words.record_rows(known, found.units)]  # fmt: skip
    return str(render(__file__, "record.html.j2", text=list_words.record_text(known, list_words.ON_THE_PAGE), rows=rows))
