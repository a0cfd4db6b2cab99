//! The two other houses of a study: the one with the stretch gone, and the one with a beam and posts in its place.

use super::{AT_END, Case};
use crate::geometry;
use crate::ids::{BeamId, FootingId, PostId, WallId};
use crate::plan::{
    Beam, Footing, FootingMake, FootingShape, Joints, Member, Plan, Point, Post, PostKind, Region, Side, Wall,
};
use crate::units::{Feet, Inches, Ticks};

/// The place on a wall's line so far from its end `a`.
pub(super) fn place(wall: &Wall, at: Feet) -> Point {
    let length = geometry::length(wall.a, wall.b);
    match () {
        () if at < AT_END => wall.a,
        () if length - at < AT_END => wall.b,
        () => Ticks::from_decimal_feet(at).and_then(|at| geometry::along(wall.a, wall.b, at)).unwrap_or(wall.a),
    }
}

/// The house with the stretch gone and nothing in its place. What was left of the wall stays, its openings with it.
pub(super) fn without(case: &Case<'_>) -> Plan {
    let mut house = case.plan.clone();
    let (from, to) = (case.stretch.from, case.stretch.to);
    let wall = case.wall;
    let (head, tail) = (from > Feet::ZERO, to < geometry::length(wall.a, wall.b));
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
    let (near, far) = (place(wall, from), place(wall, to));
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
    level.walls.sort_by_key(|wall| wall.id);
    house.next_id += 1;
    house
}

/// The house with a beam along the line of the stretch, a post at each end of it and at each place between.
pub(super) struct Proposed {
    pub(super) plan: Plan,
    pub(super) beam: BeamId,
    /// Each post, from end `a` of the beam; a post that stands there already is kept.
    pub(super) posts: Vec<(PostId, Feet)>,
    /// Pads added under them.
    pub(super) pads: Vec<FootingId>,
}

/// How near a post that stands already is to a place to be taken for it.
const SAME_PLACE: Feet = Feet(0.3);

pub(super) fn proposed(case: &Case<'_>, without: &Plan) -> Proposed {
    let mut plan = without.clone();
    let (from, to) = (case.stretch.from, case.stretch.to);
    let beam = BeamId(plan.next_id);
    plan.next_id += 1;
    let (a, b) = (place(case.wall, from), place(case.wall, to));
    let mut posts = Vec::new();
    let mut next = plan.next_id;
    let Some(level) = plan.levels.iter_mut().find(|level| level.id == case.level.id) else {
        return Proposed { plan, beam, posts, pads: Vec::new() };
    };
    level.beams.push(Beam {
        id: beam,
        name: "New beam".to_owned(),
        a,
        b,
        member: Member::default(),
        set: case.stretch.set,
        joints: Joints::RunThrough,
    });
    let between = case.stretch.posts_between.iter().copied();
    for at in [from].into_iter().chain(between).chain([to]) {
        let spot = place(case.wall, at);
        let known = level.posts.iter().find(|it| geometry::length(it.at, spot) < SAME_PLACE).map(|it| it.id);
        let id = known.unwrap_or(PostId(next));
        if known.is_none() {
            let (name, kind, member) = (String::new(), PostKind::Wood, Member::default());
            level.posts.push(Post { id, name, at: spot, kind, member });
            next += 1;
        }
        posts.push((id, at - from));
    }
    plan.next_id = next;
    Proposed { plan, beam, posts, pads: Vec::new() }
}

impl Proposed {
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
            next += 1;
        }
        self.plan.next_id = next;
        self
    }
}
