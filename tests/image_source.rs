//! Paths over the surfaces against geometry worked out by hand, published examples and arrivals measured in a real room.

#[path = "support/generator.rs"]
#[allow(dead_code, reason = "only some draws are needed here")]
mod generator;
#[path = "support/table.rs"]
mod table;

use generator::Generator;
use glam::DVec3;
use seatward::geometry::Surface;
use seatward::image_source::{ImagePath, images};

/// The path over one surface.
fn over(room: DVec3, source: DVec3, ear: DVec3, surface: Surface) -> ImagePath {
    let mut paths = images(room, source, ear, 1);
    paths.remove(surface as usize)
}

/// Speed of sound at 20 °C, m/s.
const C: f64 = 343.2;

/// A case: room, left loudspeaker, ear; surface, its point, ms late, dB from distance alone.
type Oracle = ([f64; 3], [f64; 3], [f64; 3], Surface, [f64; 3], f64, f64);

/// Worked by hand from the mirror construction at c = 343.2 m/s, rounded as written; limits are the rounding.
const ORACLES: [Oracle; 13] = [
    (
        [3.10, 4.30, 2.45],
        [0.75, 0.55, 0.95],
        [1.55, 3.45, 1.05],
        Surface::Left,
        [0.0, 1.50, 0.98],
        2.02,
        -1.8,
    ),
    (
        [3.10, 4.30, 2.45],
        [0.75, 0.55, 0.95],
        [1.55, 3.45, 1.05],
        Surface::Floor,
        [1.13, 1.93, 0.0],
        1.76,
        -1.6,
    ),
    (
        [3.10, 4.30, 2.45],
        [0.75, 0.55, 0.95],
        [1.55, 3.45, 1.05],
        Surface::Ceiling,
        [1.16, 2.05, 2.45],
        3.40,
        -2.8,
    ),
    (
        [3.30, 8.40, 2.70],
        [0.65, 1.10, 0.90],
        [1.65, 3.90, 1.00],
        Surface::Left,
        [0.0, 1.89, 0.93],
        1.89,
        -1.7,
    ),
    (
        [3.30, 8.40, 2.70],
        [0.65, 1.10, 0.90],
        [1.65, 3.90, 1.00],
        Surface::Back,
        [1.27, 8.40, 0.96],
        25.84,
        -12.0,
    ),
    (
        [9.20, 7.10, 3.40],
        [3.30, 1.00, 1.00],
        [4.60, 4.30, 1.05],
        Surface::Left,
        [0.0, 2.38, 1.02],
        14.61,
        -7.7,
    ),
    (
        [9.20, 7.10, 3.40],
        [3.30, 1.00, 1.00],
        [4.60, 4.30, 1.05],
        Surface::Ceiling,
        [3.96, 2.67, 3.40],
        6.94,
        -4.5,
    ),
    (
        [3.05, 3.05, 2.50],
        [0.85, 0.45, 1.00],
        [1.525, 1.85, 1.15],
        Surface::Left,
        [0.0, 0.95, 1.05],
        3.50,
        -5.0,
    ),
    (
        [3.05, 3.05, 2.50],
        [0.85, 0.45, 1.00],
        [1.525, 1.85, 1.15],
        Surface::Floor,
        [1.16, 1.10, 0.0],
        3.18,
        -4.6,
    ),
    (
        [3.404, 5.131, 2.108],
        [0.800, 0.749, 0.902],
        [1.702, 3.404, 1.003],
        Surface::Left,
        [0.0, 1.60, 0.93],
        2.46,
        -2.3,
    ),
    (
        [3.404, 5.131, 2.108],
        [0.800, 0.749, 0.902],
        [1.702, 3.404, 1.003],
        Surface::Ceiling,
        [1.27, 2.13, 2.108],
        2.41,
        -2.2,
    ),
    (
        [5.35, 4.05, 3.60],
        [1.55, 0.70, 0.95],
        [2.675, 3.15, 1.05],
        Surface::Left,
        [0.0, 1.60, 0.99],
        6.37,
        -5.2,
    ),
    (
        [5.35, 4.05, 3.60],
        [1.55, 0.70, 0.95],
        [2.675, 3.15, 1.05],
        Surface::Right,
        [5.35, 2.14, 1.01],
        12.31,
        -8.2,
    ),
];

fn level_db(path: &ImagePath, direct_m: f64) -> f64 {
    20.0 * (direct_m / path.distance_m).log10()
}

#[test]
fn thirteen_hand_worked_bounces_come_out_to_the_centimetre() {
    for (room, source, ear, surface, point, late_ms, level) in ORACLES {
        let [room, source, ear, point] = [room, source, ear, point].map(DVec3::from_array);
        let path = over(room, source, ear, surface);
        let direct_m = source.distance(ear);
        let late = (path.distance_m - direct_m) / C * 1000.0;
        assert!(
            (path.hits[0].point_m - point).abs().max_element() <= 0.01,
            "{surface:?}: {} against {point}",
            path.hits[0].point_m
        );
        assert!(
            (late - late_ms).abs() <= 0.05,
            "{surface:?}: {late} against {late_ms} ms"
        );
        assert!(
            (level_db(&path, direct_m) - level).abs() <= 0.1,
            "{surface:?}: {} against {level} dB",
            level_db(&path, direct_m)
        );
    }
}

#[test]
fn the_published_example_room_has_its_arrivals() {
    // Allen & Berkley, J. Acoust. Soc. Am. 65 (1979) 943–950: 80 × 120 × 100 sample lengths, source (30, 100, 40), receiver
    // (50, 10, 60) (parameters from memory, high); distances in samples computed from the mirror construction.
    let (room, source, ear) = (
        DVec3::new(80.0, 120.0, 100.0),
        DVec3::new(30.0, 100.0, 40.0),
        DVec3::new(50.0, 10.0, 60.0),
    );
    assert!((source.distance(ear) - 94.340).abs() < 1e-3);
    let expected = [122.066, 122.066, 113.578, 133.041, 136.015, 136.015];
    for (surface, distance) in Surface::ALL.into_iter().zip(expected) {
        let path = over(room, source, ear, surface);
        assert!(
            (path.distance_m - distance).abs() < 1e-3,
            "{surface:?}: {}",
            path.distance_m
        );
    }
}

#[test]
fn arrivals_measured_in_a_real_box_room_agree_within_half_a_millisecond() {
    // Di Carlo et al., EURASIP J. Audio Speech Music Process. 2021 (MIT licence), see tests/data/README.md: only rows whose
    // annotation was accepted. Room 5.705 × 5.965 × 2.355 m at 24 °C, c = 345.84 m/s.
    let text = include_str!("data/box_room_first_order_arrivals/arrivals.csv");
    let room = DVec3::new(5.705, 5.965, 2.355);
    let columns = [
        (Surface::Left, "x0"),
        (Surface::Right, "xL"),
        (Surface::Front, "y0"),
        (Surface::Back, "yL"),
        (Surface::Floor, "z0_floor"),
        (Surface::Ceiling, "zL_ceiling"),
    ];
    let mut checked = 0;
    for row in table::rows(text) {
        let at = |who: &str| {
            DVec3::from_array(
                ["x", "y", "z"].map(|axis| table::number(&row, &format!("{who}_{axis}_m"))),
            )
        };
        for (surface, name) in columns {
            if table::number(&row, &format!("{name}_ok")) < 0.5 {
                continue;
            }
            let path = over(room, at("source"), at("mic"), surface);
            let ours_ms = path.distance_m / 345.84 * 1000.0;
            let measured_ms = table::number(&row, &format!("{name}_ms"));
            assert!(
                (ours_ms - measured_ms).abs() < 0.5,
                "{name}: {ours_ms} against {measured_ms} ms"
            );
            checked += 1;
        }
    }
    assert_eq!(
        checked,
        109 + 115 + 94 + 110 + 120 + 120,
        "every accepted arrival was compared"
    );
}

#[test]
fn source_and_seat_may_be_exchanged_and_rooms_mirrored() {
    let room = DVec3::new(3.3, 8.4, 2.7);
    let (source, ear) = (DVec3::new(0.65, 1.1, 0.9), DVec3::new(1.65, 3.9, 1.0));
    for surface in Surface::ALL {
        let there = over(room, source, ear, surface);
        let back = over(room, ear, source, surface);
        assert!((there.distance_m - back.distance_m).abs() < 1e-12);
        assert!((there.hits[0].point_m - back.hits[0].point_m).length() < 1e-12);
        assert!((there.direction.length() - 1.0).abs() < 1e-12);
        let through = there.hits[0].point_m.distance(source) + there.hits[0].point_m.distance(ear);
        assert!(
            (through - there.distance_m).abs() < 1e-12,
            "the path goes through its point"
        );
    }
}

/// A random room with a source and an ear in it.
fn random_room(random: &mut Generator) -> (DVec3, DVec3, DVec3) {
    let mut point = |low: DVec3, high: DVec3| {
        DVec3::from_array([0, 1, 2].map(|axis| random.between(low[axis], high[axis])))
    };
    let room = point(DVec3::splat(1.8), DVec3::new(10.0, 12.0, 5.0));
    (room, point(DVec3::ZERO, room), point(DVec3::ZERO, room))
}

#[test]
fn images_up_to_third_order_are_counted_and_listed_in_order() {
    // Octahedral numbers of Allen & Berkley's lattice: 6, 18 and 38 images of order 1, 2 and 3.
    let (room, source, ear) = random_room(&mut Generator::new(1));
    for (order, count) in [(0, 0), (1, 6), (2, 24), (3, 62)] {
        assert_eq!(images(room, source, ear, order).len(), count);
    }
    let paths = images(room, source, ear, 3);
    let first: Vec<Surface> = paths[..6].iter().flat_map(ImagePath::surfaces).collect();
    assert_eq!(first, Surface::ALL);
    assert!(paths.is_sorted_by_key(ImagePath::order));
}

#[test]
fn every_path_is_a_broken_line_that_each_surface_mirrors() {
    let mut random = Generator::new(2);
    for case in 0..200 {
        let (room, source, ear) = random_room(&mut random);
        for path in images(room, source, ear, 3) {
            let mut at = source;
            let mut direction = path.leaving;
            let mut gone_m = 0.0;
            for hit in &path.hits {
                let leg = hit.point_m - at;
                gone_m += leg.length();
                let axis = hit.surface.axis();
                assert!((hit.point_m[axis] - hit.surface.offset_m(room)).abs() < 1e-9);
                assert!(
                    (leg - direction * leg.length()).length() < 1e-9,
                    "room {case}"
                );
                assert!((hit.travel - direction).length() < 1e-9, "room {case}");
                assert!((hit.cosine - direction[axis].abs()).abs() < 1e-12);
                assert!((hit.before_m - gone_m).abs() < 1e-9);
                assert!((hit.before_m + hit.after_m - path.distance_m).abs() < 1e-9);
                direction[axis] = -direction[axis];
                at = hit.point_m;
            }
            assert!((direction + path.direction).length() < 1e-9);
            assert!((gone_m + at.distance(ear) - path.distance_m).abs() < 1e-9);
        }
    }
}

#[test]
fn sources_and_ears_on_the_surfaces_have_defined_paths() {
    let room = DVec3::new(3.0, 4.0, 2.5);
    for (source, ear) in [
        (DVec3::ZERO, room),
        (DVec3::ZERO, DVec3::ZERO),
        (DVec3::new(0.0, 1.0, 0.0), DVec3::new(0.0, 3.0, 0.0)),
        (DVec3::new(3.0, 4.0, 1.0), DVec3::new(3.0, 2.0, 2.5)),
    ] {
        for path in images(room, source, ear, 3) {
            assert!(path.distance_m.is_finite());
            for hit in &path.hits {
                assert!(hit.point_m.is_finite() && hit.travel.is_finite());
                assert!(hit.before_m >= 0.0 && hit.after_m >= 0.0);
            }
        }
    }
}
