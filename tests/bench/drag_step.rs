//! `cargo bench`: what one step of a drag and what the workers do cost, native and in the module, side by side in one run.
//!
//! The case is the long terrace room with 40 pieces. Absolute times depend on the machine; the ratios are what counts. Where
//! python3 with NumPy is found, the decay in NumPy, vectorised over bands, stands beside as a yardstick.

use std::hint::black_box;
use std::io::Write;
use std::process::{Command, Stdio};
use std::time::Instant;

use seatward::decay::t20_and_sums;
use seatward::listen::{Noise, Pickup, render};
use seatward::scenario::{self, Scenario};
use seatward::simulate::{Draws, Memory, Prepared};
use serde_json::{Value, json};

/// Samples, of which the fastest is printed: it is the one that other programs disturbed least.
const SAMPLES: usize = 400;
const SLOW_SAMPLES: usize = 6;

fn main() {
    let case = terrace_with_forty_pieces();
    let native = native_ms(&case);
    let module = module_ms(&case);
    println!(
        "long terrace room, 40 pieces                        native  module  module/native   ms"
    );
    for ((name, native), module) in ROWS.iter().zip(native).zip(module) {
        println!(
            "{name:50} {native:7.3} {module:7.3} {:8.2}",
            module / native
        );
    }
    print_decay(&case);
}

/// What is timed, in the order of the two lists of times.
const ROWS: [&str; 11] = [
    "read and check the document",
    "piece drag: whole report of the shown plan",
    "seat drag: whole report of the shown plan",
    "report without a seat: the decay and what goes with it",
    "200 draws of one plan (worker)",
    "bass of one plan (worker)",
    "600 draws for 3 plans of the concrete loft (worker)",
    "the half of them that one of two workers makes",
    "its check-up of one plan and what would make it surer",
    "response of one plan to two ears (worker)",
    "that of the concrete loft",
];

fn native_ms(case: &Value) -> [f64; 11] {
    let text = case.to_string();
    let prepared = Prepared::new(read(case));
    let mut memory = Memory::default();
    let mut report_of = |move_on: &dyn Fn(usize) -> Value| {
        least_ms(SAMPLES, |step| {
            let moved = Prepared::after(read(&move_on(step)), Some(&prepared));
            let start = Instant::now();
            black_box(moved.predict_after(1, &mut memory));
            start
        })
    };
    let piece = report_of(&|step| with_piece_moved(case, step));
    let seat = report_of(&|step| with_seat_moved(case, step));
    let no_seat = report_of(&|_| without_seat(case));
    [
        least_ms(SAMPLES, |_| {
            let start = Instant::now();
            let scenario = scenario::from_json(&text).expect("the case is valid");
            black_box(Prepared::after(scenario, Some(&prepared)));
            start
        }),
        piece,
        seat,
        no_seat,
        least_ms(SLOW_SAMPLES, |_| {
            let start = Instant::now();
            black_box(Draws::complete(&prepared, 1));
            start
        }),
        least_ms(SLOW_SAMPLES, |_| {
            let start = Instant::now();
            black_box(prepared.bass(1));
            start
        }),
        loft_draws_ms(0, 200),
        loft_draws_ms(100, 200),
        loft_checkup_ms(),
        response_ms(case, 1),
        response_ms(&demo("concrete-loft"), 1),
    ]
}

/// Draws of those numbers for three plans of the concrete loft.
fn loft_draws_ms(first: usize, end: usize) -> f64 {
    let loft = Prepared::new(read(&demo("concrete-loft")));
    least_ms(SLOW_SAMPLES, |_| {
        let start = Instant::now();
        for plan in 0..3 {
            let mut draws = Draws::part(&loft, plan, first, end).expect("a plan");
            draws.more(end - first);
            black_box(draws.packed());
        }
        start
    })
}

fn loft_checkup_ms() -> f64 {
    let loft = read(&measured_loft());
    least_ms(SLOW_SAMPLES, |_| {
        let mut loft = Prepared::new(loft.clone());
        let start = Instant::now();
        loft.check_up();
        black_box(loft.surer(1));
        start
    })
}

/// A plan rendered to two ears, the noise being there; all of it anew.
fn response_ms(document: &Value, plan: usize) -> f64 {
    let prepared = Prepared::new(read(document));
    let mut noise = Noise::new(Pickup::Head);
    let mut rendered = || {
        let to_seat = prepared.to_seat(plan, Pickup::Head, true, &mut Memory::default());
        render(&to_seat.expect("a plan to hear"), &mut noise)
    };
    rendered();
    least_ms(SLOW_SAMPLES, |_| {
        let start = Instant::now();
        black_box(rendered());
        start
    })
}

/// The concrete loft, measured as it is.
fn measured_loft() -> Value {
    let mut loft = demo("concrete-loft");
    loft["measured"] = json!([
        { "plan": "Now", "bands_hz": [250, 500, 1000, 2000, 4000], "decay_s": [1.5, 1.6, 1.4, 1.2, 1.0] }
    ]);
    loft
}

fn demo(name: &str) -> Value {
    let path = format!("{}/scenarios/{name}.json", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).expect("the demo scenario is there");
    serde_json::from_str(&text).expect("it is JSON")
}

fn module_ms(case: &Value) -> Vec<f64> {
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/bench/drag_step.js");
    let module = Command::new("node")
        .arg(script)
        .arg(case.to_string())
        .arg(demo("concrete-loft").to_string())
        .arg(measured_loft().to_string())
        .output();
    let module = module.expect("node runs the module");
    assert!(
        module.status.success(),
        "{}",
        String::from_utf8_lossy(&module.stderr)
    );
    let times = String::from_utf8_lossy(&module.stdout);
    times
        .split_whitespace()
        .map(|t| t.parse().expect("a time"))
        .collect()
}

/// The decay of 24 bands alone, and in NumPy.
fn print_decay(case: &Value) {
    let prepared = Prepared::new(read(case));
    let room = prepared.room_of(1).expect("plan A");
    let ours = least_ms(SAMPLES, |_| {
        let start = Instant::now();
        black_box(t20_and_sums(&room));
        start
    });
    println!("decay of 24 bands alone, native: {ours:.3} ms");
    let walls = room.walls.each_ref();
    let input = json!({
        "size_m": room.size_m.to_array(),
        "c": room.air.speed_of_sound_m_per_s,
        "absorption": walls.map(|wall| wall.mean_absorption().0),
        "scattering": walls.map(|wall| wall.mean_scattering().0),
        "air_per_m": room.air.attenuation_per_m.0,
        "object_surface_m2": room.furniture_surface_m2,
        "object_absorption_area_m2": room.furniture_absorption_m2.0,
    });
    match numpy_ms(&input) {
        Some(numpy) => println!(
            "the same in NumPy, vectorised over bands: {numpy:.1} ms, {:.0} times as long",
            numpy / ours
        ),
        None => println!("python3 with NumPy was not found: no yardstick"),
    }
}

fn numpy_ms(input: &Value) -> Option<f64> {
    let script = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/tests/reference/decay_yardstick.py"
    );
    let mut python = Command::new("python3")
        .arg(script)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .ok()?;
    python
        .stdin
        .take()?
        .write_all(input.to_string().as_bytes())
        .ok()?;
    let answer: Value = serde_json::from_slice(&python.wait_with_output().ok()?.stdout).ok()?;
    answer["ms"].as_f64()
}

fn read(document: &Value) -> Scenario {
    scenario::from_json(&document.to_string()).expect("the case is valid")
}

/// The demo room with rows of panels in plan A until there are 40 pieces.
fn terrace_with_forty_pieces() -> Value {
    let mut document = demo("long-terrace-room");
    let pieces: Vec<Value> = (0..40)
        .map(|i| json!({"kit": "thick", "surface": "ceiling", "u_m": 0.62 * f64::from(i % 5), "v_m": 1.0 * f64::from(i / 5), "turned": false}))
        .collect();
    for kind in document["kit"].as_array_mut().expect("a kit") {
        kind["height_m"] = 0.95.into();
    }
    document["plans"][1]["pieces"] = pieces.into();
    document["room"]["keep_clear"] = json!([]);
    document
}

/// The last piece somewhere else in each step.
fn with_piece_moved(case: &Value, step: usize) -> Value {
    let mut moved = case.clone();
    moved["plans"][1]["pieces"][39]["v_m"] = json!(7.0 + 0.0007 * step as f64);
    moved
}

fn with_seat_moved(case: &Value, step: usize) -> Value {
    let mut moved = case.clone();
    moved["listening"]["seat"]["x_m"] = json!(1.5 + 0.0007 * step as f64);
    moved
}

fn without_seat(case: &Value) -> Value {
    let mut without = case.clone();
    without["listening"] = json!({ "loudspeakers": [] });
    without
}

/// Time from the instant that a step hands back to its end, in the fastest of the samples, ms.
fn least_ms(samples: usize, mut step: impl FnMut(usize) -> Instant) -> f64 {
    (0..samples)
        .map(|number| step(number).elapsed().as_secs_f64() * 1000.0)
        .fold(f64::INFINITY, f64::min)
}
