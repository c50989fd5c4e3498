//! The check-up: measured decays against the predicted ones, what they teach about the room, and what is said when they
//! cannot come from the room as it is described.
//!
//! Figures that do not fit the room, or each other, change nothing: they are set aside with a sentence.

use std::sync::Arc;

use crate::bands::{BAND_1K, BANDS};
use crate::chance::EIGHT_IN_TEN;
use crate::numeric::exp;
use crate::report::{CheckupEntry, CheckupReport, Learnt, Predicted, Series};
use crate::scenario::document::{Measured, Plan};
use crate::spread::Spread;

use super::causes::Case;
use super::deal::Deal;
use super::fit::{Checked, Fit};
use super::fitting::{self, Evidence, Sitting};
use super::inputs::in_words;
use super::misfit::{Misfit, chi_square};
use super::observed::{Reading, covered, readings};
use super::outlook::Outlook;
use super::prepared::Prepared;
use super::spreads::{finish_name, finish_spread, furnishing_name, furnishing_spread};

/// Readings of one plan in one band that differ more than one in 1,000 pairs would contradict each other.
const CONTRADICTION: f64 = 3.09;

/// A change of absorption below this is not worth a word.
const WORTH_A_WORD: f64 = 0.05;

/// One plan that was measured.
struct Visit<'a> {
    plan: &'a Plan,
    outlook: Outlook,
}

/// One entry under examination.
struct Exam<'a> {
    entry: &'a Measured,
    visit: usize,
    readings: Vec<Reading>,
    counted: Vec<bool>,
    /// Why it is set aside.
    aside: Option<String>,
}

impl Exam<'_> {
    /// The readings that count.
    fn counting(&self) -> Vec<Reading> {
        let readings = self.readings.iter().zip(&self.counted);
        readings
            .filter(|(_, counted)| **counted)
            .map(|(reading, _)| reading.clone())
            .collect()
    }
}

impl Prepared {
    /// Makes the check-up of the document, if decays were measured and it is not made yet. From then on its rooms and draws
    /// rest on it.
    pub fn check_up(&mut self) {
        if self.checked.is_some() || self.scenario.measured.is_empty() {
            return;
        }
        let checked = self.checked();
        self.means = checked
            .fit
            .as_deref()
            .map_or_else(|| Arc::from([]), |fit| Arc::from(fit.means()));
        self.checked = Some(Arc::new(checked));
    }

    /// What the check-up says; none before [`Prepared::check_up`], or if nothing was measured.
    #[must_use]
    pub fn checkup(&self) -> Option<&CheckupReport> {
        self.checked.as_ref().map(|checked| &checked.report)
    }

    fn checked(&self) -> Checked {
        let visits = self.visits();
        let mut exams = self.exams(&visits);
        set_contradictions_aside(&mut exams);
        let mut causes = Vec::new();
        for exam in exams.iter_mut().filter(|exam| exam.aside.is_none()) {
            let visit = &visits[exam.visit];
            let evidence = alone(visit, exam.counting());
            let Some(misfit) = Misfit::of(&evidence) else {
                exam.aside = Some(NOTHING_COUNTS.to_owned());
                continue;
            };
            if misfit.is_wild() {
                exam.aside = Some(wild_words(exam.entry, &misfit));
                let readings = &evidence.sittings[0].readings;
                let case = Case {
                    plan: visit.plan,
                    readings,
                    misfit: &misfit,
                };
                causes.extend(self.causes(&case));
            }
        }
        set_strangers_aside(&visits, &mut exams);
        let evidence = gathered(&visits, &exams);
        let fit = fitting::fit(&evidence).map(Arc::new);
        causes.sort_by(|a, b| a.left.total_cmp(&b.left));
        causes.dedup_by(|a, b| a.words == b.words);
        causes.truncate(3);
        let learnt = fit.as_deref().map_or_else(Vec::new, |fit| self.learnt(fit));
        Checked {
            report: CheckupReport {
                used: fit.is_some(),
                sentence: summary(&exams, fit.is_some(), &learnt),
                entries: entries(&visits, &exams, fit.as_deref()),
                learnt,
                causes,
                means: fit
                    .as_deref()
                    .map_or_else(Vec::new, |fit| fit.means().to_vec()),
            },
            fit,
        }
    }

    /// Each plan that was measured, once.
    fn visits(&self) -> Vec<Visit<'_>> {
        let is_measured = |plan: &&Plan| {
            let mut measured = self.scenario.measured.iter();
            measured.any(|entry| entry.plan == plan.name)
        };
        let visit = |plan| {
            let plan: &Plan = plan;
            let entries = self.scenario.measured.iter();
            let of_plan: Vec<Reading> = entries
                .filter(|entry| entry.plan == plan.name)
                .flat_map(readings)
                .collect();
            let outlook = Outlook::of(self, plan, covered(of_plan.iter()));
            Visit { plan, outlook }
        };
        let plans = self.scenario.plans.iter().filter(is_measured);
        plans.map(visit).collect()
    }

    fn exams(&self, visits: &[Visit]) -> Vec<Exam<'_>> {
        let exam = |entry| {
            let entry: &Measured = entry;
            let visit = visits
                .iter()
                .position(|visit| visit.plan.name == entry.plan)?;
            let readings = readings(entry);
            let from_hz = visits[visit].outlook.statistics_from_hz;
            Some(Exam {
                entry,
                visit,
                counted: readings
                    .iter()
                    .map(|reading| reading.hz >= from_hz)
                    .collect(),
                readings,
                aside: None,
            })
        };
        self.scenario.measured.iter().filter_map(exam).collect()
    }

    /// What absorbs more or less than was assumed, at 1 kHz, the largest change first.
    fn learnt(&self, fit: &Fit) -> Vec<Learnt> {
        let one = |(name, mean, deviation): (String, f64, f64)| {
            let spread = self.spread_of(&name)?;
            let [factor, low, high] = [0.0, -EIGHT_IN_TEN, EIGHT_IN_TEN]
                .map(|side| spread.at(mean + side * deviation)[BAND_1K] / spread.at(0.0)[BAND_1K]);
            let (words, _) = in_words(&self.scenario, &name);
            (factor.ln().abs() > WORTH_A_WORD).then_some(Learnt {
                name,
                words,
                factor,
                low,
                high,
            })
        };
        let mut learnt: Vec<Learnt> = fit.known().into_iter().filter_map(one).collect();
        learnt.sort_by(|a, b| b.factor.ln().abs().total_cmp(&a.factor.ln().abs()));
        learnt
    }

    /// How far off a fitted thing may be.
    fn spread_of(&self, name: &str) -> Option<Spread> {
        let (group, id) = name.split_once(' ')?;
        match group {
            "finish" if name == finish_name(id) => Some(finish_spread(&self.scenario, id)),
            "furnishing" if name == furnishing_name(id) => {
                furnishing_spread(&self.scenario, id, 1.0)
            }
            "kind" => {
                let facts = self.kit.iter().find(|facts| facts.id() == id)?;
                Some(Spread::measured(facts.facing.absorption))
            }
            _ => None,
        }
    }
}

const NOTHING_COUNTS: &str = "Only bands in which this room rings at single notes were measured: they say nothing about its absorption.";

fn alone<'a>(visit: &'a Visit, readings: Vec<Reading>) -> Evidence<'a> {
    let sitting = Sitting {
        outlook: &visit.outlook,
        readings,
    };
    Evidence {
        sittings: vec![sitting],
    }
}

/// All that is not set aside, repeated readings of a plan taken together.
fn gathered<'a>(visits: &'a [Visit], exams: &[Exam]) -> Evidence<'a> {
    let of_visit = |(number, visit): (usize, &'a Visit)| {
        let exams = exams
            .iter()
            .filter(|exam| exam.visit == number && exam.aside.is_none());
        let readings = together(exams.flat_map(Exam::counting));
        (!readings.is_empty()).then_some(Sitting {
            outlook: &visit.outlook,
            readings,
        })
    };
    Evidence {
        sittings: visits.iter().enumerate().filter_map(of_visit).collect(),
    }
}

/// Readings of one band as one: the mean of their logarithms, each weighted by how sure it is.
fn together(readings: impl Iterator<Item = Reading>) -> Vec<Reading> {
    let mut all: Vec<Reading> = Vec::new();
    for reading in readings {
        let Some(known) = all.iter_mut().find(|known| known.is_as(&reading)) else {
            all.push(reading);
            continue;
        };
        let [a, b] = [known.deviation.powi(-2), reading.deviation.powi(-2)];
        known.time_s = exp((a * known.time_s.ln() + b * reading.time_s.ln()) / (a + b));
        known.deviation = (a + b).powf(-0.5);
    }
    all
}

/// Entries of one plan that cannot both be right are both set aside.
fn set_contradictions_aside(exams: &mut [Exam]) {
    for second in 1..exams.len() {
        for first in 0..second {
            if exams[first].visit != exams[second].visit {
                continue;
            }
            let Some(words) = contradiction(&exams[first], &exams[second]) else {
                continue;
            };
            for exam in [first, second] {
                exams[exam].aside.get_or_insert_with(|| words.clone());
            }
        }
    }
}

/// How two entries of one plan contradict each other.
fn contradiction(a: &Exam, b: &Exam) -> Option<String> {
    let (a_readings, b_readings) = (a.counting(), b.counting());
    let pairs: Vec<(&Reading, &Reading)> = a_readings
        .iter()
        .filter_map(|a| Some((a, b_readings.iter().find(|b| b.is_as(a))?)))
        .collect();
    let off = |(a, b): &(&Reading, &Reading)| {
        (a.time_s / b.time_s).ln().powi(2) / (a.deviation.powi(2) + b.deviation.powi(2))
    };
    let distance: f64 = pairs.iter().map(off).sum();
    if pairs.is_empty() || distance <= chi_square(pairs.len(), CONTRADICTION) {
        return None;
    }
    let worst = pairs.iter().max_by(|a, b| off(a).total_cmp(&off(b)))?;
    Some(format!(
        "Two check-ups of plan {} contradict each other: {:.2} s and {:.2} s at {} Hz. Neither is used; remove the one that is wrong.",
        a.entry.plan, worst.0.time_s, worst.1.time_s, worst.0.hz
    ))
}

/// Entries that fit the room one by one but not together are all set aside.
fn set_strangers_aside(visits: &[Visit], exams: &mut [Exam]) {
    let evidence = gathered(visits, exams);
    if evidence.sittings.len() < 2 || !Misfit::of(&evidence).is_some_and(|misfit| misfit.is_wild())
    {
        return;
    }
    for exam in exams.iter_mut() {
        exam.aside.get_or_insert_with(|| {
            "The check-ups of the plans do not fit one and the same room, so none is used: look for a plan that was not hung as drawn.".to_owned()
        });
    }
}

fn wild_words(entry: &Measured, misfit: &Misfit) -> String {
    let ratio = exp(misfit.mean());
    let how = if (0.8..1.25).contains(&ratio) {
        "rises and falls over the bands in another way than".to_owned()
    } else if ratio > 1.0 {
        format!("is {ratio:.1} times as long as")
    } else {
        format!("is only {ratio:.2} times as long as")
    };
    format!(
        "Check the room description: the decay measured in plan {} {how} predicted, more than all that is not known explains. It is not used.",
        entry.plan
    )
}

/// What came of it all.
fn summary(exams: &[Exam], used: bool, learnt: &[Learnt]) -> String {
    let aside = exams.iter().filter(|exam| exam.aside.is_some()).count();
    if !used {
        return "Check the room description: no check-up fits it. Nothing was changed.".to_owned();
    }
    let what = learnt.first().map_or_else(
        || "It confirms the room as described.".to_owned(),
        |first| {
            format!(
                "Most moved: {} absorbs {:.2} times what was assumed.",
                first.words, first.factor
            )
        },
    );
    let rest = if aside > 0 {
        format!(" {aside} of {} entries are not used.", exams.len())
    } else {
        String::new()
    };
    format!("The ranges of all plans rest on your check-up. {what}{rest}")
}

/// Predictions for every measured plan before and after.
fn entries(visits: &[Visit], exams: &[Exam], fit: Option<&Fit>) -> Vec<CheckupEntry> {
    let before: Vec<Bands> = visits
        .iter()
        .map(|visit| Bands::of(&visit.outlook, None))
        .collect();
    let after: Option<Vec<Bands>> = fit.map(|fit| {
        visits
            .iter()
            .map(|visit| Bands::of(&visit.outlook, Some(fit)))
            .collect()
    });
    let entry = |exam: &Exam| {
        let before = before[exam.visit].over(&exam.readings);
        CheckupEntry {
            plan: exam.entry.plan.clone(),
            used: exam.aside.is_none(),
            sentence: exam
                .aside
                .clone()
                .unwrap_or_else(|| agreement(exam, &before)),
            bands_hz: Series(exam.entry.bands_hz.clone()),
            measured_s: Series(exam.entry.decay_s.clone()),
            counted: exam.counted.clone(),
            after: after
                .as_ref()
                .map(|after| after[exam.visit].over(&exam.readings)),
            before,
        }
    };
    exams.iter().map(entry).collect()
}

/// How a measurement that is used lies to what was predicted.
fn agreement(exam: &Exam, before: &Predicted) -> String {
    let counted: Vec<usize> = (0..exam.readings.len())
        .filter(|&i| exam.counted[i])
        .collect();
    let ratio = |&i: &usize| (exam.readings[i].time_s / before.t20_s.0[i]).ln();
    let mean = counted.iter().map(ratio).sum::<f64>() / counted.len() as f64;
    let percent = 100.0 * (exp(mean) - 1.0);
    let how = if percent.abs() < 5.0 {
        "as long as predicted, to 5 %".to_owned()
    } else {
        let word = if percent > 0.0 { "longer" } else { "shorter" };
        format!("{:.0} % {word} than predicted", percent.abs())
    };
    let lowest_hz = counted
        .iter()
        .map(|&i| exam.readings[i].hz)
        .fold(f64::INFINITY, f64::min);
    let bass = if counted.len() < exam.readings.len() {
        format!(" Bands below {lowest_hz:.0} Hz ring at single notes and are shown only.")
    } else {
        String::new()
    };
    format!("On the mean the sound lasts {how}.{bass}")
}

/// Middle and 8-in-10 limits of the logarithm of T20, by band.
struct Bands {
    middle: [f64; BANDS],
    columns: Vec<[f64; BANDS]>,
}

impl Bands {
    /// Everything that is not known varies about the middle; a fitted block as far as it is still not known.
    fn of(outlook: &Outlook, fit: Option<&Fit>) -> Self {
        let means = fit.map_or(&[][..], Fit::means);
        let deal = Deal::middle(means);
        let free: Vec<String> = outlook
            .names()
            .into_iter()
            .filter(|name| !means.iter().any(|(known, _)| known == name))
            .collect();
        let mut columns = outlook.slopes(&deal, &free);
        for block in fit.into_iter().flat_map(|fit| &fit.blocks) {
            let slopes = outlook.slopes(&deal, &block.names);
            let rows: Vec<Vec<f64>> = slopes.iter().map(|slope| slope.to_vec()).collect();
            let open = block.spread_over(&rows);
            columns.extend(
                open.into_iter()
                    .map(|column| std::array::from_fn(|band| column[band])),
            );
        }
        Self {
            middle: outlook.ln_t20(&deal),
            columns,
        }
    }

    fn over(&self, readings: &[Reading]) -> Predicted {
        let limit = |side: f64| {
            let of = |reading: &Reading| {
                let variance: f64 = self
                    .columns
                    .iter()
                    .map(|column| reading.of(column).powi(2))
                    .sum();
                exp(reading.of(&self.middle) + side * EIGHT_IN_TEN * variance.sqrt())
            };
            Series(readings.iter().map(of).collect())
        };
        Predicted {
            t20_s: limit(0.0),
            low_s: limit(-1.0),
            high_s: limit(1.0),
        }
    }
}
