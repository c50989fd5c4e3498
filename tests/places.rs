//! Pieces that do not lie flat, and furniture in its place: corner pieces, curtains, stands, table tops, fronts.

mod support;

use glam::DVec3;
use seatward::air::Air;
use seatward::directivity::{Directivity, axis};
use seatward::footprint::Mirror;
use seatward::geometry::{Rect, Surface};
use seatward::report::{Absorbing, PlanReport, ReflectionReport};
use seatward::scenario;
use seatward::simulate::{Draws, Prepared};
use seatward::spectrum::{FINE, Spectrum, band_means};
use serde_json::{Value, json};
use support::generator::Generator;

const SIZE_M: [f64; 3] = [4.0, 5.0, 2.5];
const LOUDSPEAKERS_M: [[f64; 3]; 2] = [[1.0, 1.0, 1.0], [3.0, 1.0, 1.0]];
const SEAT_M: [f64; 3] = [2.0, 3.5, 1.0];

/// Indices of bands.
const HZ_63: usize = 1;
const HZ_500: usize = 10;
const HZ_1K: usize = 13;
const HZ_4K: usize = 19;

/// A room of painted walls, the bare plan and one with pieces; each side may be changed before it is read.
fn document(kit: &[Value], pieces: &[Value]) -> Value {
    let wall = json!({"finish": "plaster-on-brick"});
    let loudspeaker =
        |[x, y, z]: [f64; 3]| json!({"x_m": x, "y_m": y, "z_m": z, "directivity": "wide"});
    json!({
        "format": 1, "title": "Places",
        "room": {"width_m": SIZE_M[0], "length_m": SIZE_M[1], "height_m": SIZE_M[2], "surfaces": {
            "left": wall, "right": wall, "front": wall, "back": wall,
            "floor": {"finish": "hard-floor"}, "ceiling": wall}},
        "listening": {"loudspeakers": LOUDSPEAKERS_M.map(loudspeaker),
            "seat": {"x_m": SEAT_M[0], "y_m": SEAT_M[1], "z_m": SEAT_M[2]}},
        "kit": kit,
        "plans": [{"name": "Now", "pieces": []}, {"name": "A", "pieces": pieces}],
    })
}

fn prepared(document: &Value) -> Prepared {
    let read = scenario::from_json(&document.to_string());
    Prepared::new(read.unwrap_or_else(|error| panic!("{error}")))
}

/// The reports of both plans.
fn plans(document: &Value) -> [PlanReport; 2] {
    let prepared = prepared(document);
    [0, 1].map(|plan| prepared.predict(plan).expect("there is such a plan"))
}

/// A kind by its data sheet, with the same absorption in all bands.
fn sheet(id: &str, width_m: f64, height_m: f64, absorption: f64) -> Value {
    json!({"id": id, "name": id, "width_m": width_m, "height_m": height_m, "depth_mm": 50,
        "absorber": {"bands_hz": [1000], "absorption": [absorption]}})
}

/// A soft kind of 100 mm.
fn soft(id: &str, width_m: f64, height_m: f64) -> Value {
    json!({"id": id, "name": id, "width_m": width_m, "height_m": height_m,
        "absorber": {"layers": [{"porous": {"thickness_mm": 100, "flow_resistivity_pa_s_per_m2": 10000}}]}})
}

fn at(x_m: f64, y_m: f64, width_m: f64, depth_m: f64, height_m: f64) -> Value {
    json!({"x_m": x_m, "y_m": y_m, "width_m": width_m, "depth_m": depth_m, "height_m": height_m})
}

fn furnished(mut document: Value, furnishings: &[(&str, Value)]) -> Value {
    let items = furnishings
        .iter()
        .map(|(kind, at)| json!({"kind": kind, "count": 1, "at": at}));
    document["room"]["furnishings"] = items.collect();
    document
}

/// The reflection of first order of a loudspeaker off a surface.
fn first(report: &PlanReport, loudspeaker: usize, surface: Surface) -> &ReflectionReport {
    let wanted = |one: &&ReflectionReport| {
        one.loudspeaker == loudspeaker && one.order == 1 && one.surfaces == [surface]
    };
    report
        .reflections
        .iter()
        .find(wanted)
        .expect("every surface reflects")
}

/// What comes off things, not off surfaces.
fn off_things(report: &PlanReport) -> Vec<&ReflectionReport> {
    let listed = report.reflections.iter();
    listed.filter(|one| one.surfaces.is_empty()).collect()
}

fn close(got: f64, wanted: f64, within: f64, what: &str) {
    assert!(
        (got - wanted).abs() <= within,
        "{what}: {got} against {wanted}, off by {}, allowed {within}",
        (got - wanted).abs()
    );
}

#[test]
fn a_corner_piece_absorbs_what_its_face_does_half_on_each_wall() {
    for edge in ["front-left", "front-right", "back-left", "back-right"] {
        let piece = json!({"kit": "corner", "place": "corner", "edge": edge, "z_m": 0.2});
        let [_, with] = plans(&document(&[sheet("corner", 0.6, 2.0, 0.8)], &[piece]));
        let walls = |report: &PlanReport| {
            let absorption = &report.absorption;
            [
                &absorption.left,
                &absorption.right,
                &absorption.front,
                &absorption.back,
            ]
            .map(|series| series.0[HZ_1K])
        };
        let [bare, _] = plans(&document(&[], &[]));
        close(
            with.absorption_area_m2.pieces.0[HZ_1K],
            0.8 * 1.2,
            1e-12,
            edge,
        );
        let areas_m2 = [12.5, 12.5, 10.0, 10.0];
        let more: Vec<f64> = (0..4)
            .map(|wall| (walls(&with)[wall] - walls(&bare)[wall]) * areas_m2[wall])
            .collect();
        let plain = walls(&bare)[0];
        for (wall, name) in ["left", "right", "front", "back"].iter().enumerate() {
            let wanted = if edge.contains(name) {
                (0.8 - plain) * 0.6
            } else {
                0.0
            };
            close(more[wall], wanted, 1e-9, &format!("{edge}, {name}"));
        }
    }
}

#[test]
fn a_corner_piece_reaches_the_bass() {
    let piece = |edge: &str| json!({"kit": "corner", "place": "corner", "edge": edge, "z_m": 0});
    let edges = ["front-left", "front-right", "back-left", "back-right"].map(piece);
    let mut deep = soft("corner", 1.0, 2.4);
    deep["absorber"]["layers"][0]["porous"]["thickness_mm"] = 400.into();
    let prepared = prepared(&document(&[deep], &edges));
    let [bare, with] = [0, 1].map(|plan| prepared.bass(plan).expect("two loudspeakers and a seat"));
    for (n, share) in [([1, 0, 0], 0.8), ([0, 1, 0], 0.8)] {
        let decay_s = |bass: &seatward::report::BassReport| {
            let mode = bass
                .modes
                .iter()
                .find(|mode| mode.n == n)
                .expect("the lowest notes");
            mode.decay_s.expect("walls damp it")
        };
        let (without, with) = (decay_s(&bare), decay_s(&with));
        assert!(
            with < share * without,
            "{n:?}: {without} s falls to {with} s only"
        );
    }
}

#[test]
fn a_closed_curtain_over_a_whole_wall_is_that_wall_finished_with_it() {
    // The edges of pieces add up to 0.05 to a wall's scattering, which is all that differs: under 1 % of the decay with some
    // furniture in.
    let values =
        json!({"bands_hz": [125, 1000, 4000], "absorption": [0.1, 0.5, 0.7], "scattering": 0.2});
    let mut kind = sheet("curtain", 5.0, 2.5, 0.0);
    kind["absorber"] = json!({"bands_hz": values["bands_hz"], "absorption": values["absorption"]});
    let piece = json!({"kit": "curtain", "place": "curtain", "surface": "left", "u_m": 0, "v_m": 0, "open": 0});
    let sofas = [("sofa-fabric", Value::Null)];
    let furnish = |document: Value| {
        let mut document = furnished(document, &sofas);
        document["room"]["furnishings"][0] = json!({"kind": "sofa-fabric", "count": 3});
        document
    };
    let mut finished = document(&[], &[]);
    let mut own = values;
    own["id"] = "cloth".into();
    own["name"] = "Cloth".into();
    finished["own_finishes"] = json!([own]);
    finished["room"]["surfaces"]["left"]["finish"] = "cloth".into();
    let [_, hung] = plans(&furnish(document(&[kind], &[piece])));
    let [finished, _] = plans(&furnish(finished));
    for band in 0..24 {
        close(
            hung.absorption.left.0[band],
            finished.absorption.left.0[band],
            1e-12,
            "absorption",
        );
        let (a, b) = (hung.decay.t20_s.0[band], finished.decay.t20_s.0[band]);
        close(a / b, 1.0, 0.01, &format!("decay in band {band}"));
    }
}

#[test]
fn an_open_curtain_leaves_only_its_bundle() {
    let piece = |open: f64| json!({"kit": "curtain", "place": "curtain", "surface": "front", "u_m": 0.5, "v_m": 0.1, "open": open});
    for (open, width_m) in [(0.0, 2.4), (0.5, 1.2 + 0.2), (1.0, 0.4)] {
        let [_, with] = plans(&document(
            &[sheet("curtain", 2.4, 2.2, 0.6)],
            &[piece(open)],
        ));
        let area_m2 = with.absorption_area_m2.pieces.0[HZ_1K];
        close(area_m2, 0.6 * width_m * 2.2, 1e-9, &format!("open {open}"));
    }
}

#[test]
fn a_gathered_curtain_covers_its_low_end_and_leaves_the_rest_to_the_window() {
    let mut document = document(
        &[sheet("curtain", 2.4, 2.2, 0.6)],
        &[
            json!({"kit": "curtain", "place": "curtain", "surface": "left", "u_m": 1.0, "v_m": 0.1, "open": 1}),
        ],
    );
    document["room"]["surfaces"]["left"]["parts"] = json!([{"role": "window", "finish": "window",
        "u_m": 1.0, "v_m": 0.1, "width_m": 2.4, "height_m": 2.2}]);
    let [bare, with] = plans(&document);
    let area = |report: &PlanReport| {
        let parts = report
            .absorbers
            .iter()
            .filter(|one| one.what == Absorbing::Part);
        parts.map(|one| one.area_m2.0[HZ_1K]).sum::<f64>()
    };
    close(
        area(&with) / area(&bare),
        5.0 / 6.0,
        1e-9,
        "visible share of the window",
    );
    // The left bounce lies at y = 1.83 m, beyond the bundle.
    assert!(first(&with, 0, Surface::Left).pieces.is_empty());
    document["plans"][1]["pieces"][0]["open"] = 0.into();
    assert_eq!(first(&plans(&document)[1], 0, Surface::Left).pieces, [0]);
}

#[test]
fn fullness_changes_what_a_curtain_of_cloth_absorbs() {
    let cloth = |fullness: f64| {
        json!({"id": "curtain", "name": "curtain", "width_m": 2.4, "height_m": 2.2, "fullness": fullness,
            "absorber": {"layers": [{"cloth": {"flow_resistance_pa_s_per_m": 1500}}, {"gap": {"thickness_mm": 150}}]}})
    };
    let piece =
        json!({"kit": "curtain", "place": "curtain", "surface": "front", "u_m": 0.5, "v_m": 0.1});
    let absorbed = |fullness: f64| {
        let [_, with] = plans(&document(&[cloth(fullness)], std::slice::from_ref(&piece)));
        with.absorption_area_m2.pieces.0[HZ_1K]
    };
    // A cloth of 3.6 times the resistance of air absorbs less than one of 1.8 times, whose best is 1.6.
    assert!(
        absorbed(2.0) > 1.1 * absorbed(1.0),
        "{} {}",
        absorbed(2.0),
        absorbed(1.0)
    );
}

#[test]
fn a_stand_far_from_everything_counts_like_furniture_of_its_surface() {
    let stand = json!({"kit": "screen", "place": "stand", "x_m": 3.6, "y_m": 4.7, "z_m": 0.1, "turn_deg": 30});
    let [bare, with] = plans(&document(&[sheet("screen", 0.6, 1.2, 0.7)], &[stand]));
    let mut other = document(&[], &[]);
    other["own_furnishings"] = json!([{"id": "thing", "name": "Thing", "bands_hz": [1000],
        "absorption_area_m2": [0.7 * 1.44], "surface_m2": 1.44}]);
    other["room"]["furnishings"] = json!([{"kind": "thing", "count": 1}]);
    let [like, _] = plans(&other);
    for band in 0..24 {
        close(
            with.decay.t20_s.0[band],
            like.decay.t20_s.0[band],
            1e-12,
            "decay",
        );
        close(
            with.absorption_area_m2.pieces.0[band],
            0.7 * 1.44,
            1e-12,
            "pieces",
        );
        close(
            with.absorption_area_m2.furnishings.0[band],
            0.0,
            1e-12,
            "furnishings",
        );
    }
    let sides = [
        Surface::Left,
        Surface::Front,
        Surface::Floor,
        Surface::Ceiling,
    ];
    for surface in sides {
        let [without, with] = [&bare, &with].map(|report| first(report, 0, surface));
        assert!(with.screened_by.is_empty());
        for band in HZ_500..24 {
            // Waves that bend round a screen so far off.
            close(
                with.level_db.0[band],
                without.level_db.0[band],
                0.5,
                surface.in_words(),
            );
        }
    }
}

#[test]
fn a_soft_stand_absorbs_on_both_faces_but_little_in_the_bass() {
    let stand =
        json!({"kit": "screen", "place": "stand", "x_m": 3.6, "y_m": 4.7, "z_m": 0, "turn_deg": 0});
    let flat = json!({"kit": "screen", "surface": "front", "u_m": 1, "v_m": 0.5, "turned": false});
    let areas = |piece: Value| {
        let [_, with] = plans(&document(&[soft("screen", 0.6, 1.2)], &[piece]));
        with.absorption_area_m2.pieces.0
    };
    let (free, flat) = (areas(stand), areas(flat));
    assert!(
        free[HZ_4K] > 1.8 * flat[HZ_4K],
        "treble: {} {}",
        free[HZ_4K],
        flat[HZ_4K]
    );
    assert!(
        free[HZ_63] < flat[HZ_63],
        "bass: {} {}",
        free[HZ_63],
        flat[HZ_63]
    );
    assert!(free.iter().all(|&area_m2| area_m2 > 0.0 && area_m2 < 1.44));
}

/// Path of the left loudspeaker over the left wall.
fn left_bounce() -> ([f64; 3], Mirror) {
    let [x, y, z] = LOUDSPEAKERS_M[0];
    let image_m = DVec3::new(-x, y, z);
    let seat_m = DVec3::from_array(SEAT_M);
    let towards = (seat_m - image_m).normalize();
    let before_m = x / towards.x;
    let point_m = image_m + towards * before_m;
    let mirror = Mirror {
        point_m: (point_m.y, point_m.z),
        before_m,
        after_m: seat_m.distance(point_m),
        along: (towards.y, towards.z),
        cosine: towards.x,
    };
    (point_m.to_array(), mirror)
}

#[test]
fn a_stand_at_a_wall_takes_away_what_a_hole_of_its_shape_would() {
    let ([_, y, z], mirror) = left_bounce();
    // Parallel to the left wall and 1 mm before it, as near as its 2 mm let it, its middle 0.1 m behind the bounce.
    let mut screen = sheet("screen", 0.6, 1.2, 0.9);
    screen["depth_mm"] = 2.into();
    let stand = json!({"kit": "screen", "place": "stand", "x_m": 0.001, "y_m": y + 0.1, "z_m": z - 0.6, "turn_deg": 90});
    let [bare, with] = plans(&document(&[screen], &[stand]));
    let [without, with] = [&bare, &with].map(|report| first(report, 0, Surface::Left));
    assert_eq!(
        (without.screened_by.as_slice(), with.screened_by.as_slice()),
        (&[][..], &[0][..])
    );
    let rect = Rect {
        u_m: y - 0.2,
        v_m: z - 0.6,
        width_m: 0.6,
        height_m: 1.2,
    };
    let weight: Spectrum<FINE> = mirror.weight(rect, Air::at(20.0, 50.0).speed_of_sound_m_per_s);
    let mut passing = Spectrum::ZERO.minus(&weight);
    passing.re.iter_mut().for_each(|re| *re += 1.0);
    let passing = band_means(&passing.energy());
    for band in 0..22 {
        let wanted_db = 10.0 * passing[band].min(1.0).log10();
        let got_db = with.level_db.0[band] - without.level_db.0[band];
        close(got_db, wanted_db, 0.4, &format!("band {band}"));
    }
    assert!(passing[HZ_4K] < 0.1 && passing[HZ_63] > 0.6);
}

#[test]
fn a_stand_turns_clockwise_from_the_front_wall() {
    let ([_, y, z], _) = left_bounce();
    let screened = |turn_deg: f64, x_m: f64| {
        let stand = json!({"kit": "screen", "place": "stand", "x_m": x_m, "y_m": y, "z_m": z - 0.5, "turn_deg": turn_deg});
        let [_, with] = plans(&document(&[soft("screen", 0.4, 1.0)], &[stand]));
        let by = first(&with, 0, Surface::Left).screened_by.len();
        (by, first(&with, 1, Surface::Right).screened_by.len())
    };
    // Along the wall it stands in the way wherever it is near; square to it, beside the point, it is edge on to nothing.
    assert_eq!(screened(90.0, 0.1), (1, 0));
    assert_eq!(screened(0.0, 0.6), (0, 0));
    // Leaning along the incoming leg, which runs from (1, 1) to (0, y): parallel to it nothing crosses before the wall.
    let along_deg = (y - 1.0).atan2(-1.0).to_degrees();
    assert_eq!(screened(along_deg - 90.0, 0.3).0, 1);
}

#[test]
fn a_table_top_under_the_straight_line_bounces_by_its_image() {
    let mut document = document(&[], &[]);
    document["listening"]["loudspeakers"][0]["x_m"] = 2.0.into();
    document["listening"]["loudspeakers"][1]["x_m"] = 3.9.into();
    let desk = |x_m: f64| furnished(document.clone(), &[("desk", at(x_m, 1.5, 1.6, 1.4, 0.9))]);
    let [report, _] = plans(&desk(1.2));
    let off = off_things(&report);
    let bounce = off
        .iter()
        .find(|one| one.loudspeaker == 0)
        .expect("the desk bounces");
    let c = Air::at(20.0, 50.0).speed_of_sound_m_per_s;
    let image_m = DVec3::new(2.0, 1.0, 0.8).distance(DVec3::from_array(SEAT_M));
    close(bounce.distance_m, image_m, 1e-12, "length");
    close(bounce.delay_s, (image_m - 2.5) / c, 1e-15, "delay");
    assert_eq!((bounce.furnishing, bounce.order), (Some(0), 1));
    close(bounce.points_m[0][1], 2.25, 1e-12, "place along the room");
    close(bounce.points_m[0][2], 0.9, 1e-12, "height");
    // A tenth absorbed, a tenth scattered, and so much of the wave as meets the top; the way is longer by 0.3 %, and the
    // desk is in its own way on the mean.
    let mirror = Mirror {
        point_m: (2.0, 2.25),
        before_m: image_m / 2.0,
        after_m: image_m / 2.0,
        along: (0.0, 2.5 / image_m),
        cosine: 0.2 / image_m,
    };
    let top = Rect {
        u_m: 1.2,
        v_m: 1.5,
        width_m: 1.6,
        height_m: 1.4,
    };
    let weight: Spectrum<FINE> = mirror.weight(top, c);
    let share = band_means(&weight.energy());
    for band in HZ_500..24 {
        let wanted_db = 10.0 * (0.9 * 0.9 * share[band]).log10();
        close(
            bounce.level_db.0[band],
            wanted_db,
            0.3,
            &format!("level in band {band}"),
        );
    }
    assert!(
        share[HZ_63] < 0.2 && share[22] > 0.4,
        "{} {}",
        share[HZ_63],
        share[22]
    );
    // Its edge 0.1 m beside the line it still bounces in the middle, but hardly in the treble; far off it is not listed.
    let [beside, _] = plans(&desk(0.3));
    let beside = off_things(&beside);
    assert_eq!(beside.len(), 1);
    assert!(beside[0].level_db.0[22] < bounce.level_db.0[22] - 6.0);
    assert!(
        off_things(&plans(&desk(0.0))[0])
            .iter()
            .all(|one| one.level_db.0[HZ_4K] < -15.0)
    );
}

#[test]
fn the_front_of_a_cabinet_between_the_loudspeakers_bounces() {
    let document = furnished(
        document(&[], &[]),
        &[("television-stand", at(0.7, 0.1, 2.6, 0.4, 1.2))],
    );
    let [report, _] = plans(&document);
    let off = off_things(&report);
    assert_eq!(off.len(), 2, "one for each loudspeaker");
    for bounce in off {
        close(bounce.points_m[0][1], 0.5, 1e-12, "its front");
        let [x, y, z] = LOUDSPEAKERS_M[bounce.loudspeaker];
        let image_m = DVec3::new(x, 2.0 * 0.5 - y, z).distance(DVec3::from_array(SEAT_M));
        close(bounce.distance_m, image_m, 1e-12, "length");
    }
}

#[test]
fn a_soft_seat_is_no_mirror_and_the_one_under_the_seat_is_not_in_the_way() {
    let sofa = furnished(
        document(&[], &[]),
        &[
            ("sofa-fabric", at(1.0, 3.1, 2.0, 0.9, 0.8)),
            ("potted-plant", at(1.8, 2.0, 0.4, 0.4, 0.9)),
        ],
    );
    let [report, _] = plans(&sofa);
    assert!(off_things(&report).is_empty());
    assert!(
        report
            .reflections
            .iter()
            .all(|one| one.blocked_by.is_empty())
    );
}

#[test]
fn a_path_through_a_cupboard_is_marked() {
    let ([_, y, _], _) = left_bounce();
    let cupboard = |height_m: f64| {
        let furniture = [
            ("desk", at(3.0, 4.2, 0.9, 0.6, 0.7)),
            ("wardrobe", at(0.05, y - 0.3, 0.5, 0.6, height_m)),
        ];
        plans(&furnished(document(&[], &[]), &furniture))
    };
    let [tall, _] = cupboard(2.0);
    assert_eq!(first(&tall, 0, Surface::Left).blocked_by, [1]);
    assert!(first(&tall, 0, Surface::Ceiling).blocked_by.is_empty());
    assert!(first(&tall, 1, Surface::Right).blocked_by.is_empty());
    // Below the path, which runs level at 1 m.
    assert!(
        first(&cupboard(0.95)[0], 0, Surface::Left)
            .blocked_by
            .is_empty()
    );
}

#[test]
fn what_stands_before_the_seat_is_told() {
    let told = |report: &PlanReport| {
        report
            .notes
            .iter()
            .any(|note| note.contains("between a loudspeaker and the seat"))
    };
    let stand = |x_m: f64| json!({"kit": "screen", "place": "stand", "x_m": x_m, "y_m": 2.25, "z_m": 0.4, "turn_deg": 0});
    let kit = [soft("screen", 0.6, 1.2)];
    assert!(told(&plans(&document(&kit, &[stand(1.5)]))[1]));
    assert!(!told(&plans(&document(&kit, &[stand(3.6)]))[1]));
    assert!(!told(&plans(&document(&kit, &[]))[0]));
}

#[test]
fn screens_and_furniture_create_no_energy() {
    let mut random = Generator::new(7);
    let c2 = DVec3::from_array(SEAT_M);
    for case in 0..40 {
        let (width_m, height_m) = (random.between(0.3, 1.5), random.between(0.4, 2.0));
        let thickness_mm = random.between(5.0, 150.0);
        let mut kit = [soft("screen", width_m, height_m)];
        kit[0]["absorber"]["layers"][0]["porous"]["thickness_mm"] = thickness_mm.into();
        // However it is turned it keeps this far from walls, and from the stands in the other thirds of the room.
        let reach_m = (width_m + thickness_mm / 1000.0) / 2.0;
        let stands: Vec<Value> = (0..3)
            .map(|third| {
                let from_m = f64::from(third) * SIZE_M[1] / 3.0;
                json!({"kit": "screen", "place": "stand", "x_m": random.between(reach_m, SIZE_M[0] - reach_m),
                    "y_m": random.between(from_m + reach_m, from_m + SIZE_M[1] / 3.0 - reach_m),
                    "z_m": random.between(0.0, (SIZE_M[2] - height_m).min(1.0)), "turn_deg": random.between(-360.0, 360.0)})
            })
            .collect();
        let things = ["desk", "sideboard", "bookcase-filled"].map(|kind| {
            (
                kind,
                at(
                    random.between(0.0, 2.5),
                    random.between(0.0, 3.5),
                    random.between(0.3, 1.5),
                    random.between(0.2, 1.5),
                    random.between(0.3, 2.0),
                ),
            )
        });
        let [without, with] = plans(&furnished(document(&kit, &stands), &things));
        for (before, after) in images(&without).zip(images(&with)) {
            for band in 0..24 {
                assert!(
                    after.level_db.0[band] <= before.level_db.0[band] + 1e-9,
                    "case {case}, {:?}, band {band}",
                    after.surfaces
                );
            }
        }
        for bounce in off_things(&with) {
            let from_m = DVec3::from_array(LOUDSPEAKERS_M[bounce.loudspeaker]);
            let straight = c2 - from_m;
            let towards = axis(from_m.x, SIZE_M[0], 0.0);
            let direct = Directivity::Wide
                .pattern()
                .energies(straight.normalize().dot(towards));
            for band in 0..24 {
                let most = straight.length_squared() / bounce.distance_m.powi(2) / direct[band];
                let most_db = 10.0 * (most * ON_AXIS).log10();
                assert!(
                    bounce.level_db.0[band] <= most_db,
                    "case {case}, band {band}"
                );
            }
        }
        let seat = with.seat.as_ref().expect("there is a seat");
        for band in 0..24 {
            let sum =
                seat.direct_share.0[band] + seat.early_share.0[band] + seat.late_share.0[band];
            close(sum, 1.0, 1e-9, "shares");
        }
    }
}

/// No direction gets this much more than the axis does.
const ON_AXIS: f64 = 1.0 + 1e-9;

fn images(report: &PlanReport) -> impl Iterator<Item = &ReflectionReport> {
    report
        .reflections
        .iter()
        .filter(|one| !one.surfaces.is_empty())
}

/// One piece in each place, and furniture.
fn everything() -> Value {
    let kit = [
        soft("panel", 0.6, 1.2),
        sheet("curtain", 1.6, 2.2, 0.5),
        soft("corner", 0.6, 1.2),
    ];
    let pieces = [
        json!({"kit": "panel", "surface": "right", "u_m": 2, "v_m": 0.8, "turned": false}),
        json!({"kit": "panel", "place": "stand", "x_m": 0.5, "y_m": 1.8, "z_m": 0.4, "turn_deg": 90}),
        json!({"kit": "corner", "place": "corner", "edge": "back-right", "z_m": 0.5}),
        json!({"kit": "curtain", "place": "curtain", "surface": "left", "u_m": 3, "v_m": 0.1, "open": 0.4}),
    ];
    let mut document = furnished(
        document(&kit, &pieces),
        &[("dining-table", at(1.4, 2.0, 1.2, 0.8, 0.75))],
    );
    document["room"]["surfaces"]["left"]["parts"] = json!([{"role": "window", "finish": "window", "u_m": 3, "v_m": 0.9, "width_m": 1.2, "height_m": 1.2}]);
    document
}

#[test]
fn absorbers_sum_up_to_the_room() {
    for report in plans(&everything()) {
        let totals = &report.absorption_area_m2;
        for band in 0..24 {
            let sum_of = |wanted: &[Absorbing]| {
                let listed = report
                    .absorbers
                    .iter()
                    .filter(|one| wanted.contains(&one.what));
                listed.map(|one| one.area_m2.0[band]).sum::<f64>()
            };
            let pairs = [
                (
                    sum_of(&[Absorbing::Surface, Absorbing::Part]),
                    totals.surfaces.0[band],
                ),
                (sum_of(&[Absorbing::Piece]), totals.pieces.0[band]),
                (sum_of(&[Absorbing::Furnishing]), totals.furnishings.0[band]),
                (sum_of(&[Absorbing::Air]), totals.air.0[band]),
            ];
            for (sum, total) in pairs {
                close(sum, total, 1e-9, &format!("{}, band {band}", report.name));
            }
        }
    }
    let [_, with] = plans(&everything());
    let names: Vec<&str> = with.absorbers.iter().map(|one| one.name.as_str()).collect();
    for name in ["panel", "curtain", "corner", "Dining table", "Air"] {
        assert!(names.contains(&name), "{name} in {names:?}");
    }
}

#[test]
fn every_place_is_drawn_in_the_range() {
    let mid = |document: &Value| {
        let ranges = Draws::complete(&prepared(document), 1)
            .expect("plan A")
            .report((0.3, 0.5));
        (
            ranges.mid.low_s.expect("a limit"),
            ranges.mid.t20_s.expect("it absorbs"),
            ranges.mid.high_s.expect("a limit"),
        )
    };
    let (low_s, mid_s, high_s) = mid(&everything());
    assert!(low_s < mid_s && mid_s < high_s, "{low_s} {mid_s} {high_s}");
    // Forty stands in ten rows absorb far more than the bare walls, so that the range is theirs: a figure of 0.3 may be off by 13 % at
    // 1 kHz and 23 % at 250 Hz, 8 times in 10 (ISO 12999-2:2020, Table 1), and the decay by as much.
    let stands: Vec<Value> = (0..40)
        .map(|i| json!({"kit": "screen", "place": "stand", "x_m": 0.5 + f64::from(i % 4), "y_m": 0.3 + 0.45 * f64::from(i / 4), "z_m": 0, "turn_deg": 0}))
        .collect();
    let (low_s, mid_s, high_s) = mid(&document(&[sheet("screen", 1.0, 2.0, 0.3)], &stands));
    let width = (high_s - low_s) / mid_s;
    assert!((0.2..0.45).contains(&width), "{low_s} {mid_s} {high_s}");
}

#[test]
fn nothing_is_said_to_be_left_out_that_counts() {
    let [_, with] = plans(&everything());
    assert!(
        with.notes.iter().all(|note| !note.contains("not yet")),
        "{:?}",
        with.notes
    );
    let told = |words: &str| with.notes.iter().any(|note| note.contains(words));
    assert!(told("corner piece") && told("stand is taken") && told("partly open"));
}
