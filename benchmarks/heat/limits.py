"""What this machine can do at most, and what one jar asks of it."""

import time
from collections.abc import Callable

import numpy as np

from stillroom.physics.conduction import FLAT_TERMS, ROUND_TERMS


def best_of(tries: int, work: Callable[[], object]) -> float:
    """Seconds of the quickest of some tries."""
    seconds = []
    for _ in range(tries):
        begun = time.perf_counter()
        work()
        seconds.append(time.perf_counter() - begun)
    return min(seconds)


def arithmetic() -> float:
    """Operations a second of a large matrix product, all cores."""
    size = 2048
    a = np.random.default_rng(0).random((size, size))
    return 2.0 * size**3 / best_of(5, lambda: a @ a)


def bandwidth() -> float:
    """Bytes a second of a large copy, read and written."""
    source, target = np.ones(50_000_000), np.zeros(50_000_000)
    return 2.0 * source.nbytes / best_of(5, lambda: np.copyto(target, source))


def operations(count: int) -> float:
    """Floating-point operations of one jar followed over ``count`` steps; a power of e counts one.

    Two eigenproblems (9 n^3 each, the usual count with vectors), the dying terms, one matrix
    product for all instants, three real Fourier transforms (2.5 n log2 n each).
    """
    terms = ROUND_TERMS * FLAT_TERMS
    columns = int(np.ceil(np.sqrt(2 * (count + 1))))
    rows = -(-(count + 1) // columns)
    eigen = 9.0 * (ROUND_TERMS**3 + FLAT_TERMS**3)
    dying = (rows + columns) * (terms + ROUND_TERMS + FLAT_TERMS) + 2 * rows * terms
    product = 2.0 * (2 * rows) * columns * terms
    transform = 3 * 2.5 * (2 * count) * float(np.log2(2 * count))
    return eigen + dying + product + transform


def traffic(count: int) -> float:
    """Bytes that one jar cannot but move: its canner read, its inside written, 8 bytes each."""
    return 2.0 * 8.0 * (count + 1)
