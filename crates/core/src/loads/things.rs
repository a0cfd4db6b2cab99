//! Heavy things that stand in houses, with their usual weights.
//!
//! A weight is the upper end of what was read; where no figure was read there is none, and the owner is asked.

use serde::{Deserialize, Serialize};

use super::{Kind, Mark, Sourced};
use crate::units::Pounds;

/// A heavy thing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Thing {
    /// A bathtub of steel or acrylic, filled, with a person.
    #[default]
    Tub,
    /// A bathtub of cast iron, filled, with a person.
    CastIronTub,
    /// A hot tub for six or seven, filled, with people.
    HotTub,
    /// A waterbed with its frame and two people.
    Waterbed,
    /// An aquarium of about 125 gallons on its stand.
    Aquarium,
    /// An upright piano.
    UprightPiano,
    /// A grand piano.
    GrandPiano,
    /// A refrigerator, filled.
    Refrigerator,
    /// A kitchen island with a stone top, filled.
    KitchenIsland,
    /// A safe.
    Safe,
    /// Filled bookcases.
    Bookcase,
    /// Boxes, tiles or timber in store.
    StoredBoxes,
    /// A tank of water or oil.
    Tank,
    /// A stove or fireplace of brick or stone.
    MasonryStove,
    /// A chimney that stands on the floor.
    Chimney,
    /// A floor of stone or tile in mortar.
    StoneFloor,
}

impl Thing {
    /// All of them, in the order of the list on the page.
    pub const ALL: [Self; 16] = [
        Self::Tub,
        Self::CastIronTub,
        Self::HotTub,
        Self::Waterbed,
        Self::Aquarium,
        Self::UprightPiano,
        Self::GrandPiano,
        Self::Refrigerator,
        Self::KitchenIsland,
        Self::Safe,
        Self::Bookcase,
        Self::StoredBoxes,
        Self::Tank,
        Self::MasonryStove,
        Self::Chimney,
        Self::StoneFloor,
    ];

    /// The kind of load it is: what is built in stays for good, all else may be carried out again.
    #[must_use]
    pub const fn load(self) -> Kind {
        match self {
            Self::KitchenIsland | Self::MasonryStove | Self::Chimney | Self::StoneFloor => Kind::Dead,
            _ => Kind::Floor,
        }
    }

    /// The usual weight, the upper end of what was read; none where no figure was read.
    #[must_use]
    pub const fn usual(self) -> Option<Sourced<Pounds>> {
        const fn seen(pounds: f64, source: &'static str) -> Option<Sourced<Pounds>> {
            Some(Sourced { value: Pounds(pounds), source, mark: Mark::Seen })
        }
        const fn memory(pounds: f64, source: &'static str) -> Option<Sourced<Pounds>> {
            Some(Sourced { value: Pounds(pounds), source, mark: Mark::Memory })
        }
        match self {
            Self::Tub => memory(900.0, "600 to 900 lb with 40 to 60 gallons and a person, common practice"),
            Self::CastIronTub => memory(1000.0, "800 to 1,000 lb filled, with a person, common practice"),
            Self::HotTub => {
                seen(5655.0, "Hot tub weight on decks, quoted figures: 420 gallons, 6 to 7 people, 56 sq ft")
            }
            Self::Waterbed => seen(1300.0, "Waterbed facts (2009): queen size with frame and two people, 36 sq ft"),
            Self::Aquarium => seen(1200.0, "Aquatic plants list (2002): 125 gallons, 48 by 24 in"),
            Self::UprightPiano => memory(800.0, "300 to 800 lb, common practice"),
            Self::GrandPiano => seen(1000.0, "Building material weights list: grand piano"),
            Self::Refrigerator => seen(400.0, "Waterbed facts (2009): over 400 lb filled, on 9 sq ft"),
            Self::KitchenIsland => memory(1300.0, "900 to 1,300 lb for 3 by 6 ft with a stone top, common practice"),
            Self::Safe
            | Self::Bookcase
            | Self::StoredBoxes
            | Self::Tank
            | Self::MasonryStove
            | Self::Chimney
            | Self::StoneFloor => None,
        }
    }
}
