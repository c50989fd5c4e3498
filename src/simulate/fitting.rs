//! Fits what is not known of a room to its measured decays.
//!
//! A Bayesian update of the very deviates that the draws are made of: regularised least squares finds the most likely room
//! (the prior is the regulariser, and as deviates act on logarithms no absorption can turn negative), and the curvature there
//! says what is still not known, so that the same draws are dealt about the new middle. Weighing the 200 draws by how well
//! each fits was the other way: a measured row of six octaves leaves weight on two or three of them, too few for a range.
//!
//! The absorption of the room itself is fitted first. Pieces, scattering, sizes and the model's own error only count as
//! noise there; then the pieces answer for what the room could not, with what is still not known of the room as noise.

use crate::chance::Draw;
use crate::least_squares::{Cholesky, dot};

use super::deal::Deal;
use super::fit::{Block, Fit};
use super::observed::{Reading, shape_covariance};
use super::outlook::Outlook;
use super::ranges::SEED;

/// Steps towards the most likely room; each halves what is off at the least, and two or three usually do.
const STEPS: usize = 5;

/// Steps shorter than this are not worth another one, standard deviations.
const NEAR: f64 = 0.02;

/// No input is moved farther than this, standard deviations: beyond it the spreads mean nothing.
const FARTHEST: f64 = 4.0;

/// One plan's room, and what was read in it.
pub(super) struct Sitting<'a> {
    pub outlook: &'a Outlook,
    pub readings: Vec<Reading>,
}

/// All that was read.
pub(super) struct Evidence<'a> {
    pub sittings: Vec<Sitting<'a>>,
}

impl Evidence<'_> {
    /// Names of all that any of the rooms depends on.
    pub fn names(&self) -> Vec<String> {
        let mut names: Vec<String> = Vec::new();
        for name in self
            .sittings
            .iter()
            .flat_map(|sitting| sitting.outlook.names())
        {
            if !names.contains(&name) {
                names.push(name);
            }
        }
        names
    }

    fn readings(&self) -> impl Iterator<Item = &Reading> + Clone {
        self.sittings.iter().flat_map(|sitting| &sitting.readings)
    }

    /// How far each reading lies above what is predicted, logarithm of the ratio.
    pub fn residuals(&self, deal: &Deal) -> Vec<f64> {
        let of = |sitting: &Sitting| {
            let ln_t20 = sitting.outlook.ln_t20(deal);
            let readings = sitting.readings.iter();
            readings
                .map(|reading| reading.time_s.ln() - reading.of(&ln_t20))
                .collect::<Vec<_>>()
        };
        self.sittings.iter().flat_map(of).collect()
    }

    /// One column per name: the slope of every predicted reading.
    pub fn slopes(&self, deal: &Deal, names: &[String]) -> Vec<Vec<f64>> {
        let mut columns = vec![Vec::new(); names.len()];
        for sitting in &self.sittings {
            let slopes = sitting.outlook.slopes(deal, names);
            for (column, by_band) in columns.iter_mut().zip(&slopes) {
                column.extend(sitting.readings.iter().map(|reading| reading.of(by_band)));
            }
        }
        columns
    }

    /// Covariance of the readings about a room that is known: reading errors, and what the spreads leave out.
    pub fn noise(&self) -> Vec<Vec<f64>> {
        let covariance = |a: (usize, &Reading), b: (usize, &Reading)| {
            let own = if a.0 == b.0 {
                a.1.deviation.powi(2)
            } else {
                0.0
            };
            own + shape_covariance(a.1, b.1)
        };
        let readings = self.readings().enumerate();
        let row = |a| readings.clone().map(|b| covariance(a, b)).collect();
        readings.clone().map(row).collect()
    }
}

/// Adds the covariance of what independent unit deviates do along the columns.
pub(super) fn add_columns(matrix: &mut [Vec<f64>], columns: &[Vec<f64>]) {
    for column in columns {
        for (row, a) in matrix.iter_mut().zip(column) {
            for (value, b) in row.iter_mut().zip(column) {
                *value += a * b;
            }
        }
    }
}

/// What the evidence teaches; none if it holds no reading.
pub(super) fn fit(evidence: &Evidence) -> Option<Fit> {
    let readings = evidence.readings().count();
    if readings == 0 {
        return None;
    }
    let doubt = Doubted::of(evidence);
    let likeliest = doubt.fitted(evidence, &vec![0.0; readings], &[])?;
    let mut blocks = likeliest.clone();
    for _ in 0..ROUNDS {
        let bent = bending(evidence, &blocks);
        blocks = doubt.fitted(evidence, &bent, &blocks)?;
    }
    Some(Fit::new(&likeliest, blocks))
}

/// Rounds in which the draws are brought about the readings. A spread reaches farther up than down, so that draws about the
/// likeliest room lie below it on the mean; two rounds leave a hundredth of that.
const ROUNDS: usize = 2;

/// Draws that tell how far they lie off the room in their middle.
const BENDING_DRAWS: u64 = 40;

/// By how much the readings of draws lie above those of the room in their middle, on the mean, as logarithms.
fn bending(evidence: &Evidence, blocks: &[Block]) -> Vec<f64> {
    let fit = Fit::new(blocks, blocks.to_vec());
    let middle = evidence.residuals(&Deal::middle(fit.means()));
    let mut sum = vec![0.0; middle.len()];
    for number in 0..BENDING_DRAWS {
        let draw = Draw { seed: SEED, number };
        let drawn = evidence.residuals(&Deal::drawn(draw, Some(&fit)));
        for ((sum, middle), drawn) in sum.iter_mut().zip(&middle).zip(drawn) {
            *sum += middle - drawn;
        }
    }
    sum.iter().map(|sum| sum / BENDING_DRAWS as f64).collect()
}

/// What is not known, sorted by when it is fitted.
struct Doubted {
    room: Vec<String>,
    pieces: Vec<String>,
    /// What a piece does to each reading; empty if no plan with pieces was measured.
    of_pieces: Vec<Vec<f64>>,
    /// Covariance of the readings by all that is never fitted.
    noise: Vec<Vec<f64>>,
}

impl Doubted {
    fn of(evidence: &Evidence) -> Self {
        let (room, others): (Vec<_>, Vec<_>) = evidence
            .names()
            .into_iter()
            .partition(|name| is_of_room(name));
        let (pieces, rest): (Vec<_>, Vec<_>) =
            others.into_iter().partition(|name| is_of_piece(name));
        let nothing = Deal::default();
        let mut noise = evidence.noise();
        add_columns(&mut noise, &evidence.slopes(&nothing, &rest));
        let of_pieces = evidence.slopes(&nothing, &pieces);
        let felt = of_pieces.iter().flatten().any(|slope| slope.abs() > FELT);
        Self {
            room,
            pieces,
            of_pieces: if felt { of_pieces } else { Vec::new() },
            noise,
        }
    }

    /// The room, then the pieces, starting from an earlier fit.
    fn fitted(&self, evidence: &Evidence, bent: &[f64], from: &[Block]) -> Option<Vec<Block>> {
        let start = |block: usize, names: &[String]| {
            let known = from.get(block).map(|block| block.mean.clone());
            known.unwrap_or_else(|| vec![0.0; names.len()])
        };
        let mut noise = self.noise.clone();
        add_columns(&mut noise, &self.of_pieces);
        let task = Task {
            evidence,
            bent,
            known: Deal::default(),
            noise: &noise,
        };
        let room = task.learn(&self.room, start(0, &self.room))?;
        if self.of_pieces.is_empty() {
            return Some(vec![room]);
        }
        let named = room.names.iter().cloned().zip(room.mean.iter().copied());
        let deal = Deal::middle(&named.collect::<Vec<_>>());
        let mut noise = self.noise.clone();
        add_columns(
            &mut noise,
            &room.spread_over(&evidence.slopes(&deal, &room.names)),
        );
        let task = Task {
            evidence,
            bent,
            known: deal,
            noise: &noise,
        };
        let pieces = task.learn(&self.pieces, start(1, &self.pieces))?;
        Some(vec![room, pieces])
    }
}

/// A slope below this is none.
const FELT: f64 = 1e-4;

/// Absorption of the room itself.
fn is_of_room(name: &str) -> bool {
    name.starts_with("finish ") || name.starts_with("furnishing ")
}

fn is_of_piece(name: &str) -> bool {
    name.starts_with("kind ")
}

/// What some inputs are to be fitted to.
struct Task<'a> {
    evidence: &'a Evidence<'a>,
    /// What draws lie off the room in their middle.
    bent: &'a [f64],
    /// What is fitted already.
    known: Deal,
    noise: &'a [Vec<f64>],
}

impl Task<'_> {
    /// The most likely deviates of the names, and what is still not known of them.
    ///
    /// ```text
    /// minimise |x|² + rᵀ R⁻¹ r,   r = y − h(x) − bent;     M = I + Hᵀ R⁻¹ H,   x ← M⁻¹ Hᵀ R⁻¹ (r + H x)
    /// ```
    ///
    /// # Source
    /// Gauss–Newton's method for a nonlinear model with normal prior: Tarantola, Inverse Problem Theory, SIAM 2005, chapter 3.
    fn learn(&self, names: &[String], start: Vec<f64>) -> Option<Block> {
        let noise = Cholesky::of(self.noise)?;
        let mut mean = start;
        for step in 1.. {
            let deal = held(&self.known, names, &mean);
            let columns = white(&noise, &self.evidence.slopes(&deal, names));
            let residuals = self.evidence.residuals(&deal);
            let residuals: Vec<f64> = residuals
                .iter()
                .zip(self.bent)
                .map(|(r, b)| r - b)
                .collect();
            let information = information(&columns)?;
            let next = information.solve(&pull(&columns, &noise.forward(&residuals), &mean));
            let next: Vec<f64> = next.iter().map(|x| x.clamp(-FARTHEST, FARTHEST)).collect();
            let moved = next.iter().zip(&mean).map(|(a, b)| (a - b).abs());
            let moved = moved.fold(0.0, f64::max);
            mean = next;
            if moved < NEAR || step == STEPS {
                return Some(Block {
                    names: names.to_vec(),
                    mean,
                    information,
                });
            }
        }
        None
    }
}

/// Hᵀ R⁻¹ (r + H x), of columns and residuals in white noise.
fn pull(columns: &[Vec<f64>], residuals: &[f64], mean: &[f64]) -> Vec<f64> {
    let of = |column: &Vec<f64>| {
        let others = columns.iter().zip(mean);
        let moved: f64 = others.map(|(other, x)| x * dot(column, other)).sum();
        dot(column, residuals) + moved
    };
    columns.iter().map(of).collect()
}

fn held(known: &Deal, names: &[String], mean: &[f64]) -> Deal {
    let pairs = names.iter().zip(mean);
    pairs.fold(known.clone(), |deal, (name, value)| {
        deal.holding(name, *value)
    })
}

fn white(noise: &Cholesky, columns: &[Vec<f64>]) -> Vec<Vec<f64>> {
    columns.iter().map(|column| noise.forward(column)).collect()
}

/// The information of columns in white noise, with that of the prior.
fn information(columns: &[Vec<f64>]) -> Option<Cholesky> {
    let row = |i: usize| {
        let entry = |j: usize| dot(&columns[i], &columns[j]) + f64::from(u8::from(i == j));
        (0..columns.len()).map(entry).collect()
    };
    Cholesky::of(&(0..columns.len()).map(row).collect::<Vec<_>>())
}
