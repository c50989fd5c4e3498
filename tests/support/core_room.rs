//! The tracer's rooms in the core's words: the one file of the support that knows both.

use super::tracer::{Patch as TracedPatch, TracedRoom};
use glam::DVec3;
use seatward::air::Air;
use seatward::bands::Banded;
use seatward::geometry::{Rect, Surface};
use seatward::room::Room;
use seatward::surface::{Facing, Patch, Wall};

/// Air whose attenuation is the same in every band.
pub fn air(attenuation_per_m: f64) -> Air {
    Air {
        attenuation_per_m: Banded::constant(attenuation_per_m),
        ..Air::at(20.0, 50.0)
    }
}

/// Even facing in every band.
pub fn facing(absorption: f64, scattering: f64) -> Facing {
    Facing {
        absorption: Banded::constant(absorption),
        scattering: Banded::constant(scattering),
    }
}

/// The tracer's room as the core describes it; every band is the same.
pub fn as_room(traced: &TracedRoom) -> Room {
    let size_m = DVec3::from_array(traced.size_m);
    let walls = Surface::ALL.map(|surface| {
        let wall = &traced.walls[surface as usize];
        let patch = |p: &TracedPatch| {
            let rect = Rect {
                u_m: p.u_m,
                v_m: p.v_m,
                width_m: p.width_m,
                height_m: p.height_m,
            };
            Patch::flat(rect, facing(p.absorption, p.scattering))
        };
        Wall {
            extent: surface.extent(size_m),
            bare: facing(wall.absorption, wall.scattering),
            parts: Vec::new(),
            pieces: wall.patches.iter().map(patch).collect(),
        }
    });
    let mut air = air(traced.air_attenuation_per_m);
    air.speed_of_sound_m_per_s = traced.speed_of_sound_m_per_s;
    Room {
        size_m,
        air,
        walls,
        furniture_absorption_m2: Banded::constant(
            traced.object_surface_m2 * traced.object_absorption,
        ),
        furniture_surface_m2: traced.object_surface_m2,
    }
}
