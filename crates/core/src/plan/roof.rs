//! Roofs and the purlins under them.

use serde::{Deserialize, Serialize};

use super::{Grade, Member, Point, Region, Way, Wood, is_usual};
use crate::ids::{PurlinId, RoofId};
use crate::loads::layers::{Listed, weighs};
use crate::loads::roof_dead;
use crate::units::{Feet, Inches, Psf, Ticks};

/// Who made the trusses.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum TrussMake {
    /// Nobody looked.
    #[default]
    NotSeen,
    /// Metal plates: made in a factory to bear at their ends.
    MetalPlates,
    /// Plywood gussets: nailed together on the site.
    SiteBuilt,
    /// A tag or drawing says that they bear inside the house too.
    InsideBearing,
}

/// What was seen of the webs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Webs {
    /// Nobody looked.
    #[default]
    NotSeen,
    /// All there.
    Whole,
    /// At least one is cut.
    Cut,
}

/// How a roof is framed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case", tag = "frame")]
pub enum RoofFrame {
    /// Nobody looked: traced eave to eave, and everything inside needs a look.
    #[default]
    NotSeen,
    /// Rafters against a ridge board, their feet tied by the ceiling joists.
    RidgeBoard,
    /// Rafters on a ridge beam, which carries half of each to posts and gable ends.
    RidgeBeam,
    /// Built on the roof under it: its own weight rides on the rafters there, snow and people are counted once.
    OverFramed,
    /// Trusses.
    Trusses {
        /// Who made them.
        #[serde(default)]
        make: TrussMake,
        /// What was seen of their webs.
        #[serde(default)]
        webs: Webs,
    },
}

/// The form of a roof.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum RoofForm {
    /// Two slopes that meet at a ridge.
    #[default]
    Gable,
    /// One slope, from a low wall to a high one.
    Shed,
    /// Four slopes: the two ends slope too, and the ridge is that much shorter. Over a rectangle.
    Hip,
    /// Two slopes on each side, the lower one steeper.
    Gambrel {
        /// From the eave to where the slope changes, on plan.
        lower_run: Ticks,
        /// Rise of the upper slope in a run of 12 in.
        upper_rise: Ticks,
    },
}

impl RoofForm {
    /// Whether it has a ridge that two slopes lean on.
    #[must_use]
    pub const fn has_ridge(self) -> bool {
        !matches!(self, Self::Shed)
    }

    /// Whether walls at the ends of its ridge go up to it.
    #[must_use]
    pub const fn has_gables(self) -> bool {
        matches!(self, Self::Gable | Self::Gambrel { .. })
    }
}

/// What a roof does where it comes to another one of its level.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Meets {
    /// It takes what it covers from the roofs before it.
    #[default]
    Covers,
    /// A wing, framed together with a roof whose ridge is square to its own: the planes meet in two valleys, from where the
    /// eaves meet up to where the wing's ridge runs into the main slope, however far its region is drawn into that roof.
    Valley,
}

impl Meets {
    /// Whether it takes what it covers, as every roof of a file that does not say does.
    #[must_use]
    pub const fn covers(&self) -> bool {
        matches!(self, Self::Covers)
    }
}

/// What stands over an opening in a roof, and so which way its load goes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Over {
    /// Glass in the slope: half to the header above it, half to the one below.
    #[default]
    Glass,
    /// A dormer with a gable: its rafters stand on its side walls, these on the trimmers.
    GableDormer,
    /// A dormer with one slope: its rafters go from the header above to its front wall, which stands on the one below.
    ShedDormer,
}

/// An opening in a slope of a roof, for a dormer or for glass: rafters cut between a header above it and one below, a
/// doubled rafter, the trimmer, at each side.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct RoofOpening {
    /// One corner, on plan; its sides run along the rafters and square to them.
    pub from: Point,
    /// The corner opposite.
    pub to: Point,
    /// What stands over it.
    #[serde(default)]
    pub over: Over,
    /// How high the front wall of a dormer stands over the slope; its side walls run out from that to nothing.
    #[serde(default)]
    pub front: Ticks,
}

/// A roof whose feet stand on the walls of its level.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Roof {
    /// Its id.
    pub id: RoofId,
    /// What it covers, without the overhang at the eaves.
    #[serde(default)]
    pub region: Region,
    /// The way the ridge runs; rafters lie square to it.
    pub ridge: Way,
    /// A place on the ridge where that is not midway between the eaves; on the high side of a shed roof.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ridge_at: Option<Point>,
    /// Its form.
    #[serde(default)]
    pub form: RoofForm,
    /// How it is framed.
    #[serde(flatten)]
    pub frame: RoofFrame,
    /// What it does where it comes to another roof.
    #[serde(default, skip_serializing_if = "Meets::covers")]
    pub meets: Meets,
    /// A place by the foot of a valley that runs on past the wing's ridge to the main ridge and holds the other valley; both
    /// end at the wing's ridge if there is none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub long_valley: Option<Point>,
    /// The openings in it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub openings: Vec<RoofOpening>,
    /// Rise in a run of 12 in; of the longer slope where the two differ, of the lower one of a gambrel.
    pub rise: Ticks,
    /// Beyond the outside wall at the eaves, on plan.
    #[serde(default)]
    pub overhang: Ticks,
    /// On centre.
    pub spacing: Ticks,
    /// What the rafters are.
    #[serde(default)]
    pub member: Member,
    /// Dead load on the slope where it differs from the usual one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dead: Option<Psf>,
    /// What it is built up of, by the list of layers; a typed dead load counts before it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub layers: Vec<Listed>,
    /// What is known of the wood of the rafters.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub wood: Wood,
    /// How the framing is known.
    #[serde(default)]
    pub known: Grade,
}

impl Roof {
    /// What a square foot of its slope weighs.
    #[must_use]
    pub fn weighs(&self) -> Psf {
        weighs(self.dead, &self.layers, roof_dead().value)
    }

    /// Under this rise in a run of 12 in a ridge board is not enough (IRC R802.3, SEEN as quoted).
    pub const LEAST_FOR_A_BOARD: Inches = Inches(3.0);

    /// Whether its slope is under 3 in 12, so that its ridge has to be a beam.
    #[must_use]
    pub fn is_too_flat_for_a_board(&self) -> bool {
        self.form.has_ridge() && self.rise.inches() < Self::LEAST_FOR_A_BOARD.0
    }
}

/// A purlin: it runs under the rafters and is held by struts, at the most 4 ft apart (IRC R802.4.5), whose feet stand in a
/// line beside it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Purlin {
    /// Its id.
    pub id: PurlinId,
    /// One end, on plan.
    pub a: Point,
    /// The other end.
    pub b: Point,
    /// What it is.
    #[serde(default)]
    pub member: Member,
    /// A place on the line on which the feet of its struts stand; none were seen if there is none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub feet: Option<Point>,
    /// Strut to strut; there is one at each end.
    pub spacing: Ticks,
    /// How it is known.
    #[serde(default)]
    pub known: Grade,
}

impl Purlin {
    /// How long a strut may be without a stay (IRC R802.4.5, SEEN as quoted).
    pub const LONGEST_STRUT: Feet = Feet(8.0);
}
