//! The path of what is chosen, through the levels: a line around every part it passes, the wider the more of it passes
//! there; solid on the level on the sheet, broken on the others, which show through. And the weight put down.

use joistwise_core::ids::LevelId;
use joistwise_core::path::{Path, Reach, Start};
use joistwise_core::plan::{FootingShape, Level};
use joistwise_core::trace::Node;
use joistwise_core::words;

use super::body::{Body, bodies};
use super::labels::Rank;
use super::members::{beam_corners, post_side, square_around, strip};
use super::sheet::{SMALL, Sheet, TEXT, label};
use super::vector::grown;
use super::{Label, Weight};
use crate::ink::{Dash, Fill, Ink, MEDIUM, Stroke, THIN, WIDE};
use crate::view::Screen;

/// Shares under this are not drawn: a line around everything says nothing.
const LITTLE: f64 = 0.005;
/// The widest line around a part, in CSS pixels: all of the load passes there.
const ALL: f64 = 4.0;

/// On which side of the start a part is.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Side {
    Up,
    Down,
}

/// Draws a line around the parts on the path, other levels first.
pub(crate) fn path(sheet: &mut Sheet) {
    let Some(path) = sheet.state.path.clone() else {
        return;
    };
    let here = sheet.level.id;
    let levels: Vec<&Level> = sheet.plan.levels().iter().collect();
    for level in levels.iter().filter(|level| level.id != here) {
        of_level(sheet, level, &path, here);
    }
    of_level(sheet, sheet.level, &path, here);
    if let Start::Run { part, from, to } = path.start
        && let Some(body) = sheet.body(part)
    {
        let points = grown(&body.piece(sheet.px(from), sheet.px(to)), 4.0);
        sheet.polygon(points, None, Some(Stroke::new(Ink::Path, ALL)));
    }
}

fn of_level(sheet: &mut Sheet, level: &Level, path: &Path, here: LevelId) {
    let walls = bodies(level, &level.outlines(), &sheet.state.view);
    let up = path.up.iter().map(|it| (it, Side::Up));
    for (it, side) in up.chain(path.down.iter().map(|it| (it, Side::Down))) {
        let on_sheet = level.id == here;
        if it.share.abs() < LITTLE || it.node == path.node {
            continue;
        }
        let Some(corners) = outline(sheet, level, &walls, it.node, if on_sheet { 3.0 } else { 1.5 }) else {
            continue;
        };
        let width = match side {
            Side::Up => THIN,
            Side::Down => THIN + (ALL - THIN) * it.share.abs().min(1.0),
        };
        let stroke = if on_sheet {
            Stroke::new(Ink::Path, width)
        } else {
            Stroke::new(Ink::Path, width.min(WIDE)).dash(Dash::Hidden).faint(0.75)
        };
        let wash = (!sheet.prints() && on_sheet).then_some(Fill::wash(Ink::Path, 0.12));
        sheet.polygon(corners.clone(), wash, Some(stroke));
        if side == Side::Down {
            share(sheet, it, &corners);
        }
    }
}

/// How much of the start's load comes to a wall or post, beside it.
fn share(sheet: &mut Sheet, it: &Reach, corners: &[Screen]) {
    if !matches!(it.node, Node::Wall(_) | Node::Post(_)) {
        return;
    }
    let text = if it.share.abs() < 0.095 {
        format!("{:.1} %", it.share * 100.0)
    } else {
        format!("{:.0} %", it.share * 100.0)
    };
    let least = |of: fn(&Screen) -> f64| corners.iter().map(of).fold(f64::INFINITY, f64::min);
    let most = |of: fn(&Screen) -> f64| corners.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
    let (left, right, top, bottom) = (least(|at| at.x), most(|at| at.x), least(|at| at.y), most(|at| at.y));
    let (x, y) = (left.midpoint(right), top.midpoint(bottom));
    let half = super::labels::width(&text, TEXT) / 2.0;
    let places = vec![
        Screen::new(x, bottom + 9.0),
        Screen::new(right + half + 5.0, y),
        Screen::new(left - half - 5.0, y),
        Screen::new(right + half + 4.0, top - 6.0),
        Screen::new(left - half - 4.0, bottom + 6.0),
        Screen::new(x, bottom + 22.0),
        Screen::new(x, top - 22.0),
    ];
    let text = label(Screen::new(x, top - 9.0), &text, Ink::Path, TEXT);
    sheet.wish(Label { weight: Weight::Strong, ..text }, Rank::Figure, places);
}

/// A part as drawn, a little larger; none for what has no body of its own on the plan.
fn outline(sheet: &Sheet, level: &Level, walls: &[Body], node: Node, by: f64) -> Option<Vec<Screen>> {
    match node {
        Node::Wall(id) => walls.iter().find(|body| body.wall == id).map(|body| body.around(by)),
        Node::Beam(id) => level.beams.iter().find(|it| it.id == id).map(|beam| grown(&beam_corners(sheet, beam), by)),
        Node::Post(id) => {
            let post = level.posts.iter().find(|it| it.id == id)?;
            Some(square_around(sheet.at(post.at), post_side(sheet, post) + 2.0 * by))
        }
        Node::Footing(id) => {
            let footing = level.footings.iter().find(|it| it.id == id)?;
            Some(match footing.shape {
                FootingShape::Pad { at, side } => square_around(sheet.at(at), sheet.px(side.feet()) + 2.0 * by),
                FootingShape::Strip { a, b, width } => {
                    strip(sheet.at(a), sheet.at(b), sheet.px(width.feet()) + 2.0 * by)
                }
            })
        }
        Node::Purlin(id) => {
            let purlin = level.purlins.iter().find(|it| it.id == id)?;
            Some(strip(sheet.at(purlin.a), sheet.at(purlin.b), 8.0 + 2.0 * by))
        }
        Node::Thing(id) => {
            let thing = level.things.iter().find(|it| it.id == id)?;
            let corners: Vec<Screen> = thing.corners.iter().map(|corner| sheet.at(*corner)).collect();
            Some(grown(&corners, by))
        }
        Node::FloorOpening(id) => {
            let opening = level.floor_openings.iter().find(|it| it.id == id)?;
            Some(opening.corners.iter().map(|corner| sheet.at(*corner)).collect())
        }
        Node::Roof(_) | Node::Field(_) | Node::Ground | Node::Here | Node::Gap => None,
    }
}

/// Draws the weight put down, and the joists that hold it.
pub(crate) fn weight(sheet: &mut Sheet) {
    let Some(at) = sheet.state.put_down.map(|at| sheet.at(at)) else {
        return;
    };
    let Some(path) = sheet.state.path.clone() else {
        return;
    };
    for joist in &path.joists {
        let (a, b) = (sheet.at(joist.a), sheet.at(joist.b));
        sheet.line(a, b, Stroke::new(Ink::Path, THIN + (ALL - THIN) * joist.share.abs().min(1.0)).faint(0.7));
    }
    let arm = Screen::new(13.0, 0.0);
    let up = Screen::new(0.0, 13.0);
    sheet.circle(at, 9.0, Some(Fill::new(Ink::Paper)), Some(Stroke::new(Ink::Path, WIDE)));
    sheet.circle(at, 3.5, Some(Fill::new(Ink::Path)), None);
    sheet.lines(vec![[at - arm, at - arm * 0.7], [at + arm * 0.7, at + arm]], Stroke::new(Ink::Path, MEDIUM));
    sheet.lines(vec![[at - up, at - up * 0.7], [at + up * 0.7, at + up]], Stroke::new(Ink::Path, MEDIUM));
    sheet.mark(at, 13.0);
    let text = words::pounds(joistwise_core::units::Pounds(path.weights.all().0));
    let place = |x: f64, y: f64| at + Screen::new(x, y);
    let half = super::labels::width(&text, SMALL) / 2.0 + 4.0;
    let places = vec![place(-half - 14.0, 0.0), place(0.0, -22.0), place(0.0, 22.0)];
    let text = Label { weight: Weight::Strong, ..label(place(half + 14.0, 0.0), &text, Ink::Path, TEXT) };
    sheet.wish(text, Rank::Figure, places);
}
