"""Kirchhoff's integral over a plane reflector for a point source, and two checks of it.

Frame: (u, v) in the plane, h the distance from it. Time convention exp(+j w t).

    p = (j k / 4 pi) * integral of exp(-j k (r1 + r2)) / (r1 r2)
        * [ (1 + 1/(j k r1)) cos th1 + (1 + 1/(j k r2)) cos th2 ] du dv

with r1, r2 the distances of a point of the plane to source and receiver. Over the endless plane this is exactly the
mirror image, exp(-j k r) / r with r the length of the mirrored path (Green's theorem), so the complex weight of a
panel is the integral over the panel divided by that. The terms 1/(j k r) are the near field of both points; without
them the endless plane would not give the mirror image exactly.
"""

from dataclasses import dataclass

import numpy as np

C_M_PER_S = 331.3 * np.sqrt(1 + 20 / 273.15)
POINTS_PER_RADIAN = 0.9


@dataclass(frozen=True)
class Path:
    """A source and a receiver before a plane: each as (u, v, h), metres."""

    name: str
    source: tuple
    receiver: tuple

    @property
    def length(self):
        """Length of the mirrored path, metres."""
        (u1, v1, h1), (u2, v2, h2) = self.source, self.receiver
        return float(np.sqrt((u2 - u1) ** 2 + (v2 - v1) ** 2 + (h1 + h2) ** 2))

    @property
    def cos_theta(self):
        """Cosine of the angle of incidence at the specular point."""
        return (self.source[2] + self.receiver[2]) / self.length

    @property
    def specular(self):
        """The specular point (u, v), metres."""
        (u1, v1, h1), (u2, v2, h2) = self.source, self.receiver
        share = h1 / (h1 + h2)
        return u1 + share * (u2 - u1), v1 + share * (v2 - v1)

    def raised(self, depth):
        """The same two points before a plane that lies `depth` in front of the first one."""
        (u1, v1, h1), (u2, v2, h2) = self.source, self.receiver
        return Path(self.name, (u1, v1, h1 - depth), (u2, v2, h2 - depth))


def mirror_image(path, k):
    """What the endless plane with R = 1 reflects to the receiver."""
    return np.exp(-1j * k * path.length) / path.length


def integrand_at(path, u, v, k):
    """The integrand of the module's formula at points (u, v), without the factor j k / 4 pi."""
    (u1, v1, h1), (u2, v2, h2) = path.source, path.receiver
    r1 = np.sqrt((u - u1) ** 2 + (v - v1) ** 2 + h1**2)
    r2 = np.sqrt((u - u2) ** 2 + (v - v2) ** 2 + h2**2)
    obliquity = (1 + 1 / (1j * k * r1)) * h1 / r1 + (1 + 1 / (1j * k * r2)) * h2 / r2
    return np.exp(-1j * k * (r1 + r2)) / (r1 * r2) * obliquity


def gauss(low, high, count):
    """At least `count` nodes on an interval, with weights: Gauss-Legendre of 16 points on equal pieces of it."""
    node, weight = np.polynomial.legendre.leggauss(16)
    edge = np.linspace(low, high, int(np.ceil(count / 16)) + 1)
    half = np.diff(edge)[:, None] / 2
    return (edge[:-1, None] + half * (node + 1)).ravel(), (half * weight).ravel()


def points_needed(k, length, density):
    """Nodes for a phase that turns by up to 2 k per metre."""
    return density * POINTS_PER_RADIAN * 2 * k * length + 24


def panel_integrals(path, centre, size, k_list, density=1.0):
    """The integral over a panel (R = 1), by Gauss quadrature in two dimensions, for every wave number in `k_list`.

    Returns two arrays: the whole integral, and its leading part (without the terms 1/(j k r)).
    """
    k_max = max(k_list)
    u, wu = gauss(centre[0] - size[0] / 2, centre[0] + size[0] / 2, points_needed(k_max, size[0], density))
    v, wv = gauss(centre[1] - size[1] / 2, centre[1] + size[1] / 2, points_needed(k_max, size[1], density))
    (u1, v1, h1), (u2, v2, h2) = path.source, path.receiver
    uu, vv = u[:, None], v[None, :]
    r1 = np.sqrt((uu - u1) ** 2 + (vv - v1) ** 2 + h1**2)
    r2 = np.sqrt((uu - u2) ** 2 + (vv - v2) ** 2 + h2**2)
    far = (h1 / r1 + h2 / r2) / (r1 * r2)
    near = (h1 / r1**2 + h2 / r2**2) / (r1 * r2)
    both = np.array([_sums_over_panel(k, r1 + r2, far, near, wu, wv) for k in k_list])
    return both[:, 0] + both[:, 1], both[:, 0]


def _sums_over_panel(k, detour, far, near, wu, wv):
    phase = np.exp(-1j * k * detour)
    return 1j * k / (4 * np.pi) * (wu @ (phase * far) @ wv), (wu @ (phase * near) @ wv) / (4 * np.pi)


def weights(path, centre, size, k_list, density=1.0):
    """The panel's complex weights, one per wave number: its integral over that of the endless plane."""
    whole, _ = panel_integrals(path, centre, size, k_list, density)
    return whole / mirror_image(path, np.asarray(k_list))


def weight_by_edges(path, centre, size, k, count=6000):
    """The same weight from a line integral round the panel's edge: a second, independent way.

    Maggi and Rubinowicz (Born & Wolf, Principles of Optics, section 8.9): the mirror image if the specular point is on
    the panel, plus an integral along the edge.
    """
    source = np.array([path.source[0], path.source[1], -path.source[2]])
    receiver = np.array(path.receiver)
    hu, hv = size[0] / 2, size[1] / 2
    corners = np.array([[-hu, -hv, 0], [hu, -hv, 0], [hu, hv, 0], [-hu, hv, 0]]) + [*centre, 0]
    total = sum(
        _edge_integral(source, receiver, corners[i], corners[(i + 1) % 4], k, count) for i in range(4)
    )
    specular = path.specular
    inside = abs(specular[0] - centre[0]) < hu and abs(specular[1] - centre[1]) < hv
    return inside - total / mirror_image(path, k)


def _edge_integral(source, receiver, start, end, k, count):
    share, weight = gauss(0, 1, count)
    point = start + share[:, None] * (end - start)
    step = end - start
    to_edge, from_receiver = point - source, point - receiver
    r = np.linalg.norm(to_edge, axis=1)
    s = np.linalg.norm(from_receiver, axis=1)
    kernel = np.cross(to_edge, from_receiver) @ step / (r * s + np.sum(to_edge * from_receiver, axis=1))
    return np.sum(weight * np.exp(-1j * k * (r + s)) / (r * s) * kernel) / (4 * np.pi)


def endless_plane(path, k, angles=240):
    """The integral over the endless plane, in rings round the specular point, for a wave number with Im k < 0.

    A little damping makes the integral converge absolutely; the identity with the mirror image holds for complex k too.
    """
    radius = 14 / -k.imag
    rho, w_rho = gauss(0, radius, points_needed(abs(k), radius, 1.5))
    total = 0
    for angle in 2 * np.pi * np.arange(angles) / angles:
        u = path.specular[0] + rho * np.cos(angle)
        v = path.specular[1] + rho * np.sin(angle)
        total += np.sum(w_rho * rho * integrand_at(path, u, v, k))
    return 1j * k / (4 * np.pi) * total * (2 * np.pi / angles)
