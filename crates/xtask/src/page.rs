//! The page: built by trunk into `web/dist`, put under the name of its version, then weighed.

use crate::process::{Outcome, run};
use crate::project::Project;
use crate::publish;
use crate::supply;
use crate::tools::{Optimiser, Tools};
use std::fmt;
use std::fs::{self, File};
use std::path::PathBuf;

/// What the Rust part of the page may weigh on the wire: a second and a half at 5 megabits a second, once; after that it is
/// kept on the device. It was 625 kB, one second, until what was seen, the readings, the survey and the take-out study came
/// with their sentences, tables and forms: all of it is needed with no signal, so none of it is fetched later.
pub(crate) const BUDGET_BYTES: usize = 1_020_000;

/// Bytes that gzip puts around the compressed data: ten before, eight after.
const GZIP_FRAME_BYTES: usize = 18;
const BEST_COMPRESSION: u8 = 9;

/// How the Rust part is compiled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Profile {
    /// As published: small and fast.
    Release,
    /// Quick to compile, checks switched on, several times the size.
    Debug,
}

/// Builds the page into `web/dist`. One build at a time: trunk clears its folder first, also when another is at work there.
pub(crate) fn build(project: &Project, tools: &Tools, profile: Profile) -> Outcome {
    let settings = project.root().join("web/Trunk.toml");
    let alone = File::open(&settings).and_then(|file| file.lock().map(|()| file));
    let _alone = alone.map_err(|e| format!("{}: {e}", settings.display()))?;
    let mut trunk = tools.trunk();
    trunk.current_dir(project.root()).args(["--config", "web/Trunk.toml", "--log", "warn", "build", "--offline"]);
    match (profile, tools.optimiser()) {
        (Profile::Release, Optimiser::Present) => trunk.arg("--release"),
        // Cargo's release alone: trunk's own would insist on wasm-opt.
        (Profile::Release, Optimiser::Absent) => trunk.args(["--cargo-profile", "release"]),
        (Profile::Debug, _) => &mut trunk,
    };
    if profile == Profile::Release {
        trunk.env("CARGO_ENCODED_RUSTFLAGS", flags());
    }
    run(&mut trunk)?;
    supply::notices(project)?;
    publish::publish(&project.dist())
}

/// The compiler's flags, with the folder of packages under one name on every machine: the same bytes come from any home.
fn flags() -> String {
    let asked = std::env::var("RUSTFLAGS").unwrap_or_default();
    let mut flags: Vec<String> = asked.split_whitespace().map(str::to_owned).collect();
    let home = std::env::var("CARGO_HOME").ok().filter(|it| !it.is_empty());
    let home = home.or_else(|| std::env::var("HOME").ok().map(|home| format!("{home}/.cargo")));
    flags.extend(home.map(|home| format!("--remap-path-prefix={home}=/cargo")));
    flags.join("\u{1f}")
}

/// Bytes of the built Rust part.
pub(crate) struct Weight {
    plain: usize,
    gzipped: usize,
}

impl Weight {
    /// Whether the page is as light as we promise.
    pub(crate) fn judge(&self) -> Outcome {
        if self.gzipped <= BUDGET_BYTES { Ok(()) } else { Err(format!("the page is too heavy: {self}")) }
    }
}

impl fmt::Display for Weight {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { plain, gzipped } = self;
        write!(f, "wasm: {plain} bytes, {gzipped} gzipped, {BUDGET_BYTES} allowed")
    }
}

/// Weighs the WebAssembly in `web/dist`.
pub(crate) fn weigh(project: &Project) -> Outcome<Weight> {
    let file = wasm_file(project)?;
    let bytes = fs::read(&file).map_err(|e| format!("{}: {e}", file.display()))?;
    let packed = miniz_oxide::deflate::compress_to_vec(&bytes, BEST_COMPRESSION);
    Ok(Weight { plain: bytes.len(), gzipped: packed.len() + GZIP_FRAME_BYTES })
}

fn wasm_file(project: &Project) -> Outcome<PathBuf> {
    let dist = project.dist();
    let files = publish::files(&dist)?;
    files
        .into_iter()
        .map(|file| dist.join(file))
        .find(|path| path.extension().is_some_and(|ending| ending == "wasm"))
        .ok_or_else(|| "web/dist holds no WebAssembly: the page was built without its Rust part".to_owned())
}
