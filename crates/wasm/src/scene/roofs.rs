//! Roofs: eaves and ridge as dashed lines overhead.

use joistwise_core::geometry::{Frame, Spot};
use joistwise_core::plan::{Level, Point, Roof, RoofFrame, TrussMake};
use joistwise_core::tape;
use joistwise_core::units::Feet;

use super::joists::{across_extent, intervals};
use super::labels::{Rank, width};
use super::sheet::{SMALL, Sheet, along, label};
use crate::ink::{Dash, Ink, Stroke, THIN};
use crate::view::Screen;

/// A piece of line on the plan.
type Piece = (Spot, Spot);

/// Draws the roofs over the level.
pub(crate) fn roofs(sheet: &mut Sheet) {
    let level = sheet.level;
    for roof in &level.roofs {
        let eaves: Vec<[Screen; 2]> = eaves(level, roof).iter().map(|(a, b)| [sheet.at(*a), sheet.at(*b)]).collect();
        sheet.lines(eaves.clone(), Stroke::new(Ink::Eave, THIN).dash(Dash::Dashed).faint(0.7));
        let ridges: Vec<[Screen; 2]> = ridges(level, roof).iter().map(|(a, b)| [sheet.at(*a), sheet.at(*b)]).collect();
        sheet.lines(ridges.clone(), Stroke::new(Ink::Eave, THIN).dash(Dash::Centre).faint(0.8));
        caption(sheet, &words(roof), &ridges, &eaves);
    }
}

/// What the roof is, beside its ridge, or outside its upper eave where walls leave no room there.
fn caption(sheet: &mut Sheet, text: &str, ridges: &[[Screen; 2]], eaves: &[[Screen; 2]]) {
    let longest = ridges.iter().copied().max_by(|[a, b], [c, d]| (*b - *a).length().total_cmp(&(*d - *c).length()));
    let Some([a, b]) = longest else {
        return;
    };
    if (b - a).length() < width(text, SMALL) + 16.0 {
        return;
    }
    let way = (b - a).unit().readable();
    let off = way.left() * 9.0;
    let upper = eaves.iter().copied().max_by(|[a, b], [c, d]| a.middle(*b).dot(off).total_cmp(&c.middle(*d).dot(off)));
    let on = |[a, b]: [Screen; 2], share: f64, side: f64| a + (b - a) * share + off * side;
    let mut places: Vec<Screen> = [0.8, 0.35, 0.65, 0.2, 0.8, 0.5, 0.5]
        .iter()
        .zip([1.0, 1.0, 1.0, -1.0, -1.0, 1.0, -1.0])
        .map(|(share, side)| on([a, b], *share, side))
        .collect();
    places.extend(upper.iter().flat_map(|eave| [0.75, 0.25, 0.5].map(|share| on(*eave, share, 1.1))));
    let text = along(label(on([a, b], 0.2, 1.0), text, Ink::Caption, SMALL), way);
    sheet.wish(text, Rank::Note, places);
}

fn words(roof: &Roof) -> String {
    let frame = match roof.frame {
        RoofFrame::NotSeen => "framing not seen",
        RoofFrame::RidgeBoard => "rafters, ridge board",
        RoofFrame::Trusses { make: TrussMake::InsideBearing, .. } => "trusses, bearing inside",
        RoofFrame::Trusses { .. } => "trusses",
    };
    format!("roof {} in 12, {frame}", tape::in_fraction(roof.rise))
}

/// The ridges of a roof: half way between the eaves, piece by piece where the eaves step.
pub(crate) fn ridges(level: &Level, roof: &Roof) -> Vec<Piece> {
    let frame = Frame::of(roof.ridge);
    let square = Frame::of(roof.ridge.square());
    let mut pieces: Vec<Piece> = Vec::new();
    for corners in level.polygons(&roof.region) {
        let mut stops: Vec<Feet> = corners.iter().map(|corner| frame.local((*corner).into()).0).collect();
        stops.sort_by(|a, b| a.0.total_cmp(&b.0));
        stops.dedup_by(|a, b| (*a - *b).abs() < Feet(0.05));
        for pair in stops.windows(2) {
            let [from, to] = pair else { continue };
            let half_way = (*from + *to) / 2.0;
            // The line square to the ridge, half way along the piece.
            let (_, level) = square.local(frame.spot(half_way, Feet::ZERO));
            for (eave, other) in intervals(&corners, &square, level) {
                let middle = square.spot((eave + other) / 2.0, level);
                let (_, across) = frame.local(middle);
                pieces.push((frame.spot(*from, across), frame.spot(*to, across)));
            }
        }
    }
    joined(pieces)
}

/// Pieces that go on where the one before ends, as one.
fn joined(pieces: Vec<Piece>) -> Vec<Piece> {
    let mut out: Vec<Piece> = Vec::new();
    for (a, b) in pieces {
        match out.last_mut() {
            Some(last) if (last.1.x - a.x).abs() < Feet(0.05) && (last.1.y - a.y).abs() < Feet(0.05) => last.1 = b,
            _ => out.push((a, b)),
        }
    }
    out
}

/// The eaves of a roof: the sides that run along the ridge, moved outward by the overhang.
fn eaves(level: &Level, roof: &Roof) -> Vec<Piece> {
    let frame = Frame::of(roof.ridge);
    let mut pieces = Vec::new();
    for corners in level.polygons(&roof.region) {
        let Some((low, high)) = across_extent(&corners, &frame) else { continue };
        let ends = corners.iter().copied().zip(corners.iter().copied().cycle().skip(1));
        for (a, b) in ends {
            let runs_along = Frame::between(a, b).is_some_and(|side| side.squareness(&frame) < 0.05);
            if runs_along {
                pieces.push(moved_out(&corners, &frame, (a, b), roof.overhang.feet(), (low, high)));
            }
        }
    }
    pieces
}

fn moved_out(corners: &[Point], frame: &Frame, side: (Point, Point), by: Feet, extent: (Feet, Feet)) -> Piece {
    let ((a, across), (b, other)) = (frame.local(side.0.into()), frame.local(side.1.into()));
    let middle = (a + b) / 2.0;
    let just = (extent.1 - extent.0) * 1e-4;
    // Inside just left of the side means that outward is to the right.
    let above = frame.spot(middle, (across + other) / 2.0 + just);
    let square = Frame::of(joistwise_core::plan::Way::X);
    let inside = intervals(corners, &square, above.y).iter().any(|(from, to)| *from < above.x && above.x < *to);
    let out = if inside { -by } else { by };
    (frame.spot(a, across + out), frame.spot(b, other + out))
}
