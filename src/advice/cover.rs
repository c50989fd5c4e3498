//! All that fits on a surface of one kind, side by side: rows or columns of upright and turned pieces, whichever hold most, and
//! what still fits beside them.
//!
//! In whole ticks, as places are stored. Rows are chosen by the most pieces that rows above one another can hold.

use crate::geometry::{Rect, Surface};
use crate::scenario::document::{Piece, Place, Stands};

use super::places::{Mark, Spot, laid_at, stands};
use super::rules::{Home, Shape};
use super::space::{Block, Corner, metres, nearest_free, ticks_above, ticks_below};

/// Most pieces of a plan, as a document holds.
pub(super) const MOST_PIECES: usize = 200;

/// A surface that is to be covered with a kind.
#[derive(Clone, Copy)]
pub(super) struct Wanted<'a> {
    pub home: Home<'a>,
    pub kind: usize,
    pub shape: Shape<'a>,
    pub surface: Surface,
    /// What pieces that are there cover of it.
    pub there: &'a [Rect],
    /// How high a curtain hangs, m.
    pub hangs_m: f64,
}

impl Wanted<'_> {
    fn extent(&self) -> Rect {
        self.surface.extent(self.home.scenario.room.size_m())
    }

    /// What a piece may not overlap.
    fn taken(&self) -> Vec<Rect> {
        let any = laid_at(self.shape, self.surface, false, (0.0, 0.0));
        let obstacles = self.home.obstacles(self.surface, self.shape, &any);
        let areas = obstacles.into_iter().map(|(area, _)| area);
        areas.chain(self.there.iter().copied()).collect()
    }

    /// What of it is free, m².
    pub fn free_m2(&self) -> f64 {
        let cells = cells(self.extent(), &self.taken());
        cells.into_iter().map(Rect::area_m2).sum()
    }

    /// The pieces that fit, nearest to a bounce mark first.
    pub fn fitting(&self, marks: &[Mark]) -> Vec<Spot> {
        let is_curtain = stands(self.shape) == Stands::Curtain;
        let area = Area {
            size: [
                ticks_below(self.extent().width_m),
                ticks_below(self.extent().height_m),
            ],
            taken: self.taken(),
        };
        let upright = self.sides(false);
        let laid = if is_curtain {
            let row = area.row(upright, super::space::ticks(self.hangs_m));
            row.into_iter().map(|corner| (corner, false)).collect()
        } else {
            area.filled(upright)
        };
        let place = |(corner, turned): (Corner, bool)| {
            let at_m = (metres(corner[0]), metres(corner[1]));
            laid_at(self.shape, self.surface, turned, at_m)
        };
        let mut places: Vec<Place> = laid.into_iter().map(place).collect();
        places.retain(|place| self.home.refused(self.shape, place).is_none());
        let away = |place: &Place| self.away_m(place, marks);
        places.sort_by(|a, b| away(a).total_cmp(&away(b)));
        places.truncate(MOST_PIECES);
        places
            .into_iter()
            .map(|place| Spot {
                kind: self.kind,
                piece: Piece {
                    kit: self.shape.kind.id.clone(),
                    place,
                },
            })
            .collect()
    }

    fn sides(&self, turned: bool) -> Corner {
        let rect = self.shape.kind.rect(0.0, 0.0, turned);
        [ticks_above(rect.width_m), ticks_above(rect.height_m)]
    }

    /// From a piece to the nearest bounce mark of the surface, or to its middle, m.
    fn away_m(&self, place: &Place, marks: &[Mark]) -> f64 {
        let covered = self.home.covered(self.shape, place).on;
        let Some((_, rect)) = covered.first() else {
            return f64::INFINITY;
        };
        let middle = |rect: &Rect| {
            (
                rect.u_m + rect.width_m / 2.0,
                rect.v_m + rect.height_m / 2.0,
            )
        };
        let at = middle(rect);
        let far_m = |to: (f64, f64)| (at.0 - to.0).hypot(at.1 - to.1);
        let on_it = marks.iter().filter(|mark| mark.surface == self.surface);
        let nearest_m = on_it.map(|mark| far_m(mark.uv_m)).reduce(f64::min);
        nearest_m.unwrap_or_else(|| far_m(middle(&self.extent())))
    }
}

/// Parts of a rectangle outside of others, cut along all of their edges.
fn cells(extent: Rect, taken: &[Rect]) -> Vec<Rect> {
    let edges = |low: fn(&Rect) -> f64, length: fn(&Rect) -> f64| {
        let end = low(&extent) + length(&extent);
        let mut all: Vec<f64> = taken
            .iter()
            .flat_map(|one| [low(one), low(one) + length(one)])
            .filter(|at| (low(&extent)..=end).contains(at))
            .chain([low(&extent), end])
            .collect();
        all.sort_by(f64::total_cmp);
        all
    };
    let us = edges(|one| one.u_m, |one| one.width_m);
    let vs = edges(|one| one.v_m, |one| one.height_m);
    let across = us.windows(2).flat_map(|u| {
        vs.windows(2).map(|v| Rect {
            u_m: u[0],
            v_m: v[0],
            width_m: u[1] - u[0],
            height_m: v[1] - v[0],
        })
    });
    let is_free = |cell: &Rect| {
        let middle = (
            cell.u_m + cell.width_m / 2.0,
            cell.v_m + cell.height_m / 2.0,
        );
        !taken.iter().any(|one| one.contains(middle))
    };
    across.filter(is_free).collect()
}

/// A surface in ticks, with what is taken of it.
struct Area {
    size: Corner,
    taken: Vec<Rect>,
}

impl Area {
    fn blocks(&self, piece: Corner) -> Vec<Block> {
        let of = |area: &Rect| Block::of(*area, piece);
        self.taken.iter().map(of).collect()
    }

    /// The fuller of rows and columns, and whatever fits beside.
    fn filled(&self, upright: Corner) -> Vec<(Corner, bool)> {
        let turned = [upright[1], upright[0]];
        let rows = self.rows([(upright, false), (turned, true)]);
        let columns = self.across().rows([(turned, false), (upright, true)]);
        let mut laid = if columns.len() > rows.len() {
            let back = |([v, u], is_turned): (Corner, bool)| ([u, v], is_turned);
            columns.into_iter().map(back).collect()
        } else {
            rows
        };
        for (piece, is_turned) in [(upright, false), (turned, true)] {
            self.fill(&mut laid, (piece, is_turned), upright);
        }
        laid
    }

    /// Adds pieces, the nearest to the low corner first, until none fits.
    fn fill(&self, laid: &mut Vec<(Corner, bool)>, piece: (Corner, bool), upright: Corner) {
        let ([width, height], is_turned) = piece;
        let mut blocks = self.blocks([width, height]);
        let beside = |(corner, turned): (Corner, bool)| {
            let sides = if turned {
                [upright[1], upright[0]]
            } else {
                upright
            };
            Block {
                low: [corner[0] - width, corner[1] - height],
                high: [corner[0] + sides[0], corner[1] + sides[1]],
            }
        };
        blocks.extend(laid.iter().copied().map(beside));
        let most = [self.size[0] - width, self.size[1] - height];
        let reach = self.size[0] + self.size[1];
        while laid.len() < MOST_PIECES
            && let Some(corner) = nearest_free([0, 0], ([0, 0], most), &blocks, reach)
        {
            laid.push((corner, is_turned));
            blocks.push(beside((corner, is_turned)));
        }
    }

    /// The same with its axes exchanged.
    fn across(&self) -> Self {
        let turned = |area: &Rect| Rect {
            u_m: area.v_m,
            v_m: area.u_m,
            width_m: area.height_m,
            height_m: area.width_m,
        };
        Self {
            size: [self.size[1], self.size[0]],
            taken: self.taken.iter().map(turned).collect(),
        }
    }

    /// One row that begins at a height, each run of it in the middle of its gap.
    fn row(&self, piece: Corner, v: i64) -> Vec<Corner> {
        if v < 0 || v + piece[1] > self.size[1] {
            return Vec::new();
        }
        let blocks = self.blocks([0, piece[1]]);
        let beside = blocks
            .iter()
            .filter(|block| v > block.low[1] && v < block.high[1]);
        let mut spans: Vec<[i64; 2]> = beside
            .map(|block| [block.low[0], block.high[0]])
            .chain([[self.size[0]; 2]])
            .collect();
        spans.sort_unstable();
        let (mut at, mut found) = (0, Vec::new());
        for [low, high] in spans {
            let count = (low - at).max(0) / piece[0];
            let from = at + (low - at - count * piece[0]) / 2;
            found.extend((0..count).map(|i| [from + i * piece[0], v]));
            at = at.max(high);
        }
        found
    }

    /// The rows above one another that hold most pieces, each of upright or of turned ones.
    fn rows(&self, ways: [(Corner, bool); 2]) -> Vec<(Corner, bool)> {
        let starts = self.starts(ways.map(|(piece, _)| piece[1]));
        // From the top down: the most pieces from each start on, and which way a row lies that begins there.
        let mut most: Vec<(usize, Option<usize>)> = vec![(0, None); starts.len() + 1];
        let next = |index: usize, way: usize| {
            let end = starts[index] + ways[way].0[1];
            starts.partition_point(|start| *start < end)
        };
        for (index, v) in starts.iter().enumerate().rev() {
            most[index] = (most[index + 1].0, None);
            for (way, (piece, _)) in ways.iter().enumerate() {
                let count = self.row(*piece, *v).len();
                let with = count + most[next(index, way)].0;
                if count > 0 && with > most[index].0 {
                    most[index] = (with, Some(way));
                }
            }
        }
        let (mut index, mut found) = (0, Vec::new());
        while index < starts.len() {
            if let Some(way) = most[index].1 {
                let (piece, is_turned) = ways[way];
                let row = self.row(piece, starts[index]);
                found.extend(row.into_iter().map(|corner| (corner, is_turned)));
                index = next(index, way);
            } else {
                index += 1;
            }
        }
        found
    }

    /// Where rows of those heights may begin: on or under an edge, with whole rows between, ascending.
    fn starts(&self, heights: [i64; 2]) -> Vec<i64> {
        let blocks = self.blocks([0, 0]);
        let ups = blocks.iter().map(|block| block.high[1]).chain([0]);
        let downs = blocks.iter().map(|block| block.low[1]);
        let downs = downs.chain([self.size[1]]);
        let counts = heights.map(|height| self.size[1] / height);
        let stacks: Vec<i64> = (0..=counts[0])
            .flat_map(|i| (0..=counts[1]).map(move |j| i * heights[0] + j * heights[1]))
            .filter(|stack| *stack <= self.size[1])
            .collect();
        let mut starts: Vec<i64> = ups
            .flat_map(|edge| stacks.iter().map(move |stack| edge + stack))
            .chain(downs.flat_map(|edge| stacks.iter().map(move |stack| edge - stack)))
            .filter(|start| (0..self.size[1]).contains(start))
            .collect();
        starts.sort_unstable();
        starts.dedup();
        starts
    }
}
