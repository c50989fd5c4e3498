//! The rendered response, read as a measurement, against the report of its plan.

use std::f64::consts::TAU;

use num_complex::Complex64;
use seatward::bands::{BANDS, exact_hz};
use seatward::decay::decay;
use seatward::decay_curve::ExponentialSum;
use seatward::listen::{
    LEAD_S, Noise, Pickup, RATE_HZ, Response, Sent, Sphere, ToSeat, Way, render, render_ways,
};
use seatward::recording::{BandFilter, Impulse, Width};
use seatward::report::Series;
use seatward::simulate::Prepared;
use seatward::spectrum::{FINE, frequency_hz};

use crate::generator::Generator;
use crate::line::slope;
use crate::{at_a_point, band_energy, db, story, wide};

/// Middles of the octaves 250 Hz … 4 kHz among the third octaves.
const OCTAVES: [usize; 5] = [7, 10, 13, 16, 19];

const ROOMS: [&str; 6] = [
    "rented-corner-room",
    "long-terrace-room",
    "concrete-loft",
    "square-study",
    "basement-den",
    "tall-room",
];

/// Bandwidth of a third octave re 1 kHz's, by which white sound weighs it in an octave.
fn bandwidth(band: usize) -> f64 {
    exact_hz(band) / 1000.0
}

/// How much of each third octave's energy an octave filter lets through, white sound taken: its own three, and of the others
/// what its skirts leave, as any measurement has it.
fn weights(band: usize) -> [f64; BANDS] {
    let filter = BandFilter::new(exact_hz(band), Width::Octave, RATE_HZ).expect("a band");
    std::array::from_fn(|third| {
        let step = |n: i32| 10f64.powf((f64::from(n) + 0.5) / 200.0 - 0.05);
        let through = (0..20).map(|n| {
            filter
                .transfer(TAU * exact_hz(third) * step(n) / RATE_HZ)
                .norm_sqr()
        });
        bandwidth(third) * through.sum::<f64>() / 20.0
    })
}

/// T20 of an octave from the report's decays: its late sounds added as an octave filter adds them.
fn octave_t20_s(prepared: &Prepared, plan: usize, band: usize) -> f64 {
    let decay = decay(&prepared.room_of(plan).expect("a plan"));
    let weights = weights(band);
    let terms = (0..BANDS).flat_map(|third| {
        let level = weights[third];
        let terms = decay.sums[third].terms.iter();
        terms.map(move |(rate, share)| (*rate, level * share))
    });
    let octave = ExponentialSum {
        terms: terms.collect(),
    };
    octave.time_s(-5.0, -25.0).expect("a decay")
}

/// Energy at the seat in each millisecond in an octave, as the report counts it: images and late sound, each for itself.
fn energies(sent: &Sent, band: usize, until_s: f64) -> Vec<f64> {
    let mut energies = vec![0.0; (1000.0 * until_s) as usize];
    for (third, weight) in weights(band).into_iter().enumerate() {
        for way in &sent.ways {
            energies[(1000.0 * way.time_s) as usize] += weight * way.energy[third];
        }
        let start = (1000.0 * sent.late.from_s).round() as usize;
        for (slice, energy) in sent.late.energy[third].iter().enumerate() {
            for place in energies.iter_mut().skip(start + 10 * slice).take(10) {
                *place += weight * energy / 10.0;
            }
        }
    }
    energies
}

/// T20 of such energies by backward integration and a straight line.
fn t20_s(energies: &[f64]) -> f64 {
    let mut sum = 0.0;
    let mut curve: Vec<f64> = energies
        .iter()
        .rev()
        .map(|energy| {
            sum += energy;
            db(sum)
        })
        .collect();
    curve.reverse();
    let points: Vec<(f64, f64)> = curve
        .iter()
        .enumerate()
        .map(|(n, level)| (0.001 * n as f64, level - curve[0]))
        .filter(|point| (-25.0..=-5.0).contains(&point.1))
        .collect();
    -60.0 / slope(&points)
}

/// The same without direct sound and reflections.
fn late_only(to_seat: &ToSeat) -> ToSeat {
    let silent = |sent: &Sent| Sent {
        ways: Vec::new(),
        ..sent.clone()
    };
    ToSeat {
        sent: to_seat.sent.iter().map(silent).collect(),
        ..to_seat.clone()
    }
}

/// T20 read off the rendered response, mean of both loudspeakers.
fn read_t20_s(response: &Response, band: usize) -> f64 {
    let read = response.samples.iter().map(|channels| {
        let impulse = Impulse::new(&wide(&channels[0]), RATE_HZ);
        let figures = impulse.read(exact_hz(band), Width::Octave);
        figures.t20_s.unwrap_or_else(|| panic!("{figures:?}"))
    });
    read.sum::<f64>() / response.samples.len() as f64
}

/// 5 % of T20 from 500 Hz to 4 kHz, 8 % at 250 Hz, at a point, for the first and the last plan of the demo rooms: all of them against what the
/// report's own images and late sound come to at the seat, and nine in ten against the decay that it prints, the rest within
/// half as much again. Where a decay is bent the two differ, since a strong direct sound moves the window from −5 to −25 dB
/// along the bend.
#[test]
fn the_decay_is_that_of_the_report() {
    let mut noise = Noise::new(Pickup::Point);
    let (mut all, mut near) = (0.0, 0.0);
    for name in ROOMS {
        let prepared = story(name);
        for plan in [0, prepared.scenario().plans.len() - 1] {
            let to_seat = at_a_point(&prepared, plan);
            let response = render(&to_seat, &mut noise);
            for band in OCTAVES {
                let most = if band == OCTAVES[0] { 0.08 } else { 0.05 };
                let read_s = read_t20_s(&response, band);
                let sent = to_seat.sent.iter();
                let seat_s = sent.map(|sent| t20_s(&energies(sent, band, to_seat.until_s)));
                let off = 2.0 * read_s / seat_s.sum::<f64>() - 1.0;
                let off_report = read_s / octave_t20_s(&prepared, plan, band) - 1.0;
                let what = format!("{name} {plan} {:.0} Hz: {read_s:.3} s", exact_hz(band));
                println!(
                    "{what}, seat {:+.1} %, report {:+.1} %",
                    100.0 * off,
                    100.0 * off_report
                );
                assert!(off.abs() < most, "{what}: {off}");
                assert!(off_report.abs() < 1.5 * most, "{what}: {off_report}");
                all += 1.0;
                near += f64::from(u8::from(off_report.abs() < most));
            }
        }
    }
    println!("{near} of {all} within the tolerance of the printed decay");
    assert!(near > 0.9 * all);
}

/// The report's energies of an octave up to 50 ms and after, and in its three parts, each re the direct sound, by report.
struct Parts {
    clarity_db: f64,
    early: f64,
    late: f64,
}

fn reported(prepared: &Prepared, plan: usize, to_seat: &ToSeat, band: usize) -> Parts {
    let seat = prepared
        .predict(plan)
        .and_then(|report| report.seat)
        .expect("a seat");
    let mut sums = [0.0; 5];
    for third in band - 1..=band + 1 {
        let direct = to_seat
            .sent
            .iter()
            .map(|sent| sent.ways[0].energy[third])
            .sum::<f64>()
            / 2.0;
        let weight = bandwidth(third) * direct;
        let of_direct = |share: &Series| share.0[third] / seat.direct_share.0[third];
        let all = 1.0 / seat.direct_share.0[third];
        let rest = all / (1.0 + 10f64.powf(seat.c50_db.0[third] / 10.0));
        let parts = [
            1.0,
            of_direct(&seat.early_share),
            of_direct(&seat.late_share),
            all - rest,
            rest,
        ];
        sums.iter_mut()
            .zip(parts)
            .for_each(|(sum, part)| *sum += weight * part);
    }
    Parts {
        clarity_db: db(sums[3] / sums[4]),
        early: sums[1] / sums[0],
        late: sums[2] / sums[0],
    }
}

/// The same way with its pressure turned over.
fn turned_over(way: &Way) -> Way {
    let pressure = if way.pressure.is_empty() {
        (0..FINE)
            .map(frequency_hz::<FINE>)
            .map(|hz| (hz, Complex64::from(-way.energy.at_hz(hz).sqrt())))
            .collect()
    } else {
        way.pressure
            .iter()
            .map(|(hz, pressure)| (*hz, -pressure))
            .collect()
    };
    Way {
        pressure,
        ..way.clone()
    }
}

/// The samples from the direct sound on, cut at a time after it.
fn cut<'a>(samples: &'a [f32], sent: &Sent, after_s: f64) -> (&'a [f32], &'a [f32]) {
    let at = ((LEAD_S + sent.ways[0].time_s + after_s) * RATE_HZ).round() as usize;
    samples.split_at(at)
}

/// The report adds energies, as the phases of images are not known to the centimetre; a response has one set of phases. So
/// C50 is that of the mean over forty responses whose images are turned over by chance: 0.5 dB from 500 Hz on. At 250 Hz the one
/// seed of the late noise changes a few times only in 50 ms, before and after the edge: 1 dB. One response alone is
/// told, not held to that: with few images in 50 ms its bands may differ by some dB.
#[test]
fn clarity_is_that_of_the_report() {
    let mut noise = Noise::new(Pickup::Point);
    let mut random = Generator::new(5);
    for (name, plan) in [
        ("concrete-loft", 1),
        ("long-terrace-room", 1),
        ("tall-room", 0),
    ] {
        let prepared = story(name);
        let to_seat = at_a_point(&prepared, plan);
        let sphere = Sphere::new(to_seat.speed_of_sound_m_per_s);
        let late = render(&late_only(&to_seat), &mut noise);
        let mut sums = [[0.0; 2]; OCTAVES.len()];
        let mut first_db = [0.0; OCTAVES.len()];
        for draw in 0..40 {
            for (sent, late) in to_seat.sent.iter().zip(&late.samples) {
                let turn = |way: &Way| {
                    if draw > 0 && random.unit() < 0.5 {
                        turned_over(way)
                    } else {
                        way.clone()
                    }
                };
                let ways: Vec<Way> = sent.ways.iter().map(turn).collect();
                let mut samples = render_ways(&ways, &sphere, Pickup::Point, None).remove(0);
                samples.resize(late[0].len().max(samples.len()), 0.0);
                samples
                    .iter_mut()
                    .zip(&late[0])
                    .for_each(|(sum, late)| *sum += late);
                let (early, rest) = cut(&samples, sent, 0.05);
                for (sums, band) in sums.iter_mut().zip(OCTAVES) {
                    sums[0] += band_energy(early, exact_hz(band), Width::Octave);
                    sums[1] += band_energy(rest, exact_hz(band), Width::Octave);
                }
            }
            if draw == 0 {
                first_db = sums.map(|[early, rest]| db(early / rest));
            }
        }
        for ((sums, band), first_db) in sums.iter().zip(OCTAVES).zip(first_db) {
            let (read_db, report_db) = (
                db(sums[0] / sums[1]),
                reported(&prepared, plan, &to_seat, band).clarity_db,
            );
            println!(
                "{name} {plan} {:.0} Hz: C50 {read_db:.2} dB, one response {first_db:.2} dB, report {report_db:.2} dB",
                exact_hz(band)
            );
            let most_db = if band == OCTAVES[0] { 1.0 } else { 0.5 };
            assert!(
                (read_db - report_db).abs() < most_db,
                "{name} band {band}: {read_db} dB for {report_db} dB"
            );
            assert!(
                (first_db - report_db).abs() < 4.0,
                "{name} band {band}: {first_db} dB for {report_db} dB"
            );
        }
    }
}

/// Direct, early (20 ms) and late sound, each rendered for itself, against the report's shares: 0.5 dB.
#[test]
fn shares_are_those_of_the_report() {
    let mut noise = Noise::new(Pickup::Point);
    for (name, plan) in [("rented-corner-room", 2), ("basement-den", 1)] {
        let prepared = story(name);
        let to_seat = at_a_point(&prepared, plan);
        let sphere = Sphere::new(to_seat.speed_of_sound_m_per_s);
        let late = render(&late_only(&to_seat), &mut noise);
        for band in OCTAVES {
            let energy = |samples: &[f32]| band_energy(samples, exact_hz(band), Width::Octave);
            let (mut early, mut rest) = (0.0, 0.0);
            for (sent, late) in to_seat.sent.iter().zip(&late.samples) {
                let alone = |way: &Way| {
                    energy(&render_ways(std::slice::from_ref(way), &sphere, Pickup::Point, None)[0])
                };
                let direct = alone(&sent.ways[0]);
                for way in &sent.ways[1..] {
                    let sum = if way.time_s - sent.ways[0].time_s < 0.02 {
                        &mut early
                    } else {
                        &mut rest
                    };
                    *sum += alone(way) / direct / 2.0;
                }
                let (before, after) = cut(&late[0], sent, 0.02);
                early += energy(before) / direct / 2.0;
                rest += energy(after) / direct / 2.0;
            }
            let report = reported(&prepared, plan, &to_seat, band);
            for (what, read, expected) in
                [("early", early, report.early), ("late", rest, report.late)]
            {
                let off_db = db(read / expected);
                println!(
                    "{name} {plan} {:.0} Hz: {what} re direct off by {off_db:+.2} dB",
                    exact_hz(band)
                );
                assert!(
                    off_db.abs() < 0.5,
                    "{name} {plan} band {band}: {what} {off_db} dB"
                );
            }
        }
    }
}
