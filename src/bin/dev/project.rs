//! Where things lie: the source folder and cargo's target folder.

use std::env;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};

use crate::tools;

/// The folders the tool works in.
pub struct Project {
    /// The folder of `Cargo.toml`.
    pub root: PathBuf,
    /// Cargo's target folder, wherever it is configured to be.
    pub target: PathBuf,
}

impl Project {
    /// Asks cargo for the target folder.
    pub fn find() -> Result<Self> {
        // Asked for at run time: two checkouts that share a target folder share this program.
        let root = env::var_os("CARGO_MANIFEST_DIR").context("run this tool through cargo")?;
        let root = PathBuf::from(root);
        let metadata = tools::cargo_metadata(&root, &["--no-deps"])?;
        let target = metadata["target_directory"]
            .as_str()
            .context("cargo names no target folder")?;
        Ok(Self {
            target: PathBuf::from(target),
            root,
        })
    }

    /// The source of the page.
    pub fn www(&self) -> PathBuf {
        self.root.join("www")
    }

    /// The built page.
    pub fn site(&self) -> PathBuf {
        self.target.join("site")
    }

    /// The browser tests, with their own npm packages.
    pub fn browser_tests(&self) -> PathBuf {
        self.root.join("tests").join("browser")
    }

    /// Every file under a folder of the project, sorted; none if the folder does not exist.
    pub fn files_under(folder: &Path) -> Result<Vec<PathBuf>> {
        let mut found = Vec::new();
        if folder.is_dir() {
            collect(folder, &mut found)
                .with_context(|| format!("cannot list {}", folder.display()))?;
        }
        found.sort();
        Ok(found)
    }
}

/// Walks a folder; installed npm packages are nobody's source.
fn collect(folder: &Path, found: &mut Vec<PathBuf>) -> std::io::Result<()> {
    for entry in folder.read_dir()? {
        let path = entry?.path();
        if !path.is_dir() {
            found.push(path);
        } else if path.file_name().is_some_and(|name| name != "node_modules") {
            collect(&path, found)?;
        }
    }
    Ok(())
}
