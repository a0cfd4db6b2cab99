//! Joists that were seen to run two ways under one field, in different places: where do they turn?
//!
//! The deck is parted by one line before two true sightings are called a contradiction: the line of an inside wall between
//! them, or one half way, under which a beam nobody drew holds the joists that end there.

use super::fact::is_along;
use super::question::{field_at, point};
use crate::geometry::{self, Frame, Spot};
use crate::ids::{BeamId, FieldId, LevelId, ObservationId, WallId};
use crate::order::InOrder as _;
use crate::plan::{
    Beam, Edit, Element, Grade, Joints, JoistField, Level, Member, Plan, Point, Region, Saw, Set, Side, Wall, Way, Wood,
};
use crate::units::Feet;

/// Sightings nearer to a line than this are on it, in feet.
const ON_IT: f64 = 0.25;
/// Of so many walls it is asked, the longest first.
const WALLS: usize = 3;

/// A line on which joists may turn.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct TurnLine {
    /// The wall on whose line they turn; none for the line half way between the sightings.
    pub wall: Option<WallId>,
    /// One place of the line.
    pub a: Point,
    /// Another.
    pub b: Point,
    /// The way they run on its left, seen from `a`.
    pub left: Way,
    /// The way they run on its right.
    pub right: Way,
}

/// A field under which joists were seen to run two ways.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Turn {
    /// On which level.
    pub level: LevelId,
    /// Which.
    pub field: FieldId,
    /// What was seen of the way they run.
    pub seen: Vec<ObservationId>,
    /// Where they may turn: walls, the longest first, then half way.
    pub lines: Vec<TurnLine>,
}

/// The fields of a level whose joists were seen to run two ways in places that a line parts.
#[must_use]
pub fn turns(level: &Level) -> Vec<Turn> {
    level.fields.iter().filter(|field| field.known > Grade::Seen).filter_map(|field| turn(level, field)).collect()
}

pub(super) fn turn_of(level: &Level, id: FieldId) -> Option<Turn> {
    turn(level, level.fields.iter().find(|field| field.id == id && field.known > Grade::Seen)?)
}

fn turn(level: &Level, field: &JoistField) -> Option<Turn> {
    let mut seen = Vec::new();
    let mut sides: Vec<(Way, Vec<Point>)> = Vec::new();
    for it in level.observations.iter().filter(|it| it.known <= Grade::Seen) {
        let Saw::JoistsRun { along } = it.saw else { continue };
        if field_at(level, it.at).is_none_or(|over| over.id != field.id) {
            continue;
        }
        seen.push(it.id);
        match sides.iter_mut().find(|side| is_along(side.0, along)) {
            Some(side) => side.1.push(it.at),
            None => sides.push((along, vec![it.at])),
        }
    }
    let [one, other] = sides.as_slice() else { return None };
    seen.order();
    let mut lines: Vec<TurnLine> = Vec::new();
    let mut walls: Vec<&Wall> = level.walls.iter().filter(|wall| wall.side == Side::Inside).collect();
    walls.order_by(|a, b| {
        let long = |wall: &Wall| geometry::length(wall.a, wall.b).0;
        long(b).total_cmp(&long(a)).then(a.id.cmp(&b.id))
    });
    for wall in walls {
        let between = |a: &Point| other.1.iter().any(|b| geometry::crossing((*a, *b), (wall.a, wall.b)).is_some());
        let line = parting((wall.a, wall.b), one, other).filter(|_| one.1.iter().any(between));
        lines.extend(line.map(|line| TurnLine { wall: Some(wall.id), ..line }));
    }
    lines.truncate(WALLS);
    lines.extend(half_way(one, other));
    // The line of a wall half way is there already.
    let same = |line: &TurnLine, known: &TurnLine| {
        geometry::off(known.a, known.b, line.a) < Feet(ON_IT) && geometry::off(known.a, known.b, line.b) < Feet(ON_IT)
    };
    let half = lines.iter().position(|it| it.wall.is_none());
    if let Some((number, line)) = half.and_then(|number| Some((number, *lines.get(number)?)))
        && lines.iter().any(|known| known.wall.is_some() && same(&line, known))
    {
        lines.remove(number);
    }
    lines.retain(|line| pieces(level, &field.region, line).is_some());
    (!lines.is_empty()).then_some(Turn { level: level.id, field: field.id, seen, lines })
}

/// The line through two places, if all that was seen of one way is on one side of it and all of the other on the other.
fn parting((a, b): (Point, Point), one: &(Way, Vec<Point>), other: &(Way, Vec<Point>)) -> Option<TurnLine> {
    let own = Frame::between(a, b)?;
    let line = own.local(a.into()).1;
    let off = |at: &Point| (own.local((*at).into()).1 - line).0;
    let all = |side: &(Way, Vec<Point>), left: bool| {
        side.1.iter().all(|at| if left { off(at) > ON_IT } else { off(at) < -ON_IT })
    };
    let line = |left: Way, right: Way| TurnLine { wall: None, a, b, left, right };
    if all(one, true) && all(other, false) {
        return Some(line(one.0, other.0));
    }
    (all(one, false) && all(other, true)).then(|| line(other.0, one.0))
}

/// The line half way between the sightings, along or across the joists: where they are further apart.
fn half_way(one: &(Way, Vec<Point>), other: &(Way, Vec<Point>)) -> Option<TurnLine> {
    let own = Frame::of(one.0);
    let local = |at: &Point| own.local(Spot::from(*at));
    let gap = |of: fn((Feet, Feet)) -> f64| {
        let range = |side: &[Point]| {
            let all = || side.iter().map(|at| of(local(at)));
            (all().fold(f64::INFINITY, f64::min), all().fold(f64::NEG_INFINITY, f64::max))
        };
        let ((a, b), (c, d)) = (range(&one.1), range(&other.1));
        if c - b > a - d { (c - b, (b + c) / 2.0) } else { (a - d, (d + a) / 2.0) }
    };
    let (along, across) = (gap(|it| it.0.0), gap(|it| it.1.0));
    let at = one.1.first().map(local)?;
    let ends = if along.0 >= across.0 {
        let t = Feet(along.1);
        (own.spot(t, at.1), own.spot(t, Feet(at.1.0 + 10.0)))
    } else {
        let s = Feet(across.1);
        (own.spot(at.0, s), own.spot(Feet(at.0.0 + 10.0), s))
    };
    parting((point(ends.0)?, point(ends.1)?), one, other)
}

/// The parts of a region on the left and on the right of a line; none if it parts it in more than two simple outlines.
fn pieces(level: &Level, region: &Region, line: &TurnLine) -> Option<[Vec<Vec<Point>>; 2]> {
    let own = Frame::between(line.a, line.b)?;
    let polygons = level.polygons(region);
    let side = |sign: f64| -> Option<Vec<Vec<Point>>> {
        let mut all = Vec::new();
        for polygon in &polygons {
            let cut = cut(polygon, &own, own.local(line.a.into()).1.0, sign)?;
            if geometry::is_outline(&cut) {
                all.push(cut);
            } else if geometry::area(&cut).0 > 0.5 {
                return None;
            }
        }
        (!all.is_empty()).then_some(all)
    };
    Some([side(1.0)?, side(-1.0)?])
}

/// The corners of the part of a polygon on one side of a line.
fn cut(polygon: &[Point], own: &Frame, line: f64, sign: f64) -> Option<Vec<Point>> {
    let off = |at: Point| (own.local(at.into()).1.0 - line) * sign;
    let mut corners: Vec<Point> = Vec::new();
    for (a, b) in polygon.iter().zip(polygon.iter().cycle().skip(1)) {
        let (from, to) = (off(*a), off(*b));
        if from >= 0.0 {
            corners.push(*a);
        }
        if (from > 0.0 && to < 0.0) || (from < 0.0 && to > 0.0) {
            let share = from / (from - to);
            let (a, b) = (Spot::from(*a), Spot::from(*b));
            corners.push(point(Spot { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share })?);
        }
    }
    corners.dedup();
    while corners.len() > 1 && corners.first() == corners.last() {
        corners.pop();
    }
    Some(corners)
}

/// The fields that a field becomes if its joists turn on a line: each with its region and its way.
fn parted(level: &Level, field: &JoistField, line: &TurnLine) -> Vec<JoistField> {
    let Some([left, right]) = pieces(level, &field.region, line) else { return Vec::new() };
    let ways = left.into_iter().map(|it| (it, line.left)).chain(right.into_iter().map(|it| (it, line.right)));
    ways.map(|(corners, along)| JoistField { region: Region::Corners(corners), along, ..field.clone() }).collect()
}

/// The edits that part a field where its joists turn.
#[must_use]
pub fn part(plan: &Plan, turn: &Turn, line: usize) -> Vec<Edit> {
    let Some(level) = plan.level(turn.level) else { return Vec::new() };
    let field = level.fields.iter().find(|field| field.id == turn.field);
    let (Some(field), Some(line)) = (field, turn.lines.get(line)) else { return Vec::new() };
    let mut parts = parted(level, field, line).into_iter();
    let first = parts.next().map(|it| Edit::Change(Element::Field(it)));
    first.into_iter().chain(parts.map(|it| Edit::Add(level.id, Element::Field(it)))).collect()
}

/// Parts a field of a house as a reading has it. Half way there is no wall: a beam from side to side holds what ends there.
pub(super) fn make(house: &mut Plan, id: FieldId, line: u8) {
    let mut number = house.next_id;
    let known = house.levels.iter().find_map(|level| turn_of(level, id));
    let Some(line) = known.and_then(|turn| turn.lines.get(usize::from(line)).copied()) else { return };
    let Some(level) = house.levels.iter_mut().find(|level| level.fields.iter().any(|field| field.id == id)) else {
        return;
    };
    let Some(place) = level.fields.iter().position(|field| field.id == id) else { return };
    let Some(field) = level.fields.get(place).cloned() else { return };
    let mut parts = parted(level, &field, &line);
    let beam = if line.wall.is_none() { chord(&parts, &line) } else { None };
    for part in &mut parts {
        part.known = part.known.min(Grade::Seen);
    }
    for part in parts.iter_mut().skip(1) {
        part.id = FieldId(number);
        number = number.saturating_add(1);
    }
    level.fields.splice(place..=place, parts);
    if let Some((a, b)) = beam {
        let (id, name, member) = (BeamId(number), String::new(), Member::default());
        level.beams.push(Beam {
            id,
            name,
            a,
            b,
            member,
            set: Set::Flush,
            joints: Joints::RunThrough,
            wood: Wood::default(),
        });
        number = number.saturating_add(1);
    }
    house.next_id = number;
}

/// From where to where a line runs under the parts of a field.
fn chord(parts: &[JoistField], line: &TurnLine) -> Option<(Point, Point)> {
    let own = Frame::between(line.a, line.b)?;
    let s = own.local(line.a.into()).1;
    let corners = parts.iter().flat_map(|it| match &it.region {
        Region::Corners(corners) => corners.clone(),
        Region::Outline => Vec::new(),
    });
    let mut on: Vec<Point> = corners.filter(|at| (own.local((*at).into()).1 - s).0.abs() < 0.02).collect();
    on.order_by(|a, b| own.local((*a).into()).0.total_cmp(&own.local((*b).into()).0));
    let (first, last) = (*on.first()?, *on.last()?);
    (first != last).then_some((first, last))
}

/// The ways in which joists of a field that turns run at some places.
pub(super) fn ways_at(line: &TurnLine, places: impl IntoIterator<Item = Point>) -> Vec<Way> {
    let Some(own) = Frame::between(line.a, line.b) else { return Vec::new() };
    let s = own.local(line.a.into()).1;
    let way = |at: Point| if own.local(at.into()).1 >= s { line.left } else { line.right };
    let mut ways: Vec<Way> = Vec::new();
    for way in places.into_iter().map(way) {
        if !ways.contains(&way) {
            ways.push(way);
        }
    }
    ways
}
