//! `cargo bench`: what one step of a drag and what the workers do cost, native and in the module, side by side in one run.
//!
//! The case is the long terrace room with 40 pieces. A report counts with its way out: the module hands JavaScript objects
//! over, the native build the bytes of its JSON; what computing it takes stands in a row of its own. Absolute times depend on
//! the machine; the ratios are what counts. Where python3 with NumPy is found, the decay in NumPy, vectorised over bands,
//! stands beside as a yardstick. The lines are those of README.md.

mod cases;

use std::fs;
use std::hint::black_box;
use std::io::Write;
use std::process::{Command, Stdio};
use std::thread::available_parallelism;
use std::time::Instant;

use cases::{
    demo, measured_loft, terrace_with_every_kind, terrace_with_forty_pieces, with_piece_moved,
    with_seat_moved, without_seat,
};
use seatward::decay::t20_and_sums;
use seatward::listen::{Noise, Pickup, render};
use seatward::report::PlanReport;
use seatward::scenario::{self, Scenario, goal_s};
use seatward::simulate::{Draws, Memory, Prepared};
use serde_json::{Value, json};

/// How often native build and module take turns: a machine that is slow for some seconds must not slow down one of them alone.
const ROUNDS: usize = 3;

/// Samples in a round, of which the fastest is printed: it is the one that other programs disturbed least.
const SAMPLES: usize = 400;
const SLOW_SAMPLES: usize = 6;

fn main() {
    // Else the module would be that of some day before.
    let built = Command::new(env!("CARGO")).arg("site").status();
    assert!(
        built.is_ok_and(|status| status.success()),
        "`cargo site` builds the module"
    );
    let case = terrace_with_forty_pieces();
    let crowded = terrace_with_every_kind();
    let (mut rows, mut module) = round(&case, &crowded);
    for _ in 1..ROUNDS {
        let (again, module_again) = round(&case, &crowded);
        rows.iter_mut()
            .zip(again)
            .for_each(|(row, again)| row.keep_faster(&again));
        module
            .iter_mut()
            .zip(module_again)
            .for_each(|(ms, again)| *ms = ms.min(again));
    }
    println!("{}\n", machine());
    println!("| | native | module | module/native | native, computation alone |");
    println!("|---|---|---|---|---|");
    for (row, module) in rows.iter().zip(module) {
        let alone = row.alone_ms.map_or_else(String::new, shown);
        let (name, native, ratio) = (row.name, shown(row.native_ms), module / row.native_ms);
        println!(
            "| {name} | {native} | {} | {ratio:.2} | {alone} |",
            shown(module)
        );
    }
    print_decay(&case);
}

/// Every row once in the native build, and the times of the same rows in the module.
fn round(case: &Value, crowded: &Value) -> (Vec<Row>, Vec<f64>) {
    let mut rows = page_rows(case, crowded);
    rows.extend(worker_rows(case, crowded));
    let module = module_ms(case, crowded);
    assert_eq!(module.len(), rows.len(), "drag_step.js times the same rows");
    (rows, module)
}

/// One line of the table.
struct Row {
    name: &'static str,
    native_ms: f64,
    /// Without what hands the report over.
    alone_ms: Option<f64>,
}

impl Row {
    fn keep_faster(&mut self, again: &Self) {
        self.native_ms = self.native_ms.min(again.native_ms);
        self.alone_ms = self
            .alone_ms
            .zip(again.alone_ms)
            .map(|(ms, again)| ms.min(again));
    }
}

fn shown(ms: f64) -> String {
    if ms < 10.0 {
        format!("{ms:.2}")
    } else {
        format!("{ms:.0}")
    }
}

/// What the page's module does, in the order of `pageRows` in drag_step.js.
fn page_rows(case: &Value, crowded: &Value) -> Vec<Row> {
    let text = case.to_string();
    let prepared = Prepared::new(read(case));
    let read_ms = least_ms(SAMPLES, |_| {
        let start = Instant::now();
        let scenario = scenario::from_json(&text).expect("the case is valid");
        black_box(Prepared::after(scenario, Some(&prepared)));
        start
    });
    let mut rows = vec![Row {
        name: "read and check the document",
        native_ms: read_ms,
        alone_ms: None,
    }];
    let piece = |step| with_piece_moved(case, step);
    let seat = |step| with_seat_moved(case, step);
    let no_seat = |_| without_seat(case);
    let every_kind = |step| with_piece_moved(crowded, step);
    let every_kind_seat = |step| with_seat_moved(crowded, step);
    let steps: [Step<'_>; 8] = [
        ("piece drag: what follows it", &piece, Prepared::follow),
        (
            "the same at rest: whole report",
            &piece,
            Prepared::predict_after,
        ),
        ("seat drag: what follows it", &seat, Prepared::follow),
        (
            "the same at rest: whole report",
            &seat,
            Prepared::predict_after,
        ),
        (
            "without a seat: what follows a drag",
            &no_seat,
            Prepared::follow,
        ),
        (
            "the same at rest: whole report",
            &no_seat,
            Prepared::predict_after,
        ),
        (
            "piece drag with every kind of the shelf in the room",
            &every_kind,
            Prepared::follow,
        ),
        ("seat drag there", &every_kind_seat, Prepared::follow),
    ];
    rows.extend(steps.into_iter().map(|(name, change, answer)| Row {
        name,
        native_ms: step_ms(change, answer, true),
        alone_ms: Some(step_ms(change, answer, false)),
    }));
    rows.push(Row {
        name: "a document with 40 kinds of its own: opened, first report",
        native_ms: first_ms(crowded, true),
        alone_ms: Some(first_ms(crowded, false)),
    });
    rows
}

/// What is timed, the document after each step, and what answers for it.
type Step<'a> = (&'static str, &'a dyn Fn(usize) -> Value, Answer);

type Answer = fn(&Prepared, usize, &mut Memory) -> Option<PlanReport>;

/// Time of the report of plan A after each step, with or without its way out.
fn step_ms(change: &dyn Fn(usize) -> Value, answer: Answer, hands_over: bool) -> f64 {
    let first = Prepared::new(read(&change(0)));
    let mut memory = Memory::default();
    least_ms(SAMPLES, |step| {
        let moved = Prepared::after(read(&change(step)), Some(&first));
        let start = Instant::now();
        let report = answer(&moved, 1, &mut memory);
        finish(report.as_ref(), hands_over);
        start
    })
}

/// Time from a document's text to its first report. Tables that any room needs are there already; in the module they are not.
fn first_ms(document: &Value, hands_over: bool) -> f64 {
    let text = document.to_string();
    least_ms(SLOW_SAMPLES, |_| {
        let start = Instant::now();
        let scenario = scenario::from_json(&text).expect("the case is valid");
        finish(Prepared::new(scenario).predict(1).as_ref(), hands_over);
        start
    })
}

fn finish(report: Option<&PlanReport>, hands_over: bool) {
    let report = report.expect("plan A");
    if hands_over {
        black_box(serde_json::to_vec(report).expect("a report can be written"));
    } else {
        black_box(report);
    }
}

/// What the workers' module does, in the order of `workerRows` in drag_step.js.
fn worker_rows(case: &Value, crowded: &Value) -> Vec<Row> {
    let (prepared, every_kind) = (Prepared::new(read(case)), Prepared::new(read(crowded)));
    [
        ("200 draws of one plan (worker)", draws_ms(&prepared)),
        (
            "the same with every kind of the shelf",
            draws_ms(&every_kind),
        ),
        ("bass of one plan (worker)", bass_ms(&prepared)),
        (
            "the same with every kind of the shelf",
            bass_ms(&every_kind),
        ),
        (
            "600 draws for 3 plans of the concrete loft (worker)",
            loft_draws_ms(),
        ),
        (
            "the half of them that the second of two workers makes, ten at a time",
            loft_help_ms(),
        ),
        (
            "its check-up of one plan and what would make it surer",
            loft_checkup_ms(),
        ),
        (
            "response of one plan to two ears (worker)",
            response_ms(case),
        ),
        (
            "that of the concrete loft",
            response_ms(&demo("concrete-loft")),
        ),
    ]
    .map(|(name, native_ms)| Row {
        name,
        native_ms,
        alone_ms: None,
    })
    .into()
}

/// All draws for plan A, with the way out of what they tell.
fn draws_ms(prepared: &Prepared) -> f64 {
    least_ms(SLOW_SAMPLES, |_| {
        let start = Instant::now();
        let draws = Draws::complete(prepared, 1).expect("plan A");
        let ranges = draws.report(goal_s(prepared.scenario()));
        black_box(serde_json::to_vec(&ranges).expect("ranges can be written"));
        start
    })
}

fn bass_ms(prepared: &Prepared) -> f64 {
    least_ms(SLOW_SAMPLES, |_| {
        let start = Instant::now();
        black_box(prepared.bass(1));
        start
    })
}

/// All draws for three plans of the concrete loft, with their way out.
fn loft_draws_ms() -> f64 {
    let loft = Prepared::new(read(&demo("concrete-loft")));
    least_ms(SLOW_SAMPLES, |_| {
        let start = Instant::now();
        for plan in 0..3 {
            black_box(Draws::complete(&loft, plan).expect("a plan").packed());
        }
        start
    })
}

/// The later half of them, the last ones first.
fn loft_help_ms() -> f64 {
    let loft = Prepared::new(read(&demo("concrete-loft")));
    least_ms(SLOW_SAMPLES, |_| {
        let start = Instant::now();
        for plan in 0..3 {
            let mut draws = Draws::start(&loft, plan).expect("a plan");
            for first in (100..200).step_by(10).rev() {
                draws = draws.turned_to(first, first + 10);
                draws.more(10);
                black_box(draws.packed());
            }
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

/// Plan A rendered to two ears, the noise being there; all else anew.
fn response_ms(document: &Value) -> f64 {
    let prepared = Prepared::new(read(document));
    let mut noise = Noise::new(Pickup::Head);
    let mut rendered = || {
        let to_seat = prepared.to_seat(1, Pickup::Head, true, &mut Memory::default());
        render(&to_seat.expect("a plan to hear"), &mut noise)
    };
    rendered();
    least_ms(SLOW_SAMPLES, |_| {
        let start = Instant::now();
        black_box(rendered());
        start
    })
}

fn module_ms(case: &Value, crowded: &Value) -> Vec<f64> {
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/bench/drag_step.js");
    let documents = json!({
        "case": case,
        "noSeat": without_seat(case),
        "crowded": crowded,
        "loft": demo("concrete-loft"),
        "measuredLoft": measured_loft(),
    });
    let times = piped(Command::new("node").arg(script), &documents).expect("node runs the module");
    serde_json::from_slice(&times).expect("a list of times")
}

/// What a program prints that gets the value as JSON; none if it is not there or fails.
fn piped(program: &mut Command, input: &Value) -> Option<Vec<u8>> {
    let mut running = program
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .ok()?;
    let mut stdin = running.stdin.take()?;
    stdin.write_all(input.to_string().as_bytes()).ok()?;
    drop(stdin);
    let output = running.wait_with_output().ok()?;
    output.status.success().then_some(output.stdout)
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
    println!("\nDecay of 24 bands alone, native: {ours:.2} ms.");
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
            "The same in NumPy, vectorised over bands: {numpy:.1} ms, {:.0} times as long.",
            numpy / ours
        ),
        None => println!("python3 with NumPy was not found: no yardstick."),
    }
}

fn numpy_ms(input: &Value) -> Option<f64> {
    let script = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/tests/reference/decay_yardstick.py"
    );
    let mut python = Command::new("python3");
    let answer = piped(python.arg(script).stderr(Stdio::null()), input)?;
    serde_json::from_slice::<Value>(&answer).ok()?["ms"].as_f64()
}

/// What the times were taken on.
fn machine() -> String {
    let processors = fs::read_to_string("/proc/cpuinfo").unwrap_or_default();
    let model = processors
        .lines()
        .find_map(|line| line.strip_prefix("model name")?.split(": ").nth(1));
    let cores = available_parallelism().map_or(1, usize::from);
    let version = |program: &str| {
        let output = Command::new(program).arg("--version").output().ok();
        let text = output.map(|output| String::from_utf8_lossy(&output.stdout).trim().to_owned());
        text.unwrap_or_else(|| format!("no {program}"))
    };
    format!(
        "{cores} cores of {}, {}, Node {}; fastest of many samples, ms.",
        model.unwrap_or("an unknown processor"),
        version("rustc"),
        version("node")
    )
}

fn read(document: &Value) -> Scenario {
    scenario::from_json(&document.to_string()).unwrap_or_else(|error| panic!("{error}"))
}

/// Time from the instant that a step hands back to its end, in the fastest of the samples, ms.
fn least_ms(samples: usize, mut step: impl FnMut(usize) -> Instant) -> f64 {
    (0..samples)
        .map(|number| step(number).elapsed().as_secs_f64() * 1000.0)
        .fold(f64::INFINITY, f64::min)
}
