"""The chain over arrays of any size: large ones go through in blocks that stay in the processor's cache, on several threads.

A step of the chain over a million points would write and read eight megabytes each time; over a block it stays in the cache.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from functools import cache
from math import prod
from typing import Any

import numpy as np

from rigcalc.models.machine.chain import Chain
from rigcalc.models.machine.draws import Draws
from rigcalc.models.machine.kernel_blocks import check_run
from rigcalc.models.rig.bare import BareGear, BareRig

BLOCK = 16384  # points at a time: a dozen arrays of them fit the cache of one core
_WHOLE_UP_TO = 2 * BLOCK  # up to here arrays broadcast as they come, in one go


def run(
    b: BareRig,
    draft_factor: Any,
    cone_factor: Any,
    drawn: Draws | None,
    want: tuple[str, ...],
    out: dict[str, Any],
    threads: int,
) -> dict[str, Any]:
    """Give the wanted outputs of the chain by name, in the common shape; those in `out` are written there."""
    want = tuple(dict.fromkeys((*want, *out)))
    shape = np.broadcast_shapes(np.shape(draft_factor), np.shape(cone_factor), *(np.shape(v) for v in _arrays(b)),
        *(np.shape(v) for v in (_arrays(drawn) if drawn else ())),
    )  # fmt: skip
    check_run({f"out {name}": array for name, array in out.items()}, shape, threads)
    if shape:
        _keep_freed_memory()
    if prod(shape) <= _WHOLE_UP_TO:
        chain = Chain(b, draft_factor, cone_factor, drawn=drawn)
        found = {name: spread(getattr(chain, name), shape) for name in want}
        for name, array in out.items():
            array[...] = found[name]
        return found | out
    results = {name: out[name] if name in out else np.empty(shape) for name in want}
    flat = [(name, result.reshape(-1)) for name, result in results.items()]
    part_of_rig = _parts(b, shape)
    part_of_draws = _parts(drawn, shape) if drawn else lambda place: None
    factors = [_part(np.asarray(factor, float), shape) for factor in (draft_factor, cone_factor)]
    starts = list(range(0, prod(shape), BLOCK))[::-1]  # one list that all threads take from

    def work() -> None:
        with np.errstate(all="ignore"):  # NaN is an answer here, and errstate holds for one thread only
            while True:
                try:
                    low = starts.pop()
                except IndexError:  # another thread took the last one
                    return
                place = slice(low, low + BLOCK)
                chain = Chain(part_of_rig(place), factors[0](place), factors[1](place), drawn=part_of_draws(place))
                for name, result in flat:
                    result[place] = getattr(chain, name)

    if threads == 1:
        work()
    else:
        with ThreadPoolExecutor(threads) as pool:
            for done in [pool.submit(work) for _ in range(threads)]:
                done.result()
    return results


@cache
def _keep_freed_memory() -> None:
    """Free one large array, once in a process: from then on malloc keeps freed memory of that size at hand.

    Measured on Linux: without it the C library hands memory back between two steps and fetches it anew page by page, which
    takes as long as the sums, and makes threads wait on each other. The array is never written to, so it costs nothing;
    where malloc works otherwise it does nothing.
    """
    np.empty(1 << 21)


def spread(value: Any, shape: tuple[int, ...]) -> Any:
    """Give a number or array in the common shape; most are in it already."""
    if np.shape(value) == shape:
        return value if shape else np.float64(value)
    return np.broadcast_to(value, shape)


def _arrays(part: BareRig | BareGear | Draws) -> Iterator[Any]:
    for value in vars(part).values():
        if isinstance(value, BareGear):
            yield from _arrays(value)
        elif isinstance(value, np.ndarray):
            yield value


def _part(values: Any, shape: tuple[int, ...]) -> Callable[[slice], Any]:
    """Give a function that cuts a block out of the values as if they had the common shape."""
    if values.size == 1:
        only = values.reshape(())[()]
        return lambda place: only
    if values.shape == shape and values.flags.c_contiguous:
        whole = values.reshape(-1)
        return lambda place: whole[place]
    broad = np.broadcast_to(values, shape)
    return lambda place: broad.flat[place]


def _parts(part: Any, shape: tuple[int, ...]) -> Callable[[slice], Any]:
    """Give a function that cuts a block out of a rig or its running gear."""
    cuts: dict[str, Callable[[slice], Any]] = {}
    for name, value in vars(part).items():
        if isinstance(value, BareGear):
            cuts[name] = _parts(value, shape)
        elif isinstance(value, np.ndarray):
            cuts[name] = _part(value, shape)
    return lambda place: replace(part, **{name: cut(place) for name, cut in cuts.items()})
