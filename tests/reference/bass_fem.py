"""Bass response of two box rooms by finite elements.

Reads tests/data/bass_fem_cases.json, writes bass_fem_beta.csv and bass_fem.csv beside it. Prints its own checks: a room
with a closed solution, the residual of every solution, and the difference between two meshes.
"""

import json

import numpy as np
from bass_box import SURFACES, Box, pressures
from provenance import DATA_DIR, write_csv

SCRIPT, PACKAGES = "bass_fem.py", ["numpy", "scipy", "scikit-fem"]
COARSE_M, FINE_M = 0.45, 0.30
# Resonances of quadratic elements are off by a share that goes with the fourth power of the element.
LEFT_IN_FINE = 1 / ((COARSE_M / FINE_M) ** 4 - 1)


def porous_beta(f_hz, layer, c):
    """Admittance of a porous layer over an air gap on a hard wall at normal incidence, rho c over its impedance.

    Miki 1990, J. Acoust. Soc. Jpn (E) 11, Eq. (30) to (34); exp(+j w t). Below f / flow resistivity = 0.01 it is used
    outside its stated range.
    """
    y = f_hz / layer["flow_resistivity_pa_s_per_m2"]
    zc = 1 + 0.070 * y**-0.632 - 0.107j * y**-0.632
    k0 = 2 * np.pi * f_hz / c
    turn = k0 * (1 + 0.109 * y**-0.618 - 0.160j * y**-0.618) * layer["thickness_m"]
    gap = -1j / np.tan(k0 * layer["gap_m"])
    z = zc * (gap * np.cos(turn) + 1j * zc * np.sin(turn)) / (zc * np.cos(turn) + 1j * gap * np.sin(turn))
    return 1 / z


def closed_solution(room, k, beta_floor, beta_ceiling, point, count=400):
    """The exact pressure in a room whose floor and ceiling have admittances and whose other walls are rigid.

    Cosines across x and y, and along z the Green's function between two admittances.
    """
    (xs, ys, zs), (x, y, z) = room["source_m"], point
    width, length, height = room["width_m"], room["length_m"], room["height_m"]
    n = np.arange(count)
    kx, ky = np.pi * n[:, None] / width, np.pi * n[None, :] / length
    twice = np.where(n > 0, 2, 1)
    share = twice[:, None] * twice * np.cos(kx * xs) * np.cos(kx * x) * np.cos(ky * ys) * np.cos(ky * y)
    kz = -1j * np.sqrt(kx**2 + ky**2 - k**2 + 0j)
    low, high = min(zs, z), max(zs, z)
    with np.errstate(over="ignore", invalid="ignore"):
        from_floor = np.cos(kz * low) + 1j * k * beta_floor / kz * np.sin(kz * low)
        to_ceiling = np.cos(kz * (height - high)) + 1j * k * beta_ceiling / kz * np.sin(kz * (height - high))
        at_floor = np.cos(kz * height) + 1j * k * beta_ceiling / kz * np.sin(kz * height)
        slope = kz * np.sin(kz * height) - 1j * k * beta_ceiling * np.cos(kz * height)
        terms = from_floor * to_ceiling / (1j * k * beta_floor * at_floor - slope)
    return 4 * np.pi / (width * length) * np.sum(share * np.where(np.isfinite(terms), terms, 0))


def check_closed_solution(room, box, c):
    """Prints the largest difference from the exact solution of a room with soft floor and ceiling."""
    worst = 0.0
    for f_hz in (25, 43, 77, 118):
        k, beta = 2 * np.pi * f_hz / c, {name: 0.0 for name in SURFACES}
        beta["floor"], beta["ceiling"] = 0.05 + 0.02j, 0.2 + 0.4j
        p, _ = pressures(box, k, beta, None, room["source_m"], room["receivers_m"])
        exact = [closed_solution(room, k, beta["floor"], beta["ceiling"], point) for point in room["receivers_m"]]
        worst = max(worst, np.max(np.abs(p - exact)) / np.max(np.abs(exact)))
    print(f"{room['name']}: largest difference from the closed solution, of the larger pressure: {worst:.2e}", flush=True)
    assert worst < 0.01


def admittances(setup, case, beta):
    """(admittance per wall, admittance of the patches or None) of a case at one frequency."""
    walls = dict(setup["beta_walls"])
    if "porous_surface" in case:
        walls[case["porous_surface"]] = beta
    return walls, beta if case.get("porous_patches") else None


def response(setup, room, case, box, f_hz):
    """Complex pressures [frequency][receiver] of one case, and the largest residual."""
    out, worst = [], 0.0
    for f in f_hz:
        walls, patch = admittances(setup, case, porous_beta(f, setup["beta_porous"], setup["c_m_per_s"]))
        k = 2 * np.pi * f / setup["c_m_per_s"]
        p, residual = pressures(box, k, walls, patch, room["source_m"], room["receivers_m"])
        out.append(p)
        worst = max(worst, residual)
    return np.array(out), worst


def smoothed_db(f_hz, p):
    """Level of |p|^2 averaged over the frequencies within 1/12 octave of each, dB."""
    near = np.abs(np.log2(f_hz[:, None] / f_hz)) <= 1 / 12
    return 10 * np.log10(near @ np.abs(p) ** 2 / near.sum(axis=1)[:, None])


def room_rows(setup, room, f_hz):
    """Rows of all cases of one room, from the fine mesh; prints how far the coarse one is away."""
    coarse, fine = Box(room, COARSE_M), Box(room, FINE_M)
    print(f"{room['name']}: {len(coarse.order)} and {len(fine.order)} unknowns", flush=True)
    check_closed_solution(room, fine, setup["c_m_per_s"])
    for case in setup["cases"]:
        p, residual = response(setup, room, case, fine, f_hz)
        q, _ = response(setup, room, case, coarse, f_hz)
        difference = smoothed_db(f_hz, p) - smoothed_db(f_hz, q)
        left = np.abs(difference).max() * LEFT_IN_FINE
        print(f"{room['name']} {case['name']}: residual {residual:.1e}; coarse mesh against fine, 1/6 octave: rms "
              f"{np.sqrt(np.mean(difference**2)):.3f} dB, largest {np.abs(difference).max():.3f} dB; so the fine one is within {left:.3f} dB", flush=True)
        assert residual < 1e-6 and left < 0.2
        for receiver in range(p.shape[1]):
            for f, one in zip(f_hz, p[:, receiver]):
                level = f"{20 * np.log10(abs(one)):.4f}"
                yield [room["name"], case["name"], receiver, f, f"{one.real:.7g}", f"{one.imag:.7g}", level]


def main():
    """Writes both files."""
    setup = json.loads((DATA_DIR / "bass_fem_cases.json").read_text(encoding="utf-8"))
    span = setup["frequency_hz"]
    f_hz = np.arange(span["first"], span["last"] + span["step"], span["step"])
    betas = [(f, porous_beta(f, setup["beta_porous"], setup["c_m_per_s"])) for f in f_hz]
    write_csv(
        "bass_fem_beta.csv", SCRIPT, PACKAGES,
        ["Admittance rho c / Z of 100 mm porous layer, 8000 Pa s/m2, over 50 mm of air: Miki 1990, normal incidence."],
        ["frequency_hz", "beta_re", "beta_im"], [[f, f"{b.real:.9g}", f"{b.imag:.9g}"] for f, b in betas])
    rows = [row for room in setup["rooms"] for row in room_rows(setup, room, f_hz)]
    write_csv(
        "bass_fem.csv", SCRIPT, PACKAGES,
        ["Complex pressure p of a point source, re its free field at 1 m (exp(-j k r)/r), exp(+j w t); level_db = 20 lg |p|.",
         f"Quadratic hexahedra of at most {FINE_M} m. Rooms, points, admittances: bass_fem_cases.json; receiver: index in it."],
        ["room", "case", "receiver", "frequency_hz", "p_re", "p_im", "level_db"], rows)


if __name__ == "__main__":
    main()
