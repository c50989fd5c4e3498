//! Compiles the core to WebAssembly and makes its JavaScript bindings, once for the page and once for the workers.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};
use wasm_bindgen_cli_support::Bindgen;

use crate::project::Project;
use crate::tools::{self, WASM_TARGET};

/// The name of each module's files, its profile, and the features of the core that go into it.
const MODULES: [(&str, &str, &str); 2] = [
    ("seatward", "page", ""),
    ("seatward_later", "release", "later"),
];

/// Builds the modules; the answer is the folder with them, their bindings and their types.
pub fn build(project: &Project) -> Result<PathBuf> {
    if let Some(mut install) = tools::missing_wasm_target(&project.root)? {
        println!(
            "The {WASM_TARGET} target is missing: {}",
            tools::describe(&install)
        );
        tools::run(&mut install)?;
    }
    let bindings = project.target.join("bindings");
    if bindings.exists() {
        fs::remove_dir_all(&bindings)
            .with_context(|| format!("cannot clear {}", bindings.display()))?;
    }
    for (name, profile, features) in MODULES {
        let mut compile = tools::cargo(&project.root);
        compile.args(["build", "--lib", "--target", WASM_TARGET]);
        compile.args(["--profile", profile, "--features", features]);
        tools::run(&mut compile)?;
        let built = project.target.join(WASM_TARGET).join(profile);
        bind(&built.join("seatward.wasm"), name, &bindings)?;
    }
    Ok(bindings)
}

fn bind(compiled: &Path, name: &str, bindings: &Path) -> Result<()> {
    Bindgen::new()
        .input_path(compiled)
        .out_name(name)
        .web(true)?
        .typescript(true)
        // The library's default leaves it out, and then init() without an argument throws.
        .omit_default_module_path(false)
        .remove_name_section(true)
        .remove_producers_section(true)
        .generate(bindings)
        .with_context(|| format!("cannot make the bindings of {name}"))
}
