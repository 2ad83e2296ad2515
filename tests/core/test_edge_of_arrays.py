"""Arrays at the edge of an equation: what comes back is nobody else's memory, what isn't real numbers stays out."""

import numpy as np
import pytest

from rigcalc.core.equation import Equation
from rigcalc.core.errors import InputError
from rigcalc.core.units import Q
from rigcalc.equations import load_all

BOOK = load_all()


def test_a_result_shares_no_memory_with_what_went_in():
    """A body may hand an argument through, whole or as a view; writing into the answer must leave the argument alone."""
    about = {"source": "d497", "where": "", "sure": "from memory", "table": "", "numeric": True, "traced": False, "valid": {}}
    one = BOOK["drawbar_power"]
    for body in (lambda draft, speed: draft, lambda draft, speed: speed, lambda draft, speed: draft[...]):
        body.__name__ = "made_up"
        eq = Equation(body, one.gives, one.takes, **about)
        for _ in range(2):  # the long way, then the short one
            draft, speed = Q(np.array([1.0, 2.0]), "kN"), Q(np.array([3.0, 4.0]), "km/h")
            got = eq(draft, speed)
            got.magnitude[:] = 9.0
            assert draft.magnitude.tolist() == [1.0, 2.0]
            assert speed.magnitude.tolist() == [3.0, 4.0]


@pytest.mark.parametrize("size", [2, 5000])  # looked at one by one, and too many for that
@pytest.mark.parametrize("kind", ["complex", "bool", "object", "U8", "datetime64[s]"])
def test_arrays_of_no_real_numbers_are_refused_in_words(kind, size):
    draft = Q(np.ones(size), "kN")
    draft._magnitude = np.ones(size).astype(int).astype(kind)
    with pytest.raises(InputError, match=r"draft.*an array, of .*plain real numbers") as refused:
        BOOK["drawbar_power"](draft, Q(5.0, "km/h"))
    assert len(refused.value.faults) == 1
