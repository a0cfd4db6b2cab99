//! What of the plan is under the pointer, and the handles of what is chosen.

use joistwise_core::ids::ElementId;
use joistwise_core::plan::{Plan, WallEnd};

use crate::view::{Screen, ViewState};

/// An end of a wall or beam that can be dragged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Handle {
    /// The wall or beam.
    pub element: ElementId,
    /// Which of its ends.
    pub end: WallEnd,
}

/// The part of the level on the sheet that is within reach of a place of the canvas, small things first.
#[must_use]
pub fn part_at(plan: &Plan, state: &ViewState, at: Screen, reach_px: f64) -> Option<ElementId> {
    let _ = (plan, state, at, reach_px);
    None
}

/// The handles of the chosen wall or beam, with their places on the canvas.
#[must_use]
pub fn handles(plan: &Plan, state: &ViewState) -> Vec<(Screen, Handle)> {
    let _ = (plan, state);
    Vec::new()
}
