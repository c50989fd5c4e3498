//! What is remembered between calls: for some listening positions, the paths, and what each wall does on them.

use glam::DVec3;

use crate::footprint::Mirror;
use crate::geometry::Surface;
use crate::image_source::{Hit, ImagePath, images};
use crate::room::Room;

use super::rows::Hits;
use super::wall::WallMemory;

/// Highest order of the images.
pub const HIGHEST_ORDER: usize = 3;

/// Highest order that is computed finely over frequency.
const HIGHEST_FINE_ORDER: usize = 2;

/// Listening positions that are remembered.
const MOST_POSITIONS: usize = 3;

/// What [`super::early`] remembers from call to call. It never changes a result: all that is kept stands with everything
/// it depends on, and serves only where that is the same.
#[derive(Clone, Debug, Default)]
pub struct Cache {
    /// The one used last at the end.
    positions: Vec<Position>,
    call: u64,
}

impl Cache {
    /// One that remembers nothing yet.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// What is known for these positions in this room, and the number of the call.
    pub(super) fn position(
        &mut self,
        room: &Room,
        sources_m: &[DVec3],
        receiver_m: DVec3,
    ) -> (&mut Position, u64) {
        self.call += 1;
        let place = Place {
            size_m: room.size_m,
            speed_of_sound_m_per_s: room.air.speed_of_sound_m_per_s,
            sources_m: sources_m.to_vec(),
            receiver_m,
        };
        let found = self.positions.iter().position(|known| known.place == place);
        let position = match found {
            Some(index) => self.positions.remove(index),
            None => Position::new(place),
        };
        if self.positions.len() >= MOST_POSITIONS {
            self.positions.remove(0);
        }
        self.positions.push(position);
        let last = self.positions.len() - 1;
        (&mut self.positions[last], self.call)
    }
}

/// What paths depend on.
#[derive(Clone, Debug, PartialEq)]
struct Place {
    size_m: DVec3,
    speed_of_sound_m_per_s: f64,
    sources_m: Vec<DVec3>,
    receiver_m: DVec3,
}

/// Paths to one listening position.
#[derive(Clone, Debug)]
pub(super) struct Position {
    place: Place,
    /// Of each source.
    pub paths: Vec<Vec<ImagePath>>,
    pub walls: [WallMemory; 6],
}

impl Position {
    fn new(place: Place) -> Self {
        let paths: Vec<Vec<ImagePath>> = place
            .sources_m
            .iter()
            .map(|&source_m| images(place.size_m, source_m, place.receiver_m, HIGHEST_ORDER))
            .collect();
        let mut hits: [Hits; 6] = Default::default();
        for path in paths.iter().flatten() {
            for hit in &path.hits {
                let on_wall = &mut hits[hit.surface as usize];
                let list = if is_fine(path) {
                    &mut on_wall.fine
                } else {
                    &mut on_wall.coarse
                };
                list.push(mirror(hit));
            }
        }
        let walls = hits.map(|hits| WallMemory::new(hits, place.speed_of_sound_m_per_s));
        Self {
            place,
            paths,
            walls,
        }
    }
}

/// Whether a path is computed finely over frequency.
pub(super) fn is_fine(path: &ImagePath) -> bool {
    path.order() <= HIGHEST_FINE_ORDER
}

/// A hit in the frame of its surface.
pub(super) fn mirror(hit: &Hit) -> Mirror {
    let (u, v) = Surface::uv_axes(hit.surface);
    Mirror {
        point_m: hit.surface.uv(hit.point_m),
        before_m: hit.before_m,
        after_m: hit.after_m,
        along: (hit.travel[u], hit.travel[v]),
        cosine: hit.cosine,
    }
}
