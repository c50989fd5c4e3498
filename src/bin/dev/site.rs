//! Puts the page together: its scripts and style sheets bundled without what only people read, fonts, demo scenarios, the
//! module.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};

use crate::project::Project;
use crate::version::{self, Files};
use crate::{licences, module, packed, serve, tools};

/// Files of `www/` that serve the build and not the page.
const BUILD_FILES: [&str; 3] = ["package.json", "package-lock.json", "tsconfig.json"];

/// What the page itself names: its script, the workers' scripts, its style sheet. The rest is bundled into these.
const ENTRIES: [&str; 4] = [
    "main.js",
    "engine/worker.js",
    "engine/listen_worker.js",
    "style/page.css",
];

/// Not bundled: it stands beside the page and is filled in with the list of its files.
const SERVICE_WORKER: &str = "service-worker.js";

/// Package, file stem and faces of the fonts; each face comes for both alphabets.
const FONTS: [(&str, &str, &[&str]); 2] = [
    (
        "@fontsource-variable/newsreader",
        "newsreader",
        &["wght-normal", "wght-italic"],
    ),
    (
        "@fontsource/alegreya-sans",
        "alegreya-sans",
        &["400-normal", "500-normal"],
    ),
];
const ALPHABETS: [&str; 2] = ["latin", "latin-ext"];

/// Builds the site; only files that changed are written, and none that is not part of it stays.
pub fn build(project: &Project) -> Result<()> {
    install_packages(&project.www())?;
    let bindings = module::build(project)?;
    let mut sources = own_files(&project.www())?;
    add_bindings(&bindings, &mut sources)?;
    let mut files = bundle(project, &sources)?;
    files.extend(
        sources
            .into_iter()
            .filter(|(path, _)| !is_own_code(path) || path == Path::new(SERVICE_WORKER)),
    );
    files.insert("licences.txt".into(), licences::text(project)?.into_bytes());
    add_fonts(&project.www(), &mut files)?;
    add_folder(
        &project.root.join("scenarios"),
        "scenarios",
        "json",
        &mut files,
    )?;
    let mut files = version::stamp(files)?;
    packed::add(&mut files)?;
    write_out(&project.site(), &files)?;
    serve::content_policy(&project.site()).map(drop)
}

/// The module, its bindings and their types: the page takes the bindings from its bundle, others take them from here.
fn add_bindings(bindings: &Path, files: &mut Files) -> Result<()> {
    for extension in ["js", "ts", "wasm"] {
        add_folder(bindings, "pkg", extension, files)?;
    }
    Ok(())
}

fn install_packages(www: &Path) -> Result<()> {
    if let Some(mut install) = tools::stale_packages(www) {
        println!(
            "The page's packages are missing or older than their lock file: {}",
            tools::describe(&install)
        );
        tools::run(&mut install)?;
    }
    Ok(())
}

fn own_files(www: &Path) -> Result<Files> {
    let mut files = Files::new();
    for path in Project::files_under(www)? {
        let inside = path.strip_prefix(www)?.to_path_buf();
        if !BUILD_FILES.iter().any(|name| inside == Path::new(name)) {
            files.insert(inside, read(&path)?);
        }
    }
    ensure!(
        files.contains_key(Path::new("index.html")),
        "www/index.html is missing"
    );
    Ok(files)
}

/// Bundles scripts and style sheets and takes comments, long names and blanks out of them; what is loaded only later stays
/// a file of its own. Many small files pack much worse than one. The maps beside them, which nothing but a browser's
/// developer tools loads, let it report faults by the names of the sources.
fn bundle(project: &Project, sources: &Files) -> Result<Files> {
    let staged = project.target.join("staged");
    write_out(&staged, sources)?;
    let bundled = project.target.join("bundled");
    if bundled.exists() {
        fs::remove_dir_all(&bundled)
            .with_context(|| format!("cannot clear {}", bundled.display()))?;
    }
    let mut esbuild = tools::npm_program(&project.www(), "esbuild");
    esbuild.current_dir(&staged);
    // The sources are not beside the packages any more.
    esbuild.env("NODE_PATH", project.www().join("node_modules"));
    esbuild.args([
        "--bundle",
        "--splitting",
        "--minify",
        "--format=esm",
        "--target=es2022",
        "--chunk-names=[name]-[hash]",
        "--external:*.woff2",
        "--sourcemap=linked",
        // The licence texts stand in licences.txt.
        "--legal-comments=none",
        "--log-level=warning",
        "--outbase=.",
    ]);
    esbuild.arg(format!("--outdir={}", bundled.display()));
    tools::run(esbuild.args(ENTRIES))?;
    let mut files = Files::new();
    for path in Project::files_under(&bundled)? {
        files.insert(path.strip_prefix(&bundled)?.to_path_buf(), read(&path)?);
    }
    Ok(files)
}

/// Whether a source reaches the page only inside of a bundle.
fn is_own_code(path: &Path) -> bool {
    !path.starts_with("pkg")
        && path
            .extension()
            .is_some_and(|end| end == "js" || end == "css")
}

fn add_fonts(www: &Path, files: &mut Files) -> Result<()> {
    for (package, stem, faces) in FONTS {
        let folder = www.join("node_modules").join(package).join("files");
        for (alphabet, face) in ALPHABETS
            .iter()
            .flat_map(|alphabet| faces.iter().map(move |face| (alphabet, face)))
        {
            let name = format!("{stem}-{alphabet}-{face}.woff2");
            files.insert(Path::new("fonts").join(&name), read(&folder.join(&name))?);
        }
    }
    Ok(())
}

/// Adds the files of one folder that end in the extension.
fn add_folder(folder: &Path, inside: &str, extension: &str, files: &mut Files) -> Result<()> {
    for path in Project::files_under(folder)? {
        if path.extension().is_some_and(|found| found == extension) {
            files.insert(
                Path::new(inside).join(path.strip_prefix(folder)?),
                read(&path)?,
            );
        }
    }
    Ok(())
}

fn write_out(site: &Path, files: &Files) -> Result<()> {
    for stale in Project::files_under(site)?
        .iter()
        .filter(|path| !is_part(site, path, files))
    {
        fs::remove_file(stale).with_context(|| format!("cannot remove {}", stale.display()))?;
        remove_empty_folders(site, stale);
    }
    for (inside, content) in files {
        write_if_changed(&site.join(inside), content)?;
    }
    Ok(())
}

/// The folders that a removed file leaves without content, up to the site itself.
fn remove_empty_folders(site: &Path, stale: &Path) {
    for folder in stale
        .ancestors()
        .skip(1)
        .take_while(|folder| *folder != site)
    {
        // A folder that still holds something stays.
        if fs::remove_dir(folder).is_err() {
            return;
        }
    }
}

fn is_part(site: &Path, path: &Path, files: &Files) -> bool {
    path.strip_prefix(site)
        .is_ok_and(|inside| files.contains_key(inside))
}

fn write_if_changed(path: &Path, content: &[u8]) -> Result<()> {
    if fs::read(path).is_ok_and(|present| present == content) {
        return Ok(());
    }
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder).with_context(|| format!("cannot make {}", folder.display()))?;
    }
    fs::write(path, content).with_context(|| format!("cannot write {}", path.display()))
}

fn read(path: &Path) -> Result<Vec<u8>> {
    fs::read(path).with_context(|| format!("cannot read {}", path.display()))
}
