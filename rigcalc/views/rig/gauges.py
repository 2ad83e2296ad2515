"""What the pages about a rig write alike: limits as gauges, cautions and notes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from rigcalc.widgets.html import esc, fold
from rigcalc.words.numbers import percent

_TAGS = {"ok": "holds", "tight": "tight", "over": "too much", "unknown": "not known"}


class _Noted(Protocol):
    @property
    def cautions(self) -> Sequence[str]: ...

    @property
    def notes(self) -> Sequence[str]: ...


def gauge(title: str, used: float, state: str, text: str, first: bool = False) -> str:
    """Give one limit as an item of a list: its title, how much of it is used, a bar whose mark is the limit, and words.

    `used` is a share, 1 at the limit; the bar ends at 1.25. `state` is ok, tight, over or unknown, KeyError for another word.
    `first` lights up the one that gives out first.
    """
    share = percent(used) if used < 99 else "out of reach"
    look = f"is-{state} is-first" if first else f"is-{state}"
    return (
        f'<li class="{look}"><span class="rig-name">{esc(title[:1].upper() + title[1:])}</span>'
        f'<span class="rig-tag">{share} · {_TAGS[state]}</span><span class="rig-gauge" aria-hidden="true">'
        f'<i style="width:{80 * min(max(used, 0.0), 1.25):.1f}%"></i><b style="left:80%"></b></span>'
        f'<span class="rig-said">{esc(text)}</span></li>'
    )


def notes(answer: _Noted | None) -> str:
    """Give every caution in sight, and the notes in a fold."""
    if answer is None:
        return ""
    cautions = "".join(f"<li>{esc(text)}</li>" for text in answer.cautions)
    remarks = "".join(f"<li>{esc(text)}</li>" for text in answer.notes)
    return f"<h2>Take care</h2><ul>{cautions}</ul>" + fold(
        "notes", f"Notes on this answer: {len(answer.notes)}", f"<ul>{remarks}</ul>"
    )
