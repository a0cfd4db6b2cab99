//! From a prop to the ground: what it stands on, what is in its way, and the joists of the floor under it.

use super::line::standing;
use super::{CutBy, HAIR, NoWay, PropLine, PropsOn, frame};
use crate::geometry::{self, Frame, Position, Spot, apart};
use crate::loads::ByKind;
use crate::plan::{JoistField, Level, Point};
use crate::statics::{Load, Piece};
use crate::take_out::Case;
use crate::take_out::member::Checked;
use crate::trace::{Carried, Node};
use crate::units::{Feet, Plf, Pounds, Ticks};

/// A line is looked at in places this far apart.
const STEP: Feet = Feet(0.5);
/// So many joists share a prop that stands on planks across them.
const SHARE: f64 = 3.0;
/// A part of a line shorter than this is none, in feet.
const SHORT: f64 = 0.5;

pub(super) fn point(at: Spot) -> Point {
    let ticks = |of: Feet| Ticks::from_decimal_feet(of).unwrap_or_default();
    Point::new(ticks(at.x), ticks(at.y))
}

/// How far off the line props stand, left of it.
fn off(case: &Case<'_>, left: bool) -> Feet {
    if left { case.stretch.shoring_offset } else { -case.stretch.shoring_offset }
}

/// A place beside the line, so far along it and so far to its left.
pub(super) fn beside(case: &Case<'_>, along: Feet, left_by: Feet) -> Option<Point> {
    let (own, start, across) = frame(case)?;
    Some(point(own.spot(start + along, across + left_by)))
}

/// The joists over a level at a place.
pub(in crate::take_out) fn floor_at(level: &Level, at: Point) -> Option<&JoistField> {
    let covers = |polygon: &Vec<Point>| geometry::position(polygon, at) != Position::Outside;
    level.fields.iter().rev().find(|field| level.polygons(&field.region).iter().any(covers))
}

/// The floor under the middle of a line of props.
pub(super) fn stands_on(case: &Case<'_>, left: bool) -> PropsOn {
    let Some(below) = case.plan.level_below(case.level.id) else { return PropsOn::Ground };
    let middle = (case.stretch.from + case.stretch.to) / 2.0;
    let (Some((own, ..)), Some(at)) = (frame(case), beside(case, middle, off(case, left))) else {
        return PropsOn::NotKnown;
    };
    floor_at(below, at).map_or(PropsOn::NotKnown, |field| {
        if Frame::of(field.along).squareness(&own) > 0.7 { PropsOn::Across(field.id) } else { PropsOn::Along(field.id) }
    })
}

/// What is in the way straight down from a place of this level.
pub(super) fn no_way(case: &Case<'_>, at: Point) -> Option<NoWay> {
    let number = case.plan.levels().iter().position(|it| it.id == case.level.id)?;
    case.plan.levels().iter().take(number).rev().find_map(|level| {
        let within = |corners: &[Point]| geometry::position(corners, at) != Position::Outside;
        if let Some(opening) = level.floor_openings.iter().find(|it| within(&it.corners)) {
            return Some(NoWay::Opening { level: level.id, opening: opening.id });
        }
        let inside = level.outlines().iter().any(|it| within(it)) || floor_at(level, at).is_some();
        (!inside).then_some(NoWay::Outside { level: level.id })
    })
}

/// The first thing in the way under a line of props.
pub(super) fn of_line(case: &Case<'_>, left: bool) -> Option<NoWay> {
    let (from, to) = (case.stretch.from, case.stretch.to);
    let places = std::iter::successors(Some(from), |at| Some(*at + STEP)).take_while(|at| *at < to).chain([to]);
    places.filter_map(|along| beside(case, along, off(case, left))).find_map(|at| no_way(case, at))
}

/// Walls of the level that cut a line of props in two.
pub(super) fn cut_by(case: &Case<'_>, left: bool) -> Vec<CutBy> {
    let (from, to) = (case.stretch.from, case.stretch.to);
    let ends = (beside(case, from, off(case, left)), beside(case, to, off(case, left)));
    let (Some(a), Some(b), Some((own, start, _))) = (ends.0, ends.1, frame(case)) else { return Vec::new() };
    let walls = case.level.walls.iter().filter(|it| Node::Wall(it.id) != case.line.node);
    let cuts = walls.filter_map(|wall| {
        let at = geometry::crossing((a, b), (wall.a, wall.b))?;
        let at = own.local(at.into()).0 - start;
        Some(CutBy { wall: wall.id, before: at - from, past: to - at })
    });
    cuts.filter(|it| it.before.0 > SHORT && it.past.0 > SHORT).collect()
}

/// The joists of the floor right below with the line of props on them, where their size is known: the worst of them.
pub(super) fn floor(case: &Case<'_>, line: &PropLine) -> Option<Checked> {
    let (id, across) = match line.on {
        PropsOn::Across(id) => (id, true),
        PropsOn::Along(id) => (id, false),
        PropsOn::Ground | PropsOn::NotKnown => return None,
    };
    let (standing, (level, field)) = (standing(case, id)?, case.field(id)?);
    let (own, start, line_at) = frame(case)?;
    let at = line_at + off(case, line.left);
    let spacing = field.spacing.feet();
    let (from, to) = (start + case.stretch.from, start + case.stretch.to);
    let pressed = |piece: &Carried| -> Option<(Load, ByKind<f64>)> {
        let ((t_a, s_a), (t_b, s_b)) = (own.local(piece.a), own.local(piece.b));
        let length = apart(piece.a, piece.b);
        if across {
            let share = (at - s_a).0 / (s_b - s_a).0;
            let along = t_a + (t_b - t_a) * share;
            let here = (0.0..=1.0).contains(&share) && along.0 > from.0 - HAIR && along.0 < to.0 + HAIR;
            let each = line.line.map(|plf: Plf| (plf * spacing).0);
            here.then(|| (Load::Point { at: length * share, weight: Pounds(1.0) }, each))
        } else {
            let near = ((s_a + s_b) / 2.0 - at).abs() <= spacing * (SHARE / 2.0);
            let place = |t: Feet| (length * ((t - t_a).0 / (t_b - t_a).0)).max(Feet::ZERO).min(length);
            let (one, other) = (place(from), place(to));
            let (lo, hi) = (one.min(other), one.max(other));
            let each = line.line.map(|plf: Plf| plf.0 / SHARE);
            (near && (hi - lo).0 > HAIR).then(|| (Load::uniform(lo, hi, Plf(1.0)), each))
        }
    };
    let pieces = case.before.carried.iter().filter(|it| it.of == Node::Field(id) && it.level == level && it.rests);
    let checked = pieces.filter_map(|piece| {
        let more = pressed(piece)?;
        let seats: Vec<Feet> = piece.seats.iter().map(|it| it.0).collect();
        let bar = Piece::new(Feet::ZERO, apart(piece.a, piece.b), &seats);
        let loads: Vec<(Load, ByKind<f64>)> = piece.loads.iter().copied().chain([more]).collect();
        standing.check(&bar, &loads, case.plan.site()).ok()
    });
    checked.reduce(Checked::or_worse)
}
