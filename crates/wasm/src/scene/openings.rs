//! Doors, windows and passages in walls.

use joistwise_core::plan::{Header, OpeningKind, Side};

use super::body::Body;
use super::labels::Rank;
use super::sheet::{SMALL, Sheet, along, label};
use crate::ink::{Dash, FINE, Fill, Ink, Stroke, THIN};
use crate::view::Screen;

/// A quarter of a circle as vectors of length one, from along the wall to square to it, every 7.5 degrees.
const QUARTER: [(f64, f64); 13] = [
    (1.0, 0.0),
    (0.991_445, 0.130_526),
    (0.965_926, 0.258_819),
    (0.923_880, 0.382_683),
    (0.866_025, 0.5),
    (0.793_353, 0.608_761),
    (core::f64::consts::FRAC_1_SQRT_2, core::f64::consts::FRAC_1_SQRT_2),
    (0.608_761, 0.793_353),
    (0.5, 0.866_025),
    (0.382_683, 0.923_880),
    (0.258_819, 0.965_926),
    (0.130_526, 0.991_445),
    (0.0, 1.0),
];

/// Draws every opening of the level.
pub(crate) fn openings(sheet: &mut Sheet) {
    let level = sheet.level;
    for opening in &level.openings {
        let Some(body) = sheet.bodies.iter().find(|body| body.wall == opening.wall).cloned() else {
            continue;
        };
        let from = sheet.px(opening.offset.feet());
        let to = from + sheet.px(opening.width.feet());
        let piece = piece(&body, from, to);
        sheet.polygon(piece, Some(Fill::new(Ink::Paper)), None);
        let faces = body.faces.map(|face| [body.at(from, face.left), body.at(to, face.left)]);
        match opening.kind {
            OpeningKind::Window => {
                let middle = [body.at(from, body.middle()), body.at(to, body.middle())];
                sheet.lines(faces.to_vec(), Stroke::new(Ink::Opening, THIN));
                sheet.lines(vec![middle], Stroke::new(Ink::Opening, THIN));
            }
            OpeningKind::Door => {
                sheet.lines(faces.to_vec(), Stroke::new(Ink::Opening, FINE));
                door(sheet, &body, from, to);
            }
            OpeningKind::Passage => {
                sheet.lines(faces.to_vec(), Stroke::new(Ink::Opening, THIN).dash(Dash::Hidden));
            }
        }
        if body.side == Side::Outside {
            let jambs = [from, to].map(|at| body.faces.map(|face| body.at(at, face.left)));
            sheet.lines(jambs.to_vec(), Stroke::new(Ink::Opening, THIN));
        }
        if opening.header == Header::Missing {
            let off = body.thickness() / 2.0 + 10.0;
            let place = |side: f64| body.at((from + to) / 2.0, body.middle() + side * off);
            let text = along(label(place(-1.0), "no header", Ink::Caption, SMALL), body.along);
            sheet.wish(text, Rank::Name, vec![place(1.0)]);
        }
    }
}

/// The four corners of an opening in its wall.
pub(crate) fn piece(body: &Body, from: f64, to: f64) -> Vec<Screen> {
    let [left, right] = body.faces;
    vec![body.at(from, left.left), body.at(to, left.left), body.at(to, right.left), body.at(from, right.left)]
}

/// A leaf square to the wall and the quarter circle that it swings: into the house, or to the left of an inside wall.
fn door(sheet: &mut Sheet, body: &Body, from: f64, to: f64) {
    let [left, right] = body.faces;
    let (face, way) = if body.side == Side::Inside || left.left.abs() > right.left.abs() {
        (left.left, 1.0)
    } else {
        (right.left, -1.0)
    };
    let hinge = body.at(from, face);
    let (along, across) = (body.along * (to - from), body.left * (way * (to - from)));
    let arc: Vec<Screen> = QUARTER.iter().map(|(c, s)| hinge + along * *c + across * *s).collect();
    sheet.trail(arc, Stroke::new(Ink::Opening, FINE).faint(0.8));
    sheet.line(hinge, hinge + across, Stroke::new(Ink::Opening, THIN));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_quarter_circle_is_of_radius_one_to_a_millionth() {
        for (x, y) in QUARTER {
            assert!((x * x + y * y - 1.0).abs() < 2e-6, "{x} {y}");
        }
    }
}
