//! Imports point one way: checks the order of the core's modules and the layers of the page.

mod core_order;
mod page_layers;

use std::env;
use std::fs;
use std::path::{Path, PathBuf};

/// Path inside the folder, with `/`, and content of every file with the extension, sorted by path.
fn sources(folder: &str, extension: &str) -> Vec<(String, String)> {
    let root = env::var_os("CARGO_MANIFEST_DIR").expect("cargo names the folder");
    let root = Path::new(&root).join(folder);
    let mut open = vec![root.clone()];
    let mut found = Vec::new();
    while let Some(folder) = open.pop() {
        let entries = fs::read_dir(&folder).expect("the folder can be listed");
        for path in entries.map(|entry| entry.expect("the entry can be read").path()) {
            if path.is_dir() {
                open.push(path);
            } else if path.extension().is_some_and(|found| found == extension) {
                found.push((
                    inside(&root, &path),
                    fs::read_to_string(&path).expect("text"),
                ));
            }
        }
        open.retain(|path| !path.ends_with("node_modules"));
    }
    found.sort();
    found
}

fn inside(root: &Path, path: &Path) -> String {
    let inside: PathBuf = path.strip_prefix(root).expect("lies inside").to_path_buf();
    let parts: Vec<_> = inside.iter().map(|part| part.to_string_lossy()).collect();
    parts.join("/")
}
