"""The demo rigs' figures as they were when last looked at: own output, so it finds a change and proves nothing right.

When a change is meant, run this file as a program to write the new figures, and say why in the commit.
"""

import json
from pathlib import Path

import pytest
from known_rigs import KNOWN_RIGS, known_rig

from rigcalc.models import size
from rigcalc.words import in_words

KEPT = Path(__file__).with_suffix(".json")
FIELDS = ("draft", "net_pull", "peak_pull", "slip", "slip_at_peak", "front_load", "rear_load", "axle_power", "engine_power",
          "engine_share", "tractive_efficiency", "fuel_rate", "field_capacity")  # fmt: skip


def figures(name):
    answer = size(known_rig(name))
    return {
        "sentence": str(in_words(answer)),
        "point": {field: float(getattr(answer.point.bare, field)) for field in FIELDS},
        "used": {m.name: m.used for m in answer.margins},
        "reverse": {r.question: [r.value, r.binds] for r in answer.reverse},
        "chances": [answer.sure.chance_pulls, answer.sure.chance_works],
    }


@pytest.mark.parametrize("name", KNOWN_RIGS)
def test_as_it_was(name):
    was, now = json.loads(KEPT.read_text(encoding="utf-8"))[name], figures(name)
    assert now["sentence"] == was["sentence"]
    assert now["point"] == pytest.approx(was["point"], rel=1e-9)
    assert {k: v for k, v in now["used"].items() if v is None} == {k: v for k, v in was["used"].items() if v is None}
    known = {k: v for k, v in was["used"].items() if v is not None}
    assert {k: v for k, v in now["used"].items() if v is not None} == pytest.approx(known, rel=1e-9)
    assert {k: v[1] for k, v in now["reverse"].items()} == {k: v[1] for k, v in was["reverse"].items()}
    assert {k: v[0] for k, v in now["reverse"].items()} == pytest.approx({k: v[0] for k, v in was["reverse"].items()}, rel=1e-6)
    assert now["chances"] == pytest.approx(was["chances"], abs=1e-12)


if __name__ == "__main__":
    KEPT.write_text(json.dumps({name: figures(name) for name in KNOWN_RIGS}, indent=1) + "\n", encoding="utf-8")
