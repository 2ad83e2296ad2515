"""What the pages about a rig write alike: limits as gauges, cautions and notes."""

from __future__ import annotations

from collections.abc import Sequence

from markupsafe import Markup

from rigcalc.widgets.templates import render
from rigcalc.words.apart import share_used
from rigcalc.words.limits import STATE_WORDS
from rigcalc.words.numbers import capital

MOST_NOTES = 5  # in sight
_LONGEST = 1.25  # share at which a bar ends


def gauge(title: str, used: float, state: str, text: str, first: bool = False) -> Markup:
    """Give one limit as an item of a list: its title, how much of it is used, a bar whose mark is the limit, and words.

    `used` is a share, 1 at the limit; the bar ends at 1.25. `state` is ok, tight, over or unknown, KeyError for another word.
    `first` lights up the one that gives out first.
    """
    share = share_used(used) if used < 99 else "out of reach"
    width = f"{80 * min(max(used, 0.0), _LONGEST):.1f}"
    tag = f"{share} · {STATE_WORDS[state]}"
    return render(__file__, "gauge.html.j2", title=capital(title), tag=tag, width=width, state=state, text=text, first=first)


def noted(cautions: Sequence[str], notes: Sequence[str]) -> str:
    """Give every caution and the weightiest notes in sight, the other notes in a fold."""
    return str(render(__file__, "notes.html.j2", cautions=cautions, notes=notes[:MOST_NOTES], more=notes[MOST_NOTES:]))
