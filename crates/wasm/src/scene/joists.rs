//! Joist fields: the joists where they really lie, and an arrow with their size, spacing and laps.

use joistwise_core::geometry::{Frame, Spot};
use joistwise_core::ids::FieldId;
use joistwise_core::order::InOrder as _;
use joistwise_core::plan::{Joints, JoistField, Level, Point};
use joistwise_core::trace::{Laid, LaidAs, Node};
use joistwise_core::units::Feet;

use super::labels::{Rank, width};
use super::sheet::{SMALL, Sheet, along, label};
use crate::ink::{FINE, Ink, Stroke, THIN};
use crate::view::Screen;

/// Joists nearer to each other than this many CSS pixels are not drawn one by one.
const TOO_NEAR: f64 = 9.0;
/// From this width on, a joist is drawn with both its edges.
const TWO_EDGES: f64 = 4.0;
/// Length of an arrow head.
const HEAD: f64 = 9.0;

/// Draws the joists of every field.
pub(crate) fn joists(sheet: &mut Sheet) {
    let level = sheet.level;
    for field in &level.fields {
        let apart = sheet.px(field.spacing.feet());
        if apart < TOO_NEAR {
            continue;
        }
        let share = ((apart - TOO_NEAR) / 16.0).clamp(0.35, 1.0);
        let laid: Vec<&Laid> = members(sheet, field.id).collect();
        let lines = |sheet: &Sheet, edges: f64| -> Vec<[Screen; 2]> {
            let single = laid.iter().filter(|joist| matches!(joist.laid_as, LaidAs::Joist | LaidAs::Tail));
            single.flat_map(|joist| edges_of(sheet, joist, edges)).collect()
        };
        let wide = sheet.px(super::members::member_width(&field.member));
        let edges = if wide >= TWO_EDGES { wide } else { 0.0 };
        let pieces = lines(sheet, edges);
        sheet.lines(pieces, Stroke::new(Ink::Joist, FINE).faint(0.55 * share));
        // Beside an opening in the deck joists are doubled, and drawn so.
        let doubled = laid.iter().filter(|joist| joist.laid_as == LaidAs::Trimmer);
        let pieces = doubled.flat_map(|joist| edges_of(sheet, joist, (wide * 2.0).max(4.0))).collect();
        sheet.lines(pieces, Stroke::new(Ink::FloorOpening, THIN));
        let laps: Vec<[Screen; 2]> = laid.iter().flat_map(|joist| laps(sheet, joist)).collect();
        sheet.lines(laps, Stroke::new(Ink::Joist, THIN).faint(share));
    }
}

fn members<'a>(sheet: &Sheet<'a>, field: FieldId) -> impl Iterator<Item = &'a Laid> {
    sheet.trace.members.iter().filter(move |laid| laid.of == Node::Field(field))
}

/// A joist as one line, or as two lines that far apart.
fn edges_of(sheet: &Sheet, joist: &Laid, apart: f64) -> Vec<[Screen; 2]> {
    let (a, b) = (sheet.at(joist.a), sheet.at(joist.b));
    if apart <= 0.0 {
        return vec![[a, b]];
    }
    let off = (b - a).unit().left() * (apart / 2.0);
    vec![[a + off, b + off], [a - off, b - off]]
}

/// Two short lines side by side where a joist laps.
fn laps(sheet: &Sheet, joist: &Laid) -> Vec<[Screen; 2]> {
    let way = (sheet.at(joist.b) - sheet.at(joist.a)).unit();
    joist.laps.iter().flat_map(|lap| double_tick(sheet.at(*lap), way, 6.0, 1.5)).collect()
}

fn double_tick(at: Screen, way: Screen, half: f64, off: f64) -> [[Screen; 2]; 2] {
    let (half, off) = (way * half, way.left() * off);
    [[at - half * 1.4 + off, at + half * 0.6 + off], [at - half * 0.6 - off, at + half * 1.4 - off]]
}

/// The arrow of a field: the way its joists run, from edge to edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Arrow {
    pub(crate) a: Spot,
    pub(crate) b: Spot,
}

/// Where the arrows of a field are drawn, one for each polygon that it covers; from the plan alone, so that the pointer
/// finds them before anything is traced.
pub(crate) fn arrows(level: &Level, field: &JoistField) -> Vec<Arrow> {
    let frame = Frame::of(field.along);
    let later = level.fields.iter().skip_while(|other| other.id != field.id).skip(1);
    let covered: Vec<Vec<Point>> = later.flat_map(|other| level.polygons(&other.region)).collect();
    level.polygons(&field.region).iter().filter_map(|corners| arrow(level, corners, &frame, &covered)).collect()
}

fn arrow(level: &Level, corners: &[Point], frame: &Frame, covered: &[Vec<Point>]) -> Option<Arrow> {
    let (low, high) = across_extent(corners, frame)?;
    let shares = [0.84, 0.16, 0.72, 0.28, 0.6, 0.4, 0.5];
    let at = |share: f64| {
        let across = low + (high - low) * share;
        let longest = intervals(corners, frame, across)
            .into_iter()
            .max_by(|(a, b), (c, d)| (*b - *a).0.total_cmp(&(*d - *c).0))?;
        let middle = frame.spot((longest.0 + longest.1) / 2.0, across);
        let hidden = covered.iter().any(|corners| inside(corners, middle));
        let crowd = level.walls.iter().filter(|wall| {
            let (a, b) = (frame.local(wall.a.into()), frame.local(wall.b.into()));
            (a.1 - b.1).abs() < Feet(0.5) && (a.1 - across).abs() < Feet(1.5)
        });
        let cost = usize::from(hidden) * 100 + crowd.count();
        Some((cost, Arrow { a: frame.spot(longest.0, across), b: frame.spot(longest.1, across) }))
    };
    shares.iter().filter_map(|share| at(*share)).min_by_key(|(cost, _)| *cost).map(|(_, arrow)| arrow)
}

/// The least and the greatest distance across a frame of some corners.
pub(crate) fn across_extent(corners: &[Point], frame: &Frame) -> Option<(Feet, Feet)> {
    let across = || corners.iter().map(|corner| frame.local((*corner).into()).1);
    let low = across().reduce(Feet::min)?;
    let high = across().reduce(Feet::max)?;
    Some((low, high))
}

/// Where a line along a frame, so far across it, is inside a polygon: from and to along the frame.
pub(crate) fn intervals(corners: &[Point], frame: &Frame, across: Feet) -> Vec<(Feet, Feet)> {
    let local: Vec<(Feet, Feet)> = corners.iter().map(|corner| frame.local((*corner).into())).collect();
    let ends = local.iter().copied().zip(local.iter().copied().cycle().skip(1));
    let mut places: Vec<Feet> = ends
        .filter(|(a, b)| (a.1 > across) != (b.1 > across))
        .map(|(a, b)| a.0 + (b.0 - a.0) * ((across - a.1) / (b.1 - a.1)))
        .collect();
    places.order_by(|a, b| a.0.total_cmp(&b.0));
    places.chunks_exact(2).filter_map(|pair| if let [a, b] = pair { Some((*a, *b)) } else { None }).collect()
}

fn inside(corners: &[Point], at: Spot) -> bool {
    let frame = Frame::of(joistwise_core::plan::Way::X);
    intervals(corners, &frame, at.y).iter().any(|(from, to)| *from < at.x && at.x < *to)
}

/// Draws the arrow of each field, with its words, and a double tick where its joists lap.
pub(crate) fn span_arrows(sheet: &mut Sheet) {
    let level = sheet.level;
    for field in &level.fields {
        for arrow in arrows(level, field) {
            draw_arrow(sheet, field, arrow);
        }
    }
}

fn draw_arrow(sheet: &mut Sheet, field: &JoistField, arrow: Arrow) {
    let (a, b) = (sheet.at(arrow.a), sheet.at(arrow.b));
    let (way, length) = ((b - a).unit(), (b - a).length());
    if length < 40.0 {
        return;
    }
    let inset = (length * 0.06).clamp(8.0, 18.0);
    let stops = stops(sheet, field, arrow, length);
    let stroke = Stroke::new(Ink::Caption, THIN);
    let text = words(sheet, field);
    for pair in stops.windows(2) {
        let [from, to] = pair else { continue };
        let (from, to) = (from + inset, to - inset);
        if to - from < 2.5 * HEAD {
            continue;
        }
        let (tail, head) = (a + way * from, a + way * to);
        sheet.line(tail, head, stroke);
        sheet.lines([arrow_head(tail, way * -1.0), arrow_head(head, way)].concat(), stroke);
        let off = way.readable().left() * 9.0;
        let Some((seen_from, seen_to)) = sheet.visible(tail, head) else { continue };
        let (middle, room) = (seen_from.middle(seen_to), (seen_to - seen_from).length());
        if room > width(&text, SMALL) + 10.0 {
            let text = along(label(middle + off, &text, Ink::Caption, SMALL), way);
            let third = way * ((room - width(&text.text, SMALL)) * 0.4);
            sheet.wish(
                text,
                Rank::Name,
                [(1.0, 1.0), (1.0, -1.0), (-1.0, 0.0), (-1.0, 1.0), (-1.0, -1.0)]
                    .map(|(side, shift)| middle + off * side + third * shift)
                    .to_vec(),
            );
        }
    }
    let inner = stops.iter().skip(1).rev().skip(1);
    if field.joints == Joints::Lap {
        let ticks = inner.flat_map(|at| double_tick(a + way * *at, way, 7.0, 2.0)).collect();
        sheet.lines(ticks, stroke);
    }
}

/// Where the joist nearest to an arrow bears, in CSS pixels along it; its two ends if none is laid.
fn stops(sheet: &Sheet, field: &JoistField, arrow: Arrow, length: f64) -> Vec<f64> {
    let frame = Frame::of(field.along);
    let (_, level) = frame.local(arrow.a);
    let (start, _) = frame.local(arrow.a);
    let off = |laid: &Laid| (frame.local(laid.a).1 - level).abs();
    let mut near: Vec<&Laid> = members(sheet, field.id)
        .filter(|laid| laid.laid_as == LaidAs::Joist && off(laid) <= field.spacing.feet())
        .collect();
    near.order_by(|one, two| off(one).0.total_cmp(&off(two).0));
    let mut stops = vec![0.0, length];
    let nearest = near.first().map(|laid| off(laid));
    // Pieces that lap lie on one line: all that are as near as the nearest.
    for laid in near.iter().filter(|laid| nearest.is_some_and(|nearest| off(laid) - nearest < Feet(0.2))) {
        stops.extend(laid.bears.iter().map(|spot| sheet.px(frame.local(*spot).0 - start)));
    }
    stops.retain(|at| *at >= 0.0 && *at <= length);
    stops.order_by(f64::total_cmp);
    // Bearings near an edge are the edge.
    let far = |at: f64| at > 20.0 && at < length - 20.0;
    let mut kept = vec![0.0];
    for at in stops {
        if far(at) && kept.last().is_some_and(|last| at - last > 20.0) {
            kept.push(at);
        }
    }
    kept.push(length);
    kept
}

fn words(sheet: &Sheet, field: &JoistField) -> String {
    let size = if field.member.is_seen() { field.member.to_string() } else { "joists".to_owned() };
    let inches = field.spacing.inches();
    let spacing = match sheet.state.tape {
        joistwise_core::tape::Tape::Feet => format!("{} in", joistwise_core::tape::in_fraction(field.spacing)),
        joistwise_core::tape::Tape::Metric => format!("{:.0} mm", inches * 25.4),
    };
    let joints = match field.joints {
        Joints::NotSeen => ", laps not seen",
        Joints::Lap => ", lap",
        Joints::RunThrough => ", run through",
    };
    format!("{size} at {spacing}{joints}")
}

/// The two barbs of an open arrow head whose point is at `tip`.
pub(crate) fn arrow_head(tip: Screen, way: Screen) -> Vec<[Screen; 2]> {
    let (back, side) = (way * HEAD, way.left() * (HEAD * 0.5));
    vec![[tip, tip - back + side], [tip, tip - back - side]]
}
