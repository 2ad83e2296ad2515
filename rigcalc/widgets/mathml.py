"""Formulas as MathML, which browsers set themselves: no script, nothing fetched, read aloud by screen readers.

latex2mathml does the setting. It passes styles, links and raw tags on to the page, so only what the book's own formulas
hold goes to it. Anything else is shown as it stands, never dropped.
"""

from __future__ import annotations

import re
from functools import lru_cache

from rigcalc.widgets.html import esc

_COMMAND = re.compile(r"\\(?:[A-Za-z]+|.)")
_KNOWN = frozenset(
    r"\frac \sqrt \left \right \text \times \cdot \circ \partial \le \ge \pm \approx \infty \quad \, \; \! "
    r"\sin \cos \tan \arcsin \arccos \arctan \exp \ln \log \min \max "
    r"\alpha \beta \gamma \delta \epsilon \varepsilon \zeta \eta \theta \iota \kappa \lambda \mu \nu \xi \pi \rho "
    r"\sigma \tau \phi \varphi \chi \psi \omega \Delta \Omega".split()
)


@lru_cache(maxsize=2000)
def mathml(latex: str, inline: bool = False) -> str:
    """Give a formula as one `math` element, `inline` in the midst of words.

    `latex` has at most a few hundred letters; odd input is shown as text.
    """
    from latex2mathml.converter import convert

    odd = any(mark in latex for mark in "<>&") or not _KNOWN.issuperset(_COMMAND.findall(latex))
    if odd or latex.count("{") != latex.count("}"):
        return _as_it_stands(latex)
    try:
        made: str = convert(latex, display="inline" if inline else "block")
    except Exception:  # its errors have no base in common
        return _as_it_stands(latex)
    return made


def _as_it_stands(latex: str) -> str:
    return f"<code>{esc(latex)}</code>"
