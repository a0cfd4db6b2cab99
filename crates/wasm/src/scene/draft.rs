//! What is half drawn, what it would snap to, and the cross of the keyboard.

use joistwise_core::geometry;
use joistwise_core::plan::Point;
use joistwise_core::tape;
use joistwise_core::units::Ticks;

use super::joists::arrow_head;
use super::labels::on_plate;
use super::members::strip;
use super::sheet::{LARGE, Sheet, TEXT, label};
use super::{Anchor, Label, Shape, Weight};
use crate::ink::{Dash, Fill, Ink, MEDIUM, Stroke, THIN, WIDE};
use crate::view::{Drafting, Screen, SnapMark, Tool};

/// Thickness at which a wall is shown while it is drawn: a 2x4 wall with board on both sides.
const WALL: Ticks = Ticks::from_sixteenths(4 * 16 + 8);

/// Draws what is half drawn.
pub(crate) fn drafting(sheet: &mut Sheet) {
    let stroke = Stroke::new(Ink::Draft, WIDE);
    match sheet.state.drafting.clone() {
        Drafting::Nothing => {}
        Drafting::Corners { set, next, closes } => corners(sheet, &set, next, closes),
        Drafting::Line { from, to } => {
            if sheet.state.tool == Tool::InsideWall {
                let thick = sheet.px(WALL.feet()).max(6.0);
                let body = strip(sheet.at(from), sheet.at(to), thick);
                sheet.polygon(body, Some(Fill::wash(Ink::Draft, 0.22)), Some(Stroke::new(Ink::Draft, THIN)));
            } else {
                sheet.line(sheet.at(from), sheet.at(to), stroke);
            }
            dot(sheet, from);
            dot(sheet, to);
            length(sheet, from, to);
        }
        Drafting::Arrow { from, to } => {
            let (a, b) = (sheet.at(from), sheet.at(to));
            sheet.line(a, b, stroke);
            if (b - a).length() > 12.0 {
                let way = (b - a).unit();
                sheet.lines([arrow_head(b, way), arrow_head(a, way * -1.0)].concat(), stroke);
            }
            length(sheet, from, to);
        }
        Drafting::Area { from, to } => area(sheet, from, to),
        Drafting::Dot { at } => dot(sheet, at),
    }
}

fn corners(sheet: &mut Sheet, set: &[Point], next: Point, closes: bool) {
    let mut points: Vec<Screen> = set.iter().map(|corner| sheet.at(*corner)).collect();
    if points.len() > 2 {
        let inside = points.iter().copied().chain([sheet.at(next)]).collect();
        sheet.polygon(inside, Some(Fill::wash(Ink::Draft, 0.06)), None);
    }
    sheet.trail(points.clone(), Stroke::new(Ink::Draft, WIDE));
    for (a, b) in set.iter().zip(set.iter().skip(1)) {
        length(sheet, *a, *b);
    }
    if let Some(last) = set.last() {
        let broken = Stroke::new(Ink::Draft, WIDE).dash(if closes { Dash::Solid } else { Dash::Dashed });
        sheet.line(sheet.at(*last), sheet.at(next), broken);
        length(sheet, *last, next);
    }
    if let Some(first) = set.first()
        && !closes
        && set.len() > 1
    {
        let faint = Stroke::new(Ink::Draft, THIN).dash(Dash::Hidden).faint(0.5);
        sheet.line(sheet.at(next), sheet.at(*first), faint);
    }
    points.truncate(set.len());
    for at in points {
        sheet.circle(at, 4.0, Some(Fill::new(Ink::Paper)), Some(Stroke::new(Ink::Draft, MEDIUM)));
    }
    dot(sheet, next);
}

fn area(sheet: &mut Sheet, from: Point, to: Point) {
    let corner = |x: Ticks, y: Ticks| sheet.at(Point::new(x, y));
    let points = vec![corner(from.x, from.y), corner(to.x, from.y), corner(to.x, to.y), corner(from.x, to.y)];
    sheet.polygon(points, Some(Fill::wash(Ink::Draft, 0.1)), Some(Stroke::new(Ink::Draft, MEDIUM).dash(Dash::Dashed)));
    length(sheet, from, Point::new(to.x, from.y));
    length(sheet, Point::new(to.x, from.y), to);
}

fn dot(sheet: &mut Sheet, at: Point) {
    let at = sheet.at(at);
    sheet.circle(at, 4.0, Some(Fill::new(Ink::Draft)), Some(Stroke::new(Ink::Paper, THIN)));
}

/// The length of a line, on a plate beside its middle.
fn length(sheet: &mut Sheet, from: Point, to: Point) {
    let (a, b) = (sheet.at(from), sheet.at(to));
    if (b - a).length() < 16.0 {
        return;
    }
    let length = Ticks::from_decimal_feet(geometry::length(from, to)).unwrap_or_default();
    let text = tape::print(length, sheet.state.tape);
    // Above a level line, right of an upright one: clear of the hand that draws.
    let off = (b - a).unit().readable().left();
    let upright = off.x.abs() > 0.5;
    let way = if upright { off * (if off.x > 0.0 { 1.0 } else { -1.0 }) } else { off };
    let far = if upright { 14.0 + super::labels::width(&text, LARGE) / 2.0 } else { 18.0 };
    let label = Label { weight: Weight::Strong, ..label(a.middle(b) + way * far, &text, Ink::Draft, LARGE) };
    for shape in on_plate(label) {
        sheet.draw(shape);
    }
}

/// Marks what a point would snap to, with its word and the line that it is in line with.
pub(crate) fn snap(sheet: &mut Sheet) {
    let Some(SnapMark { at, word, guide }) = sheet.state.snap else {
        return;
    };
    if let Some((from, to)) = guide {
        let dash = Stroke::new(Ink::Snap, THIN).dash(Dash::Centre);
        sheet.line(sheet.at(from), sheet.at(to), dash);
    }
    let at = sheet.at(at);
    let diamond = [(0.0, -7.0), (7.0, 0.0), (0.0, 7.0), (-7.0, 0.0)];
    let points = diamond.iter().map(|(x, y)| at + Screen::new(*x, *y)).collect();
    sheet.polygon(points, None, Some(Stroke::new(Ink::Snap, MEDIUM)));
    if !word.is_empty() {
        let wide = super::labels::width(word, TEXT);
        let right = at.x + 18.0 + wide < sheet.state.view.width;
        let (x, anchor) = if right { (16.0, Anchor::Start) } else { (-16.0, Anchor::End) };
        let y = if at.y > 40.0 { -18.0 } else { 20.0 };
        let label = Label { anchor, ..label(at + Screen::new(x, y), word, Ink::Snap, TEXT) };
        for shape in on_plate(label) {
            sheet.draw(shape);
        }
    }
}

/// Draws the cross of the keyboard.
pub(crate) fn key_cursor(sheet: &mut Sheet) {
    let Some(at) = sheet.state.key_cursor.map(|at| sheet.at(at)) else {
        return;
    };
    let ways = [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)];
    let arms = |from: f64, to: f64| {
        ways.iter().map(|(x, y)| [at + Screen::new(*x, *y) * from, at + Screen::new(*x, *y) * to]).collect()
    };
    sheet.draw(Shape::Lines { pieces: arms(4.0, 18.0), stroke: Stroke::new(Ink::Paper, 4.0) });
    sheet.draw(Shape::Lines { pieces: arms(4.0, 18.0), stroke: Stroke::new(Ink::Key, WIDE) });
}
