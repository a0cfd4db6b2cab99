//! Tables of rules: footings, heel joints, combinations, and the limits of the load path that the core knows by number.
//!
//! A rule is read from its row and put beside what the core does, not beside a copy of the row. Rules for the eye, and those
//! about what the core does not compute, are counted with the reason.

use serde::Deserialize;

use super::{Report, numbers, rows};
use crate::footing::{
    LEAST_PROJECTION, LEAST_STRIP, LEAST_THICKNESS, OldWall, old_strip_load, pier, spread_by_slab, strip, thickness,
};
use crate::loads::workers::{r1, r2, reduced};
use crate::loads::{ByKind, Combination, Site, SnowEdition, Surface, snow};
use crate::members::bearing::{END_GRAIN, LEAST_ON_MASONRY, LEAST_ON_WOOD, LITTLE_CRUSHING, area_factor};
use crate::members::column::{GLUED, Joined, MOST_SLENDER, MOST_SLENDER_WHILE_BUILDING, SAWN, buckling_stress};
use crate::members::notch::cuts;
use crate::plan::Roof;
use crate::statics::{Load, Piece};
use crate::thrust::heel_nails;
use crate::units::{Degrees, Feet, Inches, Plf, Pounds, Psf, Psi, SquareFeet};

/// What sums round in figures near 1.
const ROUNDING: f64 = 1e-12;

#[derive(Deserialize)]
struct FootingRow {
    kind: String,
    case: String,
    load_lb_or_implied_plf: f64,
    soil_psf: f64,
    size: f64,
}

pub(super) fn footings(text: &str) -> Report {
    rows(text, |row: &FootingRow, report| {
        let soil = Psf(row.soil_psf);
        let label = || format!("{} {} on {} psf", row.kind, row.case, row.soil_psf);
        if row.kind == "pier" {
            let got = pier(Pounds(row.load_lb_or_implied_plf), soil);
            return report.compare(|| format!("{}, in2", label()), (row.size, got.0), row.size, 0.0);
        }
        let storeys = numbers(&row.case).last().copied().unwrap_or_default();
        let wall = match row.case.split(' ').next().unwrap_or_default() {
            "frame" => OldWall::Frame,
            "brick" => OldWall::VeneerOrHollow,
            _ => OldWall::Solid,
        };
        let load = [1, 2, 3].into_iter().find(|count| (f64::from(*count) - storeys).abs() < 0.5);
        let width = load.and_then(|count| old_strip_load(wall, count)).map(|load| strip(load.value, soil));
        report.compare(|| format!("{}, in", label()), (row.size, width.map_or(f64::NAN, |it| it.0)), row.size, 0.0);
    })
}

#[derive(Deserialize)]
struct HeelRow {
    slope_in_12: f64,
    spacing_in: f64,
    ground_snow_psf: f64,
    span_ft: f64,
    nails_16d_common: f64,
    by_formula: Option<f64>,
    note: String,
}

/// The rule was fitted to the recalled cells: a cell that it misses is marked unconfirmed and compared with nothing.
pub(super) fn heel_joints(text: &str) -> Report {
    rows(text, |row: &HeelRow, report| {
        let HeelRow { slope_in_12: slope, spacing_in: spacing, ground_snow_psf: snow, span_ft: span, .. } = *row;
        let nails = heel_nails(Psf(snow), Feet(span), Inches(slope), Inches(spacing));
        let got = nails.map_or(f64::NAN, |it| f64::from(it.value));
        let label = |what| format!("{slope} in 12, {spacing} in, {snow} psf, {span} ft: {what}");
        if let Some(rule) = row.by_formula {
            report.compare(|| label("nails by the fitted rule"), (rule, got), rule, 0.0);
        }
        if row.note.contains("unconfirmed") {
            report.skip("a recalled cell marked unconfirmed", 1);
        } else {
            let cell = row.nails_16d_common;
            report.compare(|| label("nails as recalled"), (cell, got), cell, 0.0);
        }
    })
}

#[derive(Deserialize)]
struct RoofRow {
    key: String,
    rule: String,
}

pub(super) fn combinations(text: &str) -> Report {
    rows(text, |row: &RoofRow, report| {
        let given = numbers(&row.rule);
        let mut same = |what: &str, expected: f64, got: f64| {
            report.compare(|| format!("{}: {what}", row.key), (expected, got), expected, ROUNDING);
        };
        let old = Site { snow_edition: SnowEdition::UpTo2016, ..Site::default() };
        match (row.key.as_str(), given.as_slice()) {
            ("C1", _) => factors(&mut same, &row.rule, &[Combination::Dead], &old),
            ("C2", _) => factors(&mut same, &row.rule, &[Combination::DeadLive], &old),
            ("C3", _) => factors(&mut same, &row.rule, &[Combination::DeadRoofLive, Combination::DeadSnow], &old),
            ("C4", _) => {
                factors(&mut same, &row.rule, &[Combination::DeadLiveRoofLive, Combination::DeadLiveSnow], &old);
            }
            ("N1", _) => {
                // The combinations stand between the first colon and the semicolon that ends the second of them.
                let (_, rules) = row.rule.split_once("take 0.7 S: ").unwrap_or_default();
                let new = Site { snow_edition: SnowEdition::From2022, ..Site::default() };
                for (rule, which) in rules.split("; ").zip([Combination::DeadSnow, Combination::DeadLiveSnow]) {
                    factors(&mut same, rule, &[which], &new);
                }
                let site = Site { ground_snow: Some(Psf(10.0)), importance: Some(1.2), ..new };
                same("0.7 Ce Ct pg without Is, of 10 psf", 7.0, site.flat_roof_snow().0);
            }
            ("R1", [flat]) => same("of 10 psf", flat * 10.0, snow::flat(Psf(10.0), 1.0, 1.0, 1.0).0),
            ("R2", [.., none]) => {
                same("nothing left at that angle", 1.0, 1.0 - snow::slope_factor(Degrees(*none), 1.0, Surface::Rough));
            }
            ("R3", [_, a, b, c, ct_a, ct_b, ct_c, _, none]) => {
                for (whole, ct) in [(a, ct_a), (b, ct_b), (c, ct_c)] {
                    let half_way = Degrees((whole + none) / 2.0);
                    same("Cs half way", 0.5, snow::slope_factor(half_way, *ct, Surface::Rough));
                }
            }
            ("R4", [a, b, c]) => {
                for (whole, ct) in [(a, 1.0), (b, 1.1), (c, 1.2)] {
                    let half_way = Degrees((whole + 70.0) / 2.0);
                    same("Cs half way, slippery", 0.5, snow::slope_factor(half_way, ct, Surface::Slippery));
                }
            }
            ("R7", [whole, least, most, a, per_area, small, large, b, per_rise, low, steep, _]) => {
                same("Lr of a small flat roof", *whole, reduced(SquareFeet(0.0), Inches(0.0)).0);
                same("at the most", *most, reduced(SquareFeet(0.0), Inches(0.0)).0);
                same("at the least", *least, reduced(SquareFeet(1e6), Inches(24.0)).0);
                for area in [*small, (small + large) / 2.0, *large] {
                    same("R1", a - per_area * area, r1(SquareFeet(area)));
                }
                for rise in [*low, (low + steep) / 2.0, *steep] {
                    same("R2", b - per_rise * rise, r2(Inches(rise)));
                }
            }
            ("R8", [least, _]) => {
                same("the least, much ground snow", *least, snow::least_on_low_slopes(Psf(60.0), 1.0).0);
            }
            (key, _) => report.skip(why_not(key), 1),
        }
    })
}

fn why_not(key: &str) -> &'static str {
    match key {
        "C5" | "C6" | "C7" | "C8" => "wind and earthquake are outside the trace",
        "N2" => "an attic without storage counts together with floors, the heavier side",
        "N3" => "no live load is reduced for area: nothing to compare",
        "R5" | "R6" => "Ct and Ce are the house's to state",
        _ => "a rule the core does not read",
    }
}

/// "D + 0.75 L + 0.75 (Lr or S or R)" beside the factors of the combinations that take one of its kinds at a time.
fn factors(same: &mut impl FnMut(&str, f64, f64), rule: &str, which: &[Combination], site: &Site) {
    for combination in which {
        let got = combination.factors(site);
        let (takes_roof, takes_snow) = (got.roof_live > 0.0, got.snow > 0.0);
        let mut read = ByKind::<f64>::default();
        for term in rule.split(" + ") {
            let (factor, kinds) = leading(term.trim_start_matches('('));
            let kinds = kinds.trim_matches(['(', ')', ' ']);
            for kind in kinds.split(" or ") {
                let (own, kind) = leading(kind);
                match kind {
                    "D" => read.dead = factor * own,
                    "L" => read.floor = factor * own,
                    "Lr" if takes_roof => read.roof_live = factor * own,
                    "S" if takes_snow => read.snow = factor * own,
                    _ => {}
                }
            }
        }
        same("D", read.dead, got.dead);
        for (kind, read, got) in
            [("L", read.floor, got.floor), ("Lr", read.roof_live, got.roof_live), ("S", read.snow, got.snow)]
        {
            // One more on both sides, so that a kind that is not in it is compared too.
            same(kind, 1.0 + read, 1.0 + got);
        }
    }
}

/// "0.75 L" is 0.75 of L, "L" is 1 of L.
fn leading(term: &str) -> (f64, &str) {
    let split = term.split_once(' ').and_then(|(factor, rest)| Some((factor.parse().ok()?, rest)));
    split.unwrap_or((1.0, term))
}

#[derive(Deserialize)]
struct PathRow {
    key: String,
    rule: String,
    value: String,
    note: String,
}

pub(super) fn load_path(text: &str) -> Report {
    rows(text, |row: &PathRow, report| {
        let deep = Inches(11.25);
        let (value, rule) = (numbers(&row.value), numbers(&row.rule));
        let mut same = |expected: f64, got: f64| {
            report.compare(|| format!("{}: {}", row.key, row.rule), (expected, got), expected, ROUNDING);
        };
        match (row.key.as_str(), value.as_slice()) {
            ("L01", [inches]) => same(*inches, LEAST_ON_WOOD.0),
            ("L02", [inches]) => same(*inches, LEAST_ON_MASONRY.0),
            ("L20", [part]) => same(deep.0 / part, cuts(deep).notch_depth.0),
            ("L21", [part]) => same(deep.0 / part, cuts(deep).notch_length.0),
            ("L22", [part]) => same(deep.0 / part, cuts(deep).end_notch.0),
            ("L25", [part]) => same(deep.0 / part, cuts(deep).hole.0),
            ("L26", [inches]) => same(*inches, cuts(deep).hole_to_edge.0),
            ("L41", [rise, _]) => same(*rise, Roof::LEAST_FOR_A_BOARD.0),
            ("L61", [short, from_end]) => {
                let gain = rule.first().copied().unwrap_or(f64::NAN);
                same(1.0 + gain / 2.0, area_factor(Inches(2.0), Inches(*from_end)));
                same(1.0, area_factor(Inches(2.0), Inches(from_end - 0.01)));
                same(1.0, area_factor(Inches(*short), Inches(12.0)));
                same(1.0 + gain / (short - 0.01), area_factor(Inches(short - 0.01), Inches(12.0)));
            }
            ("L62", [part]) => same(*part, END_GRAIN),
            ("L63", [part]) => same(*part, LITTLE_CRUSHING),
            ("L64", [sawn, glued]) => {
                let euler = rule.iter().copied().find(|it| (it.fract()).abs() > 0.0).unwrap_or(f64::NAN);
                same(euler, buckling_stress(Psi(100.0), 10.0).0);
                same(*sawn, SAWN);
                same(*glued, GLUED);
            }
            ("L65", [standing, building]) => {
                same(*standing, MOST_SLENDER);
                same(*building, MOST_SLENDER_WHILE_BUILDING);
            }
            ("L66", [nailed, bolted]) => {
                same(*nailed, Joined::Nailed.kf());
                same(*bolted, Joined::Bolted.kf());
            }
            ("L71", [wide, thick]) => {
                same(*wide, LEAST_STRIP.0);
                same(*thick, LEAST_THICKNESS.0);
            }
            ("L72", [least]) => {
                same(*least, LEAST_PROJECTION.0);
                same(14.0, thickness(Inches(14.0)).0);
            }
            ("L76", _) => same(rule.last().copied().unwrap_or(f64::NAN), thickness(Inches(0.0)).0),
            ("L77", _) => {
                let (side, _) = spread_by_slab(Pounds(1.0), Inches(0.0), Inches(3.5));
                same(rule.last().copied().unwrap_or(f64::NAN), side.0);
            }
            ("L85", _) => {
                if let [span, offset, more] = *numbers(&row.note) {
                    same(more, prop_line_carries_more(span, offset).round());
                }
            }
            ("L08", _) => report.skip("a rule that the worked examples and the trace's cautions check", 1),
            ("L50", _) => report.skip("a rule that the worked examples check", 1),
            _ => report.skip("a rule for the eye, the drawing or the site: no figure of the core", 1),
        }
    })
}

/// By how many hundredths a line of props carries more than the wall did.
fn prop_line_carries_more(span: f64, offset: f64) -> f64 {
    let load = [Load::uniform(Feet(0.0), Feet(span), Plf(1.0))];
    let joist = Piece::new(Feet(0.0), Feet(span), &[Feet(0.0), Feet(span - offset)]);
    let props = joist.settle(&load).ok().and_then(|contact| contact.reactions(&load).last().copied());
    props.map_or(f64::NAN, |props| (props.0 / (span / 2.0) - 1.0) * 100.0)
}

/// Statements of the trade: counted.
pub(super) fn decisions(text: &str) -> Report {
    rows(text, |_: &DecisionRow, report| report.skip("a reading of the house, not a figure", 1))
}

#[derive(Deserialize)]
struct DecisionRow {
    #[serde(rename = "key")]
    _key: String,
}
