//! `cargo xtask`: one command to look at the page, one to check everything.
//!
//! Sets the machine up by itself where something is missing. Knows nothing of houses: what is checked lives in the
//! crates and in `tests`.

mod browser;
mod check;
mod page;
mod process;
mod project;
mod publish;
mod reference;
mod serve;
mod site;
mod supply;
mod tools;

use process::Outcome;
use project::Project;
use std::path::Path;
use std::process::ExitCode;

const HELP: &str = "\
cargo xtask serve [--port N] [--no-open] [--debug]
    Builds the page and serves it on this machine only; builds again when a file changes.
cargo xtask test [--quick]
    Runs every check, cheapest first. --quick leaves out the page and the browser.
cargo xtask reference [FOLDER]
    Computes every published figure in FOLDER (fixtures/reference) again and compares.
cargo xtask supply
    Checks licences and sources of every package that is used.
cargo xtask build [--debug]
    Builds the page into web/dist.
What a fresh machine lacks is fetched or compiled first, once (about 6 minutes), into a cache folder:
JOISTWISE_CACHE, else XDG_CACHE_HOME/joistwise, else ~/.cache/joistwise.";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match obey(&words) {
        Ok(()) => ExitCode::SUCCESS,
        Err(sentence) => {
            eprintln!("error: {sentence}");
            ExitCode::FAILURE
        }
    }
}

fn obey(words: &[&str]) -> Outcome {
    match words {
        ["serve", rest @ ..] => serve::serve(&Project::find()?, &serve::Wishes::read(rest)?),
        ["test"] => check::check(&Project::find()?, check::Extent::Everything),
        ["test", "--quick"] => check::check(&Project::find()?, check::Extent::WithoutBrowser),
        ["reference"] => reference::reference(&Project::find()?.root().join(reference::FOLDER)),
        ["reference", folder] => reference::reference(Path::new(folder)),
        ["supply"] => supply::check(&Project::find()?),
        ["build"] => build(page::Profile::Release),
        ["build", "--debug"] => build(page::Profile::Debug),
        ["help" | "--help" | "-h"] => {
            println!("{HELP}");
            Ok(())
        }
        _ => Err(format!("no such command: `cargo xtask {}`\n\n{HELP}", words.join(" "))),
    }
}

fn build(profile: page::Profile) -> Outcome {
    let project = Project::find()?;
    let tools = tools::set_up(&project)?;
    page::build(&project, &tools, profile)?;
    println!("{}", page::weigh(&project)?);
    Ok(())
}
