//! Rooms for the ray tracer: twelve invented ones, 20 to 220 m³, six without furniture and six with it, and sixty random
//! ones.
//!
//! Absorption stands for one band around 1 kHz. The values of the twelve are invented within the range of common building
//! materials (common practice, no source). The doc line of a room says if no statistical model can be expected to
//! get it right.

use super::generator::Generator;
use super::tracer::{Patch, TracedRoom, TracedWall};

/// Speed of sound at 20 °C, m/s.
const SPEED_OF_SOUND_M_PER_S: f64 = 343.0;

/// Attenuation of energy at 1 kHz, 20 °C and half saturated air, 1/m: 4.7 dB/km, ISO 9613-1:1993, from memory, medium.
const AIR_ATTENUATION_PER_M: f64 = 0.0011;

/// Scattering of a flat wall and of a panel on it (common practice, no source).
const FLAT: f64 = 0.1;

/// Rooms of [`sixty_rooms`].
const SIXTY: usize = 60;

/// Places tried for one panel of a random room.
const TRIES: usize = 50;

/// Places of the surfaces in `TracedRoom::walls`.
const LEFT: usize = 0;
const RIGHT: usize = 1;
const FRONT: usize = 2;
const BACK: usize = 3;
const FLOOR: usize = 4;
const CEILING: usize = 5;

/// All twelve, each with a name that says what is special.
pub fn twelve_rooms() -> Vec<(&'static str, TracedRoom)> {
    vec![
        ("even plaster box room", even_box()),
        ("carpet only", carpet_only()),
        ("treated ceiling over scattering walls", treated_ceiling()),
        ("one soft wall", one_soft_wall()),
        ("panels on front and back", panels_front_and_back()),
        ("long room, soft at one end", long_room()),
        ("furnished bedroom", furnished_bedroom()),
        ("furnished living room", furnished_living_room()),
        ("furnished study with panels on one side", furnished_study()),
        ("furnished loft with a soft ceiling", furnished_loft()),
        (
            "furnished music room with panels on two walls",
            furnished_music_room(),
        ),
        ("sparsely furnished hall with carpet", furnished_hall()),
    ]
}

/// 21 m³: the same absorption everywhere.
fn even_box() -> TracedRoom {
    bare([3.2, 2.6, 2.5], [0.12; 6], [FLAT; 6])
}

/// 48 m³. Hard for statistics: what goes level between flat hard walls meets the carpet only after it is scattered.
fn carpet_only() -> TracedRoom {
    bare(
        [4.8, 4.0, 2.5],
        [0.05, 0.05, 0.05, 0.05, 0.4, 0.08],
        [FLAT, FLAT, FLAT, FLAT, 0.05, FLAT],
    )
}

/// 79 m³: a ceiling of porous tiles; shelves make the walls scatter.
fn treated_ceiling() -> TracedRoom {
    bare(
        [6.0, 4.9, 2.7],
        [0.08, 0.1, 0.06, 0.08, 0.1, 0.7],
        [0.4, 0.5, 0.3, 0.4, 0.2, FLAT],
    )
}

/// 35 m³: a heavy curtain over the whole right wall.
fn one_soft_wall() -> TracedRoom {
    bare(
        [3.5, 4.0, 2.5],
        [0.1, 0.55, 0.08, 0.1, 0.12, 0.08],
        [0.2, 0.3, FLAT, 0.2, FLAT, FLAT],
    )
}

/// 118 m³: thick panels on 40 % of the front wall and 45 % of the back wall.
fn panels_front_and_back() -> TracedRoom {
    let mut room = bare(
        [7.0, 5.6, 3.0],
        [0.08, 0.08, 0.07, 0.07, 0.1, 0.1],
        [0.2; 6],
    );
    hang(&mut room, FRONT, panel([0.4, 0.6], [2.5, 1.7], 0.9));
    hang(&mut room, FRONT, panel([4.0, 0.6], [2.4, 1.7], 0.9));
    hang(&mut room, BACK, panel([1.0, 0.5], [4.7, 2.0], 0.95));
    room
}

/// 218 m³. Hard for statistics: four times as long as wide, and nearly all absorption at the far end.
fn long_room() -> TracedRoom {
    let mut room = bare(
        [4.1, 16.1, 3.3],
        [0.04, 0.04, 0.1, 0.1, 0.04, 0.04],
        [0.05; 6],
    );
    hang(&mut room, BACK, panel([0.3, 0.4], [3.4, 2.4], 0.9));
    hang(&mut room, LEFT, panel([11.5, 0.5], [4.0, 2.0], 0.8));
    room
}

/// 30 m³: carpet, bed and wardrobe.
fn furnished_bedroom() -> TracedRoom {
    let room = bare(
        [3.6, 3.4, 2.45],
        [0.08, 0.08, 0.06, 0.12, 0.3, 0.06],
        [FLAT; 6],
    );
    furnish(room, 30.0, 0.4)
}

/// 69 m³: hard floor, sofa, shelves along the right wall.
fn furnished_living_room() -> TracedRoom {
    let room = bare(
        [5.2, 5.1, 2.6],
        [0.06, 0.15, 0.1, 0.06, 0.08, 0.05],
        [FLAT, 0.5, 0.2, FLAT, FLAT, FLAT],
    );
    furnish(room, 22.0, 0.35)
}

/// 27 m³: panels on 57 % of the left wall, desk and chair.
fn furnished_study() -> TracedRoom {
    let mut room = bare(
        [3.0, 3.6, 2.5],
        [0.06, 0.06, 0.1, 0.08, 0.1, 0.05],
        [FLAT, FLAT, 0.3, FLAT, FLAT, FLAT],
    );
    hang(&mut room, LEFT, panel([0.3, 0.5], [1.4, 1.7], 0.8));
    hang(&mut room, LEFT, panel([1.9, 0.5], [1.6, 1.7], 0.8));
    furnish(room, 20.0, 0.15)
}

/// 160 m³: 57 % of the ceiling covered, few soft things.
fn furnished_loft() -> TracedRoom {
    let mut room = bare(
        [8.2, 6.1, 3.2],
        [0.05, 0.05, 0.1, 0.08, 0.07, 0.06],
        [0.15, 0.15, 0.2, FLAT, FLAT, FLAT],
    );
    hang(&mut room, CEILING, panel([0.6, 0.8], [6.4, 4.5], 0.7));
    furnish(room, 18.0, 0.2)
}

/// 98 m³: panels on 30 % of the front wall and 15 % of the right wall, a rug, a sofa and shelves.
fn furnished_music_room() -> TracedRoom {
    let mut room = bare(
        [6.2, 5.6, 2.8],
        [0.07, 0.07, 0.08, 0.1, 0.06, 0.08],
        [FLAT, FLAT, 0.2, 0.5, FLAT, FLAT],
    );
    hang(&mut room, FRONT, panel([0.5, 0.7], [2.6, 1.0], 0.85));
    hang(&mut room, FRONT, panel([3.4, 0.7], [2.6, 1.0], 0.85));
    hang(&mut room, RIGHT, panel([1.2, 0.8], [2.0, 1.2], 0.95));
    hang(
        &mut room,
        FLOOR,
        Patch {
            scattering: 0.05,
            ..panel([1.5, 1.5], [3.0, 2.4], 0.35)
        },
    );
    furnish(room, 25.0, 0.5)
}

/// 198 m³: carpet wall to wall, little furniture of little absorption.
fn furnished_hall() -> TracedRoom {
    let room = bare(
        [9.0, 6.3, 3.5],
        [0.05, 0.07, 0.05, 0.1, 0.35, 0.05],
        [FLAT, 0.2, FLAT, 0.2, 0.05, FLAT],
    );
    furnish(room, 15.0, 0.1)
}

/// A room without furniture: absorption and scattering of each surface.
fn bare(size_m: [f64; 3], absorption: [f64; 6], scattering: [f64; 6]) -> TracedRoom {
    let wall = |n: usize| TracedWall {
        absorption: absorption[n],
        scattering: scattering[n],
        patches: Vec::new(),
    };
    TracedRoom {
        size_m,
        walls: std::array::from_fn(wall),
        object_surface_m2: 0.0,
        object_absorption: 0.0,
        speed_of_sound_m_per_s: SPEED_OF_SOUND_M_PER_S,
        air_attenuation_per_m: AIR_ATTENUATION_PER_M,
    }
}

/// Adds furniture, as so many m² of surface for each 80 m³ of room.
fn furnish(room: TracedRoom, surface_per_80_m3: f64, absorption: f64) -> TracedRoom {
    let object_surface_m2 = surface_per_80_m3 * room.volume_m3() / 80.0;
    TracedRoom {
        object_surface_m2,
        object_absorption: absorption,
        ..room
    }
}

/// A flat panel with its corner at (u, v).
fn panel(corner_m: [f64; 2], size_m: [f64; 2], absorption: f64) -> Patch {
    let [u_m, v_m] = corner_m;
    let [width_m, height_m] = size_m;
    Patch {
        u_m,
        v_m,
        width_m,
        height_m,
        absorption,
        scattering: FLAT,
    }
}

fn hang(room: &mut TracedRoom, surface: usize, patch: Patch) {
    room.walls[surface].patches.push(patch);
}

/// Sixty random rooms, 18 to 219 m³ with T20 of 0.11 to 0.80 s, none of them chosen: each size, absorption and scattering is drawn between
/// limits that lived-in rooms keep (common practice, no source). Two in three are furnished.
///
/// Every room has its own stream of random numbers, so that a room stays what it is when the drawing of others changes.
pub fn sixty_rooms() -> Vec<(&'static str, TracedRoom)> {
    (0..SIXTY)
        .map(|n| {
            let furnished = n % 3 != 2;
            let room = random_room(&mut Generator::stream(60, n as u64), furnished);
            let kind = if furnished { "furnished" } else { "bare" };
            // Leaked, so that both lists have one type; sixty short names live as long as the test anyway.
            let name: &'static str = format!("room {}, {kind}", n + 1).leak();
            (name, room)
        })
        .collect()
}

/// One of the sixty.
fn random_room(random: &mut Generator, furnished: bool) -> TracedRoom {
    let size_m = [
        random.between(2.5, 9.0),
        random.between(2.5, 9.0),
        random.between(2.2, 3.6),
    ];
    let absorption = std::array::from_fn(|_| random.between(0.02, 0.4));
    let scattering = std::array::from_fn(|_| random.between(0.05, 0.5));
    let mut room = bare(size_m, absorption, scattering);
    for _ in 0..random.below(26) {
        hang_at_random(&mut room, random);
    }
    if furnished {
        room.object_surface_m2 = random.between(5.0, 30.0);
        room.object_absorption = random.between(0.1, 0.6);
    }
    room
}

/// Tries to find a free place for one panel on a random wall or the ceiling; none is hung where there is no room left.
fn hang_at_random(room: &mut TracedRoom, random: &mut Generator) {
    let surface = [LEFT, RIGHT, FRONT, BACK, CEILING][random.below(5)];
    let size_m = [[0.6, 0.6], [1.2, 0.6], [0.6, 1.2], [1.2, 1.2]][random.below(4)];
    let absorption = random.between(0.5, 0.95);
    let [x_m, y_m, z_m] = room.size_m;
    let extent_m = [[y_m, z_m], [x_m, z_m], [x_m, y_m]][surface / 2];
    for _ in 0..TRIES {
        let corner_m = [0, 1].map(|n| random.between(0.0, extent_m[n] - size_m[n]));
        let candidate = panel(corner_m, size_m, absorption);
        let patches = &room.walls[surface].patches;
        if !patches.iter().any(|hung| overlap(hung, &candidate)) {
            return hang(room, surface, candidate);
        }
    }
}

fn overlap(a: &Patch, b: &Patch) -> bool {
    let along_u = a.u_m < b.u_m + b.width_m && b.u_m < a.u_m + a.width_m;
    let along_v = a.v_m < b.v_m + b.height_m && b.v_m < a.v_m + a.height_m;
    along_u && along_v
}
