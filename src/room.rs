//! A box room full of air, with its six walls and the furniture that stands free in it.

use glam::DVec3;

use crate::air::Air;
use crate::bands::Banded;
use crate::geometry::Surface;
use crate::surface::Wall;

/// Everything that the decay and the reflections need to know of a room with one plan's pieces in it.
#[derive(Clone, Debug)]
pub struct Room {
    /// Width, length, height (x, y, z), m.
    pub size_m: DVec3,
    /// The air in it.
    pub air: Air,
    /// The walls in the order of [`Surface::ALL`].
    pub walls: [Wall; 6],
    /// Equivalent absorption area of the free-standing furniture, m².
    pub furniture_absorption_m2: Banded,
    /// Surface of the free-standing furniture, m².
    pub furniture_surface_m2: f64,
}

impl Room {
    /// Volume of the box, m³.
    #[must_use]
    pub fn volume_m3(&self) -> f64 {
        self.size_m.x * self.size_m.y * self.size_m.z
    }

    /// Area of the six surfaces, m².
    #[must_use]
    pub fn area_m2(&self) -> f64 {
        Surface::ALL
            .into_iter()
            .map(|surface| surface.extent(self.size_m).area_m2())
            .sum()
    }

    /// Mean free path of a diffuse field, m.
    ///
    /// ```text
    /// l = 4 V / S
    /// ```
    ///
    /// # Source
    /// Kosten, The mean free path in room acoustics, Acustica 10 (1960) 245–250.
    #[must_use]
    pub fn mean_free_path_m(&self) -> f64 {
        4.0 * self.volume_m3() / self.area_m2()
    }

    /// Hits of the furniture per metre of a path through the room, 1/m.
    ///
    /// ```text
    /// S_obj / (4 V)
    /// ```
    ///
    /// # Source
    /// Mean cross-section of a convex body is a quarter of its surface (Cauchy 1832); bodies spread at random.
    #[must_use]
    pub fn furniture_hits_per_m(&self) -> f64 {
        self.furniture_surface_m2 / (4.0 * self.volume_m3())
    }

    /// The wall of that surface.
    #[must_use]
    pub fn wall(&self, surface: Surface) -> &Wall {
        &self.walls[surface as usize]
    }
}
