//! Random rooms with random limits, as documents. The kit is the same in all of them, so that its figures are computed once.

use seatward::scenario::{self, Scenario};
use serde_json::{Value, json};

use crate::generator::Generator;

const FINISHES: [&str; 4] = [
    "plaster-on-brick",
    "board-on-studs",
    "concrete",
    "carpet-heavy",
];
const SURFACES: [&str; 6] = ["left", "right", "front", "back", "floor", "ceiling"];

/// A third-decimal number, so that documents stay readable.
fn rounded(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0
}

/// Kinds of every sort, all with a price; figures of data sheets, which cost nothing to prepare.
pub fn kit() -> Value {
    let sheet = |absorption: [f64; 6]| json!({"bands_hz": [125, 250, 500, 1000, 2000, 4000], "absorption": absorption});
    let kind = |id: &str,
                size: (f64, f64),
                price: f64,
                depth_mm: f64,
                stands: Option<&str>,
                absorption| {
        let mut kind = json!({"id": id, "name": id, "width_m": size.0, "height_m": size.1, "price": price,
            "depth_mm": depth_mm, "absorber": sheet(absorption)});
        if let Some(stands) = stands {
            kind["stands"] = json!(stands);
        }
        kind
    };
    let looking = |mut kind: Value, like: &str| {
        kind["looks"] = json!(like);
        kind
    };
    let mut kit = json!([
        kind(
            "thin",
            (0.6, 1.2),
            20.0,
            50.0,
            None,
            [0.1, 0.3, 0.7, 0.95, 1.0, 1.0]
        ),
        kind(
            "thick",
            (0.6, 1.2),
            45.0,
            100.0,
            None,
            [0.3, 0.7, 1.0, 1.0, 1.0, 1.0]
        ),
        kind(
            "curtain",
            (1.6, 2.0),
            80.0,
            100.0,
            Some("curtain"),
            [0.1, 0.3, 0.5, 0.7, 0.7, 0.6]
        ),
        kind(
            "corner",
            (0.6, 1.2),
            60.0,
            200.0,
            Some("corner"),
            [0.6, 0.9, 1.0, 1.0, 1.0, 1.0]
        ),
        kind(
            "screen",
            (0.7, 1.6),
            50.0,
            100.0,
            Some("stand"),
            [0.3, 0.6, 0.9, 1.0, 1.0, 1.0]
        ),
        kind(
            "rug",
            (2.0, 1.4),
            90.0,
            12.0,
            Some("floor"),
            [0.05, 0.1, 0.3, 0.5, 0.6, 0.6]
        ),
    ]);
    // The thin one is printed, the screen a piece of furniture; the others say nothing.
    kit[0] = looking(kit[0].take(), "picture");
    kit[4] = looking(kit[4].take(), "furniture");
    kit
}

fn size(random: &mut Generator) -> [f64; 3] {
    [(2.4, 6.0), (2.6, 7.0), (2.2, 3.4)].map(|(low, high)| rounded(random.between(low, high)))
}

/// A part somewhere on a wall; a door stands on the floor.
fn part(random: &mut Generator, width_m: f64, height_m: f64) -> Value {
    let role = ["door", "window", "opening", "built-in"][random.below(4)];
    let part_m = rounded(random.between(0.5, 1.2));
    let tall_m = rounded(random.between(0.8, 2.0));
    let u_m = rounded(random.between(0.0, (width_m - part_m).max(0.0)));
    let v_m = if role == "window" {
        rounded(random.between(0.0, (height_m - tall_m).max(0.0)))
    } else {
        0.0
    };
    let mut part = json!({"role": role, "finish": "wooden-door", "u_m": u_m, "v_m": v_m,
        "width_m": part_m, "height_m": tall_m});
    if role == "built-in" {
        part["depth_m"] = json!(rounded(random.between(0.1, 0.5)));
    }
    if role == "door" && random.unit() < 0.5 {
        part["swing_m"] = json!(part_m);
    }
    part
}

fn surfaces(random: &mut Generator, [width_m, length_m, height_m]: [f64; 3]) -> Value {
    let mut all = json!({});
    for (number, name) in SURFACES.into_iter().enumerate() {
        let along_m = if number < 2 { length_m } else { width_m };
        let mut parts = Vec::new();
        if number < 4 && random.unit() < 0.6 {
            parts.push(part(random, along_m, height_m));
        }
        all[name] = json!({"finish": FINISHES[random.below(4)], "parts": parts});
    }
    all
}

fn furnishings(random: &mut Generator, [width_m, length_m, _]: [f64; 3]) -> Vec<Value> {
    (0..random.below(4))
        .map(|_| {
            let (wide_m, deep_m) = (rounded(random.between(0.4, 1.6)), rounded(random.between(0.3, 0.9)));
            let x_m = rounded(random.between(0.0, width_m - wide_m));
            let y_m = rounded(random.between(0.0, length_m - deep_m));
            json!({"kind": "sofa-fabric", "count": 1, "at": {"x_m": x_m, "y_m": y_m, "width_m": wide_m,
                "depth_m": deep_m, "height_m": rounded(random.between(0.4, 1.8))}})
        })
        .collect()
}

fn zones(random: &mut Generator, [width_m, length_m, height_m]: [f64; 3]) -> Vec<Value> {
    (0..random.below(4))
        .map(|_| {
            let number = random.below(6);
            let (u_m, v_m) = match number {
                0 | 1 => (length_m, height_m),
                2 | 3 => (width_m, height_m),
                _ => (width_m, length_m),
            };
            json!({"surface": SURFACES[number], "u_m": rounded(random.between(0.0, u_m - 0.2)),
                "v_m": rounded(random.between(0.0, v_m - 0.2)), "width_m": 0.2, "height_m": 0.2,
                "margin_m": rounded(random.between(0.0, 0.7)), "why": "heater"})
        })
        .collect()
}

fn limits(random: &mut Generator) -> Value {
    let mut limits = json!({"budget": rounded(random.between(40.0, 260.0))});
    if random.unit() < 0.25 {
        limits["no_drilling"] = json!(true);
    }
    if random.unit() < 0.4 {
        limits["bare"] = json!([SURFACES[random.below(6)], SURFACES[random.below(6)]]);
    }
    if random.unit() < 0.3 {
        limits["max_depth_m"] = json!(rounded(random.between(0.02, 0.15)));
    }
    if random.unit() < 0.4 {
        limits["min_height_m"] = json!(rounded(random.between(0.0, 1.2)));
    }
    if random.unit() < 0.4 {
        limits["max_height_m"] = json!(rounded(random.between(1.6, 3.0)));
    }
    if random.unit() < 0.4 {
        limits["max_visible"] = json!(random.below(4));
    }
    if random.unit() < 0.3 {
        let looks = [
            json!(["picture"]),
            json!(["furniture"]),
            json!(["picture", "furniture"]),
        ];
        limits["looks_like"] = looks[random.below(3)].clone();
    }
    limits
}

/// A random room, with a seat and two loudspeakers or without.
pub fn room(seed: u64, is_heard: bool) -> Scenario {
    let mut random = Generator::stream(0xad51_ce00, seed);
    let size_m = size(&mut random);
    let [width_m, length_m, height_m] = size_m;
    let speaker = |x: f64| json!({"x_m": rounded(width_m * x), "y_m": 0.6, "z_m": 1.0});
    let listening = if is_heard {
        json!({"loudspeakers": [speaker(0.25), speaker(0.75)],
            "seat": {"x_m": rounded(width_m / 2.0), "y_m": rounded(length_m * 0.65), "z_m": 1.1}})
    } else {
        json!({"loudspeakers": []})
    };
    let taste = ["focused", "lived-in", "spacious"][random.below(3)];
    let document = json!({
        "format": 1, "title": "Random room",
        "room": {"width_m": width_m, "length_m": length_m, "height_m": height_m,
            "surfaces": surfaces(&mut random, size_m), "furnishings": furnishings(&mut random, size_m),
            "keep_clear": zones(&mut random, size_m)},
        "listening": listening, "goal": {"taste": taste},
        "limits": limits(&mut random), "kit": kit(), "plans": [{"name": "Now", "pieces": []}],
    });
    scenario::from_json(&document.to_string())
        .unwrap_or_else(|error| panic!("room {seed}: {error}"))
}
