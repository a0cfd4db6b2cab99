//! Layout rules: what may stand where. Each failure names the file and, where there is one, the line.
//!
//! Judges text alone: what the compiler and clippy see is theirs.

use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};

const LONGEST_FILE_LINES: usize = 800;
const TOP_LEVEL: [&str; 9] =
    ["Cargo.toml", "Cargo.lock", "README.md", "DEVELOPERS.md", "crates", "web", "tests", "fixtures", "target"];
/// Made by a build or a test run, never part of the project.
const MADE: [&str; 5] = [".git", "target", "node_modules", "dist", "shots"];
/// Pictures and fonts.
const NOT_TEXT: [&str; 5] = ["png", "ico", "woff2", "wasm", "gz"];

#[test]
fn the_top_level_holds_only_what_it_should() {
    let entries = fs::read_dir(root()).expect("the repository").flatten();
    let names = entries.map(|entry| entry.file_name().to_string_lossy().into_owned());
    let others = names.filter(|name| !name.starts_with('.') && !TOP_LEVEL.contains(&name.as_str()));
    assert_none(others, "has no place at the top level");
}

#[test]
fn only_the_edge_of_the_page_touches_the_browser() {
    let may = ["lib.rs", "paint.rs", "events.rs", "store.rs"].map(|name| format!("crates/wasm/src/{name}"));
    let browser = ["web_sys", "js_sys"];
    let elsewhere = sources("crates").filter(|file| !may.contains(&file.name));
    assert_none(
        elsewhere.flat_map(|file| file.lines_with(&browser)),
        "talks to the browser: that belongs into lib, paint, events or store",
    );
}

#[test]
fn only_the_geometry_module_uses_the_geometry_library() {
    let elsewhere = sources("crates").filter(|file| file.name != "crates/core/src/geometry.rs");
    assert_none(elsewhere.flat_map(|file| file.lines_with(&["geo"])), "uses geo: ask geometry.rs");
}

#[test]
fn no_file_is_too_long() {
    let long = sources("crates").chain(sources("tests")).filter(|file| file.text.lines().count() > LONGEST_FILE_LINES);
    assert_none(long.map(|file| file.name), "is over 800 lines: split it by concept");
}

#[test]
fn every_module_opens_by_saying_what_it_is() {
    let silent = sources("crates").chain(sources("tests")).filter(|file| !file.text.starts_with("//! "));
    assert_none(silent.map(|file| file.name), "does not open with //!");
}

#[test]
fn every_house_is_named_in_the_list_of_fixtures() {
    let folders = ["fixtures/houses", "fixtures/evidence", "fixtures/symptoms"];
    let houses: Vec<PathBuf> = folders.iter().flat_map(|folder| files(&root().join(folder))).collect();
    let list = fs::read_to_string(root().join("fixtures/README.md")).unwrap_or_default();
    let unnamed = houses.iter().map(|house| name_of(house)).filter(|name| {
        let stem = Path::new(name).file_name().and_then(|file| file.to_str()).and_then(|file| file.split('.').next());
        !stem.is_some_and(|stem| names(&list, stem))
    });
    assert_none(unnamed, "is not named in fixtures/README.md");
}

#[test]
fn no_text_names_a_folder_of_one_machine_or_a_registry() {
    let folders = ["work", "root", "tmp", "home", "Users"].map(|name| format!("/{name}/"));
    let hosts =
        [["registry", "npmjs"], ["static", "crates"], ["index", "crates"], ["pypi", "org"], ["proxy", "golang"]]
            .map(|parts| parts.join("."));
    let mut found = Vec::new();
    for file in texts() {
        for (number, line) in (1..).zip(file.text.lines()) {
            if folders.iter().any(|folder| starts_a_path(line, folder)) {
                found.push(format!("{}:{number}: a folder of one machine", file.name));
            }
            if hosts.iter().any(|host| line.contains(host.as_str())) {
                found.push(format!("{}:{number}: a registry's host", file.name));
            }
        }
    }
    assert_none(found, "has no place in the repository");
}

#[test]
fn the_lock_files_name_no_mirror() {
    let cargo = fs::read_to_string(root().join("Cargo.lock")).expect("Cargo.lock");
    let usual = "source = \"registry+https://github.com/rust-lang/crates.io-index\"";
    let crates = cargo.lines().filter(|line| line.starts_with("source = ") && *line != usual);
    let npm = fs::read_to_string(root().join("tests/browser/package-lock.json")).expect("package-lock.json");
    let packages = npm.lines().filter(|line| line.contains("\"resolved\""));
    assert_none(crates.chain(packages).map(str::to_owned), "ties the lock file to one server");
}

#[test]
fn the_rules_themselves_catch_what_they_are_for() {
    let source = |text: &str| Text { name: "a.rs".into(), text: text.into() };
    assert_eq!(source("//! x\nuse geo::Line;\n").lines_with(&["geo"]), ["a.rs:2"]);
    assert_eq!(source("// geo\nuse geometry::geo_free; // geo\n").lines_with(&["geo"]), [""; 0]);
    assert!(starts_a_path("see /one/plan.json", "/one/"));
    assert!(!starts_a_path("web/one/plan.json", "/one/"));
    assert!(names("* `gable-a.json`: why", "gable-a"));
    assert!(!names("* `gable-a-offset.json`: why", "gable-a"));
}

/// A text file of the repository; its name starts at the top level.
struct Text {
    name: String,
    text: String,
}

impl Text {
    /// `file:line` of each line of code that holds one of `words` as a whole word. Comments do not count.
    fn lines_with(&self, words: &[&str]) -> Vec<String> {
        let code = (1..).zip(self.text.lines()).map(|(number, line)| (number, line.split("//").next().unwrap_or(line)));
        code.filter(|(_, line)| {
            line.split(|c: char| !c.is_alphanumeric() && c != '_').any(|word| words.contains(&word))
        })
        .map(|(number, _)| format!("{}:{number}", self.name))
        .collect()
    }
}

#[track_caller]
fn assert_none(found: impl IntoIterator<Item = String>, what: &str) {
    let list = found.into_iter().fold(String::new(), |mut list, item| {
        writeln!(list, "  {item}").expect("text grows");
        list
    });
    assert!(list.is_empty(), "{what}:\n{list}");
}

/// Whether `folder` (`/name/`) stands in `line` as the beginning of a path, not in the middle of one.
fn starts_a_path(line: &str, folder: &str) -> bool {
    line.match_indices(folder).any(|(at, _)| {
        let before = line.get(..at).and_then(|text| text.chars().next_back());
        !before.is_some_and(|c| c.is_alphanumeric() || "._-*)}/".contains(c))
    })
}

/// Whether `list` holds `stem` as a whole file name, whatever its ending.
fn names(list: &str, stem: &str) -> bool {
    list.split(|c: char| !c.is_alphanumeric() && c != '-' && c != '_').any(|word| word == stem)
}

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn sources(folder: &str) -> impl Iterator<Item = Text> {
    let rust = files(&root().join(folder)).into_iter().filter(|file| file.extension().is_some_and(|e| e == "rs"));
    rust.map(read)
}

fn texts() -> impl Iterator<Item = Text> {
    let text = |file: &PathBuf| !file.extension().is_some_and(|ending| NOT_TEXT.iter().any(|e| ending == *e));
    files(&root()).into_iter().filter(text).map(read)
}

fn read(file: PathBuf) -> Text {
    let bytes = fs::read(&file).expect("a file of the repository");
    Text { name: name_of(&file), text: String::from_utf8_lossy(&bytes).into_owned() }
}

/// Every file below `folder`, in the same order on every machine; none when there is no such folder.
fn files(folder: &Path) -> Vec<PathBuf> {
    let mut entries: Vec<PathBuf> = fs::read_dir(folder).into_iter().flatten().flatten().map(|e| e.path()).collect();
    entries.sort();
    let made = |path: &PathBuf| path.file_name().is_some_and(|name| MADE.iter().any(|made| name == *made));
    entries.retain(|path| !made(path));
    entries.into_iter().flat_map(|path| if path.is_dir() { files(&path) } else { vec![path] }).collect()
}

fn name_of(file: &Path) -> String {
    file.strip_prefix(root()).unwrap_or(file).to_string_lossy().replace('\\', "/")
}
