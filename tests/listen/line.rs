//! A line through points.

/// Slope of the straight line through points (x, y) by least squares.
pub fn slope(points: &[(f64, f64)]) -> f64 {
    let count = points.len() as f64;
    let mean = points.iter().fold((0.0, 0.0), |sum, p| {
        (sum.0 + p.0 / count, sum.1 + p.1 / count)
    });
    points
        .iter()
        .map(|p| (p.0 - mean.0) * (p.1 - mean.1))
        .sum::<f64>()
        / points.iter().map(|p| (p.0 - mean.0).powi(2)).sum::<f64>()
}
