"""The text parts about the ground as HTML. Words come from words/ground."""

from __future__ import annotations

from rigcalc.views.rig.gauges import noted
from rigcalc.widgets.html import fold, table
from rigcalc.widgets.templates import render
from rigcalc.words.ground import GroundWords
from rigcalc.words.judgement import JUDGEMENTS

STATES = {"go": "ok", "try": "tight", "dont": "over"}
_MOST_FLAGS = 60  # rows of the fold; the terminal's --json has them all
_HEADS = ("Flag", "Top", "Hardest", "Bottom", "How sure")


def verdict(words: GroundWords | None) -> str:
    """Give the answer in one word and one sentence, in large type."""
    if words is None:
        return str(render(__file__, "verdict.html.j2", state="none", word="", headline=""))
    state = STATES[words.answer.judgement.value]
    return str(render(__file__, "verdict.html.j2", state=state, word=words.said.word, headline=words.said.headline))


def questions(words: GroundWords | None) -> str:
    """Give each question with what follows and why."""
    if words is None:
        return ""
    asked = [(each.title, JUDGEMENTS[each.judgement] if each.judgement is not None else "", each.text)
             for each in words.questions]  # fmt: skip
    return str(render(__file__, "questions.html.j2", asked=asked))


def depth(words: GroundWords | None) -> str:
    """Give what the flags found, and how many strips show what; nothing where nobody probed or asked."""
    if words is None:
        return ""
    trial = str(render(__file__, "lines.html.j2", title="Strips with the pass and without", lines=words.trial))
    strips = trial if words.trial else ""
    if not words.layer:
        return strips
    shares = table("Layers that each depth gets under", ("Depth", "Share"), words.shares) if words.shares else ""
    rows = words.flags[:_MOST_FLAGS]
    more = f" (the first {_MOST_FLAGS} of {len(words.flags):,})" if len(words.flags) > _MOST_FLAGS else ""
    flags = fold("flags", f"Flag by flag{more}", table("What each flag found", _HEADS, rows))
    lines = str(render(__file__, "lines.html.j2", title="The layer", lines=words.layer))
    after = (
        str(render(__file__, "lines.html.j2", title="Before and after the pass", lines=words.worked)) if words.worked else ""
    )
    return lines + after + shares + flags + strips


def tool(words: GroundWords | None) -> str:
    """Give what the shanks loosen."""
    return str(render(__file__, "lines.html.j2", title="What the shanks loosen", lines=words.tool)) if words is not None else ""


def pressing(words: GroundWords | None) -> str:
    """Give the axles, and what stands behind in a fold."""
    if words is None:
        return ""
    heads, *rows = words.axles
    behind = fold("pressing", "What the ground bears, and the rules of thumb",
                  str(render(__file__, "lines.html.j2", title="", lines=words.pressing)))  # fmt: skip
    return "<h2>Putting it back</h2>" + table("Stress under each axle", ("Axle", *heads[1:]), rows) + behind


def where(words: GroundWords | None) -> str:
    """Give the parts of the field, and what stands behind in a fold; nothing where no field is named."""
    if words is None or not words.zones:
        return ""
    heads, *rows = words.zones
    behind = fold("where", "What to hold, how often wheels pass, common lanes",
                  str(render(__file__, "lines.html.j2", title="", lines=words.zone_lines)))  # fmt: skip
    return "<h2>Where</h2>" + table("Each part of the field", ("Part", *heads[1:]), rows) + behind


def residue(words: GroundWords | None) -> str:
    """Give what the pass leaves; nothing where nobody asked."""
    if words is None or not words.residue:
        return ""
    return str(render(__file__, "lines.html.j2", title="Residue", lines=words.residue))


def notes(words: GroundWords | None) -> str:
    """Give cautions in sight and notes."""
    return noted(words.cautions, words.notes) if words is not None else ""
