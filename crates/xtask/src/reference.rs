//! Published figures computed again: every file of a folder through the core, cell by cell.
//!
//! What a file holds and how near is near enough is the core's to say; here the files are read and the outcome printed.

use crate::process::Outcome;
use joistwise_core::reference::{Count, Report, Row, check_file};
use std::fs;
use std::path::{Path, PathBuf};

/// The figures the project carries, from the top folder.
pub(crate) const FOLDER: &str = "fixtures/reference";

const SHOWN_OFF: usize = 40;
const SHOWN_NEAR: usize = 3;

/// Checks every file of `folder` and prints what came of each. The error says how many cells are out of tolerance, or
/// that there was nothing to check.
pub(crate) fn reference(folder: &Path) -> Outcome {
    let (mut cells, mut within) = (0, 0);
    for file in files(folder)? {
        let name = file.file_name().unwrap_or_default().to_string_lossy();
        let bytes = fs::read(&file).map_err(|e| format!("{}: {e}", file.display()))?;
        match check_file(&name, &String::from_utf8_lossy(&bytes)) {
            Some(report) => {
                print(&name, &report);
                cells += report.cells;
                within += report.within;
            }
            None => println!("{name}: no figures known to the core, left out"),
        }
    }
    if cells == 0 {
        return Err(format!("{} holds no figure to check", folder.display()));
    }
    println!("{within} of {cells} cells within tolerance");
    if within == cells { Ok(()) } else { Err(format!("{} of {cells} cells are out of tolerance", cells - within)) }
}

fn print(name: &str, report: &Report) {
    println!("{name}: {} of {} cells within tolerance", report.within, report.cells);
    let (near, off): (Vec<&Row>, Vec<&Row>) = report.worst.iter().partition(|row| row.within);
    for row in off.iter().take(SHOWN_OFF) {
        println!("  OUT OF TOLERANCE: {}", told(row));
    }
    if off.len() > SHOWN_OFF {
        println!("  and {} more out of tolerance", off.len() - SHOWN_OFF);
    }
    for row in near.iter().take(SHOWN_NEAR) {
        println!("  furthest within: {}", told(row));
    }
    for Count { sort, cells, agree } in &report.counts {
        println!("  {agree} of {cells} {sort}");
    }
    for (reason, count) in &report.skipped {
        println!("  not compared: {count}, {reason}");
    }
}

fn told(row: &Row) -> String {
    let Row { label, expected, got, difference, .. } = row;
    format!("{label}: expected {expected}, computed {got}, off by {difference:.1e} of what matters there")
}

/// The files of the folder by name, and after them those of its folders.
fn files(folder: &Path) -> Outcome<Vec<PathBuf>> {
    let entries = fs::read_dir(folder).map_err(|e| format!("{}: {e}", folder.display()))?;
    let mut found: Vec<PathBuf> = entries.flatten().map(|entry| entry.path()).collect();
    found.sort();
    let (folders, mut all): (Vec<PathBuf>, Vec<PathBuf>) = found.into_iter().partition(|path| path.is_dir());
    for folder in folders {
        all.extend(files(&folder)?);
    }
    Ok(all)
}
