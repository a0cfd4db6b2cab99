//! Walls, stretch by stretch: the fill of the role, its edge, its hatch, its letter; and the mark of a gable end.

use joistwise_core::plan::{Gable, Side, Wall};
use joistwise_core::trace::Role;

use super::body::Body;
use super::labels::{Box, Rank};
use super::sheet::{SMALL, Sheet, label};
use crate::ink::{Dash, FINE, Fill, Ink, MEDIUM, Stroke, THIN};
use crate::view::{Layer, Screen};

/// Radius of a badge in CSS pixels.
pub(crate) const BADGE: f64 = 8.0;
/// A stretch shorter than this has its badge beside it, or none.
const SHORT: f64 = 2.0 * BADGE + 4.0;

/// A stretch on the canvas: from and to along the wall's line in CSS pixels, and its role.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Run {
    from: f64,
    to: f64,
    role: Role,
}

/// Draws the inside walls.
pub(crate) fn inside(sheet: &mut Sheet) {
    on_side(sheet, Side::Inside);
}

/// Draws the outside walls, over the ends of inside walls and beams.
pub(crate) fn outside(sheet: &mut Sheet) {
    on_side(sheet, Side::Outside);
}

fn on_side(sheet: &mut Sheet, side: Side) {
    let bodies: Vec<Body> = sheet.bodies.iter().filter(|body| body.side == side).cloned().collect();
    for body in bodies {
        let Some(wall) = sheet.level.wall(body.wall) else {
            continue;
        };
        let half = body.thickness() / 2.0;
        let (a, b) = (body.at(0.0, body.middle()), body.at(body.length, body.middle()));
        sheet.words.keep_off_along(a, b, half);
        draw(sheet, wall, &body);
    }
}

fn draw(sheet: &mut Sheet, wall: &Wall, body: &Body) {
    let runs = runs(sheet, wall, body);
    for (from, to) in solids(sheet, wall, body) {
        let mut ends = (Role::NeedsALook, Role::NeedsALook);
        let within: Vec<Run> = runs
            .iter()
            .map(|run| Run { from: run.from.max(from), to: run.to.min(to), role: run.role })
            .filter(|run| run.to - run.from > 0.1)
            .collect();
        if let (Some(first), Some(last)) = (within.first(), within.last()) {
            ends = (first.role, last.role);
        }
        for run in within {
            stretch(sheet, body, run);
        }
        let [free_a, free_b] = body.free;
        if from > 0.5 || free_a {
            cap(sheet, body, from, ends.0);
        }
        if to < body.length - 0.5 || free_b {
            cap(sheet, body, to, ends.1);
        }
    }
}

/// The stretches of a wall; one that the trace does not list needs a look, or is an outside wall.
fn runs(sheet: &Sheet, wall: &Wall, body: &Body) -> Vec<Run> {
    let traced = sheet.trace.wall(wall.id).map(|traced| traced.stretches.as_slice()).unwrap_or_default();
    let mut runs: Vec<Run> = traced
        .iter()
        .map(|part| Run { from: sheet.px(part.start), to: sheet.px(part.end).min(body.length), role: part.role })
        .collect();
    if runs.is_empty() {
        let role = if wall.side == Side::Outside { Role::Outside } else { Role::NeedsALook };
        runs.push(Run { from: 0.0, to: body.length, role });
    }
    // The trace rounds in feet; the last stretch ends where the wall does.
    if let Some(last) = runs.last_mut()
        && body.length - last.to < 1.0
    {
        last.to = body.length;
    }
    runs
}

/// What is left of a wall between its openings, along its line in CSS pixels.
fn solids(sheet: &Sheet, wall: &Wall, body: &Body) -> Vec<(f64, f64)> {
    let mut from = 0.0;
    let mut solids = Vec::new();
    for opening in sheet.level.openings_in(wall.id) {
        let start = sheet.px(opening.offset.feet());
        solids.push((from, start));
        from = start + sheet.px(opening.width.feet());
    }
    solids.push((from, body.length));
    solids.retain(|(from, to)| to - from > 0.1);
    solids
}

/// The edge of a role.
const fn edge(role: Role) -> Stroke {
    match role {
        Role::NothingFound => Stroke::new(Ink::NothingEdge, THIN),
        Role::NeedsALook => Stroke::new(Ink::Edge, MEDIUM).dash(Dash::Hidden),
        _ => Stroke::new(Ink::Edge, THIN),
    }
}

fn stretch(sheet: &mut Sheet, body: &Body, run: Run) {
    let corners = body.piece(run.from, run.to);
    // A black edge of its own closes the seam at a mitred corner.
    let seam = (run.role == Role::Outside).then_some(Stroke::new(Ink::Wall(run.role), FINE));
    sheet.polygon(corners.clone(), Some(Fill::new(Ink::Wall(run.role))), seam);
    match run.role {
        Role::CarriesFloor => {
            sheet.hatch(&corners, Screen::new(1.0, -1.0), 4.5, Stroke::new(Ink::Edge, THIN));
        }
        Role::CarriesCeiling => sheet.hatch(&corners, body.left, 7.0, Stroke::new(Ink::Edge, THIN)),
        _ => {}
    }
    if run.role == Role::Outside {
        return;
    }
    let faces = body.faces.map(|face| body.face(face, run.from, run.to, 0.0));
    sheet.lines(faces.to_vec(), edge(run.role));
    if run.role == Role::HoldsPoint {
        let second = body.faces.map(|face| body.face(face, run.from, run.to, 2.5));
        sheet.lines(second.to_vec(), edge(run.role));
    }
}

fn cap(sheet: &mut Sheet, body: &Body, at: f64, role: Role) {
    if role == Role::Outside {
        return;
    }
    let [left, right] = body.faces;
    let stroke = edge(role).dash(Dash::Solid);
    sheet.line(body.at(at, left.left), body.at(at, right.left), stroke);
}

/// Puts a letter on each stretch, clear of openings and of what is there already.
pub(crate) fn badges(sheet: &mut Sheet) {
    let bodies = sheet.bodies.clone();
    for body in bodies {
        let Some(wall) = sheet.level.wall(body.wall) else {
            continue;
        };
        let solids = solids(sheet, wall, &body);
        let Some((from, to)) = sheet.visible(body.a, body.b()) else {
            continue;
        };
        let (seen_from, seen_to) = ((from - body.a).length(), (to - body.a).length());
        for run in runs(sheet, wall, &body) {
            let (from, to) = (run.from.max(seen_from), run.to.min(seen_to));
            if to > from {
                badge(sheet, &body, &solids, Run { from, to, role: run.role });
            }
        }
    }
}

fn badge(sheet: &mut Sheet, body: &Body, solids: &[(f64, f64)], run: Run) {
    let quiet = matches!(run.role, Role::Outside | Role::NothingFound);
    let length = run.to - run.from;
    if quiet && length < 2.0 * SHORT {
        return;
    }
    let middle = (run.from + run.to) / 2.0;
    let on = |along: f64| {
        let clear = solids.iter().any(|(from, to)| along - BADGE >= *from && along + BADGE <= *to);
        (clear && length >= SHORT).then(|| body.at(along, body.middle()))
    };
    let [left, right] = body.faces;
    let beside = [body.at(middle, left.left + BADGE + 5.0), body.at(middle, right.left - BADGE - 5.0)];
    let shares = [0.5, 0.4, 0.6, 0.3, 0.7, 0.22, 0.78, 0.12, 0.88];
    let places = shares.iter().filter_map(|share| on(run.from + length * share));
    // Walls keep words off, not badges: only other badges, posts and handles stand in the way.
    let free = places.chain(beside).find(|at| !sheet.is_crowded(*at, BADGE + 1.0));
    let Some(at) = free else {
        return;
    };
    let edge = match run.role {
        Role::NothingFound => Ink::NothingEdge,
        Role::Outside => Ink::Paper,
        _ if sheet.prints() => Ink::Edge,
        _ => Ink::Paper,
    };
    sheet.badge(at, BADGE, &run.role.badge().to_string(), Ink::Wall(run.role), edge, Ink::Letter(run.role));
}

/// Marks gable ends with a small triangle outside the wall, and says where one is only guessed.
pub(crate) fn gables(sheet: &mut Sheet) {
    let bodies = sheet.bodies.clone();
    // A guess is worth showing only where a roof may end in a gable.
    let roofs = &sheet.level.roofs;
    let shown = sheet.state.roof == Layer::Shown;
    let may = roofs.is_empty() || roofs.iter().any(|roof| roof.form.has_gables());
    for body in bodies {
        let gable = sheet.level.wall(body.wall).map_or(Gable::No, |wall| wall.gable);
        if !shown || gable == Gable::No || (gable == Gable::Guessed && !may) || body.length < 48.0 {
            continue;
        }
        // Outside is where the body is not.
        let [left, right] = body.faces;
        let (face, way) = if left.left.abs() < right.left.abs() { (left.left, 1.0) } else { (right.left, -1.0) };
        let place = |along: f64, out: f64| body.at(body.length / 2.0 + along, face + way * out);
        let triangle = vec![place(-6.0, 7.0), place(6.0, 7.0), place(0.0, 14.0)];
        let stroke = Stroke::new(Ink::Eave, THIN);
        if gable == Gable::Guessed {
            sheet.polygon(triangle, None, Some(stroke));
            let text = super::sheet::along(label(place(31.0, 11.0), "gable?", Ink::Caption, SMALL), body.along);
            sheet.wish(text, Rank::Note, vec![place(-31.0, 11.0)]);
        } else {
            sheet.polygon(triangle, Some(Fill::wash(Ink::Eave, 0.35)), Some(stroke));
        }
        sheet.words.keep_off(Box::around(&[place(0.0, 10.0)], 7.0));
    }
}
