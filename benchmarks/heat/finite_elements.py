"""The same jar by finite elements with scikit-fem: an independent solution, and a baseline.

Quadratic quadrilaterals in (r, z) with the radius as weight; in time the trapezoid, its sparse
matrix factored once, which is what a careful engineer writes first. Its first two steps go backward
in quarters, to damp what a sudden bath stirs up.
"""

import numpy as np
from scipy.sparse import csc_matrix
from scipy.sparse.linalg import splu
from skfem import Basis, BilinearForm, ElementQuad2, FacetBasis, LinearForm, MeshQuad

from benchmarks.heat.jar import Jar
from stillroom.physics.array import Array


@BilinearForm
def _mass(u, v, w):  # type: ignore[no-untyped-def]
    return w.x[0] * u * v


@BilinearForm
def _stiffness(u, v, w):  # type: ignore[no-untyped-def]
    return w.x[0] * (u.grad[0] * v.grad[0] + u.grad[1] * v.grad[1])


@LinearForm
def _face(v, w):  # type: ignore[no-untyped-def]
    return w.x[0] * v


def _edges(cells: int, length: float, *, both: bool) -> Array:
    """Cell edges, closer together toward the faces where the temperature bends."""
    even = np.linspace(0.0, 1.0, cells + 1)
    bent = 0.5 - 0.5 * np.cos(np.pi * even) if both else np.sin(0.5 * np.pi * even)
    return np.asarray(length * bent)


def solve(
    jar: Jar, duration: float, step: float, cells: tuple[int, int], at: float
) -> tuple[Array, Array]:
    """Temperature on the axis at the height ``at`` (m) of one jar: times and K, shape (k,)."""
    mesh = MeshQuad.init_tensor(
        _edges(cells[0], jar.radius, both=False), _edges(cells[1], jar.height, both=True)
    )
    basis = Basis(mesh, ElementQuad2())
    mass = _mass.assemble(basis) / jar.diffusivity
    matrix = _stiffness.assemble(basis)
    pull = np.zeros(basis.N)
    faces = (
        (jar.side, lambda x: np.isclose(x[0], jar.radius)),
        (jar.bottom, lambda x: np.isclose(x[1], 0.0)),
        (jar.top, lambda x: np.isclose(x[1], jar.height)),
    )
    for conductance, where in faces:
        facets = FacetBasis(mesh, ElementQuad2(), facets=mesh.facets_satisfying(where))
        share = conductance / jar.conductivity
        matrix = matrix + share * _mass.assemble(facets)
        pull += share * _face.assemble(facets)
    middle = splu(csc_matrix(mass / step + 0.5 * matrix))
    first = splu(csc_matrix(4 * mass / step + matrix))
    probe = basis.probes(np.array([[0.0], [at]]))

    count = int(np.ceil(duration / step))
    times = step * np.arange(count + 1)
    around = jar.canner.at(times)
    food = np.full(basis.N, jar.start)
    inside = np.empty(count + 1)
    inside[0] = (probe @ food)[0]
    for k in range(count):
        if k < 2:
            for quarter in range(4):
                bath = around[k] + (around[k + 1] - around[k]) * (quarter + 1) / 4
                food = first.solve(4 * mass @ food / step + pull * bath)
        else:
            bath = 0.5 * (around[k] + around[k + 1])
            food = middle.solve(mass @ food / step - 0.5 * (matrix @ food) + pull * bath)
        inside[k + 1] = (probe @ food)[0]
    return times, inside
