//! A wall: where it stands, what it is made of, and what was seen of its top, its studs and its age.

use serde::{Deserialize, Serialize};

use super::{Joints, Point, is_usual};
use crate::ids::WallId;
use crate::loads::layers::{Listed, weighs};
use crate::loads::wall_dead;
use crate::units::{Psf, Ticks};

/// Outside or inside.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Side {
    /// Part of the outline. Its line is its outside face, where a tape around the house runs.
    Outside,
    /// Inside the house. Its line is its centre.
    #[default]
    Inside,
}

/// What a wall is made of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Make {
    /// Wood studs.
    #[default]
    Stud,
    /// Brick, block or stone.
    Masonry,
    /// Poured concrete.
    Concrete,
}

/// Whether an outside wall is a gable end.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Gable {
    /// It is not.
    #[default]
    No,
    /// The program guesses that it is: a shorter side.
    Guessed,
    /// Somebody said that it is.
    Stated,
}

/// How a wall meets what is over it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Top {
    /// Up against the joists; also when nobody looked.
    #[default]
    Tight,
    /// A gap was seen along its whole length: nothing can land on it.
    Gap,
    /// It was looked at along its whole length, from both faces: nothing crosses it, ends on it or stands on it.
    Bare,
}

/// When a wall was built, as far as anybody knows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Built {
    /// With the house, or nobody knows.
    #[default]
    WithTheHouse,
    /// Later: what runs through over it stood without it, and may lean on it by now.
    Later,
}

/// Where the studs of a wall end.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Studs {
    /// At a plate under each floor; also when nobody looked.
    #[default]
    AtEachFloor,
    /// They run on past the floor over it, which hangs on a ribbon and nails: a balloon frame.
    PastTheFloor,
}

/// Who has answered whether a wall braces the house against wind.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Bracing {
    /// Nobody yet.
    #[default]
    NotAnswered,
    /// A licensed engineer says what braces the house without it.
    EngineerAnswered,
    /// The building department does.
    DepartmentAnswered,
}

impl Bracing {
    /// Whether nobody has answered yet.
    #[must_use]
    pub const fn is_open(&self) -> bool {
        matches!(self, Self::NotAnswered)
    }
}

/// A straight wall.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Wall {
    /// Its id.
    pub id: WallId,
    /// What people call it, if anything.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// One end of its line.
    pub a: Point,
    /// The other end.
    pub b: Point,
    /// Face to face.
    pub thickness: Ticks,
    /// Outside or inside.
    #[serde(default)]
    pub side: Side,
    /// What it is made of.
    #[serde(default)]
    pub make: Make,
    /// Whether it is a gable end.
    #[serde(default)]
    pub gable: Gable,
    /// How it meets what is over it.
    #[serde(default)]
    pub top: Top,
    /// What was seen of the joists over it; as their field says where nobody looked here.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub joints: Joints,
    /// Its own height where it differs from the level's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub height: Option<Ticks>,
    /// When it was built.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub built: Built,
    /// Where its studs end.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub studs: Studs,
    /// Who has answered what braces the house without it.
    #[serde(default, skip_serializing_if = "Bracing::is_open")]
    pub bracing: Bracing,
    /// Whether a tag on the trusses, or their drawing, names it as a place where they bear.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub truss_bearing: bool,
    /// What it is built up of, by the list of layers.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub layers: Vec<Listed>,
}

impl Wall {
    /// A stud wall inside the house, 4 1/2 in face to face, of which nothing else is known; not in a plan yet.
    #[must_use]
    pub const fn inside(a: Point, b: Point) -> Self {
        Self {
            id: WallId(0),
            name: String::new(),
            a,
            b,
            thickness: Ticks::from_sixteenths(4 * 16 + 8),
            side: Side::Inside,
            make: Make::Stud,
            gable: Gable::No,
            top: Top::Tight,
            joints: Joints::NotSeen,
            height: None,
            built: Built::WithTheHouse,
            studs: Studs::AtEachFloor,
            bracing: Bracing::NotAnswered,
            truss_bearing: false,
            layers: Vec::new(),
        }
    }

    /// What a square foot of its face weighs.
    #[must_use]
    pub fn weighs(&self) -> Psf {
        weighs(None, &self.layers, wall_dead(self.side, self.make, self.thickness).value)
    }
}
