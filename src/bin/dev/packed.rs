//! Files packed beside themselves, as `.br`: `cargo serve` sends them so, and a static host that knows the custom does too.

use std::ffi::OsStr;
use std::io::Write;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};
use brotli::CompressorWriter;

use crate::version::Files;

/// What packs well. Fonts are packed already; maps serve developers' tools only.
const PACKED: [&str; 7] = ["css", "html", "js", "json", "svg", "txt", "wasm"];

const BUFFER_BYTES: usize = 1 << 16;
const BEST_QUALITY: u32 = 11;
const WINDOW_BITS: u32 = 22;

/// Adds the packed form of every file that packs well.
pub fn add(files: &mut Files) -> Result<()> {
    let packed = files
        .iter()
        .filter(|(path, _)| is_packed(path))
        .map(|(path, content)| Ok((beside(path), pack(content)?)))
        .collect::<Result<Vec<_>>>()?;
    files.extend(packed);
    Ok(())
}

/// Where the packed form of a file lies.
pub fn beside(path: &Path) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(".br");
    PathBuf::from(name)
}

/// The bindings at their old place are for others than the page, which never loads them.
fn is_packed(path: &Path) -> bool {
    let ends_so = |end: &OsStr| PACKED.iter().any(|packed| end == *packed);
    !path.starts_with("pkg") && path.extension().is_some_and(ends_so)
}

fn pack(content: &[u8]) -> Result<Vec<u8>> {
    let mut packed = Vec::new();
    let mut writer = CompressorWriter::new(&mut packed, BUFFER_BYTES, BEST_QUALITY, WINDOW_BITS);
    writer.write_all(content).context("cannot pack a file")?;
    drop(writer);
    Ok(packed)
}

#[cfg(test)]
mod tests {
    use super::{Files, Path, add};
    use std::io::Read;

    #[test]
    fn the_packed_form_is_smaller_and_unpacks_to_the_file() {
        let text = "the same words again and again, ".repeat(200).into_bytes();
        let mut files = Files::new();
        for name in [
            "index.html",
            "a/main.js",
            "a/fonts/one.woff2",
            "pkg/core.js",
        ] {
            files.insert(name.into(), text.clone());
        }
        add(&mut files).expect("packing works");
        let packed = &files[Path::new("a/main.js.br")];
        let mut back = Vec::new();
        brotli::Decompressor::new(&packed[..], 4096)
            .read_to_end(&mut back)
            .expect("it unpacks");
        assert!(packed.len() < text.len() / 20 && back == text);
        assert!(files.contains_key(Path::new("index.html.br")));
        assert_eq!(
            files.len(),
            6,
            "fonts and what the page never loads stay as they are"
        );
    }
}
