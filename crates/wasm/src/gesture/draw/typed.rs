//! Lengths, sizes and places typed while drawing: `12' 6"`, `36' x 24'`, `0; 12'`.

use joistwise_core::geometry;
use joistwise_core::ids::ElementId;
use joistwise_core::plan::{Edit, Point};
use joistwise_core::snap::{Catch, Landing};
use joistwise_core::tape::{self, NotRead};
use joistwise_core::units::Ticks;

use super::super::{Desk, Effect, Gesture, Refusal};
use super::{Draft, finish, first, take};
use crate::view::Tool;

/// A line steeper than this against an axis is meant to be slanted.
const SLANT: i32 = 5;

/// Why nothing came of a typed text.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum TypedError {
    /// Not a length.
    #[error(transparent)]
    NotRead(#[from] NotRead),
    /// A length, but from where?
    #[error("take a first point, then type the length; or type the first point as east; north, like 0; 12'")]
    NoStart,
    /// A length for an outline that has no corner yet.
    #[error("type the size of the house, like 36' x 24', or take a first corner and then type the length of a side")]
    NoCorner,
    /// An area needs two lengths.
    #[error("take a first corner, then type both sides, like 3' x 10'")]
    NoArea,
    /// A cut in no wall.
    #[error("choose a wall first, then type how far from its first end the cut is")]
    NoWall,
    /// Nothing is being drawn.
    #[error("choose a tool first: nothing is being drawn")]
    NoTool,
    /// It reads, and cannot be drawn.
    #[error(transparent)]
    Refused(#[from] Refusal),
}

/// What a typed text makes of a draft.
pub fn typed(gesture: &Gesture, text: &str, desk: &Desk<'_>) -> Result<(Gesture, Effect), TypedError> {
    let tool = desk.view.tool;
    let draft = gesture.draft().cloned();
    if let Some((east, north)) = text.split_once(';') {
        let at = Point::new(tape::read(east)?, tape::read(north)?);
        let landing = Landing { at, on: Catch::Grid, guide: None };
        return match draft {
            Some(draft) => Ok(take(draft, landing, desk)),
            None if super::super::draws(tool) => Ok(first(at, desk)),
            None => Err(TypedError::NoTool),
        };
    }
    match (tool, draft) {
        (Tool::Outline, draft) if draft.is_none() || tape::read_pair(text).is_ok() => size(draft, text, desk),
        (Tool::FloorOpening | Tool::Joists, Some(draft)) if tool != Tool::Joists || desk.settings.area_first => {
            area(&draft, text, desk)
        }
        (Tool::FloorOpening | Tool::Joists, None) => Err(TypedError::NoArea),
        (Tool::Outline | Tool::InsideWall | Tool::Beam | Tool::Joists | Tool::Roof, Some(draft)) => {
            let landing = Landing { at: end_of(&draft, tape::read(text)?), on: Catch::Square, guide: None };
            Ok(take(draft, landing, desk))
        }
        (Tool::Split, _) => {
            let Some(ElementId::Wall(wall)) = desk.view.chosen else {
                return Err(TypedError::NoWall);
            };
            Ok((Gesture::Idle, Effect::Commit(Edit::Split { wall, at: tape::read(text)? })))
        }
        (Tool::Pick | Tool::Hand | Tool::Seen, _) => Err(TypedError::NoTool),
        _ => Err(TypedError::NoStart),
    }
}

/// A rectangle: from the first corner towards the pointer, or where the outline is now.
fn size(draft: Option<Draft>, text: &str, desk: &Desk<'_>) -> Result<(Gesture, Effect), TypedError> {
    let (length, width) = match tape::read_pair(text) {
        Ok(pair) => pair,
        Err(_) if tape::read(text).is_ok() => return Err(TypedError::NoCorner),
        Err(not_read) => return Err(not_read.into()),
    };
    if let Some(draft) = draft {
        return corner_to_corner(&draft, length, width, desk);
    }
    let corners = desk.plan.level(desk.view.level).map(|level| level.outlines()).unwrap_or_default();
    let all = || corners.iter().flatten();
    let west = all().map(|corner| corner.x).min().unwrap_or_default();
    let south = all().map(|corner| corner.y).min().unwrap_or_default();
    let (from, to) = (Point::new(west, south), Point::new(west + length, south + width));
    Ok((Gesture::Idle, Effect::Commit(finish(Tool::Outline, from, to, desk)?)))
}

fn area(draft: &Draft, text: &str, desk: &Desk<'_>) -> Result<(Gesture, Effect), TypedError> {
    let (wide, deep) = tape::read_pair(text)?;
    corner_to_corner(draft, wide, deep, desk)
}

fn corner_to_corner(draft: &Draft, wide: Ticks, deep: Ticks, desk: &Desk<'_>) -> Result<(Gesture, Effect), TypedError> {
    let (from, towards) = ends(draft);
    let wide = if towards.x < from.x { -wide } else { wide };
    let deep = if towards.y < from.y { -deep } else { deep };
    let to = Point::new(from.x + wide, from.y + deep);
    Ok((Gesture::Idle, Effect::Commit(finish(desk.view.tool, from, to, desk)?)))
}

/// The point at a length from the last one, the way the pointer is: along an axis unless the slant is evident.
fn end_of(draft: &Draft, length: Ticks) -> Point {
    let (from, towards) = ends(draft);
    let (dx, dy) = ((towards.x - from.x).get(), (towards.y - from.y).get());
    let (wide, deep) = (dx.saturating_abs(), dy.saturating_abs());
    let signed = |by: i32| if by < 0 { -length } else { length };
    if deep <= wide / SLANT {
        Point::new(from.x + signed(dx), from.y)
    } else if wide <= deep / SLANT {
        Point::new(from.x, from.y + signed(dy))
    } else {
        geometry::along(from, towards, length).unwrap_or(from)
    }
}

fn ends(draft: &Draft) -> (Point, Point) {
    let from = draft.set.last().copied().unwrap_or_default();
    (from, draft.next.map_or(from, |landing| landing.at))
}
