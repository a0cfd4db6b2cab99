//! What lies under the plan: paper, grid, and the level below as a ghost.

use joistwise_core::plan::{FootingShape, Level};
use joistwise_core::tape::Tape;

use super::body::bodies;
use super::members::{beam_corners, post_side, square_around};
use super::sheet::Sheet;
use crate::ink::{Dash, FINE, Fill, Ink, Stroke};
use crate::view::Screen;

/// Feet in a metre.
const METRE: f64 = 1.0 / 0.3048;

/// Draws the paper.
pub(crate) fn paper(sheet: &mut Sheet) {
    let (width, height) = (sheet.state.view.width, sheet.state.view.height);
    let corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)];
    let points = corners.iter().map(|(x, y)| Screen::new(*x, *y)).collect();
    sheet.polygon(points, Some(Fill::new(Ink::Paper)), None);
}

/// Draws the grid: the finer its lines lie, the fainter they are, until they are left out.
pub(crate) fn grid(sheet: &mut Sheet) {
    if sheet.prints() {
        return;
    }
    // Step in feet, strength, and the pixels between which it fades in.
    let steps = match sheet.state.tape {
        Tape::Feet => [(0.5, 0.10, (18.0, 40.0)), (1.0, 0.16, (7.0, 18.0)), (4.0, 0.24, (10.0, 36.0))],
        Tape::Metric => {
            [(0.1 * METRE, 0.10, (10.0, 24.0)), (0.5 * METRE, 0.16, (10.0, 30.0)), (METRE, 0.24, (10.0, 36.0))]
        }
    };
    for (step, strength, (gone, full)) in steps {
        let apart = step * sheet.scale();
        let share = ((apart - gone) / (full - gone)).clamp(0.0, 1.0);
        if share > 0.0 {
            let pieces = rules(sheet, step);
            sheet.lines(pieces, Stroke::new(Ink::Grid, FINE).faint(strength * share));
        }
    }
}

fn rules(sheet: &Sheet, step: f64) -> Vec<[Screen; 2]> {
    let view = &sheet.state.view;
    let low = view.plan_from_screen(Screen::new(0.0, view.height));
    let high = view.plan_from_screen(Screen::new(view.width, 0.0));
    let places = |from: f64, to: f64| {
        let first = (from / step).ceil();
        let mut at = first;
        core::iter::from_fn(move || {
            let place = at * step;
            at += 1.0;
            (place <= to && at - first < 2000.0).then_some(place)
        })
    };
    let crisp = |x: f64| x.floor() + 0.5;
    let origin = sheet.at(joistwise_core::geometry::Spot::default());
    let upright = places(low.x.0, high.x.0).map(|x| {
        let x = crisp(origin.x + x * view.scale);
        [Screen::new(x, 0.0), Screen::new(x, view.height)]
    });
    let level = places(low.y.0, high.y.0).map(|y| {
        let y = crisp(origin.y - y * view.scale);
        [Screen::new(0.0, y), Screen::new(view.width, y)]
    });
    upright.chain(level).collect()
}

/// Draws the level below: outlines of its walls, its beams dashed, its posts and pads.
pub(crate) fn ghost(sheet: &mut Sheet) {
    let Some(below) = sheet.plan.level_below(sheet.level.id) else {
        return;
    };
    let solid = Stroke::new(Ink::Ghost, FINE).faint(0.55);
    for body in bodies(below, &below.outlines(), &sheet.state.view) {
        sheet.polygon(body.piece(0.0, body.length), None, Some(solid));
    }
    under(sheet, below, solid);
}

fn under(sheet: &mut Sheet, below: &Level, solid: Stroke) {
    for beam in &below.beams {
        let corners = beam_corners(sheet, beam);
        sheet.polygon(corners, None, Some(solid.dash(Dash::Dashed)));
    }
    for post in &below.posts {
        let (at, side) = (sheet.at(post.at), post_side(sheet, post));
        sheet.polygon(square_around(at, side), None, Some(solid));
    }
    for footing in &below.footings {
        if let FootingShape::Pad { at, side } = footing.shape {
            let (at, side) = (sheet.at(at), sheet.px(side.feet()));
            sheet.polygon(square_around(at, side), None, Some(solid.dash(Dash::Hidden)));
        }
    }
}
