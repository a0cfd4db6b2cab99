//! What comes from others: what may come at all, under which licences, and their notices for the page.
//!
//! Asks cargo alone, offline. A tool that does more of it exists and takes over three minutes to compile on two cores, which no
//! check of this project may; known weaknesses are therefore not looked up here.

use crate::process::{Outcome, ask};
use crate::project::Project;
use crate::tools::TARGET;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::fs;
use std::path::Path;
use std::process::Command;

/// Licences under which the page may be given to anybody, with a notice.
const LICENCES: [&str; 8] = [
    "MIT",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "Zlib",
    "0BSD",
    "Unicode-3.0",
];
/// More of them, for what only checks and never ships.
const LICENCES_OF_TOOLS: [&str; 4] = ["Unlicense", "ISC", "CC0-1.0", "BSL-1.0"];
/// The only place that packages come from.
const SOURCE: &str = "registry+https://github.com/rust-lang/crates.io-index";
/// Never part of the page: they bring a compiler for C, a clock, a net or a source of random numbers into it.
const BANNED: [&str; 7] = ["cc", "openssl-sys", "getrandom", "chrono", "time", "rayon", "tokio"];
/// What the page was made of by others, beside the page.
pub(crate) const NOTICES: &str = "licences.txt";

/// One package, as cargo knows it.
struct Package {
    name: String,
    version: String,
    licence: String,
    source: Option<String>,
    repository: String,
    manifest: String,
}

/// Packages of the whole project, and which of them are in the page.
struct Supply {
    packages: BTreeMap<String, Package>,
    in_the_page: BTreeSet<String>,
}

impl Supply {
    fn of(project: &Project) -> Outcome<Self> {
        // By platform: what another one would need is not on this machine.
        let host = ask(Command::new("rustc").args(["--print", "host-tuple"])).ok_or("rustc does not run")?;
        let (all, page) = (metadata(project, &host)?, metadata(project, TARGET)?);
        let packages = [&all, &page].into_iter().filter_map(|it| it["packages"].as_array()).flatten();
        let text = |package: &Value, key: &str| package[key].as_str().unwrap_or_default().to_owned();
        let packages = packages.map(|it| {
            let package = Package {
                name: text(it, "name"),
                version: text(it, "version"),
                licence: text(it, "license"),
                source: it["source"].as_str().map(str::to_owned),
                repository: text(it, "repository"),
                manifest: text(it, "manifest_path"),
            };
            (text(it, "id"), package)
        });
        Ok(Self { packages: packages.collect(), in_the_page: in_the_page(project)? })
    }

    /// What others wrote.
    fn others(&self) -> impl Iterator<Item = &Package> {
        self.packages.values().filter(|package| package.source.is_some())
    }

    /// Whether it is in the page.
    fn has(&self, package: &Package) -> bool {
        self.in_the_page.contains(&format!("{} v{}", package.name, package.version))
    }
}

fn metadata(project: &Project, platform: &str) -> Outcome<Value> {
    let mut cargo = Command::new("cargo");
    cargo.current_dir(project.root()).args(["metadata", "--format-version", "1", "--locked", "--offline"]);
    cargo.args(["--filter-platform", platform]);
    let text = ask(&mut cargo).ok_or("`cargo metadata` failed: run `cargo fetch --locked` once")?;
    serde_json::from_str(&text).map_err(|e| format!("`cargo metadata`: {e}"))
}

/// What the page is built of, as `name vVersion`: not what only builds or tests it, nor what another feature would bring.
fn in_the_page(project: &Project) -> Outcome<BTreeSet<String>> {
    let mut cargo = Command::new("cargo");
    cargo.current_dir(project.root()).args([
        "tree",
        "--package",
        "joistwise-wasm",
        "--edges",
        "normal",
        "--prefix",
        "none",
    ]);
    cargo.args(["--target", TARGET, "--format", "{p}", "--locked", "--offline"]);
    let text = ask(&mut cargo).ok_or("`cargo tree` failed: run `cargo fetch --locked` once")?;
    Ok(listed(&text))
}

/// The first two words of each line.
fn listed(text: &str) -> BTreeSet<String> {
    let words = text.lines().map(|line| line.split_whitespace().take(2).collect::<Vec<_>>().join(" "));
    words.filter(|line| !line.is_empty()).collect()
}

/// Whether a licence, an SPDX expression without brackets in brackets, lets us choose one of these.
fn allowed(expression: &str, of: &[&str]) -> bool {
    let plain = expression.replace('/', " OR ").replace(['(', ')'], "");
    // `A OR B AND C` is read as either of A and B, with C: what has to hold holds.
    plain.split(" AND ").all(|part| part.split(" OR ").any(|licence| of.contains(&licence.trim())))
}

/// Every package comes from the one registry under a licence that we may pass on, and none is banned from the page.
pub(crate) fn check(project: &Project) -> Outcome {
    let supply = Supply::of(project)?;
    let tools: Vec<&str> = LICENCES.into_iter().chain(LICENCES_OF_TOOLS).collect();
    let mut wrong = Vec::new();
    for package in supply.others() {
        let Package { name, version, licence, .. } = package;
        let in_the_page = supply.has(package);
        if package.source.as_deref() != Some(SOURCE) {
            wrong.push(format!("{name} {version} comes from another place than the registry"));
        }
        if !allowed(licence, if in_the_page { &LICENCES } else { &tools }) {
            wrong.push(format!("{name} {version} is under '{licence}'"));
        }
        if in_the_page && BANNED.contains(&name.as_str()) {
            wrong.push(format!("{name} {version} has no place in the page"));
        }
    }
    if supply.in_the_page.len() < 10 {
        wrong.push("the packages of the page were not found".to_owned());
    }
    if wrong.is_empty() {
        let (all, page) = (supply.others().count(), supply.in_the_page.len());
        println!("{all} packages of others, {page} in the page, all from the registry and under licences on the list");
        return Ok(());
    }
    Err(wrong.join("; "))
}

/// Writes the notices of every package in the page into the built page.
pub(crate) fn notices(project: &Project) -> Outcome {
    let supply = Supply::of(project)?;
    let mut text = String::from(
        "Joistwise, under the MIT licence or the Apache licence 2.0, as you like, is built with the following packages.\n",
    );
    let mut texts: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for package in supply.others().filter(|package| supply.has(package)) {
        let Package { name, version, licence, repository, manifest, .. } = package;
        writeln!(text, "{name} {version}: {licence}. {repository}").map_err(|e| e.to_string())?;
        for words in licence_texts(Path::new(manifest)) {
            texts.entry(words).or_default().push(format!("{name} {version}"));
        }
    }
    let shelf = project.root().join("web/vendor/idb.LICENSE.txt");
    let words = fs::read_to_string(&shelf).map_err(|e| format!("{}: {e}", shelf.display()))?;
    text.push_str("idb 8.0.4 (a script): ISC.\n");
    texts.entry(words.trim().to_owned()).or_default().push("idb 8.0.4".to_owned());
    for (words, names) in texts {
        write!(text, "\n{}\n{}:\n\n{words}\n", "-".repeat(80), names.join(", ")).map_err(|e| e.to_string())?;
    }
    let file = project.dist().join(NOTICES);
    fs::write(&file, text).map_err(|e| format!("{}: {e}", file.display()))
}

/// The texts of licences and notices beside a manifest, in the order of their names.
fn licence_texts(manifest: &Path) -> Vec<String> {
    let folder = manifest.parent().unwrap_or(manifest);
    let mut files: Vec<_> = fs::read_dir(folder).into_iter().flatten().flatten().map(|file| file.path()).collect();
    files.sort();
    let is_one = |path: &&std::path::PathBuf| {
        let name = path.file_name().map(|name| name.to_string_lossy().to_uppercase()).unwrap_or_default();
        ["LICENSE", "LICENCE", "COPYING", "NOTICE", "COPYRIGHT"].iter().any(|word| name.starts_with(word))
            && path.is_file()
    };
    files
        .iter()
        .filter(is_one)
        .filter_map(|path| fs::read_to_string(path).ok())
        .map(|it| it.trim().to_owned())
        .collect()
}

#[cfg(test)]
mod tests {
    use super::{LICENCES, allowed, listed};

    #[test]
    fn a_licence_is_allowed_where_one_may_be_chosen_that_is_on_the_list() {
        for licence in
            ["MIT", "MIT OR Apache-2.0", "MIT/Apache-2.0", "GPL-3.0 OR MIT", "(MIT OR Apache-2.0) AND Unicode-3.0"]
        {
            assert!(allowed(licence, &LICENCES), "{licence}");
        }
        for licence in ["", "GPL-3.0", "MIT AND GPL-3.0", "Unlicense", "MPL-2.0"] {
            assert!(!allowed(licence, &LICENCES), "{licence}");
        }
    }

    #[test]
    fn packages_are_listed_once_by_name_and_version() {
        let tree = "joistwise-wasm v0.0.0 (crates/wasm)\npetgraph v0.8.3\nserde v1.0.0 (*)\npetgraph v0.8.3 (*)\n\n";
        let found: Vec<String> = listed(tree).into_iter().collect();
        assert_eq!(found, ["joistwise-wasm v0.0.0", "petgraph v0.8.3", "serde v1.0.0"]);
    }
}
