//! The tool behind `cargo serve`, `cargo site` and `cargo verify`: builds the page, serves it, runs every check.

mod count;
mod licences;
mod module;
mod options;
mod packed;
mod project;
mod serve;
mod site;
mod tools;
mod verify;
mod version;

use std::env;
use std::process::ExitCode;

use anyhow::{Result, bail};

use crate::options::ServeOptions;
use crate::project::Project;

const USAGE: &str = "\
cargo serve [--port N] [--open]   build the page and serve it on this machine
cargo site                        write the page as a static folder
cargo verify                      run every check";

fn main() -> ExitCode {
    let arguments: Vec<String> = env::args().skip(1).collect();
    match run(&arguments) {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(error) => {
            eprintln!("error: {error:#}");
            ExitCode::FAILURE
        }
    }
}

/// Runs one command; the answer says whether all is well.
fn run(arguments: &[String]) -> Result<bool> {
    let Some((command, options)) = arguments.split_first() else {
        bail!("a command is missing\n{USAGE}");
    };
    match command.as_str() {
        "serve" => serve_page(&ServeOptions::parse(options)?),
        "site" if options.is_empty() => write_site(),
        "verify" if options.is_empty() => verify::run(&Project::find()?),
        _ => bail!("not understood: {}\n{USAGE}", arguments.join(" ")),
    }
}

fn write_site() -> Result<bool> {
    let project = Project::find()?;
    site::build(&project)?;
    println!("The page is in {}", project.site().display());
    Ok(true)
}

fn serve_page(options: &ServeOptions) -> Result<bool> {
    let project = Project::find()?;
    site::build(&project)?;
    let listener = serve::bind(options.port)?;
    let address = format!("http://{}/", listener.local_addr()?);
    println!("Seatward is at {address} (stop with Ctrl+C)");
    println!("After an edit, run `cargo site` in a second terminal and reload the page.");
    if options.open {
        tools::open_in_browser(&address)?;
    }
    serve::run(&listener, serve::Folder::new(project.site(), "")?);
    Ok(true)
}
