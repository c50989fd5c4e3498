//! The command line: `seatward predict FILE` prints the report of every plan as JSON.

use std::process::ExitCode;

use seatward::scenario;
use seatward::simulate::Prepared;

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    match arguments.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        ["predict", file] => finish(predict(file)),
        _ => finish(Err("usage: cargo predict FILE".to_owned())),
    }
}

/// The report of the scenario in a file, as JSON text; or what is wrong, in words.
fn predict(file: &str) -> Result<String, String> {
    let text =
        std::fs::read_to_string(file).map_err(|error| format!("{file} cannot be read: {error}"))?;
    let scenario = scenario::from_json(&text).map_err(|error| error.to_string())?;
    serde_json::to_string_pretty(&Prepared::new(scenario).report())
        .map_err(|error| error.to_string())
}

fn finish(outcome: Result<String, String>) -> ExitCode {
    match outcome {
        Ok(text) => {
            println!("{text}");
            ExitCode::SUCCESS
        }
        Err(message) => {
            eprintln!("{message}");
            ExitCode::FAILURE
        }
    }
}
