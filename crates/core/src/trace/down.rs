//! From one level to the next: what falls from the foot of each wall and post, and what stands in line to take it.

use std::collections::BTreeMap;

use super::around::{Around, extent};
use super::bar::{Bearer, Bed};
use super::deck::{DeckLine, DeckPoint};
use super::ends::{End, OpenEnd};
use super::own;
use super::seats::{Body, Seats, Use, beam_reach, free, half_of, reach_of};
use super::storey::Storey;
use super::strips::{Cover, EPS, Line};
use super::{LinePart, Node, OpeningTrace, Origin, Reason};
use crate::geometry::{Frame, Spot};
use crate::ids::{PostId, ThingId, WallId};
use crate::loads::Weights;
use crate::order::InOrder as _;
use crate::plan::{Level, Opening, Point, Side, Stands};
use crate::units::{Feet, Plf};

/// How far past the end of what stands in line below a load still goes straight into it, in feet.
const PAST_END: f64 = 0.1 + EPS;
/// Runs that differ by less than this many feet differ by rounding.
const ROUNDING: f64 = 1e-12;
/// Rows of a thing's area are no deeper than this, in feet.
const ROW: f64 = 0.5;
/// A place this near the end of a wall is at its corner, in feet: the thickest wall of a house.
const CORNER: f64 = 0.75 + EPS;
/// How far off its middle a post below still takes a post straight, in feet.
const POST_ON_POST: f64 = 0.35 + EPS;

/// What comes down at the foot of a wall.
#[derive(Clone, Debug)]
pub(super) struct FallingWall {
    pub(super) wall: WallId,
    pub(super) a: Point,
    pub(super) b: Point,
    pub(super) body: Body,
    pub(super) parts: Vec<LinePart>,
    pub(super) points: Vec<(f64, Weights)>,
    /// The heaviest of what landed on its top, if anything did.
    pub(super) origin: Option<Origin>,
}

/// What comes down at the foot of a post.
#[derive(Clone, Copy, Debug)]
pub(super) struct FallingPost {
    pub(super) post: PostId,
    pub(super) at: Point,
    /// Half of its width, in feet.
    pub(super) half: f64,
    pub(super) weights: Weights,
}

/// A heavy thing on the floor.
#[derive(Clone, Debug)]
pub(super) struct FallingThing {
    pub(super) thing: ThingId,
    pub(super) corners: Vec<Spot>,
    pub(super) stands: Stands,
    pub(super) weights: Weights,
}

/// Everything that comes down from one level.
#[derive(Clone, Debug, Default)]
pub(super) struct Falling {
    pub(super) walls: Vec<FallingWall>,
    pub(super) posts: Vec<FallingPost>,
    pub(super) things: Vec<FallingThing>,
    /// What the openings of its walls bring to their jambs; in the falling walls already.
    pub(super) openings: Vec<OpeningTrace>,
}

impl Falling {
    pub(super) fn total(&self) -> Weights {
        let walls = self.walls.iter().map(FallingWall::total);
        let others = self.posts.iter().map(|post| post.weights).chain(self.things.iter().map(|it| it.weights));
        walls.chain(others).fold(Weights::default(), |sum, one| sum + one)
    }
}

impl FallingWall {
    pub(super) fn total(&self) -> Weights {
        let parts = self.parts.iter().map(|part| part.loads * (part.end - part.start));
        parts.chain(self.points.iter().map(|point| point.1)).fold(Weights::default(), |sum, one| sum + one)
    }
}

/// What comes down from a level that has been traced.
/// `lines` has what lies along each wall's top, piece by piece.
pub(super) fn fall(storey: &Storey<'_>, lines: &[Vec<LinePart>]) -> Falling {
    let mut falling = Falling::default();
    let openings = openings(storey.level);
    for (i, (wall, line)) in storey.level.walls.iter().zip(lines).enumerate() {
        let Some(carrier) = storey.walls.get(i) else { continue };
        let mut parts = line.clone();
        parts.extend(own::line(storey.level, wall));
        let mut points: Vec<(f64, Weights)> = carrier.points.iter().map(|it| (it.at.0, it.weights)).collect();
        for opening in openings.get(&wall.id).into_iter().flatten() {
            let (first, second) = over_opening(opening, &mut parts, &mut points);
            falling.openings.push(OpeningTrace { level: storey.level.id, opening: opening.id, first, second });
        }
        let origin = storey.origin_of(Bearer::Wall(i));
        falling.walls.push(FallingWall {
            wall: wall.id,
            a: wall.a,
            b: wall.b,
            body: Body::of(wall),
            parts,
            points,
            origin,
        });
    }
    falling.openings.order_by_key(|it| it.opening);
    for (post, work) in storey.level.posts.iter().zip(&storey.posts) {
        falling.posts.push(FallingPost { post: post.id, at: post.at, half: half_of(post), weights: work.top });
    }
    for thing in &storey.level.things {
        let weights = Weights::only(thing.kind.load(), thing.weighs().unwrap_or_default());
        let corners = thing.corners.iter().copied().map(Spot::from).collect();
        falling.things.push(FallingThing { thing: thing.id, corners, stands: thing.stands, weights });
    }
    falling
}

/// The openings of each wall, in the order they stand along it.
fn openings(level: &Level) -> BTreeMap<WallId, Vec<&Opening>> {
    let mut all: BTreeMap<WallId, Vec<&Opening>> = BTreeMap::new();
    for opening in &level.openings {
        all.entry(opening.wall).or_default().push(opening);
    }
    for openings in all.values_mut() {
        openings.order_by_key(|opening| (opening.offset, opening.id));
    }
    all
}

/// Takes what is over an opening to its two jambs, by statics of a simple span, and says how much each gets.
fn over_opening(opening: &Opening, parts: &mut Vec<LinePart>, points: &mut Vec<(f64, Weights)>) -> (Weights, Weights) {
    let (from, to) = (opening.offset.feet().0, (opening.offset + opening.width).feet().0);
    let mut jambs = (Weights::default(), Weights::default());
    let mut share = |at: f64, weights: Weights| {
        let right = ((at - from) / (to - from)).clamp(0.0, 1.0);
        jambs.0 += weights * (1.0 - right);
        jambs.1 += weights * right;
    };
    let mut left = Vec::with_capacity(parts.len() + 1);
    for part in parts.iter() {
        let (lo, hi) = (part.start.0.max(from), part.end.0.min(to));
        if hi - lo < EPS {
            left.push(*part);
            continue;
        }
        share((lo + hi) / 2.0, part.loads * Feet(hi - lo));
        for (start, end) in [(part.start.0, lo), (hi, part.end.0)] {
            if end - start > EPS {
                left.push(LinePart { start: Feet(start), end: Feet(end), loads: part.loads });
            } else {
                // A sliver under a tick: its pounds stay with the jambs.
                share(if end <= lo { from } else { to }, part.loads * Feet((end - start).max(0.0)));
            }
        }
    }
    *parts = left;
    points.retain(|(at, weights)| {
        let inside = *at > from + EPS && *at < to - EPS;
        if inside {
            share(*at, *weights);
        }
        !inside
    });
    points.extend([(from, jambs.0), (to, jambs.1)]);
    jambs
}

/// Lands what falls: straight into what stands in line, the rest onto the deck.
pub(super) fn land(storey: &mut Storey<'_>, falling: &Falling) -> (Vec<DeckLine>, Vec<DeckPoint>) {
    let (mut lines, mut points) = (Vec::new(), Vec::new());
    for wall in &falling.walls {
        land_wall(storey, wall, &mut lines, &mut points);
    }
    for post in &falling.posts {
        let tag = Node::Post(post.post);
        if post.weights.all().0.abs() < 1e-12 {
            continue;
        }
        let under = all_under(storey.around, post.at, post.half);
        if under.is_empty() {
            let at = Spot::from(post.at);
            storey.open_ends.extend(OpenEnd::over(storey.level, End::Post(post.post), at));
            points.push(DeckPoint { tag, at, weights: post.weights });
        }
        let weights = shared(post.weights, &under);
        for (on, along) in under {
            storey.put_point(on, along, tag, weights);
            let to = storey.node(on);
            storey.link(tag, None, to, weights);
            if let Some(carrier) = storey.carrier(on) {
                let reason = Reason::PostStandsOn { post: post.post, at: Feet(along) };
                carrier.claim(along - 0.5, along + 0.5, None, reason);
            }
        }
    }
    for thing in falling.things.iter().filter(|it| it.weights.all().0 > 0.0) {
        land_thing(thing, &mut lines, &mut points);
    }
    (lines, points)
}

/// What each of some bearers takes that share alike.
pub(super) fn shared(weights: Weights, among: &[(Bearer, f64)]) -> Weights {
    let count: f64 = among.iter().map(|_| 1.0).sum();
    if count > 1.0 { weights * (1.0 / count) } else { weights }
}

/// A thing goes onto the deck: by its legs in equal parts, or in rows along its first side, each with the share of the
/// area that is its own.
fn land_thing(falling: &FallingThing, lines: &mut Vec<DeckLine>, points: &mut Vec<DeckPoint>) {
    let tag = Node::Thing(falling.thing);
    if falling.stands == Stands::OnLegs {
        let legs: f64 = falling.corners.iter().map(|_| 1.0).sum();
        let weights = falling.weights * (1.0 / legs);
        points.extend(falling.corners.iter().map(|at| DeckPoint { tag, at: *at, weights }));
        return;
    }
    let (Some(a), Some(b)) = (falling.corners.first(), falling.corners.get(1)) else { return };
    let Some(frame) = Frame::from_to(*a, *b) else { return };
    let cover = Cover::of(&frame, core::slice::from_ref(&falling.corners), &[]);
    let Some((lo, hi)) = cover.range() else { return };
    let psf = falling.weights * (1.0 / cover.area());
    let rows = ((hi - lo) / ROW - EPS).ceil().max(1.0);
    let deep = (hi - lo) / rows;
    let mut row = 0.0;
    while row < rows {
        let (from, to) = (lo + row * deep, lo + (row + 1.0) * deep);
        row += 1.0;
        for length in cover.lengths(&Line { s: (from + to) / 2.0, lo: from, hi: to, trimmer: false }) {
            for ramp in &length.ramps {
                let spot = |t: f64| frame.spot(Feet(t), Feet((from + to) / 2.0));
                let loads = psf.map(|pounds| Plf(pounds.0 * (ramp.start + ramp.end) / 2.0));
                lines.push(DeckLine { tag, a: spot(ramp.from), b: spot(ramp.to), loads });
            }
        }
    }
}

fn land_wall(storey: &mut Storey<'_>, falling: &FallingWall, lines: &mut Vec<DeckLine>, points: &mut Vec<DeckPoint>) {
    let Some(frame) = Frame::between(falling.a, falling.b) else { return };
    let tag = Node::Wall(falling.wall);
    let (start, s) = frame.local(Spot::from(falling.a));
    let (start, s) = (start.0, s.0);
    let length = crate::geometry::length(falling.a, falling.b).0;
    let within = extent([falling.a.into(), falling.b.into()]);
    let seats = Seats::of(storey.around, &frame, Use::Joists, &within);
    let under = seats.under_body(falling.body, s, start, start + length);
    let beds = without_slivers(under, start, start + length);
    for bed in &beds {
        let to = storey.node(bed.on);
        let (from, end) = (bed.from - start, bed.to - start);
        let mut sum = Weights::default();
        for part in &falling.parts {
            let (lo, hi) = (part.start.0.max(from), part.end.0.min(end));
            if hi - lo > ROUNDING {
                let weights = part.loads * Feet(hi - lo);
                sum += weights;
                storey.put_run(bed.on, (bed.along_at(lo + start), bed.along_at(hi + start)), tag, weights);
            }
        }
        storey.link(tag, None, to, sum);
        let offset = off_line(storey.level, bed.on, &frame, s);
        let reason = Reason::WallStandsOn { upper: falling.wall, offset: Feet(offset) };
        if let Some(carrier) = storey.carrier(bed.on) {
            carrier.claim(bed.along.0, bed.along.1, Some(falling.origin.unwrap_or(Origin::Floor)), reason);
        }
    }
    for (from, to) in free(&beds, start, start + length) {
        for part in &falling.parts {
            let (lo, hi) = ((part.start.0 + start).max(from), (part.end.0 + start).min(to));
            let spot = |t: f64| frame.spot(Feet(t), Feet(s));
            if hi - lo > EPS {
                lines.push(DeckLine { tag, a: spot(lo), b: spot(hi), loads: part.loads });
            } else if hi - lo > ROUNDING {
                let weights = part.loads * Feet(hi - lo);
                points.push(DeckPoint { tag, at: spot((lo + hi) / 2.0), weights });
            }
        }
    }
    for (at, weights) in &falling.points {
        let t = at + start;
        let bed = beds.iter().find(|bed| t >= bed.from - PAST_END && t <= bed.to + PAST_END);
        match bed {
            Some(bed) => {
                let to = storey.node(bed.on);
                storey.put_point(bed.on, bed.along_at(t.clamp(bed.from, bed.to)), tag, *weights);
                storey.link(tag, None, to, *weights);
            }
            None => points.push(DeckPoint { tag, at: frame.spot(Feet(t), Feet(s)), weights: *weights }),
        }
    }
}

/// Beds that meet each other and the ends of a run where only rounding parts them, so that nothing falls between.
fn without_slivers(mut beds: Vec<Bed>, from: f64, to: f64) -> Vec<Bed> {
    let mut end = from;
    for bed in &mut beds {
        if (bed.from - end).abs() <= 2.0 * EPS {
            bed.from = end;
        }
        end = bed.to;
    }
    if let Some(last) = beds.last_mut().filter(|last| (to - last.to).abs() <= 2.0 * EPS) {
        last.to = to;
    }
    beds
}

/// How far a bearer's line is off a line of the frame.
fn off_line(level: &Level, on: Bearer, frame: &Frame, s: f64) -> f64 {
    let a = match on {
        Bearer::Wall(i) => level.walls.get(i).map(|wall| wall.a),
        Bearer::Beam(i) => level.beams.get(i).map(|beam| beam.a),
        _ => None,
    };
    a.map_or(0.0, |a| (frame.local(Spot::from(a)).1.0 - s).abs())
}

/// What stands right under a point: a post, else a beam, else a wall; with the place along it.
pub(super) fn under_point(around: &Around<'_>, at: Point) -> Option<(Bearer, f64)> {
    all_under(around, at, 0.0).first().copied()
}

/// What a body of half a width around a point stands on: a post, else a beam, else walls, each with the place along it. At a
/// corner that is all walls that end there, and each takes the same; a wall that goes on past the place comes before those
/// that only end at it, and at an outside corner a partition that ends there takes nothing.
pub(super) fn all_under(around: &Around<'_>, at: Point, half: f64) -> Vec<(Bearer, f64)> {
    let within = extent([at.into()]);
    let mut posts = around.posts(&within);
    if let Some((post, _)) = posts.find(|(_, post)| crate::geometry::length(post.at, at).0 <= POST_ON_POST) {
        return vec![(Bearer::Post(post), 0.0)];
    }
    let on_line = |a: Point, b: Point, reach: f64| {
        let frame = Frame::between(a, b)?;
        let (start, line) = frame.local(Spot::from(a));
        let (t, s) = frame.local(Spot::from(at));
        let (along, length) = ((t - start).0, crate::geometry::length(a, b).0);
        // A point lies on a body up to its face; bodies that only touch do not stand on each other.
        let reach = if half > EPS { reach + half - EPS } else { reach + EPS };
        let within = along >= -PAST_END && along <= length + PAST_END && (s - line).0.abs() < reach;
        within.then_some((along.clamp(0.0, length), length))
    };
    let mut beams = around.beams(&within);
    let beam = beams.find_map(|(i, beam)| Some((Bearer::Beam(i), on_line(beam.a, beam.b, beam_reach(beam))?.0)));
    if let Some(beam) = beam {
        return vec![beam];
    }
    let walls = around.walls(&within).filter(|(_, wall)| wall.top == crate::plan::Top::Tight);
    let walls: Vec<(Bearer, f64, (bool, bool))> = walls
        .filter_map(|(i, wall)| {
            let (along, length) = on_line(wall.a, wall.b, reach_of(wall))?;
            let goes_on = along > CORNER && along < length - CORNER;
            Some((Bearer::Wall(i), along, (goes_on, wall.side == Side::Outside)))
        })
        .collect();
    let first = walls.iter().map(|it| it.2).max();
    walls.into_iter().filter(|it| Some(it.2) == first).map(|it| (it.0, it.1)).collect()
}
