"""Decay times and clarity of impulse responses, read with SciPy's filters: freezes recording_figures.csv and recording_filter.csv."""

import numpy as np
from provenance import DATA_DIR, write_csv
from scipy.io import wavfile
from scipy.signal import butter, sosfilt, sosfreqz

CENTRES_HZ = [1000.0 * 10.0 ** (0.3 * n) for n in range(-3, 3)]
MASK = (1 << 64) - 1


def uniform(seed, count):
    """SplitMix64 (Steele, Lea and Flood 2014), upper 53 bits, -1 to 1."""
    state, values = seed, np.empty(count)
    for n in range(count):
        state = (state + 0x9E3779B97F4A7C15) & MASK
        z = state
        z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & MASK
        z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & MASK
        values[n] = ((z ^ (z >> 31)) >> 11) / 2.0**53 * 2.0 - 1.0
    return values


def sos(centre_hz, rate_hz, width):
    edges = [centre_hz * 10.0 ** (-width / 20.0), centre_hz * 10.0 ** (width / 20.0)]
    return butter(3, edges, "bandpass", fs=rate_hz, output="sos")


def backward(samples, centre_hz, rate_hz, width):
    return sosfilt(sos(centre_hz, rate_hz, width), samples[::-1])[::-1]


def figures(samples, onset, rate_hz, centre_hz, width, noise_from=None):
    """EDT, T20, T30, C50, C80; with noise, its mean square is taken off before integration (Chu 1978)."""
    band = backward(samples, centre_hz, rate_hz, width)
    energy = band[onset:] ** 2
    noise = 0.0
    if noise_from is not None:
        noise = np.mean(energy[noise_from:])
        energy = energy[:noise_from] - noise
    curve = 10.0 * np.log10(np.maximum(np.cumsum(energy[::-1])[::-1], 1e-300))
    curve -= curve[0]
    times = []
    for start_db, end_db in [(0.0, -10.0), (-5.0, -25.0), (-5.0, -35.0)]:
        first, last = np.argmax(curve <= start_db), np.argmax(curve < end_db)
        if start_db == 0.0:
            first = 0
        slope = np.polyfit(np.arange(first, last) / rate_hz, curve[first:last], 1)[0]
        times.append(-60.0 / slope)
    stop = len(samples) if noise_from is None else onset + noise_from
    for edge_s in [0.05, 0.08]:
        edge = onset + round(edge_s * rate_hz)
        parts = []
        for part in (samples[onset:edge], samples[edge:stop]):
            padded = np.concatenate([np.zeros(onset), part])
            filtered = backward(padded, centre_hz, rate_hz, width)
            parts.append(np.sum(filtered**2) - noise * len(part))
        times.append(10.0 * np.log10(parts[0] / parts[1]))
    return times


def synthetic(seed, rate_hz, fast_s, slow_s, slow_share, noise):
    """A click, then noise that falls with two times, over steady noise; 0.2 s of silence first."""
    onset = int(0.2 * rate_hz)
    length = int(1.6 * slow_s * rate_hz)
    t = np.arange(length) / rate_hz
    envelope = 10.0 ** (-3.0 * t / fast_s) + slow_share * 10.0 ** (-3.0 * t / slow_s)
    samples = np.concatenate([np.zeros(onset), uniform(seed, length) * envelope])
    samples[onset] = 2.0
    return samples + noise * uniform(seed + 1, onset + length), onset


def main():
    rows = []
    cases = [("straight", 11, 48000, 0.5, 0.5, 0.0, 0.0), ("bent", 12, 44100, 0.25, 0.8, 0.2, 0.0),
             ("dry", 13, 96000, 0.2, 0.3, 0.3, 0.0), ("noisy", 14, 48000, 0.6, 0.6, 0.0, 0.001)]
    for name, seed, rate_hz, fast_s, slow_s, share, noise in cases:
        samples, onset = synthetic(seed, rate_hz, fast_s, slow_s, share, noise)
        # The decay meets that noise after 60 dB, one decay time.
        noise_from = None if noise == 0.0 else int(slow_s * rate_hz)
        for width, widths in [("octave", 3.0), ("third", 1.0)]:
            for centre_hz in CENTRES_HZ:
                if width == "third" and centre_hz * min(fast_s, slow_s) < 80.0:
                    continue
                read = figures(samples, onset, rate_hz, centre_hz, widths, noise_from)
                case = [name, seed, rate_hz, fast_s, slow_s, share, noise, width, f"{centre_hz:.3f}"]
                rows.append(case + [f"{value:.5f}" for value in read])
    write_csv(
        "recording_figures.csv", "impulse_figures.py", ["numpy", "scipy"],
        ["Synthetic responses (see synthetic() in the script) read band by band; seconds and dB."],
        ["case", "seed", "rate_hz", "fast_s", "slow_s", "slow_share", "noise", "width", "centre_hz",
         "edt_s", "t20_s", "t30_s", "c50_db", "c80_db"], rows)
    rows = []
    for rate_hz in (16000, 48000):
        for width, widths in [("octave", 3.0), ("third", 1.0)]:
            for centre_hz in (125.89254, 1000.0, 3981.07171):
                hz = centre_hz * 10.0 ** (np.arange(-6, 7) * 0.05)
                hz = hz[hz < 0.49 * rate_hz]
                _, response = sosfreqz(sos(centre_hz, rate_hz, widths), worN=hz, fs=rate_hz)
                rows += [[rate_hz, width, f"{centre_hz:.5f}", f"{f:.6f}", f"{h.real:.10f}", f"{h.imag:.10f}"]
                         for f, h in zip(hz, response)]
    write_csv(
        "recording_filter.csv", "impulse_figures.py", ["numpy", "scipy"],
        ["Transfer of Butterworth band-passes, scipy.signal.butter(3, ..., 'bandpass')."],
        ["rate_hz", "width", "centre_hz", "hz", "re", "im"], rows)
    print("office at 1 kHz:", office())


def office():
    """A look at a measured response with this reading, as a check of it: T20 is about 0.27 s."""
    path = DATA_DIR / "furnished_office_binaural" / "office_a_azimuth_000.wav"
    rate_hz, samples = wavfile.read(path)
    left = samples[:, 0].astype(float)
    onset = int(np.argmax(np.abs(left) > 0.1 * np.max(np.abs(left))))
    return figures(left, onset, rate_hz, 1000.0, 3.0, int(0.3 * rate_hz))


if __name__ == "__main__":
    main()
