//! What is chosen and what the pointer is over: a line around it, and handles at its ends.

use joistwise_core::ids::ElementId;
use joistwise_core::plan::{FootingShape, Region};

use super::decks::CUT;
use super::hit::handles;
use super::joists::arrows;
use super::members::{beam_corners, post_side, square_around, strip};
use super::openings;
use super::roofs::ridge_lines;
use super::sheet::Sheet;
use super::vector::grown;
use crate::ink::{Dash, Fill, Ink, MEDIUM, Stroke, WIDE};
use crate::view::Screen;

/// Radius of a handle as drawn.
const HANDLE: f64 = 7.0;

/// Draws a line around what the pointer is over, unless it is chosen.
pub(crate) fn hover(sheet: &mut Sheet) {
    if let Some(part) = sheet.state.hover
        && !sheet.is_chosen(part)
    {
        around(sheet, part, Stroke::new(Ink::Hover, MEDIUM).faint(0.8));
    }
}

/// Draws a line around what is chosen.
pub(crate) fn chosen(sheet: &mut Sheet) {
    if let Some(part) = sheet.state.chosen {
        around(sheet, part, Stroke::new(Ink::Chosen, WIDE));
    }
}

/// Draws the handles of what is chosen.
pub(crate) fn grips(sheet: &mut Sheet) {
    for (at, _) in handles(sheet.plan, sheet.state) {
        sheet.circle(at, HANDLE, Some(Fill::new(Ink::Paper)), Some(Stroke::new(Ink::Chosen, WIDE)));
    }
}

/// Keeps badges and words off the handles that will be drawn.
pub(crate) fn keep_off_grips(sheet: &mut Sheet) {
    for (at, _) in handles(sheet.plan, sheet.state) {
        sheet.mark(at, HANDLE + 1.0);
    }
}

fn around(sheet: &mut Sheet, part: ElementId, stroke: Stroke) {
    let level = sheet.level;
    match part {
        ElementId::Wall(_) => {
            if let Some(points) = sheet.body(part).map(|body| body.around(3.0)) {
                sheet.polygon(points, None, Some(stroke));
            }
        }
        ElementId::Opening(id) => {
            if let Some(opening) = level.openings.iter().find(|opening| opening.id == id)
                && let Some(body) = sheet.body(ElementId::Wall(opening.wall))
            {
                let from = sheet.px(opening.offset.feet());
                let points = openings::piece(body, from, from + sheet.px(opening.width.feet()));
                sheet.polygon(grown(&points, 3.0), None, Some(stroke));
            }
        }
        ElementId::Post(id) => {
            if let Some(post) = level.posts.iter().find(|post| post.id == id) {
                let (at, side) = (sheet.at(post.at), post_side(sheet, post));
                sheet.circle(at, side * 0.75 + 3.0, None, Some(stroke));
            }
        }
        ElementId::Beam(id) => {
            if let Some(beam) = level.beams.iter().find(|beam| beam.id == id) {
                let points = grown(&beam_corners(sheet, beam), 3.0);
                sheet.polygon(points, None, Some(stroke));
            }
        }
        ElementId::Footing(id) => {
            if let Some(footing) = level.footings.iter().find(|footing| footing.id == id) {
                let points = match footing.shape {
                    FootingShape::Pad { at, side } => square_around(sheet.at(at), sheet.px(side.feet()) + 6.0),
                    FootingShape::Strip { a, b, width } => {
                        strip(sheet.at(a), sheet.at(b), sheet.px(width.feet()) + 6.0)
                    }
                };
                sheet.polygon(points, None, Some(stroke));
            }
        }
        ElementId::Observation(id) => {
            if let Some(seen) = level.observations.iter().find(|it| it.id == id) {
                let at = sheet.at(seen.at);
                sheet.circle(at, super::seen::RADIUS + 4.0, None, Some(stroke));
            }
        }
        ElementId::Purlin(id) => {
            if let Some(purlin) = level.purlins.iter().find(|purlin| purlin.id == id) {
                let points = strip(sheet.at(purlin.a), sheet.at(purlin.b), 12.0);
                sheet.polygon(points, None, Some(stroke));
            }
        }
        ElementId::JoistCut(id) => {
            if let Some(cut) = level.cuts.iter().find(|cut| cut.id == id) {
                sheet.circle(sheet.at(cut.at), CUT + 4.0, None, Some(stroke));
            }
        }
        ElementId::Board(id) => {
            if let Some(board) = level.boards.iter().find(|board| board.id == id) {
                let points = strip(sheet.at(board.a), sheet.at(board.b), 10.0);
                sheet.polygon(points, None, Some(stroke));
            }
        }
        ElementId::Thing(id) => {
            if let Some(thing) = level.things.iter().find(|thing| thing.id == id) {
                let points: Vec<Screen> = thing.corners.iter().map(|corner| sheet.at(*corner)).collect();
                sheet.polygon(grown(&points, 3.0), None, Some(stroke));
            }
        }
        ElementId::FloorOpening(id) => {
            if let Some(opening) = level.floor_openings.iter().find(|opening| opening.id == id) {
                let points = opening.corners.iter().map(|corner| sheet.at(*corner)).collect();
                sheet.polygon(points, None, Some(stroke));
            }
        }
        ElementId::Field(id) => {
            if let Some(field) = level.fields.iter().find(|field| field.id == id) {
                region(sheet, &field.region, stroke);
                let lines: Vec<[Screen; 2]> =
                    arrows(level, field).iter().map(|arrow| [sheet.at(arrow.a), sheet.at(arrow.b)]).collect();
                sheet.lines(lines, stroke.faint(0.25));
            }
        }
        ElementId::Roof(id) => {
            if let Some(roof) = level.roofs.iter().find(|roof| roof.id == id) {
                region(sheet, &roof.region, stroke);
                let trace = sheet.trace.roofs.iter().find(|it| it.roof == id);
                let ridges = ridge_lines(level, roof, trace);
                let lines: Vec<[Screen; 2]> = ridges.iter().map(|(a, b)| [sheet.at(*a), sheet.at(*b)]).collect();
                sheet.lines(lines, stroke.faint(0.25));
            }
        }
    }
}

fn region(sheet: &mut Sheet, region: &Region, stroke: Stroke) {
    for corners in sheet.level.polygons(region) {
        let points = corners.iter().map(|corner| sheet.at(*corner)).collect();
        sheet.polygon(points, None, Some(stroke.dash(Dash::Dashed)));
    }
}
