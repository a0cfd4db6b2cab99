//! The other houses of a study: the one with what goes gone, the one with a beam and posts in its place, and the one with a wall
//! back that an earlier owner took.

use super::line::Line;
use super::{AT_END, Away, Case, Stretch};
use crate::geometry;
use crate::ids::{BeamId, FootingId, PostId, WallId};
use crate::loads::Weights;
use crate::plan::{
    Beam, Footing, FootingMake, FootingShape, Joints, Level, Member, Plan, Point, Post, PostKind, Region, Side, Wall,
};
use crate::trace::{Node, Trace};
use crate::units::{Feet, Inches, Ticks};

/// The place on a line so far from its end `a`.
pub(super) fn place(line: &Line<'_>, at: Feet) -> Point {
    match () {
        () if at < AT_END => line.a,
        () if line.length() - at < AT_END => line.b,
        () => Ticks::from_decimal_feet(at).and_then(|at| geometry::along(line.a, line.b, at)).unwrap_or(line.a),
    }
}

/// The house with a stud wall back on the stretch of a line where one was taken out, the same study of that wall, and how far
/// along the line it begins; none for any other study.
pub(super) fn stood(plan: &Plan, stretch: &Stretch) -> Option<(Plan, Stretch, Feet)> {
    let Away::Nothing { level, .. } = stretch.away else { return None };
    let (on, line) = Line::of(plan, stretch.away)?;
    let (from, to) = line.within(on, stretch.from.min(stretch.to), stretch.from.max(stretch.to))?;
    let (a, b) = (place(&line, from), place(&line, to));
    let mut house = plan.clone();
    // What is in the air there today is in one piece there.
    let wall = Wall { id: WallId(house.next_id), joints: Joints::RunThrough, ..Wall::inside(a, b) };
    house.next_id = house.next_id.saturating_add(1);
    house.levels.iter_mut().find(|it| it.id == level)?.walls.push(wall);
    let posts_between = stretch.posts_between.iter().map(|at| *at - from).collect();
    let away = Away::Nothing { level, a, b };
    let on_it = Stretch { away, from: Feet::ZERO, to: to - from, posts_between, ..stretch.clone() };
    Some((house, on_it, from))
}

/// The house with what goes gone and nothing in its place.
pub(super) fn without(case: &Case<'_>) -> Plan {
    match case.line.node {
        Node::Wall(id) => without_wall(case, id),
        _ => {
            let mut house = case.plan.clone();
            if let Some(level) = house.levels.iter_mut().find(|level| level.id == case.level.id) {
                level.posts.retain(|it| !case.gone.contains(&it.id));
            }
            house
        }
    }
}

/// What was left of the wall stays, its openings with it.
fn without_wall(case: &Case<'_>, id: WallId) -> Plan {
    let mut house = case.plan.clone();
    let (from, to) = (case.stretch.from, case.stretch.to);
    let Some((_, wall)) = case.plan.wall(id) else { return house };
    let (head, tail) = (from > Feet::ZERO, to < case.line.length());
    let number = WallId(house.next_id);
    let Some(level) = house.levels.iter_mut().find(|level| level.id == case.level.id) else { return house };
    // Joists and roofs over an outline that is opened stay where they are.
    if wall.side == Side::Outside
        && let [outline] = case.level.outlines().as_slice()
    {
        let regions = level.fields.iter_mut().map(|it| &mut it.region);
        for region in regions.chain(level.roofs.iter_mut().map(|it| &mut it.region)) {
            if *region == Region::Outline {
                *region = Region::Corners(outline.clone());
            }
        }
    }
    let (near, far) = (place(&case.line, from), place(&case.line, to));
    let mut left = Vec::new();
    if head {
        left.push(Wall { b: near, ..wall.clone() });
    }
    if tail {
        let id = if head { number } else { wall.id };
        let name = if head && !wall.name.is_empty() { format!("{}, the rest", wall.name) } else { wall.name.clone() };
        left.push(Wall { id, name, a: far, ..wall.clone() });
    }
    let rest = left.last().filter(|_| tail).map(|it| it.id);
    if let Some(at) = level.walls.iter().position(|it| it.id == wall.id) {
        level.walls.splice(at..=at, left);
    }
    let cut = Ticks::from_decimal_feet(to).unwrap_or_default();
    level.openings.retain_mut(|opening| {
        if opening.wall != wall.id {
            return true;
        }
        if (opening.offset + opening.width).feet() <= from + Feet(1e-9) {
            return head;
        }
        let Some(rest) = rest.filter(|_| opening.offset.feet() >= to - Feet(1e-9)) else { return false };
        opening.wall = rest;
        opening.offset = opening.offset - cut;
        true
    });
    // Posts, packs and headers that stand in the stretch go with it.
    level.posts.retain(|it| !case.gone.contains(&it.id));
    level.beams.retain(|it| !case.headers.contains(&it.id));
    level.sort();
    house.next_id = house.next_id.saturating_add(1);
    house
}

/// The house with a beam along the line of the stretch, a post at each end of it and at each place between.
#[derive(Clone)]
pub(super) struct Proposed {
    pub(super) plan: Plan,
    pub(super) beam: BeamId,
    /// What holds it, from its end `a`.
    pub(super) seats: Vec<(Node, Feet)>,
    /// Each post of these; a post that stands there already is kept.
    pub(super) posts: Vec<(PostId, Feet)>,
    /// Pads added under them.
    pub(super) pads: Vec<FootingId>,
}

/// How near a post that stands already is to a place to be taken for it.
const SAME_PLACE: Feet = Feet(0.3);

/// The proposed house, without pads yet.
pub(super) fn proposed(case: &Case<'_>, without: &Plan) -> Proposed {
    let mut plan = without.clone();
    let (from, to) = (case.stretch.from, case.stretch.to);
    let beam = BeamId(plan.next_id);
    plan.next_id = plan.next_id.saturating_add(1);
    let (a, b) = (place(&case.line, from), place(&case.line, to));
    let (mut seats, mut posts) = (Vec::new(), Vec::new());
    let mut next = plan.next_id;
    let Some(level) = plan.levels.iter_mut().find(|level| level.id == case.level.id) else {
        return Proposed { plan, beam, seats, posts, pads: Vec::new() };
    };
    if let Node::Beam(old) = case.line.node {
        cut(level, old, (from > Feet::ZERO).then_some(a), (to < case.line.length()).then_some(b), BeamId(next));
        next = next.saturating_add(1);
    }
    level.beams.push(Beam {
        id: beam,
        name: "New beam".to_owned(),
        a,
        b,
        member: Member::default(),
        set: case.stretch.set,
        joints: Joints::RunThrough,
    });
    keep_joints(case, level);
    let between = case.stretch.posts_between.iter().copied();
    for at in [from].into_iter().chain(between).chain([to]) {
        if let Some(on) = held(case, at) {
            seats.push((on, at - from));
            continue;
        }
        let spot = place(&case.line, at);
        let known = level.posts.iter().find(|it| geometry::length(it.at, spot) < SAME_PLACE).map(|it| it.id);
        let id = known.unwrap_or(PostId(next));
        if known.is_none() {
            let (name, kind, member) = (String::new(), PostKind::Wood, Member::default());
            level.posts.push(Post { id, name, at: spot, kind, member });
            next = next.saturating_add(1);
        }
        seats.push((Node::Post(id), at - from));
        posts.push((id, at - from));
    }
    level.sort();
    plan.next_id = next;
    // What is left past the stretch has a number of its own where something is left before it.
    let head = from > Feet::ZERO;
    let rest = match case.stretch.away {
        Away::Wall(_) if head => Away::Wall(WallId(case.plan.next_id)),
        Away::Posts(_) if head => Away::Posts(BeamId(beam.0.saturating_add(1))),
        away => away,
    };
    let ticks = |at: Feet| Ticks::from_decimal_feet(at).unwrap_or_default();
    if !matches!(rest, Away::Nothing { .. }) {
        plan.cut_kept(case.stretch.away, (ticks(from), ticks(to)), rest);
    }
    plan.drop_kept();
    Proposed { plan, beam, seats, posts, pads: Vec::new() }
}

/// Joists go on meeting over the beam as they met over the wall: what was said of them there is said of their field, and each
/// other wall under it keeps what held there.
fn keep_joints(case: &Case<'_>, level: &mut Level) {
    let here = case.line.joints;
    if here == Joints::NotSeen {
        return;
    }
    for (node, _) in &case.arrivals {
        let Node::Field(id) = *node else { continue };
        let Some(field) = level.fields.iter_mut().find(|it| it.id == id && it.joints != here) else { continue };
        let were = if field.joints == Joints::NotSeen { Joints::Lap } else { field.joints };
        field.joints = here;
        level.walls.iter_mut().filter(|it| it.joints == Joints::NotSeen).for_each(|it| it.joints = were);
    }
}

/// Takes out the piece of a beam from `near` to `far`; without one of these the beam ends there.
fn cut(level: &mut Level, old: BeamId, near: Option<Point>, far: Option<Point>, rest: BeamId) {
    let Some(at) = level.beams.iter().position(|it| it.id == old) else { return };
    let old = level.beams.remove(at);
    level.beams.extend(near.map(|b| Beam { b, ..old.clone() }));
    let name =
        if near.is_some() && !old.name.is_empty() { format!("{}, the rest", old.name) } else { old.name.clone() };
    let id = if near.is_some() { rest } else { old.id };
    level.beams.extend(far.map(|a| Beam { id, name, a, ..old }));
}

/// What an old beam rests on at a place besides posts: a wall that goes on holding the new one.
fn held(case: &Case<'_>, at: Feet) -> Option<Node> {
    let Node::Beam(id) = case.line.node else { return None };
    let rests = &case.before.trace.beam(id)?.rests;
    let here = rests.iter().find(|it| !matches!(it.on, Node::Post(_)) && (it.at - at).abs() < BEARING)?;
    Some(here.on)
}

/// How far the start of a seat on a wall may be from the end of a beam that lies on it.
const BEARING: Feet = Feet(0.75);

impl Proposed {
    /// What comes to each seat besides the new beam.
    pub(super) fn besides(&self, trace: &Trace) -> Vec<(Node, Feet, Weights)> {
        let others = |on: Node| match on {
            Node::Post(id) => {
                let from = trace.post(id).into_iter().flat_map(|it| &it.from);
                from.filter(|it| it.0 != Node::Beam(self.beam)).fold(Weights::default(), |sum, it| sum + it.1)
            }
            _ => Weights::default(),
        };
        self.seats.iter().map(|(on, at)| (*on, *at, others(*on))).collect()
    }

    /// Pads under posts of the lowest level that have no footing, each for what arrives.
    pub(super) fn with_pads(mut self, pads: &[(PostId, Inches)]) -> Self {
        let mut next = self.plan.next_id;
        let Some(level) = self.plan.levels.first_mut() else { return self };
        for (post, side) in pads {
            let Some(at) = level.posts.iter().find(|it| it.id == *post).map(|it| it.at) else { continue };
            let Some(side) = Ticks::from_inches(side.0) else { continue };
            let (id, shape) = (FootingId(next), FootingShape::Pad { at, side });
            level.footings.push(Footing { id, shape, thickness: None, make: FootingMake::Footing });
            self.pads.push(id);
            next = next.saturating_add(1);
        }
        self.plan.next_id = next;
        self
    }
}
