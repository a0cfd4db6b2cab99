//! The two other houses of a study: the one with the stretch gone, and the one with a beam and posts in its place.

use super::{AT_END, Case};
use crate::geometry;
use crate::ids::WallId;
use crate::plan::{Plan, Point, Region, Side, Wall};
use crate::units::{Feet, Ticks};

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
