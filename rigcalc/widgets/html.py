"""Small pieces of HTML, from the shared templates. Whatever comes from outside is escaped."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape

from markupsafe import Markup

from rigcalc.core.errors import Fault
from rigcalc.widgets.templates import parts, render


def esc(text: object) -> str:
    """Make any text safe inside HTML, attributes included."""
    return escape(str(text), quote=True)


def table(caption: str, heads: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """Give a table with a caption; the first cell of each row is its heading. Every cell is escaped."""
    return str(parts().table(caption, heads, list(rows)))


def fold(key: str, title: str, inside: str, ask: str = "", value: str = "") -> str:
    """Give a fold. `inside` is HTML. With `ask`, opening it sends that act with `value`: its text is made when wanted."""
    return str(parts().fold(key, title, Markup(inside), ask, value))  # noqa: S704 (its makers escape)


def button(act: str, text: str, value: str = "", pressed: bool | None = None, disabled: bool = False) -> str:
    """Give a button that sends `act` and `value`; `pressed` makes it a switch."""
    return str(parts().button(act, text, value, pressed, disabled))


def fault_list(faults: Iterable[Fault], title: str, paths: Iterable[str] = ()) -> str:
    """Give every fault: what it was, what was expected, what to type. Empty when there is none.

    `paths` are the entries of the page that they are about, in their order, empty where there is none: each name leads there.

    Where a fault names its field and then says it in words (`ballast.0.mass: front plates, one weighs`), the words are shown.
    """
    leads = iter(paths)
    named = [(fault.where.partition(": ")[2] or fault.where, fault, next(leads, "")) for fault in faults]
    return str(render(__file__, "faults.html.j2", title=title, faults=named)) if named else ""
