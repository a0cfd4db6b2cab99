//! Observations: what somebody saw, measured or was told in one place of the house.
//!
//! A record and nothing else. What each kind can prove stands in `observe`; what follows for the house, in `readings`.

use serde::{Deserialize, Serialize};

use super::{Grade, Member, Photo, Point, Way, is_usual};
use crate::ids::ObservationId;
use crate::units::Ticks;

/// What stands below a wall, in line with it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Below {
    /// A beam or girder.
    #[default]
    Beam,
    /// A post.
    Post,
    /// A wall.
    Wall,
    /// Nothing: what is over it hangs on something else, or on nothing.
    Nothing,
}

/// What the original drawing says of a wall.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Drawn {
    /// It bears.
    #[default]
    Bearing,
    /// It does not.
    NotBearing,
}

/// What was seen. Facts of the deck and the roof are of those over the level the observation is on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case", tag = "saw")]
pub enum Saw {
    /// Joists run this way.
    JoistsRun {
        /// Which.
        along: Way,
    },
    /// Joists of this size, this far apart.
    JoistSize {
        /// Their size.
        member: Member,
        /// On centre, if it was measured.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        spacing: Option<Ticks>,
    },
    /// Ends of two joists meet over the wall: a lap, a butt or a splice.
    JoistsLap,
    /// Joists come from the side the observation is on, and end on the wall.
    JoistsEnd,
    /// Joists hang by hangers on a face of what lies on the wall.
    JoistsHang,
    /// Joists run through over the wall in one piece.
    JoistsRunThrough,
    /// Joists or trusses sit on the top plate, crossing it.
    SitOnPlate,
    /// A gap between the wall and what passes over it, along its whole length.
    Gap,
    /// Looked at along the whole top plate, from both faces: what is overhead runs along it and nothing stands on it.
    NothingStands,
    /// What is overhead runs along the wall, on both of its faces and along its whole length.
    RunAlong,
    /// No strut comes down from the roof on the wall, looked at along its whole length.
    NoStrut,
    /// Floorboards run this way.
    FloorboardsRun {
        /// Which.
        along: Way,
    },
    /// Rows of nails in the sheathing or subfloor run this way.
    NailRows {
        /// Which.
        along: Way,
    },
    /// Rafters against a ridge board, tied by the ceiling joists.
    RidgeBoard,
    /// Rafters on a ridge beam.
    RidgeBeam,
    /// Trusses with metal plates, every web whole.
    TrussPlates,
    /// Trusses with plywood gussets: built on the site.
    TrussGussets,
    /// A web of a truss is cut.
    WebCut,
    /// A tag or drawing says that the trusses bear on this wall.
    TrussTag,
    /// The trusses were looked at where they cross this wall: no tag, no doubled web.
    NoTag,
    /// A strut under a purlin, hip or ridge stands on the wall.
    StrutStands,
    /// A tie is missing between the feet of a pair of rafters.
    TieMissing,
    /// Something stands below in line.
    InLine {
        /// What.
        below: Below,
    },
    /// Studs of the wall are loose under the plate.
    LooseStuds,
    /// Two top plates on the wall.
    DoublePlate,
    /// No header over a door in the wall, or a single flat 2x4.
    NoHeader,
    /// A heavy header over a door in the wall.
    HeavyHeader,
    /// Studs packed together in the wall.
    StudPack {
        /// How many.
        studs: u8,
    },
    /// A doubled joist overhead.
    DoubledJoist,
    /// A tub, tank, stove or chimney on the floor above.
    HeavyAbove,
    /// The ceiling or floor sags.
    Sag {
        /// How much.
        by: Ticks,
    },
    /// A crack, above a door or in the ceiling.
    Crack,
    /// A door sticks.
    StickingDoor,
    /// A wall was taken out here earlier.
    WallTakenOut,
    /// A hole was cut to look, and closed or left open.
    Hole,
    /// The original drawing says this of the wall.
    Drawing {
        /// What.
        says: Drawn,
    },
    /// When the house was built.
    Age {
        /// The year.
        year: u16,
    },
    /// Studs run on past the floor above.
    StudsRunOn,
}

/// Something seen, measured, told or assumed in one place.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Observation {
    /// Its id.
    pub id: ObservationId,
    /// Where.
    pub at: Point,
    /// What.
    #[serde(flatten)]
    pub saw: Saw,
    /// How it is known.
    #[serde(default)]
    pub known: Grade,
    /// In the observer's words.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub note: String,
    /// The day, as the observer writes it: 2026-11-26.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub day: String,
    /// A photo: in a file the key of one of its photos, elsewhere the `data:image/` address; left out of links.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub photo: Photo,
}
