//! When sound arrives.

use glam::DVec3;
use seatward::bands::Banded;
use seatward::listen::{LEAD_S, Pickup, RATE_HZ, Sphere, Way, render_ways};

use crate::generator::Generator;
use crate::{at_a_point, rendered, story};

/// 20 µs.
const MOST_OFF_S: f64 = 20e-6;

/// Where a series is largest near a place, between samples by a parabola, s after the sound left.
fn peak_s(samples: &[f32], near_s: f64) -> f64 {
    let near = ((near_s + LEAD_S) * RATE_HZ).round() as usize;
    let n = (near - 20..near + 20)
        .max_by(|&a, &b| samples[a].abs().total_cmp(&samples[b].abs()))
        .expect("places to look at");
    let [y0, y1, y2] = [samples[n - 1], samples[n], samples[n + 1]].map(|y| f64::from(y.abs()));
    let part = 0.5 * (y0 - y2) / (y0 - 2.0 * y1 + y2);
    (n as f64 + part) / RATE_HZ - LEAD_S
}

/// Ways of any length, not in whole samples.
#[test]
fn a_way_arrives_when_it_should() {
    let mut random = Generator::new(1);
    let sphere = Sphere::new(343.2);
    for _ in 0..50 {
        let time_s = random.between(0.0015, 0.12);
        let way = Way {
            time_s,
            direction: DVec3::from_array(random.isotropic()),
            energy: Banded::from_fn(|_| random.between(0.5, 1.0)),
            pressure: Vec::new(),
        };
        let samples = render_ways(&[way], &sphere, Pickup::Point, None);
        let off_s = peak_s(&samples[0], time_s) - time_s;
        assert!(off_s.abs() < MOST_OFF_S, "{time_s} s: off by {off_s} s");
    }
}

/// First-order arrivals of a room, each rendered alone, peak where the report has them, and the direct sound where the distance has it.
#[test]
fn the_arrivals_of_a_room_are_those_of_its_report() {
    let prepared = story("concrete-loft");
    let report = prepared.predict(0).expect("a plan");
    let to_seat = at_a_point(&prepared, 0);
    let response = rendered(&to_seat, Pickup::Point);
    let listening = &prepared.scenario().listening;
    let seat_m = listening.seat.expect("a seat").point_m();
    let c = to_seat.speed_of_sound_m_per_s;
    let sphere = Sphere::new(c);
    let mut count = 0;
    for (number, channels) in response.samples.iter().enumerate() {
        let source_m = listening.loudspeakers[number].spot.point_m();
        let direct_s = source_m.distance(seat_m) / c;
        let off_s = peak_s(&channels[0], direct_s) - direct_s;
        assert!(
            off_s.abs() < MOST_OFF_S,
            "direct sound {number}: off by {off_s} s"
        );
        let firsts = report
            .reflections
            .iter()
            .filter(|one| one.loudspeaker == number && one.order == 1 && !one.surfaces.is_empty());
        for first in firsts {
            let time_s = direct_s + first.delay_s;
            let way = to_seat.sent[number]
                .ways
                .iter()
                .find(|way| (way.time_s - time_s).abs() < MOST_OFF_S)
                .unwrap_or_else(|| panic!("{:?} at {time_s} s", first.surfaces));
            // Alone, so that no other one moves its peak.
            let samples = render_ways(std::slice::from_ref(way), &sphere, Pickup::Point, None);
            let off_s = peak_s(&samples[0], time_s) - time_s;
            assert!(off_s.abs() < MOST_OFF_S, "{:?}: {off_s} s", first.surfaces);
            count += 1;
        }
    }
    assert!(count >= 10, "{count}");
}
