//! Dimension strings outside the plan, scale bar and north arrow, as drafting practice has them.
//!
//! Strings are continuous and outside the plan, the overall one outermost; text above or left of the line; 45 degree
//! ticks; extension lines that start off the object and pass the line.

use joistwise_core::order::InOrder as _;
use joistwise_core::plan::{Point, Side};
use joistwise_core::tape::{self, Tape};
use joistwise_core::units::{Feet, Ticks};

use super::Shape;
use super::labels::{Box, Rank, width};
use super::sheet::{LARGE, SMALL, Sheet, TEXT, along, label};
use crate::ink::{FINE, Fill, Ink, MEDIUM, Stroke, THIN};
use crate::view::Screen;

/// From the plan to the first string, in CSS pixels.
const FIRST: f64 = 30.0;
/// From one string to the next.
const APART: f64 = 24.0;
/// From the object to where an extension line starts, and from its dimension line to where it ends.
const OFF: f64 = 7.0;

/// A string of dimensions: stops along x or y, at a place of the canvas.
struct Run<'a> {
    stops: &'a [Ticks],
    /// Whether it runs across the sheet (else up it).
    level: bool,
    /// Its y if level, its x if not.
    at: f64,
    /// Where the object ends on its side.
    object: f64,
}

/// Draws overall length and width, the steps of an outline that has any, scale bar and north arrow.
pub(crate) fn dimensions(sheet: &mut Sheet) {
    let Some((xs, ys)) = stops(sheet) else {
        return;
    };
    let (Some(&west), Some(&east), Some(&south), Some(&north)) = (xs.first(), xs.last(), ys.first(), ys.last()) else {
        return;
    };
    let low = sheet.at(Point::new(west, south));
    let high = sheet.at(Point::new(east, north));
    let (over_below, over_beside) = overhangs(sheet);
    let mut below = low.y + FIRST.max(over_below + 26.0);
    let mut beside = low.x - FIRST.max(over_beside + 26.0);
    if xs.len() > 2 {
        string(sheet, &Run { stops: &xs, level: true, at: below, object: low.y });
        below += APART;
    }
    string(sheet, &Run { stops: &[west, east], level: true, at: below, object: low.y });
    if ys.len() > 2 {
        string(sheet, &Run { stops: &ys, level: false, at: beside, object: low.x });
        beside -= APART;
    }
    string(sheet, &Run { stops: &[south, north], level: false, at: beside, object: low.x });
    scale_bar(sheet, Screen::new(low.x, below + 30.0), high.x);
}

/// Every x and every y at which the outline of the level has a corner; of all walls if no outline closes.
fn stops(sheet: &Sheet) -> Option<(Vec<Ticks>, Vec<Ticks>)> {
    let mut corners: Vec<Point> = sheet.outlines.iter().flatten().copied().collect();
    if corners.is_empty() {
        let outside = |side: Side| sheet.level.walls.iter().filter(move |wall| wall.side == side);
        corners = outside(Side::Outside).chain(outside(Side::Inside)).flat_map(|wall| [wall.a, wall.b]).collect();
        let ends = |all: Vec<Ticks>| -> Option<Vec<Ticks>> { Some(vec![*all.iter().min()?, *all.iter().max()?]) };
        let xs = ends(corners.iter().map(|corner| corner.x).collect())?;
        let ys = ends(corners.iter().map(|corner| corner.y).collect())?;
        return Some((xs, ys));
    }
    let sorted = |mut all: Vec<Ticks>| {
        all.order();
        all.dedup();
        all
    };
    let xs = sorted(corners.iter().map(|corner| corner.x).collect());
    Some((xs, sorted(corners.iter().map(|corner| corner.y).collect())))
}

/// The widest eave below the plan and the widest beside it, in CSS pixels: eaves lie along the ridge.
fn overhangs(sheet: &Sheet) -> (f64, f64) {
    let widest = |level: bool| {
        let roofs = sheet.level.roofs.iter().filter(|roof| {
            let (dx, dy) = roof.ridge.parts();
            if level { dx != 0 } else { dy != 0 }
        });
        roofs.map(|roof| sheet.px(roof.overhang.feet())).fold(0.0, f64::max)
    };
    (widest(true), widest(false))
}

fn string(sheet: &mut Sheet, string: &Run) {
    let place = |stop: Ticks, across: f64| {
        let spot = sheet.at(Point::new(stop, stop));
        if string.level { Screen::new(spot.x, across) } else { Screen::new(across, spot.y) }
    };
    // Away from the object: down for a level string, to the left for an upright one.
    let out = if string.level { 1.0 } else { -1.0 };
    let places: Vec<Screen> = string.stops.iter().map(|stop| place(*stop, string.at)).collect();
    let extensions: Vec<[Screen; 2]> = string
        .stops
        .iter()
        .map(|stop| [place(*stop, string.object + out * OFF), place(*stop, string.at + out * OFF)])
        .collect();
    let slant = Screen::new(4.5, -4.5);
    let ticks: Vec<[Screen; 2]> = places.iter().map(|at| [*at - slant, *at + slant]).collect();
    let way = if string.level { Screen::new(1.0, 0.0) } else { Screen::new(0.0, -1.0) };
    let mut texts = Vec::new();
    for (pair, ends) in string.stops.windows(2).zip(places.windows(2)) {
        let ([from, to], [a, b]) = (pair, ends) else { continue };
        if *to == *from {
            continue;
        }
        let text = tape::print(*to - *from, sheet.state.tape);
        if (*b - *a).length() > width(&text, LARGE) + 6.0 {
            // Text above a level line, left of an upright one.
            let middle = a.middle(*b) + way.left() * 11.0;
            texts.push(along(label(middle, &text, Ink::Dimension, LARGE), way));
        }
    }
    let line = places.first().copied().zip(places.last().copied());
    sheet.lines(extensions, Stroke::new(Ink::Dimension, FINE).faint(0.6));
    if let Some((a, b)) = line {
        sheet.line(a, b, Stroke::new(Ink::Dimension, THIN));
        sheet.words.keep_off(Box::around(&[a, b], 1.0));
    }
    sheet.lines(ticks, Stroke::new(Ink::Dimension, MEDIUM));
    for text in texts {
        sheet.wish(text, Rank::Dimension, Vec::new());
    }
}

/// A bar of two equal parts with round lengths, and the north arrow beside it; kept on the canvas.
fn scale_bar(sheet: &mut Sheet, wanted: Screen, right: f64) {
    let view = sheet.state.view;
    let (parts, unit, per_unit): (&[f64], &str, f64) = match sheet.state.tape {
        Tape::Feet => (&[0.5, 1.0, 2.0, 4.0, 8.0, 16.0, 32.0], "ft", 1.0),
        Tape::Metric => (&[0.1, 0.25, 0.5, 1.0, 2.0, 5.0, 10.0], "m", 1.0 / 0.3048),
    };
    let px = |part: f64| sheet.px(Feet(part * per_unit));
    let Some(part) = parts.iter().copied().find(|part| px(*part) >= 34.0).or(parts.last().copied()) else {
        return;
    };
    let step = px(part);
    let lowest = view.height - sheet.state.covered_below - 26.0;
    let at = Screen::new(wanted.x.clamp(14.0, (view.width - 2.0 * step - 70.0).max(14.0)), wanted.y.min(lowest));
    let bar = |from: f64, to: f64| {
        let corner = |x: f64, y: f64| at + Screen::new(x, y);
        vec![corner(from, 0.0), corner(to, 0.0), corner(to, 5.0), corner(from, 5.0)]
    };
    let edge = Some(Stroke::new(Ink::Dimension, THIN));
    sheet.polygon(bar(0.0, step), Some(Fill::new(Ink::Dimension)), edge);
    sheet.polygon(bar(step, 2.0 * step), Some(Fill::new(Ink::Paper)), edge);
    let texts = [(0.0, "0".to_owned()), (step, format!("{part}")), (2.0 * step, format!("{} {unit}", part * 2.0))];
    for (x, text) in texts {
        sheet.draw(Shape::Label(label(at + Screen::new(x, 15.0), &text, Ink::Dimension, SMALL)));
    }
    sheet.words.keep_off(Box::around(&[at, at + Screen::new(2.0 * step + 14.0, 22.0)], 3.0));
    let beside = (at.x + 2.0 * step + 44.0).max(right - 8.0);
    let north = Screen::new(beside.min(view.width - 18.0), at.y + 6.0);
    north_arrow(sheet, north);
}

fn north_arrow(sheet: &mut Sheet, at: Screen) {
    let place = |x: f64, y: f64| at + Screen::new(x, y);
    let half = vec![place(0.0, -15.0), place(0.0, 7.0), place(-6.0, 12.0)];
    let other = vec![place(0.0, -15.0), place(6.0, 12.0), place(0.0, 7.0)];
    let edge = Some(Stroke::new(Ink::Dimension, THIN));
    sheet.polygon(half, Some(Fill::new(Ink::Dimension)), edge);
    sheet.polygon(other, Some(Fill::new(Ink::Paper)), edge);
    sheet.draw(Shape::Label(label(place(0.0, -22.0), "N", Ink::Dimension, TEXT)));
    sheet.words.keep_off(Box::around(&[place(-7.0, -28.0), place(7.0, 13.0)], 1.0));
}
