//! Ways to walk: which ends of a room a free way of a stated width joins.
//!
//! Who walks is a square of that width. Everything that stands on the floor grows by half of it, so that what is left is where
//! the middle of the square may be. The floor is cut along all edges and flooded from cell to cell, which is exact.

use crate::geometry::{Rect, TOUCH_M};

/// How wide a way is kept, m. Common practice, no source.
pub(super) const ROUTE_M: f64 = 0.9;

/// What grows round things, m: a gap of just the width is wide enough.
const HALF_M: f64 = ROUTE_M / 2.0 - TOUCH_M;

/// A floor as it is walked.
#[derive(Clone, Debug)]
pub(super) struct Floor {
    extent: Rect,
    /// Where the middle of who walks has arrived.
    ends: Vec<Rect>,
    standing: Vec<Rect>,
}

/// Which pairs of ends are joined, in the order of their numbers.
pub(super) type Joined = Vec<bool>;

impl Floor {
    /// Of what stands on it; an end is where one is before a door or at the seat.
    pub fn new(extent: Rect, ends: Vec<Rect>, standing: Vec<Rect>) -> Self {
        Self {
            extent,
            ends,
            standing,
        }
    }

    /// Which pairs of ends are joined once more things stand on it.
    pub fn joined(&self, more: &[Rect]) -> Joined {
        let count = self.ends.len();
        if count < 2 {
            return Vec::new();
        }
        let taken: Vec<Rect> = self
            .standing
            .iter()
            .chain(more)
            .map(|one| one.grown(HALF_M))
            .collect();
        let cells = Cells::of(self.extent.grown(-HALF_M), &taken, &self.ends);
        let at: Vec<Vec<usize>> = self.ends.iter().map(|end| cells.regions_in(*end)).collect();
        let pairs = (0..count).flat_map(|one| (0..one).map(move |other| (one, other)));
        pairs
            .map(|(one, other)| at[one].iter().any(|region| at[other].contains(region)))
            .collect()
    }

    /// Whether all pairs that were joined still are with more things on the floor; a way that was not there cannot be closed.
    pub fn keeps(&self, before: &Joined, more: &[Rect]) -> bool {
        if !before.contains(&true) {
            return true;
        }
        let after = self.joined(more);
        before.iter().zip(after).all(|(was, is)| is || !was)
    }
}

/// A rectangle cut along the edges of others, its free cells numbered by the region that they belong to.
struct Cells {
    us: Vec<f64>,
    vs: Vec<f64>,
    /// Row by row; none where something is.
    regions: Vec<Option<usize>>,
}

impl Cells {
    fn of(extent: Rect, taken: &[Rect], ends: &[Rect]) -> Self {
        let all = || taken.iter().chain(ends);
        let us = cuts(
            extent.u_m,
            extent.width_m,
            all().map(|one| (one.u_m, one.width_m)),
        );
        let vs = cuts(
            extent.v_m,
            extent.height_m,
            all().map(|one| (one.v_m, one.height_m)),
        );
        let mut cells = Self {
            regions: vec![Some(0); us.len().saturating_sub(1) * vs.len().saturating_sub(1)],
            us,
            vs,
        };
        for one in taken {
            for cell in cells.inside(*one) {
                cells.regions[cell] = None;
            }
        }
        let mut number = 0;
        for start in 0..cells.regions.len() {
            if cells.regions[start] == Some(0) {
                number += 1;
                cells.flood(start, number);
            }
        }
        cells
    }

    fn columns(&self) -> usize {
        self.us.len().saturating_sub(1)
    }

    /// Cells within a rectangle whose edges the floor is cut along.
    fn inside(&self, rect: Rect) -> Vec<usize> {
        let span = |cuts: &[f64], low_m: f64, length_m: f64| {
            let first = cuts.partition_point(|cut| *cut < low_m);
            let end = cuts.partition_point(|cut| *cut <= low_m + length_m);
            first..end.saturating_sub(1)
        };
        let columns = span(&self.us, rect.u_m, rect.width_m);
        let rows = span(&self.vs, rect.v_m, rect.height_m);
        let width = self.columns();
        rows.flat_map(|row| columns.clone().map(move |column| row * width + column))
            .collect()
    }

    fn flood(&mut self, start: usize, number: usize) {
        let columns = self.columns();
        let mut next = vec![start];
        while let Some(cell) = next.pop() {
            if self.regions[cell] != Some(0) {
                continue;
            }
            self.regions[cell] = Some(number);
            let column = cell % columns;
            let beside = [
                (column > 0).then(|| cell - 1),
                (column + 1 < columns).then(|| cell + 1),
                cell.checked_sub(columns),
                Some(cell + columns).filter(|below| *below < self.regions.len()),
            ];
            next.extend(beside.into_iter().flatten());
        }
    }

    fn regions_in(&self, rect: Rect) -> Vec<usize> {
        let mut found: Vec<usize> = self
            .inside(rect)
            .into_iter()
            .filter_map(|cell| self.regions[cell])
            .collect();
        found.sort_unstable();
        found.dedup();
        found
    }
}

/// Where a length is cut, its own ends included; none for a length that is not there.
fn cuts(low_m: f64, length_m: f64, spans: impl Iterator<Item = (f64, f64)>) -> Vec<f64> {
    let high_m = low_m + length_m;
    if length_m <= 0.0 {
        return Vec::new();
    }
    let inner = spans.flat_map(|(from_m, along_m)| [from_m, from_m + along_m]);
    let mut all: Vec<f64> = inner
        .filter(|at_m| *at_m > low_m && *at_m < high_m)
        .chain([low_m, high_m])
        .collect();
    all.sort_by(f64::total_cmp);
    all.dedup();
    all
}
