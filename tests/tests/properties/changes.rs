//! Changes of a plan and what they may not do: move other walls' loads, break a plan, touch the plan that was.

use joistwise_core::ids::{ElementId, LevelId, WallId};
use joistwise_core::plan::{Edit, Element, LevelKind, Plan, Point, Top, Wall, WallEnd};
use joistwise_core::trace::{Trace, trace};
use joistwise_core::units::Ticks;
use proptest::prelude::*;
use proptest::sample::Index;

/// A wall that carries nothing, whatever is over it: a gap was seen along its top.
fn partition(a: Point, b: Point) -> Wall {
    Wall { name: "Partition".to_owned(), top: Top::Gap, ..Wall::inside(a, b) }
}

/// The trace of a house with a partition on its lowest level, without the partition itself.
fn without(plan: &Plan, level: LevelId, a: Point, b: Point) -> Result<Trace, String> {
    let edit = Edit::Add(level, Element::Wall(partition(a, b)));
    let plan = plan.with(&edit).map_err(|error| error.to_string())?;
    let mut trace = trace(&plan);
    let own = WallId::from_number(plan.newest());
    trace.walls.retain(|wall| wall.wall != own);
    Ok(trace)
}

/// A partition that bears nothing changes no other part of the house, wherever it stands.
pub(super) fn stays_alone(plan: &Plan, places: [(Point, Point); 2]) -> Result<(), String> {
    let level = plan.levels().first().ok_or("no level")?.id;
    let bare = trace(plan);
    for (a, b) in places.into_iter().filter(|(a, b)| a != b) {
        let with = without(plan, level, a, b)?;
        for (one, other) in bare.walls.iter().zip(&with.walls) {
            if one != other {
                return Err(format!("with a partition from {a:?} to {b:?}: {one:?} became {other:?}"));
            }
        }
        let rest = |trace: &Trace| {
            (
                trace.beams.clone(),
                trace.posts.clone(),
                trace.headers.clone(),
                trace.members.clone(),
                trace.roofs.clone(),
            )
        };
        if rest(&bare) != rest(&with) {
            return Err(format!("a partition from {a:?} to {b:?} changes a beam, post, header, member or roof"));
        }
    }
    Ok(())
}

/// Through the file and through the link and back; and the file and the link are the same again.
pub(super) fn comes_back(plan: &Plan) -> Result<(), String> {
    let file = Plan::from_json(&plan.to_json()).map_err(|error| error.to_string())?;
    let link = Plan::from_link(&plan.to_link()).map_err(|error| error.to_string())?;
    if file != *plan {
        return Err("the file is another house".to_owned());
    }
    if link != *plan {
        return Err("the link is another house".to_owned());
    }
    if file.to_json() != plan.to_json() || link.to_link() != plan.to_link() {
        return Err("the file or the link is another text".to_owned());
    }
    Ok(())
}

/// A change that somebody could make, before it is known which parts the house has.
#[derive(Clone, Debug)]
pub(super) enum Change {
    AddLevel(LevelKind),
    RemoveLevel(Index),
    Remove(Index),
    Move(Index, i32, i32),
    MoveEnd(Index, WallEnd, i32, i32),
    Split(Index, i32),
    Outline(Index, Vec<(i32, i32)>),
    Copy(Index, Index),
}

pub(super) fn change() -> impl Strategy<Value = Change> {
    let at = -100_000..2_000_000;
    let kinds = vec![LevelKind::Storey, LevelKind::Attic, LevelKind::Basement, LevelKind::CrawlSpace];
    prop_oneof![
        1 => proptest::sample::select(kinds).prop_map(Change::AddLevel),
        1 => any::<Index>().prop_map(Change::RemoveLevel),
        3 => any::<Index>().prop_map(Change::Remove),
        4 => (any::<Index>(), -200_000..200_000, -200_000..200_000).prop_map(|(it, x, y)| Change::Move(it, x, y)),
        3 => (any::<Index>(), any::<bool>(), at.clone(), at.clone()).prop_map(|(it, a, x, y)| {
            Change::MoveEnd(it, if a { WallEnd::A } else { WallEnd::B }, x, y)
        }),
        3 => (any::<Index>(), 0..1_000_000).prop_map(|(it, at)| Change::Split(it, at)),
        1 => (any::<Index>(), proptest::collection::vec((at.clone(), at), 3..7))
            .prop_map(|(it, corners)| Change::Outline(it, corners)),
        2 => (any::<Index>(), any::<Index>()).prop_map(|(it, to)| Change::Copy(it, to)),
    ]
}

fn point(x: i32, y: i32) -> Point {
    Point::new(Ticks::new(x), Ticks::new(y))
}

impl Change {
    /// The edit of this house; none if it has no part for it.
    fn edit(&self, plan: &Plan) -> Option<Edit> {
        let parts: Vec<ElementId> = plan.levels().iter().flat_map(|level| level.element_ids()).collect();
        let part = |index: &Index| (!parts.is_empty()).then(|| *index.get(&parts));
        let level = |index: &Index| index.get(plan.levels()).id;
        Some(match self {
            Self::AddLevel(kind) => Edit::AddLevel(*kind),
            Self::RemoveLevel(index) => Edit::RemoveLevel(level(index)),
            Self::Remove(index) => Edit::Remove(part(index)?),
            Self::Move(index, dx, dy) => Edit::Move { element: part(index)?, dx: Ticks::new(*dx), dy: Ticks::new(*dy) },
            Self::MoveEnd(index, end, x, y) => Edit::MoveEnd { element: part(index)?, end: *end, to: point(*x, *y) },
            Self::Split(index, at) => match part(index)? {
                ElementId::Wall(wall) => Edit::Split { wall, at: Ticks::new(*at) },
                _ => return None,
            },
            Self::Outline(index, corners) => {
                Edit::Outline { level: level(index), corners: corners.iter().map(|(x, y)| point(*x, *y)).collect() }
            }
            Self::Copy(index, to) => Edit::Add(level(to), plan.element(part(index)?)?),
        })
    }
}

/// Changes one after another: each refused, or a plan that comes back from its file and is traced in full; the plan
/// before it stays as it was, and a part added and removed again leaves no trace.
pub(super) fn keep_sound(plan: &Plan, changes: &[Change]) -> Result<(), String> {
    let mut now = plan.clone();
    for change in changes {
        let Some(edit) = change.edit(&now) else { continue };
        let before = now.clone();
        let result = now.with(&edit);
        if now != before {
            return Err(format!("{edit:?} touched the plan it was asked of"));
        }
        let Ok(after) = result else { continue };
        let read = Plan::from_json(&after.to_json()).map_err(|error| format!("after {edit:?}: {error}"))?;
        if read.levels() != after.levels() {
            return Err(format!("after {edit:?} the file is another house"));
        }
        let off = trace(&after).ledger.worst_share_off();
        if !off.is_finite() || off > 1e-9 {
            return Err(format!("after {edit:?} the ledger is off by {off}"));
        }
        if let Edit::Add(_, element) = &edit {
            let added = after.levels().iter().flat_map(|it| it.element_ids()).find(|it| it.number() == after.newest());
            let back = added.ok_or("nothing was added").map(|id| after.with(&Edit::Remove(id)))?;
            // A copy of a wall brings no openings, so that taking it away takes nothing else.
            if back.map_err(|error| error.to_string())?.levels() != now.levels() {
                return Err(format!("{element:?} added and removed leaves another house"));
            }
        }
        now = after;
    }
    Ok(())
}
