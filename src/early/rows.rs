//! Complex values at every hit of the paths on one wall: finely over frequency up to second order, coarsely at third.

use crate::bands::Banded;
use crate::footprint::Mirror;
use crate::geometry::Rect;
use crate::numeric::larger;
use crate::spectrum::{COARSE, FINE, Spectrum, turned};
use crate::surface::{Facing, MOST_ABSORPTION, Patch};

/// The hits on one wall.
#[derive(Clone, Debug, Default)]
pub(super) struct Hits {
    /// Of paths of first and second order.
    pub fine: Vec<Mirror>,
    /// Of paths of third order.
    pub coarse: Vec<Mirror>,
}

/// A value per hit and frequency.
#[derive(Clone, Debug)]
pub(super) struct Rows {
    pub fine: Vec<Spectrum<FINE>>,
    pub coarse: Vec<Spectrum<COARSE>>,
}

impl Rows {
    /// What the bare wall reflects.
    pub fn of_facing(hits: &Hits, facing: &Facing) -> Self {
        let plain = (plain::<FINE>(facing), plain::<COARSE>(facing));
        Self {
            fine: vec![plain.0; hits.fine.len()],
            coarse: vec![plain.1; hits.coarse.len()],
        }
    }

    /// What a wall covered all over with a patch's material would reflect, referred to the wall.
    pub fn of_patch(hits: &Hits, patch: &Patch, speed_of_sound_m_per_s: f64) -> Self {
        let c = speed_of_sound_m_per_s;
        Self {
            fine: faces(&hits.fine, patch, c),
            coarse: faces(&hits.coarse, patch, c),
        }
    }

    /// The difference of each row.
    pub fn minus(&self, other: &Self) -> Self {
        Self {
            fine: differences(&self.fine, &other.fine),
            coarse: differences(&self.coarse, &other.coarse),
        }
    }

    /// Each row times the weight that a rectangle has at its hit.
    pub fn weighted(&self, hits: &Hits, rect: Rect, speed_of_sound_m_per_s: f64) -> Self {
        let c = speed_of_sound_m_per_s;
        Self {
            fine: weighted(&self.fine, &hits.fine, rect, c),
            coarse: weighted(&self.coarse, &hits.coarse, rect, c),
        }
    }

    /// Adds another's rows.
    pub fn add(&mut self, other: &Self) {
        add(&mut self.fine, &other.fine);
        add(&mut self.coarse, &other.coarse);
    }

    /// Takes another's rows away.
    pub fn subtract(&mut self, other: &Self) {
        *self = self.minus(other);
    }
}

/// Energy per hit and frequency.
#[derive(Clone, Debug)]
pub(super) struct Energies {
    pub fine: Vec<[f64; FINE]>,
    pub coarse: Vec<[f64; COARSE]>,
}

impl Energies {
    pub fn of(rows: &Rows) -> Self {
        Self {
            fine: rows.fine.iter().map(Spectrum::energy).collect(),
            coarse: rows.coarse.iter().map(Spectrum::energy).collect(),
        }
    }

    /// Keeps the larger of its own and another's.
    pub fn raise(&mut self, other: &Self) {
        raise(&mut self.fine, &other.fine);
        raise(&mut self.coarse, &other.coarse);
    }
}

fn raise<const N: usize>(most: &mut [[f64; N]], other: &[[f64; N]]) {
    for (most, other) in most.iter_mut().zip(other) {
        for i in 0..N {
            most[i] = larger(most[i], other[i]);
        }
    }
}

/// Real reflection of a facing with what it scatters taken out.
///
/// ```text
/// √((1 − α)(1 − s))
/// ```
///
/// Neither factor falls below 0.01, so that a level always exists.
fn plain<const N: usize>(facing: &Facing) -> Spectrum<N> {
    let kept = |part: f64| larger(1.0 - part, 1.0 - MOST_ABSORPTION);
    let reflected = facing.absorption.map(kept);
    let mirrored = facing.scattering.map(kept);
    Spectrum::of_bands(&Banded::from_fn(|band| {
        (reflected[band] * mirrored[band]).sqrt()
    }))
}

/// Reflection of a patch at the angle of each hit, referred to the wall.
///
/// ```text
/// R √(1 − s) exp(2 j k d cos θ)      R: of the front, or √(1 − α)
/// ```
fn faces<const N: usize>(
    hits: &[Mirror],
    patch: &Patch,
    speed_of_sound_m_per_s: f64,
) -> Vec<Spectrum<N>> {
    let even = plain::<N>(&patch.facing);
    let kept = |s: f64| larger(1.0 - s, 1.0 - MOST_ABSORPTION).sqrt();
    let mirrored = patch.facing.scattering.map(kept);
    let at_face = |hit: &Mirror| match &patch.front {
        None => even,
        Some(front) => front.reflection::<N>(hit.cosine).scaled(&mirrored),
    };
    let face = |hit: &Mirror| {
        let mut face = at_face(hit);
        if patch.depth_m != 0.0 {
            let shorter_m = -2.0 * patch.depth_m * hit.cosine;
            face.multiply(&turned(shorter_m, speed_of_sound_m_per_s));
        }
        face
    };
    hits.iter().map(face).collect()
}

fn differences<const N: usize>(a: &[Spectrum<N>], b: &[Spectrum<N>]) -> Vec<Spectrum<N>> {
    a.iter().zip(b).map(|(a, b)| a.minus(b)).collect()
}

fn weighted<const N: usize>(
    rows: &[Spectrum<N>],
    hits: &[Mirror],
    rect: Rect,
    speed_of_sound_m_per_s: f64,
) -> Vec<Spectrum<N>> {
    rows.iter()
        .zip(hits)
        .map(|(row, hit)| row.times(&hit.weight(rect, speed_of_sound_m_per_s)))
        .collect()
}

fn add<const N: usize>(sum: &mut [Spectrum<N>], other: &[Spectrum<N>]) {
    for (sum, other) in sum.iter_mut().zip(other) {
        sum.add(other);
    }
}
