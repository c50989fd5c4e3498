//! `cargo verify`: every check in order, one line each, and one closing line that counts them.

mod steps;

use std::fs::{self, File};
use std::io::{self, IsTerminal, Write};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Instant;

use anyhow::{Context, Result, bail};

use crate::count::Count;
use crate::project::Project;
use crate::tools;

/// Runs every check and says whether all went well; a failed one does not hide those that do not need it.
pub fn run(project: &Project) -> Result<bool> {
    let started = Instant::now();
    let mut checks = Checks::new(project.target.join("verify"))?;
    steps::core(project, &mut checks);
    steps::page(project, &mut checks);
    println!(
        "       {:8.1} s  in all; what each check printed is in {}",
        seconds(started),
        checks.logs.display()
    );
    println!(
        "{} passed, {} failed",
        checks.count.passed, checks.count.failed
    );
    Ok(checks.count.failed == 0)
}

/// Runs checks, prints a line about each and keeps the count.
pub struct Checks {
    logs: PathBuf,
    count: Count,
}

impl Checks {
    fn new(logs: PathBuf) -> Result<Self> {
        if logs.exists() {
            fs::remove_dir_all(&logs)
                .with_context(|| format!("cannot clear {}", logs.display()))?;
        }
        fs::create_dir_all(&logs).with_context(|| format!("cannot make {}", logs.display()))?;
        Ok(Self {
            logs,
            count: Count::default(),
        })
    }

    /// A check that is one thing: it goes well or it does not.
    pub fn plain(&mut self, name: &str, work: impl FnOnce(&Log) -> Result<()>) -> bool {
        self.step(name, |log| {
            work(log).map(|()| Count {
                passed: 1,
                failed: 0,
            })
        })
    }

    /// A runner of many tests, which hands back how many went well; that none ran is a failure.
    pub fn counted(&mut self, name: &str, work: impl FnOnce(&Log) -> Result<Count>) -> bool {
        self.step(name, |log| {
            let count = work(log)?;
            if count == Count::default() {
                bail!("no test ran");
            }
            Ok(count)
        })
    }

    /// Counts a check as failed that could not run.
    pub fn not_run(&mut self, name: &str, reason: &str) {
        println!("FAILED             {name}: not run, {reason}");
        self.count.failed += 1;
    }

    fn step(&mut self, name: &str, work: impl FnOnce(&Log) -> Result<Count>) -> bool {
        let log = Log::new(&self.logs, name);
        show_running(name);
        let started = Instant::now();
        let outcome = log.and_then(|log| work(&log));
        let (count, trouble) = match outcome {
            Ok(count) if count.failed == 0 => (count, None),
            Ok(count) => (count, Some(format!("{} failed", count.failed))),
            Err(error) => (
                Count {
                    passed: 0,
                    failed: 1,
                },
                Some(format!("{error:#}")),
            ),
        };
        self.count += count;
        self.tell(name, seconds(started), count, trouble.as_deref());
        trouble.is_none()
    }

    fn tell(&self, name: &str, seconds: f64, count: Count, trouble: Option<&str>) {
        let number = if count.passed > 1 {
            format!(", {} passed", count.passed)
        } else {
            String::new()
        };
        match trouble {
            None => println!("ok     {seconds:8.1} s  {name}{number}"),
            Some(trouble) => {
                println!("FAILED {seconds:8.1} s  {name}: {trouble}{number}");
                let printed = fs::read_to_string(log_path(&self.logs, name)).unwrap_or_default();
                printed.lines().for_each(|line| println!("    | {line}"));
            }
        }
    }
}

/// Where a check's commands print to.
pub struct Log {
    path: PathBuf,
    file: File,
}

impl Log {
    fn new(folder: &Path, name: &str) -> Result<Self> {
        let path = log_path(folder, name);
        let file =
            File::create(&path).with_context(|| format!("cannot write {}", path.display()))?;
        Ok(Self { path, file })
    }

    /// Runs a command and fails if it fails.
    pub fn run(&self, command: &mut Command) -> Result<()> {
        command
            .stdout(self.file.try_clone()?)
            .stderr(self.file.try_clone()?);
        tools::run(command)
    }

    /// Runs a command that counts its failures itself; failing without one is a failure of its own.
    pub fn run_counted(
        &self,
        command: &mut Command,
        count: impl FnOnce() -> Result<Count>,
    ) -> Result<Count> {
        let ended = self.run(command);
        let count = count()?;
        if count.failed == 0 {
            ended?;
        }
        Ok(count)
    }

    /// Everything printed so far.
    pub fn text(&self) -> Result<String> {
        let bytes =
            fs::read(&self.path).with_context(|| format!("cannot read {}", self.path.display()))?;
        Ok(String::from_utf8_lossy(&bytes).into_owned())
    }
}

/// On a terminal, names the check that runs; its line replaces this one.
fn show_running(name: &str) {
    let mut out = io::stdout();
    if out.is_terminal() {
        drop(write!(out, "...                {name}\r").and_then(|()| out.flush()));
    }
}

fn log_path(folder: &Path, name: &str) -> PathBuf {
    let plain = name.replace(|letter: char| !letter.is_ascii_alphanumeric(), "-");
    folder.join(format!("{plain}.log"))
}

fn seconds(since: Instant) -> f64 {
    since.elapsed().as_secs_f64()
}
