//! Compiles the core to WebAssembly and makes its JavaScript bindings.

use std::fs;
use std::path::PathBuf;

use anyhow::{Context, Result};
use wasm_bindgen_cli_support::Bindgen;

use crate::project::Project;
use crate::tools::{self, WASM_TARGET};

/// Builds the module; the answer is the folder with the module, its bindings and their types.
pub fn build(project: &Project) -> Result<PathBuf> {
    if let Some(mut install) = tools::missing_wasm_target(&project.root)? {
        println!(
            "The {WASM_TARGET} target is missing: {}",
            tools::describe(&install)
        );
        tools::run(&mut install)?;
    }
    let mut compile = tools::cargo(&project.root);
    tools::run(compile.args(["build", "--lib", "--release", "--target", WASM_TARGET]))?;
    bind(project)
}

fn bind(project: &Project) -> Result<PathBuf> {
    let compiled = project
        .target
        .join(WASM_TARGET)
        .join("release")
        .join("seatward.wasm");
    let bindings = project.target.join("bindings");
    if bindings.exists() {
        fs::remove_dir_all(&bindings)
            .with_context(|| format!("cannot clear {}", bindings.display()))?;
    }
    Bindgen::new()
        .input_path(compiled)
        .out_name("seatward")
        .web(true)?
        .typescript(true)
        // The library's default leaves it out, and then init() without an argument throws.
        .omit_default_module_path(false)
        .remove_name_section(true)
        .remove_producers_section(true)
        .generate(&bindings)
        .context("cannot make the bindings of the module")?;
    Ok(bindings)
}
