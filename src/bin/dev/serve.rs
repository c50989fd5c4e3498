//! Serves a folder to browsers on this machine: one thread and one request per connection, reading only.

use std::fs;
use std::io::{self, Read, Write};
use std::net::{TcpListener, TcpStream};
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;
use std::thread;
use std::time::Duration;

use anyhow::{Context, Result};

use crate::packed;

const USUAL_PORT: u16 = 8137;
const MAX_HEAD_BYTES: u64 = 16 * 1024;
const PATIENCE: Duration = Duration::from_secs(10);

/// A folder to serve, and how.
pub struct Folder {
    root: PathBuf,
    /// Where the folder appears: empty, or `/sub/path` without a slash at the end.
    prefix: String,
    policy: String,
}

impl Folder {
    /// A built site, under the content policy that its page states.
    pub fn new(root: PathBuf, prefix: &str) -> Result<Self> {
        let policy = content_policy(&root)?;
        Ok(Self {
            root,
            prefix: prefix.to_owned(),
            policy,
        })
    }
}

/// The content policy in the head of the site's page.
pub fn content_policy(site: &Path) -> Result<String> {
    let page = fs::read_to_string(site.join("index.html"))
        .context("cannot read index.html of the site")?;
    policy_in(&page)
        .map(str::to_owned)
        .context("index.html states no content policy, in double quotes, in a meta tag")
}

fn policy_in(page: &str) -> Option<&str> {
    let (_, rest) = page.split_once("http-equiv=\"Content-Security-Policy\"")?;
    let (tag, _) = rest.split_once('>')?;
    let (_, value) = tag.split_once("content=\"")?;
    Some(value.split_once('"')?.0)
}

/// Listens on the wanted port, or on the usual one, or on a free one if that is taken.
pub fn bind(port: Option<u16>) -> Result<TcpListener> {
    if let Some(port) = port {
        return TcpListener::bind(("127.0.0.1", port))
            .with_context(|| format!("cannot listen on port {port}"));
    }
    TcpListener::bind(("127.0.0.1", USUAL_PORT))
        .or_else(|_| TcpListener::bind(("127.0.0.1", 0)))
        .context("cannot listen on any port")
}

/// Answers requests for as long as the program runs.
pub fn run(listener: &TcpListener, folder: Folder) {
    let folder = Arc::new(folder);
    for stream in listener.incoming().flatten() {
        let folder = Arc::clone(&folder);
        thread::spawn(move || {
            // A browser that went away is no concern of ours.
            drop(converse(&stream, &folder));
        });
    }
}

fn converse(mut stream: &TcpStream, folder: &Folder) -> io::Result<()> {
    stream.set_read_timeout(Some(PATIENCE))?;
    stream.set_write_timeout(Some(PATIENCE))?;
    let head = read_head(stream)?;
    stream.write_all(&answer(folder, &head))
}

/// Reads up to the empty line that ends the head of a request.
fn read_head(stream: &TcpStream) -> io::Result<String> {
    let mut head = Vec::new();
    for byte in io::BufReader::new(stream).take(MAX_HEAD_BYTES).bytes() {
        head.push(byte?);
        if head.ends_with(b"\r\n\r\n") {
            break;
        }
    }
    Ok(String::from_utf8_lossy(&head).into_owned())
}

/// The whole answer to one request.
fn answer(folder: &Folder, head: &str) -> Vec<u8> {
    let mut words = head.split_whitespace();
    let (method, target) = (
        words.next().unwrap_or_default(),
        words.next().unwrap_or_default(),
    );
    let mut reply = match method {
        "GET" | "HEAD" => look_up(folder, target, takes_packed(head)),
        _ => Reply::text(
            "405 Method Not Allowed",
            "Only GET and HEAD are answered.\n",
        ),
    };
    let head = reply.head(&folder.policy);
    if method == "HEAD" {
        reply.body.clear();
    }
    [head.into_bytes(), reply.body].concat()
}

/// Whether the browser unpacks brotli, as its head says.
fn takes_packed(head: &str) -> bool {
    head.lines()
        .filter_map(|line| line.split_once(':'))
        .filter(|(name, _)| name.eq_ignore_ascii_case("accept-encoding"))
        .flat_map(|(_, codings)| codings.split(','))
        .any(|coding| coding.trim() == "br")
}

struct Reply {
    status: &'static str,
    mime: &'static str,
    location: Option<String>,
    is_packed: bool,
    body: Vec<u8>,
}

impl Reply {
    fn text(status: &'static str, body: &str) -> Self {
        Self {
            status,
            mime: "text/plain; charset=utf-8",
            location: None,
            is_packed: false,
            body: body.into(),
        }
    }

    fn head(&self, policy: &str) -> String {
        let location = self
            .location
            .as_ref()
            .map(|to| format!("Location: {to}\r\n"))
            .unwrap_or_default();
        let coding = if self.is_packed {
            "Content-Encoding: br\r\n"
        } else {
            ""
        };
        format!(
            "HTTP/1.1 {}\r\nContent-Type: {}\r\nContent-Length: {}\r\n{coding}Vary: Accept-Encoding\r\n{location}Content-Security-Policy: {policy}\r\n\
             X-Content-Type-Options: nosniff\r\nCache-Control: no-store\r\nConnection: close\r\n\r\n",
            self.status,
            self.mime,
            self.body.len(),
        )
    }
}

fn look_up(folder: &Folder, target: &str, takes_packed: bool) -> Reply {
    let path = target.split(['?', '#']).next().unwrap_or_default();
    if !folder.prefix.is_empty() && path == folder.prefix {
        let location = Some(format!("{path}/"));
        return Reply {
            location,
            ..Reply::text("301 Moved Permanently", "")
        };
    }
    let found = path
        .strip_prefix(&folder.prefix)
        .and_then(|rest| rest.strip_prefix('/'))
        .and_then(file_path)
        .and_then(|inside| file(&folder.root, &inside, takes_packed));
    match found {
        Some(reply) => reply,
        None => Reply::text("404 Not Found", "There is nothing here.\n"),
    }
}

/// A file as it is or, for a browser that unpacks, as it lies packed beside itself.
fn file(root: &Path, inside: &Path, takes_packed: bool) -> Option<Reply> {
    let path = root.join(inside);
    let packed = takes_packed
        .then(|| fs::read(packed::beside(&path)).ok())
        .flatten();
    let is_packed = packed.is_some();
    Some(Reply {
        status: "200 OK",
        mime: mime(inside),
        location: None,
        is_packed,
        body: match packed {
            Some(body) => body,
            None => fs::read(path).ok()?,
        },
    })
}

/// The file a path asks for, inside the folder and nowhere else.
fn file_path(asked: &str) -> Option<PathBuf> {
    let decoded = percent_decode(asked)?;
    let path = Path::new(&decoded);
    let stays_inside = path
        .components()
        .all(|part| matches!(part, Component::Normal(_)));
    let names_folder = decoded.is_empty() || decoded.ends_with('/');
    stays_inside.then(|| {
        if names_folder {
            path.join("index.html")
        } else {
            path.to_path_buf()
        }
    })
}

fn percent_decode(text: &str) -> Option<String> {
    let mut parts = text.split('%');
    let mut bytes = parts.next()?.as_bytes().to_vec();
    for part in parts {
        bytes.push(u8::from_str_radix(part.get(..2)?, 16).ok()?);
        bytes.extend_from_slice(part.get(2..)?.as_bytes());
    }
    String::from_utf8(bytes).ok()
}

fn mime(path: &Path) -> &'static str {
    match path
        .extension()
        .and_then(|extension| extension.to_str())
        .unwrap_or_default()
    {
        "html" => "text/html; charset=utf-8",
        "js" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "json" | "map" => "application/json",
        "wasm" => "application/wasm",
        "woff2" => "font/woff2",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "txt" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::{Folder, answer, policy_in};
    use std::path::Path;

    /// Serves this crate's source, which is always there, under a prefix.
    fn ask(request: &str) -> String {
        let root = std::env::var_os("CARGO_MANIFEST_DIR").expect("cargo names the folder");
        let root = Path::new(&root).join("src");
        let folder = Folder {
            root,
            prefix: "/sub/path".into(),
            policy: "default-src 'self'".into(),
        };
        String::from_utf8_lossy(&answer(&folder, request)).into_owned()
    }

    #[test]
    fn a_file_comes_with_its_length_and_the_policy() {
        let reply = ask("GET /sub/path/bin/dev/serve.rs?x=1 HTTP/1.1\r\n\r\n");
        assert!(reply.starts_with("HTTP/1.1 200 OK\r\n"), "{reply:.80}");
        assert!(reply.contains(&format!(
            "Content-Length: {}\r\n",
            include_str!("serve.rs").len()
        )));
        assert!(reply.contains("Content-Security-Policy: default-src 'self'\r\n"));
        assert!(reply.ends_with(include_str!("serve.rs")));
    }

    #[test]
    fn a_packed_file_goes_to_browsers_that_unpack_it_and_to_no_others() {
        let root = std::env::temp_dir().join(format!("seatward-packed-{}", std::process::id()));
        std::fs::create_dir_all(&root).expect("a folder for the test");
        std::fs::write(root.join("a.js"), "plain").expect("a file");
        std::fs::write(root.join("a.js.br"), "packed").expect("a file");
        let folder = Folder {
            root: root.clone(),
            prefix: String::new(),
            policy: String::new(),
        };
        let ask = |coding: &str| {
            let request = format!("GET /a.js HTTP/1.1\r\nAccept-Encoding: {coding}\r\n\r\n");
            String::from_utf8_lossy(&answer(&folder, &request)).into_owned()
        };
        let (packed, plain) = (ask("gzip, deflate, br"), ask("gzip, brand-new"));
        std::fs::remove_dir_all(root).expect("the folder goes");
        assert!(packed.ends_with("\r\n\r\npacked"), "{packed}");
        assert!(packed.contains("Content-Encoding: br\r\nVary: Accept-Encoding\r\n"));
        assert!(packed.contains("Content-Type: text/javascript"));
        assert!(plain.ends_with("\r\n\r\nplain") && !plain.contains("Content-Encoding"));
    }

    #[test]
    fn head_sends_no_body() {
        let reply = ask("HEAD /sub/path/bin/dev/serve.rs HTTP/1.1\r\n\r\n");
        assert!(
            reply.starts_with("HTTP/1.1 200 OK\r\n") && reply.ends_with("\r\n\r\n"),
            "{reply}"
        );
    }

    #[test]
    fn nothing_outside_the_folder_is_answered() {
        for path in [
            "/sub/path/../Cargo.toml",
            "/sub/path/%2e%2e/Cargo.toml",
            "/sub/path/bin/..%2f..%2fCargo.toml",
            "/sub/path//etc/hostname",
            "/sub/path/%2fetc%2fhostname",
            "/sub/path/lib.rs%00",
            "/sub/path/%",
            "/sub/path/%zz",
            "/bin/dev/serve.rs",
            "/sub/pathbin/dev/serve.rs",
            "",
        ] {
            let reply = ask(&format!("GET {path} HTTP/1.1\r\n\r\n"));
            assert!(reply.starts_with("HTTP/1.1 404 "), "{path}: {reply:.60}");
        }
    }

    #[test]
    fn the_prefix_without_its_slash_is_sent_on() {
        let reply = ask("GET /sub/path HTTP/1.1\r\n\r\n");
        assert!(
            reply.starts_with("HTTP/1.1 301 ") && reply.contains("Location: /sub/path/\r\n"),
            "{reply}"
        );
    }

    #[test]
    fn only_reading_is_allowed() {
        for method in ["POST", "PUT", "DELETE", "get", "x"] {
            let reply = ask(&format!("{method} /sub/path/ HTTP/1.1\r\n\r\n"));
            assert!(reply.starts_with("HTTP/1.1 405 "), "{method}: {reply:.60}");
        }
    }

    #[test]
    fn the_policy_is_read_from_the_meta_tag() {
        let page = "<meta charset=\"utf-8\">\n<meta http-equiv=\"Content-Security-Policy\"\n  content=\"a 'self'; b\">";
        assert_eq!(policy_in(page), Some("a 'self'; b"));
        assert_eq!(policy_in("<meta content=\"a\">"), None);
    }
}
