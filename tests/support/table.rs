//! Rows of a comma-separated table by column name.

use std::collections::HashMap;

/// One row, column name to text.
pub type Row = HashMap<String, String>;

/// All rows of a table with a header line.
pub fn rows(text: &str) -> Vec<Row> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    reader
        .deserialize()
        .collect::<Result<_, _>>()
        .expect("a well-formed table")
}

/// The number in a column of a row.
pub fn number(row: &Row, column: &str) -> f64 {
    row[column]
        .parse()
        .unwrap_or_else(|_| panic!("{column} is no number in {row:?}"))
}
