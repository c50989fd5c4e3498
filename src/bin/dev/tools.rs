//! The programs the tool calls: cargo, rustup, node and npm.

use std::env;
use std::ffi::OsStr;
use std::fs;
use std::path::Path;
use std::process::Command;

use anyhow::{Context, Result, bail};
use serde_json::Value;

/// The target the core is compiled to for the page.
pub const WASM_TARGET: &str = "wasm32-unknown-unknown";

/// npm's script for a command; on Windows only the full name starts.
fn script(name: &str) -> String {
    if cfg!(windows) {
        format!("{name}.cmd")
    } else {
        name.to_owned()
    }
}

/// The cargo that started this tool, in the given folder.
pub fn cargo(folder: &Path) -> Command {
    let mut command = Command::new(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    command.current_dir(folder);
    command
}

/// Node, in the given folder.
pub fn node(folder: &Path) -> Command {
    let mut command = Command::new("node");
    command.current_dir(folder);
    command
}

/// A program that an npm package of the folder brings along.
pub fn npm_program(folder: &Path, name: &str) -> Command {
    let mut command = Command::new(folder.join("node_modules").join(".bin").join(script(name)));
    command.current_dir(folder);
    command
}

/// The command that installs the WebAssembly target, if it is missing.
pub fn missing_wasm_target(folder: &Path) -> Result<Option<Command>> {
    let mut ask = Command::new("rustc");
    ask.args(["--print", "target-libdir", "--target", WASM_TARGET])
        .current_dir(folder);
    if Path::new(output_of(&mut ask)?.trim()).is_dir() {
        return Ok(None);
    }
    let mut install = Command::new("rustup");
    install
        .args(["target", "add", WASM_TARGET])
        .current_dir(folder);
    Ok(Some(install))
}

/// The command that installs the npm packages of a folder, if they are missing or older than the lock file.
///
/// Install scripts are left out: no package named here needs one.
pub fn stale_packages(folder: &Path) -> Option<Command> {
    if packages_are_fresh(folder).unwrap_or(false) {
        return None;
    }
    let mut install = Command::new(script("npm"));
    install
        .args(["ci", "--ignore-scripts", "--no-audit", "--no-fund"])
        .current_dir(folder);
    Some(install)
}

fn packages_are_fresh(folder: &Path) -> std::io::Result<bool> {
    let installed = fs::metadata(folder.join("node_modules").join(".package-lock.json"))?;
    let wanted = fs::metadata(folder.join("package-lock.json"))?;
    Ok(installed.modified()? >= wanted.modified()?)
}

/// Runs a command and fails if it fails.
pub fn run(command: &mut Command) -> Result<()> {
    let status = command.status().with_context(|| cannot_start(command))?;
    if !status.success() {
        bail!("{} failed ({status})", describe(command));
    }
    Ok(())
}

/// Runs a command and hands back what it printed.
pub fn output_of(command: &mut Command) -> Result<String> {
    let output = command.output().with_context(|| cannot_start(command))?;
    if !output.status.success() {
        bail!(
            "{} failed: {}",
            describe(command),
            String::from_utf8_lossy(&output.stderr).trim()
        );
    }
    String::from_utf8(output.stdout)
        .with_context(|| format!("{} printed no text", describe(command)))
}

/// What cargo knows of the project and its crates.
pub fn cargo_metadata(folder: &Path, arguments: &[&str]) -> Result<Value> {
    let mut command = cargo(folder);
    command
        .args(["metadata", "--format-version", "1"])
        .args(arguments);
    serde_json::from_str(&output_of(&mut command)?).context("cargo metadata is not JSON")
}

/// Shows an address in the browser that the desktop prefers.
pub fn open_in_browser(address: &str) -> Result<()> {
    let mut command = if cfg!(windows) {
        let mut shell = Command::new("cmd");
        shell.args(["/c", "start"]);
        shell
    } else if cfg!(target_os = "macos") {
        Command::new("open")
    } else {
        Command::new("xdg-open")
    };
    run(command.arg(address))
}

/// The command as a person would type it.
pub fn describe(command: &Command) -> String {
    let program = Path::new(command.get_program())
        .file_stem()
        .unwrap_or_default();
    let words: Vec<_> = std::iter::once(program)
        .chain(command.get_args())
        .map(OsStr::to_string_lossy)
        .collect();
    words.join(" ")
}

fn cannot_start(command: &Command) -> String {
    let program = command.get_program().to_string_lossy();
    format!("cannot start {program}; Rust with rustup, Node 20 or newer and npm are needed")
}
