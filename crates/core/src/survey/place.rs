//! Where a step is on the plan.

use crate::geometry::{self, Position};
use crate::ids::LevelId;
use crate::plan::{Grade, JoistField, Level, LevelKind, Plan, Point, Region, StepKey, Task, WallEnd};
use crate::readings::{field_at, middle};
use crate::units::Ticks;

/// The level a step is on and its place there: the end or the middle of its wall, else the middle of the house. None for
/// what a house without a drawn level has no place for.
#[must_use]
pub fn place(plan: &Plan, key: StepKey) -> Option<(LevelId, Point)> {
    let wall = key.wall.and_then(|id| plan.wall(id));
    if let Some((own, wall)) = wall {
        let at = match key.end {
            Some(WallEnd::A) => wall.a,
            Some(WallEnd::B) => wall.b,
            None => middle(wall.a, wall.b),
        };
        return Some((key.level.unwrap_or(own.id), at));
    }
    let level = match key.level {
        Some(id) => plan.level(id)?,
        None => storey(plan)?,
    };
    Some((level.id, spot(level, key.task)))
}

/// The lowest level that is no basement, else the lowest of all.
fn storey(plan: &Plan) -> Option<&Level> {
    let storeys = plan.levels().iter().find(|level| matches!(level.kind, LevelKind::Storey | LevelKind::Attic));
    storeys.or(plan.levels().first())
}

/// A place inside a level; of joists, in the first field of which nobody has said what is asked.
fn spot(level: &Level, task: Task) -> Point {
    let own = |task| level.observations.iter().filter(move |it| super::answers(task, &it.saw));
    let settled = |field: &&crate::plan::JoistField| {
        let drawn = match task {
            Task::JoistWay => field.known <= Grade::Seen,
            _ => field.member.is_seen(),
        };
        !drawn && own(task).all(|it| field_at(level, it.at).map(|over| over.id) != Some(field.id))
    };
    let asks = matches!(task, Task::JoistWay | Task::JoistSize);
    let open = level.fields.iter().filter(|_| asks).find(settled);
    let middle = |polygons: &[Vec<Point>]| polygons.first().and_then(|corners| within(corners)).unwrap_or_default();
    let whole = middle(&level.outlines());
    // Joists that were put there for what was seen are asked about in one place, whatever came first.
    let put = |field: &JoistField| {
        let here = field_at(level, whole).is_some_and(|over| over.id == field.id);
        is_put(level, field) || field.known == Grade::Unknown && here
    };
    open.filter(|field| !put(field)).map_or(whole, |field| middle(&level.polygons(&field.region)))
}

/// Whether joists under one roof are there only because something was seen of them.
pub(super) fn is_put(level: &Level, field: &JoistField) -> bool {
    let of_roof = field.region != Region::Outline && level.roofs.iter().any(|roof| roof.region == field.region);
    field.known == Grade::Unknown && of_roof
}

/// A place inside a polygon: the middle of its box, else the first of a grid of places that is inside.
fn within(corners: &[Point]) -> Option<Point> {
    let least = |of: fn(&Point) -> Ticks| corners.iter().map(of).min();
    let most = |of: fn(&Point) -> Ticks| corners.iter().map(of).max();
    let (low, high) =
        (Point::new(least(|it| it.x)?, least(|it| it.y)?), Point::new(most(|it| it.x)?, most(|it| it.y)?));
    let whole = middle(low, high);
    let quarters = [middle(low, whole), middle(whole, high)];
    let [a, b] = quarters;
    let tries = [whole, a, b, Point::new(a.x, b.y), Point::new(b.x, a.y)];
    let mut inside = tries.into_iter().filter(|at| geometry::position(corners, *at) == Position::Inside);
    inside.next().or_else(|| corners.first().copied())
}
