//! The licences of the third-party parts inside the site: npm packages bundled or copied, and the crates in the module.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};
use serde_json::Value;

use crate::project::Project;
use crate::tools::{self, WASM_TARGET};

/// One third-party part.
struct Part {
    name: String,
    version: String,
    licence: String,
    folder: PathBuf,
}

/// All parts with their licence texts, as one plain text.
pub fn text(project: &Project) -> Result<String> {
    let mut parts = npm_parts(&project.www())?;
    parts.extend(crate_parts(&project.root)?);
    parts.sort_by(|a, b| (&a.name, &a.version).cmp(&(&b.name, &b.version)));
    let mut text = String::from("Third-party parts of this page and their licences\n");
    for part in &parts {
        let rule = "-".repeat(72);
        write!(
            text,
            "\n{rule}\n{} {} ({})\n\n",
            part.name, part.version, part.licence
        )?;
        text.push_str(&licence_text(part)?);
    }
    Ok(text)
}

/// The packages of the lock file that reach the page: not the build's own, and none that holds only types.
fn npm_parts(www: &Path) -> Result<Vec<Part>> {
    let lock: Value = serde_json::from_str(&fs::read_to_string(www.join("package-lock.json"))?)?;
    let packages = lock["packages"]
        .as_object()
        .context("package-lock.json lists no packages")?;
    let mut parts = Vec::new();
    for (place, entry) in packages {
        let Some(name) = place.strip_prefix("node_modules/") else {
            continue;
        };
        if entry["dev"] == true || name.starts_with("@types/") {
            continue;
        }
        parts.push(Part {
            name: name.to_owned(),
            version: word(entry, "version"),
            licence: word(entry, "license"),
            folder: www.join(place),
        });
    }
    Ok(parts)
}

/// The crates that are compiled into the module.
fn crate_parts(root: &Path) -> Result<Vec<Part>> {
    let metadata = tools::cargo_metadata(root, &["--filter-platform", WASM_TARGET])?;
    let packages = by_id(&metadata["packages"]);
    let nodes = by_id(&metadata["resolve"]["nodes"]);
    let own = metadata["resolve"]["root"]
        .as_str()
        .context("cargo names no root package")?;
    let mut parts = Vec::new();
    for id in linked(own, &nodes, &packages) {
        let Some(package) = packages.get(id).filter(|_| id != own) else {
            continue;
        };
        let manifest = PathBuf::from(word(package, "manifest_path"));
        parts.push(Part {
            name: word(package, "name"),
            version: word(package, "version"),
            licence: word(package, "license"),
            folder: manifest
                .parent()
                .context("a crate without a folder")?
                .to_path_buf(),
        });
    }
    Ok(parts)
}

fn by_id(list: &Value) -> BTreeMap<&str, &Value> {
    list.as_array()
        .into_iter()
        .flatten()
        .filter_map(|entry| Some((entry["id"].as_str()?, entry)))
        .collect()
}

/// Follows ordinary dependencies; what only runs in the compiler is not part of the module.
fn linked<'a>(
    own: &'a str,
    nodes: &BTreeMap<&'a str, &'a Value>,
    packages: &BTreeMap<&'a str, &'a Value>,
) -> BTreeSet<&'a str> {
    let mut found = BTreeSet::new();
    let mut open = vec![own];
    while let Some(id) = open.pop() {
        if packages
            .get(id)
            .is_some_and(|package| runs_in_compiler(package))
            || !found.insert(id)
        {
            continue;
        }
        let dependencies = nodes
            .get(id)
            .and_then(|node| node["deps"].as_array())
            .into_iter()
            .flatten();
        open.extend(
            dependencies
                .filter(|dependency| is_ordinary(dependency))
                .filter_map(|it| it["pkg"].as_str()),
        );
    }
    found
}

fn runs_in_compiler(package: &Value) -> bool {
    let targets = package["targets"].as_array().into_iter().flatten();
    targets
        .flat_map(|target| target["kind"].as_array())
        .flatten()
        .any(|kind| kind == "proc-macro")
}

fn is_ordinary(dependency: &Value) -> bool {
    dependency["dep_kinds"]
        .as_array()
        .into_iter()
        .flatten()
        .any(|kind| kind["kind"].is_null())
}

/// The licence files of a part; of a choice that includes it, the MIT licence alone, which is the shortest.
fn licence_text(part: &Part) -> Result<String> {
    let mut files = licence_files(&part.folder)?;
    if part.licence.contains("OR") && files.iter().any(|file| is_mit(file)) {
        files.retain(|file| is_mit(file));
    }
    let mut text = String::new();
    for file in &files {
        text.push_str(fs::read_to_string(file)?.trim());
        text.push('\n');
    }
    if text.is_empty() {
        text = format!(
            "The package brings no licence text; it names the licence {}.\n",
            part.licence
        );
    }
    Ok(text)
}

fn licence_files(folder: &Path) -> Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    for entry in folder
        .read_dir()
        .with_context(|| format!("cannot list {}", folder.display()))?
    {
        let path = entry?.path();
        let name = path
            .file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .to_uppercase();
        if path.is_file()
            && ["LICENSE", "LICENCE", "COPYING", "NOTICE"]
                .iter()
                .any(|start| name.starts_with(start))
        {
            files.push(path);
        }
    }
    files.sort();
    Ok(files)
}

fn is_mit(file: &Path) -> bool {
    file.file_name()
        .is_some_and(|name| name.to_string_lossy().to_uppercase().contains("MIT"))
}

fn word(entry: &Value, key: &str) -> String {
    entry[key].as_str().unwrap_or("not stated").to_owned()
}
