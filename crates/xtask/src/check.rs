//! Every check of the project, cheapest first; the first that fails ends it.

use crate::process::{Outcome, now, run};
use crate::project::Project;
use crate::{browser, page, reference, supply, tools};
use std::process::Command;

/// How much is checked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Extent {
    Everything,
    WithoutBrowser,
}

struct Step {
    name: &'static str,
    /// How long it usually takes on two cores when little changed; the first time compiles everything.
    usually: &'static str,
    check: fn(&Project) -> Outcome,
}

const STEPS: [Step; 7] = [
    Step { name: "format", usually: "1 s", check: format },
    Step { name: "lints", usually: "15 s, a minute at first", check: lints },
    Step { name: "lints for the browser", usually: "10 s, half a minute at first", check: lints_for_wasm },
    Step { name: "tests", usually: "30 s, two minutes at first", check: tests },
    Step { name: "documentation", usually: "10 s", check: documentation },
    Step { name: "licences and sources", usually: "1 s", check: supply::check },
    Step { name: "published figures", usually: "2 s", check: published_figures },
];

const STEPS_WITH_BROWSER: [Step; 2] = [
    Step { name: "page", usually: "a minute, seven at first", check: page },
    Step { name: "browser tests", usually: "six minutes", check: browser_tests },
];

/// Runs the checks in order. The error names the step that failed.
pub(crate) fn check(project: &Project, extent: Extent) -> Outcome {
    let started = now();
    let steps: Vec<&Step> = match extent {
        Extent::Everything => STEPS.iter().chain(&STEPS_WITH_BROWSER).collect(),
        Extent::WithoutBrowser => STEPS.iter().collect(),
    };
    let count = steps.len();
    for (number, step) in (1..).zip(steps) {
        println!("\n[{number}/{count}] {} (usually {})", step.name, step.usually);
        let began = now();
        (step.check)(project).map_err(|why| format!("check {number} of {count}, {}: {why}", step.name))?;
        println!("[{number}/{count}] {}: passed in {:.1} s", step.name, began.elapsed().as_secs_f64());
    }
    let seconds = started.elapsed().as_secs_f64();
    match extent {
        Extent::Everything => println!("\nall {count} checks passed in {seconds:.0} s"),
        Extent::WithoutBrowser => {
            println!("\n{count} checks passed in {seconds:.0} s; left out by --quick: page, browser tests");
        }
    }
    Ok(())
}

fn cargo(project: &Project, arguments: &[&str]) -> Command {
    let mut cargo = Command::new("cargo");
    cargo.current_dir(project.root()).args(arguments);
    cargo
}

fn format(project: &Project) -> Outcome {
    tools::components(project)?;
    run(&mut cargo(project, &["fmt", "--all", "--check"]))
}

fn lints(project: &Project) -> Outcome {
    run(&mut cargo(project, &["clippy", "--quiet", "--workspace", "--all-targets", "--", "-D", "warnings"]))
}

fn lints_for_wasm(project: &Project) -> Outcome {
    tools::wasm_target(project)?;
    let packages = ["clippy", "--quiet", "-p", "joistwise-core", "-p", "joistwise-wasm"];
    run(cargo(project, &packages).args(["--target", tools::TARGET, "--", "-D", "warnings"]))
}

fn tests(project: &Project) -> Outcome {
    run(&mut cargo(project, &["test", "--workspace"]))
}

fn documentation(project: &Project) -> Outcome {
    run(cargo(project, &["doc", "--quiet", "--workspace", "--no-deps"]).env("RUSTDOCFLAGS", "-D warnings"))
}

fn published_figures(project: &Project) -> Outcome {
    reference::reference(&project.root().join(reference::FOLDER))
}

fn page(project: &Project) -> Outcome {
    let tools = tools::set_up(project)?;
    page::build(project, &tools, page::Profile::Release)?;
    let weight = page::weigh(project)?;
    println!("{weight}");
    weight.judge()
}

fn browser_tests(project: &Project) -> Outcome {
    let chromium = browser::set_up(project)?;
    browser::test(project, &chromium)
}
