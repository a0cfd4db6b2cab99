//! What feeds the chosen wall or beam: a strip from its line to mid-span on each side, with its widths.

use joistwise_core::ids::ElementId;
use joistwise_core::order::InOrder as _;
use joistwise_core::trace::{Feed, LinePart, Origin, PointLoad};
use joistwise_core::units::Feet;

use super::joists::{arrow_head, arrows as span_arrows};
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

    /// The part of a run along its line that is on the canvas, in CSS pixels along it.
    pub(crate) fn seen(&self, sheet: &Sheet, from: f64, to: f64) -> Option<(f64, f64)> {
        let (a, b) = sheet.visible(self.at(from, 0.0), self.at(to, 0.0))?;
        Some(((a - self.a).length(), (b - self.a).length()))
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

/// A run along a line with one width on each side, all of one origin.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Run {
    start: Feet,
    end: Feet,
    left: Feet,
    right: Feet,
}

impl Run {
    fn width(&self) -> Feet {
        self.left + self.right
    }

    fn length(&self) -> Feet {
        self.end - self.start
    }
}

/// Draws what feeds the chosen wall or beam.
pub(crate) fn feed(sheet: &mut Sheet) {
    let Some(carrier) = sheet.state.chosen.and_then(|part| Carrier::of(sheet, part)) else {
        return;
    };
    let mut place = 16.0;
    let origins = [Origin::Roof, Origin::Floor, Origin::Ceiling];
    let fed: Vec<(Origin, Vec<Run>)> = origins
        .into_iter()
        .map(|origin| (origin, runs(carrier.feeds, origin)))
        .filter(|(_, runs)| !runs.is_empty())
        .collect();
    for (origin, runs) in &fed {
        for connected in runs.chunk_by(|one, next| next.start - one.end < Feet(0.04)) {
            strip(sheet, &carrier, *origin, connected);
        }
    }
    for (row, (origin, runs)) in fed.iter().enumerate() {
        let Some(widest) = widest(runs) else { continue };
        let (from, to) = (sheet.px(widest.start), sheet.px(widest.end));
        let ink = Ink::Feed(role_of(*origin));
        let varies = runs.iter().any(|run| (run.width() - widest.width()).abs() > Feet(0.1));
        let text = words(sheet, *origin, &widest, varies, fed.len() == 1);
        title(sheet, &carrier, &widest, row, &text, ink);
        let at = beside_span_arrows(sheet, &carrier, from + place);
        arrows(sheet, &carrier, &widest, at.min(from.midpoint(to)), ink);
        place += 26.0;
    }
}

/// The runs that one origin feeds, from end `a` on. Where fields meet, the runs of both reach half a joist over; the
/// strip is as wide there as the wider of them.
fn runs(feeds: &[Feed], origin: Origin) -> Vec<Run> {
    let own: Vec<&Feed> = feeds.iter().filter(|feed| feed.origin == origin && feed.width() > Feet(0.01)).collect();
    let mut stops: Vec<Feet> = own.iter().flat_map(|feed| [feed.start, feed.end]).collect();
    stops.order_by(|a, b| a.0.total_cmp(&b.0));
    let mut runs: Vec<Run> = Vec::new();
    for pair in stops.windows(2) {
        let [start, end] = pair else { continue };
        let (start, end) = (*start, *end);
        let middle = (start + end) / 2.0;
        let here = || own.iter().filter(move |feed| feed.start <= middle && middle <= feed.end);
        let left = here().map(|feed| feed.left).fold(Feet::ZERO, Feet::max);
        let right = here().map(|feed| feed.right).fold(Feet::ZERO, Feet::max);
        if end - start < Feet(0.01) || left + right < Feet(0.01) {
            continue;
        }
        let alike = |a: Feet, b: Feet| (a - b).abs() < Feet(0.04);
        match runs.last_mut() {
            Some(last) if alike(last.left, left) && alike(last.right, right) && alike(last.end, start) => {
                last.end = end;
            }
            _ => runs.push(Run { start, end, left, right }),
        }
    }
    runs
}

/// The longest of the widest runs.
fn widest(runs: &[Run]) -> Option<Run> {
    let most = runs.iter().map(Run::width).fold(Feet::ZERO, Feet::max);
    let widest = runs.iter().filter(|run| most - run.width() < Feet(0.1));
    widest.max_by(|a, b| a.length().0.total_cmp(&b.length().0)).copied()
}

/// The strip of runs that follow each other without a gap: it shows which part of the deck leans on the line.
fn strip(sheet: &mut Sheet, carrier: &Carrier, origin: Origin, runs: &[Run]) {
    let ink = Ink::Feed(role_of(origin));
    let edge = |run: &Run, off: f64| [run.start, run.end].map(|along| carrier.at(sheet.px(along), off));
    let left = runs.iter().flat_map(|run| edge(run, sheet.px(run.left)));
    let right = runs.iter().rev().flat_map(|run| {
        let [start, end] = edge(run, -sheet.px(run.right));
        [end, start]
    });
    let corners: Vec<Screen> = left.chain(right).collect();
    let wash = if sheet.prints() { None } else { Some(Fill::wash(ink, 0.07)) };
    let edge = Stroke::new(ink, THIN).dash(Dash::Dashed).faint(0.8);
    sheet.polygon(corners.clone(), wash, Some(edge));
    // Each origin has a hatch of its own way, so that two over each other can be told apart.
    let (way, spacing) = match origin {
        Origin::Roof => (Screen::new(1.0, 1.0), 13.0),
        Origin::Floor => (Screen::new(1.0, -2.0), 11.0),
        Origin::Ceiling => (Screen::new(1.0, -1.0), 11.0),
    };
    sheet.hatch(&corners, way, spacing, Stroke::new(ink, FINE).faint(0.38));
}

/// The place along the line, or one a little further where a field's own arrow is drawn there.
fn beside_span_arrows(sheet: &Sheet, carrier: &Carrier, wanted: f64) -> f64 {
    let level = sheet.level;
    let near = level.fields.iter().flat_map(|field| span_arrows(level, field)).any(|arrow| {
        let (a, b) = (sheet.at(arrow.a), sheet.at(arrow.b));
        let square = (b - a).unit().dot(carrier.along).abs() < 0.3;
        square && ((a.middle(b) - carrier.a).dot(carrier.along) - wanted).abs() < 16.0
    });
    if near { wanted + 26.0 } else { wanted }
}

/// A dimension arrow on each side of the line, from it to mid-span, with its width.
fn arrows(sheet: &mut Sheet, carrier: &Carrier, widest: &Run, at: f64, ink: Ink) {
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

/// What the strip is.
fn words(sheet: &Sheet, origin: Origin, widest: &Run, varies: bool, alone: bool) -> String {
    let what = match origin {
        _ if alone => "",
        Origin::Roof => "roof ",
        Origin::Floor => "floor ",
        Origin::Ceiling => "ceiling ",
    };
    let this = if matches!(sheet.state.chosen, Some(ElementId::Beam(_))) { "beam" } else { "wall" };
    let most = if varies { "up to " } else { "" };
    let width = sheet.tape(widest.width());
    let long = format!("{what}feeds this {this}: {most}{width} wide");
    // On a phone the strip may be shorter than the sentence.
    let room = sheet.px(widest.length()) - 24.0;
    if super::labels::width(&long, LARGE) <= room { long } else { format!("{what}{most}{width} wide") }
}

/// The words of a strip, at its outer edge.
fn title(sheet: &mut Sheet, carrier: &Carrier, widest: &Run, row: usize, text: &str, ink: Ink) {
    let Some((from, to)) = carrier.seen(sheet, sheet.px(widest.start), sheet.px(widest.end)) else {
        return;
    };
    let middle = from.midpoint(to);
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
    let first = place(middle, near.0 + near.1 * inset);
    let text = Label { weight: Weight::Strong, ..label(first, text, ink, LARGE) };
    let text = if upright { along(text, way) } else { text };
    let quarter = (to - from) * 0.22;
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
