//! Another wall behind the loudspeakers: what is said of it is what a document says that draws the room turned; and why it may not be.

use std::sync::Arc;

use seatward::advice::{
    Adviser, Found, Instead, Rule, Scales, Table, Task, WindowBounce, WindowWay,
};
use seatward::geometry::Surface;
use seatward::listen::Pickup;
use seatward::scenario::document::Listening;
use seatward::scenario::from_json;
use seatward::simulate::{Memory, Prepared};
use serde_json::{Value, json};

/// Walls that are all unlike, in the order left, right, front, back.
const FINISHES: [&str; 4] = [
    "plaster-on-brick",
    "board-on-studs",
    "concrete",
    "carpet-heavy",
];

/// A room as its front wall is named; a window in the left wall of the room as it was.
struct Room {
    size_m: [f64; 3],
    /// Of left, right, front, back.
    finishes: [&'static str; 4],
    window: (&'static str, f64),
    listening: Value,
}

impl Room {
    fn new(width_m: f64, length_m: f64) -> Self {
        let speaker = |x_m: f64| json!({"x_m": x_m, "y_m": 0.8, "z_m": 1.0, "toe_in_deg": 10});
        Self {
            size_m: [width_m, length_m, 2.5],
            finishes: FINISHES,
            window: ("left", 0.9),
            listening: json!({"loudspeakers": [speaker(width_m / 2.0 - 0.8), speaker(width_m / 2.0 + 0.8)],
                "seat": {"x_m": width_m / 2.0, "y_m": 2.8, "z_m": 1.1}}),
        }
    }

    fn prepared(&self, change: impl FnOnce(&mut Value)) -> Prepared {
        let [width_m, length_m, height_m] = self.size_m;
        let mut walls = json!({"floor": {"finish": "old"}, "ceiling": {"finish": "old"}});
        for (name, finish) in ["left", "right", "front", "back"]
            .into_iter()
            .zip(self.finishes)
        {
            walls[name] = json!({"finish": finish});
        }
        let (wall, u_m) = self.window;
        walls[wall]["parts"] = json!([{"role": "window", "finish": "window", "u_m": u_m, "v_m": 0.5, "width_m": 1.4, "height_m": 1.4}]);
        let mut document = json!({"format": 1, "title": "Turned", "room": {"width_m": width_m, "length_m": length_m,
            "height_m": height_m, "surfaces": walls}, "listening": self.listening, "plans": [{"name": "Now", "pieces": []}],
            "own_finishes": [{"id": "old", "name": "Old", "bands_hz": [125, 1000, 4000], "absorption": [0.2, 0.3, 0.4]}]});
        change(&mut document);
        let scenario = from_json(&document.to_string());
        Prepared::new(scenario.unwrap_or_else(|error| panic!("{error}")))
    }

    /// The same room drawn with another of its walls as the front one, heard from where `to` says in the room as it was.
    fn turned(&self, front: Surface, to: &Listening) -> Self {
        let [width_m, length_m, height_m] = self.size_m;
        let [left, right, ahead, back] = self.finishes;
        let (from_m, window_m) = (self.window.1, 1.4);
        let (size_m, finishes, window) = match front {
            Surface::Back => (
                [width_m, length_m, height_m],
                [right, left, back, ahead],
                ("right", length_m - from_m - window_m),
            ),
            Surface::Left => (
                [length_m, width_m, height_m],
                [back, ahead, left, right],
                ("front", length_m - from_m - window_m),
            ),
            Surface::Right => (
                [length_m, width_m, height_m],
                [ahead, back, right, left],
                ("back", from_m),
            ),
            other => panic!("{other:?}"),
        };
        let seen = |x_m: f64, y_m: f64| match front {
            Surface::Back => (width_m - x_m, length_m - y_m),
            Surface::Left => (length_m - y_m, x_m),
            _ => (y_m, width_m - x_m),
        };
        let speakers: Vec<Value> = to
            .loudspeakers
            .iter()
            .map(|one| {
                let (x_m, y_m) = seen(one.spot.x_m, one.spot.y_m);
                json!({"x_m": x_m, "y_m": y_m, "z_m": one.spot.z_m, "toe_in_deg": 10})
            })
            .collect();
        let seat = to.seat.expect("a seat");
        let (x_m, y_m) = seen(seat.x_m, seat.y_m);
        Self {
            size_m,
            finishes,
            window,
            listening: json!({"loudspeakers": speakers, "seat": {"x_m": x_m, "y_m": y_m, "z_m": seat.z_m}}),
        }
    }
}

fn swaps(prepared: &Prepared) -> Vec<(WindowBounce, WindowWay)> {
    let mut adviser = Adviser::new(prepared.clone(), 0).expect("a plan");
    let Some(work) = adviser.start(Task::Windows) else {
        return Vec::new();
    };
    let Found::Windows { bounces } = work.run(&mut adviser) else {
        panic!("no windows");
    };
    let swap = |bounce: WindowBounce| {
        let mut ways = bounce.ways.iter();
        let way = ways.find(|way| way.what == Instead::Swap).expect("a swap");
        (bounce.clone(), way.clone())
    };
    bounces.into_iter().map(swap).collect()
}

fn steps(prepared: &Prepared) -> f64 {
    let table = Table::there(prepared, 0).expect("a plan");
    Scales::new(Arc::new(table)).load(Vec::new()).steps.sound()
}

/// The level at 1 kHz of the first bounce of a loudspeaker off a wall, dB re direct.
fn report_db(prepared: &Prepared, loudspeaker: usize, surface: Surface) -> f64 {
    let report = prepared.predict(0).expect("a plan");
    let mut all = report.reflections.iter();
    let is_it = |one: &&seatward::report::ReflectionReport| {
        one.order == 1 && one.loudspeaker == loudspeaker && one.surfaces == [surface]
    };
    let one = all.find(is_it).expect("the bounce");
    one.level_db.0[13]
}

#[test]
fn a_set_up_before_another_wall_is_the_same_as_a_room_drawn_turned() {
    let mut walls = Vec::new();
    for (width_m, length_m) in [(4.0, 5.0), (4.6, 5.6), (5.2, 4.4), (3.6, 6.2), (4.4, 4.2)] {
        let room = Room::new(width_m, length_m);
        let prepared = room.prepared(|_| {});
        for (bounce, way) in swaps(&prepared) {
            assert_eq!(bounce.surface, Surface::Left);
            let Some(wall) = way.wall else {
                println!("{width_m} by {length_m} m: {:?}", way.barred);
                continue;
            };
            let to = way.listening.as_ref().expect("a place");
            let turned = room.turned(wall, to);
            let drawn = turned.prepared(|_| {});
            println!(
                "{width_m} by {length_m} m: {wall:?}, {:.3} steps, {:.2} dB",
                way.gained, way.level_db
            );
            assert!((way.gained - (steps(&prepared) - steps(&drawn))).abs() < 1e-6);
            // As far from its wall and as far apart as it was, left on the left.
            let [left, right] = [0, 1].map(|one| turned.listening["loudspeakers"][one].clone());
            let at = |one: &Value, key: &str| one[key].as_f64().expect("a number");
            assert!(
                (at(&left, "y_m") - 0.8).abs() < 1e-3 && (at(&right, "y_m") - 0.8).abs() < 1e-3
            );
            assert!((at(&right, "x_m") - at(&left, "x_m") - 1.6).abs() < 1e-3);
            let mut there = prepared.scenario().clone();
            there.listening = to.clone();
            let there = Prepared::after(there, Some(&prepared));
            // What takes the place of the bounce off the left wall is off the left wall of the room as it is drawn.
            let lands = way.lands.expect("a bounce");
            let (here_db, drawn_db) = (
                report_db(&there, bounce.loudspeaker, lands),
                report_db(&drawn, bounce.loudspeaker, Surface::Left),
            );
            assert!((here_db - drawn_db).abs() < 1e-6, "{here_db}, {drawn_db}");
            walls.push(wall);
        }
    }
    walls.sort_by_key(|wall| *wall as usize);
    walls.dedup();
    assert!(walls.len() > 1, "{walls:?}");
}

#[test]
fn who_listens_before_another_wall_faces_it() {
    for (size_m, wall) in [((4.0, 5.0), Surface::Back), ((5.2, 4.4), Surface::Left)] {
        let room = Room::new(size_m.0, size_m.1);
        let prepared = room.prepared(|_| {});
        let (_, way) = swaps(&prepared).remove(0);
        assert_eq!(way.wall, Some(wall));
        let to = way.listening.expect("a place");
        let mut there = prepared.scenario().clone();
        there.listening = to.clone();
        let there = Prepared::after(there, Some(&prepared));
        let drawn = room.turned(wall, &to).prepared(|_| {});
        let heard = [&there, &drawn].map(|prepared| {
            let mut memory = Memory::default();
            prepared
                .to_seat(0, Pickup::Head, true, &mut memory)
                .expect("a seat")
        });
        for (one, other) in heard[0].sent.iter().zip(&heard[1].sent) {
            let ways = [one, other].map(|sent| {
                let ways = sent.ways.iter();
                let mut all: Vec<(f64, f64)> =
                    ways.map(|way| (way.time_s, way.direction.x)).collect();
                all.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
                all
            });
            assert_eq!(ways[0].len(), ways[1].len());
            assert!(
                (ways[0][0].1 - ways[1][0].1).abs() < 1e-6 && ways[0][0].1.abs() > 0.2,
                "the direct sound"
            );
            let sizes = [one, other].map(|sent| {
                [0, 1].map(|ear| {
                    sent.notes
                        .iter()
                        .map(|note| note.size_per_s[ear].abs())
                        .sum::<f64>()
                })
            });
            for ear in 0..2 {
                assert!(
                    (sizes[0][ear] / sizes[1][ear] - 1.0).abs() < 1e-3,
                    "{sizes:?}"
                );
            }
        }
    }
}

#[test]
fn where_no_other_wall_may_be_behind_the_loudspeakers_each_says_why() {
    let room = Room::new(4.0, 5.0);
    let barred = |change: &dyn Fn(&mut Value)| {
        let (_, way) = swaps(&room.prepared(change)).remove(0);
        assert!(way.listening.is_none() && way.rule.is_some(), "{way:?}");
        assert!(way.gained == 0.0);
        way.barred
    };
    let table = |x_m: f64, y_m: f64| {
        json!({"kind": "dining-table", "count": 1,
        "at": {"x_m": x_m, "y_m": y_m, "width_m": 1.2, "depth_m": 1.0, "height_m": 0.75}})
    };
    let full = barred(&|document| {
        document["room"]["furnishings"] = json!([
            table(0.0, 4.0),
            table(1.4, 4.0),
            table(2.8, 4.0),
            table(0.0, 1.6),
            table(2.8, 1.6)
        ]);
        document["room"]["keep_clear"] = json!([{"surface": "floor", "u_m": 0.0, "v_m": 2.8, "width_m": 4.0, "height_m": 1.0,
            "margin_m": 0, "why": "route"}]);
    });
    assert_eq!(
        full.iter().map(|one| one.0).collect::<Vec<_>>(),
        [Surface::Left, Surface::Right, Surface::Back]
    );
    assert!(
        full.iter()
            .all(|(_, rule)| [Rule::Furniture, Rule::Zone].contains(rule))
    );
}
