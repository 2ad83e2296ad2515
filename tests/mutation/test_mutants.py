"""The faults themselves: what is found in a few lines, that each is one cut, and that a seed always picks the same."""

import random

import pytest
from mutants import all_mutants, mutants
from run import NEAR, ROOT, folder_of, near

SOURCE = '''"""Text stays."""
def f(a: int = 3, *, b=-1.5):
    """So does this."""
    if a <= b and not a:  # and this
        return min(a, b) + 2 * a
    a += 1
    print("x" + f"{a}")
    return [x for x in (a, b) if x is None] if True else a[0]
'''
FOUND = {
    "a < b", "a > b", "a <= b or not", "not (a <= b and not a)", "if a <= b and a:", "max(a, b)", "min(a, b) - 2", "2 / a",
    "min(a, b)\n", "+ 2\n", "+ 3 * a", "+ 1 * a", "a -= 1", "a = 1", "a += 2", "a += 0", "    pass\n", "if x is not None",
    "if (not (x is None))", "if False else", "if (not (True)) else", "a[1]", "a[(-1)]", "int = 4", "int = 2", "b=1.5",
    "b=-1.65",
}  # fmt: skip


def changed(mutant):
    return mutant.text(SOURCE)


def test_what_is_found():
    texts = [changed(mutant) for mutant in mutants("x.py", SOURCE)]
    for part in FOUND:
        assert sum(part in text for text in texts) >= (1 if part not in SOURCE else 2), part
    for text in texts:
        assert '"""Text stays."""' in text
        assert '"""So does this."""' in text
        assert 'f"{a}"' in text or "    pass" in text
    assert len(texts) == len(set(texts)) == len(FOUND)


def test_each_is_one_cut_of_a_file_that_compiles():
    for mutant in mutants("x.py", SOURCE):
        text = changed(mutant)
        assert text != SOURCE
        assert text[: mutant.start] == SOURCE[: mutant.start]
        assert text.endswith(SOURCE[mutant.end :])
        compile(text, "x.py", "exec")
        was, now = mutant.shown(SOURCE)
        assert was != now
        assert "\n" not in was + now


def test_what_is_there_for_readers_is_left_alone():
    source = "@dataclass(frozen=True)\nclass A:\n    b: int = field(repr=False, default=3)\n"
    assert {mutant.new for mutant in mutants("x.py", source)} == {"4", "2"}


def test_letters_of_more_than_one_byte_shift_nothing():
    source = 'x = "°é" if a < 1 else 2 - 1  # µ\n'
    assert any("a <= 1 else 2 - 1  # µ" in mutant.text(source) for mutant in mutants("x.py", source))


@pytest.mark.parametrize("part", ["rigcalc/equations", "rigcalc/models", "rigcalc/core"])
def test_the_same_seed_picks_the_same(part):
    there = all_mutants(ROOT, part)
    assert len(there) > 500
    assert random.Random(1).sample(there, 9) == random.Random(1).sample(all_mutants(ROOT, part), 9)


def test_what_is_chosen_compiles():
    for mutant in random.Random(2).sample(all_mutants(ROOT, "rigcalc/models"), 40):
        compile(mutant.text((ROOT / mutant.path).read_text(encoding="utf-8")), mutant.path, "exec")


def test_every_file_of_the_models_and_the_book_has_tests_near():
    for part in ("rigcalc/equations", "rigcalc/models", "rigcalc/core"):
        for path in (ROOT / part).rglob("*.py"):
            name = str(path.relative_to(ROOT))
            assert folder_of(name) in NEAR
            assert all((ROOT / test).exists() for test in near(name)), name
            assert near(name), name
