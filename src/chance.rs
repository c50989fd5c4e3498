//! Chance without disorder: what a draw does to a thing depends on the draw's number and on the thing's name alone.
//!
//! So the same draws serve every plan, in any order, on any number of workers.

/// One draw of everything that is not known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Draw {
    /// Seed of the whole set of draws.
    pub seed: u64,
    /// Its number in the set.
    pub number: u64,
}

impl Draw {
    /// Uniform on 0 … 1, both ends left out.
    #[must_use]
    pub fn uniform(&self, name: &str) -> f64 {
        let bits = mixed(mixed(self.seed ^ hashed(name)).wrapping_add(self.number));
        ((bits >> 11) as f64 + 0.5) / (1u64 << 53) as f64
    }

    /// Normal with mean 0 and standard deviation 1.
    ///
    /// ```text
    /// z = √(−2 ln u) cos(2π v)
    /// ```
    ///
    /// # Source
    /// Box & Muller, A note on the generation of random normal deviates, Ann. Math. Stat. 29 (1958) 610–611.
    #[must_use]
    pub fn normal(&self, name: &str) -> f64 {
        let turned = Self {
            seed: self.seed.rotate_left(32) ^ TURN,
            ..*self
        };
        let radius = (-2.0 * self.uniform(name).ln()).sqrt();
        radius * (std::f64::consts::TAU * turned.uniform(name)).cos()
    }
}

/// Any odd pattern that sets a second stream apart from the first.
const TURN: u64 = 0xA5A5_5A5A_C3C3_3C3D;

/// 64 bits of a name.
///
/// # Source
/// Fowler, Noll & Vo, FNV-1a (IETF draft, The FNV Non-Cryptographic Hash Algorithm).
#[must_use]
pub fn hashed(name: &str) -> u64 {
    name.bytes().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    })
}

/// The output step of the SplitMix64 generator.
///
/// # Source
/// Steele, Lea & Flood, Fast splittable pseudorandom number generators, OOPSLA 2014.
fn mixed(state: u64) -> u64 {
    let z = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// Standard deviations from the middle to either end of an 8-in-10 range.
pub const EIGHT_IN_TEN: f64 = 1.281_551_565_544_6;

/// The value below which a share of the sorted values lies, straight between neighbours; NaN for none.
///
/// # Units
/// - `sorted`: ascending
/// - `share`: 0 … 1
#[must_use]
pub fn quantile(sorted: &[f64], share: f64) -> f64 {
    let Some(last) = sorted.len().checked_sub(1) else {
        return f64::NAN;
    };
    let place = share * last as f64;
    let below = (place as usize).min(last);
    let above = (below + 1).min(last);
    let part = place - below as f64;
    if part == 0.0 {
        return sorted[below];
    }
    sorted[below] + part * (sorted[above] - sorted[below])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn normal_draws_have_the_moments_of_a_normal_distribution() {
        let draws: Vec<f64> = (0..20_000)
            .map(|number| Draw { seed: 7, number }.normal("carpet"))
            .collect();
        let count = draws.len() as f64;
        let mean = draws.iter().sum::<f64>() / count;
        let variance = draws.iter().map(|z| (z - mean).powi(2)).sum::<f64>() / count;
        let inside = draws.iter().filter(|z| z.abs() < EIGHT_IN_TEN).count() as f64 / count;
        assert!(
            mean.abs() < 0.02 && (variance - 1.0).abs() < 0.03,
            "{mean} {variance}"
        );
        assert!((inside - 0.8).abs() < 0.01, "{inside}");
    }

    #[test]
    fn names_and_numbers_are_independent_of_one_another() {
        let product = |a: &str, b: &str, shift: u64| {
            (0..20_000)
                .map(|number| {
                    Draw { seed: 7, number }.normal(a)
                        * Draw {
                            seed: 7,
                            number: number + shift,
                        }
                        .normal(b)
                })
                .sum::<f64>()
                / 20_000.0
        };
        assert!(product("carpet", "plaster", 0).abs() < 0.03);
        assert!(product("carpet", "carpet", 1).abs() < 0.03);
        assert!((product("carpet", "carpet", 0) - 1.0).abs() < 0.03);
    }

    #[test]
    fn quantiles_of_an_even_row_lie_where_they_should() {
        let row: Vec<f64> = (0..=10).map(f64::from).collect();
        assert_eq!(quantile(&row, 0.1), 1.0);
        assert!((quantile(&row, 0.25) - 2.5).abs() < 1e-12);
        assert!(quantile(&[], 0.5).is_nan());
    }
}
