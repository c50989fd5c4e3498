//! The air in the room: speed of sound, density and attenuation from temperature and humidity, at sea-level pressure.

use crate::bands::{Banded, exact_hz};

/// Atmospheric pressure assumed for every room, kPa.
///
/// # Source
/// ISO 9613-1:1993, reference pressure. Weather moves it by ± 4 %, of no weight beside walls and furniture.
pub const PRESSURE_KPA: f64 = 101.325;

/// 0 °C in kelvin.
const ZERO_C_K: f64 = 273.15;

/// Reference temperature of ISO 9613-1, K: 20 °C.
const REFERENCE_K: f64 = 293.15;

/// Triple point of water as ISO 9613-1 uses it, K.
const TRIPLE_POINT_K: f64 = 273.16;

/// Specific gas constant of dry air, J/(kg K).
///
/// # Source
/// Molar gas constant over 28.96 g/mol, from memory; gives the textbook 1.204 kg/m³ at 20 °C.
const GAS_CONSTANT_J_PER_KG_K: f64 = 287.055;

/// Decibels of attenuation per unit of energy attenuation: 10 lg e.
const DB_PER_ENERGY_NEPER: f64 = 10.0 * std::f64::consts::LOG10_E;

/// Air of one temperature and humidity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Speed of sound, m/s.
    pub speed_of_sound_m_per_s: f64,
    /// Density, kg/m³.
    pub density_kg_per_m3: f64,
    /// Attenuation of energy at the exact band centres, 1/m: energy falls as exp(−m r).
    pub attenuation_per_m: Banded,
}

impl Air {
    /// The air of a room.
    ///
    /// ```text
    /// c = 331.3 √(1 + ϑ / 273.15)
    /// ρ = p / (R T),  dry air
    /// m = α / (10 lg e),  α from ISO 9613-1 at the exact band centre
    /// ```
    ///
    /// # Units
    /// - `temperature_c`: °C, above −273
    /// - `humidity_percent`: relative humidity, %, 0 … 100
    ///
    /// # Accuracy
    /// The attenuation of a band is that of its centre, which overstates that of the whole band by a little:
    /// the least damped part of a band rules its decay.
    ///
    /// # Source
    /// Speed of sound: ideal gas, 331.3 m/s at 0 °C (0.1 m/s from the 343.2 √(T/T0) of ISO 9613-1). Density: ideal gas law.
    #[must_use]
    pub fn at(temperature_c: f64, humidity_percent: f64) -> Self {
        let attenuation_db_per_m = |band| {
            attenuation_db_per_m(
                temperature_c,
                humidity_percent,
                PRESSURE_KPA,
                exact_hz(band),
            )
        };
        Self {
            speed_of_sound_m_per_s: 331.3 * (1.0 + temperature_c / ZERO_C_K).sqrt(),
            density_kg_per_m3: 1000.0 * PRESSURE_KPA
                / (GAS_CONSTANT_J_PER_KG_K * (temperature_c + ZERO_C_K)),
            attenuation_per_m: Banded::from_fn(attenuation_db_per_m) * DB_PER_ENERGY_NEPER.recip(),
        }
    }

    /// Characteristic impedance ρ c, Pa s/m.
    #[must_use]
    pub fn impedance_pa_s_per_m(&self) -> f64 {
        self.density_kg_per_m3 * self.speed_of_sound_m_per_s
    }
}

/// Attenuation of a pure tone by the air.
///
/// ```text
/// α = 8.686 f² { 1.84e-11 (pa/pr)⁻¹ (T/T0)^½ + (T/T0)^(−5/2)
///       [ 0.01275 e^(−2239.1/T) / (frO + f²/frO) + 0.1068 e^(−3352.0/T) / (frN + f²/frN) ] }
/// frO = (pa/pr) [ 24 + 4.04e4 h (0.02 + h) / (0.391 + h) ]
/// frN = (pa/pr) (T/T0)^(−½) { 9 + 280 h exp(−4.170 [(T/T0)^(−1/3) − 1]) }
/// ```
///
/// # Units
/// - `temperature_c`: °C
/// - `humidity_percent`: relative humidity, %, 0 … 100
/// - `pressure_kpa`: kPa, > 0
/// - `frequency_hz`: Hz, ≥ 0
/// - returns: dB/m
///
/// # Valid
/// The standard states ± 10 % over most of its range.
///
/// # Source
/// ISO 9613-1:1993, Eq. (3) to (5).
#[must_use]
pub fn attenuation_db_per_m(
    temperature_c: f64,
    humidity_percent: f64,
    pressure_kpa: f64,
    frequency_hz: f64,
) -> f64 {
    let kelvin = temperature_c + ZERO_C_K;
    let warmth = kelvin / REFERENCE_K;
    let pressure = pressure_kpa / PRESSURE_KPA;
    let h = water_vapour_percent(kelvin, humidity_percent, pressure);
    let oxygen_hz = pressure * (24.0 + 4.04e4 * h * (0.02 + h) / (0.391 + h));
    let nitrogen_hz = pressure
        * warmth.powf(-0.5)
        * (9.0 + 280.0 * h * (-4.170 * (warmth.powf(-1.0 / 3.0) - 1.0)).exp());
    let f2 = frequency_hz * frequency_hz;
    let classical = 1.84e-11 / pressure * warmth.sqrt();
    let oxygen = 0.01275 * (-2239.1 / kelvin).exp() / (oxygen_hz + f2 / oxygen_hz);
    let nitrogen = 0.1068 * (-3352.0 / kelvin).exp() / (nitrogen_hz + f2 / nitrogen_hz);
    8.686 * f2 * (classical + warmth.powf(-2.5) * (oxygen + nitrogen))
}

/// Molar concentration of water vapour, %.
///
/// ```text
/// h = hr 10^C / (pa/pr),  C = −6.8346 (T01/T)^1.261 + 4.6151
/// ```
///
/// # Source
/// ISO 9613-1:1993, Annex B.
fn water_vapour_percent(kelvin: f64, humidity_percent: f64, pressure: f64) -> f64 {
    let exponent = -6.8346 * (TRIPLE_POINT_K / kelvin).powf(1.261) + 4.6151;
    humidity_percent * 10f64.powf(exponent) / pressure
}
