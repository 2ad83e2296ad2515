"""Finding an equation by words: a name before a summary, a summary before a symbol or source, all words, any letter case."""

import pytest

from rigcalc.equations import find, load_all

BOOK = load_all()


def names(word):
    return [eq.__name__ for eq in find(word)]


def rank_by_hand(eq, word):
    """0: not at all; 1: somewhere in what is said of it; 2: in its summary; 3: in its name. Every word has to be there."""
    parts = word.lower().split()
    places = (eq.__name__.replace("_", " "), eq.summary.lower())
    if all(part in places[0] for part in parts):
        return 3
    if all(part in places[1] for part in parts):
        return 2
    rest = [*places, eq.gives.name, eq.gives.text, str(eq.source)]
    rest += [text for symbol in eq.takes for text in (symbol.name, symbol.text)]
    told = " ".join(rest).lower().replace("_", " ")
    return 1 if all(part in told for part in parts) else 0


@pytest.mark.parametrize("word", ["slip", "draft", "engine", "mass", "power", "radial", "brixius", "wheel load", "front axle"])
def test_order_is_name_then_summary_then_the_rest_then_alphabet(word):
    ranked = sorted((-rank_by_hand(eq, word), name) for name, eq in BOOK.items() if rank_by_hand(eq, word))
    assert names(word) == [name for _, name in ranked]


def test_each_rank_is_reached():
    """The words above would not tell ranks apart if all hits were of one kind."""
    assert {rank_by_hand(eq, "slip") for eq in find("slip")} == {1, 2, 3}
    assert {rank_by_hand(eq, "mass") for eq in find("mass")} == {1, 2, 3}


def test_all_words_have_to_be_there_in_any_order_and_case():
    assert names("Traction GROSS radial") == ["gross_traction_ratio_radial"]
    assert names("gross_traction_ratio_radial") == ["gross_traction_ratio_radial"]
    assert names("gross nonsense") == []
    assert set(names("gross traction")) == set(names("gross")) & set(names("traction"))


def test_a_symbol_s_words_and_the_source_are_read():
    assert "implement_draft" in names("soil factor")
    assert "mobility_number" in names("brixius")
    assert "travel_reduction" in names("arizona")
