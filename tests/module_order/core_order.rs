//! The core: a module names only modules that stand above it in the list.

use syn::punctuated::Punctuated;
use syn::visit::{self, Visit};
use syn::{Attribute, Expr, ItemMod, Macro, Path, Token, UseTree, VisRestricted};

use crate::sources;

/// Every module, from the one that knows least; a folder's front comes after its files.
const ORDER: [&str; 165] = [
    "error",
    "numeric",
    "gauss",
    "chance",
    "least_squares",
    "bands",
    "spectrum",
    "recording/wav",
    "recording/band_filter",
    "recording/noise",
    "recording/impulse",
    "recording",
    "spread",
    "air",
    "layers/layer",
    "layers/medium",
    "layers/opening",
    "layers/stack",
    "layers",
    "finish",
    "furnishing",
    "geometry",
    "finite_size",
    "reacting",
    "scatterer",
    "absorber",
    "front",
    "directivity",
    "surface",
    "room",
    "fresnel",
    "footprint",
    "image_source",
    "early/rows",
    "early/wall",
    "early/memory",
    "early/carried",
    "early/zone",
    "early/first",
    "early",
    "decay_curve",
    "decay/directions",
    "decay/field",
    "decay/lanes",
    "decay",
    "field_shape",
    "classical",
    "seat/once",
    "seat/covered",
    "seat/tail",
    "seat/late",
    "seat/figures",
    "seat/comb",
    "seat/response",
    "seat",
    "bass/admittance",
    "bass/modes",
    "bass/room",
    "bass/symmetric",
    "bass/walls",
    "bass/beyond",
    "bass/coupled",
    "bass/response",
    "bass/map",
    "bass/notes",
    "bass/behind",
    "bass/words",
    "bass/pieces",
    "bass",
    "listen/clock",
    "listen/crossover",
    "listen/head",
    "listen/noise",
    "listen/octaves",
    "listen/low",
    "listen/late",
    "listen/first_part",
    "listen/mixing",
    "listen/ways",
    "listen/loudness",
    "listen/dry",
    "listen",
    "scenario/document",
    "scenario/reader",
    "scenario/limits",
    "scenario/read_kind",
    "scenario/read",
    "scenario/standing",
    "scenario/check",
    "scenario/goal",
    "scenario",
    "report",
    "shelf/entry",
    "shelf/soft",
    "shelf/tuned",
    "shelf/household",
    "shelf",
    "simulate/kit_sources",
    "simulate/kit",
    "simulate/spreads",
    "simulate/fit",
    "simulate/deal",
    "simulate/plate",
    "simulate/furniture",
    "simulate/building",
    "simulate/corner",
    "simulate/curtain",
    "simulate/stand",
    "simulate/builds",
    "simulate/prepared",
    "simulate/known",
    "simulate/absorbers",
    "simulate/doubts",
    "simulate/memory",
    "simulate/detail",
    "simulate/figures",
    "simulate/field",
    "simulate/seat",
    "simulate/screens",
    "simulate/bounces",
    "simulate/odd",
    "simulate/notes",
    "simulate/reflections",
    "simulate/response",
    "simulate/bass",
    "simulate/listen",
    "simulate/heard",
    "simulate/ranges",
    "simulate/outlook",
    "simulate/observed",
    "simulate/fitting",
    "simulate/misfit",
    "simulate/inputs",
    "simulate/causes",
    "simulate/checkup",
    "simulate/surer",
    "simulate/weighed",
    "simulate",
    "advice/space",
    "advice/route",
    "advice/rules",
    "advice/places",
    "advice/cover",
    "advice/objective",
    "advice/table",
    "advice/scales",
    "advice/search",
    "advice/plan",
    "advice/surfaces",
    "advice/amount",
    "advice/moving",
    "advice/swap",
    "advice/windows",
    "advice/free",
    "advice/tasks",
    "advice",
    "wasm/cross",
    "wasm/session",
    "wasm/library",
    "wasm/ranges",
    "wasm/bass",
    "wasm/advice",
    "wasm/checkup",
    "wasm/listen",
    "wasm",
];

/// Independent answers, which must not lean on each other.
const STRANGERS: [&str; 3] = ["image_source", "decay", "classical"];

/// Crates that exist only in the browser, and the one module that may name them.
const BROWSER_CRATES: [&str; 4] = ["js_sys", "serde_wasm_bindgen", "wasm_bindgen", "web_sys"];
const DOOR: &str = "wasm";

/// Name and content of every module; the crate's front page and the binaries are none.
fn modules() -> Vec<(String, String)> {
    let mut modules = sources("src", "rs");
    modules.retain(|(path, _)| path != "lib.rs" && !path.starts_with("bin/"));
    for (path, _) in &mut modules {
        let name = path.trim_end_matches(".rs");
        *path = name.strip_suffix("/mod").unwrap_or(name).to_owned();
    }
    modules
}

/// What is wrong with the names that one module uses.
fn problems(module: &str, source: &str) -> Vec<String> {
    let Some(own_place) = place(module) else {
        return vec![format!("{module} is not in the list")];
    };
    let names = names_in(source);
    let mut problems: Vec<_> = names
        .iter()
        .filter(|name| !is_door(module) && BROWSER_CRATES.contains(&name.words[0].as_str()))
        .map(|name| format!("{module} names {}, which only {DOOR} may", name.words[0]))
        .collect();
    for inside in names.iter().filter_map(|name| name.inside_crate(module)) {
        let wrong = match module_named(&inside) {
            None => Some("which is no module of the list"),
            Some(other) if other == module => None,
            Some(other) if STRANGERS.contains(&other) && STRANGERS.contains(&module) => {
                Some("of which it must be independent")
            }
            Some(other) if place(other) > Some(own_place) => Some("which stands below it"),
            Some(_) => None,
        };
        problems.extend(wrong.map(|why| format!("{module} names {}, {why}", inside.join("::"))));
    }
    problems
}

/// Whether a module is the door or a part of it.
fn is_door(module: &str) -> bool {
    module
        .strip_prefix(DOOR)
        .is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
}

fn place(module: &str) -> Option<usize> {
    ORDER.iter().position(|&name| name == module)
}

/// The module of the list that a path from the crate's root leads into, the deepest one.
fn module_named(inside: &[String]) -> Option<&'static str> {
    let lengths = (1..=inside.len()).rev();
    lengths
        .filter_map(|length| place(&inside[..length].join("/")))
        .map(|found| ORDER[found])
        .next()
}

/// A path in the source, and in how many modules of the same file it stands.
struct Name {
    words: Vec<String>,
    depth: usize,
}

impl Name {
    /// The path from the crate's root, if it leaves the module through `crate` or `super`.
    fn inside_crate(&self, module: &str) -> Option<Vec<String>> {
        if self.words[0] == "crate" {
            return Some(self.words[1..].to_vec());
        }
        let ups = self
            .words
            .iter()
            .take_while(|word| *word == "super")
            .count();
        let levels = ups.checked_sub(self.depth).filter(|&levels| levels > 0)?;
        let parents: Vec<_> = module.split('/').map(str::to_owned).collect();
        let base = &parents[..parents.len().checked_sub(levels)?];
        Some([base, &self.words[ups..]].concat())
    }
}

fn names_in(source: &str) -> Vec<Name> {
    let mut finder = Finder::default();
    finder.visit_file(&syn::parse_file(source).expect("the module is Rust"));
    finder.names
}

/// Collects paths; unit tests are free to name what they compare with.
#[derive(Default)]
struct Finder {
    names: Vec<Name>,
    depth: usize,
}

impl Finder {
    fn add(&mut self, words: Vec<String>) {
        self.names.push(Name {
            words,
            depth: self.depth,
        });
    }

    fn add_tree(&mut self, before: &[String], tree: &UseTree) {
        let with = |word: String| [before, &[word]].concat();
        match tree {
            UseTree::Path(path) => self.add_tree(&with(path.ident.to_string()), &path.tree),
            UseTree::Name(name) => self.add(with(name.ident.to_string())),
            UseTree::Rename(rename) => self.add(with(rename.ident.to_string())),
            UseTree::Group(group) => group
                .items
                .iter()
                .for_each(|tree| self.add_tree(before, tree)),
            _ => self.add(with("*".to_owned())),
        }
    }
}

impl<'ast> Visit<'ast> for Finder {
    /// `pub(super)` opens a name to the folder; it uses nothing of it.
    fn visit_vis_restricted(&mut self, _: &'ast VisRestricted) {}

    fn visit_use_tree(&mut self, tree: &'ast UseTree) {
        self.add_tree(&[], tree);
    }

    fn visit_path(&mut self, path: &'ast Path) {
        self.add(
            path.segments
                .iter()
                .map(|segment| segment.ident.to_string())
                .collect(),
        );
        visit::visit_path(self, path);
    }

    fn visit_macro(&mut self, used: &'ast Macro) {
        self.visit_path(&used.path);
        let arguments = used.parse_body_with(Punctuated::<Expr, Token![,]>::parse_terminated);
        for argument in arguments.iter().flatten() {
            Finder::visit_into(self, argument);
        }
    }

    fn visit_item_mod(&mut self, module: &'ast ItemMod) {
        if !module.attrs.iter().any(is_for_tests) {
            self.depth += 1;
            visit::visit_item_mod(self, module);
            self.depth -= 1;
        }
    }
}

impl Finder {
    /// Arguments of a macro live no longer than the call that parsed them.
    fn visit_into(&mut self, argument: &Expr) {
        let mut inner = Finder {
            names: Vec::new(),
            depth: self.depth,
        };
        inner.visit_expr(argument);
        self.names.append(&mut inner.names);
    }
}

fn is_for_tests(attribute: &Attribute) -> bool {
    attribute.path().is_ident("cfg")
        && attribute
            .parse_args::<Path>()
            .is_ok_and(|path| path.is_ident("test"))
}

#[test]
fn every_module_names_only_modules_above_it() {
    let modules = modules();
    assert!(!modules.is_empty(), "src holds no module");
    let found: Vec<_> = modules
        .iter()
        .flat_map(|(name, source)| problems(name, source))
        .collect();
    assert!(found.is_empty(), "{}", found.join("\n"));
}

#[test]
fn the_list_names_only_modules_that_exist() {
    let modules = modules();
    let gone: Vec<_> = ORDER
        .iter()
        .filter(|name| !modules.iter().any(|(module, _)| module == *name))
        .collect();
    assert!(gone.is_empty(), "not in src: {gone:?}");
}

#[test]
fn a_name_from_below_is_found_wherever_it_stands() {
    for source in [
        "use crate::decay::Decay;",
        "use crate::{air::Air, decay::{self, Decay}};",
        "use super::decay;",
        "fn f() -> f64 { crate::decay::t60() }",
        "fn f() -> String { format!(\"{}\", crate::decay::t60()) }",
        "fn f(decay: &crate::decay::Decay) {}",
        "mod inner { use super::super::decay::Decay; }",
    ] {
        assert_eq!(problems("room", source).len().min(1), 1, "{source}");
    }
}

#[test]
fn other_breaches_are_found() {
    assert_eq!(problems("air", "use js_sys::Math;").len(), 1);
    assert_eq!(
        problems("air", "#[wasm_bindgen::prelude::wasm_bindgen] fn f() {}").len(),
        1
    );
    assert_eq!(
        problems("decay", "use crate::image_source::Image;").len(),
        1
    );
    assert_eq!(
        problems("scenario/reader", "use super::check::Finding;").len(),
        1
    );
    assert_eq!(problems("room", "use crate::Room;").len(), 1);
    assert_eq!(problems("unheard_of", "").len(), 1);
}

#[test]
fn names_from_above_and_from_the_module_itself_are_fine() {
    assert!(
        problems(
            "room",
            "use crate::bands::Banded; use super::air; use std::fmt;"
        )
        .is_empty()
    );
    assert!(problems("room", "mod inner { use super::Room; } use self::inner::*;").is_empty());
    assert!(
        problems(
            "room",
            "#[cfg(test)] mod tests { use crate::simulate::simulate; }"
        )
        .is_empty()
    );
    assert!(problems("scenario/check", "use super::document::Document;").is_empty());
    assert!(problems("wasm", "use wasm_bindgen::prelude::*;").is_empty());
}
