//! What two points become with each tool: the edit, with the usual sizes of the trade where nobody said otherwise.

use joistwise_core::geometry::{self, Frame, Position};
use joistwise_core::ids::{
    BeamId, BoardId, FloorOpeningId, FootingId, JoistCutId, OpeningId, PostId, PurlinId, ThingId,
};
use joistwise_core::loads::Thing;
use joistwise_core::plan::{
    Beam, Board, BoardKind, Cut, Edit, Element, FloorOpening, Footing, FootingShape, Grade, HeavyThing, Joints,
    JoistCut, JoistField, Level, Member, Opening, Point, Post, PostKind, Purlin, Region, Roof, RoofFrame, Set, Side,
    Stands, Top, Wall, Way, Wood,
};
use joistwise_core::units::{Feet, Ticks};

use super::super::{Desk, Refusal, aim};
use crate::view::Tool;

/// A 2x4 stud with half an inch of board on each face.
/// A hole and what it leaves to the edge, where nobody said otherwise.
const CUT: Ticks = Ticks::from_sixteenths(2 * 16);
const PAD_SIDE: Ticks = Ticks::from_feet(2);
/// An arrow nearer to an axis or a wall than this share of its length lies along it.
const SLANT: f64 = 0.2;
/// How near to a wall's line a point must be to be on it, in CSS pixels.
const ON_WALL_PX: f64 = 20.0;

/// The edit that a tool makes of two points, which are one for a tool that takes one.
pub fn finish(tool: Tool, from: Point, to: Point, desk: &Desk<'_>) -> Result<Edit, Refusal> {
    let level = desk.plan.level(desk.view.level).ok_or(Refusal::NoLevel)?;
    let add = |element: Element| Ok(Edit::Add(level.id, element));
    match tool {
        Tool::Outline => Ok(Edit::Outline { level: level.id, corners: rectangle(from, to)? }),
        Tool::InsideWall => add(Element::Wall(inside_wall(from, to)?)),
        Tool::Beam => add(Element::Beam(beam(from, to)?)),
        Tool::Post => add(Element::Post(post(to))),
        Tool::Pad => add(Element::Footing(pad(to))),
        Tool::FloorOpening => {
            let corners = rectangle(from, to)?;
            add(Element::FloorOpening(FloorOpening { id: FloorOpeningId::from_number(0), corners }))
        }
        Tool::Joists if desk.settings.area_first => {
            let corners = rectangle(from, to)?;
            let (wide, deep) = ((to.x - from.x).abs(), (to.y - from.y).abs());
            let along = if wide < deep { Way::X } else { Way::Y };
            add(Element::Field(JoistField::usual(
                Region::Corners(corners),
                along,
                Grade::Assumed,
                desk.plan.usual_use(level),
            )))
        }
        Tool::Joists => joists(from, to, level, desk),
        Tool::Roof if desk.settings.area_first => {
            let corners = rectangle(from, to)?;
            let (wide, deep) = ((to.x - from.x).abs(), (to.y - from.y).abs());
            let ridge = if wide < deep { Way::Y } else { Way::X };
            let region = Region::Corners(corners);
            add(Element::Roof(Roof { region, ..Roof::usual(ridge, RoofFrame::NotSeen, Grade::Unknown) }))
        }
        Tool::Roof => roof(from, to, level),
        Tool::Purlin => add(Element::Purlin(purlin(from, to, level)?)),
        Tool::Thing => add(Element::Thing(thing(rectangle(from, to)?))),
        Tool::JoistCut => add(Element::JoistCut(joist_cut(to))),
        Tool::Board => add(Element::Board(board(from, to)?)),
        Tool::Opening => opening(from, to, desk),
        Tool::Split => {
            let (wall, at) = aim::wall_near(to, ON_WALL_PX, desk).ok_or(Refusal::NoWallHere)?;
            Ok(Edit::Split { wall, at })
        }
        Tool::Pick | Tool::Hand | Tool::Seen => Err(Refusal::NoSize),
    }
}

fn rectangle(from: Point, to: Point) -> Result<Vec<Point>, Refusal> {
    if from.x == to.x || from.y == to.y {
        return Err(Refusal::NoSize);
    }
    let (west, east) = (from.x.min(to.x), from.x.max(to.x));
    let (south, north) = (from.y.min(to.y), from.y.max(to.y));
    Ok(vec![Point::new(west, south), Point::new(east, south), Point::new(east, north), Point::new(west, north)])
}

fn inside_wall(a: Point, b: Point) -> Result<Wall, Refusal> {
    if a == b {
        return Err(Refusal::NoSize);
    }
    Ok(Wall::inside(a, b))
}

fn beam(a: Point, b: Point) -> Result<Beam, Refusal> {
    if a == b {
        return Err(Refusal::NoSize);
    }
    let (member, set, joints) = (Member::default(), Set::Dropped, Joints::NotSeen);
    Ok(Beam { id: BeamId::from_number(0), name: String::new(), a, b, member, set, joints, wood: Wood::default() })
}

fn post(at: Point) -> Post {
    let (name, kind, member) = (String::new(), PostKind::Wood, Member::default());
    Post { id: PostId::from_number(0), name, at, kind, member, wood: Wood::default() }
}

fn pad(at: Point) -> Footing {
    let shape = FootingShape::Pad { at, side: PAD_SIDE };
    Footing { id: FootingId::from_number(0), shape, thickness: None, make: Default::default() }
}

/// An arrow turns the field under its middle; where there is none yet it states one over the whole level.
fn joists(from: Point, to: Point, level: &Level, desk: &Desk<'_>) -> Result<Edit, Refusal> {
    let along = direction(from, to, level).ok_or(Refusal::NoSize)?;
    let middle = Point::new(half(from.x, to.x), half(from.y, to.y));
    let under = |field: &&JoistField| {
        level.polygons(&field.region).iter().any(|corners| geometry::position(corners, middle) != Position::Outside)
    };
    let only = || match level.fields.as_slice() {
        [only] => Some(only),
        _ => None,
    };
    match level.fields.iter().rfind(under).or_else(only) {
        // An arrow is an answer like any other: told until somebody says that he saw it.
        Some(field) => Ok(Edit::Change(Element::Field(JoistField { along, known: Grade::Told, ..field.clone() }))),
        None if level.outlines().is_empty() => Err(Refusal::NoOutline),
        None => {
            let field = JoistField::usual(Region::Outline, along, Grade::Told, desk.plan.usual_use(level));
            Ok(Edit::Add(level.id, Element::Field(field)))
        }
    }
}

/// How far beside a purlin its struts may stand, in feet: what 8 ft of strut reach at 45 degrees.
const STRUT_REACH: f64 = 6.0;
const STRUT_SPACING: Ticks = Ticks::from_feet(4);

/// A purlin whose struts stand on the nearest inside wall along it, if one is within their reach; else nobody saw where.
fn purlin(a: Point, b: Point, level: &Level) -> Result<Purlin, Refusal> {
    let frame = Frame::between(a, b).ok_or(Refusal::NoSize)?;
    let line = frame.local(a.into()).1;
    let beside = |wall: &&Wall| {
        let along = Frame::between(wall.a, wall.b).is_some_and(|own| own.squareness(&frame) < 0.05);
        wall.side == Side::Inside && wall.top == Top::Tight && along
    };
    let off = |wall: &Wall| (frame.local(wall.a.into()).1 - line).abs().0;
    let walls = level.walls.iter().filter(beside).filter(|wall| off(wall) <= STRUT_REACH);
    let nearest = walls.min_by(|a, b| off(a).total_cmp(&off(b)).then(a.id.cmp(&b.id)));
    let (id, member, feet) = (PurlinId::from_number(0), Member::default(), nearest.map(|wall| wall.a));
    let known = if feet.is_some() { Grade::Assumed } else { Grade::Unknown };
    Ok(Purlin { id, a, b, member, feet, spacing: STRUT_SPACING, known })
}

fn thing(corners: Vec<Point>) -> HeavyThing {
    let (id, name, kind) = (ThingId::from_number(0), String::new(), Thing::default());
    HeavyThing { id, name, kind, corners, stands: Stands::Flat, weight: None, known: Grade::Assumed }
}

/// A hole of 2 in in the middle of a 2x8 or so: the usual hole for a pipe or a cable.
fn joist_cut(at: Point) -> JoistCut {
    let cut = Cut::Hole { diameter: CUT, to_edge: CUT };
    JoistCut { id: JoistCutId::from_number(0), at, cut, known: Grade::Seen }
}

fn board(a: Point, b: Point) -> Result<Board, Refusal> {
    let (id, kind, known) = (BoardId::from_number(0), BoardKind::Blocking, Grade::Seen);
    if a == b { Err(Refusal::NoSize) } else { Ok(Board { id, a, b, kind, known }) }
}

fn roof(from: Point, to: Point, level: &Level) -> Result<Edit, Refusal> {
    let ridge = direction(from, to, level).ok_or(Refusal::NoSize)?;
    match level.roofs.last() {
        Some(roof) => Ok(Edit::Change(Element::Roof(Roof { ridge, ..roof.clone() }))),
        None if level.outlines().is_empty() => Err(Refusal::NoOutline),
        None => Ok(Edit::Add(level.id, Element::Roof(Roof::usual(ridge, RoofFrame::NotSeen, Grade::Unknown)))),
    }
}

fn opening(from: Point, to: Point, desk: &Desk<'_>) -> Result<Edit, Refusal> {
    let (wall, end) = aim::wall_near(to, ON_WALL_PX, desk).ok_or(Refusal::NoWallHere)?;
    let (_, it) = desk.plan.wall(wall).ok_or(Refusal::NoWallHere)?;
    let length = Ticks::from_decimal_feet(geometry::length(it.a, it.b)).ok_or(Refusal::NoWallHere)?;
    let start = aim::wall_near(from, ON_WALL_PX, desk).filter(|(other, at)| *other == wall && *at != end);
    let (offset, width) = match start {
        Some((_, start)) => (start.min(end), (start - end).abs()),
        None => (end - Ticks::new(desk.settings.opening_width.get() / 2), desk.settings.opening_width),
    };
    let width = width.min(length);
    let offset = offset.max(Ticks::ZERO).min(length - width);
    let opening = Opening {
        id: OpeningId::from_number(0),
        wall,
        offset,
        width,
        kind: desk.settings.opening,
        header: Default::default(),
        first: Default::default(),
        second: Default::default(),
    };
    Ok(Edit::Add(desk.view.level, Element::Opening(opening)))
}

/// The way from one point to another: along an axis or a wall of the level when it is close to one; none between
/// points in one place.
#[must_use]
pub fn direction(from: Point, to: Point, level: &Level) -> Option<Way> {
    let arrow = Frame::between(from, to)?;
    let near = |way: &Way| Frame::of(*way).squareness(&arrow) < SLANT;
    let walls = level.walls.iter().map(|wall| Way::between(wall.a, wall.b)).flat_map(|way| [way, way.square()]);
    let known = [Way::X, Way::Y].into_iter().chain(walls).find(near);
    Some(known.unwrap_or_else(|| Way::between(from, to)))
}

fn half(a: Ticks, b: Ticks) -> Ticks {
    Ticks::from_decimal_feet(Feet((a.feet().0 + b.feet().0) / 2.0)).unwrap_or(a)
}
