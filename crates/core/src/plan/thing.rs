//! Heavy things that stand on the floor of a level.

use serde::{Deserialize, Serialize};

use super::{Grade, Point};
use crate::ids::ThingId;
use crate::loads::Thing;
use crate::units::Pounds;

/// How a thing stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Stands {
    /// On all of its area.
    #[default]
    Flat,
    /// On legs or feet at its corners.
    OnLegs,
}

/// A heavy thing: it stands on the floor of its level, that is on the deck over the level below.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct HeavyThing {
    /// Its id.
    pub id: ThingId,
    /// What people call it, if anything.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// What it is.
    #[serde(default)]
    pub kind: Thing,
    /// Its corners on the floor.
    pub corners: Vec<Point>,
    /// How it stands.
    #[serde(default)]
    pub stands: Stands,
    /// Its weight in pounds where it differs from the usual one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weight: Option<Pounds>,
    /// How its weight is known.
    #[serde(default)]
    pub known: Grade,
}

impl HeavyThing {
    /// What it weighs; none where nobody said and no usual figure was read.
    #[must_use]
    pub fn weighs(&self) -> Option<Pounds> {
        self.weight.or_else(|| self.kind.usual().map(|usual| usual.value))
    }
}
