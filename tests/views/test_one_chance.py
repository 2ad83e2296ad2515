"""The chance is one figure wherever it is shown, and it has the doubt about a deep chisel's row in it."""

import json
from dataclasses import replace

import numpy as np
import pytest
from click.testing import CliRunner
from known_rigs import known_rig

from rigcalc.cli.size import size as command
from rigcalc.models import replaced, rig_text, size
from rigcalc.models.machine.draws import draws, likely, number
from rigcalc.models.machine.limits import caps, shares, works
from rigcalc.models.machine.operating_point import solve
from rigcalc.models.rig.bare import bare
from rigcalc.views.sheet import sheet_html
from rigcalc.views.size import panels
from rigcalc.views.size.pictures import chance as picture
from rigcalc.words import in_words
from rigcalc.words.numbers import chance, chance_short

DEEP = replaced(known_rig("tracks"), {"work.depth": "16 in", "implement.point_width": None, "implement.rated_depth": None})


def chance_of(drawn):
    b = bare(DEEP)
    return float(works(shares(b, solve(b, drawn=drawn), caps(DEEP, b))).mean())


@pytest.fixture(scope="module")
def wanted():
    """The chance by the draws themselves; and what it would be were the row of chisels sure."""
    b = bare(DEEP)
    drawn = draws(b.draft_range, number("cone_range"), 0)
    with_doubt = chance_of(drawn)
    for narrower in (replace(drawn, deep=0.0), replace(drawn, deep=likely().deep)):
        assert chance(chance_of(narrower)) != chance(with_doubt)
    return with_doubt


def test_every_view_shows_the_chance_of_the_draws(wanted, tmp_path):
    words = in_words(size(DEEP))
    said = chance(wanted)
    assert words.answer.sure.chance_works == pytest.approx(wanted, abs=1e-12)
    assert said in str(words)
    assert said in words.sure
    file = tmp_path / "deep.toml"
    file.write_text(rig_text(DEEP), encoding="utf-8")
    terminal = " ".join(CliRunner().invoke(command, [str(file)]).output.split())
    assert terminal.count(said) >= 2
    found = json.loads(CliRunner().invoke(command, [str(file), "--json"]).output)
    assert found["sure"]["chance_works"] == pytest.approx(wanted, abs=1e-6)
    assert said in found["sentence"]
    assert said in sheet_html(words)
    assert chance_short(wanted) in panels.facts(words)
    assert said in panels.verdict(words) + panels.facts(words)
    assert said in str(picture.twin(words))


def test_the_picture_s_line_passes_through_the_chance_that_is_said(wanted):
    words = in_words(size(DEEP))
    at = float(words.answer.point.bare.depth)
    _, line = picture.chances(words, np.array([at]))
    assert line[0] == pytest.approx(wanted, abs=0.03)
