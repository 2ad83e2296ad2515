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
def test_a_ballast_answer_looks_up_once_and_solves_ten_times_at_most(name, job, calls):
    """3 to find the full load, 1 for all jobs over all masses, 1 for the tops, 2 for how far delivery stays as good, 1 for the
    search, 1 for the sets shown and their tipping, 1 for the picture; the search goes twice where advice has to give way.
    """
    answer = ballast(known_rig(name), job)
    assert calls["bare"] == 1
    assert calls["solve"] == 10 + bool(answer.plan.bent)
