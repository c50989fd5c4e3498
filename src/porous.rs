//! What layers of porous material and air in front of a hard wall do to a plane wave: impedance, reflection, absorption
//! by frequency and angle.
//!
//! Method: Miki's model of a fibrous material, and the oblique transfer matrix of a stack of layers, sound travelling
//! sideways inside them (bulk reaction), in the gaps too. Left out: the size of the piece, the frame's own movement, facings.
//! Time convention e^{+jωt}, so that impedances and wave numbers have negative imaginary parts.

use num_complex::Complex64;

use crate::air::Air;
use crate::bands::{Banded, exact_hz};

/// One layer of a stack, listed from the room's side to the hard wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Layer {
    /// A fibrous or open-cell slab.
    Porous {
        /// Thickness, m, ≥ 0.
        thickness_m: f64,
        /// Airflow resistivity, Pa s/m², > 0.
        flow_resistivity_pa_s_per_m2: f64,
    },
    /// Air.
    Gap {
        /// Thickness, m, ≥ 0.
        thickness_m: f64,
    },
}

impl Layer {
    /// Thickness, m.
    #[must_use]
    pub fn thickness_m(&self) -> f64 {
        match *self {
            Self::Porous { thickness_m, .. } | Self::Gap { thickness_m } => thickness_m,
        }
    }
}

/// Largest angle of incidence in the random-incidence integral.
///
/// # Source
/// Common practice for a diffuse field in front of a wall (for instance Bies, Hansen & Howard, Engineering Noise Control):
/// 78°, from memory.
const LARGEST_INCIDENCE_RAD: f64 = 78.0 * std::f64::consts::PI / 180.0;

/// Smallest cosine of the angle of incidence that is told from grazing, where the impedance of a gap has no finite value.
const SMALLEST_COSINE: f64 = 1e-6;

/// Lowest frequency that the formulas are asked about, Hz; Miki's powers have no value at 0.
const LOWEST_HZ: f64 = 0.1;

/// Nodes and weights of the 6-point Gauss-Legendre rule on −1 … 1, the positive half.
///
/// # Source
/// Abramowitz & Stegun, Handbook of Mathematical Functions (1964), Table 25.4, n = 6.
const GAUSS_HALF: [(f64, f64); 3] = [
    (0.238_619_186_083_197, 0.467_913_934_572_691),
    (0.661_209_386_466_265, 0.360_761_573_048_139),
    (0.932_469_514_203_152, 0.171_324_492_379_170),
];

/// Periods of a gap's resonance over angle that one set of Gauss points may span; trades time for accuracy.
const PERIODS_PER_SET: f64 = 0.5;

/// Most sets of Gauss points in one integral, so that no gap, however deep, can stall a caller.
const MOST_SETS: f64 = 32.0;

/// What a wave of one frequency meets in one layer, before the angle is known.
#[derive(Clone, Copy)]
struct Medium {
    thickness_m: f64,
    /// Characteristic impedance over that of air.
    impedance: Complex64,
    /// Square of the wave number over that in air.
    index_squared: Complex64,
}

impl Medium {
    /// The medium of a layer at a frequency.
    ///
    /// ```text
    /// y = f / σ
    /// Zc / (ρ c) = 1 + (0.070 − j 0.107) y^−0.632
    /// k / k0     = 1 + (0.109 − j 0.160) y^−0.618
    /// ```
    ///
    /// # Valid
    /// Stated for 0.01 < y < 1; well behaved below, where it is extrapolation. Fibrous materials of porosity near 1.
    ///
    /// # Source
    /// Miki, J. Acoust. Soc. Jpn (E) 11 (1990), Eq. (30) to (34).
    fn of(layer: Layer, frequency_hz: f64) -> Self {
        let flow_resistivity = match layer {
            Layer::Porous {
                flow_resistivity_pa_s_per_m2,
                ..
            } => flow_resistivity_pa_s_per_m2,
            Layer::Gap { .. } => 0.0,
        };
        let resistance = flow_resistivity / frequency_hz;
        let index = 1.0 + Complex64::new(0.109, -0.160) * resistance.powf(0.618);
        Self {
            thickness_m: layer.thickness_m(),
            impedance: 1.0 + Complex64::new(0.070, -0.107) * resistance.powf(0.632),
            index_squared: index * index,
        }
    }
}

/// Pressure and normal velocity (times ρ c of the air) at a plane parallel to the wall, to a common factor.
///
/// Carried as a pair, not as their ratio: the ratio is infinite at the wall and where a gap resonates.
#[derive(Clone, Copy)]
struct PlaneState {
    pressure: Complex64,
    velocity: Complex64,
}

impl PlaneState {
    /// At the hard wall: the air does not move.
    const WALL: Self = Self {
        pressure: Complex64::ONE,
        velocity: Complex64::ZERO,
    };

    /// The state at the front of a layer from that at its back.
    ///
    /// ```text
    /// kz = √(k² − k0² sin²θ),  Zp = Zc k / kz
    /// p' = p cos(kz d) + j Zp v sin(kz d)
    /// v' = v cos(kz d) + j p sin(kz d) / Zp
    /// ```
    ///
    /// Both are written with E = exp(−2 j kz d), |E| ≤ 1, and the common factor exp(j kz d) / 2 is dropped: no cosine of a
    /// large imaginary argument can overflow.
    fn through(self, medium: &Medium, sine_squared: f64, wave_number_per_m: f64) -> Self {
        let normal_index = (medium.index_squared - sine_squared).sqrt();
        let impedance = medium.impedance * medium.index_squared.sqrt() / normal_index;
        let phase =
            Complex64::new(0.0, -2.0 * wave_number_per_m * medium.thickness_m) * normal_index;
        let round_trip = phase.exp();
        let (sum, difference) = (1.0 + round_trip, 1.0 - round_trip);
        Self {
            pressure: self.pressure * sum + impedance * self.velocity * difference,
            velocity: self.velocity * sum + self.pressure * difference / impedance,
        }
    }
}

/// A stack at one frequency.
struct Stack {
    /// From the wall to the room.
    media: Vec<Medium>,
    wave_number_per_m: f64,
    /// All gaps together, m.
    gap_m: f64,
}

impl Stack {
    fn new(layers: &[Layer], frequency_hz: f64, air: &Air) -> Self {
        let frequency_hz = frequency_hz.max(LOWEST_HZ);
        Self {
            media: layers
                .iter()
                .rev()
                .map(|&layer| Medium::of(layer, frequency_hz))
                .collect(),
            wave_number_per_m: std::f64::consts::TAU * frequency_hz / air.speed_of_sound_m_per_s,
            gap_m: layers
                .iter()
                .filter(|layer| matches!(layer, Layer::Gap { .. }))
                .map(Layer::thickness_m)
                .sum(),
        }
    }

    /// State at the face of the stack under a wave of this angle.
    fn face(&self, cosine: f64) -> PlaneState {
        let sine_squared = 1.0 - cosine * cosine;
        let step =
            |state: PlaneState, medium| state.through(medium, sine_squared, self.wave_number_per_m);
        self.media.iter().fold(PlaneState::WALL, step)
    }

    /// Held to |R| ≤ 1: far below its range Miki's model can give a trace of energy instead of taking it.
    fn reflection(&self, cosine: f64) -> Complex64 {
        let PlaneState { pressure, velocity } = self.face(cosine);
        let reflected = (pressure * cosine - velocity) / (pressure * cosine + velocity);
        reflected / reflected.norm().max(1.0)
    }

    /// 1 − |R|², written so that nothing cancels when little is absorbed.
    fn absorption(&self, cosine: f64) -> f64 {
        let PlaneState { pressure, velocity } = self.face(cosine);
        let absorbed = 4.0 * cosine * (pressure * velocity.conj()).re;
        (absorbed / (pressure * cosine + velocity).norm_sqr()).clamp(0.0, 1.0)
    }

    /// Paris' integral over x = cos θ, where the resonances of a gap are evenly spaced.
    fn random_incidence_absorption(&self) -> f64 {
        let smallest = LARGEST_INCIDENCE_RAD.cos();
        let sets = self.gauss_sets(1.0 - smallest);
        let half_width = 0.5 * (1.0 - smallest) / f64::from(sets);
        let weighted = |cosine: f64| 2.0 * cosine * self.absorption(cosine);
        let integral: f64 = (0..sets)
            .map(|set| smallest + half_width * f64::from(2 * set + 1))
            .map(|middle| gauss_sum(|node| weighted(middle + half_width * node)) * half_width)
            .sum();
        (integral / (1.0 - smallest * smallest)).clamp(0.0, 1.0)
    }

    /// Sets of Gauss points for a range of cos θ: the resonance of a gap D has the period π / (k0 D) there.
    fn gauss_sets(&self, cosine_range: f64) -> u32 {
        let periods = self.wave_number_per_m * self.gap_m * cosine_range / std::f64::consts::PI;
        (periods / PERIODS_PER_SET).ceil().clamp(1.0, MOST_SETS) as u32
    }
}

/// Integral of `f` over −1 … 1.
fn gauss_sum(f: impl Fn(f64) -> f64) -> f64 {
    GAUSS_HALF
        .iter()
        .map(|&(node, weight)| weight * (f(node) + f(-node)))
        .sum()
}

/// Cosine of an angle of incidence, kept away from grazing.
fn cosine_of(incidence_rad: f64) -> f64 {
    incidence_rad.cos().max(SMALLEST_COSINE)
}

/// Impedance at the face of a stack: pressure over the velocity into the wall.
///
/// ```text
/// hard wall behind a porous layer:  Zs = −j Zp cot(kz d)
/// gap before the hard wall:         Zg = −j (ρ c / cos θ) cot(k0 D cos θ)
/// porous layer before a gap:        Zs = Zp (Zg cos(kz d) + j Zp sin(kz d)) / (Zp cos(kz d) + j Zg sin(kz d))
/// ```
///
/// # Units
/// - `layers`: from the room's side to the wall
/// - `frequency_hz`: Hz, > 0
/// - `incidence_rad`: angle from the normal, 0 … π/2
/// - returns: Pa s/m; infinite for a stack without thickness
///
/// # Source
/// Transfer matrix of layered fluids, for instance Allard & Atalla, Propagation of Sound in Porous Media, 2nd ed. (2009),
/// chapter 11; from memory.
#[must_use]
pub fn surface_impedance(
    layers: &[Layer],
    frequency_hz: f64,
    incidence_rad: f64,
    air: &Air,
) -> Complex64 {
    let PlaneState { pressure, velocity } =
        Stack::new(layers, frequency_hz, air).face(cosine_of(incidence_rad));
    if velocity == Complex64::ZERO {
        return Complex64::new(f64::INFINITY, 0.0);
    }
    pressure / velocity * air.impedance_pa_s_per_m()
}

/// Pressure reflection factor of a stack, referred to its face.
///
/// ```text
/// R = (Zs cos θ − ρ c) / (Zs cos θ + ρ c)
/// ```
///
/// # Units
/// As [`surface_impedance`]; returns a pressure ratio, |R| ≤ 1.
#[must_use]
pub fn reflection(layers: &[Layer], frequency_hz: f64, incidence_rad: f64, air: &Air) -> Complex64 {
    Stack::new(layers, frequency_hz, air).reflection(cosine_of(incidence_rad))
}

/// [`reflection`] at several cosines of the angle of incidence, 0 … 1.
#[must_use]
pub fn reflections(
    layers: &[Layer],
    frequency_hz: f64,
    cosines: &[f64],
    air: &Air,
) -> Vec<Complex64> {
    let stack = Stack::new(layers, frequency_hz, air);
    cosines
        .iter()
        .map(|cosine| stack.reflection(cosine.max(SMALLEST_COSINE)))
        .collect()
}

/// Absorbed share of the energy of a plane wave, 1 − |R|².
///
/// # Units
/// As [`surface_impedance`]; returns an energy ratio, 0 … 1.
#[must_use]
pub fn absorption(layers: &[Layer], frequency_hz: f64, incidence_rad: f64, air: &Air) -> f64 {
    Stack::new(layers, frequency_hz, air).absorption(cosine_of(incidence_rad))
}

/// Absorbed share of the energy of sound from all sides, of an endless surface.
///
/// ```text
/// α = ∫ 2 α(θ) sin θ cos θ dθ / sin² 78°,  θ = 0 … 78°
/// ```
///
/// # Units
/// As [`surface_impedance`]; returns an energy ratio, 0 … 1.
///
/// # Accuracy
/// Quadrature within 0.0015 of the integral for gaps up to 200 mm in all, within 0.006 up to 400 mm (slabs of 10 to 200 mm,
/// 2 to 100 kPa s/m², all bands).
///
/// # Source
/// Paris, Phil. Mag. 5 (1928); the limit of 78° is common practice.
#[must_use]
pub fn random_incidence_absorption(layers: &[Layer], frequency_hz: f64, air: &Air) -> f64 {
    Stack::new(layers, frequency_hz, air).random_incidence_absorption()
}

/// [`random_incidence_absorption`] at the exact centre of every band.
#[must_use]
pub fn absorption_bands(layers: &[Layer], air: &Air) -> Banded {
    Banded::from_fn(|band| random_incidence_absorption(layers, exact_hz(band), air))
}
