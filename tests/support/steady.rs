//! Traces a room with as many rays as its decay needs: few in a furnished room, many where a few rays live long between
//! hard walls.

use crate::support::reading::{backward_integral_db, sixty_db_time_s};
use crate::support::tracer::{TracedDecay, TracedRoom, trace};

/// Rays of one bundle; what T20 does when one bundle is left out tells how well it is known.
const BUNDLE_RAYS: usize = 3_000;

/// Bundles to begin with: 24,000 rays.
const FEWEST_BUNDLES: usize = 8;

/// The most that are traced: 624,000 rays.
const MOST_BUNDLES: usize = 216;

/// Standard error of T20 at which tracing ends: it is itself known to a third only, which keeps the error below 1 %.
const STEADY: f64 = 0.006;

/// Traces bundle after bundle until the standard error of T20 is below 0.6 %, and reads the decay off their mean.
///
/// # Units
/// - returns: as [`trace`]; and the standard error of T20, re T20
pub fn trace_steadily(room: &TracedRoom, seed: u64) -> (TracedDecay, f64) {
    let mut bundles: Vec<TracedDecay> = Vec::new();
    let mut wanted = FEWEST_BUNDLES;
    loop {
        for n in bundles.len()..wanted {
            let own_seed = seed * MOST_BUNDLES as u64 + n as u64;
            bundles.push(trace(room, BUNDLE_RAYS, own_seed));
        }
        let sum = sum(&bundles);
        let error = standard_error(&bundles, &sum);
        if error < STEADY || wanted == MOST_BUNDLES {
            let count = bundles.len() as f64;
            let energy = sum.iter().map(|e| e / count).collect();
            return (decay(energy, bundles[0].step_s), error);
        }
        wanted = (wanted * 2).min(MOST_BUNDLES);
    }
}

/// Energy of all bundles at each time.
fn sum(bundles: &[TracedDecay]) -> Vec<f64> {
    let at = |n: usize| bundles.iter().map(|bundle| bundle.energy[n]).sum();
    (0..bundles[0].energy.len()).map(at).collect()
}

/// Standard error of T20, re T20, by leaving out one bundle after the other.
///
/// # Source
/// Efron and Tibshirani, An Introduction to the Bootstrap (1993), chapter 11, the jackknife.
fn standard_error(bundles: &[TracedDecay], sum: &[f64]) -> f64 {
    let without = |bundle: &TracedDecay| {
        let energy: Vec<f64> = sum
            .iter()
            .zip(&bundle.energy)
            .map(|(all, one)| all - one)
            .collect();
        sixty_db_time_s(&backward_integral_db(&energy), bundle.step_s, -5.0, -25.0)
    };
    let times_s: Vec<f64> = bundles.iter().map(without).collect();
    let count = times_s.len() as f64;
    let mean_s = times_s.iter().sum::<f64>() / count;
    let squares: f64 = times_s.iter().map(|t| (t / mean_s - 1.0).powi(2)).sum();
    ((count - 1.0) / count * squares).sqrt()
}

/// What is read off the energy.
fn decay(energy: Vec<f64>, step_s: f64) -> TracedDecay {
    let levels_db = backward_integral_db(&energy);
    let read = |from_db, to_db| sixty_db_time_s(&levels_db, step_s, from_db, to_db);
    TracedDecay {
        t20_s: read(-5.0, -25.0),
        edt_s: read(0.0, -10.0),
        t30_s: read(-5.0, -35.0),
        step_s,
        energy,
    }
}
