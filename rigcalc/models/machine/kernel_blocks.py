"""How the kernels go through large arrays: in blocks with scratch rows of their own, on several threads. Plain NumPy."""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from math import prod
from typing import Any

import numpy as np

_BLOCK = 32_768  # points at a time: few enough for the cache, enough that two threads don't wait on each other
_THREADS_PAY_FROM = 100_000  # below this, starting threads costs more than it saves


def run_blocks(block: Callable[..., Any], named: dict[str, Any], outs: list[Any], scratch_rows: int, threads: int) -> list[Any]:
    """Broadcast the named inputs, hand flat blocks of them to `block(inputs, outs, scratch)`, return the outs."""
    named = {name: np.asarray(values, dtype=float) for name, values in named.items()}
    shape = _common_shape(named)
    given = {f"out{place or ''}": out for place, out in enumerate(outs) if out is not None}
    if threads != 1 or given:
        check_run(given, shape, threads)
    results = [np.empty(shape) if out is None else out for out in outs]
    inputs, flat = [_flat(values, shape) for values in named.values()], [result.reshape(-1) for result in results]
    size = prod(shape)
    if 0 < size <= _BLOCK:  # no need to part anything: for small arrays the call's own cost is most of the time
        with np.errstate(all="ignore"):
            block([_part(values, 0, size) for values in inputs], flat, np.empty((scratch_rows, size)))
        return [result[()] if out is None else out for out, result in zip(outs, results, strict=True)]
    # One list that all threads take from: blocks are the same whoever computes them, so results are too.
    starts = list(range(0, size, _BLOCK))[::-1]

    def work() -> None:
        scratch = np.empty((scratch_rows, min(_BLOCK, size)))
        with np.errstate(all="ignore"):  # NaN is an answer here, and errstate holds for one thread only
            while True:
                try:
                    low = starts.pop()
                except IndexError:  # another thread took the last one
                    return
                high = min(low + _BLOCK, size)
                parts = [_part(values, low, high) for values in inputs]
                block(parts, [result[low:high] for result in flat], scratch[:, : high - low])

    if threads == 1 or size < _THREADS_PAY_FROM:
        work()
    else:
        with ThreadPoolExecutor(threads) as pool:
            for done in [pool.submit(work) for _ in range(threads)]:
                done.result()
    return [result[()] if out is None else out for out, result in zip(outs, results, strict=True)]


def _common_shape(named: dict[str, Any]) -> tuple[int, ...]:
    shapes = {values.shape for values in named.values() if values.ndim}
    if len(shapes) < 2:
        return shapes.pop() if shapes else ()
    try:
        return np.broadcast_shapes(*shapes)
    except ValueError:
        text = ", ".join(f"{name} {values.shape}" for name, values in named.items() if values.ndim)
        raise ValueError(f"shapes don't broadcast: {text}; expected equal lengths or 1 in each dimension") from None


def check_run(outs: dict[str, Any], shape: tuple[int, ...], threads: int) -> None:
    """Refuse wrong arrays to write into, each by its name, or wrong `threads`; all at once."""
    faults = []
    for name, out in outs.items():
        kind = f"{out.dtype} array of shape {out.shape}" if isinstance(out, np.ndarray) else type(out).__name__
        if kind != f"float64 array of shape {shape}" or not out.flags.c_contiguous:
            faults.append(f"{name} is a {kind}; expected an unbroken float64 array: type np.empty({shape})")
    if not isinstance(threads, int) or threads < 1:
        faults.append(f"threads is {threads!r}; expected a whole number, 1 or more: type threads=2")
    if faults:
        raise ValueError("; ".join(faults))


def _flat(values: Any, shape: tuple[int, ...]) -> Any:
    """A number, a flat view, or (where neither will do) a broadcast view that `_part` copies from block by block."""
    if values.size == 1:
        return values.reshape(())[()]
    if values.shape == shape and values.flags.c_contiguous:
        return values.reshape(-1)
    return np.broadcast_to(values, shape)


def _part(values: Any, low: int, high: int) -> Any:
    if values.ndim == 0:
        return values
    return values[low:high] if values.ndim == 1 else values.flat[low:high]


def horner(coefficients: tuple[float, ...], x: Any, out: Any) -> None:
    """A polynomial in x, highest power first, into `out`."""
    np.multiply(x, coefficients[0], out=out)
    for coefficient in coefficients[1:-1]:
        out += coefficient
        out *= x
    out += coefficients[-1]
