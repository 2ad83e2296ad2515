"""Decision 0013: the sheet has two layouts and one source of words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from typing import Any

import pytest
from known_rigs import SHEET_RIG, known_rig
from sheet_readers import flat, pdf_text, read_html

from rigcalc.models import replaced, size
from rigcalc.views.sheet import sheet_data, sheet_html, sheet_pdf
from rigcalc.words import in_words


def texts_in(value: Any, unshown: tuple[str, ...] = ()) -> Iterator[str]:
    """Give every text of the data, but the state's name, which chooses a look, and what a verdict leaves to another."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for name, part in value.items():
            yield from texts_in(part, unshown) if name not in unshown else ()
    elif isinstance(value, (list, tuple)):
        for part in value:
            yield from texts_in(part, unshown)


SOIL = {"ground.thread_test": "crumbles", "ground.flags": "8 in to 12 in, 350 psi; none; 7 in to 10 in"}


@pytest.mark.parametrize("changes", [{}, SOIL, {"work.depth": "18 in"}, {"work.depth": "40 in", "implement.tools": 60}])
@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("name", ["four_wheel_drive", SHEET_RIG])
def test_both_layouts_print_every_text_of_the_data(name: str, units: Any, changes: dict[str, Any]) -> None:
    """Decision 0013: two layouts, one source."""
    answer = in_words(size(replaced(known_rig(name), changes)), units)
    data = sheet_data(answer, who="me")
    # Where it goes, settings; where it doesn't, ways and the doubt, which stands in the sentence otherwise.
    unshown = ("verdict", "settings", "readings", "stops") if data.verdict == "no" else ("verdict", "ways", "doubt")

    def run_together(text: str) -> str:
        return "".join(flat(text).split()).casefold()  # a verdict may stand in capitals

    printed = run_together(pdf_text(sheet_pdf(answer, who="me")))
    shown = run_together(" ".join(read_html(sheet_html(answer, who="me")).words))
    texts = {run_together(text) for text in texts_in(asdict(data), unshown)}
    assert len(texts) > 20
    assert [text for text in texts if text not in printed] == []
    assert [text for text in texts if text not in shown] == []
