"""Absorption of rectangles of porous material before a hard wall, by Thomasson's integral.

Writes finite_size.csv into tests/data. Prints its own checks: the endless area against 1 / cos th, and the quadrature
against a denser one.

    alpha = integral over 0..1 of 8 Re(Zs) / |Zs + Zf|^2 d(cos th)
    Zf = (2 j k / (pi a b)) * integral over 0..a, 0..b of J0(k r sin th) (a - u)(b - v) exp(-j k r) / r du dv

Zf is the mean over azimuth (J0 is the mean of cos(kx u) cos(ky v)); everything is over rho c. Polar coordinates take the
1/r away; the integral over them is done in both, for the true rectangle: no square stands in for it.
Time convention exp(+j w t).

Source: Thomasson, Theory and experiments on the sound absorption as function of the area, KTH report TRITA-TAK 8201
(1982); Thomasson, Acustica 44 (1980); Miki, J. Acoust. Soc. Jpn (E) 11 (1990).
"""

import numpy as np
from provenance import write_csv
from scipy.special import j0

SCRIPT, PACKAGES = "finite_size.py", ["numpy", "scipy"]
C_M_PER_S = 343.0
# Thickness, m, and flow resistivity, Pa s/m2.
SLABS = [(0.05, 30e3), (0.1, 8e3)]
SIZES_M = [(3.6, 3.6), (1.2, 1.2), (1.2, 0.6), (2.4, 1.2), (2.4, 0.6), (2.4, 0.3)]
# Bands above 1 kHz: octaves 63 Hz to 2 kHz.
BANDS = range(-12, 4, 3)
NOMINAL_HZ = [63, 125, 250, 500, 1000, 2000]


def gauss(count, low=0.0, high=1.0):
    """Gauss-Legendre nodes and weights on low..high."""
    node, weight = np.polynomial.legendre.leggauss(count)
    return low + (high - low) * (node + 1) / 2, weight * (high - low) / 2


def half_sector(k, a, b, sine, density):
    """The integral over the half of the rectangle between its side a and its diagonal."""
    psi, psi_weight = gauss(int(density * (16 + 0.5 * k * a)), 0, np.arctan2(b, a))
    share, share_weight = gauss(int(density * (24 + 0.8 * k * np.hypot(a, b))))
    total = np.zeros(len(sine), complex)
    for angle, weight in zip(psi, psi_weight, strict=True):
        reach = a / np.cos(angle)
        r = share * reach
        window = (a - r * np.cos(angle)) * (b - r * np.sin(angle))
        wave = share_weight * reach * weight * window * np.exp(-1j * k * r)
        total += j0(np.outer(sine, k * r)) @ wave
    return total


def radiation_impedance(k, a, b, cosine, density=1.0):
    """Zf of a rectangle a x b over rho c, mean over azimuth, for an array of cosines."""
    sine = np.sqrt(1 - cosine**2)
    both = half_sector(k, a, b, sine, density) + half_sector(k, b, a, sine, density)
    return 2j * k / (np.pi * a * b) * both


def surface_impedance(frequency_hz, cosine, slab):
    """Zs of a bulk-reacting slab before a hard wall, Miki's model, over rho c."""
    thickness_m, flow_resistivity = slab
    y = frequency_hz / flow_resistivity
    impedance = 1 + (0.070 - 0.107j) * y**-0.632
    index = 1 + (0.109 - 0.160j) * y**-0.618
    normal = np.sqrt(index**2 - (1 - cosine**2))
    k0 = 2 * np.pi * frequency_hz / C_M_PER_S
    return -1j * impedance * index / normal / np.tan(k0 * normal * thickness_m)


def absorption(frequency_hz, size_m, slab, reaction, density=1.0):
    """Thomasson's absorption at one frequency."""
    cosine, weight = gauss(int(density * 48))
    zs = surface_impedance(frequency_hz, cosine if reaction == "bulk" else np.ones_like(cosine), slab)
    zf = radiation_impedance(2 * np.pi * frequency_hz / C_M_PER_S, *size_m, cosine, density)
    return float((weight * 8 * zs.real / np.abs(zs + zf) ** 2).sum())


def check_endless_area():
    """A square of 6 m at 1 kHz is nearly endless away from grazing."""
    cosine = np.array([1.0, 0.8, 0.6, 0.4])
    zf = radiation_impedance(2 * np.pi * 1000 / C_M_PER_S, 6, 6, cosine)
    worst = np.abs(zf * cosine - 1).max()
    print(f"6 m square at 1 kHz against 1 / cos th: {worst:.3f}")
    assert worst < 0.1


def check_quadrature():
    """A denser rule gives the same."""
    pairs = [[absorption(1000, size, SLABS[0], "bulk", density) for density in (1.0, 1.4)] for size in SIZES_M]
    worst = max(abs(one - two) for one, two in pairs)
    print(f"denser quadrature: {worst:.1e}")
    assert worst < 5e-4


def rows():
    """Every slab, reaction, size and band."""
    for slab in SLABS:
        for reaction in ("local", "bulk"):
            for size in SIZES_M:
                for band, nominal_hz in zip(BANDS, NOMINAL_HZ, strict=True):
                    value = absorption(1000 * 10 ** (band / 10), size, slab, reaction)
                    yield [slab[0], slab[1], reaction, *size, nominal_hz, f"{value:.4f}"]


if __name__ == "__main__":
    check_endless_area()
    check_quadrature()
    write_csv(
        "finite_size.csv", SCRIPT, PACKAGES,
        ["Thomasson's absorption of a rectangle of a slab before a hard wall; Miki's model; 343 m/s; exact band centres."],
        ["thickness_m", "flow_resistivity_pa_s_per_m2", "reaction", "width_m", "height_m", "nominal_hz", "absorption"],
        rows())
