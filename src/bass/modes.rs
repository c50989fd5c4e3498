//! The notes of a box with rigid walls: how many, which, and their shapes.

use std::cmp::Ordering;
use std::f64::consts::{PI, SQRT_2};

use glam::DVec3;

/// One note of the rigid box.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mode {
    /// Half waves along x, y and z.
    pub n: [u32; 3],
    /// Frequency, Hz.
    pub frequency_hz: f64,
}

impl Mode {
    /// Frequency of a note.
    ///
    /// ```text
    /// f = (c / 2) √((nx/Lx)² + (ny/Ly)² + (nz/Lz)²)
    /// ```
    ///
    /// # Source
    /// Kuttruff, Room Acoustics, chapter 3; from memory.
    #[must_use]
    pub fn new(n: [u32; 3], size_m: DVec3, speed_of_sound_m_per_s: f64) -> Self {
        let per_m = DVec3::from_array(n.map(f64::from)) / size_m;
        Self {
            n,
            frequency_hz: 0.5 * speed_of_sound_m_per_s * per_m.length(),
        }
    }

    /// Pressure of the note at a point over its largest one: −1 … 1.
    ///
    /// ```text
    /// ψ = cos(nx π x / Lx) cos(ny π y / Ly) cos(nz π z / Lz)
    /// ```
    #[must_use]
    pub fn shape(&self, point_m: DVec3, size_m: DVec3) -> f64 {
        (0..3)
            .map(|axis| (PI * f64::from(self.n[axis]) * point_m[axis] / size_m[axis]).cos())
            .product()
    }

    /// Order of frequency; notes that share a pitch in the order of their half waves.
    #[must_use]
    pub fn by_frequency(&self, other: &Self) -> Ordering {
        let pitch = self.frequency_hz.total_cmp(&other.frequency_hz);
        pitch.then(self.n.cmp(&other.n))
    }

    /// Along how many axes it has half waves: 1 axial, 2 tangential, 3 oblique.
    #[must_use]
    pub fn axes(&self) -> usize {
        self.n.iter().filter(|&&n| n > 0).count()
    }
}

/// Value at a coordinate of a shape along one axis, its square integrating to 1 over the axis.
///
/// ```text
/// φ_0 = 1/√L,   φ_n = √(2/L) cos(n π x / L)
/// ```
#[must_use]
pub fn axis_shape(n: u32, at_m: f64, length_m: f64) -> f64 {
    let scale = length_m.sqrt().recip();
    if n == 0 {
        scale
    } else {
        scale * SQRT_2 * (PI * f64::from(n) * at_m / length_m).cos()
    }
}

/// Every note of a rigid box up to a frequency, lowest first; the constant pressure (0, 0, 0) leads.
#[must_use]
pub fn modes_up_to(size_m: DVec3, speed_of_sound_m_per_s: f64, highest_hz: f64) -> Vec<Mode> {
    let mut found = Vec::new();
    for_each_up_to(size_m, speed_of_sound_m_per_s, highest_hz, |mode| {
        found.push(mode);
    });
    found.sort_by(Mode::by_frequency);
    found
}

/// Meets every note up to a frequency, in no order of frequency.
pub(super) fn for_each_up_to(
    size_m: DVec3,
    speed_of_sound_m_per_s: f64,
    highest_hz: f64,
    mut meet: impl FnMut(Mode),
) {
    let most = size_m * (2.0 * highest_hz / speed_of_sound_m_per_s);
    let count = |axis: usize, left: f64| (most[axis] * left.max(0.0).sqrt()) as u32;
    let taken = |axis: usize, n: u32| (f64::from(n) / most[axis].max(f64::MIN_POSITIVE)).powi(2);
    for nx in 0..=count(0, 1.0) {
        let left = 1.0 - taken(0, nx);
        for ny in 0..=count(1, left) {
            for nz in 0..=count(2, left - taken(1, ny)) {
                meet(Mode::new([nx, ny, nz], size_m, speed_of_sound_m_per_s));
            }
        }
    }
}

/// Expected number of notes below a frequency.
///
/// ```text
/// N = (4π/3) V (f/c)³ + (π/4) S (f/c)² + (L/8) (f/c),   L = 4 (Lx + Ly + Lz)
/// ```
///
/// # Source
/// Kuttruff, Room Acoustics, chapter 3 (after Bolt and Maa); from memory.
#[must_use]
pub fn expected_count(size_m: DVec3, speed_of_sound_m_per_s: f64, frequency_hz: f64) -> f64 {
    let per_m = frequency_hz / speed_of_sound_m_per_s;
    let (x, y, z) = (size_m.x, size_m.y, size_m.z);
    let volume = 4.0 * PI / 3.0 * x * y * z * per_m.powi(3);
    let area = PI / 4.0 * 2.0 * (x * y + x * z + y * z) * per_m.powi(2);
    volume + area + 0.5 * (x + y + z) * per_m
}

/// Frequency below which that many notes are expected, Hz.
#[must_use]
pub fn frequency_of_count(size_m: DVec3, speed_of_sound_m_per_s: f64, count: f64) -> f64 {
    let expected = |hz: f64| expected_count(size_m, speed_of_sound_m_per_s, hz);
    let (mut low_hz, mut high_hz) = (0.0, 1.0);
    while expected(high_hz) < count {
        high_hz *= 2.0;
    }
    for _ in 0..HALVINGS {
        let middle_hz = 0.5 * (low_hz + high_hz);
        if expected(middle_hz) < count {
            low_hz = middle_hz;
        } else {
            high_hz = middle_hz;
        }
    }
    high_hz
}

/// Halvings of a bracket of frequencies, to a millionth of it.
const HALVINGS: usize = 20;
