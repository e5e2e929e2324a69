"""The same jar by a plain explicit scheme in NumPy: finite volumes, one step after the other.

Second order in the grid, first order in the step, and stable only for short steps: the baseline
that anyone would write in an afternoon. Conductivity and heat capacity may depend on temperature,
which the product's own solution does not know.
"""

from collections.abc import Callable

import numpy as np

from benchmarks.heat.jar import Jar
from stillroom.physics.array import Array


def longest_step(jar: Jar, cells: tuple[int, int]) -> float:
    """The longest stable step, s (a little below the theoretical one)."""
    dr, dz = jar.radius / cells[0], jar.height / cells[1]
    return 0.9 / (jar.diffusivity * (4.0 / dr**2 + 2.0 / dz**2))


def solve(
    jar: Jar,
    duration: float,
    cells: tuple[int, int],
    at: float,
    *,
    step: float | None = None,
    stretch: Callable[[Array], Array] | None = None,
) -> tuple[Array, Array]:
    """Temperature on the axis at the height ``at`` (m) of one jar: times and K, shape (k,).

    ``stretch`` gives diffusivity over ``jar.diffusivity`` at each temperature (default 1).
    """
    nr, nz = cells
    dr, dz = jar.radius / nr, jar.height / nz
    count = int(np.ceil(duration / (step or longest_step(jar, cells))))
    dt = duration / count
    times = dt * np.arange(count + 1)
    around = jar.canner.at(times)
    radii = (np.arange(nr) + 0.5) * dr
    inner = np.arange(nr) * dr / (radii * dr * dr)
    outer = (np.arange(nr) + 1) * dr / (radii * dr * dr)

    def to_face(conductance: float, half: float) -> float:
        return 1.0 / (jar.conductivity / conductance + half) if conductance else 0.0

    side = to_face(jar.side, dr / 2) * jar.radius / (radii[-1] * dr)
    bottom, top = to_face(jar.bottom, dz / 2) / dz, to_face(jar.top, dz / 2) / dz
    food = np.full((nr, nz), jar.start)
    heights = (np.arange(nz) + 0.5) * dz
    inside = np.empty(count + 1)
    change = np.empty_like(food)
    for k in range(count + 1):
        # The axis lies half a cell inside the first ring: a parabola through two rings reaches it.
        axis = food[0] + (food[0] - food[1]) / 8.0
        inside[k] = np.interp(at, heights, axis)
        if k == count:
            break
        change[:] = 0.0
        steps_r, steps_z = np.diff(food, axis=0), np.diff(food, axis=1) / dz**2
        change[:-1] += outer[:-1, None] * steps_r
        change[1:] -= inner[1:, None] * steps_r
        change[:, :-1] += steps_z
        change[:, 1:] -= steps_z
        bath = around[k]
        change[-1] += side * (bath - food[-1])
        change[:, 0] += bottom * (bath - food[:, 0])
        change[:, -1] += top * (bath - food[:, -1])
        food = food + dt * jar.diffusivity * (change if stretch is None else stretch(food) * change)
    return times, inside
