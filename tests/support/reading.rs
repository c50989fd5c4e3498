//! Reads decay times off a curve of energy as a measurement would: backward integration, then a straight line by
//! least squares. Written for the ray tracer alone and without a look at the code it is there to check.

/// Where the curve is cut before integration, re its start: −55 dB. Behind it stands an exponential tail.
const CURVE_END: f64 = 3.16e-6;

/// The part of the curve before its end that gives the slope of the tail.
const TAIL_FIT_SHARE: f64 = 0.25;

/// Backward-integrated decay, in dB re its start, on the time grid of `energy`.
///
/// ```text
/// L(t) = 10 lg( ∫_t^∞ E / ∫_0^∞ E )
/// ```
/// by the trapezoidal rule down to −55 dB or the end of the curve. The rest of the integral is that of an exponential
/// which goes on at the slope of the last quarter.
///
/// # Units
/// - `energy`: any unit, > 0 at the start, sample n at n time steps
/// - returns: dB, shorter than `energy` where that falls below −55 dB
///
/// # Source
/// Schroeder, "New method of measuring reverberation time", J. Acoust. Soc. Am. 37 (1965) 409-412;
/// the tail as ISO 3382-1:2009, 5.3.3, corrects for a truncated integration.
pub fn backward_integral_db(energy: &[f64]) -> Vec<f64> {
    let floor = CURVE_END * energy[0];
    let end = energy
        .iter()
        .position(|&e| e < floor)
        .unwrap_or(energy.len());
    let curve = &energy[..end];
    let mut sum = tail_steps(curve);
    let mut sums = vec![sum; end];
    for n in (0..end - 1).rev() {
        sum += 0.5 * (curve[n] + curve[n + 1]);
        sums[n] = sum;
    }
    sums.iter().map(|s| 10.0 * (s / sums[0]).log10()).collect()
}

/// Integral, in time steps, of the exponential that continues `curve`: by the trapezoidal rule, like the rest.
fn tail_steps(curve: &[f64]) -> f64 {
    let last = curve.len() - 1;
    let back = ((curve.len() as f64 * TAIL_FIT_SHARE) as usize).clamp(1, last);
    let ratio = (curve[last] / curve[last - back]).powf(1.0 / back as f64);
    curve[last] * 0.5 * (1.0 + ratio) / (1.0 - ratio)
}

/// Time for 60 dB at the slope which a level has between two of its values, by least squares.
///
/// # Units
/// - `levels_db`: dB re the start, sample n at n · `step_s`
/// - `from_db`, `to_db`: dB re the start, such as −5 and −25
/// - returns: s; NaN if the curve ends before `to_db`
///
/// # Source
/// ISO 3382-1:2009, 5.3.3 (T20, T30) and A.2.2 (early decay time), clause numbers from memory, medium.
pub fn sixty_db_time_s(levels_db: &[f64], step_s: f64, from_db: f64, to_db: f64) -> f64 {
    if levels_db.last().is_none_or(|&last| last > to_db) {
        return f64::NAN;
    }
    let inside = |level: f64| level <= from_db && level >= to_db;
    let points: Vec<(f64, f64)> = levels_db
        .iter()
        .enumerate()
        .filter(|&(_, &level)| inside(level))
        .map(|(n, &level)| (n as f64 * step_s, level))
        .collect();
    -60.0 / slope(&points)
}

/// Slope of the straight line through points (x, y) by least squares.
fn slope(points: &[(f64, f64)]) -> f64 {
    let count = points.len() as f64;
    let mean_x = points.iter().map(|p| p.0).sum::<f64>() / count;
    let mean_y = points.iter().map(|p| p.1).sum::<f64>() / count;
    let covariance: f64 = points.iter().map(|p| (p.0 - mean_x) * (p.1 - mean_y)).sum();
    let variance: f64 = points.iter().map(|p| (p.0 - mean_x).powi(2)).sum();
    covariance / variance
}
