//! What a wall weighs itself: its face, gross of openings, and the gable over it up to the rafters.

use super::LinePart;
use super::{place, roofs};
use crate::geometry::{self, Frame, Spot};
use crate::loads::{LineLoads, Weights};
use crate::order::InOrder as _;
use crate::plan::{Gable, Level, RoofFrame, Side, Wall};
use crate::units::{Feet, Plf, Psf};

/// A gable is cut into this many pieces of even load from each change of slope to the next.
const PIECES: f64 = 4.0;
/// A roof may end this far to a side of a wall and still be over it, in feet: a mark of the tape, over any rounding.
const BESIDE: f64 = 1.0 / 192.0;
/// A wall this nearly along the rafters closes the end of a roof.
const ALONG: f64 = 0.05;

/// Its line load, piece by piece from end `a`.
pub(super) fn line(level: &Level, wall: &Wall) -> Vec<LinePart> {
    let psf: Psf = wall.weighs();
    let length = geometry::length(wall.a, wall.b);
    let piece = |start: Feet, end: Feet, height: Feet| LinePart {
        start,
        end,
        loads: LineLoads { dead: psf * height, ..LineLoads::default() },
    };
    let mut parts = vec![piece(Feet::ZERO, length, level.height_of(wall).feet())];
    for (from, to) in gable(level, wall).windows(2).filter_map(|pair| Some((*pair.first()?, *pair.get(1)?))) {
        parts.push(piece(Feet(from.0), Feet(to.0), Feet((from.1 + to.1) / 2.0)));
    }
    parts.retain(|part| part.loads.dead > Plf::ZERO && part.end > part.start);
    parts
}

/// All of it.
pub(super) fn weight(level: &Level, wall: &Wall) -> Weights {
    line(level, wall).iter().fold(Weights::default(), |sum, part| sum + part.loads * (part.end - part.start))
}

/// The height of the rafters over the plate along a gable end: places from end `a`, in feet, each with its height.
fn gable(level: &Level, wall: &Wall) -> Vec<(f64, f64)> {
    if wall.side != Side::Outside || wall.gable == Gable::No {
        return Vec::new();
    }
    let length = geometry::length(wall.a, wall.b);
    let Some(own) = Frame::between(wall.a, wall.b) else { return Vec::new() };
    let (from, line) = own.local(Spot::from(wall.a));
    let beside = |by: f64| own.spot(from + length / 2.0, line + Feet(by));
    let sides = [beside(-BESIDE), beside(BESIDE)];
    let covers = |polygon: &Vec<_>| {
        let corners: Vec<Spot> = polygon.iter().copied().map(Spot::from).collect();
        sides.iter().any(|at| place::holds(&corners, *at))
    };
    let roof = level
        .roofs
        .iter()
        .rposition(|roof| roof.frame != RoofFrame::OverFramed && level.polygons(&roof.region).iter().any(covers));
    let Some(heights) = roof.and_then(|number| {
        let roof = level.roofs.get(number).filter(|roof| roof.form.has_gables())?;
        let along = own.squareness(&Frame::of(roof.ridge.square())) < ALONG;
        along.then(|| roofs::heights(level, number)).flatten()
    }) else {
        return Vec::new();
    };
    let (start, end) = (heights.along(Spot::from(wall.a)), heights.along(Spot::from(wall.b)));
    let mut stops = vec![start, end];
    stops.extend(heights.changes().filter(|t| *t > start.min(end) && *t < start.max(end)));
    stops.order_by(|a, b| (a - start).abs().total_cmp(&(b - start).abs()));
    // Along the wall, which may be a little askew to the rafters.
    let askew = length.0 / (end - start).abs();
    let mut places = Vec::new();
    for pair in stops.windows(2) {
        let [from, to] = *pair else { continue };
        let mut piece = 0.0;
        while piece < PIECES {
            let t = from + (to - from) * piece / PIECES;
            places.push(((t - start).abs() * askew, heights.at(t).max(0.0)));
            piece += 1.0;
        }
    }
    places.push((length.0, heights.at(end).max(0.0)));
    places
}
