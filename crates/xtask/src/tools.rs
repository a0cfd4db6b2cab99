//! Set-up: everything a build of the page needs, put where it belongs on a machine that lacks it.
//!
//! The wasm32 target goes into the active toolchain; the tools go into the cache folder, so a clean checkout does not
//! compile them again. Nothing is remembered: each run asks the tools themselves, in under a second. The compiled ones
//! are built without TLS, since they talk to this machine alone.

use crate::process::{Outcome, ask, run, run_within};
use crate::project::Project;
use std::env;
use std::ffi::OsString;
use std::fs::{self, File};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Duration;

pub(crate) const TARGET: &str = "wasm32-unknown-unknown";
/// The newest that compiles with the oldest compiler this project supports: 0.22.1 wants rustc 1.96.1.
const TRUNK: &str = "0.21.14";
const BINARYEN: &str = "132";

const RUSTUP_LIMIT: Duration = Duration::from_secs(180);
const NPM_LIMIT: Duration = Duration::from_secs(300);

/// Variables that would turn the compilation of a tool into one for another target or with another compiler. Removed,
/// not emptied: an empty `RUSTC` breaks cargo.
const NOT_FOR_TOOLS: [&str; 6] =
    ["RUSTC", "RUSTDOC", "RUSTFLAGS", "CARGO_ENCODED_RUSTFLAGS", "CARGO_BUILD_TARGET", "CARGO_TARGET_DIR"];

/// The tools of one page build.
pub(crate) struct Tools {
    path: OsString,
    optimiser: Optimiser,
}

/// Whether `wasm-opt` is there to make the page smaller; it runs on Node.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Optimiser {
    Present,
    Absent,
}

impl Tools {
    /// `trunk` with its tools on the PATH. It takes `NO_COLOR=1`, which everyone else understands, for an error, and
    /// with `RUST_BACKTRACE` it hides what the compiler said behind a stack of its own.
    pub(crate) fn trunk(&self) -> Command {
        let mut trunk = Command::new("trunk");
        trunk.env("PATH", &self.path);
        trunk.env_remove("NO_COLOR").env_remove("RUST_BACKTRACE");
        trunk
    }

    /// Whether the page can be optimised.
    pub(crate) fn optimiser(&self) -> Optimiser {
        self.optimiser
    }
}

/// Sees to it that the page can be built: the target, the crates, `wasm-bindgen`, `trunk`, and `wasm-opt` where there is
/// Node.
pub(crate) fn set_up(project: &Project) -> Outcome<Tools> {
    wasm_target(project)?;
    crates(project)?;
    let _alone = lock(project)?;
    let folder = project.cache().join("tools");
    let path = path_with(&[folder.join("bin"), folder.join("node_modules/.bin")])?;
    let bindgen = project.locked_version("wasm-bindgen")?;
    if version("wasm-bindgen", &path) != Some(format!("wasm-bindgen {bindgen}")) {
        println!("set-up: compiling wasm-bindgen {bindgen}, once (usually 2 minutes on two cores)");
        // Without --locked: its own lock file names a version that the registry does not have.
        let wanted = format!("={bindgen}");
        install(&folder, &["wasm-bindgen-cli", "--version", &wanted, "--no-default-features"], &[])?;
    }
    if version("trunk", &path) != Some(format!("trunk {TRUNK}")) {
        println!("set-up: compiling trunk {TRUNK}, once (usually 4 minutes on two cores)");
        let wanted = format!("={TRUNK}");
        // With its own link-time optimisation it takes 10 minutes.
        let quicker = [
            ("CARGO_PROFILE_RELEASE_LTO", "off"),
            ("CARGO_PROFILE_RELEASE_CODEGEN_UNITS", "16"),
            ("CARGO_PROFILE_RELEASE_OPT_LEVEL", "1"),
        ];
        install(&folder, &["trunk", "--version", &wanted, "--locked", "--no-default-features"], &quicker)?;
    }
    let optimiser = wasm_opt(&folder, &path);
    Ok(Tools { path, optimiser })
}

/// Sees to it that `cargo fmt` and `cargo clippy` run.
pub(crate) fn components(project: &Project) -> Outcome {
    for (command, component) in [("fmt", "rustfmt"), ("clippy", "clippy")] {
        if ask(cargo(project).args([command, "--version"])).is_none() {
            println!("set-up: adding {component} with rustup (usually 5 s)");
            rustup(project, &["component", "add", component])?;
        }
    }
    Ok(())
}

/// Sees to it that the toolchain can compile for the browser.
pub(crate) fn wasm_target(project: &Project) -> Outcome {
    if has_target(project)? {
        return Ok(());
    }
    println!("set-up: adding the target {TARGET} with rustup (usually 5 s)");
    let added = rustup(project, &["target", "add", TARGET]);
    if has_target(project)? {
        return Ok(());
    }
    let why = added.err().unwrap_or_else(|| "it is still missing".to_owned());
    Err(format!(
        "no {TARGET} target ({why}): run `rustup target add {TARGET}` where rustup can download, then try again"
    ))
}

/// Waits until no other set-up is running in the same cache folder, then holds the others off until dropped.
pub(crate) fn lock(project: &Project) -> Outcome<File> {
    let folder = project.cache();
    let wrong = |e| format!("{}: {e}", folder.display());
    fs::create_dir_all(folder).map_err(wrong)?;
    let file = File::create(folder.join(".lock")).map_err(wrong)?;
    if file.try_lock().is_err() {
        println!("set-up: another one is running, waiting for it");
        file.lock().map_err(wrong)?;
    }
    Ok(file)
}

/// Runs `npm`; it prints errors and what it fetched, and does not advertise.
pub(crate) fn npm(arguments: &[&str]) -> Outcome {
    let mut npm = Command::new("npm");
    npm.args(arguments).args(["--loglevel=error", "--no-audit", "--no-fund", "--no-update-notifier"]);
    run_within(NPM_LIMIT, &mut npm)
}

fn cargo(project: &Project) -> Command {
    let mut cargo = Command::new("cargo");
    cargo.current_dir(project.root());
    cargo
}

fn rustup(project: &Project, arguments: &[&str]) -> Outcome {
    run_within(RUSTUP_LIMIT, Command::new("rustup").current_dir(project.root()).args(arguments))
}

fn has_target(project: &Project) -> Outcome<bool> {
    let sysroot = ask(Command::new("rustc").current_dir(project.root()).args(["--print", "sysroot"]))
        .ok_or("rustc does not run: install Rust with rustup")?;
    let folder = Path::new(&sysroot).join("lib/rustlib").join(TARGET).join("lib");
    let files = fs::read_dir(folder).into_iter().flatten().flatten();
    Ok(files.map(|file| file.file_name()).any(|name| name.to_string_lossy().starts_with("libstd-")))
}

/// trunk builds offline, and cargo has so far fetched only what this command itself needs.
fn crates(project: &Project) -> Outcome {
    run(cargo(project).args(["fetch", "--quiet", "--target", TARGET]))
}

/// Compiles a tool into `folder/bin`, away from the project's own settings.
fn install(folder: &Path, what: &[&str], environment: &[(&str, &str)]) -> Outcome {
    fs::create_dir_all(folder).map_err(|e| format!("{}: {e}", folder.display()))?;
    let mut cargo = Command::new("cargo");
    cargo.current_dir(folder).args(["install", "--quiet", "--force", "--root"]).arg(folder).args(what);
    NOT_FOR_TOOLS.iter().for_each(|variable| {
        cargo.env_remove(variable);
    });
    run(cargo.envs(environment.iter().copied()))
}

/// `wasm-opt` of the wanted version, from npm when it is not there. Without it the page is the same, only larger.
fn wasm_opt(folder: &Path, path: &OsString) -> Optimiser {
    let there = || {
        let said = version("wasm-opt", path).unwrap_or_default();
        said.split_whitespace().nth(2) == Some(BINARYEN)
    };
    if there() {
        return Optimiser::Present;
    }
    if ask(Command::new("npm").arg("--version")).is_none() {
        println!("set-up: no Node with npm here, so the page is built without wasm-opt: the same page, only larger");
        return Optimiser::Absent;
    }
    println!("set-up: fetching wasm-opt {BINARYEN} with npm (usually 5 s, 104 MB)");
    let package = format!("binaryen@{BINARYEN}.0.0");
    let fetched = npm(&["install", "--prefix", &folder.to_string_lossy(), &package]);
    if there() {
        return Optimiser::Present;
    }
    let why = fetched.err().unwrap_or_else(|| "it does not run".to_owned());
    println!("set-up: no wasm-opt ({why}), so the page is built without it: the same page, only larger");
    Optimiser::Absent
}

/// What `tool --version` says on the given PATH.
fn version(tool: &str, path: &OsString) -> Option<String> {
    ask(Command::new(tool).arg("--version").env("PATH", path).env_remove("NO_COLOR"))
}

fn path_with(first: &[PathBuf]) -> Outcome<OsString> {
    let rest = env::var_os("PATH").unwrap_or_default();
    env::join_paths(first.iter().cloned().chain(env::split_paths(&rest)))
        .map_err(|e| format!("the cache folder's name cannot stand in a PATH: {e}"))
}
