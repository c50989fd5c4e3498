//! What is left of a wall between its parts and pieces, exactly.

use seatward::bands::Banded;
use seatward::geometry::Rect;
use seatward::surface::{Facing, MOST_ABSORPTION, Patch, Wall};

fn facing(absorption: f64) -> Facing {
    Facing {
        absorption: Banded::constant(absorption),
        scattering: Banded::constant(0.1),
    }
}

fn rect(u_m: f64, v_m: f64, width_m: f64, height_m: f64) -> Rect {
    Rect {
        u_m,
        v_m,
        width_m,
        height_m,
    }
}

fn wall(parts: Vec<Patch>, pieces: Vec<Patch>) -> Wall {
    Wall {
        extent: rect(0.0, 0.0, 5.0, 2.5),
        bare: facing(0.02),
        parts,
        pieces,
    }
}

fn patch(rect: Rect, absorption: f64) -> Patch {
    Patch::flat(rect, facing(absorption))
}

#[test]
fn every_square_metre_counts_once_also_where_a_piece_covers_a_window() {
    // Wall 12.5 m², window 1.5 × 1.0 m, of which a piece of 0.6 × 1.2 m hides 0.3 × 0.5 m.
    let window = patch(rect(1.0, 1.0, 1.5, 1.0), 0.1);
    let piece = patch(rect(2.2, 1.5, 0.6, 0.9), 0.8);
    let (building, pieces) = wall(vec![window], vec![piece]).absorption_areas_m2();
    let hidden = 0.3 * 0.5;
    let expected = 0.02 * (12.5 - 0.54 - (1.5 - hidden)) + 0.1 * (1.5 - hidden);
    assert!(
        (building[13] - expected).abs() < 1e-12,
        "{} against {expected}",
        building[13]
    );
    assert!((pieces[13] - 0.8 * 0.54).abs() < 1e-12);
}

#[test]
fn a_wall_tiled_with_pieces_shows_nothing_of_itself() {
    let tiles = (0..10)
        .map(|i| patch(rect(0.5 * f64::from(i), 0.0, 0.5, 2.5), 0.6))
        .collect();
    let (building, pieces) = wall(Vec::new(), tiles).absorption_areas_m2();
    assert!(building[0].abs() < 1e-12);
    assert!((pieces[0] - 7.5).abs() < 1e-12);
}

#[test]
fn the_mean_stays_below_one_with_a_data_sheet_above_it() {
    let all = wall(Vec::new(), vec![patch(rect(0.0, 0.0, 5.0, 2.5), 1.2)]);
    assert_eq!(all.mean_absorption()[5], MOST_ABSORPTION);
    assert!(
        (all.absorption_areas_m2().1[5] - 15.0).abs() < 1e-12,
        "Sabine's sum keeps what was typed"
    );
}

#[test]
fn piece_and_part_under_a_point_are_both_named() {
    let window = patch(rect(1.0, 1.0, 1.5, 1.0), 0.1);
    let piece = patch(rect(2.2, 1.5, 0.6, 0.9), 0.8);
    let wall = wall(vec![window], vec![piece]);
    let under = wall.under((2.3, 1.6));
    assert_eq!((under.pieces, under.parts), (vec![0], vec![0]));
}
