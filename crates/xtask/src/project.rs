//! The project's folders: the repository, and the user's cache for tools that outlive a checkout.

use crate::process::Outcome;
use std::env;
use std::fs;
use std::path::{Path, PathBuf};

/// Where the repository and the cache are.
pub(crate) struct Project {
    root: PathBuf,
    cache: PathBuf,
}

impl Project {
    /// The repository this command was built from, and the cache folder of whoever runs it.
    pub(crate) fn find() -> Outcome<Self> {
        let crate_folder = folder_named_by("CARGO_MANIFEST_DIR").ok_or("run this as `cargo xtask`")?;
        let root = crate_folder.ancestors().nth(2).ok_or("the repository's folder was not found")?;
        let cache = folder_named_by("JOISTWISE_CACHE")
            .or_else(|| Some(folder_named_by("XDG_CACHE_HOME")?.join("joistwise")))
            .or_else(|| Some(folder_named_by("HOME")?.join(".cache/joistwise")))
            .ok_or("no folder for tools: set HOME or JOISTWISE_CACHE")?;
        let cache = std::path::absolute(&cache).map_err(|e| format!("{}: {e}", cache.display()))?;
        Ok(Self { root: root.to_path_buf(), cache })
    }

    /// The repository's top folder.
    pub(crate) fn root(&self) -> &Path {
        &self.root
    }

    /// The user's cache folder; it may not exist yet.
    pub(crate) fn cache(&self) -> &Path {
        &self.cache
    }

    /// The built page.
    pub(crate) fn dist(&self) -> PathBuf {
        self.root.join("web/dist")
    }

    /// The version of `name` in `Cargo.lock`: the tool that goes with a crate must be of the crate's very version.
    pub(crate) fn locked_version(&self, name: &str) -> Outcome<String> {
        let lock = self.root.join("Cargo.lock");
        let text = fs::read_to_string(&lock).map_err(|e| format!("{}: {e}", lock.display()))?;
        version_in_lock(&text, name).ok_or_else(|| format!("Cargo.lock does not hold {name}"))
    }
}

fn folder_named_by(variable: &str) -> Option<PathBuf> {
    env::var_os(variable).filter(|value| !value.is_empty()).map(PathBuf::from)
}

fn version_in_lock(text: &str, name: &str) -> Option<String> {
    let heading = format!("name = \"{name}\"");
    let mut lines = text.lines().skip_while(|line| *line != heading);
    let version = lines.nth(1)?.strip_prefix("version = \"")?;
    Some(version.trim_end_matches('"').to_owned())
}

#[cfg(test)]
mod tests {
    use super::version_in_lock;

    #[test]
    fn the_version_is_the_one_under_the_whole_name() {
        let lock = "[[package]]\nname = \"wasm-bindgen-macro\"\nversion = \"1.0.0\"\n\n\
                    [[package]]\nname = \"wasm-bindgen\"\nversion = \"0.2.130\"\n";
        assert_eq!(version_in_lock(lock, "wasm-bindgen").as_deref(), Some("0.2.130"));
        assert_eq!(version_in_lock(lock, "bindgen"), None);
    }
}
