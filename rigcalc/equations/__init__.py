"""The book: one file a question. Files never import each other; `load_all()` imports every one of them."""

from __future__ import annotations

import importlib
import pkgutil

from rigcalc.core.equation import BOOK, Equation


def load_all() -> dict[str, Equation]:
    """Import every file of the book and give all equations by name."""
    for module in pkgutil.iter_modules(__path__):
        importlib.import_module(f"{__name__}.{module.name}")
    return dict(sorted(BOOK.items()))


def find(word: str) -> list[Equation]:
    """Find equations whose name, summary, symbols or source hold every word of `word` (letter case doesn't matter).

    >>> [eq.__name__ for eq in find("travel reduction")][0]
    'travel_reduction'
    """
    wanted = word.lower().replace("_", " ").split()

    def rank(eq: Equation) -> int:
        name = eq.__name__.replace("_", " ")
        about = " ".join([name, eq.summary, eq.gives.name.replace("_", " "), eq.gives.text, str(eq.source)]
                         + [f"{s.name.replace('_', ' ')} {s.text}" for s in eq.takes]).lower()  # fmt: skip
        if not all(part in about for part in wanted):
            return 0
        return 3 if all(part in name for part in wanted) else 2 if all(part in eq.summary.lower() for part in wanted) else 1

    ranked = [(rank(eq), eq) for eq in load_all().values()]
    return [eq for score, eq in sorted(ranked, key=lambda pair: (-pair[0], pair[1].__name__)) if score]
