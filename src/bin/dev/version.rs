//! A version of the page: its files in a folder named by their content, and the service worker that keeps all of them.

use std::collections::BTreeMap;
use std::fmt::Write;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, ensure};
use sha2::{Digest, Sha256};

/// The content of the site by path inside it.
pub type Files = BTreeMap<PathBuf, Vec<u8>>;

/// What the page loads as code, style and core: it must never come from another version than the page itself.
const MOVED: [&str; 4] = ["engine", "fonts", "pkg", "style"];

/// The page itself, which names its script beside its style; the rest is named by them.
const PAGE: &str = "index.html";
const SCRIPT: &str = "main.js";

/// What the page and the pages to read all name.
const STYLE: &str = "style/page.css";

/// What serves developers' tools and is not kept for use without a network.
const NOT_KEPT: [&str; 2] = ["map", "ts"];

const WORKER: &str = "service-worker.js";

/// Digits of the hash that name a version.
const NAME_LENGTH: usize = 12;

/// Moves the files of the page into the folder of their version and writes the list of all into the service worker.
pub fn stamp(files: Files) -> Result<Files> {
    let name = version_of(&files);
    let mut stamped = Files::new();
    for (path, content) in files {
        if is_moved(&path) {
            // The bindings and the core are also read by others than the page, at the place they always had.
            if path.starts_with("pkg") {
                stamped.insert(path.clone(), content.clone());
            }
            stamped.insert(Path::new(&name).join(path), content);
        } else {
            stamped.insert(path, content);
        }
    }
    point_pages_to(&name, &mut stamped)?;
    fill_worker(&name, &mut stamped)?;
    Ok(stamped)
}

fn is_moved(path: &Path) -> bool {
    let is_script_at_top = path.components().count() == 1
        && path != Path::new(WORKER)
        && path.to_string_lossy().contains(".js");
    is_script_at_top || MOVED.iter().any(|folder| path.starts_with(folder))
}

/// The hash over everything that the page is made of.
fn version_of(files: &Files) -> String {
    let mut hash = Sha256::new();
    for (path, content) in files.iter().filter(|(path, _)| is_moved(path)) {
        hash.update(slashed(path).as_bytes());
        hash.update([0]);
        hash.update(Sha256::digest(content));
    }
    let mut name = hex(&hash.finalize());
    name.truncate(NAME_LENGTH);
    name
}

fn point_pages_to(name: &str, files: &mut Files) -> Result<()> {
    ensure!(files.contains_key(Path::new(PAGE)), "{PAGE} is missing");
    for (path, content) in files.iter_mut().filter(|(path, _)| is_page(path)) {
        let named: &[&str] = if path == Path::new(PAGE) {
            &[SCRIPT, STYLE]
        } else {
            &[STYLE]
        };
        *content = pointed_to(name, &slashed(path), content, named)?;
    }
    Ok(())
}

fn is_page(path: &Path) -> bool {
    path.extension().is_some_and(|end| end == "html")
}

/// A page that names its files in the folder of the version.
fn pointed_to(name: &str, page: &str, content: &[u8], named: &[&str]) -> Result<Vec<u8>> {
    let text = std::str::from_utf8(content).with_context(|| format!("{page} is no text"))?;
    let mut text = text.to_owned();
    for file in named {
        let old = format!("=\"{file}\"");
        ensure!(
            text.matches(&old).count() == 1,
            "{page} does not name {file} once"
        );
        text = text.replace(&old, &format!("=\"{name}/{file}\""));
    }
    Ok(text.into_bytes())
}

fn fill_worker(name: &str, files: &mut Files) -> Result<()> {
    let source = files
        .remove(Path::new(WORKER))
        .context("the service worker is missing")?;
    let text = String::from_utf8(source).context("the service worker is no text")?;
    let list: Vec<_> = files
        .iter()
        .filter(|(path, _)| is_kept(name, path))
        .map(|(path, content)| [slashed(path), hex(&Sha256::digest(content))])
        .collect();
    let text = filled(
        &text,
        "const VERSION = \"\";",
        &format!("const VERSION = \"{name}\";"),
    )?;
    let text = filled(
        &text,
        "const FILES = [];",
        &format!("const FILES = {};", serde_json::to_string(&list)?),
    )?;
    files.insert(PathBuf::from(WORKER), text.into_bytes());
    Ok(())
}

fn filled(text: &str, blank: &str, with: &str) -> Result<String> {
    ensure!(
        text.matches(blank).count() == 1,
        "the service worker does not say {blank} once"
    );
    Ok(text.replace(blank, with))
}

/// Whether a file is needed without a network: all that the page loads, and the demo rooms.
fn is_kept(name: &str, path: &Path) -> bool {
    let of_tools = path
        .extension()
        .is_some_and(|end| NOT_KEPT.iter().any(|other| end == *other));
    // The bindings are in the bundle; at their own place they are for others.
    let of_others = path.starts_with("pkg")
        || path.starts_with(Path::new(name).join("pkg"))
            && path.extension().is_some_and(|end| end == "js");
    !of_tools && !of_others
}

fn slashed(path: &Path) -> String {
    path.components()
        .map(|part| part.as_os_str().to_string_lossy())
        .collect::<Vec<_>>()
        .join("/")
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().fold(String::new(), |mut text, byte| {
        // Writing to a text cannot fail.
        write!(text, "{byte:02x}").ok();
        text
    })
}

#[cfg(test)]
mod tests {
    use super::{Files, stamp};
    use std::path::{Path, PathBuf};

    fn site(main: &str) -> Files {
        [
            (
                "index.html",
                "<script src=\"main.js\"></script><link href=\"style/page.css\">",
            ),
            ("how.html", "<link href=\"style/page.css\">"),
            ("main.js", main),
            ("main.js.map", "{}"),
            ("part-A.js", "2"),
            ("style/page.css", "a {}"),
            ("pkg/core_bg.wasm", "w"),
            ("pkg/core.d.ts", "t"),
            ("scenarios/a.json", "{}"),
            (
                "service-worker.js",
                "const VERSION = \"\";\nconst FILES = [];",
            ),
        ]
        .map(|(path, text)| (PathBuf::from(path), text.as_bytes().to_vec()))
        .into()
    }

    fn text(files: &Files, path: &str) -> String {
        String::from_utf8_lossy(&files[Path::new(path)]).into_owned()
    }

    fn version(files: &Files) -> String {
        let worker = text(files, "service-worker.js");
        worker.split('"').nth(1).unwrap_or_default().to_owned()
    }

    #[test]
    fn the_page_names_the_folder_of_its_version() {
        let stamped = stamp(site("1")).expect("a whole site");
        let name = version(&stamped);
        assert_eq!(name.len(), 12);
        assert!(text(&stamped, "index.html").contains(&format!("src=\"{name}/main.js\"")));
        assert!(text(&stamped, "how.html").contains(&format!("href=\"{name}/style/page.css\"")));
        assert_eq!(text(&stamped, &format!("{name}/part-A.js")), "2");
        assert!(!stamped.contains_key(Path::new("main.js")));
        assert!(stamped.contains_key(Path::new("pkg/core_bg.wasm")));
    }

    #[test]
    fn another_content_is_another_version_and_the_same_the_same() {
        let of = |main: &str| version(&stamp(site(main)).expect("a whole site"));
        assert_eq!(of("1"), of("1"));
        assert_ne!(of("1"), of("2"));
    }

    #[test]
    fn the_worker_lists_all_that_the_page_needs_and_nothing_of_tools() {
        let stamped = stamp(site("1")).expect("a whole site");
        let name = version(&stamped);
        let worker = text(&stamped, "service-worker.js");
        for kept in [
            "index.html",
            &format!("{name}/main.js"),
            &format!("{name}/pkg/core_bg.wasm"),
            "how.html",
            "scenarios/a.json",
        ] {
            assert!(
                worker.contains(&format!("[\"{kept}\",\"")),
                "{kept}: {worker}"
            );
        }
        for left_out in [
            "main.js.map",
            "core.d.ts",
            "service-worker.js\"",
            "\"pkg/core_bg.wasm",
        ] {
            assert!(!worker.contains(left_out), "{left_out}");
        }
    }

    #[test]
    fn a_page_that_does_not_name_its_script_once_is_refused() {
        let mut files = site("1");
        files.insert("index.html".into(), b"<p>".to_vec());
        assert!(stamp(files).is_err_and(|error| error.to_string().contains("main.js")));
    }
}
