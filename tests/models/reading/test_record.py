"""Did we say it right: the verdict can say no, to either side, and says nothing where there is little to go by."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from rigcalc.models.reading.record import FEW, Kept, Record
from rigcalc.views.json.reading import record_data
from rigcalc.words.reading.listed import record_text


def of(inside: int, below: int = 0, above: int = 0, each: int = 1, kind: str = "load") -> Record:
    """Give a record with so many numbers inside, below and above; `each` numbers a reading."""
    reads = [1.0] * inside + [0.1] * below + [9.0] * above
    return Record(tuple(Kept(at // each, kind, read, 0.5, 2.0) for at, read in enumerate(reads)), 0)


def test_few_say_nothing() -> None:
    assert of(FEW - 1).state == "few"
    assert "So few say next to nothing" in record_text(of(3, above=3))
    assert of(8, above=2).state == "as_said"
    assert Record((), 0).usual == (0, 0)


@pytest.mark.parametrize(("record", "state"), [
    (of(16, 2, 2), "as_said"), (of(10, 5, 5), "narrow"), (of(60), "wide"), (of(48, 6, 6), "as_said"),
])  # fmt: skip
def test_the_verdict_can_say_no_to_either_side(record: Record, state: str) -> None:
    assert record.state == state
    assert {"as_said": "hold what they claim", "narrow": "too narrow", "wide": "wider than"}[state] in record_text(record)


@pytest.mark.parametrize("readings", [10, 17, 40])
def test_what_is_usual_is_the_binomial_s(readings: int) -> None:
    low, high = of(readings).usual
    assert (low, high) == (stats.binom.ppf(0.05, readings, 0.8), stats.binom.ppf(0.95, readings, 0.8))
    random = np.random.default_rng(1).binomial(readings, 0.8, 20_000)
    assert np.mean((random >= low) & (random <= high)) >= 0.9


def test_numbers_of_one_reading_count_as_one() -> None:
    """Three numbers of ten readings are no thirty readings: what is usual is wider."""
    apart, together = of(19, 5, 6), of(19, 5, 6, each=3)
    assert apart.usual[0] > together.usual[0]
    assert (apart.state, together.state) == ("narrow", "as_said")


def test_what_lies_to_one_side_is_named() -> None:
    assert "Engine load: the 5 of 20 that lay outside all lay above" in record_text(of(15, above=5))
    assert "Slip: the 4 of 19 that lay outside all lay below" in record_text(of(15, below=4, kind="slip"))
    assert "all lay above" not in record_text(of(15, below=1, above=4))
    assert of(15, 1, 4).by_kind == {"load": (1, 15, 4)}
    data = record_data(of(15, 1, 4))
    assert data["by_number"]["load"] == {"below": 1, "inside": 15, "above": 4}
    assert data["state"] == "as_said"
