//! Doors, windows and passages in walls, and the studs that were counted at their sides.

use serde::{Deserialize, Serialize};

use super::is_usual;
use crate::ids::{OpeningId, WallId};
use crate::units::Ticks;

/// What an opening in a wall is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum OpeningKind {
    /// With a door.
    #[default]
    Door,
    /// With a window.
    Window,
    /// Open, from the floor up.
    Passage,
}

/// What was seen over an opening.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Header {
    /// Nobody looked.
    #[default]
    NotSeen,
    /// A header.
    There,
    /// No header, or a single flat 2x4.
    Missing,
}

/// The studs counted at one side of an opening; none where nobody counted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Jamb {
    /// Jacks: they end under the header and hold it up.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jacks: Option<u8>,
    /// Kings: they run past the header to the plate.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kings: Option<u8>,
}

/// A door, window or passage in a wall. What lands over it goes to its two jambs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Opening {
    /// Its id.
    pub id: OpeningId,
    /// The wall it is in.
    pub wall: WallId,
    /// From end `a` of the wall to its nearer jamb.
    pub offset: Ticks,
    /// Jamb to jamb.
    pub width: Ticks,
    /// What it is.
    #[serde(default)]
    pub kind: OpeningKind,
    /// What was seen over it.
    #[serde(default)]
    pub header: Header,
    /// What was counted at the jamb nearer end `a` of the wall.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub first: Jamb,
    /// The same at the other jamb.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub second: Jamb,
}
