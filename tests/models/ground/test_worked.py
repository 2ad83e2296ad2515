"""Did it work: made readings before and after a pass, and the chance by another way; the words can say no."""

import numpy as np
import pytest
from scipy import stats

import rigcalc
from rigcalc.core.errors import InputError
from rigcalc.models.ground.worked import Result, chance_of_less
from rigcalc.models.machine.judgement import Judgement
from rigcalc.models.rig.file import load_rig, replaced

RIG = "front_wheel_assist"  # 10 in deep
LAYER, NONE = "7 in to 8 in", "none"


def flags(layers, of, layer=LAYER):
    return [layer] * layers + [NONE] * (of - layers)


def found(before, after, **more):
    return rigcalc.ground(RIG, before, after=after, **more)


@pytest.mark.parametrize(
    ("before", "after", "part"), [((8, 10), (0, 10), 0.5), ((5, 9), (3, 14), 0.7), ((9, 20), (8, 20), 0.5)]
)
def test_the_chance_is_that_of_drawn_shares(before, after, part):
    rng = np.random.default_rng(14)
    one, two = (rng.beta(count + 1, of - count + 1, 400_000) for count, of in (before, after))
    assert chance_of_less(before, after, part) == pytest.approx(np.mean(two <= part * one), abs=0.003)


def test_with_nobody_probed_the_chance_is_geometry_and_fifty_thousand_sites_are_no_matter():
    """Of two even shares the second is under half of the first in a triangle of a quarter."""
    assert chance_of_less((0, 0), (0, 0), 0.5) == pytest.approx(0.25, abs=1e-6)
    apart = np.hypot(0.5 * np.sqrt(0.6 * 0.4), np.sqrt(0.301 * 0.699)) / np.sqrt(50_000)  # by the normal law
    assert chance_of_less((30_000, 50_000), (15_050, 50_000), 0.5) == pytest.approx(stats.norm.cdf(-0.001 / apart), abs=2e-3)


@pytest.mark.parametrize(
    ("before", "after", "result", "judged", "word"),
    [
        ((8, 10), (0, 10), Result.YES, Judgement.GO, "It worked"),
        ((8, 10), (1, 10), Result.YES, Judgement.GO, "It worked"),
        ((16, 20), (5, 24), Result.PARTLY, Judgement.TRY, "In part"),
        ((8, 10), (4, 10), Result.UNSURE, Judgement.TRY, "Not sure"),
        ((8, 10), (0, 2), Result.UNSURE, Judgement.TRY, "Not sure"),
        ((8, 10), (7, 10), Result.NO, Judgement.DONT, "It didn't work"),
        ((8, 10), (10, 10), Result.NO, Judgement.DONT, "It didn't work"),
        ((0, 10), (0, 10), Result.NOTHING, Judgement.TRY, "Not sure"),
    ],
)
def test_what_is_said_of_shares_of_flags(before, after, result, judged, word):
    answer = found(flags(*before), flags(*after))
    assert (answer.worked.result, answer.judgement) == (result, judged)
    words = rigcalc.in_words(answer, "us")
    assert words.said.word == word
    assert (answer.worked.before, answer.worked.after) == (before, after)
    if result is Result.YES:
        assert "if the ground was as moist both times" in words.said.headline


def test_gone_is_by_shares_and_what_was_wanted_decides_between_worked_and_in_part():
    before, after = flags(16, 20), flags(5, 24)
    assert found(before, after).worked.gone == pytest.approx(1 - (5 / 24) / (16 / 20))
    assert found(before, after, share=0.7).worked.result is Result.YES
    assert "74 % of it is gone, 80 % was wanted" in str(rigcalc.in_words(found(before, after)))
    assert "there is more of it than before" in " ".join(rigcalc.in_words(found(before, flags(24, 24))).worked)


def test_what_is_less_than_was_wanted_is_never_said_as_if_it_were_all_of_it():
    answer = found(flags(100, 100), flags(204, 1000))  # 79.6 percent
    assert answer.worked.result is Result.PARTLY
    assert ": 79 % of it is gone, 80 % was wanted" in str(rigcalc.in_words(answer))


def test_where_the_layer_is_says_why_it_stayed():
    inside = found(flags(8, 10), flags(8, 10))
    assert (inside.worked.inside, inside.worked.below) == (8, 0)
    assert "went through: too wet" in str(rigcalc.in_words(inside, "us"))
    below = found(flags(8, 10, "11 in to 13 in"), flags(8, 10, "11 in to 13 in"))
    assert (below.worked.inside, below.worked.below) == (0, 8)
    assert "under 10 in: the pass was too shallow" in str(rigcalc.in_words(below, "us"))


def log(folder, name, layer, beneath, deepest=60):
    """Write ten sites with a layer from 15 to 22 cm, and ground from there down, in kPa."""
    lines = ["site,depth (cm),reading (kPa)"]
    for site in range(10):
        for depth in range(2, deepest, 2):
            lines.append(f"{site},{depth},{layer if 15 < depth < 22 else 900 if depth < 30 else beneath}")
    path = folder / f"{name}.csv"
    path.write_text("\n".join(lines))
    return path


@pytest.mark.parametrize(
    ("layer", "beneath", "result", "said"),
    [
        (900, 1500, Result.YES, "no layer at any"),
        (900, 1000, Result.WATER, "softer too: water moved the readings"),
        (900, 1120, Result.YES, "no layer at any"),
        (3500, 1500, Result.NO, "still there at 10 of 10"),
        (3500, 1950, Result.WATER, "harder too: water moved the readings"),
        (900, 1950, Result.YES, "no layer at any"),  # drier, and yet no layer
        (3500, 1000, Result.NO, "still there"),  # wetter, and yet a layer
    ],
)
def test_ground_that_no_shank_touched_tells_whether_water_moved_the_readings(tmp_path, layer, beneath, result, said):
    answer = rigcalc.ground(RIG, log=log(tmp_path, "before", 3500, 1500), after_log=log(tmp_path, "after", layer, beneath))
    assert answer.worked.result is result
    assert answer.worked.beneath == pytest.approx(1500 - beneath, abs=1)
    assert said in rigcalc.in_words(answer, "si").said.headline
    if result is Result.WATER:
        assert answer.judgement is Judgement.TRY


def test_logs_that_end_above_say_nothing_of_the_water(tmp_path):
    short = log(tmp_path, "short", 900, 900, deepest=28)
    answer = rigcalc.ground(RIG, log=log(tmp_path, "before", 3500, 1500), after_log=short)
    assert np.isnan(answer.worked.beneath)
    assert "isn't known" in " ".join(rigcalc.in_words(answer).worked)


def test_every_fault_at_once_and_after_alone_is_refused():
    with pytest.raises(InputError) as error:
        rigcalc.ground(RIG, ["x"], after=["8 in", "none"], after_log="nowhere.csv", see="5", scatter="0 percent", pairs=1)
    assert [fault.where for fault in error.value.faults] == ["flag 1", "after: flag 1", "after: log", "see", "scatter", "pairs"]
    with pytest.raises(InputError, match="before it too"):
        rigcalc.ground(RIG, after=["none"])
    with pytest.raises(InputError, match="a list of texts"):
        rigcalc.ground(RIG, [LAYER], after="none")


def test_the_rig_files_flags_after_go_with_its_own_flags_alone():
    file = replaced(load_rig(RIG), {"ground.flags": "; ".join(flags(8, 10)), "ground.flags_after": "; ".join(flags(1, 10))})
    assert rigcalc.ground(file).worked.result is Result.YES
    assert rigcalc.ground(file, after=flags(8, 10)).worked.result is Result.NO
    assert rigcalc.ground(file, flags(8, 10)).worked is None, "other flags before it"
    with pytest.raises(InputError, match=r"ground\.flags_after: got readings of after the pass alone"):
        rigcalc.ground(replaced(file, {"ground.flags": None}))
    with pytest.raises(InputError, match=r"(?s)ground\.flags: flag 1.*ground\.flags_after: flag 2"):
        rigcalc.ground(replaced(file, {"ground.flags": "x", "ground.flags_after": "none; y"}))
