//! Is a recorded response read as ISO 3382 says, and a file that is none refused in a sentence? Against SciPy's filters, decays
//! of known time, an office that others have read, and thousands of spoilt files.

mod figures;
mod files;
mod filter;
#[path = "../support/generator.rs"]
#[allow(dead_code, reason = "shared with other tests")]
mod generator;
mod known;
mod office;
#[path = "../support/table.rs"]
mod table;

use table::Row;

/// Rows of a table in `tests/data` that begins with lines of provenance.
fn rows(text: &str) -> Vec<Row> {
    let lines: Vec<&str> = text.lines().filter(|line| !line.starts_with('#')).collect();
    table::rows(&lines.join("\n"))
}

fn width(row: &Row) -> seatward::recording::Width {
    match row["width"].as_str() {
        "octave" => seatward::recording::Width::Octave,
        _ => seatward::recording::Width::Third,
    }
}
