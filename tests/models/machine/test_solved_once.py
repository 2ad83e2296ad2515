"""How often one answer goes through the chain and looks the rig up: a case is made once and handed on."""

import sys

import pytest
from known_rigs import KNOWN_RIGS, known_rig

from rigcalc.models import replaced, size
from rigcalc.models.ballast.answer import ballast
from rigcalc.models.machine import operating_point
from rigcalc.models.rig import bare as bare_rig


@pytest.fixture
def calls(monkeypatch):
    """Counts of `solve` and `bare`, whoever of the package calls them."""
    counts = {"solve": 0, "bare": 0}
    for home, name in ((operating_point, "solve"), (bare_rig, "bare")):
        real = getattr(home, name)

        def counting(*args, _real=real, _name=name, **kwargs):
            counts[_name] += 1
            return _real(*args, **kwargs)

        for module in list(sys.modules.values()):
            if getattr(module, "__name__", "").startswith("rigcalc") and vars(module).get(name) is real:
                monkeypatch.setattr(module, name, counting)
    return counts


@pytest.mark.parametrize("name", KNOWN_RIGS)
@pytest.mark.parametrize("depth", ["10 in", "20 in", "36 in"])  # usual, deep enough for a second opinion, and too much
def test_six_solves_at_most_and_one_look_up(name, depth, calls):
    size(replaced(known_rig(name), {"work.depth": depth}))
    assert calls["bare"] == 1
    assert 4 <= calls["solve"] <= 6


@pytest.mark.parametrize("name", KNOWN_RIGS)
@pytest.mark.parametrize("job", ["light", "this", "full"])
def test_a_ballast_answer_looks_up_once_and_solves_no_more_than_it_must(name, job, calls):
    """3 to find the full load, 1 for the jobs, 4 for their best masses and 3 more in reach, 1 each for the picture, the sets
    shown and the job; 1 or 2 for tipping; the rest is the search, which takes more lots only where few sets pass.
    """
    ballast(known_rig(name), job)
    assert calls["bare"] == 1
    assert 10 <= calls["solve"] <= 20
