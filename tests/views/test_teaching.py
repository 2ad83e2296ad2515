"""The working on the blackboard: one step at a time, one picture at a time, without a browser."""

import re

import pytest

from rigcalc.core.errors import InputError
from rigcalc.views import RigPages
from rigcalc.views.size.model import SizeModel
from rigcalc.views.size.teaching import PictureStrip, StepCard


@pytest.fixture
def card():
    return StepCard(SizeModel())


def heading(card):
    return re.search(r"<h3>(.*?)</h3>", card.html)[1]


def test_the_first_step_is_the_row_that_the_soil_and_the_tool_point_to(card):
    assert "looked up" in heading(card)
    assert "loam, medium soil" in card.html
    assert re.search('rig-result">0.85<', card.html)
    card.model.edit({"ground.texture": "clay"})
    assert re.search('rig-result">1<', card.html)


def test_on_and_back_and_any_step_by_its_place_and_never_past_the_ends(card):
    steps = card.words.working
    card.act("step", "-1")
    assert card.at == 0
    card.act("step", "1")
    assert steps[1].title in heading(card)
    assert steps[1].result in card.html
    card.act("step", str(len(steps) - 1))
    card.act("step", str(len(steps)))
    assert steps[-1].title in heading(card)
    assert not card.model.faults


def test_it_keeps_its_place_while_the_job_changes(card):
    card.act("step", "1")
    before = re.search('rig-result">(.*?)<', card.html)[1]
    card.model.edit({"work.depth": "12 in"})
    assert card.at == 1
    assert re.search('rig-result">(.*?)<', card.html)[1] != before


def test_each_input_stands_with_the_symbol_of_the_formula(card):
    card.act("step", "1")
    inputs = re.search("<ul>(.*?)</ul>", card.html)[1]
    assert inputs.count("<math") == inputs.count("<li>") == 7
    assert 'display="inline"' in inputs


def test_a_step_is_solved_for_the_symbol_that_is_chosen_and_follows_the_job(card):
    card.act("step", "1")
    assert "Solve for" in card.html
    assert "what was put in comes out again" not in card.html
    card.act("solve", "depth")
    assert '<option value="depth" selected>depth</option>' in card.html
    assert "depth = 10 in (25.4 cm): what was put in comes out again." in card.html
    card.model.edit({"work.depth": "12 in"})
    assert "depth = 12 in (30.48 cm): what was put in comes out again." in card.html
    card.act("solve", "")
    assert "comes out again" not in card.html
    card.act("solve", "depth")
    card.act("step", "2")
    assert card.solved_for == "", "another step stands as it is"


def test_a_step_without_a_formula_offers_nothing_and_odd_symbols_are_refused(card):
    assert "Solve for" not in card.html
    for odd in ("depth", None, 3):
        with pytest.raises(InputError, match="a step with a formula"):
            card.solve(odd)
    card.act("step", "1")
    with pytest.raises(InputError, match="one of soil_factor"):
        card.solve("<b>")
    card.model.edit({"work.depth": "deep"})
    with pytest.raises(InputError, match="a step with a formula"):
        card.solve("depth")


def test_where_numbers_hide_a_symbol_the_card_says_so(card):
    titles = [step.title for step in card.words.working]
    card.go(titles.index("grade resistance, implement"))
    card.act("solve", "weight")
    assert "can&#39;t be solved for this" in card.html
    assert "makes no difference" in card.html


def test_a_wide_formula_is_scrolled_with_the_keyboard(card):
    card.act("step", "1")
    card.act("solve", "depth")
    assert (
        card.html.count('<div class="rig-formula"') == card.html.count('tabindex="0" role="group" aria-label="Formula">') == 5
    )


def test_each_step_checks_its_dimensions(card):
    for place, step in enumerate(card.words.working):
        card.go(place)
        assert ("<strong>Dimensions.</strong>" in card.html) == (step.dimensions is not None) == (place > 0), step.title
    assert "hold in them alone" not in card.html or card.words.working[card.at].dimensions.bare


@pytest.mark.parametrize("odd", ["99", "x", "", "-2", "1.5", None])
def test_an_odd_step_is_refused_and_nothing_moves(card, odd):
    with pytest.raises(InputError, match="a step from 0 to"):
        card.go(odd)
    assert card.at == 0


def test_without_an_answer_there_is_nothing_to_work_out_and_it_comes_back(card):
    card.act("step", "2")
    card.model.edit({"work.depth": "deep"})
    assert "no answer to work out" in card.html
    card.model.edit({"work.depth": "10 in"})
    assert card.words.working[2].title in heading(card)


def test_one_picture_is_in_sight_and_each_is_made_when_it_is_chosen():
    strip = PictureStrip(SizeModel())
    assert len(strip.children) == 2
    strip.strip.act("picture", "1")
    away = ["rig-away" in child._dom_classes for child in strip.children[1:]]
    assert away == [True, False]
    strip.strip.act("picture", "0")
    assert ["rig-away" in child._dom_classes for child in strip.children[1:]] == [False, True]
    assert strip.strip.html.count('aria-pressed="true"') == 1
    with pytest.raises(InputError, match="a picture from 0 to 4"):
        strip.choose("5")


def test_the_page_shares_the_rig_with_the_others():
    pages = RigPages()
    pages.app.model.edit({"work.depth": "11 in"})
    pages.turn_to("working")
    step = next(child for child in pages.app.children if isinstance(child, StepCard))
    step.act("step", "1")
    assert "11 in" in step.html
