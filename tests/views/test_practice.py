"""The part to practice with, as a browser uses it and from Python."""

import pytest

from rigcalc import InputError
from rigcalc.models.classroom import Outcome
from rigcalc.widgets import PracticeCard


@pytest.fixture
def card():
    made = PracticeCard("drawbar_power", "slip_from_turns", units="si")
    yield made
    made.close()


def right_answer(card):
    return f"{card.problem.answer:.4g} {card.problem.unit}"


def test_an_answer_typed_in_the_browser_is_marked(card):
    card._heard(card, {"kind": "act", "name": "check", "value": "3 bananas"}, [])  # as the browser sends it
    assert card.mark.outcome is Outcome.UNREAD
    assert "isn&#39;t known" in card.html
    assert 'value="3 bananas"' in card.html
    card.act("check", right_answer(card))
    assert card.mark.right
    assert "Right." in card.html
    assert (card.right, card.seen) == (1, 1)
    card.act("look")
    card.act("check", right_answer(card))
    assert card.right == 1, "one problem counts once"


def test_hints_come_one_by_one_and_the_answer_when_asked(card):
    hints = card.problem.kind.hints
    assert hints[0] not in card.html
    assert "That is" not in card.html
    for count, hint in enumerate(hints, 1):
        card.act("hint")
        assert hint in card.html
        assert card.html.count("<li>") == count
    assert "A hint" not in card.html
    card.act("show")
    assert "That is" in card.html
    card.act("check", right_answer(card))
    assert (card.mark.right, card.right) == (True, 0), "whoever has looked isn't counted"


def test_other_numbers_another_kind_other_units(card):
    first = card.problem
    card.act("again")
    assert card.problem.kind is first.kind
    assert card.problem.given != first.given
    assert card.seen == 1, "leafed over"
    card.check("1 kW")
    card.act("next")
    assert card.problem.kind.name == "slip_from_turns"
    assert (card.mark, card.seen) == (None, 2)
    card.act("next")
    assert card.problem.kind is first.kind
    card.act("units")
    assert card.problem.system == "us"
    assert 'aria-pressed="false"' in card.html


def test_what_is_typed_is_shown_and_never_obeyed(card):
    card.act("check", '"><script>alert(1)</script>')
    assert "<script" not in card.html
    card.act("check", "9" * 10_000)
    assert len(card.html) < 5_000
    card.act("nothing such")
    card.act("check", {"a": 1})
    assert card.mark.outcome is Outcome.UNREAD


def test_two_on_a_page_have_ids_of_their_own(card):
    other = PracticeCard("drawbar_power")
    assert other._key != card._key
    assert f'id="{other._key}-said"' in other.html
    other.close()


def test_a_lesson_or_all_of_them():
    assert PracticeCard(lesson="capacity").kinds == (
        "efficiency_from_time", "field_capacity", "days_needed", "fuel_of_acre",
    )  # fmt: skip
    assert len(PracticeCard().kinds) >= 12


@pytest.mark.parametrize("asked", [("plowing",), ("plowing", "drawbar_power")])
def test_what_there_isnt_is_refused(asked):
    with pytest.raises(InputError):
        PracticeCard(*asked)
    with pytest.raises(InputError) as caught:
        PracticeCard("plowing", lesson="math")
    assert len(caught.value.faults) == 2
    for wrong in ({"units": "cgs"}, {"seed": -1}):
        with pytest.raises(InputError):
            PracticeCard("drawbar_power", **wrong)
