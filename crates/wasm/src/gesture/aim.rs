//! Where a pointer or the cross of the keyboard lands on the plan.

use joistwise_core::geometry::{self, Spot};
use joistwise_core::ids::{ElementId, WallId};
use joistwise_core::plan::{Point, Wall};
use joistwise_core::snap::{Aim, Catch, Landing, land};
use joistwise_core::units::{Feet, Ticks};

use super::Desk;
use crate::view::{Screen, SnapMark, Tool};

/// Below this many CSS pixels a foot, the grid is whole feet.
const FINE_SCALE: f64 = 12.0;
/// Half a foot.
const HALF_FOOT: Ticks = Ticks::from_sixteenths(6 * 16);

/// Where a place of the canvas lands, with corners set so far.
pub(super) fn at_screen(at: Screen, reach_px: f64, set: &[Point], desk: &Desk<'_>) -> Option<Landing> {
    at_spot(desk.view.view.plan_from_screen(at), reach_px, set, None, desk)
}

/// The same for a place of the plan, past something that is being moved.
pub(super) fn at_spot(
    spot: Spot,
    reach_px: f64,
    set: &[Point],
    skip: Option<ElementId>,
    desk: &Desk<'_>,
) -> Option<Landing> {
    let reach = Feet(reach_px / desk.view.view.scale.max(0.1));
    land(spot, &Aim { plan: desk.plan, level: desk.view.level, set, skip, reach, grid: grid(desk) })
}

/// The cross of the keyboard stays where it is; what is exactly there gets named.
pub(super) fn at_cross(at: Point, set: &[Point], desk: &Desk<'_>) -> Landing {
    let caught = at_spot(at.into(), 0.5, set, None, desk).filter(|landing| landing.at == at);
    caught.unwrap_or(Landing { at, on: Catch::Grid, guide: None })
}

/// The pitch that points fall on at this scale.
pub(super) fn grid(desk: &Desk<'_>) -> Ticks {
    if desk.view.view.scale >= FINE_SCALE { HALF_FOOT } else { Ticks::from_feet(1) }
}

/// The mark shown beside a landing.
pub(super) fn mark(landing: &Landing) -> SnapMark {
    let guide = landing.guide.map(|from| (from, landing.at));
    SnapMark { at: landing.at, word: landing.on.word(), guide }
}

/// The wall of the level nearest to a place, within reach, and how far along it the place is.
pub(super) fn wall_near(at: Point, reach_px: f64, desk: &Desk<'_>) -> Option<(WallId, Ticks)> {
    let reach = reach_px / desk.view.view.scale.max(0.1);
    let level = desk.plan.level(desk.view.level)?;
    let near = |wall: &Wall| {
        let frame = geometry::Frame::between(wall.a, wall.b)?;
        let (start, _) = frame.local(wall.a.into());
        let (end, line) = frame.local(wall.b.into());
        let (along, across) = frame.local(at.into());
        let away = (across - line).abs().0.max((start - along).0).max((along - end).0);
        // A hand lands on the body of a wall as well as on its line.
        let close = away <= reach.max(wall.thickness.feet().0);
        let along = Ticks::from_decimal_feet(along - start)?;
        close.then_some((away, wall.id, along))
    };
    let nearest = level.walls.iter().filter_map(near).min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    nearest.map(|(_, wall, along)| (wall, along))
}

/// How far a tool's point is caught: posts and openings want walls, arrows nothing but the grid.
pub(super) fn reach_of(tool: Tool, reach_px: f64, area_first: bool) -> f64 {
    match tool {
        Tool::Joists | Tool::Roof if !area_first => 0.0,
        _ => reach_px,
    }
}
