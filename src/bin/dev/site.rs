//! Puts the page together: own modules and style sheets one by one without what only people read, third-party parts
//! bundled, fonts, demo scenarios, the module.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, ensure};

use crate::project::Project;
use crate::{licences, module, serve, tools};

/// The content of the site by path inside it.
type Files = BTreeMap<PathBuf, Vec<u8>>;

/// Files of `www/` that serve the build and not the page.
const BUILD_FILES: [&str; 4] = [
    "package.json",
    "package-lock.json",
    "tsconfig.json",
    "vendor.js",
];

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
    let mut files = own_files(&project.www())?;
    shorten(project, &project.www(), "", &mut files)?;
    files.insert("vendor.js".into(), bundle(project)?);
    files.insert("licences.txt".into(), licences::text(project)?.into_bytes());
    add_fonts(&project.www(), &mut files)?;
    add_folder(
        &project.root.join("scenarios"),
        "scenarios",
        "json",
        &mut files,
    )?;
    let bindings = module::build(project)?;
    for extension in ["js", "ts", "wasm"] {
        add_folder(&bindings, "pkg", extension, &mut files)?;
    }
    shorten(project, &bindings, "pkg", &mut files)?;
    write_out(&project.site(), &files)?;
    serve::content_policy(&project.site()).map(drop)
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

/// Takes comments, long names and blanks out of the scripts and style sheets below a folder of the site. Each stays a file
/// of its own under its name, so that the browser reports faults by the names of the sources.
fn shorten(project: &Project, sources: &Path, inside: &str, files: &mut Files) -> Result<()> {
    let short = project.target.join("short").join(inside);
    let mut esbuild = tools::npm_program(&project.www(), "esbuild");
    esbuild.args([
        "--minify",
        "--format=esm",
        "--target=es2022",
        "--legal-comments=inline",
        "--log-level=warning",
    ]);
    esbuild
        .arg(format!("--outbase={}", sources.display()))
        .arg(format!("--outdir={}", short.display()));
    let (names, contents): (Vec<_>, Vec<_>) = files
        .iter_mut()
        .filter_map(|(path, content)| Some((path.strip_prefix(inside).ok()?, content)))
        .filter(|(name, _)| is_code(name))
        .unzip();
    esbuild.args(names.iter().map(|name| sources.join(name)));
    tools::run(&mut esbuild)?;
    for (name, content) in names.into_iter().zip(contents) {
        *content = read(&short.join(name))?;
    }
    Ok(())
}

fn is_code(path: &Path) -> bool {
    path.extension()
        .is_some_and(|end| end == "js" || end == "css")
}

/// Bundles what `vendor.js` re-exports into one small module.
fn bundle(project: &Project) -> Result<Vec<u8>> {
    let bundled = project.target.join("vendor.js");
    let mut esbuild = tools::npm_program(&project.www(), "esbuild");
    esbuild.args([
        "vendor.js",
        "--bundle",
        "--format=esm",
        "--minify",
        "--target=es2022",
        "--log-level=warning",
    ]);
    // The licence texts stand in licences.txt.
    esbuild
        .arg("--legal-comments=none")
        .arg(format!("--outfile={}", bundled.display()));
    tools::run(&mut esbuild)?;
    read(&bundled)
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
    }
    for (inside, content) in files {
        write_if_changed(&site.join(inside), content)?;
    }
    Ok(())
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
