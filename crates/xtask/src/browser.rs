//! The browser tests: Node, Chromium and two npm packages, then every file of `tests/browser` against the built page.

use crate::process::{Outcome, ask, on_path, run, run_within};
use crate::project::Project;
use crate::tools;
use std::env;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Duration;

const OLDEST_NODE: u32 = 20;
const CHROMIUM_NAMES: [&str; 4] = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];
const CHROMIUM_ON_A_MAC: [&str; 2] = [
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
];
const APT_LIMIT: Duration = Duration::from_secs(900);

/// Fetches what the tests need and is not there; the path of Chromium.
pub(crate) fn set_up(project: &Project) -> Outcome<PathBuf> {
    node()?;
    let _alone = tools::lock(project)?;
    packages(&project.root().join("tests/browser"))?;
    chromium()
}

/// Runs all of them against `web/dist`.
pub(crate) fn test(project: &Project, chromium: &Path) -> Outcome {
    run(Command::new("node").arg("tests/browser/run.mjs").current_dir(project.root()).env("CHROMIUM", chromium))
}

fn node() -> Outcome {
    let said = ask(Command::new("node").arg("--version")).unwrap_or_default();
    let major = said.trim_start_matches('v').split('.').next().and_then(|number| number.parse::<u32>().ok());
    let npm = ask(Command::new("npm").arg("--version"));
    match (major, npm) {
        (Some(major), Some(_)) if major >= OLDEST_NODE => Ok(()),
        (Some(major), Some(_)) => {
            Err(format!("Node {major} is too old for the browser tests: install Node {OLDEST_NODE} or newer"))
        }
        _ => Err(format!("the browser tests need Node {OLDEST_NODE} or newer with npm: install it")),
    }
}

/// The packages of `package-lock.json`, fetched again when that file changed since.
fn packages(folder: &Path) -> Outcome {
    let lock = folder.join("package-lock.json");
    let wanted = fs::read(&lock).map_err(|e| format!("{}: {e}", lock.display()))?;
    let stamp = folder.join("node_modules/.fetched");
    if fs::read(&stamp).is_ok_and(|fetched| fetched == wanted) {
        return Ok(());
    }
    println!("set-up: fetching the browser tests' packages with npm (usually 5 s)");
    tools::npm(&["ci", "--prefix", &folder.to_string_lossy()])?;
    fs::write(&stamp, wanted).map_err(|e| format!("{}: {e}", stamp.display()))
}

fn chromium() -> Outcome<PathBuf> {
    if let Some(found) = find_chromium() {
        return Ok(found);
    }
    let root = ask(Command::new("id").arg("-u")).as_deref() == Some("0");
    if !root || on_path(&["apt-get"]).is_none() {
        return Err("the browser tests need Chromium: install the package chromium, or set CHROMIUM to its path".into());
    }
    println!("set-up: installing chromium with apt-get (usually a minute)");
    apt(&["update", "-qq"])?;
    apt(&["install", "-qq", "-y", "chromium"])?;
    find_chromium().ok_or_else(|| "chromium was installed and does not run: set CHROMIUM to the path of one".into())
}

fn apt(arguments: &[&str]) -> Outcome {
    run_within(APT_LIMIT, Command::new("apt-get").args(arguments).env("DEBIAN_FRONTEND", "noninteractive"))
}

/// The first that runs: a distribution may have put a note in its place.
fn find_chromium() -> Option<PathBuf> {
    let named = env::var_os("CHROMIUM").filter(|value| !value.is_empty()).map(PathBuf::from);
    let on_path = CHROMIUM_NAMES.iter().filter_map(|name| on_path(&[name]));
    let on_a_mac = CHROMIUM_ON_A_MAC.iter().map(PathBuf::from);
    named.into_iter().chain(on_path).chain(on_a_mac).find(|file| ask(Command::new(file).arg("--version")).is_some())
}
