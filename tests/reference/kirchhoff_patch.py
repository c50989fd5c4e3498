"""Octave levels of a reflection from a wall with one panel on it, by Kirchhoff's integral.

Writes kirchhoff_cases.csv, kirchhoff_patches.csv and kirchhoff_weights.csv into tests/data. Prints its own checks: the
endless plane against the mirror image, the quadrature against a denser one, and against the integral along the edge.
"""

from dataclasses import dataclass

import numpy as np
from kirchhoff import C_M_PER_S, Path, endless_plane, mirror_image, panel_integrals, weight_by_edges, weights
from provenance import write_csv

SCRIPT, PACKAGES = "kirchhoff_patch.py", ["numpy"]
# Wall x = 0, (u, v) = (y, z): source (1.00, 1.10, 0.90), receiver (1.00, 3.40, 1.00).
# Ceiling z = 2.70, (u, v) = (x, y): source (0.65, 1.10, 0.90), receiver (1.65, 3.90, 1.00).
PATHS = [
    Path("side_wall", (1.10, 0.90, 1.00), (3.40, 1.00, 1.00)),
    Path("ceiling", (0.65, 1.10, 1.80), (1.65, 3.90, 1.70)),
]
SIZES = [(0.6, 0.6), (0.6, 1.2), (1.2, 1.2), (1.2, 2.4)]
OFFSETS = [(0, 0), (0.25, 0), (-0.5, 0), (1.0, 0), (0, 0.25), (0, -0.5), (0.25, -0.25), (-0.5, 0.5)]
OCTAVES = range(-3, 4)
NOMINAL_HZ = [125, 250, 500, 1000, 2000, 4000, 8000]
FINE, COARSE = 25, 5


@dataclass(frozen=True)
class Reflector:
    """Reflection factors: of the wall; of the panel's face, and how far that lies before the wall, metres."""

    name: str
    wall: float
    face: complex
    depth: float
    displaced: bool = False

    def panel(self, path, k):
        """The panel's factor referred to the wall plane."""
        return self.face * np.exp(2j * k * self.depth * path.cos_theta)


REFLECTORS = [
    Reflector("thin", 1.0, 0.2, 0.0),
    Reflector("thin_lossy_wall", float(np.sqrt(0.95)), 0.2, 0.0),
    Reflector("deep", 1.0, 0.10 - 0.30j, 0.10),
    Reflector("displaced", 1.0, 0.10 - 0.30j, 0.10, displaced=True),
]


def frequencies(octave, per_third):
    """`per_third` frequencies in each third of an octave (base ten), evenly in log f, at the middles of equal steps."""
    step = (np.arange(per_third) - (per_third - 1) / 2) / per_third
    return 1000 * 10 ** ((3 * octave + np.array([-1, 0, 1])[:, None] + step).ravel() / 10)


def wave_numbers(octave, per_third):
    """2 pi f / c, per metre."""
    return 2 * np.pi * frequencies(octave, per_third) / C_M_PER_S


def centre_of(path, offset):
    """Where the panel's middle lies: the specular point and an offset."""
    return tuple(np.add(path.specular, offset))


def reflection(reflector, path, k, weight, raised):
    """Reflected pressure over that of the endless rigid wall."""
    if reflector.displaced:
        return reflector.wall * (1 - weight) + reflector.face * raised
    return reflector.wall + (reflector.panel(path, k) - reflector.wall) * weight


def level(energy):
    """Level of a mean, dB."""
    return f"{10 * np.log10(energy.mean()):.4f}"


def levels(path, size, offset, octave):
    """(reflector, level of the coarse average, of the fine one, of the leading part) for one panel in one octave."""
    k = wave_numbers(octave, FINE)
    centre = centre_of(path, offset)
    mirror = mirror_image(path, k)
    weight, leading = (sums / mirror for sums in panel_integrals(path, centre, size, k))
    raised, raised_leading = (
        sums / mirror for sums in panel_integrals(path.raised(REFLECTORS[-1].depth), centre, size, k)
    )
    coarse = np.arange(len(k)) % COARSE == COARSE // 2
    for reflector in REFLECTORS:
        energy = np.abs(reflection(reflector, path, k, weight, raised)) ** 2
        part = np.abs(reflection(reflector, path, k, leading, raised_leading)) ** 2
        yield reflector, level(energy[coarse]), level(energy), level(part[coarse])


def patch_rows():
    """One row per path, reflector, size, offset and octave."""
    rows = []
    for path in PATHS:
        for size in SIZES:
            for offset in OFFSETS:
                for octave, nominal in zip(OCTAVES, NOMINAL_HZ):
                    for reflector, *three in levels(path, size, offset, octave):
                        row = [path.name, reflector.name, reflector.wall, reflector.face.real, reflector.face.imag]
                        row += [reflector.depth, *size, *offset, nominal, *three]
                        rows.append(row)
        print(f"{path.name} done")
    return rows


def weight_rows():
    """Complex weights at 21 third-octave centres for some panels of each path."""
    some = [((0.6, 0.6), (0, 0)), ((0.6, 1.2), (0.25, -0.25)), ((1.2, 1.2), (-0.5, 0.5)), ((1.2, 2.4), (1.0, 0))]
    k = np.concatenate([wave_numbers(octave, 1) for octave in OCTAVES])
    rows = []
    for path in PATHS:
        for size, offset in some:
            for k_one, w in zip(k, weights(path, centre_of(path, offset), size, k)):
                f_hz = k_one * C_M_PER_S / (2 * np.pi)
                rows.append([path.name, *size, *offset, f"{f_hz:.6f}", f"{w.real:.8f}", f"{w.imag:.8f}"])
    return rows


def check_endless_plane():
    """Prints the integral over the endless plane divided by the mirror image; stops if it is not 1."""
    for path in PATHS:
        for f_hz in (125, 1000, 4000):
            for damping in (0.02, 0.005):
                k = 2 * np.pi * f_hz / C_M_PER_S * (1 - 1j * damping)
                ratio = endless_plane(path, k) / mirror_image(path, k)
                print(f"endless plane / mirror image, {path.name}, {f_hz} Hz, Im k / Re k -{damping}: {ratio:.9f}")
                assert abs(ratio - 1) < 1e-7


def check_quadrature():
    """Prints the largest difference from a denser quadrature and from the integral along the edge."""
    dense, edge = 0.0, 0.0
    for path in PATHS:
        for size in SIZES:
            for offset in OFFSETS:
                centre = centre_of(path, offset)
                k = np.array([wave_numbers(octave, 1)[1] for octave in (-3, 0, 2, 3)])
                w = weights(path, centre, size, k)
                dense = max(dense, np.abs(w - weights(path, centre, size, k, density=1.6)).max())
                by_edge = np.array([weight_by_edges(path, centre, size, one) for one in k])
                edge = max(edge, np.abs(w - by_edge).max())
    print(f"largest |difference of weights|: denser quadrature {dense:.1e}, integral along the edge {edge:.1e}")
    assert dense < 1e-8 and edge < 1e-6


def case_rows():
    """The geometry of each path in the frame of its plane."""
    for path in PATHS:
        values = [*path.source, *path.receiver, *path.specular, path.length, path.cos_theta, C_M_PER_S]
        yield [path.name] + [f"{value:.9g}" for value in values]


def write_all():
    """Writes the three files."""
    write_csv(
        "kirchhoff_cases.csv", SCRIPT, PACKAGES,
        ["Source, receiver and specular point in the frame of the plane: (u, v) in it, h the distance from it.",
         "side_wall: x = 0, (u, v) = (y, z). ceiling: z = 2.70 m, (u, v) = (x, y). The plane is endless."],
        ["path", "source_u_m", "source_v_m", "source_h_m", "receiver_u_m", "receiver_v_m", "receiver_h_m",
         "specular_u_m", "specular_v_m", "length_m", "cos_theta", "c_m_per_s"], case_rows())
    write_csv(
        "kirchhoff_patches.csv", SCRIPT, PACKAGES,
        ["Level of the reflection re a rigid endless wall, 10 lg mean |R_eff|^2; panel centre = specular point + offset.",
         "R_eff = r_wall + (R_panel - r_wall) W, R_panel = r_face exp(+2 j k depth_m cos_theta), exp(+j w t).",
         "Set 'displaced': the face truly lies depth_m before the wall, R_eff = r_wall (1 - W) + r_face W_displaced.",
         f"level_db: {COARSE} frequencies per third-octave (base ten), even in log f; level_fine_db: {FINE} per third.",
         "level_leading_db: as level_db, but with the leading term of the integral only (no near field, 1/(j k r))."],
        ["path", "set", "r_wall", "r_face_re", "r_face_im", "depth_m", "size_u_m", "size_v_m", "offset_u_m",
         "offset_v_m", "octave_hz", "level_db", "level_fine_db", "level_leading_db"], patch_rows())
    write_csv(
        "kirchhoff_weights.csv", SCRIPT, PACKAGES,
        ["Complex weight W of a panel at the exact third-octave centres, exp(+j w t)."],
        ["path", "size_u_m", "size_v_m", "offset_u_m", "offset_v_m", "frequency_hz", "w_re", "w_im"], weight_rows())


if __name__ == "__main__":
    check_endless_plane()
    check_quadrature()
    write_all()
