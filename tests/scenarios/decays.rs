//! Decays of the six rooms against hand estimates: generic handbook figures and Sabine's formula, good for ± 30 %.

use seatward::scenario::goal_s;

use crate::stories::{
    BAND_1K, BAND_4K, BAND_125, BAND_500, CORNER_ROOM, DEN, LOFT, STORIES, STUDY, TALL_ROOM,
    TERRACE, mid_s, plan, story, t20_s,
};

/// Story, plan, band, hand estimate of the decay, s.
type Estimate = (&'static str, &'static str, usize, f64);

const ESTIMATES: [Estimate; 14] = [
    (CORNER_ROOM, "Now", BAND_1K, 1.0),
    (CORNER_ROOM, "Curtain and stands", BAND_1K, 0.4),
    (TERRACE, "Now", BAND_1K, 0.9),
    (TERRACE, "A", BAND_1K, 0.5),
    (LOFT, "Now", BAND_1K, 1.4),
    (LOFT, "Thirty-five panels", BAND_1K, 0.55),
    (STUDY, "Now", BAND_500, 0.5),
    (STUDY, "Now", BAND_4K, 0.23),
    (DEN, "Now", BAND_500, 0.85),
    (DEN, "A", BAND_500, 0.45),
    (DEN, "Now", BAND_4K, 0.36),
    (DEN, "A", BAND_4K, 0.26),
    (TALL_ROOM, "Now", BAND_1K, 1.05),
    (TALL_ROOM, "Curtains drawn", BAND_1K, 0.5),
];

/// What a hand estimate is good for.
const WITHIN: f64 = 0.30;

#[test]
fn the_decays_come_within_thirty_percent_of_the_hand_estimates() {
    for name in STORIES {
        let prepared = story(name);
        for (_, of, band, estimate) in ESTIMATES.iter().filter(|(story, ..)| *story == name) {
            let ours = t20_s(&plan(&prepared, of), *band);
            println!("{name}, {of}, band {band}: {ours:.2} s against {estimate} s");
            assert!(
                (ours / estimate - 1.0).abs() < WITHIN,
                "{name}, {of}, band {band}: {ours} against {estimate} s"
            );
        }
    }
}

#[test]
fn the_dull_study_begins_inside_the_goal() {
    // The hand estimate of its middle is 0.3 to 0.5 s: what is wrong with it is the tilt.
    let mid = mid_s(&plan(&story(STUDY), "Now"));
    assert!((0.3..=0.5).contains(&mid), "{mid} s");
}

#[test]
fn more_foam_tilts_the_study_further_and_deep_corners_even_it() {
    let prepared = story(STUDY);
    let tilt = |name: &str| {
        let report = plan(&prepared, name);
        t20_s(&report, BAND_500) / t20_s(&report, BAND_4K)
    };
    let [now, foam, corners] = ["Now", "More foam", "Deep corners"].map(tilt);
    println!("500 Hz over 4 kHz: now {now:.2}, more foam {foam:.2}, deep corners {corners:.2}");
    assert!(foam > 1.03 * now, "{foam} against {now}");
    assert!(corners < 0.9 * now, "{corners} against {now}");
}

#[test]
fn more_foam_takes_nothing_from_the_lowest_octave_of_the_study() {
    // Thin foam covers board that gives way in the bass; the corner pieces reach down to 250 Hz.
    let prepared = story(STUDY);
    let [now, foam] = ["Now", "More foam"].map(|name| t20_s(&plan(&prepared, name), BAND_125));
    assert!(foam > 0.98 * now, "{foam} against {now} s");
}

#[test]
fn in_the_loft_every_step_buys_less_for_its_money() {
    let prepared = story(LOFT);
    let steps = [
        "Now",
        "Twelve panels",
        "Curtains and rugs too",
        "Thirty-five panels",
    ];
    let found = steps.map(|name| plan(&prepared, name));
    let gains: Vec<f64> = found
        .windows(2)
        .map(|pair| (mid_s(&pair[0]) - mid_s(&pair[1])) / (pair[1].cost.known - pair[0].cost.known))
        .collect();
    println!("s per unit of money: {gains:?}");
    for pair in gains.windows(2) {
        assert!(pair[1] > 0.0 && pair[1] < 0.8 * pair[0], "{gains:?}");
    }
}

#[test]
fn the_plans_bring_every_room_but_the_study_into_its_goal_or_near_it() {
    // The terrace room stays a little above: its budget ends before its walls do.
    let best = [
        (CORNER_ROOM, "Curtain and stands", 1.0),
        (TERRACE, "A", 1.12),
        (LOFT, "Thirty-five panels", 1.0),
        (DEN, "A", 1.0),
        (TALL_ROOM, "Curtains drawn", 1.0),
    ];
    for (name, of, over) in best {
        let prepared = story(name);
        let (low_s, high_s) = goal_s(prepared.scenario());
        let [before, after] = ["Now", of].map(|name| mid_s(&plan(&prepared, name)));
        println!("{name}: {before:.2} s to {after:.2} s, goal {low_s} to {high_s} s");
        assert!(before > 1.2 * high_s, "{name}: {before} s");
        assert!(
            (low_s..=over * high_s).contains(&after),
            "{name}: {after} s"
        );
    }
}

#[test]
fn the_den_becomes_dull_at_the_top_before_its_middle_is_dry() {
    let prepared = story(DEN);
    let (low_s, _) = goal_s(prepared.scenario());
    let report = plan(&prepared, "A");
    assert!(mid_s(&report) > low_s && t20_s(&report, BAND_4K) < low_s);
}

#[test]
fn open_curtains_give_the_tall_room_its_treble_back_and_leave_the_bass() {
    let prepared = story(TALL_ROOM);
    let [drawn, open] = ["Curtains drawn", "Curtains open"].map(|name| plan(&prepared, name));
    let ratio = |band: usize| t20_s(&open, band) / t20_s(&drawn, band);
    println!(
        "open over drawn: {:.2} at 125 Hz, {:.2} at 1 kHz",
        ratio(BAND_125),
        ratio(BAND_1K)
    );
    assert!(ratio(BAND_1K) > 1.25, "{}", ratio(BAND_1K));
    assert!(ratio(BAND_125) < 1.15, "{}", ratio(BAND_125));
}
