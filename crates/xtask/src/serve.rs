//! The page on this machine: built, served, opened, and built again when one of its files changes.

use crate::page::{self, Profile};
use crate::process::{Outcome, on_path};
use crate::project::Project;
use crate::{site, tools};
use std::env;
use std::fs;
use std::net::{Ipv4Addr, TcpListener};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::thread;
use std::time::{Duration, SystemTime};

const FIRST_PORT: u16 = 8417;
const LAST_PORT: u16 = 8466;
const LOOK_AGAIN: Duration = Duration::from_millis(500);

/// What the person asked for.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Wishes {
    port: Option<u16>,
    opening: Opening,
    profile: Profile,
}

#[derive(Debug, PartialEq, Eq)]
enum Opening {
    InTheBrowser,
    AddressOnly,
}

impl Wishes {
    /// Reads what follows `serve`.
    pub(crate) fn read(words: &[&str]) -> Outcome<Self> {
        let mut wishes = Self { port: None, opening: Opening::InTheBrowser, profile: Profile::Release };
        let mut words = words.iter();
        while let Some(word) = words.next() {
            match *word {
                "--port" => {
                    let port = words.next().and_then(|number| number.parse().ok());
                    wishes.port = Some(port.ok_or("--port wants a number up to 65535 after it")?);
                }
                "--no-open" => wishes.opening = Opening::AddressOnly,
                "--debug" => wishes.profile = Profile::Debug,
                other => return Err(format!("serve does not know {other}: it takes --port N, --no-open, --debug")),
            }
        }
        Ok(wishes)
    }
}

/// Builds the page, serves it until interrupted, and builds again on every change of its sources.
pub(crate) fn serve(project: &Project, wishes: &Wishes) -> Outcome {
    let listener = listen(wishes.port)?;
    let address = listener.local_addr().map_err(|e| format!("no address to serve on: {e}"))?;
    let tools = tools::set_up(project)?;
    match wishes.profile {
        Profile::Release => println!("building the page (usually a minute at first, 10 s when little changed)"),
        Profile::Debug => println!("building the page, unoptimised (usually a minute at first, then 2 s)"),
    }
    let mut built_from = newest(project);
    page::build(project, &tools, wishes.profile)?;
    site::serve(listener, project.dist());
    println!("Joistwise is at http://{address}/ (Ctrl-C ends it)");
    if wishes.opening == Opening::InTheBrowser {
        open(&format!("http://{address}/"));
    }
    loop {
        thread::sleep(LOOK_AGAIN);
        let now = newest(project);
        if now > built_from {
            built_from = now;
            println!("a file changed: building again");
            match page::build(project, &tools, wishes.profile) {
                Ok(()) => println!("built: load the page again"),
                Err(sentence) => eprintln!("error: {sentence}; the page before stays"),
            }
        }
    }
}

/// The port asked for, or the first free one from [`FIRST_PORT`] on.
fn listen(port: Option<u16>) -> Outcome<TcpListener> {
    let on = |port| TcpListener::bind((Ipv4Addr::LOCALHOST, port));
    match port {
        Some(port) => on(port).map_err(|e| format!("port {port}: {e}")),
        None => (FIRST_PORT..=LAST_PORT)
            .find_map(|port| on(port).ok())
            .ok_or_else(|| format!("no port from {FIRST_PORT} to {LAST_PORT} is free: name one with --port")),
    }
}

/// When the newest source of the page was written.
fn newest(project: &Project) -> Option<SystemTime> {
    ["web", "crates/core/src", "crates/wasm/src"]
        .iter()
        .filter_map(|folder| newest_in(&project.root().join(folder), &project.dist()))
        .max()
}

fn newest_in(folder: &Path, except: &Path) -> Option<SystemTime> {
    let entries = fs::read_dir(folder).ok()?.flatten().map(|entry| entry.path());
    entries.filter(|path| path != except && !is_hidden(path)).filter_map(|path| written(path, except)).max()
}

fn written(path: PathBuf, except: &Path) -> Option<SystemTime> {
    if path.is_dir() { newest_in(&path, except) } else { fs::metadata(path).ok()?.modified().ok() }
}

/// Editors and trunk keep passing files under such names.
fn is_hidden(path: &Path) -> bool {
    path.file_name().is_some_and(|name| name.to_string_lossy().starts_with('.'))
}

/// Shows the address in the person's browser, where there is a screen and a way to ask for it. The address was printed,
/// so nothing is lost otherwise.
fn open(address: &str) {
    let screen = cfg!(target_os = "macos") || ["DISPLAY", "WAYLAND_DISPLAY"].iter().any(|v| env::var_os(v).is_some());
    let opener = if cfg!(target_os = "macos") { on_path(&["open"]) } else { on_path(&["xdg-open"]) };
    if let (true, Some(opener)) = (screen, opener) {
        let mut command = Command::new(opener);
        command.arg(address).stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
        if let Err(e) = command.spawn() {
            println!("the browser did not open ({e}): copy the address into it");
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{Opening, Wishes, listen};
    use crate::page::Profile;

    #[test]
    fn words_after_serve_are_read_in_any_order() {
        let plain = Wishes { port: None, opening: Opening::InTheBrowser, profile: Profile::Release };
        assert_eq!(Wishes::read(&[]), Ok(plain));
        let all = Wishes { port: Some(9000), opening: Opening::AddressOnly, profile: Profile::Debug };
        assert_eq!(Wishes::read(&["--debug", "--port", "9000", "--no-open"]), Ok(all));
        assert!(Wishes::read(&["--port"]).is_err());
        assert!(Wishes::read(&["--port", "70000"]).is_err());
        assert!(Wishes::read(&["--open"]).is_err());
    }

    #[test]
    fn a_port_in_use_is_refused_when_named_and_passed_over_when_not() {
        let first = listen(None).unwrap();
        let taken = first.local_addr().unwrap().port();
        assert!(listen(Some(taken)).is_err());
        assert_ne!(listen(None).unwrap().local_addr().unwrap().port(), taken);
    }
}
