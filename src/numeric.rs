//! Numerical tools without acoustics in them: an exponential, a logarithm, decibels, short lists.

use std::cmp::Ordering;

use wide::bytemuck::cast;
use wide::{f64x4, i64x4};

/// Sorts a short list by insertion; equals keep their order.
///
/// The standard library's sort is a matter of 2 kB of the page's module for every type that is sorted, and no faster for
/// the hundred arrivals at a seat.
pub fn sort_few<T>(list: &mut [T], compare: impl Fn(&T, &T) -> Ordering) {
    for next in 1..list.len() {
        for place in (0..next).rev() {
            if compare(&list[place], &list[place + 1]).is_le() {
                break;
            }
            list.swap(place, place + 1);
        }
    }
}

/// e to the power of x, within 3e-13 of the true value's size, for |x| ≤ 700; beyond that it stays at the ends.
///
/// ```text
/// x = k ln 2 + r,  |r| ≤ ½ ln 2,   exp(x) = 2^k (1 + r + r²/2! + … + r¹⁰/10!)
/// ```
///
/// Without branches or calls, so that loops of it run in vectors; the WebAssembly target's own is a call of many branches.
#[inline(always)]
#[must_use]
pub fn exp(x: f64) -> f64 {
    let x = x.clamp(-700.0, 700.0);
    let shifted = x * std::f64::consts::LOG2_E + ROUNDING;
    let k = shifted - ROUNDING;
    let r = x - k * LN_2_HIGH - k * LN_2_LOW;
    let mut sum = 1.0 / 3_628_800.0;
    for divisor in EXP_COEFFICIENTS {
        sum = sum * r + divisor;
    }
    sum * f64::from_bits(shifted.to_bits().wrapping_add(1023) << 52)
}

/// [`exp`] of four numbers.
#[inline(always)]
#[must_use]
pub fn exp_of_four(x: f64x4) -> f64x4 {
    let x = x
        .fast_max(f64x4::splat(-700.0))
        .fast_min(f64x4::splat(700.0));
    let shifted = x * std::f64::consts::LOG2_E + ROUNDING;
    let k = shifted - ROUNDING;
    let r = x - k * LN_2_HIGH - k * LN_2_LOW;
    let mut sum = f64x4::splat(1.0 / 3_628_800.0);
    for divisor in EXP_COEFFICIENTS {
        sum = sum * r + divisor;
    }
    let power: i64x4 = (cast::<_, i64x4>(shifted) + i64x4::splat(1023)) << 52;
    sum * cast::<_, f64x4>(power)
}

/// 1.5 · 2⁵²: adding it leaves a number's whole part in the lowest bits.
pub const ROUNDING: f64 = 6_755_399_441_055_744.0;

/// ln 2 in two parts, the first with zeros at its end, so that its multiples are exact.
const LN_2_HIGH: f64 = 0.693_147_180_369_123_8;
const LN_2_LOW: f64 = 1.908_214_929_270_587_7e-10;

/// 1/9! … 1/0!.
const EXP_COEFFICIENTS: [f64; 10] = [
    1.0 / 362_880.0,
    1.0 / 40_320.0,
    1.0 / 5_040.0,
    1.0 / 720.0,
    1.0 / 120.0,
    1.0 / 24.0,
    1.0 / 6.0,
    0.5,
    1.0,
    1.0,
];

/// Logarithm to base two without a call; for x > 0 that is no subnormal.
///
/// ```text
/// x = 2^k m,  √½ ≤ m < √2,   lb x = k + 2/ln 2 (s + s³/3 + … + s¹⁷/17),   s = (m − 1) / (m + 1)
/// ```
///
/// # Accuracy
/// 1e-14, or that of the result.
#[must_use]
pub fn log2(x: f64) -> f64 {
    const MANTISSA: u64 = (1 << 52) - 1;
    const HALF: u64 = 1022 << 52;
    let half = f64::from_bits(x.to_bits() & MANTISSA | HALF);
    let exponent = ((x.to_bits() >> 52) & 0x7ff) as i32 - 1022;
    let (m, k) = if half < std::f64::consts::FRAC_1_SQRT_2 {
        (2.0 * half, exponent - 1)
    } else {
        (half, exponent)
    };
    let s = (m - 1.0) / (m + 1.0);
    let s2 = s * s;
    let mut series = 1.0 / 17.0;
    for divisor in ODD_RECIPROCALS {
        series = series * s2 + divisor;
    }
    f64::from(k) + 2.0 * std::f64::consts::LOG2_E * s * series
}

/// 1/15 … 1/1.
const ODD_RECIPROCALS: [f64; 8] = [
    1.0 / 15.0,
    1.0 / 13.0,
    1.0 / 11.0,
    1.0 / 9.0,
    1.0 / 7.0,
    0.2,
    1.0 / 3.0,
    1.0,
];

/// Weights of the third-order polynomial through points at 0, 1, 2, 3.
///
/// # Source
/// Lagrange's formula, Abramowitz & Stegun 25.2.13.
#[must_use]
pub fn through_four(x: f64) -> [f64; 4] {
    let (a, b, c) = (x - 1.0, x - 2.0, x - 3.0);
    [
        -a * b * c / 6.0,
        x * b * c / 2.0,
        -x * a * c / 2.0,
        x * a * b / 6.0,
    ]
}

/// A polynomial by its coefficients in rising powers.
#[must_use]
pub fn polynomial(t: f64, coefficients: &[f64]) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * t + c)
}

/// The larger of two numbers that are none of them NaN: one comparison, where the standard library's `max`, which has NaN in
/// mind, is a call of a function in WebAssembly.
#[inline]
#[must_use]
pub const fn larger(a: f64, b: f64) -> f64 {
    if a > b { a } else { b }
}

/// Level of an energy ratio, dB; −∞ for none.
///
/// # Accuracy
/// 1e-12 dB.
#[inline]
#[must_use]
pub fn energy_to_db(ratio: f64) -> f64 {
    if ratio.is_normal() && ratio > 0.0 {
        DB_PER_DOUBLING * log2(ratio)
    } else {
        10.0 * ratio.log10()
    }
}

/// 10 lg 2, dB.
const DB_PER_DOUBLING: f64 = 3.010_299_956_639_812;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_short_list_is_sorted_as_the_standard_library_sorts_it() {
        let mut chance = 12_345_u32;
        for length in 0..40 {
            let mut list: Vec<(u32, usize)> = (0..length)
                .map(|place| {
                    chance = chance.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                    (chance >> 29, place)
                })
                .collect();
            let mut expected = list.clone();
            expected.sort_by_key(|entry| entry.0);
            sort_few(&mut list, |a, b| a.0.cmp(&b.0));
            assert_eq!(list, expected);
        }
    }

    #[test]
    fn the_logarithm_is_that_of_the_standard_library() {
        for step in -3000..3000 {
            let x = (f64::from(step) * 0.0371).exp();
            assert!(
                (log2(x) - x.log2()).abs() < 1e-14 * (1.0 + x.log2().abs()),
                "{x}"
            );
            assert!((energy_to_db(x) - 10.0 * x.log10()).abs() < 1e-12, "{x}");
        }
    }

    #[test]
    fn the_exponential_is_that_of_the_standard_library() {
        for i in -140_000..=140_000 {
            let x = f64::from(i) * 0.005;
            assert!((exp(x) / x.exp() - 1.0).abs() < 3e-13, "exp({x})");
            let four = exp_of_four(f64x4::new([0.0, x, 1.0, -x])).to_array();
            assert_eq!(four, [1.0, exp(x), exp(1.0), exp(-x)]);
        }
        assert_eq!(exp(0.0), 1.0);
        assert!(exp(-1e9) > 0.0 && exp(1e9).is_finite());
    }
}
