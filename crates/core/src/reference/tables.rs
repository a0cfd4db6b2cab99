//! Tables of the loads the core starts from: every default against the row it was taken from.
//!
//! Exact. Rows of loads that the core has no use for are counted, not compared.

use serde::Deserialize;

use super::Report;
use crate::loads::{deck_dead, live, roof_dead, roof_live, soil_usual, wall_dead};
use crate::plan::{Make, Side, Use};
use crate::units::{Psf, Ticks};

const NO_USE: &str = "a load the core has no default for";

#[derive(Deserialize)]
struct LiveRow {
    #[serde(rename = "use")]
    used_as: String,
    uniform_psf: String,
    mark: String,
}

#[derive(Deserialize)]
struct DeadRow {
    item: String,
    value: String,
    source_id: String,
}

#[derive(Deserialize)]
struct SoilRow {
    material: String,
    presumptive_psf: String,
}

pub(super) fn live_loads(text: &str) -> Report {
    rows(text, |row: &LiveRow, report| {
        let default = match row.used_as.as_str() {
            "rooms other than sleeping rooms" => live(Use::Living),
            "sleeping rooms" => live(Use::Sleeping),
            "habitable attic, or attic served by fixed stairs" => live(Use::AtticRoom),
            "attic with limited storage" => live(Use::AtticStorage),
            "attic without storage" => live(Use::AtticBare),
            "deck" => live(Use::Deck),
            "passenger vehicle garage" => live(Use::Garage),
            "roof, slope under 4 in 12" => roof_live(),
            _ => return report.skip(NO_USE, 1),
        };
        compare(report, &format!("{} ({})", row.used_as, row.mark), &row.uniform_psf, default.value);
    })
}

pub(super) fn dead_loads(text: &str) -> Report {
    rows(text, |row: &DeadRow, report| {
        let stud = |side| wall_dead(side, Make::Stud, Ticks::from_inches(3.5).unwrap_or_default());
        let default = match row.item.as_str() {
            "roof: light frame, panel sheathing, 1/2 in gypsum ceiling, asphalt shingles" => roof_dead(),
            "floor: 2x12 joists, 3/4 in panel, 1/2 in gypsum ceiling, carpet or vinyl" => deck_dead(Use::Living),
            "wall: 2x4, 1/2 in panel, 1/2 in gypsum, lap wood siding" => stud(Side::Outside),
            "interior partition: 2x4, 1/2 in gypsum both sides" => stud(Side::Inside),
            other => {
                let Some((inches, make)) = foundation(other) else { return report.skip(NO_USE, 1) };
                wall_dead(Side::Outside, make, Ticks::from_inches(inches).unwrap_or_default())
            }
        };
        compare(report, &format!("{} ({})", row.item, row.source_id), &row.value, default.value);
    })
}

/// `foundation wall 8 in, concrete`: thickness and make, where the core tells them apart.
fn foundation(item: &str) -> Option<(f64, Make)> {
    let (thickness, made) = item.strip_prefix("foundation wall ")?.split_once(" in, ")?;
    let make = match made {
        "concrete" => Make::Concrete,
        "solid or fully grouted masonry" => Make::Masonry,
        _ => return None,
    };
    Some((thickness.parse().ok()?, make))
}

pub(super) fn soil_bearing(text: &str) -> Report {
    rows(text, |row: &SoilRow, report| {
        if row.material.starts_with("clay, sandy clay") {
            compare(report, &row.material, &row.presumptive_psf, soil_usual().value);
        } else {
            report.skip("a soil that is only taken when the plan states its bearing", 1);
        }
    })
}

fn rows<Row: for<'row> Deserialize<'row>>(text: &str, check: impl Fn(&Row, &mut Report)) -> Report {
    let mut report = Report::default();
    for row in csv::Reader::from_reader(text.as_bytes()).deserialize() {
        match row {
            Ok(row) => check(&row, &mut report),
            Err(error) => report.skip(&format!("a row that could not be read: {error}"), 1),
        }
    }
    report
}

/// A cell that is no number disagrees.
fn compare(report: &mut Report, label: &str, cell: &str, default: Psf) {
    let expected = cell.parse().unwrap_or(f64::NAN);
    report.compare(|| format!("{label}, psf"), (expected, default.0), expected, 0.0);
}
