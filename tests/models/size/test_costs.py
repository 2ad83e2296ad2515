"""What one more inch, mile an hour or tool costs: the derivative, the whole chain, and how both are said."""

import subprocess
import sys

import pytest
from known_rigs import KNOWN_RIGS, known_rig

import rigcalc
from rigcalc.equations.draft import implement_draft
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.file import replaced
from rigcalc.models.size.costs import ENTRIES, costs
from rigcalc.words.size.costs import cost_words


@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_the_chain_is_followed(name):
    """A small step along an entry changes draft and power by the slope times the step."""
    answer = rigcalc.size(known_rig(name))
    b = answer.bare_rig
    here = solve(b)
    assert [cost.entry for cost in costs(answer)] == list(ENTRIES)
    for cost in costs(answer):
        step = 1.0 if cost.entry == "tools" else 0.02
        there = solve(b.at(**{cost.entry: getattr(b, cost.entry) + step}))
        near = 1e-9 if cost.entry == "tools" else 0.02  # one tool more is the step itself, not a slope
        assert cost.draft * step == pytest.approx(float(there.draft - here.draft), rel=near)
        assert cost.engine_power * step == pytest.approx(float(there.engine_power - here.engine_power), rel=near)
        assert cost.draft > 0
        assert cost.engine_power > 0


def test_where_a_factor_alone_moves_draft_off_its_row_it_moves_the_slope_too():
    answer = rigcalc.size(replaced(known_rig(), {"work.depth": "8 in"}))
    b = answer.bare_rig
    row = implement_draft.bare(*(getattr(b, symbol.name) for symbol in implement_draft.takes)) / 1000
    factor = float(answer.point.bare.draft) / float(row)
    depth, speed, _ = costs(answer)
    assert depth.draft == pytest.approx(float(depth.formula.value) / 1000 * factor, rel=1e-3)
    assert speed.draft == pytest.approx(float(speed.formula.value) / 1000 * factor, rel=1e-3)
    assert ("by the table's row alone" in cost_words(depth, "us").formula) == (abs(factor - 1) > 0.01)


def test_words_in_both_systems():
    answer = rigcalc.size(known_rig("tracks"))
    us, si = ([cost_words(cost, units) for cost in costs(answer)] for units in ("us", "si"))
    depth = costs(answer)[0]
    assert us[0].text.startswith("One inch deeper: draft +")
    assert f"{round(depth.draft * 2.54 / 4.4482216152605e-3, -1):,.0f} lbf" in us[0].text
    assert si[0].text.startswith("One centimetre deeper: draft +")
    assert si[1].text.startswith("One km/h faster")
    assert us[2].text.startswith("One tool more")
    assert us[0].formula.startswith("d draft / d depth = soil_factor*tools*")
    assert " N/cm" in us[0].formula


def test_beyond_grip_no_power_is_told():
    answer = rigcalc.size(replaced(known_rig(), {"work.depth": "24 in", "implement.tools": 90}))
    assert not answer.point.pulls
    for cost in costs(answer):
        said = cost_words(cost, "us").text
        assert "more than grip can pull" in said
        assert "nan" not in said


@pytest.mark.slow
def test_without_sympy_the_lines_stand_and_say_what_is_missing():
    code = """
import sys
sys.modules["sympy"] = None
from rigcalc.cli.main import main
sys.argv = ["rigcalc", "size", "--working"]
main()"""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode in (0, 1), done.stderr
    assert "One inch deeper: draft +" in done.stdout
    assert "d draft / d depth" not in done.stdout
    assert "rigcalc[working]" in done.stdout
