//! `cargo bench`: what one step of a drag costs, native and in the module, side by side in one run.
//!
//! The case is the long terrace room with 40 pieces. Absolute times depend on the machine; the ratio is what counts.

use std::hint::black_box;
use std::process::Command;
use std::time::Instant;

use seatward::scenario::{self, Scenario};
use seatward::simulate::Prepared;

/// Steps per sample, and samples, of which the fastest is printed: it is the one that other programs disturbed least.
const STEPS: u32 = 5;
const SAMPLES: usize = 200;

fn main() {
    let text = terrace_with_forty_pieces();
    let scenario = scenario::from_json(&text).expect("the case is valid");
    let prepared = Prepared::new(scenario.clone());
    let predict = least_ms(|| black_box(prepared.predict(1)).is_some());
    let open = least_ms(|| {
        !black_box(Prepared::after(read(&text), Some(&prepared)))
            .kit()
            .is_empty()
    });
    println!("one drag step, long terrace room, 40 pieces   ms");
    println!("native: read and check the document          {open:8.3}");
    println!("native: whole report of the shown plan       {predict:8.3}");
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/bench/drag_step.js");
    let module = Command::new("node")
        .arg(script)
        .arg(&text)
        .output()
        .expect("node runs the module");
    assert!(
        module.status.success(),
        "{}",
        String::from_utf8_lossy(&module.stderr)
    );
    let in_module: Vec<f64> = String::from_utf8_lossy(&module.stdout)
        .split_whitespace()
        .map(|t| t.parse().expect("a time"))
        .collect();
    println!(
        "module: read and check the document          {:8.3}   {:.2} × native",
        in_module[0],
        in_module[0] / open
    );
    println!(
        "module: whole report, as plain data          {:8.3}   {:.2} × native",
        in_module[1],
        in_module[1] / predict
    );
}

fn read(text: &str) -> Scenario {
    scenario::from_json(text).expect("the case is valid")
}

/// The demo room with rows of panels in plan A until there are 40 pieces.
fn terrace_with_forty_pieces() -> String {
    let path = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/scenarios/long-terrace-room.json"
    );
    let text = std::fs::read_to_string(path).expect("the demo scenario is there");
    let mut document: serde_json::Value = serde_json::from_str(&text).expect("it is JSON");
    let pieces: Vec<serde_json::Value> = (0..40)
        .map(|i| serde_json::json!({"kit": "thick", "surface": "ceiling", "u_m": 0.62 * f64::from(i % 5), "v_m": 1.0 * f64::from(i / 5), "turned": false}))
        .collect();
    for piece in &pieces {
        assert!(piece["u_m"].as_f64() < Some(2.7));
    }
    for kind in document["kit"].as_array_mut().expect("a kit") {
        kind["height_m"] = 0.95.into();
    }
    document["plans"][1]["pieces"] = pieces.into();
    document["room"]["keep_clear"] = serde_json::json!([]);
    document.to_string()
}

/// Mean time of one call in the fastest of the samples, ms.
fn least_ms(mut work: impl FnMut() -> bool) -> f64 {
    let sample = |_| {
        let start = Instant::now();
        for _ in 0..STEPS {
            assert!(work());
        }
        start.elapsed().as_secs_f64() * 1000.0 / f64::from(STEPS)
    };
    (0..SAMPLES).map(sample).fold(f64::INFINITY, f64::min)
}
