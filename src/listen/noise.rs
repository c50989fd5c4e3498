//! Noise for the late sound: one band after the other, as loud in every 10 ms as in any other, so that one seed serves for
//! every plan and every room.

use num_complex::Complex;
use realfft::RealFftPlanner;

use super::clock::RATE_HZ;
use super::crossover::held_back_treble;
use super::head::{Pickup, Sphere};
use crate::bands::{BAND_1K, BANDS, exact_hz};
use crate::chance::Draw;

/// Samples of a slice: 10 ms.
pub const SLICE: usize = 480;

/// Samples after which the noise repeats: 2.56 s, when the late sound of a home is gone.
pub const PERIOD: usize = 256 * SLICE;

/// Speed of sound for which the ears' likeness holds, m/s; a few °C move it by less than it is known.
const SPEED_OF_SOUND_M_PER_S: f64 = 343.2;

/// A slice that happens to be nearly silent is raised by no more than this factor of its energy.
const MOST_RAISED: f64 = 30.0;

/// Rounds of evening out: a factor that goes straight between slices leaves some unevenness, less each time.
const ROUNDS: usize = 2;

/// How often the noise of a band changes, at least, within what is evened out.
const CHANGES: f64 = 4.0;

/// Seed of the noise; any number.
const SEED: u64 = 0x5EA7_4A2D;

/// Noise at a pickup, band by band, made when it is first asked for.
pub struct Noise {
    pickup: Pickup,
    sphere: Sphere,
    bands: Vec<Option<Vec<Vec<f32>>>>,
    /// Per band, energy at a channel re that without a head.
    loudness: [f64; BANDS],
}

impl Noise {
    /// For a pickup.
    #[must_use]
    pub fn new(pickup: Pickup) -> Self {
        let sphere = Sphere::new(SPEED_OF_SOUND_M_PER_S);
        let loudness = |band: usize| match pickup {
            Pickup::Point => 1.0,
            Pickup::Head => sphere.from_everywhere(exact_hz(band)).0,
        };
        Self {
            pickup,
            loudness: std::array::from_fn(loudness),
            sphere,
            bands: vec![None; BANDS],
        }
    }

    /// What stands at the seat.
    #[must_use]
    pub fn pickup(&self) -> Pickup {
        self.pickup
    }

    /// Energy of sound from everywhere at a channel in a band, re that at a point.
    #[must_use]
    pub fn loudness(&self, band: usize) -> f64 {
        self.loudness[band]
    }

    /// The noise of one band at each channel, [`PERIOD`] samples that join end to start; all bands together would be white
    /// of variance 1 before the head.
    ///
    /// Two ears hear it as alike as they hear sound from everywhere.
    pub fn band(&mut self, band: usize) -> &[Vec<f32>] {
        let made = self.bands[band].take();
        let made = made.unwrap_or_else(|| self.make(band));
        self.bands[band].insert(made)
    }

    fn make(&self, band: usize) -> Vec<Vec<f32>> {
        let (from, to) = bins(band);
        let mut channels = vec![vec![Complex::<f32>::ZERO; PERIOD / 2 + 1]; self.pickup.channels()];
        let mut power = 0.0;
        for bin in from..to {
            let (loud, heard) = self.heard(band, bin);
            for (channel, value) in channels.iter_mut().zip(heard) {
                channel[bin] = value;
            }
            power += 2.0 * loud * loud;
        }
        let slices = slices(band, 1);
        let inverse = RealFftPlanner::<f32>::new().plan_fft_inverse(PERIOD);
        let even = |mut spectrum: Vec<Complex<f32>>| {
            let mut samples = vec![0.0; PERIOD];
            // It fails for wrong lengths only, and those are its own.
            let _ = inverse.process(&mut spectrum, &mut samples);
            for _ in 0..ROUNDS {
                even_out(&mut samples, power, slices * SLICE / 2);
            }
            samples
        };
        channels.into_iter().map(even).collect()
    }

    /// Size of a band's noise at a bin, and what each channel hears there.
    fn heard(&self, band: usize, bin: usize) -> (f64, [Complex<f32>; 2]) {
        let hz = bin as f64 * RATE_HZ / PERIOD as f64;
        let size = (mask(hz, band).sqrt() * held_back_treble(hz)) / (PERIOD as f64).sqrt();
        let [one, other] = ["one", "other"].map(|name| unit(name, bin));
        match self.pickup {
            Pickup::Point => (size, [one * size as f32; 2]),
            Pickup::Head => {
                let (energy, alike) = self.sphere.from_everywhere(hz);
                let loud = size * energy.sqrt();
                let sum = one * (loud * (0.5 + 0.5 * alike).sqrt()) as f32;
                let difference = other * (loud * (0.5 - 0.5 * alike).max(0.0).sqrt()) as f32;
                (loud, [sum + difference, sum - difference])
            }
        }
    }
}

/// A complex number of size 1 and chance phase, twice the same for the same name and bin.
fn unit(name: &str, bin: usize) -> Complex<f32> {
    let draw = Draw {
        seed: SEED,
        number: bin as u64,
    };
    let turn = std::f64::consts::TAU * draw.uniform(name);
    Complex::new(turn.cos() as f32, turn.sin() as f32)
}

/// Bins of a band, its fades to the neighbours included.
fn bins(band: usize) -> (usize, usize) {
    let per_hz = PERIOD as f64 / RATE_HZ;
    let from = if band == 0 {
        1
    } else {
        (exact_hz(band) * 10f64.powf(-0.1) * per_hz) as usize
    };
    let to = if band + 1 == BANDS {
        PERIOD / 2
    } else {
        (exact_hz(band) * 10f64.powf(0.1) * per_hz) as usize + 1
    };
    (from, to)
}

/// Share of the energy at a frequency that belongs to a band: 1 near its middle, fading to the next over the quarter of the way
/// between both middles that lies about the edge. Over all bands the shares sum to 1; the outer ones go on to the ends.
fn mask(frequency_hz: f64, band: usize) -> f64 {
    let place = BAND_1K as f64 + 10.0 * (frequency_hz / 1000.0).log10() - band as f64;
    if (band == 0 && place < 0.0) || (band + 1 == BANDS && place > 0.0) {
        return 1.0;
    }
    let x = (4.0 * (0.625 - place.abs())).clamp(0.0, 1.0);
    x * x * (3.0 - 2.0 * x)
}

/// Slices of 10 ms over which so many thirds about a band are evened out: more where they are so narrow that their noise hardly
/// changes within one, as evening that out would widen them. A power of two, so that they fill the period.
pub fn slices(band: usize, thirds: usize) -> usize {
    let half = 0.05 * thirds as f64;
    let bandwidth_hz = exact_hz(band) * (10f64.powf(half) - 10f64.powf(-half));
    let needed = (CHANGES * RATE_HZ / bandwidth_hz / SLICE as f64).ceil() as usize;
    needed.next_power_of_two().min(32)
}

/// Gives every part the same mean square, without a step between them: the factor goes straight from the start of one to
/// that of the next, each read with a smooth window over both parts beside it.
fn even_out(samples: &mut [f32], power: f64, slice: usize) {
    let count = samples.len() / slice;
    let window: Vec<f64> = (0..2 * slice)
        .map(|n| {
            (std::f64::consts::PI * (n as f64 + 0.5) / (2 * slice) as f64)
                .sin()
                .powi(2)
        })
        .collect();
    let factor = |middle: usize| {
        let start = (middle + count - 1) % count * slice;
        let mean = window.iter().enumerate().map(|(n, weight)| {
            let sample = f64::from(samples[(start + n) % samples.len()]);
            weight * sample * sample
        });
        let mean = mean.sum::<f64>() / slice as f64;
        (power / mean.max(power / MOST_RAISED)).sqrt()
    };
    let factors: Vec<f64> = (0..count).map(factor).collect();
    for (number, part) in samples.chunks_exact_mut(slice).enumerate() {
        let (near, far) = (factors[number], factors[(number + 1) % count]);
        for (n, sample) in part.iter_mut().enumerate() {
            let factor = near + (far - near) * n as f64 / slice as f64;
            *sample *= factor as f32;
        }
    }
}
