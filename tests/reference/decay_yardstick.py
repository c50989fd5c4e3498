"""Decay resolved by direction, in NumPy, vectorised over directions and bands: a yardstick for speed.

Reads a room as JSON on standard input, prints {"ms", "t20_s", "steps"} as JSON on standard output: the median time of
one whole answer (both passes and the reading of T20), T20 per band (null: no decay), and the steps of the two passes.
Needs NumPy alone.

Input: size_m [3]; c (m/s); absorption [6][bands] and scattering [6][bands], walls in the order left, right, front, back,
floor, ceiling; air_per_m [bands], energy per metre; object_surface_m2; object_absorption_area_m2 [bands].

Per band, for the energy E of a direction of one octant of the sphere, < > the mean over it:

    dE/dt = -D E + sum_i 2 |O_i| <q_i E> + <q_obj E>,   nu_i = c |O_i| / L_i,   q_i = nu_i rho_i
    D = m c + mu + sum_i nu_i (lambda_i + rho_i),   mu = c S_obj / 4 V,   q_obj = mu (1 - a_obj)
"""

import json
import os
import statistics
import sys
import time

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np  # noqa: E402  (after the number of threads is set)

ORDER, REPEATS = 8, 21
STEPS_PER_DECADE_OF_ENERGY = 40
ENOUGH_DECAY, BLOCK, MAX_STEPS = 1e-4, 50, 4000


def directions(order):
    """Directions of one octant [n][3] and their shares [n]: Gauss points over cos theta and phi, stretched."""
    node, weight = np.polynomial.legendre.leggauss(order)
    x = (node + 1) / 2
    place, share = 3 * x**2 - 2 * x**3, weight / 2 * 6 * x * (1 - x)
    cos_theta, phi = np.meshgrid(place, place * np.pi / 2, indexing="ij")
    sin_theta = np.sqrt(1 - cos_theta**2)
    omega = np.stack([sin_theta * np.cos(phi), sin_theta * np.sin(phi), cos_theta], axis=-1)
    return omega.reshape(-1, 3), np.outer(share, share).ravel()


def scattered(absorption, scattering):
    """rho per axis and band: the mean over its two walls of s (1 - a) (-ln(1 - a)) / a."""
    safe = np.maximum(absorption, 1e-9)
    one = scattering * (1 - safe) * -np.log1p(-safe) / safe
    return (one[0::2] + one[1::2]) / 2


def lost(absorption, sigma):
    """lambda per axis, direction and band: absorption per crossing at the growth sigma per crossing."""
    r1, r2 = 1 - absorption[0::2, None], 1 - absorption[1::2, None]
    mean, e = (r1 + r2) / 2, np.exp(-sigma)
    s = (mean - 1 + (r1 * r2 - mean) * e) / (1 - r1 * r2 * e**2)
    return sigma / (1 + s * (1 - e) / sigma) - sigma


class Room:
    """What does not change between the two passes."""

    def __init__(self, data, order=ORDER):
        omega, self.share = directions(order)
        size, c = np.array(data["size_m"]), data["c"]
        surface = data["object_surface_m2"]
        self.absorption = np.array(data["absorption"])
        self.rho = scattered(self.absorption, np.array(data["scattering"]))
        self.nu = c * omega.T / size[:, None]
        mu = c * surface / (4 * size.prod())
        a_obj = np.array(data["object_absorption_area_m2"]) / surface if surface > 0 else 0 * self.absorption[0]
        self.rest = np.array(data["air_per_m"]) * c + mu
        # <q E> = gain * (weigh @ E) for the three axes and the objects; spread @ that is the source of every direction.
        self.weigh = np.vstack([self.share * self.nu, self.share])
        self.gain = np.vstack([self.rho, mu * (1 - a_obj)])
        self.spread = np.hstack([2 * omega, np.ones((len(omega), 1))])

    def damping(self, lam):
        """D per direction and band; lam [axis][direction or 1][band]."""
        return self.rest + np.einsum("id,idb->db", self.nu, lam + self.rho[:, None] + 0 * self.nu[:, :, None])

    def first_loss(self):
        """lambda of the first pass: energy that never leaves its direction."""
        log = -np.log1p(-self.absorption)
        return ((log[0::2] + log[1::2]) / 2)[:, None]

    def updated_loss(self, damping, lam, rate):
        """lambda of the second pass, for a field that dies at `rate` per second."""
        nu = self.nu[:, :, None]
        sigma = (damping - nu * (lam + self.rho[:, None]) - rate) / nu
        return lost(self.absorption, np.clip(sigma, 1e-3, 60))


def decay_curve(room, damping):
    """(time step per band, g [step][band]): exponential steps, the source taken at the middle of each."""
    mean_rate = np.maximum(room.share @ damping - (room.share[:, None] * (room.spread @ (
        room.gain * (room.weigh @ np.ones_like(damping))))).sum(axis=0), 1e-6)
    step = np.log(10) / mean_rate / STEPS_PER_DECADE_OF_ENERGY
    whole, half = np.exp(-damping * step), np.exp(-damping * step / 2)
    fill_whole, fill_half = (1 - whole) / damping, (1 - half) / damping
    energy, g = np.ones_like(damping), [np.ones(damping.shape[1])]
    while len(g) <= MAX_STEPS and (len(g) % BLOCK or g[-1].max() > ENOUGH_DECAY):
        middle = half * energy + fill_half * (room.spread @ (room.gain * (room.weigh @ energy)))
        energy = whole * energy + fill_whole * (room.spread @ (room.gain * (room.weigh @ middle)))
        g.append(room.share @ energy)
    return step, np.array(g)


def t20_s(step, g):
    """T20 per band from the backward integral of g (trapezoids, an exponential tail), least squares from -5 to -25 dB."""
    rate = np.log(g[-11] / g[-1]) / (10 * step)
    with np.errstate(divide="ignore", invalid="ignore"):
        tail = np.where(rate > 1e-9, g[-1] / rate, np.inf)
        piece = np.vstack([(g[:-1] + g[1:]) / 2 * step, tail])
        left = np.cumsum(piece[::-1], axis=0)[::-1]
        level = 10 * np.log10(left / left[0])
        use = (level <= -5) & (level >= -25)
        count, t = use.sum(axis=0), np.arange(len(g))[:, None] * step
        t = np.where(use, t, 0)
        level = np.where(use, level, 0)
        top = count * (t * level).sum(axis=0) - t.sum(axis=0) * level.sum(axis=0)
        slope = top / (count * (t**2).sum(axis=0) - t.sum(axis=0) ** 2)
        return np.where((count > 2) & (slope < 0), -60 / slope, np.inf)


def answer(data):
    """(T20 per band, steps of both passes)."""
    room = Room(data)
    first = room.first_loss()
    damping = room.damping(first)
    step, g = decay_curve(room, damping)
    rate = 6 * np.log(10) / t20_s(step, g)
    damping = room.damping(room.updated_loss(damping, first, rate))
    step, g_updated = decay_curve(room, damping)
    return t20_s(step, g_updated), len(g) + len(g_updated) - 2


def timed_ms(data):
    """One answer's time, milliseconds."""
    start = time.perf_counter()
    answer(data)
    return (time.perf_counter() - start) * 1e3


def main():
    """Reads the room, prints the answer."""
    data = json.load(sys.stdin)
    t20, steps = answer(data)
    ms = statistics.median(timed_ms(data) for _ in range(REPEATS))
    print(json.dumps({"ms": ms, "t20_s": [float(t) if np.isfinite(t) else None for t in t20], "steps": steps}))


if __name__ == "__main__":
    main()
