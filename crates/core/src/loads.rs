//! Loads by kind, the usual values with their sources, snow and roof live load, and the allowable-stress combinations.
//!
//! Wind and earthquake are absent: bracing is a question the card always asks, not a figure here.

use core::ops::{Add, AddAssign, Mul, Sub};

use serde::{Deserialize, Serialize};

mod combine;
pub mod layers;
mod site;
pub mod snow;
mod soil;
mod things;
pub mod workers;

pub use combine::{Combination, combinations, heaviest};
pub use site::{Site, SnowEdition};
pub use snow::Surface;
pub use soil::{Soil, soil_usual};
pub use things::Thing;

use crate::plan::{Make, Side, Use};
use crate::units::{Feet, Plf, Pounds, Psf, Ticks};

/// A kind of load. Kinds stay apart until a combination is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// The weight of the house itself.
    Dead,
    /// People and things on floors.
    Floor,
    /// Things stored in an attic.
    Attic,
    /// Workers on a roof.
    RoofLive,
    /// Snow on a roof.
    Snow,
}

impl Kind {
    /// All kinds, in the order they are printed.
    pub const ALL: [Self; 5] = [Self::Dead, Self::Floor, Self::Attic, Self::RoofLive, Self::Snow];
}

/// One quantity for each kind of load.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct ByKind<T> {
    /// The weight of the house itself.
    pub dead: T,
    /// People and things on floors.
    pub floor: T,
    /// Things stored in an attic.
    pub attic: T,
    /// Workers on a roof.
    pub roof_live: T,
    /// Snow on a roof.
    pub snow: T,
}

/// Pounds of each kind.
pub type Weights = ByKind<Pounds>;
/// Pounds a foot of each kind.
pub type LineLoads = ByKind<Plf>;
/// Pounds a square foot of each kind.
pub type AreaLoads = ByKind<Psf>;

impl Weights {
    /// What weighs less than a pound in all is a sliver of some member: it goes to its neighbour and is no finding.
    pub const SLIVER: Pounds = Pounds(1.0);

    /// Whether all kinds together, up or down, are under a pound.
    #[must_use]
    pub fn is_sliver(&self) -> bool {
        Kind::ALL.iter().map(|kind| self.get(*kind).0.abs()).sum::<f64>() < Self::SLIVER.0
    }
}

impl<T: Copy> ByKind<T> {
    /// One kind of it.
    #[must_use]
    pub const fn get(&self, kind: Kind) -> T {
        match kind {
            Kind::Dead => self.dead,
            Kind::Floor => self.floor,
            Kind::Attic => self.attic,
            Kind::RoofLive => self.roof_live,
            Kind::Snow => self.snow,
        }
    }

    /// One kind of it, to be changed.
    pub const fn get_mut(&mut self, kind: Kind) -> &mut T {
        match kind {
            Kind::Dead => &mut self.dead,
            Kind::Floor => &mut self.floor,
            Kind::Attic => &mut self.attic,
            Kind::RoofLive => &mut self.roof_live,
            Kind::Snow => &mut self.snow,
        }
    }

    /// The same rule for each kind.
    #[must_use]
    pub fn map<U>(&self, mut rule: impl FnMut(T) -> U) -> ByKind<U> {
        ByKind {
            dead: rule(self.dead),
            floor: rule(self.floor),
            attic: rule(self.attic),
            roof_live: rule(self.roof_live),
            snow: rule(self.snow),
        }
    }
}

impl<T: Copy + Default> ByKind<T> {
    /// Of one kind alone.
    #[must_use]
    pub fn only(kind: Kind, value: T) -> Self {
        let mut all = Self::default();
        *all.get_mut(kind) = value;
        all
    }
}

impl<T: Copy + Add<Output = T>> ByKind<T> {
    /// All kinds together: for contact and for the ledger, not for a check.
    #[must_use]
    pub fn all(&self) -> T {
        self.dead + self.floor + self.attic + self.roof_live + self.snow
    }
}

impl<T: Copy + Add<Output = T>> Add for ByKind<T> {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            dead: self.dead + other.dead,
            floor: self.floor + other.floor,
            attic: self.attic + other.attic,
            roof_live: self.roof_live + other.roof_live,
            snow: self.snow + other.snow,
        }
    }
}

impl<T: Copy + Add<Output = T>> AddAssign for ByKind<T> {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl<T: Copy + Sub<Output = T>> Sub for ByKind<T> {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self {
            dead: self.dead - other.dead,
            floor: self.floor - other.floor,
            attic: self.attic - other.attic,
            roof_live: self.roof_live - other.roof_live,
            snow: self.snow - other.snow,
        }
    }
}

impl<T: Mul<f64, Output = T>> Mul<f64> for ByKind<T> {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self {
            dead: self.dead * factor,
            floor: self.floor * factor,
            attic: self.attic * factor,
            roof_live: self.roof_live * factor,
            snow: self.snow * factor,
        }
    }
}

impl Mul<Feet> for AreaLoads {
    type Output = LineLoads;
    fn mul(self, width: Feet) -> LineLoads {
        self.map(|psf| psf * width)
    }
}

impl Mul<Feet> for LineLoads {
    type Output = Weights;
    fn mul(self, length: Feet) -> Weights {
        self.map(|plf| plf * length)
    }
}

/// How sure a published value is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "UPPERCASE")]
pub enum Mark {
    /// Read in the source named.
    Seen,
    /// Recalled, not read.
    Memory,
    /// Found by fitting a rule to published figures; read nowhere as such.
    Fitted,
}

/// One published value, with the place it comes from: title, edition, table or section.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Sourced<T> {
    /// The value.
    pub value: T,
    /// Title, edition, table or section.
    pub source: &'static str,
    /// Whether it was read there.
    pub mark: Mark,
}

const fn seen(value: f64, source: &'static str) -> Sourced<Psf> {
    Sourced { value: Psf(value), source, mark: Mark::Seen }
}

/// Live load of a use, in psf.
#[must_use]
pub const fn live(used_as: Use) -> Sourced<Psf> {
    match used_as {
        Use::Living => seen(40.0, "IRC Table R301.5 (2012 and later copies): rooms other than sleeping rooms"),
        Use::Sleeping => seen(30.0, "IRC Table R301.5: sleeping rooms"),
        Use::AtticRoom => seen(30.0, "IRC Table R301.5: habitable attics and attics served with fixed stairs"),
        Use::AtticStorage => seen(20.0, "IRC Table R301.5: uninhabitable attics with limited storage"),
        Use::AtticBare => seen(10.0, "IRC Table R301.5: uninhabitable attics without storage"),
        Use::Deck => seen(40.0, "IRC Table R301.5: decks"),
        Use::Garage => seen(50.0, "IRC Table R301.5: passenger vehicle garages"),
    }
}

/// Dead load of a deck by its use, in psf.
#[must_use]
pub const fn deck_dead(used_as: Use) -> Sourced<Psf> {
    match used_as {
        Use::AtticBare => seen(5.0, "IRC Table R802.5.1(1): ceiling joists, dead load 5 psf"),
        Use::AtticStorage => seen(10.0, "IRC Table R802.5.1(2): ceiling joists, dead load 10 psf"),
        _ => {
            seen(10.0, "HUD Residential Structural Design Guide (2000), Table 3.2: light-frame floor, carpet or vinyl")
        }
    }
}

/// Dead load of a roof on its slope, in psf, without a ceiling hung from it.
#[must_use]
pub const fn roof_dead() -> Sourced<Psf> {
    seen(15.0, "HUD Residential Structural Design Guide (2000), Table 3.2: light-frame roof, asphalt shingles")
}

/// Live load of a roof on its plan, in psf, before any reduction.
#[must_use]
pub const fn roof_live() -> Sourced<Psf> {
    Sourced { value: Psf(20.0), source: "IRC Table R301.6: minimum roof live load, 20 psf", mark: Mark::Memory }
}

/// Weight of a wall's face, in psf.
#[must_use]
pub fn wall_dead(side: Side, make: Make, thickness: Ticks) -> Sourced<Psf> {
    const HUD: &str = "HUD Residential Structural Design Guide (2000), Table 3.2";
    match (make, side) {
        (Make::Concrete, _) if thickness <= Ticks::from_sixteenths(6 * 16) => seen(75.0, HUD),
        (Make::Concrete, _) if thickness <= Ticks::from_sixteenths(8 * 16) => seen(100.0, HUD),
        (Make::Concrete, _) if thickness <= Ticks::from_sixteenths(10 * 16) => seen(123.0, HUD),
        (Make::Concrete, _) => seen(145.0, HUD),
        (Make::Masonry, _) if thickness <= Ticks::from_sixteenths(6 * 16) => seen(60.0, HUD),
        (Make::Masonry, _) if thickness <= Ticks::from_sixteenths(8 * 16) => seen(80.0, HUD),
        (Make::Masonry, _) if thickness <= Ticks::from_sixteenths(10 * 16) => seen(100.0, HUD),
        (Make::Masonry, _) => seen(125.0, HUD),
        (Make::Stud, Side::Outside) => seen(8.0, HUD),
        (Make::Stud, Side::Inside) => seen(6.0, HUD),
    }
}
