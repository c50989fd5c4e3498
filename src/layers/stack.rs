//! A stack of layers at one frequency: the state of a plane wave at its face, layer by layer from the wall.

use std::f64::consts::{PI, TAU};

use num_complex::Complex64;

use super::layer::Layer;
use super::medium::Medium;
use super::opening::Openings;
use crate::air::Air;

/// Largest angle of incidence in the random-incidence integral.
///
/// # Source
/// Common practice for a diffuse field in front of a wall (for instance Bies, Hansen & Howard, Engineering Noise Control):
/// 78°, from memory.
const LARGEST_INCIDENCE_RAD: f64 = 78.0 * PI / 180.0;

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

/// Least sets of Gauss points for a build that resonates at one angle more than at the next.
const RESONANT_SETS: f64 = 3.0;

/// Most sets of Gauss points in one integral, so that no gap, however deep, can stall a caller.
const MOST_SETS: f64 = 32.0;

/// What a wave meets on its way through one layer.
#[derive(Clone, Copy)]
enum Element {
    /// It travels.
    Medium(Medium),
    /// A thin sheet is in its way: pressure across it over velocity, over ρ c.
    Sheet(Complex64),
}

/// Pressure and normal velocity (times ρ c of the air) at a plane parallel to the wall, to a common factor.
///
/// Carried as a pair, not as their ratio: the ratio is infinite at the wall and where a gap resonates.
#[derive(Clone, Copy)]
pub(super) struct PlaneState {
    /// Pressure.
    pub pressure: Complex64,
    /// Velocity towards the wall, times ρ c.
    pub velocity: Complex64,
}

impl PlaneState {
    /// At the hard wall: the air does not move.
    const WALL: Self = Self {
        pressure: Complex64::ONE,
        velocity: Complex64::ZERO,
    };

    /// The state at the front of a layer from that at its back.
    fn through(self, element: &Element, sine_squared: f64, wave_number_per_m: f64) -> Self {
        match element {
            Element::Medium(medium) => self.across(medium, sine_squared, wave_number_per_m),
            Element::Sheet(impedance) => Self {
                pressure: self.pressure + impedance * self.velocity,
                velocity: self.velocity,
            },
        }
    }

    /// Through air or porous material.
    ///
    /// ```text
    /// kz = √(k² − k0² sin²θ),  Zp = Zc k / kz
    /// p' = p cos(kz d) + j Zp v sin(kz d)
    /// v' = v cos(kz d) + j p sin(kz d) / Zp
    /// ```
    ///
    /// Both are written with E = exp(−2 j kz d), |E| ≤ 1, and the common factor exp(j kz d) / 2 is dropped: no cosine of a
    /// large imaginary argument can overflow.
    fn across(self, medium: &Medium, sine_squared: f64, wave_number_per_m: f64) -> Self {
        let normal_index = (medium.index_squared - sine_squared).sqrt();
        let impedance = medium.density_ratio() / normal_index;
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
pub(super) struct Stack {
    /// From the wall to the room.
    elements: Vec<Element>,
    wave_number_per_m: f64,
    /// All gaps together, m.
    gap_m: f64,
    resonates: bool,
}

impl Stack {
    pub fn new(layers: &[Layer], frequency_hz: f64, air: &Air) -> Self {
        let frequency_hz = frequency_hz.max(LOWEST_HZ);
        let gaps = layers
            .iter()
            .filter(|layer| matches!(layer, Layer::Gap { .. }));
        Self {
            elements: (0..layers.len())
                .rev()
                .map(|i| element(layers, i, frequency_hz, air))
                .collect(),
            wave_number_per_m: TAU * frequency_hz / air.speed_of_sound_m_per_s,
            gap_m: gaps.map(Layer::thickness_m).sum(),
            resonates: layers.iter().any(Layer::can_resonate),
        }
    }

    /// State at the face of the stack under a wave of this angle.
    pub fn face(&self, cosine: f64) -> PlaneState {
        let sine_squared = 1.0 - cosine * cosine;
        let step = |state: PlaneState, element| {
            state.through(element, sine_squared, self.wave_number_per_m)
        };
        self.elements.iter().fold(PlaneState::WALL, step)
    }

    /// Held to |R| ≤ 1: far below its range Miki's model can give a trace of energy instead of taking it.
    pub fn reflection(&self, cosine: f64) -> Complex64 {
        let PlaneState { pressure, velocity } = self.face(cosine);
        let reflected = (pressure * cosine - velocity) / (pressure * cosine + velocity);
        reflected / reflected.norm().max(1.0)
    }

    /// 1 − |R|², written so that nothing cancels when little is absorbed.
    pub fn absorption(&self, cosine: f64) -> f64 {
        let PlaneState { pressure, velocity } = self.face(cosine);
        let absorbed = 4.0 * cosine * (pressure * velocity.conj()).re;
        (absorbed / (pressure * cosine + velocity).norm_sqr()).clamp(0.0, 1.0)
    }

    /// Paris' integral over x = cos θ, where the resonances of a gap are evenly spaced.
    pub fn random_incidence_absorption(&self) -> f64 {
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
        let periods = self.wave_number_per_m * self.gap_m * cosine_range / PI;
        let least = if self.resonates { RESONANT_SETS } else { 1.0 };
        (periods / PERIODS_PER_SET).ceil().clamp(least, MOST_SETS) as u32
    }
}

/// What a wave meets in the layer at `i` of a stack.
fn element(layers: &[Layer], i: usize, frequency_hz: f64, air: &Air) -> Element {
    let sheet = |impedance: Complex64| Element::Sheet(impedance / air.impedance_pa_s_per_m());
    let inertia = Complex64::new(0.0, TAU * frequency_hz);
    match layers[i] {
        Layer::Gap { thickness_m } => Element::Medium(Medium::air(thickness_m)),
        Layer::Porous {
            thickness_m,
            flow_resistivity_pa_s_per_m2,
        } => Element::Medium(Medium::porous(
            thickness_m,
            flow_resistivity_pa_s_per_m2,
            frequency_hz,
        )),
        Layer::Membrane {
            mass_kg_per_m2,
            loss,
        } => sheet(mass_kg_per_m2 * (inertia + TAU * frequency_hz * loss)),
        Layer::Board {
            thickness_m,
            density_kg_per_m3,
        } => sheet(thickness_m * density_kg_per_m3 * inertia),
        Layer::Cloth {
            flow_resistance_pa_s_per_m,
            mass_kg_per_m2,
        } => {
            let held = flow_resistance_pa_s_per_m / share_passed(layers, i);
            sheet(mass_kg_per_m2.map_or(held.into(), |mass| beside(held, inertia * mass)))
        }
        Layer::Perforated { .. } | Layer::Slotted { .. } => {
            sheet(board_with_openings(layers, i, frequency_hz, air))
        }
    }
}

/// A resistance and a mass that are driven by one pressure: the air goes through the cloth or the cloth goes along.
fn beside(resistance: f64, mass: Complex64) -> Complex64 {
    resistance * mass / (resistance + mass)
}

/// Share of a cloth that air can pass: on a board with openings, the open share.
///
/// # Source
/// Ingard & Bolt, J. Acoust. Soc. Am. 23 (1951) 533–540: material that touches the holes works through them; from memory.
fn share_passed(layers: &[Layer], i: usize) -> f64 {
    let touching = [i.checked_sub(1), Some(i + 1)].into_iter().flatten();
    touching
        .filter_map(|at| Openings::of(layers.get(at)?))
        .map(|openings| openings.share)
        .fold(1.0, f64::min)
}

/// Impedance of a perforated or slotted board with what touches it, Pa s/m; nothing for any other layer.
fn board_with_openings(layers: &[Layer], i: usize, frequency_hz: f64, air: &Air) -> Complex64 {
    let Some(openings) = Openings::of(&layers[i]) else {
        return Complex64::ZERO;
    };
    let density_beside = |next: Option<&Layer>| match next {
        Some(&Layer::Porous {
            thickness_m,
            flow_resistivity_pa_s_per_m2,
        }) => {
            let medium = Medium::porous(thickness_m, flow_resistivity_pa_s_per_m2, frequency_hz);
            openings.density_beside(medium.density_ratio(), thickness_m)
        }
        _ => Complex64::ONE,
    };
    let is_cloth = |layer: &&Layer| matches!(layer, Layer::Cloth { .. });
    let towards_room = layers[..i].iter().rev().find(|layer| !is_cloth(layer));
    let towards_wall = layers[i + 1..].iter().find(|layer| !is_cloth(layer));
    let beside = [density_beside(towards_room), density_beside(towards_wall)];
    openings.impedance(frequency_hz, air.density_kg_per_m3, beside)
}

/// Integral of `f` over −1 … 1.
fn gauss_sum(f: impl Fn(f64) -> f64) -> f64 {
    GAUSS_HALF
        .iter()
        .map(|&(node, weight)| weight * (f(node) + f(-node)))
        .sum()
}
