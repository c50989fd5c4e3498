//! What a set of pieces comes to, from sums of what each does by itself. Decays are remembered by how many pieces of each
//! late effect are there, as their places do not matter to them; memory never changes a result.

use std::collections::HashMap;
use std::sync::Arc;

use crate::bands::Banded;
use crate::decay::{Field, t20_and_sums_of};
use crate::geometry::Surface;
use crate::room::Room;

use super::objective::{Outcome, Steps};
use super::table::{Bounce, Row, Table};

/// Bands of the octaves that the objective names.
const OCTAVE_BANDS: [usize; 6] = [4, 7, 10, 13, 16, 19];

/// A decay that never ends is taken for one of this length, s.
const ENDLESS_S: f64 = 100.0;

/// Weighs sets of pieces.
#[derive(Clone, Debug)]
pub struct Scales {
    /// What may be weighed.
    pub table: Arc<Table>,
    room: Room,
    known: HashMap<Box<[u8]>, [f64; 6]>,
    /// Whether sets of candidates in the way of who walks leave every way, by their numbers.
    ways: HashMap<Box<[usize]>, bool>,
    /// Decays computed so far.
    pub computed: usize,
}

/// A set of pieces on the scales, ready to be changed.
#[derive(Clone, Debug, Default)]
pub struct Load {
    /// Numbers of the candidates, ascending.
    pub chosen: Vec<usize>,
    is_chosen: Vec<bool>,
    counts: Vec<u8>,
    /// By loudspeaker, then wall.
    rows: Vec<Vec<Row>>,
    energies: Vec<[f64; 6]>,
    /// What the set comes to.
    pub steps: Steps,
}

/// Pieces taken away and pieces added.
#[derive(Clone, Copy, Debug, Default)]
pub struct Change<'a> {
    /// Taken away.
    pub out: &'a [usize],
    /// Added.
    pub into: &'a [usize],
}

impl Scales {
    /// Scales for a table.
    #[must_use]
    pub fn new(table: Arc<Table>) -> Self {
        let mut room = table.ground.room.clone();
        for wall in &mut room.walls {
            wall.parts.clear();
        }
        Self {
            room,
            table,
            known: HashMap::new(),
            ways: HashMap::new(),
            computed: 0,
        }
    }

    /// A set of pieces.
    #[must_use]
    pub fn load(&mut self, mut chosen: Vec<usize>) -> Load {
        chosen.sort_unstable();
        let table = Arc::clone(&self.table);
        let mut load = Load {
            is_chosen: vec![false; table.candidates.len()],
            counts: vec![0; table.classes.len()],
            rows: table
                .bounces
                .iter()
                .map(|walls| walls.iter().map(|bounce| bounce.row).collect())
                .collect(),
            energies: Vec::new(),
            chosen,
            steps: Steps::default(),
        };
        for &number in &load.chosen {
            let candidate = &table.candidates[number];
            load.is_chosen[number] = true;
            load.counts[candidate.class] += 1;
            for (wall, changes) in &candidate.walls {
                for (rows, change) in load.rows.iter_mut().zip(changes) {
                    add(&mut rows[*wall], change, 1.0);
                }
            }
        }
        let screens: Vec<usize> = with_screens(&table, &load.chosen);
        load.energies = (0..table.bounces.len())
            .map(|loudspeaker| {
                std::array::from_fn(|wall| {
                    let bounce = &table.bounces[loudspeaker][wall];
                    let row = &load.rows[loudspeaker][wall];
                    screened(&table, &screens, bounce, (loudspeaker, wall), row)
                })
            })
            .collect();
        load.steps = self.steps(&load, Change::default());
        load
    }

    /// What one first bounce of a set counts, its delay weighed.
    #[must_use]
    pub fn bounce(&self, load: &Load, loudspeaker: usize, surface: Surface) -> f64 {
        load.energies[loudspeaker][surface as usize]
    }

    /// Whether a set leaves every way to walk that there is.
    pub fn leaves_ways(&mut self, set: impl Iterator<Item = usize>) -> bool {
        let table = &self.table;
        let mut key: Vec<usize> = set.filter(|one| table.is_in_the_way(*one)).collect();
        if key.is_empty() {
            return true;
        }
        key.sort_unstable();
        let key = key.into_boxed_slice();
        if let Some(known) = self.ways.get(&key) {
            return *known;
        }
        let leaves = table.leaves_ways(&key);
        self.ways.insert(key, leaves);
        leaves
    }

    /// What the set would come to after a change.
    pub fn steps(&mut self, load: &Load, change: Change<'_>) -> Steps {
        let outcome = self.outcome(load, change);
        self.table.objective.steps(&outcome)
    }

    /// What the set would come to after a change, in figures.
    pub fn outcome(&mut self, load: &Load, change: Change<'_>) -> Outcome {
        let mut counts = load.counts.clone();
        for &number in change.out {
            counts[self.table.candidates[number].class] -= 1;
        }
        for &number in change.into {
            counts[self.table.candidates[number].class] += 1;
        }
        let t20_s = self.t20_s(counts);
        let (bounces, sides) = self.bounces(load, change);
        let table = &self.table;
        let is_there = |number: usize| {
            change.into.contains(&number)
                || (load.is_chosen[number] && !change.out.contains(&number))
        };
        let (mut pieces, mut lone, mut price) = (0, 0, 0.0);
        let kept = load.chosen.iter().filter(|one| !change.out.contains(one));
        for &number in kept.chain(change.into) {
            let candidate = &table.candidates[number];
            price += candidate.price;
            pieces += usize::from(candidate.is_new);
            let is_lone = candidate.twin.is_some_and(|twin| !is_there(twin));
            lone += usize::from(candidate.is_new && is_lone);
        }
        Outcome {
            t20_s,
            bounces,
            sides,
            pieces,
            lone,
            price,
        }
    }

    /// The decay of the octaves with so many pieces of each late effect, s.
    fn t20_s(&mut self, counts: Vec<u8>) -> [f64; 6] {
        let counts = counts.into_boxed_slice();
        if let Some(known) = self.known.get(&counts) {
            return *known;
        }
        let found = self.computed_t20_s(&counts);
        self.known.insert(counts, found);
        self.computed += 1;
        found
    }

    fn computed_t20_s(&mut self, counts: &[u8]) -> [f64; 6] {
        let ground = &self.table.ground;
        let mut sums = ground.sums;
        let mut furniture = (
            ground.room.furniture_absorption_m2,
            ground.room.furniture_surface_m2,
        );
        for (late, &count) in self.table.classes.iter().zip(counts) {
            let times = f64::from(count);
            if count == 0 {
                continue;
            }
            for (surface, added) in &late.walls {
                let sum = &mut sums[*surface as usize];
                *sum = sum.plus(added, times);
            }
            if let Some((absorption_m2, surface_m2)) = late.furniture {
                furniture.0 = furniture.0 + absorption_m2 * times;
                furniture.1 += surface_m2 * times;
            }
        }
        (
            self.room.furniture_absorption_m2,
            self.room.furniture_surface_m2,
        ) = furniture;
        let size_m = self.room.size_m;
        let area_m2 = |surface: Surface| surface.extent(size_m).area_m2();
        let means = |of: fn(&crate::surface::WallSums, f64) -> Banded| {
            Surface::ALL.map(|surface| of(&sums[surface as usize], area_m2(surface)))
        };
        let absorption = means(crate::surface::WallSums::mean_absorption);
        let scattering = means(crate::surface::WallSums::mean_scattering);
        let fields = OCTAVE_BANDS.map(|band| Field::of(&self.room, &absorption, &scattering, band));
        let mut decays = t20_and_sums_of(&fields).into_iter();
        OCTAVE_BANDS.map(|_| {
            decays
                .next()
                .flatten()
                .map_or(ENDLESS_S, |(t20_s, _)| t20_s)
        })
    }

    /// First bounces: all together, and off the left and right wall.
    fn bounces(&self, load: &Load, change: Change<'_>) -> (f64, [f64; 2]) {
        let table = &self.table;
        let count = table.bounces.len();
        if count == 0 {
            return (0.0, [0.0; 2]);
        }
        let kept = load.chosen.iter().filter(|one| !change.out.contains(one));
        let there: Vec<usize> = kept.chain(change.into).copied().collect();
        let screens = with_screens(table, &there);
        let moves_screens = change.out.iter().chain(change.into);
        let anew = moves_screens
            .into_iter()
            .any(|number| table.candidates[*number].screen.is_some());
        let mut touched = [anew; 6];
        for &number in change.out.iter().chain(change.into) {
            for (wall, _) in &table.candidates[number].walls {
                touched[*wall] = true;
            }
        }
        let (mut all, mut sides) = (0.0, [0.0; 2]);
        for loudspeaker in 0..count {
            for surface in Surface::ALL {
                let wall = surface as usize;
                let energy = if touched[wall] {
                    let at = (loudspeaker, wall);
                    let row = changed(table, load, change, at);
                    let bounce = &table.bounces[loudspeaker][wall];
                    screened(table, &screens, bounce, at, &row)
                } else {
                    load.energies[loudspeaker][wall]
                };
                all += energy;
                if let Some(side) = table.sides.iter().position(|one| *one == surface) {
                    sides[side] += energy;
                }
            }
            let own = screens
                .iter()
                .filter_map(|one| table.candidates[*one].screen.as_ref());
            all += own.map(|screen| screen.own[loudspeaker]).sum::<f64>();
        }
        let share = 1.0 / count as f64;
        (all * share, sides.map(|side| side * share))
    }
}

impl Load {
    /// Whether a candidate is there.
    #[must_use]
    pub fn has(&self, number: usize) -> bool {
        self.is_chosen[number]
    }
}

fn with_screens(table: &Table, numbers: &[usize]) -> Vec<usize> {
    let has = |number: &usize| table.candidates[*number].screen.is_some();
    numbers.iter().copied().filter(has).collect()
}

fn add(row: &mut Row, change: &Row, times: f64) {
    for (value, change) in row.iter_mut().zip(change) {
        *value += change * times;
    }
}

/// The pressure of one bounce after a change.
fn changed(
    table: &Table,
    load: &Load,
    change: Change<'_>,
    (loudspeaker, wall): (usize, usize),
) -> Row {
    let mut row = load.rows[loudspeaker][wall];
    for (numbers, times) in [(change.out, -1.0), (change.into, 1.0)] {
        for &number in numbers {
            let walls = table.candidates[number].walls.iter();
            for (_, changes) in walls.filter(|(of, _)| *of == wall) {
                add(&mut row, &changes[loudspeaker], times);
            }
        }
    }
    row
}

/// What a bounce counts past all screens.
fn screened(
    table: &Table,
    screens: &[usize],
    bounce: &Bounce,
    (loudspeaker, wall): (usize, usize),
    row: &Row,
) -> f64 {
    let passing = screens
        .iter()
        .filter_map(|number| {
            let screen = table.candidates[*number].screen.as_ref()?;
            screen.passing[loudspeaker][wall].as_ref()
        })
        .fold(None, |product: Option<Row>, next| {
            Some(product.map_or(*next, |product| {
                std::array::from_fn(|i| product[i] * next[i])
            }))
        });
    bounce.energy(row, passing.as_ref())
}
