"""What units cost, as ratios in one run: the edge against the bare body, the import against numpy's, a cold answer.

Every ratio takes the least of several interleaved repeats, so that a busy machine slows both sides alike.
"""

from __future__ import annotations

import math
import os
import subprocess
import sys
import time
from collections.abc import Callable

import numpy as np
import pytest

from rigcalc.core.equation import Equation
from rigcalc.core.units import Q
from rigcalc.equations import load_all

BOOK = [eq for eq in load_all().values() if eq.traced]
# A few microseconds a call, of 40 that the formula takes over 10,000 values on a machine of 2026: 1.10 is the aim, and what
# a machine with faster arithmetic or slower Python gives by itself is no fault.
ARRAY_AIM, ARRAY_RATIO = 1.10, 1.25
SCALAR_RATIO, IMPORT_RATIO = 6.0, 1.2
COLD_RATIO = 8  # times what a process takes that does nothing but import numpy


def least(call: Callable[[], object], number: int) -> float:
    start = time.perf_counter()
    for _ in range(number):
        call()
    return (time.perf_counter() - start) / number


def values_for(eq: Equation, size: int | None) -> list[object]:
    """Give plausible bare values: inside the valid range and the bounds, as floats or arrays."""
    out: list[object] = []
    for place, symbol in enumerate(eq.takes):
        low, high = eq.valid.get(symbol.name, (max(symbol.least, 0.1), min(symbol.most, 20.0) / 2))
        middle = low + (high - low) * (0.55 - 0.01 * place)  # no two arguments alike: some formulas divide by differences
        out.append(float(middle) if size is None else np.linspace(low + 0.3 * (middle - low), middle, size))
    return out


def ratio(pairs: list[tuple[Callable[[], object], Callable[[], object]]], number: int, repeats: int) -> float:
    """Give the summed cost of the second calls over the first, each the least of `repeats` interleaved tries."""
    firsts, seconds = [float("inf")] * len(pairs), [float("inf")] * len(pairs)
    for _ in range(repeats):
        for i, (first, second) in enumerate(pairs):
            firsts[i] = min(firsts[i], least(first, number))
            seconds[i] = min(seconds[i], least(second, number))
    return sum(seconds) / sum(firsts)


def calls(size: int | None) -> list[tuple[Callable[[], object], Callable[[], object]]]:
    pairs = []
    for eq in BOOK:
        values = values_for(eq, size)
        quantities = [Q(value, symbol.unit) for value, symbol in zip(values, eq.takes, strict=True)]
        eq(*quantities)
        pairs.append((lambda e=eq, v=values: e.bare(*v), lambda e=eq, q=quantities: e(*q)))
    return pairs


def test_scalar_edge_over_the_whole_book(record_property: Callable[[str, object], None]) -> None:
    found = ratio(calls(None), 200, 60)  # short tries: on a busy machine some go undisturbed
    record_property("edge_scalar_ratio", found)
    print(f"unit edge, one scalar call, whole book: {found:.1f} times the bare call")
    assert found <= SCALAR_RATIO


def test_array_edge_over_the_whole_book(record_property: Callable[[str, object], None]) -> None:
    pairs = calls(10_000)
    found = math.inf
    for _ in range(6):
        found = min(found, ratio(pairs, 20, 15))
        if found <= ARRAY_AIM:
            break
    record_property("edge_array_ratio", found)
    print(f"unit edge, 10,000 values, whole book: {found:.3f} times the bare call")
    assert found <= ARRAY_RATIO


def seconds_of(code: str) -> float:
    environment = {**os.environ, "PYTHONDONTWRITEBYTECODE": ""}
    start = time.perf_counter()
    subprocess.run([sys.executable, "-c", code], check=True, env=environment, stdout=subprocess.DEVNULL)
    return time.perf_counter() - start


def test_import_against_numpy(record_property: Callable[[str, object], None]) -> None:
    empty, numpy, ours = ([] for _ in range(3))
    for _ in range(8):
        empty.append(seconds_of("pass"))
        numpy.append(seconds_of("import numpy"))
        ours.append(seconds_of("import rigcalc"))
    found = (min(ours) - min(empty)) / (min(numpy) - min(empty))
    record_property("import_ratio", found)
    print(f"import rigcalc: {found:.2f} times import numpy")
    assert found <= IMPORT_RATIO


def test_cold_answer_beside_numpy_s_import(record_property: Callable[[str, object], None]) -> None:
    """By processor time, which another busy process doesn't stretch as much."""
    import resource

    def cpu(*words: str) -> float:
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        subprocess.run([sys.executable, *words], check=True, stdout=subprocess.DEVNULL)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime

    ours, numpy = [], []
    for _ in range(5):
        ours.append(cpu("-m", "rigcalc", "size"))
        numpy.append(cpu("-c", "import numpy"))
    found = min(ours) / min(numpy)
    record_property("cold_answer_ratio", found)
    print(f"rigcalc size, cold: {min(ours):.2f} s of CPU, {found:.1f} times import numpy")
    assert found <= COLD_RATIO


@pytest.mark.parametrize(
    "eq", [load_all()["implement_draft"], load_all()["gross_traction_ratio_radial"]], ids=lambda e: e.__name__
)
def test_edge(benchmark: object, eq: Equation) -> None:
    """Shown in the benchmark table, for whoever tunes the edge."""
    quantities = [Q(value, symbol.unit) for value, symbol in zip(values_for(eq, None), eq.takes, strict=True)]
    benchmark(eq, *quantities)  # type: ignore[operator]
