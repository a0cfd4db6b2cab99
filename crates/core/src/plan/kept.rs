//! Take-out studies that were kept: what was asked, never the answer, which is worked out again.

use serde::{Deserialize, Serialize};

use super::Point;
use crate::ids::{BeamId, LevelId, WallId};

/// What goes in a study, and with it the line it lies on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Away {
    /// A stretch of this wall.
    Wall(WallId),
    /// The posts of this beam between the ends of the stretch, and the piece of the beam there.
    Posts(BeamId),
    /// Nothing: the wall that stood here was taken out before, and a beam goes in under the joists.
    Nothing {
        /// On which level.
        level: LevelId,
        /// One end of the line.
        a: Point,
        /// The other end.
        b: Point,
    },
}
