//! A version of the page: all its files in a folder that is named after what is in them, and one list with the hash of each.
//!
//! A site that was copied half way mixes no versions: what `index.html` names is of one, or it is not there. The worker
//! checks each file against the list before it keeps any.

use crate::process::Outcome;
use serde_json::json;
use sha2::{Digest as _, Sha256};
use std::fs;
use std::path::{Path, PathBuf};

/// What stays at the top: the address of the page and of its worker never change.
const AT_THE_TOP: [&str; 2] = ["index.html", "sw.js"];
/// The list of the files of a version.
const LIST: &str = "files.json";
/// How much of a hash is enough for a name.
const NAME_LENGTH: usize = 16;

/// Puts what was built into `dist` under the name of its version, and writes the list.
pub(crate) fn publish(dist: &Path) -> Outcome {
    let names = files(dist)?;
    let version = name_of(dist, &names)?;
    let page = dist.join("index.html");
    let mut html = String::from_utf8(read(&page)?).map_err(|e| format!("{}: {e}", page.display()))?;
    let mut list = Vec::new();
    for name in names.iter().filter(|name| !AT_THE_TOP.contains(&name.as_str())) {
        let moved = format!("{version}/{name}");
        place(&dist.join(name), &dist.join(&moved))?;
        html = html.replace(&format!("\"{name}\""), &format!("\"{moved}\""));
        html = html.replace(&format!("./{name}"), &format!("./{moved}"));
        list.push(entry(&moved, &read(&dist.join(&moved))?));
    }
    write(&page, html.as_bytes())?;
    list.push(entry("./", html.as_bytes()));
    remove_empty(dist)?;
    let list = json!({ "version": version, "files": list });
    write(&dist.join(LIST), format!("{list:#}\n").as_bytes())
}

fn entry(path: &str, bytes: &[u8]) -> serde_json::Value {
    json!({ "path": path, "sha256": hex(&Sha256::digest(bytes)), "bytes": bytes.len() })
}

/// The name of a version: a hash of the names and bytes of all its files.
fn name_of(dist: &Path, names: &[String]) -> Outcome<String> {
    let mut hash = Sha256::new();
    for name in names {
        let bytes = read(&dist.join(name))?;
        hash.update(name);
        hash.update([0]);
        hash.update(Sha256::digest(bytes));
    }
    Ok(hex(&hash.finalize()).chars().take(NAME_LENGTH).collect())
}

/// The files under a folder, as paths below it with `/`, in order; what is hidden is left out.
pub(crate) fn files(folder: &Path) -> Outcome<Vec<String>> {
    let mut found = Vec::new();
    collect(folder, "", &mut found)?;
    found.sort();
    Ok(found)
}

fn collect(folder: &Path, under: &str, found: &mut Vec<String>) -> Outcome {
    let entries = fs::read_dir(folder).map_err(|e| format!("{}: {e}", folder.display()))?;
    for path in entries.flatten().map(|entry| entry.path()) {
        let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        if name.starts_with('.') {
            continue;
        }
        if path.is_dir() {
            collect(&path, &format!("{under}{name}/"), found)?;
        } else {
            found.push(format!("{under}{name}"));
        }
    }
    Ok(())
}

/// Removes the folders that were emptied.
fn remove_empty(folder: &Path) -> Outcome {
    let entries = fs::read_dir(folder).map_err(|e| format!("{}: {e}", folder.display()))?;
    let folders: Vec<PathBuf> = entries.flatten().map(|entry| entry.path()).filter(|path| path.is_dir()).collect();
    for folder in folders {
        remove_empty(&folder)?;
        // One that still holds something stays.
        let _ = fs::remove_dir(folder);
    }
    Ok(())
}

fn place(from: &Path, to: &Path) -> Outcome {
    make_room(to)?;
    fs::rename(from, to).map_err(|e| format!("{}: {e}", from.display()))
}

fn write(to: &Path, bytes: &[u8]) -> Outcome {
    make_room(to)?;
    fs::write(to, bytes).map_err(|e| format!("{}: {e}", to.display()))
}

fn make_room(file: &Path) -> Outcome {
    let folder = file.parent().unwrap_or(file);
    fs::create_dir_all(folder).map_err(|e| format!("{}: {e}", folder.display()))
}

fn read(file: &Path) -> Outcome<Vec<u8>> {
    fs::read(file).map_err(|e| format!("{}: {e}", file.display()))
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::{files, publish};
    use std::fs;
    use std::path::PathBuf;

    fn site(name: &str, script: &str) -> PathBuf {
        let folder = std::env::temp_dir().join(format!("joistwise-publish-{}-{name}", std::process::id()));
        let _ = fs::remove_dir_all(&folder);
        for (file, text) in [
            ("dist/index.html", "<link href=\"panels/a.js\"><meta content=\"./glue.js ./code.wasm\">"),
            ("dist/sw.js", "worker"),
            ("dist/panels/a.js", script),
            ("dist/glue.js", "glue"),
            ("dist/code.wasm", "code"),
        ] {
            let path = folder.join(file);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, text).unwrap();
        }
        publish(&folder.join("dist")).unwrap();
        folder.join("dist")
    }

    #[test]
    fn a_version_is_a_folder_named_after_its_bytes_and_one_list() {
        let dist = site("one", "1");
        let list: serde_json::Value = serde_json::from_slice(&fs::read(dist.join("files.json")).unwrap()).unwrap();
        let version = list["version"].as_str().unwrap().to_owned();
        let html = fs::read_to_string(dist.join("index.html")).unwrap();
        assert_eq!(
            html,
            format!(
                "<link href=\"{version}/panels/a.js\"><meta content=\"./{version}/glue.js ./{version}/code.wasm\">"
            )
        );
        let named: Vec<&str> =
            list["files"].as_array().unwrap().iter().filter_map(|file| file["path"].as_str()).collect();
        for file in
            files(&dist).unwrap().iter().filter(|file| !["index.html", "sw.js", "files.json"].contains(&&***file))
        {
            assert!(named.contains(&file.as_str()), "{file} is not in the list");
            assert!(file.starts_with(&version), "{file} is outside of its version");
        }
        assert_eq!(named.len(), 4);
        assert!(named.contains(&"./"));
        let again = site("again", "1");
        assert_eq!(files(&again).unwrap(), files(&dist).unwrap(), "the same bytes have the same name");
        assert_ne!(files(&site("other", "2")).unwrap(), files(&dist).unwrap(), "other bytes have another name");
    }
}
