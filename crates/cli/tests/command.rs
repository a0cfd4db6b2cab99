//! The real command on real files: what it prints and how it ends.

use std::io::Write as _;
use std::process::{Command, Output, Stdio};

const HOUSE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../fixtures/houses/s01-gable-ranch.json");

fn joistwise(words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_joistwise")).args(words).output().expect("it runs")
}

fn refused(output: &Output, sentence: &str) {
    let error = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{error}");
    assert!(error.contains(sentence), "{error}");
    assert_eq!(error.trim_end().lines().count(), 1, "{error}");
    assert!(output.stdout.is_empty());
}

#[test]
fn a_house_prints_its_roles_loads_and_ledger() {
    let output = joistwise(&["trace", HOUSE]);
    let text = String::from_utf8_lossy(&output.stdout);
    assert_eq!(output.status.code(), Some(0));
    for part in ["W1:", "[C] 0' 0\" to 28' 0\": carries ceiling", "fed 13' 0\" wide", "Path gaps: none", "it closes"] {
        assert!(text.contains(part), "no '{part}' in:\n{text}");
    }
}

#[test]
fn json_is_the_whole_trace() {
    let output = joistwise(&["trace", HOUSE, "--json"]);
    let trace: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(trace["ledger"]["gaps"]["dead"], 0.0);
    assert_eq!(trace["walls"].as_array().map(Vec::len), Some(10));
}

#[test]
fn the_standard_input_is_a_file_too() {
    let mut child = Command::new(env!("CARGO_BIN_EXE_joistwise"))
        .args(["trace", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::null())
        .stderr(Stdio::piped())
        .spawn()
        .expect("it runs");
    child.stdin.take().expect("piped").write_all(b"{\"format\":\"drawing\"}").expect("written");
    refused(&child.wait_with_output().expect("it ends"), "does not say that it is a house file");
}

#[test]
fn what_is_no_house_is_refused_with_one_sentence_and_exit_code_2() {
    refused(&joistwise(&["trace", "no-such-house.json"]), "cannot read no-such-house.json");
    refused(&joistwise(&["trace", concat!(env!("CARGO_MANIFEST_DIR"), "/Cargo.toml")]), "this is not a house file");
    refused(&joistwise(&["measure", HOUSE]), "usage: joistwise trace");
    refused(&joistwise(&[]), "usage: joistwise trace");
}
