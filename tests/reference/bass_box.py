"""The Helmholtz equation in a box by finite elements, with an admittance on its walls and a point source.

exp(+j w t). div grad p + k^2 p = -4 pi delta(x - source), so that the free field is exp(-j k r)/r; on the walls
dp/dn = -j k beta p, n outwards, beta = rho c / surface impedance. Quadratic hexahedra (27 nodes). The system of every
frequency is solved by GMRES to a residual of 1e-8; its preconditioner is the same room with each wall's mean
admittance, which separates into three one-dimensional problems.
"""

import numpy as np
from scipy.linalg import eig
from scipy.sparse.linalg import LinearOperator, gmres
from skfem import Basis, BilinearForm, ElementHex2, ElementLineP2, FacetBasis, MeshHex, MeshLine
from skfem.helpers import dot, grad

# (axis of the normal, at its far end, axes of u and v)
SURFACES = {
    "left": (0, False, (1, 2)), "right": (0, True, (1, 2)), "front": (1, False, (0, 2)),
    "back": (1, True, (0, 2)), "floor": (2, False, (0, 1)), "ceiling": (2, True, (0, 1)),
}


@BilinearForm
def stiffness(u, v, _):
    """grad u . grad v"""
    return dot(grad(u), grad(v))


@BilinearForm
def mass(u, v, _):
    """u v"""
    return u * v


def grid_lines(room, element_m):
    """Grid lines along x, y, z: through every edge of a patch, and not further apart than `element_m`."""
    size = room["width_m"], room["length_m"], room["height_m"]
    stops = [{0.0, float(length)} for length in size]
    for patch in room["patches"]:
        for axis, corner, side in zip(SURFACES[patch["surface"]][2], ("u_m", "v_m"), ("width_m", "height_m")):
            stops[axis] |= {round(patch[corner], 6), round(patch[corner] + patch[side], 6)}
    return [_subdivide(sorted(line), element_m) for line in stops]


def _subdivide(stops, element_m):
    pieces = [np.linspace(a, b, int(np.ceil((b - a) / element_m - 1e-9)) + 1)[:-1] for a, b in zip(stops, stops[1:])]
    return np.append(np.concatenate(pieces), stops[-1])


# Exact for the product of two quadratic functions on a brick.
INTEGRATION_ORDER = 4


class Box:
    """Assembled matrices of a room: stiffness, mass, and the boundary mass of each wall and of its patches."""

    def __init__(self, room, element_m):
        self.lines = grid_lines(room, element_m)
        self.size = [line[-1] for line in self.lines]
        self.mesh = MeshHex.init_tensor(*self.lines)
        self.basis = Basis(self.mesh, ElementHex2(), intorder=INTEGRATION_ORDER)
        self.stiffness = stiffness.assemble(self.basis).tocsr().astype(complex)
        self.mass = mass.assemble(self.basis).tocsr().astype(complex)
        self.bare, self.patched, self.share = {}, {}, {}
        for name in SURFACES:
            self._add_surface(name, [p for p in room["patches"] if p["surface"] == name])
        self.axes = [_one_dimensional(line) for line in self.lines]
        self.order = np.lexsort(self.basis.doflocs.round(6)[::-1])

    def _add_surface(self, name, patches):
        axis, far, plane = SURFACES[name]
        at = self.size[axis] if far else 0.0
        facets = self.mesh.facets_satisfying(lambda x: np.abs(x[axis] - at) < 1e-6)
        middle = self.mesh.p[:, self.mesh.facets[:, facets]].mean(axis=1)[list(plane)]
        on = np.zeros(len(facets), dtype=bool)
        for p in patches:
            in_u = (middle[0] > p["u_m"]) & (middle[0] < p["u_m"] + p["width_m"])
            on |= in_u & (middle[1] > p["v_m"]) & (middle[1] < p["v_m"] + p["height_m"])
        self.bare[name] = self._facet_mass(facets[~on])
        if on.any():
            self.patched[name] = self._facet_mass(facets[on])
        area = self.size[plane[0]] * self.size[plane[1]]
        self.share[name] = sum(p["width_m"] * p["height_m"] for p in patches) / area

    def _facet_mass(self, facets):
        basis = FacetBasis(self.mesh, ElementHex2(), facets=facets, intorder=INTEGRATION_ORDER)
        return mass.assemble(basis).tocsr().astype(complex)

    def values_at(self, points):
        """Row vectors that read the solution at the points."""
        return self.basis.probes(np.array(points, dtype=float).T)

    def system(self, k, beta, beta_patch):
        """The complex symmetric system for one wave number, as an operator.

        beta: per wall; beta_patch: one for all patches (None: there are no patches).
        """
        inner = self.stiffness - k**2 * self.mass
        walls = sum(beta[name] * self.bare[name] for name in SURFACES)
        for name, patched in self.patched.items():
            walls = walls + (beta[name] if beta_patch is None else beta_patch) * patched
        walls = 1j * k * walls
        return LinearOperator(inner.shape, lambda p: inner @ p.ravel() + walls @ p.ravel(), dtype=complex)

    def mean_beta(self, beta, beta_patch):
        """Each wall's area mean of the admittance."""
        if beta_patch is None:
            return beta
        return {name: beta[name] + self.share[name] * (beta_patch - beta[name]) for name in SURFACES}


def _one_dimensional(line):
    basis = Basis(MeshLine(line), ElementLineP2())
    order = np.argsort(basis.doflocs[0])
    pick = np.ix_(order, order)
    return stiffness.assemble(basis).toarray()[pick], mass.assemble(basis).toarray()[pick]


def separable_inverse(box, k, beta):
    """The inverse of the room with one admittance per wall, as a linear operator (product of three eigenbases)."""
    values, bases = [], []
    for axis, (low, high) in enumerate((("left", "right"), ("front", "back"), ("floor", "ceiling"))):
        matrix, mass_1d = box.axes[axis][0].astype(complex), box.axes[axis][1]
        matrix[0, 0] += 1j * k * beta[low]
        matrix[-1, -1] += 1j * k * beta[high]
        value, vector = eig(matrix, mass_1d)
        bases.append(vector / np.sqrt(np.einsum("in,ij,jn->n", vector, mass_1d, vector)))
        values.append(value)
    divisor = values[0][:, None, None] + values[1][:, None] + values[2] - k**2
    return LinearOperator((divisor.size,) * 2, lambda r: _separable_solve(r, box.order, bases, divisor), dtype=complex)


def _separable_solve(right, order, bases, divisor):
    x, y, z = bases
    modal = _along_axes(right.ravel()[order].reshape(divisor.shape), x.T, y.T, z.T) / divisor
    out = np.empty(right.size, dtype=complex)
    out[order] = _along_axes(modal, x, y, z).ravel()
    return out


def _along_axes(field, x, y, z):
    """Applies one matrix along each axis of a three-dimensional field."""
    field = (x @ field.reshape(len(field), -1)).reshape(field.shape)
    return (y @ field) @ z.T


def pressures(box, k, beta, beta_patch, source, receivers):
    """Complex pressure at the receivers, and the relative residual of the solution."""
    right = 4 * np.pi * box.values_at([source]).toarray().ravel().astype(complex)
    system = box.system(k, beta, beta_patch)
    inverse = separable_inverse(box, k, box.mean_beta(beta, beta_patch))
    p, _ = gmres(system, right, M=inverse, x0=inverse @ right, rtol=1e-8, restart=80, maxiter=5)
    residual = np.linalg.norm(system @ p - right) / np.linalg.norm(right)
    return box.values_at(receivers) @ p, residual
