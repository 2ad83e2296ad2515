"""Small pieces of HTML as text. Whatever comes from outside goes through `esc`."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape

from rigcalc.core.errors import Fault


def esc(text: object) -> str:
    """Make any text safe inside HTML, attributes included."""
    return escape(str(text), quote=True)


def table(caption: str, heads: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """Give a table with a caption; the first cell of each row is its heading. Every cell is escaped."""
    head = "".join(f'<th scope="col">{esc(text)}</th>' for text in heads)
    body = "".join(
        f'<tr><th scope="row">{esc(row[0])}</th>' + "".join(f"<td>{esc(cell)}</td>" for cell in row[1:]) + "</tr>"
        for row in rows
    )
    return (
        f'<div class="rig-wide" tabindex="0" role="region" aria-label="{esc(caption)}"><table><caption>{esc(caption)}'
        f"</caption><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table></div>"
    )


def fold(key: str, title: str, inside: str, ask: str = "", value: str = "") -> str:
    """Give a fold. With `ask`, opening it sends that act with `value`, so that its text can be made when wanted."""
    asking = f' data-ask="{esc(ask)}" data-value="{esc(value)}"' if ask else ""
    summary = f'<summary data-focus="{esc(key)}">{esc(title)}</summary>'
    return f'<details data-key="{esc(key)}"{asking}>{summary}<div class="rig-folded">{inside}</div></details>'


def button(act: str, text: str, value: str = "", pressed: bool | None = None, disabled: bool = False) -> str:
    """Give a button that sends `act` and `value`; `pressed` makes it a switch."""
    switch = "" if pressed is None else f' aria-pressed="{str(pressed).lower()}"'
    off = " disabled" if disabled else ""
    focus = esc(f"{act} {value}")
    return (
        f'<button type="button" data-act="{esc(act)}" data-value="{esc(value)}" data-focus="{focus}"{switch}{off}>'
        f"{esc(text)}</button>"
    )


def fault_list(faults: Iterable[Fault], title: str) -> str:
    """Give every fault: what it was, what was expected, what to type. Empty when there is none.

    Where a fault names its field and then says it in words (`ballast.0.mass: front plates, one weighs`), the words are shown.
    """
    items = "".join(
        f"<li><strong>{esc(_said(fault.where))}</strong>: got {esc(fault.got)}; expected {esc(fault.expected)}."
        + (f" <span>Type {esc(fault.type_this)}</span>" if fault.type_this else "")
        + "</li>"
        for fault in faults
    )
    return f"<h2>{esc(title)}</h2><ul>{items}</ul>" if items else ""


def _said(where: str) -> str:
    return where.partition(": ")[2] or where
