//! The area of a surface that makes a reflection: its first Fresnel zone.

use glam::DVec3;

use crate::image_source::Hit;

/// Frequency for which zones are given, Hz.
const ZONE_HZ: f64 = 1000.0;

/// An ellipse about the point of a hit, at 1 kHz. At another frequency f its axes are √(1000 / f) times as long.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Zone {
    /// Half its axis along the path's trace on the surface, m.
    pub semi_along_m: f64,
    /// Half its axis across the trace, m.
    pub semi_across_m: f64,
    /// Unit vector (u, v) of the trace on the surface.
    pub along: (f64, f64),
}

impl Zone {
    /// The zone of a hit: paths over its rim are half a wavelength longer than that over the point.
    ///
    /// ```text
    /// across = √(λ r1 r2 / (r1 + r2)),   along = across / cos θ
    /// ```
    ///
    /// # Valid
    /// To second order in the distance from the point: near grazing the true zone is shorter and not centred.
    ///
    /// # Source
    /// Rindel, Attenuation of sound reflections due to diffraction, Nordic Acoustical Meeting 1986.
    pub(super) fn of(hit: &Hit, speed_of_sound_m_per_s: f64) -> Self {
        let wavelength_m = speed_of_sound_m_per_s / ZONE_HZ;
        let (r1, r2) = (hit.before_m, hit.after_m);
        let semi_across_m = (wavelength_m * r1 * r2 / (r1 + r2)).sqrt();
        Self {
            semi_along_m: semi_across_m / hit.cosine.max(LEAST_COSINE),
            semi_across_m,
            along: trace(hit.surface.uv_axes(), hit.travel),
        }
    }
}

/// Flatter paths get no longer zone.
const LEAST_COSINE: f64 = 0.01;

/// Direction of a path's trace on a surface; u for a path square to it.
fn trace((u, v): (usize, usize), travel: DVec3) -> (f64, f64) {
    let length = travel[u].hypot(travel[v]);
    if length < f64::EPSILON {
        return (1.0, 0.0);
    }
    (travel[u] / length, travel[v] / length)
}
