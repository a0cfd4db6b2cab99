//! Notches and holes that were found in joists.

use serde::{Deserialize, Serialize};

use super::{Grade, Point, is_usual};
use crate::ids::JoistCutId;
use crate::units::Ticks;

/// Where a notch is along its joist.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum NotchAt {
    /// Along the span.
    #[default]
    Span,
    /// At the end, over the support.
    End,
}

/// Which edge of a joist a notch is in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum JoistEdge {
    /// The upper one.
    #[default]
    Top,
    /// The lower one.
    Bottom,
}

/// What was cut out of a joist.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case", tag = "cut")]
pub enum Cut {
    /// A notch in an edge.
    Notch {
        /// How deep.
        depth: Ticks,
        /// How long, along the joist.
        length: Ticks,
        /// At the end or along the span.
        #[serde(default, skip_serializing_if = "is_usual")]
        place: NotchAt,
        /// In which edge.
        #[serde(default, skip_serializing_if = "is_usual")]
        edge: JoistEdge,
    },
    /// A hole.
    Hole {
        /// How wide.
        diameter: Ticks,
        /// From its rim to the nearer edge of the joist.
        to_edge: Ticks,
    },
}

/// A notch or hole in a joist of the deck over its level: the joist nearest to its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct JoistCut {
    /// Its id.
    pub id: JoistCutId,
    /// Where.
    pub at: Point,
    /// What it is.
    #[serde(flatten)]
    pub cut: Cut,
    /// How it is known.
    #[serde(default)]
    pub known: Grade,
}
