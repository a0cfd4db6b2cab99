//! Child processes: run one, ask one, find one, and say in one line what failed.
//!
//! None of them gets our standard input: a check never waits for a person.

use std::env;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, ExitStatus, Stdio};
use std::thread;
use std::time::{Duration, Instant};

/// What came of a step. The error is a sentence for the person at the terminal.
pub(crate) type Outcome<T = ()> = Result<T, String>;

const POLL: Duration = Duration::from_millis(50);

/// Runs `command` to its end; what it prints goes to the terminal.
pub(crate) fn run(command: &mut Command) -> Outcome {
    let status = start(command)?.wait().map_err(|e| format!("{}: {e}", spelled(command)))?;
    judge(command, status)
}

/// Like [`run`], but gives up after `limit` and ends the process.
pub(crate) fn run_within(limit: Duration, command: &mut Command) -> Outcome {
    let mut child = start(command)?;
    let started = now();
    loop {
        match child.try_wait().map_err(|e| format!("{}: {e}", spelled(command)))? {
            Some(status) => return judge(command, status),
            None if started.elapsed() > limit => {
                // It may have ended just now: then there is nothing left to end.
                let _ = child.kill();
                let _ = child.wait();
                return Err(format!("{} took longer than {} s and was ended", spelled(command), limit.as_secs()));
            }
            None => thread::sleep(POLL),
        }
    }
}

/// What `command` prints, trimmed; `None` when it is not there or fails.
pub(crate) fn ask(command: &mut Command) -> Option<String> {
    let output = command.stdin(Stdio::null()).stderr(Stdio::null()).output().ok()?;
    output.status.success().then(|| String::from_utf8_lossy(&output.stdout).trim().to_owned())
}

/// The first file on the PATH that bears one of `names`, names before folders.
pub(crate) fn on_path(names: &[&str]) -> Option<PathBuf> {
    let path = env::var_os("PATH")?;
    names.iter().find_map(|name| env::split_paths(&path).map(|folder| folder.join(name)).find(|file| file.is_file()))
}

/// The clock, for time limits and for telling how long a step took.
#[expect(clippy::disallowed_methods, reason = "the ban is for the core; a step's duration needs a clock")]
pub(crate) fn now() -> Instant {
    Instant::now()
}

fn start(command: &mut Command) -> Outcome<Child> {
    command.stdin(Stdio::null()).spawn().map_err(|e| format!("{} did not start: {e}", spelled(command)))
}

fn judge(command: &Command, status: ExitStatus) -> Outcome {
    if status.success() { Ok(()) } else { Err(format!("{} failed ({status})", spelled(command))) }
}

/// The command as one would type it, without the folder of the program.
fn spelled(command: &Command) -> String {
    let program = Path::new(command.get_program()).file_name().unwrap_or(command.get_program());
    let words: Vec<_> = std::iter::once(program).chain(command.get_args()).map(OsStr::to_string_lossy).collect();
    format!("`{}`", words.join(" "))
}
