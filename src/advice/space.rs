//! The nearest free place of a rectangle among rectangles, in whole ticks of 0.1 mm, the step to which lengths are stored.
//!
//! The rectangle shrinks to its low corner and every obstacle grows by its size: what is left is a point outside of open
//! rectangles. The nearest such point is the wanted one, its projection on an edge, or a crossing of two edges.

use crate::geometry::Rect;

const TICKS_PER_M: f64 = 10_000.0;

/// Far below a tick: takes away what binary fractions add.
const EPSILON: f64 = 1e-3;

/// A point in ticks.
pub(super) type Corner = [i64; 2];

/// Corners strictly inside are forbidden; the bounds themselves touch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Block {
    pub low: Corner,
    pub high: Corner,
}

pub(super) fn ticks(value_m: f64) -> i64 {
    (value_m * TICKS_PER_M).round() as i64
}

pub(super) fn ticks_below(value_m: f64) -> i64 {
    (value_m * TICKS_PER_M + EPSILON).floor() as i64
}

pub(super) fn ticks_above(value_m: f64) -> i64 {
    (value_m * TICKS_PER_M - EPSILON).ceil() as i64
}

pub(super) fn metres(ticks: i64) -> f64 {
    ticks as f64 / TICKS_PER_M
}

impl Block {
    /// An obstacle as the low corner of a rectangle of that size sees it.
    pub fn of(obstacle: Rect, size: Corner) -> Self {
        Self {
            low: [
                ticks_below(obstacle.u_m) - size[0],
                ticks_below(obstacle.v_m) - size[1],
            ],
            high: [
                ticks_above(obstacle.u_m + obstacle.width_m),
                ticks_above(obstacle.v_m + obstacle.height_m),
            ],
        }
    }

    pub fn forbids(&self, corner: Corner) -> bool {
        (0..2).all(|axis| corner[axis] > self.low[axis] && corner[axis] < self.high[axis])
    }
}

/// The free corner nearest to the wanted one, between bounds and within reach along each axis; none if there is none.
pub(super) fn nearest_free(
    wanted: Corner,
    (least, most): (Corner, Corner),
    blocks: &[Block],
    reach: i64,
) -> Option<Corner> {
    if most[0] < least[0] || most[1] < least[1] {
        return None;
    }
    let start = [0, 1].map(|axis| wanted[axis].clamp(least[axis], most[axis]));
    if !blocks.iter().any(|block| block.forbids(start)) {
        return Some(start);
    }
    let [us, vs] = [0, 1].map(|axis| {
        let edges = blocks
            .iter()
            .flat_map(|block| [block.low[axis], block.high[axis]]);
        let mut all: Vec<i64> = edges
            .chain([start[axis]])
            .filter(|at| (least[axis]..=most[axis]).contains(at))
            .filter(|at| (at - start[axis]).abs() <= reach)
            .collect();
        all.sort_by_key(|at| ((at - start[axis]).abs(), *at));
        all.dedup();
        all
    });
    let mut best: Option<(i64, Corner)> = None;
    for &u in &us {
        for &v in &vs {
            let square = (u - start[0]).pow(2) + (v - start[1]).pow(2);
            if best.is_some_and(|(least, _)| square >= least) || square > reach * reach {
                break;
            }
            if !blocks.iter().any(|block| block.forbids([u, v])) {
                best = Some((square, [u, v]));
            }
        }
    }
    best.map(|(_, corner)| corner)
}
