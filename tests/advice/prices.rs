//! Kinds without a price: plans are made of them only where none has one, and then pieces are counted instead of money.

use seatward::advice::{Adviser, Found, Task};
use seatward::scenario::from_json;
use seatward::simulate::Prepared;
use serde_json::{Value, json};

use crate::rooms::kit;

/// Only the kinds named, with the price given or none, and a limit of money.
fn adviser(prices: &[(&str, Option<f64>)]) -> Adviser {
    let plain = || json!({"finish": "plaster-on-brick"});
    let mut kinds = kit();
    let all = kinds.as_array_mut().expect("kinds");
    all.retain(|kind| prices.iter().any(|(id, _)| kind["id"] == *id));
    for kind in all {
        let (_, price) = prices
            .iter()
            .find(|(id, _)| kind["id"] == *id)
            .expect("a price");
        match price {
            Some(price) => kind["price"] = json!(price),
            None => drop(kind.as_object_mut().expect("a kind").remove("price")),
        }
    }
    let document: Value = json!({
        "format": 1, "title": "Prices",
        "room": {"width_m": 4.0, "length_m": 5.0, "height_m": 2.5, "surfaces": {"left": plain(), "right": plain(), "front": plain(),
            "back": plain(), "floor": plain(), "ceiling": plain()}},
        "listening": {"loudspeakers": [{"x_m": 1.2, "y_m": 0.6, "z_m": 1.0}, {"x_m": 2.8, "y_m": 0.6, "z_m": 1.0}],
            "seat": {"x_m": 2.0, "y_m": 3.2, "z_m": 1.1}},
        "limits": {"budget": 400}, "kit": kinds,
        "plans": [{"name": "Now", "pieces": []}],
    });
    let scenario = from_json(&document.to_string()).unwrap_or_else(|error| panic!("{error}"));
    Adviser::new(Prepared::new(scenario), 0).expect("a plan")
}

fn pieces(adviser: &mut Adviser, level: usize) -> Vec<String> {
    let work = adviser.start(Task::Level(level)).expect("a task");
    let Found::Level { plan, .. } = work.run(adviser) else {
        panic!("no level");
    };
    plan.pieces.into_iter().map(|piece| piece.kit).collect()
}

#[test]
fn beside_what_is_owned_the_ladder_counts_pieces_where_nothing_has_a_price() {
    let mut room = adviser(&[("thin", Some(0.0)), ("thick", None)]);
    assert!(!room.is_priced());
    let (few, more) = (pieces(&mut room, 1), pieces(&mut room, 4));
    assert!(!few.is_empty() && few.len() <= 2, "{few:?}");
    assert!(more.len() > few.len() && more.len() <= 8, "{more:?}");
    assert!(more.iter().all(|kit| kit == "thick"), "{more:?}");
}

#[test]
fn what_has_no_price_is_left_out_beside_what_has() {
    let mut room = adviser(&[("thin", Some(20.0)), ("thick", None)]);
    assert!(room.is_priced());
    let bought = pieces(&mut room, 4);
    assert!(!bought.is_empty() && bought.len() <= 10, "{bought:?}");
    assert!(bought.iter().all(|kit| kit == "thin"), "{bought:?}");
}
