//! Point loads, and the places where a load has nowhere to go.

use joistwise_core::ids::ElementId;
use joistwise_core::order::InOrder as _;

use super::feed::Carrier;
use super::labels::{Box, Rank};
use super::sheet::{Sheet, TEXT, label, whole};
use super::{Anchor, Label, Weight};
use crate::ink::{Fill, Ink, RING, Stroke, THIN};
use crate::view::Screen;
use joistwise_core::trace::Role;

/// Point loads nearer to each other than this many CSS pixels are one mark.
const ONE_MARK: f64 = 14.0;
/// Point loads under this are not marked unless their wall is chosen, in pounds.
const SMALL_LOAD: f64 = 100.0;
/// Radius of the mark of a point load.
const RADIUS: f64 = 7.0;
/// Radius of the ring around a path gap.
const GAP: f64 = 14.0;

/// Marks the point loads on walls, and on the chosen beam; figures stand beside those of the chosen part.
pub(crate) fn points(sheet: &mut Sheet) {
    let level = sheet.level;
    let walls = level.walls.iter().map(|wall| ElementId::Wall(wall.id));
    let beams = level.beams.iter().map(|beam| ElementId::Beam(beam.id)).filter(|beam| sheet.is_chosen(*beam));
    let parts: Vec<ElementId> = walls.chain(beams).collect();
    for part in parts {
        let Some(carrier) = Carrier::of(sheet, part) else {
            continue;
        };
        let chosen = sheet.is_chosen(part);
        for (at, pounds) in merged(sheet, &carrier) {
            if pounds >= SMALL_LOAD || (chosen && pounds >= 1.0) {
                mark(sheet, &carrier, at, chosen.then_some(pounds));
            }
        }
    }
}

fn merged(sheet: &Sheet, carrier: &Carrier) -> Vec<(f64, f64)> {
    let mut all: Vec<(f64, f64)> =
        carrier.points.iter().map(|point| (sheet.px(point.at), sheet.pounds(&point.weights).0)).collect();
    all.order_by(|a, b| a.0.total_cmp(&b.0));
    let mut merged: Vec<(f64, f64)> = Vec::new();
    for (at, pounds) in all {
        match merged.last_mut() {
            Some(last) if at - last.0 < ONE_MARK => last.1 += pounds,
            _ => merged.push((at, pounds)),
        }
    }
    merged
}

fn mark(sheet: &mut Sheet, carrier: &Carrier, at: f64, pounds: Option<f64>) {
    let [left, right] = carrier.faces;
    let on = carrier.at(at, (left + right) / 2.0);
    let beside = [
        carrier.at(at, left + RADIUS + 4.0),
        carrier.at(at, right - RADIUS - 4.0),
        carrier.at(at, left + 3.0 * RADIUS),
    ];
    let Some(badge) = beside.into_iter().find(|at| !sheet.is_crowded(*at, RADIUS)) else {
        return;
    };
    sheet.line(on, badge, Stroke::new(Ink::PointLoad, THIN));
    sheet.circle(on, 2.5, Some(Fill::new(Ink::PointLoad)), None);
    sheet.badge(badge, RADIUS, "P", Ink::Wall(Role::HoldsPoint), Ink::PointLoad, Ink::Letter(Role::HoldsPoint));
    if let Some(pounds) = pounds {
        let text = format!("{} lb", whole(pounds));
        let place = |x: f64, y: f64| badge + Screen::new(x, y);
        let label = Label { anchor: Anchor::Start, ..label(place(11.0, 0.0), &text, Ink::PointLoad, TEXT) };
        let wide = super::labels::width(&text, TEXT);
        let beside = [(9.0, -14.0), (9.0, 14.0), (-wide - 11.0, 0.0), (-wide - 9.0, -14.0), (-wide - 9.0, 14.0)];
        let further =
            [(-wide / 2.0, -20.0), (-wide / 2.0, 20.0), (11.0, -24.0), (11.0, 24.0), (-wide, -26.0), (-wide, 26.0)];
        let places = beside.iter().chain(&further).map(|(x, y)| place(*x, *y)).collect();
        sheet.wish(label, Rank::Figure, places);
    }
}

/// Rings every path gap of the level in red.
pub(crate) fn gaps(sheet: &mut Sheet) {
    let trace = sheet.trace;
    for finding in trace.path_gaps().filter(|finding| finding.level == sheet.level.id) {
        let at = sheet.at(finding.at);
        sheet.circle(at, GAP, None, Some(Stroke::new(Ink::Gap, RING)));
        sheet.words.keep_off(Box::around(&[at], GAP));
        let right = Label {
            anchor: Anchor::Start,
            weight: Weight::Strong,
            ..label(at + Screen::new(GAP + 5.0, 0.0), "path gap", Ink::Gap, TEXT)
        };
        let other = [(-6.0, -GAP - 10.0), (-6.0, GAP + 10.0), (GAP + 5.0, -12.0), (-GAP - 60.0, 0.0)];
        sheet.wish(right, Rank::Warning, other.iter().map(|(x, y)| at + Screen::new(*x, *y)).collect());
    }
}
