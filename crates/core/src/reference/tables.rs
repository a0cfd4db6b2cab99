//! Tables of the loads the core starts from: every default against the row it was taken from.
//!
//! Exact. Rows of loads that the core has no use for are counted, not compared.

use serde::Deserialize;

use super::{Report, numbers, rows};
use crate::footing::concrete;
use crate::loads::layers::{Layer, build_up, layer};
use crate::loads::workers::by_table;
use crate::loads::{Mark, Soil, Thing, deck_dead, live, roof_dead, roof_live, wall_dead};
use crate::plan::{Make, Side, Use};
use crate::units::{Inches, Pounds, Psf, SquareFeet, Ticks};

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
    unit: String,
    mark: String,
    source_id: String,
}

#[derive(Deserialize)]
struct SoilRow {
    material: String,
    presumptive_psf: String,
    mark: String,
}

#[derive(Deserialize)]
struct ThingRow {
    thing: String,
    weight: String,
    on_its_area: String,
    mark: String,
}

pub(super) fn live_loads(text: &str) -> Report {
    rows(text, |row: &LiveRow, report| {
        let default = match row.used_as.as_str() {
            "rooms other than sleeping rooms" | "ASCE 7 Table 4.3-1: all other areas except stairs" => {
                live(Use::Living)
            }
            "sleeping rooms" => live(Use::Sleeping),
            "habitable attic, or attic served by fixed stairs"
            | "ASCE 7 Table 4.3-1: habitable attics and sleeping areas" => live(Use::AtticRoom),
            "attic with limited storage" | "ASCE 7 Table 4.3-1: uninhabitable attic with storage" => {
                live(Use::AtticStorage)
            }
            "attic without storage" | "ASCE 7 Table 4.3-1, one and two family: uninhabitable attic without storage" => {
                live(Use::AtticBare)
            }
            "deck" => live(Use::Deck),
            "passenger vehicle garage" => live(Use::Garage),
            "roof, slope under 4 in 12" => roof_live(),
            "roof, IRC R301.6, flat to under 4 in 12" => return roof_steps(report, row, 3.9),
            "roof, IRC R301.6, 4 to under 12 in 12" => return roof_steps(report, row, 4.0),
            "roof, IRC R301.6, 12 in 12 and over" => return roof_steps(report, row, 12.0),
            _ => return report.skip(NO_USE, 1),
        };
        compare(report, &format!("{} ({})", row.used_as, row.mark), &row.uniform_psf, default.value);
    })
}

/// Three areas of one slope: 200, 600 and more square feet.
fn roof_steps(report: &mut Report, row: &LiveRow, rise_in_12: f64) {
    for (cell, area) in row.uniform_psf.split('/').zip([200.0, 600.0, 601.0]) {
        let got = by_table(SquareFeet(area), Inches(rise_in_12));
        compare(report, &format!("{}, {area} sq ft", row.used_as), cell.trim(), got.value);
        marked(report, &row.used_as, &row.mark, got.mark);
    }
}

pub(super) fn dead_loads(text: &str) -> Report {
    rows(text, |row: &DeadRow, report| {
        let label = format!("{} ({})", row.item, row.source_id);
        let stud = |side| wall_dead(side, Make::Stud, Ticks::from_inches(3.5).unwrap_or_default());
        let default = match row.item.as_str() {
            "roof: light frame, panel sheathing, 1/2 in gypsum ceiling, asphalt shingles" => Some(roof_dead()),
            "floor: 2x12 joists, 3/4 in panel, 1/2 in gypsum ceiling, carpet or vinyl" => Some(deck_dead(Use::Living)),
            "wall: 2x4, 1/2 in panel, 1/2 in gypsum, lap wood siding" => Some(stud(Side::Outside)),
            "interior partition: 2x4, 1/2 in gypsum both sides" => Some(stud(Side::Inside)),
            other => foundation(other)
                .map(|(inches, make)| wall_dead(Side::Outside, make, Ticks::from_inches(inches).unwrap_or_default())),
        };
        if let Some(default) = default {
            compare(report, &label, &row.value, default.value);
        }
        if let Some(layer) = layer(&row.item) {
            // Of a range the core takes the upper end.
            let cell = row.value.rsplit(' ').next().unwrap_or_default();
            compare(report, &format!("{label} as a layer"), cell, layer.psf);
            marked(report, &label, &row.mark, layer.mark);
        } else if row.source_id == "S-CALCREC" {
            let parts = parts(&row.item);
            compare(report, &format!("{label}, its {} parts together", parts.len()), &row.value, build_up(&parts));
        } else if row.item == "concrete" {
            let expected = row.value.parse().unwrap_or(f64::NAN);
            report.compare(|| format!("{label}, pcf"), (expected, concrete().value.0), expected, 0.0);
        } else if default.is_none() {
            report.skip(why_not(row), 1);
        }
    })
}

fn why_not(row: &DeadRow) -> &'static str {
    match row.unit.as_str() {
        "plf" => {
            "weight of a strip of concrete: the core leaves the weight of footings out, and this guide's is of 145 pcf"
        }
        "psf of wall" => "hollow masonry: the core takes masonry as solid, the heavier side",
        _ => NO_USE,
    }
}

/// "roof: shingles 3, sheathing 2": each part with what it weighs.
fn parts(item: &str) -> Vec<Layer<'_>> {
    let list = item.split_once(": ").map_or(item, |(_, list)| list);
    let part = |part| {
        let (what, psf) = str::rsplit_once(part, ' ')?;
        Some(Layer { key: what, what, psf: Psf(psf.parse().ok()?), source: "the row itself", mark: Mark::Seen })
    };
    list.split(", ").filter_map(part).collect()
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
        let soil = match row.material.split([',', ' ']).next().unwrap_or_default() {
            "crystalline" => Soil::Bedrock,
            "sedimentary" => Soil::FoliatedRock,
            "sandy" => Soil::Gravel,
            "sand" => Soil::Sand,
            "clay" => Soil::Clay,
            "mud" => Soil::Organic,
            "24" => return report.skip("a table for manufactured homes; the core takes the residential code's", 1),
            _ => return report.skip("an order to investigate, not a figure", 1),
        };
        match soil.presumptive() {
            Some(got) => {
                compare(report, &row.material, &row.presumptive_psf, got.value);
                marked(report, &row.material, &row.mark, got.mark);
            }
            None => report.agree(|| row.material.clone(), row.presumptive_psf.starts_with("none"), true),
        }
    })
}

pub(super) fn heavy_things(text: &str) -> Report {
    rows(text, |row: &ThingRow, report| {
        let thing = match row.thing.as_str() {
            "hot tub, 56 ft2, 420 gal, 6 to 7 people" => Thing::HotTub,
            "waterbed, queen, with frame and two people, 36 ft2" => Thing::Waterbed,
            "aquarium 125 gal, 48 by 24 in" => Thing::Aquarium,
            "grand piano" => Thing::GrandPiano,
            "refrigerator, filled, 9 ft2" => Thing::Refrigerator,
            "upright piano" => Thing::UprightPiano,
            "cast-iron tub, empty / filled with a person" => Thing::CastIronTub,
            "steel or acrylic tub filled with a person" => Thing::Tub,
            "kitchen island 3 by 6 ft with stone top" => Thing::KitchenIsland,
            "safe, filled bookcase, tile stove" => {
                let none = [Thing::Safe, Thing::Bookcase, Thing::MasonryStove].iter().all(|it| it.usual().is_none());
                return report.agree(|| format!("{}: no figure was read, none is given", row.thing), true, none);
            }
            _ => return report.skip("another size of a thing whose largest the core has", 1),
        };
        let Some(usual) = thing.usual() else { return report.agree(|| row.thing.clone(), true, false) };
        // Of a range the core takes the upper end.
        let expected = numbers(&row.weight).last().copied().unwrap_or(f64::NAN);
        report.compare(|| format!("{}, lb", row.thing), (expected, usual.value.0), expected, 0.0);
        marked(report, &row.thing, &row.mark, usual.mark);
        if let (Some(area), [psf], true) = (ground(&row.thing), &*numbers(&row.on_its_area), row.mark == "SEEN") {
            let got: Psf = Pounds(expected) / area;
            report.compare(|| format!("{} on its area, to the whole psf", row.thing), (*psf, got.0.round()), *psf, 0.0);
        }
    })
}

/// The ground that a row says a thing takes: "36 ft2", "48 by 24 in".
fn ground(thing: &str) -> Option<SquareFeet> {
    if let Some((before, _)) = thing.split_once(" ft2") {
        return before.rsplit(' ').next()?.parse().ok().map(SquareFeet);
    }
    let (before, after) = thing.split_once(" by ")?;
    let (a, b): (f64, f64) = (before.rsplit(' ').next()?.parse().ok()?, after.strip_suffix(" in")?.parse().ok()?);
    Some(SquareFeet(a * b / 144.0))
}

/// Whether a value of the core is as sure as its row.
fn marked(report: &mut Report, label: &str, cell: &str, mark: Mark) {
    let same = match mark {
        Mark::Seen => cell == "SEEN",
        Mark::Memory => cell == "MEMORY",
        Mark::Fitted => false,
    };
    report.agree(|| format!("{label}: marked as its row"), true, same);
}

/// A cell that is no number disagrees.
fn compare(report: &mut Report, label: &str, cell: &str, default: Psf) {
    let expected = cell.parse().unwrap_or(f64::NAN);
    report.compare(|| format!("{label}, psf"), (expected, default.0), expected, 0.0);
}
