//! The line load of the chosen wall or beam as a fringe beside it: the deeper, the heavier.

use joistwise_core::ids::ElementId;
use joistwise_core::plan::Side;
use joistwise_core::trace::{Node, Origin, Role};

use super::feed::Carrier;
use super::labels::{Rank, width};
use super::sheet::{Sheet, TEXT, along, label, whole};
use crate::ink::{FINE, Fill, Ink, Stroke, THIN, role_of};
use crate::view::Screen;

/// Loads that differ by less than this share are one run.
const ALIKE: f64 = 0.02;

/// A run of one line load: from and to in CSS pixels along the line, and plf.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Run {
    from: f64,
    to: f64,
    plf: f64,
}

/// Draws the fringe of the chosen wall or beam.
pub(crate) fn fringe(sheet: &mut Sheet) {
    let Some(part) = sheet.state.chosen else {
        return;
    };
    let Some(carrier) = Carrier::of(sheet, part) else {
        return;
    };
    let runs = runs(sheet, &carrier);
    let heaviest = runs.iter().map(|run| run.plf).fold(0.0, f64::max);
    if heaviest < 1.0 {
        return;
    }
    let deepest = (sheet.scale() * 1.7).clamp(18.0, 36.0);
    let (face, way) = side(sheet, part, &carrier);
    let ink = Ink::Fringe(role(&carrier));
    let ticks = tick_step(sheet, &carrier);
    for run in &runs {
        let depth = run.plf / heaviest * deepest;
        if depth < 0.5 {
            continue;
        }
        let at = |along: f64, out: f64| carrier.at(along, face + way * out);
        let (from, to) = (run.from.max(0.0), run.to.min(carrier.length));
        let corners = vec![at(from, 0.0), at(to, 0.0), at(to, depth), at(from, depth)];
        let wash = if sheet.prints() { None } else { Some(Fill::wash(ink, 0.2)) };
        sheet.polygon(corners.clone(), wash, None);
        sheet.trail(vec![at(from, 0.0), at(from, depth), at(to, depth), at(to, 0.0)], Stroke::new(ink, THIN));
        if ticks >= 4.0 {
            sheet.hatch_from(&corners, carrier.at(0.0, 0.0), carrier.left(), ticks, Stroke::new(ink, FINE).faint(0.8));
        }
        figure(sheet, &carrier, *run, (face, way), depth, ink);
    }
}

fn figure(sheet: &mut Sheet, carrier: &Carrier, run: Run, (face, way): (f64, f64), depth: f64, ink: Ink) {
    let text = format!("{} plf", whole(run.plf));
    let upright = carrier.way().x.abs() < 0.5;
    let Some((from, to)) = carrier.seen(sheet, run.from.max(0.0), run.to) else {
        return;
    };
    let room = to - from;
    if room < if upright { 14.0 } else { width(&text, TEXT) * 0.6 } {
        return;
    }
    let out = depth + if upright { width(&text, TEXT) / 2.0 + 5.0 } else { 11.0 };
    let place = |share: f64, out: f64| carrier.at(from + room * share, face + way * out);
    let label = label(place(0.5, out), &text, ink, TEXT);
    let label = if upright { label } else { along(label, carrier.way()) };
    let places = [(0.35, out), (0.65, out), (0.2, out), (0.8, out), (0.5, out + 14.0)];
    sheet.wish(label, Rank::Figure, places.iter().map(|(share, out)| place(*share, *out)).collect());
}

/// The heaviest combination along the line, in runs; pieces that differ by little are one.
fn runs(sheet: &Sheet, carrier: &Carrier) -> Vec<Run> {
    let mut runs: Vec<Run> = Vec::new();
    for part in carrier.line {
        let run = Run { from: sheet.px(part.start), to: sheet.px(part.end), plf: sheet.plf(&part.loads).0 };
        match runs.last_mut() {
            Some(last) if run.from - last.to < 0.5 && (run.plf - last.plf).abs() <= ALIKE * last.plf.max(1.0) => {
                let (old, new) = ((last.to - last.from).max(0.0), (run.to - run.from).max(0.0));
                if old + new > 0.0 {
                    last.plf = (last.plf * old + run.plf * new) / (old + new);
                }
                last.to = run.to;
            }
            _ => runs.push(run),
        }
    }
    runs
}

/// The face that the fringe hangs on and the way outward: into the house from an outside wall, else down or right.
fn side(sheet: &Sheet, part: ElementId, carrier: &Carrier) -> (f64, f64) {
    let [left, right] = carrier.faces;
    let outside = sheet.body(part).is_some_and(|body| body.side == Side::Outside);
    let down = Screen::new(0.4, 1.0);
    let is_left = if outside { left.abs() > right.abs() } else { carrier.left().dot(down) > 0.0 };
    if is_left { (left, 1.0) } else { (right, -1.0) }
}

/// The role that the heaviest claim on the line gives it.
fn role(carrier: &Carrier) -> Role {
    let heaviest = carrier.feeds.iter().map(|feed| feed.origin).min();
    role_of(heaviest.unwrap_or(Origin::Floor))
}

/// How far apart the members lie that load the line, in CSS pixels; zero if the trace does not say.
fn tick_step(sheet: &Sheet, carrier: &Carrier) -> f64 {
    let level = sheet.level;
    let spacing = carrier.feeds.iter().find_map(|feed| match feed.from {
        Node::Field(id) => level.fields.iter().find(|field| field.id == id).map(|field| field.spacing),
        Node::Roof(id) => level.roofs.iter().find(|roof| roof.id == id).map(|roof| roof.spacing),
        _ => None,
    });
    spacing.map_or(0.0, |spacing| sheet.px(spacing.feet()))
}
