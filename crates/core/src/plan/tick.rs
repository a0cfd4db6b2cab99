//! What was ticked of the survey: which step, what came of it, how it is known.
//!
//! Only what the plan itself has no place for: a length goes into its part, what was seen becomes an observation.

use serde::{Deserialize, Serialize};

use super::{Grade, Plan, WallEnd, is_usual};
use crate::ids::{LevelId, WallId};

/// What a step of the survey asks for, in walking order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Task {
    /// When the house was built.
    Year,
    /// What was altered, by whom.
    Altered,
    /// Whether drawings are to be had.
    Drawings,
    /// What is stored in the attic.
    Stored,
    /// What the owner wants open.
    Wanted,
    /// Photos from outside.
    Photos,
    /// Length and width, around the outside.
    Outline,
    /// How thick the outside walls are.
    OutsideThickness,
    /// How steep the roof is.
    Rise,
    /// How far the eaves stand out.
    Eaves,
    /// Cracks, bulges, a ridge that sags, from outside.
    OutsideSigns,
    /// What is under the first floor.
    Under,
    /// Girders.
    Girders,
    /// Posts under them.
    Posts,
    /// Pads under those.
    Pads,
    /// Rot, insects, fire.
    Damage,
    /// Inside walls, drawn from one corner.
    Rooms,
    /// Doors and passages in them.
    Doors,
    /// Floor to ceiling.
    Height,
    /// The way the joists overhead run.
    JoistWay,
    /// Their size, how far apart.
    JoistSize,
    /// Stairs and chimneys.
    Stairs,
    /// Tubs, stoves, tanks.
    Heavy,
    /// Sags, cracks, doors that stick.
    Signs,
    /// Points common to the attic and the level under it.
    FixPoints,
    /// How the roof is framed.
    Framing,
    /// Webs of trusses.
    Webs,
    /// Ties between the feet of rafters.
    Ties,
    /// Purlins and their struts.
    Purlins,
    /// How thick the wall is.
    Thickness,
    /// What is over it.
    Over,
    /// Struts that stand on it.
    Struts,
    /// Where its studs end.
    Studs,
    /// Studs packed together.
    Packs,
    /// What is over its doors.
    Headers,
    /// A sag over it.
    Sag,
    /// Cracks and doors that stick, at it.
    Movement,
    /// What the drawing says of it.
    Paper,
    /// When it was built.
    Built,
    /// Wires, pipes, ducts.
    Services,
    /// Old paint and old boards on it.
    Coatings,
    /// A hole to look through.
    Hole,
    /// What stands under an end, one level down.
    Stands,
    /// What is in the ground under an end.
    Ground,
}

/// Which step of the survey: what it asks, and of which level, wall and end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct StepKey {
    /// What it asks for.
    pub task: Task,
    /// Of which level.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub level: Option<LevelId>,
    /// Of which wall.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wall: Option<WallId>,
    /// Of which end of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub end: Option<WallEnd>,
}

/// What came of a step.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Came {
    /// It was done.
    #[default]
    Done,
    /// It was looked for, and there is nothing of the kind.
    Nothing,
    /// It was not to be seen that day.
    NotSeen,
}

/// A step that was ticked.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Tick {
    /// Which.
    pub step: StepKey,
    /// What came of it.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub came: Came,
    /// How it is known.
    #[serde(default)]
    pub known: Grade,
    /// The day, as the observer writes it: 2026-11-26.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub day: String,
}

impl Plan {
    /// What was ticked of the survey, in walking order.
    #[must_use]
    pub fn ticks(&self) -> &[Tick] {
        &self.ticks
    }

    /// What was ticked of one step.
    #[must_use]
    pub fn tick(&self, step: StepKey) -> Option<&Tick> {
        self.ticks.iter().find(|tick| tick.step == step)
    }

    pub(super) fn put_tick(&mut self, tick: Tick) {
        self.ticks.retain(|it| it.step != tick.step);
        let place = self.ticks.partition_point(|it| it.step < tick.step);
        self.ticks.insert(place, tick);
    }

    /// Ticks of walls and levels that are gone go with them.
    pub(super) fn drop_ticks(&mut self) {
        let mut ticks = core::mem::take(&mut self.ticks);
        ticks.retain(|tick| {
            tick.step.level.is_none_or(|id| self.level(id).is_some())
                && tick.step.wall.is_none_or(|id| self.wall(id).is_some())
        });
        self.ticks = ticks;
    }
}
