//! Whole plans: greedy with exact increments, then swaps until no single one helps. One step after the other, so that it can be
//! stopped, resumed and told about at any time; the same document always takes the same steps.

use super::cover::MOST_PIECES;
use super::objective::Steps;
use super::scales::{Change, Load, Scales};

/// Less than this is no gain, steps.
const LEAST_GAIN: f64 = 1e-9;

/// Two pieces at once are taken out of plans of at most so many.
const MOST_FOR_TWO: usize = 12;

/// What a search keeps to.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bounds {
    /// Most money for new pieces.
    pub budget: Option<f64>,
    /// Candidates that may not be used.
    pub barred: Vec<usize>,
    /// Most pieces, those that are there included.
    pub most_pieces: Option<usize>,
}

/// One thing that was added on the way, with what it brought.
#[derive(Clone, Debug, PartialEq)]
pub struct Bought {
    /// Candidates: one, or two that are each other's like.
    pub added: Vec<usize>,
    /// What the plan came to then.
    pub steps: Steps,
    /// What the new pieces cost together then.
    pub price: f64,
}

/// What greedy steps are ranked by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum By {
    Gain,
    GainPerMoney,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Phase {
    Greedy(By),
    /// Looks at one row of exchanges after the other; `since`: rows since the last gain.
    Improve {
        row: usize,
        since: usize,
    },
    /// Takes one piece out after the other, or two, and fills up again without them.
    Refill {
        index: usize,
    },
    Done,
}

/// A search under way.
#[derive(Clone, Debug)]
pub struct Search {
    bounds: Bounds,
    phase: Phase,
    start: Vec<usize>,
    load: Load,
    best: Option<Load>,
    /// What was bought one after the other, by gain.
    pub order: Vec<Bought>,
    bought: Vec<Bought>,
    taken: usize,
}

impl Search {
    /// Starts from the pieces that are there.
    #[must_use]
    pub fn new(scales: &mut Scales, bounds: Bounds) -> Self {
        let start: Vec<usize> = (0..scales.table.there).collect();
        Self {
            load: scales.load(start.clone()),
            bounds,
            phase: Phase::Greedy(By::GainPerMoney),
            start,
            best: None,
            order: Vec::new(),
            bought: Vec::new(),
            taken: 0,
        }
    }

    /// The best set found so far.
    #[must_use]
    pub fn best(&self) -> &Load {
        match &self.best {
            Some(best) if best.steps.sum() <= self.load.steps.sum() => best,
            _ => &self.load,
        }
    }

    /// Whether a first whole plan is there.
    #[must_use]
    pub fn has_plan(&self) -> bool {
        self.best.is_some()
    }

    /// Whether no exchange helps any more.
    #[must_use]
    pub fn is_done(&self) -> bool {
        self.phase == Phase::Done
    }

    /// How far it is, as a share of what such searches take; it never falls.
    #[must_use]
    pub fn progress(&self) -> f64 {
        if self.is_done() {
            return 1.0;
        }
        let taken = self.taken as f64;
        taken / (taken + 30.0)
    }

    /// One step; `true` once there is nothing left to do.
    pub fn step(&mut self, scales: &mut Scales) -> bool {
        self.taken += 1;
        match self.phase {
            Phase::Greedy(by) => self.greedy(scales, by),
            Phase::Improve { row, since } => self.improve(scales, row, since),
            Phase::Refill { index } => self.refill(scales, index),
            Phase::Done => {}
        }
        self.is_done()
    }

    /// To the end.
    pub fn run(&mut self, scales: &mut Scales) {
        while !self.step(scales) {}
    }

    fn greedy(&mut self, scales: &mut Scales, by: By) {
        if let Some((added, steps)) = self.best_addition(scales, by) {
            let chosen = self
                .load
                .chosen
                .iter()
                .copied()
                .chain(added.iter().copied());
            self.load = scales.load(chosen.collect());
            self.bought.push(Bought {
                added,
                steps,
                price: self.price(scales, &self.load.chosen),
            });
            return;
        }
        self.keep();
        if by == By::GainPerMoney {
            self.order = std::mem::take(&mut self.bought);
            self.load = scales.load(self.start.clone());
            self.phase = Phase::Greedy(By::Gain);
        } else {
            self.bought.clear();
            self.load = self.best().clone();
            self.phase = Phase::Improve { row: 0, since: 0 };
        }
    }

    fn keep(&mut self) {
        if self
            .best
            .as_ref()
            .is_none_or(|best| self.load.steps.sum() < best.steps.sum())
        {
            self.best = Some(self.load.clone());
        }
    }

    /// The addition that brings most: a piece, or a piece with its like on the other side.
    fn best_addition(&mut self, scales: &mut Scales, by: By) -> Option<(Vec<usize>, Steps)> {
        let mut best: Option<(f64, Vec<usize>, Steps)> = None;
        let now = self.load.steps.sum();
        for number in 0..scales.table.candidates.len() {
            for into in additions(scales, number) {
                if !self.allows(scales, &[], &into) {
                    continue;
                }
                let change = Change {
                    out: &[],
                    into: &into,
                };
                let steps = scales.steps(&self.load, change);
                let gain = now - steps.sum();
                let price: f64 = into
                    .iter()
                    .map(|one| scales.table.candidates[*one].price)
                    .sum();
                let rank = match by {
                    By::GainPerMoney if price > 0.0 => gain / price,
                    _ => gain / into.len() as f64,
                };
                let is_better = best.as_ref().is_none_or(|(least, ..)| rank > *least);
                if gain > LEAST_GAIN && is_better {
                    best = Some((rank, into, steps));
                }
            }
        }
        best.map(|(_, added, steps)| (added, steps))
    }

    /// Tries every exchange of one row: first what could be added, then for each piece what could take its place, or nothing.
    fn improve(&mut self, scales: &mut Scales, row: usize, since: usize) {
        let rows = 1 + self.load.chosen.len();
        if since >= rows {
            self.keep();
            self.phase = Phase::Refill { index: 0 };
            return;
        }
        let row = row % rows;
        let better = if row == 0 {
            self.best_addition(scales, By::Gain)
                .map(|(into, _)| (Vec::new(), into))
        } else {
            self.best_exchange(scales, self.load.chosen[row - 1])
        };
        let since = if let Some((out, into)) = better {
            let kept = self.load.chosen.iter().filter(|one| !out.contains(one));
            self.load = scales.load(kept.copied().chain(into).collect());
            0
        } else {
            since + 1
        };
        self.phase = Phase::Improve {
            row: row + 1,
            since,
        };
    }

    /// Takes out the pieces of one entry and fills up again without them; a better plan starts the exchanges anew.
    fn refill(&mut self, scales: &mut Scales, index: usize) {
        let Some(out) = self.taken_out(index) else {
            self.phase = Phase::Done;
            return;
        };
        let kept = self
            .load
            .chosen
            .iter()
            .copied()
            .filter(|one| !out.contains(one));
        let before = (self.load.clone(), self.bounds.barred.len());
        let kept = kept.collect();
        self.bounds.barred.extend(&out);
        self.load = scales.load(kept);
        while let Some((added, _)) = self.best_addition(scales, By::Gain) {
            let chosen = self.load.chosen.iter().copied().chain(added);
            self.load = scales.load(chosen.collect());
        }
        self.bounds.barred.truncate(before.1);
        self.phase = if self.load.steps.sum() < before.0.steps.sum() - LEAST_GAIN {
            Phase::Improve { row: 0, since: 0 }
        } else {
            self.load = before.0;
            Phase::Refill { index: index + 1 }
        };
    }

    /// The pieces of an entry: each alone, then every two of a small plan.
    fn taken_out(&self, index: usize) -> Option<Vec<usize>> {
        let chosen = &self.load.chosen;
        let count = chosen.len();
        if index < count {
            return Some(vec![chosen[index]]);
        }
        if count > MOST_FOR_TWO {
            return None;
        }
        let pairs = (0..count).flat_map(|i| (i + 1..count).map(move |j| [i, j]));
        let [i, j] = pairs.into_iter().nth(index - count)?;
        Some(vec![chosen[i], chosen[j]])
    }

    /// The best exchange of a piece, alone or with its like: for nothing, for another piece, for two that are alike.
    fn best_exchange(&self, scales: &mut Scales, piece: usize) -> Option<(Vec<usize>, Vec<usize>)> {
        let twin = scales.table.candidates[piece].twin;
        let twin = twin.filter(|twin| *twin != piece && self.load.has(*twin));
        let mut outs = vec![vec![piece]];
        outs.extend(twin.map(|twin| vec![piece, twin]));
        let now = self.load.steps.sum();
        let mut best: Option<(f64, Vec<usize>, Vec<usize>)> = None;
        let mut weigh = |scales: &mut Scales, out: &[usize], into: Vec<usize>| {
            if !self.allows(scales, out, &into) {
                return;
            }
            let change = Change { out, into: &into };
            let gain = now - scales.steps(&self.load, change).sum();
            if gain > LEAST_GAIN && best.as_ref().is_none_or(|(most, ..)| gain > *most) {
                best = Some((gain, out.to_vec(), into));
            }
        };
        for out in &outs {
            weigh(scales, out, Vec::new());
            for number in 0..scales.table.candidates.len() {
                for into in additions(scales, number) {
                    weigh(scales, out, into);
                }
            }
        }
        best.map(|(_, out, into)| (out, into))
    }

    /// Whether a change leaves a plan that the home allows.
    fn allows(&self, scales: &mut Scales, out: &[usize], into: &[usize]) -> bool {
        let table = std::sync::Arc::clone(&scales.table);
        let is_free =
            |number: &usize| !self.load.has(*number) && !self.bounds.barred.contains(number);
        if !into.iter().all(is_free) {
            return false;
        }
        let kept: Vec<usize> = self
            .load
            .chosen
            .iter()
            .copied()
            .filter(|one| !out.contains(one))
            .collect();
        let meets = |number: &usize| kept.iter().any(|other| table.meet(*number, *other));
        if into.iter().any(meets) || (into.len() == 2 && table.meet(into[0], into[1])) {
            return false;
        }
        let all = || kept.iter().chain(into);
        let visible = all()
            .filter(|one| table.candidates[**one].is_visible)
            .count();
        let most = self.bounds.most_pieces.unwrap_or(MOST_PIECES);
        let adds = !into.is_empty();
        let price: f64 = all().map(|one| table.candidates[*one].price).sum();
        // A plan that costs too much already may be made cheaper.
        let dearer = into
            .iter()
            .map(|one| table.candidates[*one].price)
            .sum::<f64>()
            > out
                .iter()
                .map(|one| table.candidates[*one].price)
                .sum::<f64>();
        let within = self
            .bounds
            .budget
            .is_none_or(|budget| price <= budget + 1e-9 || !dearer);
        let is_allowed =
            within && (!adds || (visible <= table.most_visible && all().count() <= most));
        // What is taken away closes no way, nor does what nobody walks into.
        let narrows = into.iter().any(|one| table.is_in_the_way(*one));
        is_allowed && (!narrows || scales.leaves_ways(all().copied()))
    }

    fn price(&self, scales: &Scales, chosen: &[usize]) -> f64 {
        let price = |number: &usize| scales.table.candidates[*number].price;
        chosen.iter().map(price).sum()
    }
}

/// A candidate alone, and with its like on the other side; each pair once.
fn additions(scales: &Scales, number: usize) -> impl Iterator<Item = Vec<usize>> + use<> {
    let twin = scales.table.candidates[number].twin;
    let pair = twin
        .filter(|twin| *twin > number)
        .map(|twin| vec![number, twin]);
    std::iter::once(vec![number]).chain(pair)
}
