//! Ids: one newtype for each kind of element, never reused, never an index.

use serde::{Deserialize, Serialize};

macro_rules! ids { ($($(#[$doc:meta])* $Id:ident)*) => { $(
    $(#[$doc])*
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
    #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
    #[serde(transparent)]
    pub struct $Id(pub(crate) u32);

    impl $Id {
        /// The number in the file. All kinds share one sequence, so a number names one thing in a plan.
        #[must_use]
        pub const fn number(self) -> u32 {
            self.0
        }

        /// The id with this number; whether a plan holds it is for the plan to say.
        #[must_use]
        pub const fn from_number(number: u32) -> Self {
            Self(number)
        }
    }
)* } }

ids! {
    /// A level of the house.
    LevelId
    /// A wall.
    WallId
    /// An opening in a wall.
    OpeningId
    /// A post.
    PostId
    /// A beam.
    BeamId
    /// A pad or strip footing.
    FootingId
    /// A joist field.
    FieldId
    /// An opening in a deck.
    FloorOpeningId
    /// A roof.
    RoofId
    /// A purlin under a roof.
    PurlinId
    /// A heavy thing.
    ThingId
    /// Something seen.
    ObservationId
    /// A notch or hole in a joist.
    JoistCutId
    /// A rim board, a row of blocking or a ledger.
    BoardId
}

/// Any one element of a plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", tag = "kind", content = "id")]
pub enum ElementId {
    /// A wall.
    Wall(WallId),
    /// An opening in a wall.
    Opening(OpeningId),
    /// A post.
    Post(PostId),
    /// A beam.
    Beam(BeamId),
    /// A pad or strip footing.
    Footing(FootingId),
    /// A joist field.
    Field(FieldId),
    /// An opening in a deck.
    FloorOpening(FloorOpeningId),
    /// A roof.
    Roof(RoofId),
    /// A purlin under a roof.
    Purlin(PurlinId),
    /// A heavy thing.
    Thing(ThingId),
    /// Something seen.
    Observation(ObservationId),
    /// A notch or hole in a joist.
    JoistCut(JoistCutId),
    /// A rim board, a row of blocking or a ledger.
    Board(BoardId),
}

impl ElementId {
    /// The number in the file.
    #[must_use]
    pub const fn number(self) -> u32 {
        match self {
            Self::Wall(id) => id.0,
            Self::Opening(id) => id.0,
            Self::Post(id) => id.0,
            Self::Beam(id) => id.0,
            Self::Footing(id) => id.0,
            Self::Field(id) => id.0,
            Self::FloorOpening(id) => id.0,
            Self::Roof(id) => id.0,
            Self::Purlin(id) => id.0,
            Self::Thing(id) => id.0,
            Self::Observation(id) => id.0,
            Self::JoistCut(id) => id.0,
            Self::Board(id) => id.0,
        }
    }
}
