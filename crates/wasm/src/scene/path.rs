//! The path of what is chosen, through the levels: a line around every part it passes, the wider the more of it passes
//! there; solid on the level on the sheet, broken on the others, which show through. And the weight put down.

use joistwise_core::ids::{ElementId, LevelId};
use joistwise_core::path::{Path, Reach, Start};
use joistwise_core::plan::{FootingShape, Level};
use joistwise_core::trace::Node;
use joistwise_core::words;

use super::body::{Body, bodies};
use super::labels::Rank;
use super::members::{beam_corners, post_side, square_around, strip};
use super::sheet::{SMALL, Sheet, TEXT, label};
use super::vector::{grown, sides};
use super::{Label, Weight};
use crate::ink::{Dash, Fill, Ink, MEDIUM, Stroke, THIN, WIDE};
use crate::view::Screen;

/// Shares under this are not drawn: a line around everything says nothing.
const LITTLE: f64 = 0.005;
/// From what share on its figure is written.
const WORTH_A_WORD: f64 = 0.01;
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
    shares(sheet, &path);
    if let Start::Run { part, from, to } = path.start
        && let Some(body) = sheet.body(part)
    {
        let points = grown(&body.piece(sheet.px(from), sheet.px(to)), 4.0);
        sheet.polygon(points, None, Some(Stroke::new(Ink::Path, ALL)));
    }
}

/// The middle of the start.
fn from(sheet: &Sheet) -> Screen {
    let chosen = sheet.state.chosen;
    let body = chosen.and_then(|part| sheet.body(part)).map(|body| body.a.middle(body.b()));
    let beam = sheet.level.beams.iter().find(|beam| chosen == Some(ElementId::Beam(beam.id)));
    let beam = beam.map(|beam| sheet.at(beam.a).middle(sheet.at(beam.b)));
    let post = sheet.level.posts.iter().find(|post| chosen == Some(ElementId::Post(post.id)));
    let thing = sheet.level.things.iter().find(|thing| chosen == Some(ElementId::Thing(thing.id)));
    let at = sheet.state.put_down.or(post.map(|post| post.at)).or(thing.and_then(|it| it.corners.first().copied()));
    let middle = Screen::new(sheet.state.view.width / 2.0, sheet.state.view.height / 2.0);
    at.map(|at| sheet.at(at)).or(body).or(beam).unwrap_or(middle)
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
        // A pad is small: its share stands clear of its edges.
        let pad = level
            .footings
            .iter()
            .any(|footing| Node::Footing(footing.id) == it.node && matches!(footing.shape, FootingShape::Pad { .. }));
        if pad {
            sides(&corners).for_each(|(a, b)| sheet.words.keep_off_along(a, b, 1.0));
        }
        let wash = (!sheet.prints() && on_sheet).then_some(Fill::wash(Ink::Path, 0.12));
        sheet.polygon(corners.clone(), wash, Some(stroke));
    }
}

/// How much of the start's load comes to each wall and post: of the level on the sheet first, then of those below, a wall
/// that stands on another once.
fn shares(sheet: &mut Sheet, path: &Path) {
    let (here, from) = (sheet.level, from(sheet));
    let below: Vec<&Level> = sheet.plan.levels().iter().rev().skip_while(|level| level.id != here.id).collect();
    let mut written: Vec<Screen> = Vec::new();
    for level in below {
        let walls = bodies(level, &level.outlines(), &sheet.state.view);
        for it in path.down.iter().filter(|it| it.share.abs() >= WORTH_A_WORD && it.node != path.node) {
            let Some(corners) = outline(sheet, level, &walls, it.node, 3.0) else { continue };
            let middle = super::decks::middle(&corners);
            if matches!(it.node, Node::Wall(_)) && written.iter().any(|other| (*other - middle).length() < 6.0) {
                continue;
            }
            written.push(middle);
            // Which level a wall is on that only shows through; a post shows by its pad.
            let on = if level.id == here.id { "" } else { level.name.trim_end_matches(" floor") };
            share(sheet, it, &corners, from, on);
        }
    }
}

/// A share beside a wall or post.
fn share(sheet: &mut Sheet, it: &Reach, corners: &[Screen], from: Screen, on: &str) {
    let number = it.share * 100.0;
    let text = if number.abs() < 9.5 { format!("{number:.1} %") } else { format!("{number:.0} %") };
    let text = if on.is_empty() || !matches!(it.node, Node::Wall(_)) { text } else { format!("{text} {on}") };
    let half = super::labels::width(&text, TEXT) / 2.0;
    let [a, b, c, d] = corners else { return };
    let places: Vec<Screen> = match it.node {
        Node::Wall(_) => beside(a.middle(*d), b.middle(*c), (*a - *d).length() / 2.0, from, half),
        Node::Post(_) => {
            let (at, tall) = (a.middle(*c), (*a - *d).length() / 2.0);
            let up = [9.0, 17.0, 25.0].map(|by| tall + by).map(|by| [-by, by]).concat();
            let over = up.into_iter().map(|by| at + Screen::new(0.0, by));
            over.chain([half, -half].map(|by| at + Screen::new(by + by.signum() * (tall + 5.0), 0.0))).collect()
        }
        _ => return,
    };
    let Some(first) = places.first().copied() else { return };
    let text = label(first, &text, Ink::Path, TEXT);
    sheet.wish(Label { weight: Weight::Strong, ..text }, Rank::Figure, places);
}

/// Places beside a wall, as near as may be to where its load comes from, that side first.
fn beside(a: Screen, b: Screen, thick: f64, from: Screen, half: f64) -> Vec<Screen> {
    let (way, length) = ((b - a).unit(), (b - a).length());
    let left = way.left();
    let side = if (from - a).dot(left) < 0.0 { -1.0 } else { 1.0 };
    let near = (from - a).dot(way).clamp(0.0, length);
    // Half of the label's box as seen square to the wall.
    let off = thick + 3.0 + (half * left.x.abs()).max(8.0 * left.y.abs());
    let steps = [0.0, 26.0, -26.0, 52.0, -52.0, 90.0, -90.0];
    // A figure longer than its wall stands at the wall's middle.
    let inset = half.min(length / 2.0);
    let at = |side: f64, step: f64| a + way * (near + step).clamp(inset, length - inset) + left * (side * off);
    [side, -side].into_iter().flat_map(|side| steps.map(|step| at(side, step))).collect()
}

/// A wall with square ends, a little larger.
fn square(body: &Body, by: f64) -> Vec<Screen> {
    let [left, right] = body.faces;
    let (left, right, far) = (left.left + by, right.left - by, body.length + by);
    vec![body.at(-by, left), body.at(far, left), body.at(far, right), body.at(-by, right)]
}

/// A part as drawn, a little larger; none for what has no body of its own on the plan.
fn outline(sheet: &Sheet, level: &Level, walls: &[Body], node: Node, by: f64) -> Option<Vec<Screen>> {
    match node {
        Node::Wall(id) => walls.iter().find(|body| body.wall == id).map(|body| square(body, by)),
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
    let sides = [-half - 14.0, half + 14.0];
    let mut places = vec![place(-half - 14.0, 0.0), place(0.0, -22.0), place(0.0, 22.0)];
    places.extend(sides.iter().flat_map(|x| [-16.0, 16.0, -30.0, 30.0].map(|y| place(*x, y))));
    let text = Label { weight: Weight::Strong, ..label(place(half + 14.0, 0.0), &text, Ink::Path, TEXT) };
    sheet.wish(text, Rank::Figure, places);
}
