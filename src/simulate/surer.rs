//! What makes a range wide, and what would make it narrower.
//!
//! Which input the middle decay follows is read off the draws by regression; what knowing one of them would do is drawn
//! anew with that one held.

use std::sync::Arc;

use crate::bands::BANDS;
use crate::chance::Draw;
use crate::least_squares::{Cholesky, dot};
use crate::report::{Preview, SurerInput, SurerMeasured, SurerReport};
use crate::scenario::document::{Measured, Plan};
use crate::scenario::goal_s;

use super::deal::{Deal, UNIFORM_WIDTH};
use super::doubts::SIZE_EFFECT;
use super::fit::Fit;
use super::fitting::{self, Evidence, Sitting};
use super::inputs::in_words;
use super::observed::readings;
use super::outlook::Outlook;
use super::prepared::Prepared;
use super::ranges::{DRAWS, SEED, eight_in_ten};

/// Inputs that are named.
const NAMED: usize = 3;

/// What a person would measure, Hz.
const OCTAVES_HZ: [f64; 5] = [250.0, 500.0, 1000.0, 2000.0, 4000.0];

/// Weight that keeps the regression solvable when two inputs always go together.
const RIDGE: f64 = 1e-6;

/// An input's shares of the variance of the middle decay, and of whether the goal is met.
#[derive(Clone, Debug, PartialEq)]
pub struct Shares {
    /// Name under which it is drawn.
    pub name: String,
    /// Of the middle decay.
    pub of_decay: f64,
    /// Of whether the goal is met.
    pub of_goal: f64,
}

impl Prepared {
    /// What would make a plan's range narrower; none if there is no such plan.
    #[must_use]
    pub fn surer(&self, plan: usize) -> Option<SurerReport> {
        let plan = self.scenario.plans.get(plan)?;
        let outlook = Outlook::of(self, plan, 0..0);
        let fit = self.fit();
        let fit = fit.as_deref();
        let goal_s = goal_s(&self.scenario);
        let mids_s = outlook.mids_s(DRAWS, fit, None);
        let named = shares(&outlook, fit, &mids_s, goal_s)
            .into_iter()
            .take(NAMED);
        let inputs = named.map(|share| {
            let (words, advice) = in_words(&self.scenario, &share.name);
            let held = outlook.mids_s(DRAWS, fit, Some(&share.name));
            SurerInput {
                words,
                advice,
                share: share.of_decay,
                goal_share: share.of_goal,
                known: preview(held, goal_s),
                name: share.name,
            }
        });
        Some(SurerReport {
            inputs: inputs.collect(),
            measured: self.if_measured(&outlook, goal_s),
            now: preview(mids_s, goal_s),
        })
    }

    /// Every input's share of the variance of a plan's middle decay, the weightiest first; none if there is no such plan.
    #[must_use]
    pub fn shares_of_variance(&self, plan: usize) -> Option<Vec<Shares>> {
        let outlook = Outlook::of(self, self.scenario.plans.get(plan)?, 0..0);
        let fit = self.fit();
        let mids_s = outlook.mids_s(DRAWS, fit.as_deref(), None);
        Some(shares(
            &outlook,
            fit.as_deref(),
            &mids_s,
            goal_s(&self.scenario),
        ))
    }

    /// Middle decays of a plan in the first draws with one input held at its middle, s; none if there is no such plan.
    #[must_use]
    pub fn mids_with_one_known(&self, plan: usize, draws: usize, name: &str) -> Option<Vec<f64>> {
        let outlook = Outlook::of(self, self.scenario.plans.get(plan)?, 0..0);
        Some(outlook.mids_s(draws, self.fit().as_deref(), Some(name)))
    }

    /// The range if the room as it is now were measured and came out as predicted; none once a decay is measured.
    fn if_measured(&self, outlook: &Outlook, goal_s: (f64, f64)) -> Option<SurerMeasured> {
        let now = self
            .scenario
            .plans
            .first()
            .filter(|_| self.scenario.measured.is_empty())?;
        let fit = self.fit_as_predicted(now)?;
        Some(SurerMeasured {
            plan: now.name.clone(),
            known: preview(outlook.mids_s(DRAWS, Some(&fit), None), goal_s),
        })
    }

    /// The fit to a measurement that comes out as predicted.
    fn fit_as_predicted(&self, plan: &Plan) -> Option<Arc<Fit>> {
        let outlook = Outlook::of(self, plan, 0..BANDS);
        let ln_t20 = outlook.ln_t20(&Deal::default());
        let is_known = |hz: &f64| *hz >= outlook.statistics_from_hz;
        let bands_hz: Vec<f64> = OCTAVES_HZ.into_iter().filter(is_known).collect();
        let mut readings = readings(&Measured {
            plan: plan.name.clone(),
            decay_s: vec![1.0; bands_hz.len()],
            bands_hz,
        });
        for reading in &mut readings {
            *reading = reading.reading(reading.of(&ln_t20).exp());
        }
        let sitting = Sitting {
            outlook: &outlook,
            readings,
        };
        fitting::fit(&Evidence {
            sittings: vec![sitting],
        })
        .map(Arc::new)
    }
}

/// Shares of the variance by regression of the draws on what each input was dealt.
///
/// ```text
/// T = b₀ + Σ b_i z_i + rest,   share_i = b_i Σ_j cov(z_i, z_j) b_j / var T
/// ```
///
/// The covariance of the deviates is known and not read off the draws: 1 for each alone, or that of a check-up, after which
/// some hang together. So the share is that of the variance which is gone once the input is known, or what goes with it.
///
/// # Source
/// Saltelli et al., Global Sensitivity Analysis: The Primer, Wiley 2008, section 1.2 (standardised regression).
fn shares(outlook: &Outlook, fit: Option<&Fit>, mids_s: &[f64], goal_s: (f64, f64)) -> Vec<Shares> {
    let names = outlook.names();
    let ends: Vec<usize> = (0..mids_s.len())
        .filter(|&i| mids_s[i].is_finite())
        .collect();
    let rows: Vec<Vec<f64>> = ends
        .iter()
        .map(|&number| dealt(number, fit, &names))
        .collect();
    let column = |i: usize| centred(rows.iter().map(|row| row[i]).collect());
    let columns: Vec<Vec<f64>> = (0..names.len()).map(column).collect();
    let decay = centred(ends.iter().map(|&i| mids_s[i]).collect());
    let is_met = |&i: &usize| f64::from(u8::from((goal_s.0..=goal_s.1).contains(&mids_s[i])));
    let goal = centred(ends.iter().map(is_met).collect());
    let share = |values: &[f64]| {
        let slopes = slopes(&columns, values);
        let tied = fit.map_or_else(|| slopes.clone(), |fit| fit.tied(&names, &slopes));
        let variance = dot(values, values) / values.len() as f64;
        let pairs = slopes.iter().zip(tied);
        pairs
            .map(|(slope, tied)| {
                if variance > 0.0 {
                    (slope * tied / variance).max(0.0)
                } else {
                    0.0
                }
            })
            .collect::<Vec<f64>>()
    };
    let (of_decay, of_goal) = (share(&decay), share(&goal));
    let values = of_decay.into_iter().zip(of_goal);
    let mut shares: Vec<Shares> = names
        .into_iter()
        .zip(values)
        .map(|(name, (of_decay, of_goal))| Shares {
            name,
            of_decay,
            of_goal,
        })
        .collect();
    shares.sort_by(|a, b| b.of_decay.total_cmp(&a.of_decay));
    shares
}

/// Deviates of the names in a draw.
fn dealt(number: usize, fit: Option<&Fit>, names: &[String]) -> Vec<f64> {
    let draw = Draw {
        seed: SEED,
        number: number as u64,
    };
    let deal = Deal::drawn(draw, fit);
    let of = |name: &String| match name.as_str() {
        SIZE_EFFECT => (deal.uniform(name) - 0.5) * UNIFORM_WIDTH,
        _ => deal.normal(name),
    };
    names.iter().map(of).collect()
}

/// Values less their mean.
fn centred(values: Vec<f64>) -> Vec<f64> {
    let mean = values.iter().sum::<f64>() / values.len().max(1) as f64;
    values.into_iter().map(|value| value - mean).collect()
}

/// How `values` change with each column, by least squares.
fn slopes(columns: &[Vec<f64>], values: &[f64]) -> Vec<f64> {
    let along: Vec<f64> = columns.iter().map(|column| dot(column, values)).collect();
    let ridge = RIDGE * values.len() as f64;
    let row = |(i, a): (usize, &Vec<f64>)| {
        let entry = |(j, b): (usize, &Vec<f64>)| dot(a, b) + if i == j { ridge } else { 0.0 };
        columns.iter().enumerate().map(entry).collect()
    };
    let matrix: Vec<Vec<f64>> = columns.iter().enumerate().map(row).collect();
    Cholesky::of(&matrix).map_or_else(|| vec![0.0; columns.len()], |factor| factor.solve(&along))
}

/// The range of middle decays, and how many meet the goal.
fn preview(mids_s: Vec<f64>, goal_s: (f64, f64)) -> Preview {
    let met = mids_s
        .iter()
        .filter(|mid_s| (goal_s.0..=goal_s.1).contains(*mid_s));
    let goal_met = met.count() as f64 / mids_s.len() as f64;
    let (low_s, high_s) = eight_in_ten(mids_s);
    Preview {
        low_s,
        high_s,
        goal_met,
    }
}
