//! The command `joistwise`: the same core on a house file.
//!
//! `joistwise trace HOUSE.json [--json]`; `-` reads the house from the standard input. Exit code 2 and one sentence for
//! anything that is no house.

use std::io::{Read as _, Write as _};
use std::process::ExitCode;
use std::{fs, io};

use joistwise_core::plan::{LoadError, Plan};
use joistwise_core::{report, trace};

const USAGE: &str = "usage: joistwise trace HOUSE.json [--json]   ('-' reads the standard input)";

/// Why nothing was traced.
#[derive(Debug, thiserror::Error)]
enum CommandError {
    #[error("{USAGE}")]
    Usage,
    #[error("cannot read {file}: {why}")]
    Unread { file: String, why: io::Error },
    #[error("{file}: {why}")]
    NotAHouse { file: String, why: LoadError },
    #[error("cannot print the trace: {0}")]
    Unprinted(#[from] serde_json::Error),
}

fn main() -> ExitCode {
    match run(std::env::args().skip(1).collect()) {
        Ok(text) => {
            // A reader that went away, as `head` does, is no failure of ours.
            let _ = io::stdout().write_all(text.as_bytes());
            ExitCode::SUCCESS
        }
        Err(error) => {
            eprintln!("joistwise: {error}");
            ExitCode::from(2)
        }
    }
}

fn run(mut words: Vec<String>) -> Result<String, CommandError> {
    let asked = words.len();
    words.retain(|word| word != "--json");
    let json = words.len() < asked;
    let [command, file] = words.as_slice() else { return Err(CommandError::Usage) };
    if command != "trace" {
        return Err(CommandError::Usage);
    }
    let text = read(file).map_err(|why| CommandError::Unread { file: file.clone(), why })?;
    let plan = Plan::from_json(&text).map_err(|why| CommandError::NotAHouse { file: file.clone(), why })?;
    let trace = trace::trace(&plan);
    if json { Ok(serde_json::to_string(&trace)? + "\n") } else { Ok(report::text(&plan, &trace)) }
}

fn read(file: &str) -> io::Result<String> {
    if file == "-" {
        let mut text = String::new();
        io::stdin().read_to_string(&mut text)?;
        return Ok(text);
    }
    fs::read_to_string(file)
}
