//! The checks themselves: first of the core, then of the page and of both together.

use std::fs;
use std::net::TcpListener;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::thread;

use anyhow::{Context, Result, ensure};
use serde_json::json;

use super::{Checks, Log};
use crate::count::{self, Count};
use crate::project::Project;
use crate::serve::{self, Folder};
use crate::tools::{self, WASM_TARGET};

/// The browser tests see the page under a path, so that an address from the root fails one.
const SUB_PATH: &str = "/sub/path";

/// Checks that need only Rust.
pub fn core(project: &Project, checks: &mut Checks) {
    checks.plain("WebAssembly target", |log| {
        install(log, tools::missing_wasm_target(&project.root)?)
    });
    let cargo = |words: &[&str]| {
        let mut command = tools::cargo(&project.root);
        command.args(words);
        command
    };
    checks.plain("format", |log| log.run(&mut cargo(&["fmt", "--check"])));
    checks.plain("lints, native", |log| {
        log.run(&mut cargo(&[
            "clippy",
            "--keep-going",
            "--all-targets",
            "--all-features",
            "--",
            "-D",
            "warnings",
        ]))
    });
    checks.plain("lints, WebAssembly", |log| {
        for features in ["", "later"] {
            log.run(&mut cargo(&[
                "clippy",
                "--keep-going",
                "--lib",
                "--target",
                WASM_TARGET,
                "--features",
                features,
                "--",
                "-D",
                "warnings",
            ]))?;
        }
        Ok(())
    });
    checks.counted("core tests", |log| {
        log.run_counted(&mut cargo(&["test", "--no-fail-fast"]), || {
            Ok(count::of_cargo(&log.text()?))
        })
    });
    checks.plain("documentation", |log| {
        log.run(cargo(&["doc", "--lib", "--no-deps"]).env("RUSTDOCFLAGS", "-D warnings"))
    });
}

/// Checks of the page, on its own and with the module.
pub fn page(project: &Project, checks: &mut Checks) {
    let built = checks.plain("site", |log| {
        log.run(tools::cargo(&project.root).arg("site"))
    });
    let packages = checks.plain("test packages", |log| {
        install(log, tools::stale_packages(&project.browser_tests()))
    });
    checks.counted("page tests", |log| node_tests(project, log, "page"));
    if !(built && packages) {
        for name in ["page types", "test types", "module tests", "browser tests"] {
            checks.not_run(name, "because the site or the test packages are missing");
        }
        return;
    }
    checks.plain("page types", |log| page_types(project, log));
    checks.plain("test types", |log| {
        log.run(
            tools::npm_program(&project.browser_tests(), "tsc")
                .args(["--project", "tsconfig.json"]),
        )
    });
    checks.counted("module tests", |log| node_tests(project, log, "door"));
    checks.counted("browser tests", |log| browser_tests(project, log));
}

/// Installs what is missing, and says so.
fn install(log: &Log, missing: Option<Command>) -> Result<()> {
    let Some(mut install) = missing else {
        return Ok(());
    };
    println!(
        "                   missing or out of date, so now: {}",
        tools::describe(&install)
    );
    log.run(&mut install)
}

/// Runs the test files of a folder on node's own runner.
fn node_tests(project: &Project, log: &Log, folder: &str) -> Result<Count> {
    let mut files = Project::files_under(&project.root.join("tests").join(folder))?;
    files.retain(|path| path.to_string_lossy().ends_with(".test.js"));
    ensure!(!files.is_empty(), "no *.test.js in tests/{folder}");
    let mut command = tools::node(&project.root);
    command
        .args(["--test", "--test-reporter=spec", "--test-timeout=600000"])
        .args(files);
    command.env("SEATWARD_SITE", project.site());
    log.run_counted(&mut command, || Ok(count::of_node(&log.text()?)))
}

/// Checks the page's JavaScript against the types of the built module.
fn page_types(project: &Project, log: &Log) -> Result<()> {
    let config = project.target.join("verify").join("tsconfig.json");
    let types = json!({
        "extends": project.www().join("tsconfig.json"),
        "compilerOptions": { "rootDirs": [project.www(), project.site()] },
    });
    fs::write(&config, types.to_string())
        .with_context(|| format!("cannot write {}", config.display()))?;
    log.run(
        tools::npm_program(&project.browser_tests(), "tsc")
            .arg("--project")
            .arg(config),
    )
}

/// Serves the built page from this process and runs the browser tests against it.
fn browser_tests(project: &Project, log: &Log) -> Result<Count> {
    let chromium = find_chromium(&project.browser_tests())?;
    println!("                   browser: {}", chromium.display());
    let listener = TcpListener::bind(("127.0.0.1", 0)).context("cannot listen on any port")?;
    let address = format!("http://{}{SUB_PATH}/", listener.local_addr()?);
    let folder = Folder::new(project.site(), SUB_PATH)?;
    thread::spawn(move || serve::run(&listener, folder));
    let results = project.target.join("verify").join("browser.json");
    let mut command = tools::npm_program(&project.browser_tests(), "playwright");
    command
        .arg("test")
        .env("BASE_URL", address)
        .env("RESULTS_FILE", &results)
        .env("CHROMIUM", chromium);
    log.run_counted(&mut command, || {
        Ok(count::of_browser(
            &fs::read_to_string(&results).unwrap_or_default(),
        ))
    })
}

/// An installed browser, or the one that the test packages bring along.
fn find_chromium(browser_tests: &Path) -> Result<PathBuf> {
    let path =
        tools::output_of(tools::node(browser_tests).arg("chromium.js")).context("no Chromium")?;
    Ok(PathBuf::from(path.trim()))
}
