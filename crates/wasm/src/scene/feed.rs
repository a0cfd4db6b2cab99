//! What feeds the chosen wall or beam: a strip from its line to mid-span on each side, with its widths.

use joistwise_core::ids::ElementId;
use joistwise_core::trace::{Feed, LinePart, Origin, PointLoad};
use joistwise_core::units::Feet;

use super::joists::arrow_head;
use super::labels::Rank;
use super::members::member_width;
use super::sheet::{LARGE, Sheet, TEXT, along, label};
use super::{Label, Weight};
use crate::ink::{Dash, FINE, Fill, Ink, Stroke, THIN, role_of};
use crate::view::Screen;

/// A wall or a beam as something that is fed and loaded along its line.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Carrier<'a> {
    a: Screen,
    along: Screen,
    left: Screen,
    /// From end to end in CSS pixels.
    pub(crate) length: f64,
    /// How far left of its line its two faces lie, the left one first.
    pub(crate) faces: [f64; 2],
    pub(crate) feeds: &'a [Feed],
    pub(crate) line: &'a [LinePart],
    pub(crate) points: &'a [PointLoad],
}

impl<'a> Carrier<'a> {
    /// A wall or beam of the level, with what the trace says of it; none for other parts, or before it is traced.
    pub(crate) fn of(sheet: &Sheet<'a>, part: ElementId) -> Option<Self> {
        match part {
            ElementId::Wall(id) => {
                let (body, traced) = (sheet.body(part)?, sheet.trace.wall(id)?);
                let faces = body.faces.map(|face| face.left);
                let (a, along, left, length) = (body.a, body.along, body.left, body.length);
                Some(Self {
                    a,
                    along,
                    left,
                    length,
                    faces,
                    feeds: &traced.feeds,
                    line: &traced.line,
                    points: &traced.points,
                })
            }
            ElementId::Beam(id) => {
                let beam = sheet.level.beams.iter().find(|beam| beam.id == id)?;
                let traced = sheet.trace.beam(id)?;
                let (a, b) = (sheet.at(beam.a), sheet.at(beam.b));
                let half = sheet.px(member_width(&beam.member)).max(5.0) / 2.0;
                let along = (b - a).unit();
                Some(Self {
                    a,
                    along,
                    left: along.left(),
                    length: (b - a).length(),
                    faces: [half, -half],
                    feeds: &traced.feeds,
                    line: &traced.line,
                    points: &traced.points,
                })
            }
            _ => None,
        }
    }

    /// The place so far along its line and so far to the left of it, in CSS pixels.
    pub(crate) fn at(&self, along: f64, left: f64) -> Screen {
        self.a + self.along * along + self.left * left
    }

    /// The way from its end `a` to its end `b`.
    pub(crate) const fn way(&self) -> Screen {
        self.along
    }

    /// Its left.
    pub(crate) const fn left(&self) -> Screen {
        self.left
    }
}

/// All that one origin feeds a line at its most loaded place.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Widest {
    origin: Origin,
    run: (Feet, Feet),
    left: Feet,
    right: Feet,
    /// Whether the width differs along the line.
    varies: bool,
}

/// Draws what feeds the chosen wall or beam.
pub(crate) fn feed(sheet: &mut Sheet) {
    let Some(carrier) = sheet.state.chosen.and_then(|part| Carrier::of(sheet, part)) else {
        return;
    };
    for feed in carrier.feeds {
        strip(sheet, &carrier, feed);
    }
    let origins = [Origin::Roof, Origin::Floor, Origin::Ceiling];
    let widest: Vec<Widest> = origins.iter().filter_map(|origin| widest(carrier.feeds, *origin)).collect();
    let alone = widest.len() == 1;
    let mut place = 16.0;
    for (row, one) in widest.iter().enumerate() {
        let from = sheet.px(one.run.0);
        let at = (from + place).min(from.midpoint(sheet.px(one.run.1)));
        arrows(sheet, &carrier, one, at);
        title(sheet, &carrier, one, row, alone);
        place += 26.0;
    }
}

fn strip(sheet: &mut Sheet, carrier: &Carrier, feed: &Feed) {
    let ink = Ink::Feed(role_of(feed.origin));
    let (from, to) = (sheet.px(feed.start), sheet.px(feed.end));
    let (left, right) = (sheet.px(feed.left), -sheet.px(feed.right));
    if left - right < 1.0 {
        return;
    }
    let corners = vec![carrier.at(from, left), carrier.at(to, left), carrier.at(to, right), carrier.at(from, right)];
    let wash = if sheet.prints() { None } else { Some(Fill::wash(ink, 0.07)) };
    let edge = Stroke::new(ink, THIN).dash(Dash::Dashed).faint(0.8);
    sheet.polygon(corners.clone(), wash, Some(edge));
    // Each origin has a hatch of its own way, so that two over each other can be told apart.
    let (way, spacing) = match feed.origin {
        Origin::Roof => (Screen::new(1.0, 1.0), 13.0),
        Origin::Floor => (Screen::new(1.0, -2.0), 11.0),
        Origin::Ceiling => (Screen::new(1.0, -1.0), 11.0),
    };
    sheet.hatch(&corners, way, spacing, Stroke::new(ink, FINE).faint(0.38));
}

fn widest(feeds: &[Feed], origin: Origin) -> Option<Widest> {
    let own = || feeds.iter().filter(|feed| feed.origin == origin && feed.width() > Feet(0.01));
    let at = |place: Feet| {
        let here = own().filter(|feed| feed.start <= place && place <= feed.end);
        here.fold((Feet::ZERO, Feet::ZERO), |(left, right), feed| (left + feed.left, right + feed.right))
    };
    let all: Vec<(Feet, Feet, Feet, Feet)> = own()
        .map(|feed| {
            let (left, right) = at((feed.start + feed.end) / 2.0);
            (feed.start, feed.end, left, right)
        })
        .collect();
    let width = |one: &(Feet, Feet, Feet, Feet)| one.2 + one.3;
    let most = all.iter().max_by(|a, b| width(a).0.total_cmp(&width(b).0))?;
    let varies = all.iter().any(|one| (width(one) - width(most)).abs() > Feet(0.1));
    Some(Widest { origin, run: (most.0, most.1), left: most.2, right: most.3, varies })
}

/// A dimension arrow on each side of the line, from it to mid-span, with its width.
fn arrows(sheet: &mut Sheet, carrier: &Carrier, widest: &Widest, at: f64) {
    let ink = Ink::Feed(role_of(widest.origin));
    let stroke = Stroke::new(ink, THIN);
    let [left_face, right_face] = carrier.faces;
    for (width, face, way) in [(widest.left, left_face, 1.0), (widest.right, right_face, -1.0)] {
        let far = sheet.px(width) * way;
        let long = (far - face) * way;
        if long < 14.0 {
            continue;
        }
        let (from, to) = (carrier.at(at, face + 2.0 * way), carrier.at(at, far));
        let out = (to - from).unit();
        sheet.line(from, to, stroke);
        sheet.lines([small_head(to, out), small_head(from, out * -1.0)].concat(), stroke);
        let text = sheet.tape(width);
        let place = |share: f64, side: f64| from + (to - from) * share + carrier.way() * (9.0 * side);
        let text = along(label(place(0.5, 1.0), &text, ink, TEXT), out);
        let text = Label { weight: Weight::Strong, ..text };
        let places = [(0.5, -1.0), (0.7, 1.0), (0.3, 1.0), (0.8, 1.0)];
        sheet.wish(text, Rank::Figure, places.iter().map(|(share, side)| place(*share, *side)).collect());
    }
}

fn small_head(tip: Screen, way: Screen) -> Vec<[Screen; 2]> {
    let reach = tip - way * 5.0;
    arrow_head(tip, way).into_iter().map(|[tip, barb]| [tip, tip + (barb - tip) * 0.6]).chain([[tip, reach]]).collect()
}

/// What the strip is, in words, at its outer edge.
fn title(sheet: &mut Sheet, carrier: &Carrier, widest: &Widest, row: usize, alone: bool) {
    let what = match widest.origin {
        Origin::Roof => "roof",
        Origin::Floor => "floor",
        Origin::Ceiling => "ceiling",
    };
    let this = if matches!(sheet.state.chosen, Some(ElementId::Beam(_))) { "beam" } else { "wall" };
    let most = if widest.varies { "up to " } else { "" };
    let width = sheet.tape(widest.left + widest.right);
    let text = if alone {
        format!("feeds this {this}: {most}{width} wide")
    } else {
        format!("{what} feeds this {this}: {most}{width} wide")
    };
    let middle = sheet.px(widest.run.0).midpoint(sheet.px(widest.run.1));
    let rows = f64::from(u32::try_from(row).unwrap_or(0));
    let (left, right) = (sheet.px(widest.left), -sheet.px(widest.right));
    let upright = carrier.way().x.abs() < 0.5;
    let (way, step) = (carrier.way(), 17.0);
    let place = |along: f64, off: f64| carrier.at(along, off);
    let inset = 14.0 + rows * step;
    // Beside the edge of the strip, inside first; the upper or left side before the other.
    let (near, far) = if carrier.left().y < -0.1 || carrier.left().x < -0.5 {
        ((left, -1.0), (right, 1.0))
    } else {
        ((right, 1.0), (left, -1.0))
    };
    let ink = Ink::Feed(role_of(widest.origin));
    let first = place(middle, near.0 + near.1 * inset);
    let text = Label { weight: Weight::Strong, ..label(first, &text, ink, LARGE) };
    let text = if upright { along(text, way) } else { text };
    let quarter = (sheet.px(widest.run.1) - sheet.px(widest.run.0)) * 0.22;
    let mut places = Vec::new();
    for (edge, inward) in [near, far] {
        for off in [inset, inset + step, -12.0 - rows * step] {
            for shift in [0.0, quarter, -quarter] {
                places.push(place(middle + shift, edge + inward * off));
            }
        }
    }
    sheet.wish(text, Rank::Figure, places);
}
