//! What reaches a seat: geometry of what images carry, closed limits, and an independent ray tracer.

mod support;

#[path = "support/seat_images.rs"]
mod seat_images;
#[path = "support/seat_tracer.rs"]
#[allow(dead_code, reason = "its own tests use the rest")]
mod seat_tracer;

use std::sync::Arc;

use glam::DVec3;
use seat_images::seat_images;
use seat_tracer::{SeatEnergy, SeatSource, SeatTracing, trace_seat};
use seatward::bands::{BANDS, Banded, NOMINAL_HZ};
use seatward::decay::{Field, Pair};
use seatward::directivity::{Directivity, axis};
use seatward::seat::{
    Arrival, Covered, HIGHEST_ORDER, Late, LateBand, LateSound, Placing, STEPS, SeatFigures, Sound,
    Tail, critical_distance_m, figures, sort_arrivals,
};
use support::generator::Generator;
use support::rooms::twelve_rooms;
use support::tracer::{Patch, TracedRoom, TracedWall};

const SPEED_M_PER_S: f64 = 343.0;
const SIZE_M: DVec3 = DVec3::new(5.3, 4.1, 2.7);

/// All counts up to the highest order.
fn all_counts() -> Vec<[usize; 3]> {
    let highest = HIGHEST_ORDER;
    let of_x = |x: usize| (0..=highest - x).flat_map(move |y| of_y(x, y));
    (0..=highest).flat_map(of_x).collect()
}

fn of_y(x: usize, y: usize) -> impl Iterator<Item = [usize; 3]> {
    (0..=HIGHEST_ORDER - x - y).map(move |z| [x, y, z])
}

/// Probability that sound has met three walls at most.
fn counted(covered: &Covered, step: usize) -> f64 {
    let share = |counts| covered.probability(step, counts);
    all_counts().into_iter().map(share).sum()
}

#[test]
fn the_probabilities_sum_to_one_until_the_fourth_wall_and_end_near_nothing() {
    // Within the shortest side each axis is crossed once at most, so that no fourth wall can have come.
    let covered = Covered::new(SIZE_M);
    assert!((covered.probability(0, [0; 3]) - 1.0).abs() < 1e-12);
    let mut before = 1.0;
    for step in 0..=STEPS {
        let sum = counted(&covered, step);
        let way_m = step as f64 * covered.step_m();
        if way_m <= SIZE_M.min_element() {
            assert!((sum - 1.0).abs() < 1e-12, "after {way_m} m: {sum}");
        }
        assert!(
            (0.0..=before + 1e-12).contains(&sum),
            "after {way_m} m: {sum}"
        );
        before = sum;
    }
    // The table ends where sound along the longest side meets its fourth wall; a sliver beside that direction is left.
    assert!(before < 2e-4, "{before}");
}

#[test]
fn probabilities_agree_with_random_rays() {
    // Brute force: a random start, a random direction, walls counted. 400,000 rays: standard deviation below 0.0008.
    let covered = Covered::new(SIZE_M);
    let rays = 400_000;
    for step in [3, 9, 17, 26, 40] {
        let way_m = step as f64 * covered.step_m();
        let mut random = Generator::new(7);
        let mut seen = std::collections::HashMap::new();
        for _ in 0..rays {
            let direction = random.isotropic();
            let counts: [usize; 3] = std::array::from_fn(|i| {
                (random.unit() + way_m * direction[i].abs() / SIZE_M[i]) as usize
            });
            *seen.entry(counts).or_insert(0.0) += 1.0 / f64::from(rays);
        }
        for counts in all_counts() {
            let random_share = seen.get(&counts).copied().unwrap_or(0.0);
            let ours = covered.probability(step, counts);
            assert!(
                (ours - random_share).abs() < 0.004,
                "after {way_m} m, {counts:?}: {ours} for {random_share}"
            );
        }
    }
}

#[test]
fn a_cube_of_one_absorption_carries_the_powers_of_its_walls() {
    let covered = Covered::new(DVec3::splat(3.0));
    let carried = covered.carried(&[[0.7; 2]; 3]);
    for (step, ours) in carried.into_iter().enumerate() {
        let sum: f64 = all_counts()
            .into_iter()
            .map(|n| covered.probability(step, n) * 0.7f64.powi(n.iter().sum::<usize>() as i32))
            .sum();
        assert!((ours - sum).abs() < 1e-12);
    }
}

/// The tracer's room as one band of the core.
fn field(room: &TracedRoom) -> Field {
    let pair = |axis: usize| Pair {
        crossings_per_s: room.speed_of_sound_m_per_s / room.size_m[axis],
        absorption: [0, 1].map(|side| wall_mean(room, 2 * axis + side).0),
        scattering: [0, 1].map(|side| wall_mean(room, 2 * axis + side).1),
    };
    Field {
        pairs: [0, 1, 2].map(pair),
        air_per_s: room.air_attenuation_per_m * room.speed_of_sound_m_per_s,
        furniture_hits_per_s: room.speed_of_sound_m_per_s * room.object_surface_m2
            / (4.0 * room.volume_m3()),
        furniture_absorption: room.object_absorption,
    }
}

/// Area mean of absorption, and of scattering weighted by what is reflected.
fn wall_mean(room: &TracedRoom, surface: usize) -> (f64, f64) {
    let wall = &room.walls[surface];
    let whole_m2 = room.wall_area_m2(surface);
    let patches = wall
        .patches
        .iter()
        .map(|p| (p.width_m * p.height_m, p.absorption, p.scattering));
    let bare_m2 = whole_m2 - patches.clone().map(|(area, ..)| area).sum::<f64>();
    let all: Vec<_> = patches
        .chain([(bare_m2, wall.absorption, wall.scattering)])
        .collect();
    let absorbed: f64 = all.iter().map(|(area, a, _)| area * a).sum();
    let scattered: f64 = all.iter().map(|(area, a, s)| area * (1.0 - a) * s).sum();
    (absorbed / whole_m2, scattered / (whole_m2 - absorbed))
}

/// The corrected decay of a field.
fn terms(field: &Field) -> Vec<(f64, f64)> {
    let t20_s = field
        .log_rate_decay(8)
        .time_s(-5.0, -25.0)
        .expect("the room absorbs");
    field.corrected_decay(6.0 * 10f64.ln() / t20_s, 14).terms
}

/// A loudspeaker in a room of the tracer.
struct Loudspeaker {
    position_m: [f64; 3],
    axis: [f64; 3],
    directivity: Directivity,
}

/// The band whose figures are looked at where one is enough, 1 kHz.
const BAND: usize = 13;

/// The bands that are traced, 250 Hz and 1 kHz: a loudspeaker that radiates nearly alike all round, and one that beams.
const TRACED_BANDS: [usize; 2] = [7, BAND];

impl Loudspeaker {
    /// Direct sound and images to third order at a seat.
    fn sound(&self, room: &TracedRoom, seat_m: [f64; 3]) -> Sound {
        let to_seat = DVec3::from_array(seat_m) - DVec3::from_array(self.position_m);
        let direct_m = to_seat.length();
        let cosine = to_seat.dot(DVec3::from_array(self.axis)) / direct_m;
        let pattern = self.directivity.pattern();
        let air = (-room.air_attenuation_per_m * direct_m).exp();
        Sound {
            direct: pattern.energies(cosine) * (air / direct_m.powi(2)),
            q: pattern.q(),
            arrivals: self.arrivals(room, seat_m, direct_m),
            late: Arc::new(LateSound::new(self.placing(room, seat_m))),
        }
    }

    fn placing(&self, room: &TracedRoom, seat_m: [f64; 3]) -> Placing {
        Placing {
            size_m: DVec3::from_array(room.size_m),
            source_m: DVec3::from_array(self.position_m),
            axis: DVec3::from_array(self.axis),
            directivity: self.directivity,
            seat_m: DVec3::from_array(seat_m),
            furniture_per_m: room.object_surface_m2 / (4.0 * room.volume_m3()),
            air_per_m: Banded::constant(room.air_attenuation_per_m),
            speed_of_sound_m_per_s: room.speed_of_sound_m_per_s,
        }
    }

    fn arrivals(&self, room: &TracedRoom, seat_m: [f64; 3], direct_m: f64) -> Vec<Arrival> {
        let highest = HIGHEST_ORDER as i32;
        let in_band = |band: usize| {
            let energy = |cosine: f64| self.directivity.pattern().energy(band, cosine);
            seat_images(room, self.position_m, self.axis, energy, seat_m, highest)
        };
        let bands: Vec<_> = (0..BANDS).map(in_band).collect();
        let arrival = |i: usize| Arrival {
            delay_s: (bands[0][i].path_m - direct_m) / room.speed_of_sound_m_per_s,
            energy: Banded::from_fn(|band| bands[band][i].energy),
        };
        (0..bands[0].len()).map(arrival).collect()
    }

    fn traced(&self, room: &TracedRoom, seat_m: [f64; 3], band: usize) -> SeatEnergy {
        let directivity = |cosine: f64| self.directivity.pattern().energy(band, cosine);
        let source = SeatSource {
            position_m: self.position_m,
            axis: self.axis,
            directivity: &directivity,
        };
        let tracing = SeatTracing {
            rays: RAYS,
            ..SeatTracing::usual(3)
        };
        trace_seat(room, &source, seat_m, tracing)
    }
}

/// Rays of each loudspeaker and band: the mean over both loudspeakers is then as sure as a usual tracing.
const RAYS: usize = 200_000;

/// Two loudspeakers and a seat as people put them, in fractions of the room.
fn setting(size_m: [f64; 3], directivity: Directivity) -> ([Loudspeaker; 2], [f64; 3]) {
    let [width_m, length_m, _] = size_m;
    let loudspeaker = |x_m: f64| Loudspeaker {
        position_m: [x_m, 0.19 * length_m, 0.95],
        axis: axis(x_m, width_m, 12.0).to_array(),
        directivity,
    };
    let half_m = 0.27 * width_m.min(5.0);
    let middle_m = 0.5 * width_m;
    (
        [
            loudspeaker(middle_m - half_m),
            loudspeaker(middle_m + half_m),
        ],
        [0.52 * width_m, 0.66 * length_m, 1.05],
    )
}

/// Figures of the core at a seat, the same in all bands.
fn ours(room: &TracedRoom, sounds: &[Sound]) -> SeatFigures {
    let field = field(room);
    let terms = terms(&field);
    let covered = Covered::new(DVec3::from_array(room.size_m));
    figures(
        &Late {
            covered: &covered,
            bands: &[LateBand::new(&field, &terms); BANDS],
            speed_of_sound_m_per_s: room.speed_of_sound_m_per_s,
        },
        sounds,
    )
}

/// What the tracer says: mean over the loudspeakers, each re its own direct sound.
struct Truth {
    shares: [f64; 3],
    c50_db: f64,
    c80_db: f64,
}

fn truth(traced: &[SeatEnergy]) -> Truth {
    let mean = |from_s: f64, to_s: f64| {
        let one = |seat: &SeatEnergy| seat.reflected_between(from_s, to_s) / seat.direct;
        traced.iter().map(one).sum::<f64>() / traced.len() as f64
    };
    let all = 1.0 + mean(0.0, f64::INFINITY);
    let clarity_db =
        |edge_s: f64| 10.0 * ((1.0 + mean(0.0, edge_s)) / mean(edge_s, f64::INFINITY)).log10();
    Truth {
        shares: [
            1.0 / all,
            mean(0.0, 0.02) / all,
            mean(0.02, f64::INFINITY) / all,
        ],
        c50_db: clarity_db(0.05),
        c80_db: clarity_db(0.08),
    }
}

/// Panels on the left and front walls of a room that has none.
fn with_panels(mut room: TracedRoom) -> TracedRoom {
    if room.walls.iter().all(|wall| wall.patches.is_empty()) {
        for (surface, u_m) in [(0, 0.35), (0, 0.6), (2, 0.1), (2, 0.6)] {
            let along_m = room.size_m[usize::from(surface == 0)];
            room.walls[surface].patches.push(Patch {
                u_m: u_m * along_m,
                v_m: 0.6,
                width_m: 0.2 * along_m,
                height_m: 1.2,
                absorption: 0.85,
                scattering: 0.1,
            });
        }
    }
    room
}

/// Source: the independent tracer of `tests/support/seat_tracer.rs`, whose noise is 0.1 dB and 0.003. Limits: C50 and C80
/// 0.6 dB, every share 0.02.
#[test]
fn furnished_rooms_with_panels_agree_with_the_ray_tracer_at_the_seat() {
    let as_usual = |_: &TracedRoom, loudspeakers, seat_m| (loudspeakers, seat_m);
    let off = off_in_furnished_rooms(Directivity::Ordinary, &furnished_rooms(), as_usual);
    assert!(off.len() >= 12);
    for (name, off) in off {
        for (share, off) in ["direct", "early", "late"].iter().zip(off.shares) {
            assert!(off.abs() < 0.02, "{name}: {share} share {off:+.3}");
        }
        off.expect_clear(&name);
    }
}

/// The same tracer, in three of the rooms, at places where much depends on the nearest wall. Limits: C50 and C80 0.6 dB, share of direct sound 0.02,
/// early and late sound 0.03: within 20 ms the tail is taken as alike everywhere, and near a wall it is not.
#[test]
fn seats_and_loudspeakers_near_walls_agree_with_the_ray_tracer_too() {
    let at_back = |room: &TracedRoom, [x, _, z]: [f64; 3]| [x, room.size_m[1] - 0.5, z];
    let in_corners = |room: &TracedRoom, mut loudspeakers: [Loudspeaker; 2]| {
        for (one, x_m) in loudspeakers.iter_mut().zip([0.4, room.size_m[0] - 0.4]) {
            [one.position_m[0], one.position_m[1]] = [x_m, 0.4];
        }
        loudspeakers
    };
    let seat_at_back =
        |room: &TracedRoom, loudspeakers, seat_m| (loudspeakers, at_back(room, seat_m));
    let corners =
        |room: &TracedRoom, loudspeakers, seat_m| (in_corners(room, loudspeakers), seat_m);
    let both = |room: &TracedRoom, loudspeakers, seat_m| {
        (in_corners(room, loudspeakers), at_back(room, seat_m))
    };
    let near = |room: &TracedRoom, mut loudspeakers: [Loudspeaker; 2], [x, _, z]: [f64; 3]| {
        for one in &mut loudspeakers {
            one.position_m[1] = 0.4 * room.size_m[1];
        }
        (loudspeakers, [x, 0.8 * room.size_m[1], z])
    };
    let as_usual = |_: &TracedRoom, loudspeakers, seat_m| (loudspeakers, seat_m);
    let rooms: Vec<_> = furnished_rooms().into_iter().step_by(2).collect();
    let all = [
        off_in_furnished_rooms(Directivity::Ordinary, &rooms, seat_at_back),
        off_in_furnished_rooms(Directivity::Ordinary, &rooms, corners),
        off_in_furnished_rooms(Directivity::Wide, &rooms, both),
        off_in_furnished_rooms(Directivity::Ordinary, &rooms, near),
        off_in_furnished_rooms(Directivity::Narrow, &rooms, as_usual),
    ];
    for (name, off) in all.into_iter().flatten() {
        let [direct, early, late] = off.shares;
        assert!(direct.abs() < 0.02, "{name}: direct share {direct:+.3}");
        assert!(early.abs() < 0.03, "{name}: early share {early:+.3}");
        assert!(late.abs() < 0.03, "{name}: late share {late:+.3}");
        off.expect_clear(&name);
    }
}

/// The rooms with furniture, all with panels.
fn furnished_rooms() -> Vec<(&'static str, TracedRoom)> {
    let furnished = twelve_rooms()
        .into_iter()
        .filter(|(_, room)| room.object_surface_m2 > 0.0);
    furnished
        .map(|(name, room)| (name, with_panels(room)))
        .collect()
}

/// Ours less the tracer's.
struct Off {
    shares: [f64; 3],
    clarity_db: [f64; 2],
}

impl Off {
    fn expect_clear(&self, name: &str) {
        for (clarity, off_db) in ["C50", "C80"].iter().zip(self.clarity_db) {
            assert!(off_db.abs() < 0.6, "{name}: {clarity} {off_db:+.2} dB");
        }
    }
}

/// Ours less the tracer's in every furnished room, at both traced bands, with loudspeakers and seat where `place` puts them.
fn off_in_furnished_rooms(
    directivity: Directivity,
    rooms: &[(&'static str, TracedRoom)],
    place: impl Fn(&TracedRoom, [Loudspeaker; 2], [f64; 3]) -> ([Loudspeaker; 2], [f64; 3]),
) -> Vec<(String, Off)> {
    let mut all = Vec::new();
    for (name, room) in rooms {
        let (loudspeakers, seat_m) = setting(room.size_m, directivity);
        let (loudspeakers, seat_m) = place(room, loudspeakers, seat_m);
        let sounds = loudspeakers.each_ref().map(|one| one.sound(room, seat_m));
        let ours = ours(room, &sounds);
        for band in TRACED_BANDS {
            let traced = loudspeakers
                .each_ref()
                .map(|one| one.traced(room, seat_m, band));
            let truth = truth(&traced);
            let shares = [ours.direct_share, ours.early_share, ours.late_share];
            let off = Off {
                shares: std::array::from_fn(|share| shares[share][band] - truth.shares[share]),
                clarity_db: [
                    ours.c50_db[band] - truth.c50_db,
                    ours.c80_db[band] - truth.c80_db,
                ],
            };
            let name = format!("{name}, {} Hz", NOMINAL_HZ[band]);
            println!(
                "{name:55} direct, early, late {:.3?} {:+.3?}; C50, C80 {:.2} {:.2} {:+.2?} dB",
                truth.shares, off.shares, truth.c50_db, truth.c80_db, off.clarity_db,
            );
            all.push((name, off));
        }
    }
    all
}

/// A room without furniture, of one absorption and scattering.
fn plain_room(size_m: [f64; 3], absorption: f64, scattering: f64) -> TracedRoom {
    let wall = || TracedWall {
        absorption,
        scattering,
        patches: Vec::new(),
    };
    TracedRoom {
        size_m,
        walls: std::array::from_fn(|_| wall()),
        object_surface_m2: 0.0,
        object_absorption: 0.0,
        speed_of_sound_m_per_s: SPEED_M_PER_S,
        air_attenuation_per_m: 0.0011,
    }
}

/// Figures of the usual setting.
fn figures_in(room: &TracedRoom, directivity: Directivity) -> SeatFigures {
    let (loudspeakers, seat_m) = setting(room.size_m, directivity);
    ours(
        room,
        &loudspeakers.each_ref().map(|one| one.sound(room, seat_m)),
    )
}

#[test]
fn shares_sum_to_one_and_clarity_rises_with_the_edge() {
    for (name, room) in twelve_rooms() {
        let seat = figures_in(&room, Directivity::Wide);
        for band in 0..BANDS {
            let sum = seat.direct_share[band] + seat.early_share[band] + seat.late_share[band];
            assert!((sum - 1.0).abs() < 1e-12, "{name}: {sum}");
            assert!(seat.c80_db[band] > seat.c50_db[band], "{name}");
        }
    }
}

#[test]
fn in_a_room_that_takes_everything_only_direct_sound_is_left() {
    let mut before = 0.0;
    for absorption in [0.5, 0.8, 0.95, 0.99] {
        let seat = figures_in(
            &plain_room([5.0, 6.0, 2.6], absorption, 0.1),
            Directivity::Ordinary,
        );
        assert!(seat.direct_share[BAND] > before, "{absorption}");
        before = seat.direct_share[BAND];
    }
    // What is left are the six first images, each 1 % of what a mirror would send.
    assert!(before > 0.95, "{before}");
}

#[test]
fn a_room_that_takes_nothing_has_no_figures() {
    let room = TracedRoom {
        air_attenuation_per_m: 0.0,
        ..plain_room([5.0, 6.0, 2.6], 0.0, 0.1)
    };
    let (loudspeakers, seat_m) = setting(room.size_m, Directivity::Ordinary);
    let sounds = loudspeakers.each_ref().map(|one| one.sound(&room, seat_m));
    let covered = Covered::new(DVec3::from_array(room.size_m));
    let late = Late {
        covered: &covered,
        bands: &[LateBand::new(&field(&room), &[(0.0, 1.0)]); BANDS],
        speed_of_sound_m_per_s: SPEED_M_PER_S,
    };
    let seat = figures(&late, &sounds);
    assert!(seat.direct_share[BAND].is_nan() && seat.c50_db[BAND].is_nan());
    assert!(seat.critical_distance_m[BAND].is_nan());
}

/// Closed form √(Q A / 16π) with A = 24 ln(10) V / (c T), c = 343 m/s; Kuttruff, Room Acoustics, and others. Values computed
/// from it: V in m³, T in s, distance for Q = 1 and Q = 3 in m.
#[test]
fn the_critical_distance_of_a_straight_decay_has_its_closed_form() {
    for (volume_m3, t_s, round_m, narrow_m) in [
        (30.0, 0.6, 0.400, 0.69),
        (50.0, 0.4, 0.633, 1.096),
        (80.0, 0.4, 0.801, 1.39),
        (100.0, 0.25, 1.132, 1.96),
        (15_000.0, 2.0, 4.90, 8.5),
    ] {
        let area_m2 = 24.0 * 10f64.ln() * volume_m3 / (SPEED_M_PER_S * t_s);
        for (q, printed_m) in [(1.0, round_m), (3.0, narrow_m)] {
            let from_area_m = critical_distance_m(q, area_m2);
            assert!((from_area_m / printed_m - 1.0).abs() < 0.005);
            let from_decay_m = distance_of_a_straight_decay(volume_m3, t_s, q);
            assert!((from_decay_m / from_area_m - 1.0).abs() < 1e-9);
        }
    }
}

/// What the figures say of a decay of one exponential in a cube.
fn distance_of_a_straight_decay(volume_m3: f64, t_s: f64, q: f64) -> f64 {
    let covered = Covered::new(DVec3::splat(volume_m3.cbrt()));
    let terms = [(6.0 * 10f64.ln() / t_s, 1.0)];
    let band = LateBand {
        terms: &terms,
        carried: [[0.8; 2]; 3],
        scattered: [[0.1; 2]; 3],
        furniture_per_s: 0.0,
        loss_per_s: 0.0,
    };
    let room = plain_room([volume_m3.cbrt(); 3], 0.1, 0.1);
    let (loudspeakers, seat_m) = setting(room.size_m, Directivity::Ordinary);
    let sound = Sound {
        direct: Banded::constant(0.5),
        q: Banded::constant(q),
        arrivals: Vec::new(),
        late: Arc::new(LateSound::new(loudspeakers[0].placing(&room, seat_m))),
    };
    let late = Late {
        covered: &covered,
        bands: &[band; BANDS],
        speed_of_sound_m_per_s: SPEED_M_PER_S,
    };
    figures(&late, &[sound]).critical_distance_m[BAND]
}

/// The tail integrated by brute force: directions at midpoints, times 0.1 ms apart.
#[test]
fn the_tail_agrees_with_a_fine_integral() {
    let room = with_panels(twelve_rooms().swap_remove(7).1);
    let size_m = DVec3::from_array(room.size_m);
    let field = field(&room);
    let terms = terms(&field);
    let band = LateBand::new(&field, &terms);
    let tail = Tail::new(&Covered::new(size_m), band, SPEED_M_PER_S);
    let free: Vec<f64> = (0..FREE_STEPS)
        .map(|step| free_way(size_m, FREE_STEP_M * step as f64))
        .collect();
    let step_s = 1e-4;
    let ends_s = [0.004, 0.011, 0.024, 0.037, 0.061, 0.09];
    let mut sum_s = 0.0;
    let mut next = 0;
    for i in 0.. {
        if i as f64 * step_s >= ends_s[next] - 1e-9 {
            let ours_s = tail.after_s(0.0) - tail.after_s(ends_s[next]);
            let off = (ours_s - sum_s) / tail.after_s(0.0);
            assert!(
                off.abs() < 5e-4,
                "until {} s: {off:+.5} of the tail",
                ends_s[next]
            );
            next += 1;
            if next == ends_s.len() {
                break;
            }
        }
        let time_s = (i as f64 + 0.5) * step_s;
        let whole: f64 = terms
            .iter()
            .map(|(rate, share)| share * (-rate * time_s).exp())
            .sum();
        let covered =
            carried_by_directions(&band, size_m, time_s) * (-band.loss_per_s * time_s).exp();
        let once = scattered_once(&band, &free, &room, time_s) * (-band.loss_per_s * time_s).exp();
        sum_s += step_s * (whole - covered - once).max(0.0);
    }
}

/// Steps of the chance to meet no wall on a way, for the check of the tail by brute force.
const FREE_STEPS: usize = 1600;
const FREE_STEP_M: f64 = 0.025;

/// Chance to meet no wall on a way, from any place in any direction; directions at midpoints.
fn free_way(size_m: DVec3, way_m: f64) -> f64 {
    let per_angle = 40;
    let middle = |i: i32| (f64::from(i) + 0.5) / f64::from(per_angle);
    let along = |i: i32| {
        let (cosine, turn) = (middle(i / per_angle), middle(i % per_angle));
        let (sin_phi, cos_phi) = (turn * std::f64::consts::FRAC_PI_2).sin_cos();
        let sine = (1.0 - cosine * cosine).sqrt();
        let unit = DVec3::new(sine * cos_phi, sine * sin_phi, cosine);
        (DVec3::ONE - unit * way_m / size_m)
            .max(DVec3::ZERO)
            .element_product()
    };
    (0..per_angle * per_angle).map(along).sum::<f64>() / f64::from(per_angle * per_angle)
}

/// What has been scattered once and has met nothing since, without air and furniture; by convolution of `free`.
fn scattered_once(band: &LateBand<'_>, free: &[f64], room: &TracedRoom, time_s: f64) -> f64 {
    let steps = (time_s * SPEED_M_PER_S / FREE_STEP_M).round() as usize;
    let met = |step: usize| (free[step] - free[step + 1]) / FREE_STEP_M;
    let [x, y, z] = room.size_m;
    let areas_m2 = [y * z, x * z, x * y];
    let surface_m2 = 2.0 * areas_m2.iter().sum::<f64>();
    let on = (0..3).map(|pair| areas_m2[pair] * band.scattered[pair].iter().sum::<f64>());
    let from_walls: f64 = (0..steps)
        .map(|step| met(step) * met(steps - 1 - step))
        .sum();
    let from_places_m: f64 = (0..steps).map(|step| free[step] * free[steps - step]).sum();
    FREE_STEP_M
        * (on.sum::<f64>() / surface_m2 * 4.0 * room.volume_m3() / surface_m2 * from_walls
            + band.furniture_per_s / SPEED_M_PER_S * from_places_m)
}

/// What images to third order carry, averaged over 40 by 40 directions.
fn carried_by_directions(band: &LateBand<'_>, size_m: DVec3, time_s: f64) -> f64 {
    let per_angle = 40;
    let middle = |i: i32| (f64::from(i) + 0.5) / f64::from(per_angle);
    let mut sum = 0.0;
    for i in 0..per_angle * per_angle {
        let (cosine, turn) = (middle(i / per_angle), middle(i % per_angle));
        let (sin_phi, cos_phi) = (turn * std::f64::consts::FRAC_PI_2).sin_cos();
        let sine = (1.0 - cosine * cosine).sqrt();
        let unit = DVec3::new(sine * cos_phi, sine * sin_phi, cosine);
        sum += carried_along(band, unit * SPEED_M_PER_S * time_s / size_m);
    }
    sum / f64::from(per_angle * per_angle)
}

/// The same for one direction, by the chance of each count on each axis.
fn carried_along(band: &LateBand<'_>, crossings: DVec3) -> f64 {
    let axis = |i: usize, count: usize| {
        let [one, other] = band.carried[i];
        let chance = (1.0 - (crossings[i] - count as f64).abs()).max(0.0);
        let in_turn = |first: f64, second: f64| {
            (0..count)
                .map(|k| if k % 2 == 0 { first } else { second })
                .product::<f64>()
        };
        chance * 0.5 * (in_turn(one, other) + in_turn(other, one))
    };
    let one = |[x, y, z]: [usize; 3]| axis(0, x) * axis(1, y) * axis(2, z);
    all_counts().into_iter().map(one).sum()
}

/// Common practice, no source: half to 70 % of the sound at 2 to 2.5 m from a directional loudspeaker in an untreated living
/// room comes from the room; 65 to 80 % from an ordinary one. Mean over the octaves 500 Hz to 4 kHz.
#[test]
fn an_untreated_living_room_gives_the_usual_share_of_reflected_sound() {
    // 78 m³, decaying in about 0.5 s.
    let living = TracedRoom {
        object_surface_m2: 24.0,
        object_absorption: 0.4,
        ..plain_room([5.0, 6.0, 2.6], 0.12, 0.15)
    };
    let t20_s = field(&living).log_rate_decay(14).time_s(-5.0, -25.0);
    assert!(
        (0.45..0.65).contains(&t20_s.expect("the room absorbs")),
        "{t20_s:?}"
    );
    let reflected = |directivity: Directivity| {
        let (loudspeakers, mut seat_m) = setting(living.size_m, directivity);
        seat_m[1] = loudspeakers[0].position_m[1] + 1.8;
        let way_m = (seat_m[0] - loudspeakers[0].position_m[0]).hypot(1.8);
        assert!((2.0..2.5).contains(&way_m), "{way_m}");
        let sounds = loudspeakers
            .each_ref()
            .map(|one| one.sound(&living, seat_m));
        let direct = ours(&living, &sounds).direct_share;
        1.0 - [10, 13, 16, 19]
            .map(|band| direct[band])
            .iter()
            .sum::<f64>()
            / 4.0
    };
    let (narrow, ordinary) = (
        reflected(Directivity::Narrow),
        reflected(Directivity::Ordinary),
    );
    println!("reflected: narrow {narrow:.3}, ordinary {ordinary:.3}");
    assert!((0.5..0.7).contains(&narrow), "narrow: {narrow}");
    assert!((0.65..0.8).contains(&ordinary), "ordinary: {ordinary}");
}

#[test]
fn arrivals_come_in_order_and_ties_keep_theirs() {
    let arrival = |delay_s: f64, energy: f64| Arrival {
        delay_s,
        energy: Banded::constant(energy),
    };
    let mut arrivals = [
        arrival(0.005, 1.0),
        arrival(0.002, 2.0),
        arrival(0.005, 3.0),
    ];
    sort_arrivals(&mut arrivals);
    assert_eq!(arrivals.map(|one| one.energy[0]), [2.0, 1.0, 3.0]);
}
