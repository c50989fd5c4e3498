//! The page: a module imports only from the layers its own layer may know, and never in a ring.

use std::collections::BTreeMap;

use crate::sources;

/// What each layer may import besides itself: other layers (a folder, or a file at the top) or single files.
const LAYERS: [(&str, &[&str]); 8] = [
    ("model", &[]),
    ("engine", &["model", "pkg"]),
    ("chart", &["model/format.js", "vendor.js"]),
    ("view", &["model", "chart", "vendor.js"]),
    ("input", &["model"]),
    (
        "main.js",
        &["model", "engine", "chart", "view", "input", "vendor.js"],
    ),
    ("vendor.js", &[]),
    ("service-worker.js", &[]),
];

/// The one file that names npm packages.
const VENDOR: &str = "vendor.js";

/// The built modules, which are not among the sources.
const BUILT: [&str; 2] = ["pkg/seatward.js", "pkg/seatward_later.js"];

type Graph = BTreeMap<String, Vec<String>>;

/// Every module of the page with what it imports.
fn graph() -> Graph {
    let files = sources("www", "js");
    files
        .into_iter()
        .map(|(path, source)| (path, imports(&source)))
        .collect()
}

/// What is wrong with the imports of the whole page.
fn problems(graph: &Graph) -> Vec<String> {
    let mut problems = Vec::new();
    let mut resolved = Graph::new();
    for (file, imports) in graph {
        let (inside, bare): (Vec<_>, Vec<_>) =
            imports.iter().partition(|import| import.starts_with('.'));
        if file != VENDOR {
            problems.extend(
                bare.iter()
                    .map(|import| format!("{file} imports {import}; only {VENDOR} may")),
            );
        }
        let inside: Vec<_> = inside
            .into_iter()
            .map(|import| resolve(file, import))
            .collect();
        problems.extend(
            inside
                .iter()
                .filter_map(|import| problem(file, import, graph)),
        );
        resolved.insert(file.clone(), inside);
    }
    problems.extend(ring(&resolved).map(|ring| format!("a ring of imports: {}", ring.join(", "))));
    problems
}

fn problem(file: &str, import: &str, graph: &Graph) -> Option<String> {
    let own = layer(file);
    let Some((_, known)) = LAYERS.iter().find(|(layer, _)| *layer == own) else {
        return Some(format!("{file} belongs to no layer of the list"));
    };
    if !BUILT.contains(&import) && !graph.contains_key(import) {
        return Some(format!("{file} imports {import}, which does not exist"));
    }
    let may = layer(import) == own || known.contains(&layer(import)) || known.contains(&import);
    (!may).then(|| format!("{file} imports {import}, which {own} may not know"))
}

fn layer(file: &str) -> &str {
    file.split('/').next().unwrap_or(file)
}

/// The path inside the page that an import leads to.
fn resolve(file: &str, import: &str) -> String {
    let mut parts: Vec<&str> = file.split('/').collect();
    parts.pop();
    for part in import.split('/') {
        match part {
            "." => {}
            ".." => drop(parts.pop()),
            _ => parts.push(part),
        }
    }
    parts.join("/")
}

/// The quoted names after `from`, `import` and in `import(...)`, outside of comments.
fn imports(source: &str) -> Vec<String> {
    let code = without_comments(source);
    let mut found = Vec::new();
    for start in [
        "from \"",
        "import \"",
        "import(\"",
        "from '",
        "import '",
        "import('",
    ] {
        let closing = if start.ends_with('"') { '"' } else { '\'' };
        let pieces = code.split(start).skip(1);
        found.extend(pieces.filter_map(|piece| Some(piece.split_once(closing)?.0.to_owned())));
    }
    found
}

/// Types in JSDoc comments are imported too, but nothing runs there.
fn without_comments(source: &str) -> String {
    let mut pieces = source.split("/*");
    let mut code = pieces.next().unwrap_or_default().to_owned();
    code.extend(pieces.filter_map(|piece| Some(piece.split_once("*/")?.1)));
    code.lines()
        .filter(|line| !line.trim_start().starts_with("//"))
        .collect::<Vec<_>>()
        .join("\n")
}

/// Files that import each other in a ring, or that only lead into one; none if every chain ends.
fn ring(graph: &Graph) -> Option<Vec<String>> {
    let mut left = graph.clone();
    loop {
        let names: Vec<_> = left.keys().cloned().collect();
        let before = left.len();
        left.retain(|_, imports| imports.iter().any(|import| names.contains(import)));
        if left.is_empty() {
            return None;
        }
        if left.len() == before {
            return Some(names);
        }
    }
}

fn page(files: &[(&str, &str)]) -> Vec<String> {
    problems(
        &files
            .iter()
            .map(|(path, source)| ((*path).to_owned(), imports(source)))
            .collect(),
    )
}

#[test]
fn every_module_of_the_page_keeps_to_its_layer() {
    let graph = graph();
    assert!(graph.contains_key("main.js"), "www/main.js is missing");
    let found = problems(&graph);
    assert!(found.is_empty(), "{}", found.join("\n"));
    let strays: Vec<_> = graph
        .keys()
        .filter(|file| !LAYERS.iter().any(|(name, _)| layer(file) == *name))
        .collect();
    assert!(strays.is_empty(), "in no layer of the list: {strays:?}");
}

#[test]
fn an_import_across_layers_is_found() {
    let format = ("model/format.js", "");
    assert_eq!(
        page(&[
            format,
            ("view/a.js", ""),
            ("model/b.js", "import { a } from \"../view/a.js\";")
        ])
        .len(),
        1
    );
    assert_eq!(
        page(&[
            ("model/b.js", ""),
            ("chart/a.js", "import { b } from '../model/b.js';")
        ])
        .len(),
        1
    );
    assert_eq!(
        page(&[("main.js", "import init from \"./pkg/seatward.js\";")]).len(),
        1
    );
    assert_eq!(
        page(&[("view/a.js", "import { html } from \"lit-html\";")]).len(),
        1
    );
    assert_eq!(page(&[("main.js", "import \"./view/gone.js\";")]).len(), 1);
    assert_eq!(
        page(&[
            ("main.js", ""),
            ("view/a.js", "const m = await import(\"../main.js\");")
        ])
        .len(),
        1
    );
}

#[test]
fn a_ring_is_found() {
    let found = page(&[
        ("model/a.js", "import {\n  b,\n} from \"./b.js\";"),
        ("model/b.js", "export { c } from \"./c.js\";"),
        ("model/c.js", "import \"./a.js\";"),
    ]);
    assert_eq!(
        found,
        ["a ring of imports: model/a.js, model/b.js, model/c.js"]
    );
}

#[test]
fn allowed_imports_and_types_in_comments_are_fine() {
    let found = page(&[
        ("vendor.js", "export { html } from \"lit-html\";"),
        (
            "model/format.js",
            "/** @typedef {import(\"../view/room.js\").Room} Room */",
        ),
        (
            "chart/axis.js",
            "import { metres } from \"../model/format.js\";\nimport { html } from \"../vendor.js\";",
        ),
        ("view/room.js", "import { axis } from \"../chart/axis.js\";"),
        ("engine/live.js", "import init from \"../pkg/seatward.js\";"),
        (
            "main.js",
            "import \"./view/room.js\";\nimport \"./engine/live.js\";\n// import \"./gone.js\";",
        ),
    ]);
    assert_eq!(found, Vec::<String>::new());
}
