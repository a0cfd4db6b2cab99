//! Loads by kind, the usual values with their sources, and the allowable-stress combinations.
//!
//! Wind and earthquake are absent: bracing is a question the card always asks, not a figure here.

use core::ops::{Add, AddAssign, Mul, Sub};

use serde::{Deserialize, Serialize};

mod things;

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

/// Presumptive soil bearing where nothing is known, in psf.
#[must_use]
pub const fn soil_usual() -> Sourced<Psf> {
    seen(1500.0, "IRC Table R401.4.1: clay, sandy clay, silty clay, clayey silt, silt, sandy silt")
}

/// The edition of ASCE 7 that a ground snow load comes from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum SnowEdition {
    /// Nobody said: taken with 1.0 S, the heavier reading.
    #[default]
    NotStated,
    /// ASCE 7-05, 7-10 or 7-16: allowable-stress combinations take 1.0 S.
    UpTo2016,
    /// ASCE 7-22: strength-level values; allowable-stress combinations take 0.7 S.
    From2022,
}

/// Ground snow, soil, and the usual loads where this house differs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Site {
    /// Ground snow load, if known; none is traced if not, and a finding says so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ground_snow: Option<Psf>,
    /// The edition it comes from.
    #[serde(default)]
    pub snow_edition: SnowEdition,
    /// Roof live load on plan where it differs from the usual one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub roof_live: Option<Psf>,
    /// Soil bearing where it differs from the usual one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub soil: Option<Psf>,
}

impl Site {
    /// Snow on a roof's plan: `0.7 pg` (ASCE 7 eq. 7.3-1 with Ce = Ct = Is = 1), no reduction for slope, which is
    /// the heavier side.
    #[must_use]
    pub fn roof_snow(&self) -> Psf {
        self.ground_snow.unwrap_or(Psf::ZERO) * 0.7
    }

    /// Roof live load on plan.
    #[must_use]
    pub fn roof_live(&self) -> Psf {
        self.roof_live.unwrap_or(roof_live().value)
    }

    /// Soil bearing.
    #[must_use]
    pub fn soil(&self) -> Psf {
        self.soil.unwrap_or(soil_usual().value)
    }

    /// The factor on snow in allowable-stress combinations.
    #[must_use]
    pub const fn snow_factor(&self) -> f64 {
        match self.snow_edition {
            SnowEdition::From2022 => 0.7,
            SnowEdition::NotStated | SnowEdition::UpTo2016 => 1.0,
        }
    }
}

/// An allowable-stress combination of ASCE 7, section 2.4, without wind and earthquake.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Combination {
    /// D + L.
    DeadLive,
    /// D + (Lr or S).
    DeadRoof,
    /// D + 0.75 L + 0.75 (Lr or S).
    DeadLiveRoof,
}

/// The heaviest allowable-stress combination of one quantity, and which it is. Attic and floor live loads count
/// together, the heavier side.
#[must_use]
pub fn heaviest<T>(by_kind: &ByKind<T>, site: &Site) -> (T, Combination)
where
    T: Copy + PartialOrd + Add<Output = T> + Mul<f64, Output = T>,
{
    let live = by_kind.floor + by_kind.attic;
    let snow = by_kind.snow * site.snow_factor();
    let roof = if snow > by_kind.roof_live { snow } else { by_kind.roof_live };
    let all = [
        (by_kind.dead + live, Combination::DeadLive),
        (by_kind.dead + roof, Combination::DeadRoof),
        (by_kind.dead + live * 0.75 + roof * 0.75, Combination::DeadLiveRoof),
    ];
    let [mut most, rest @ ..] = all;
    for one in rest {
        if one.0 > most.0 {
            most = one;
        }
    }
    most
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ASCE 7-16 and 7-22, section 2.4.1, combinations 1 to 4 by hand: D 10, L 40, Lr 20, S 30 psf.
    #[test]
    fn the_heaviest_combination_in_psf_depends_on_the_snow_edition() {
        let psf = ByKind { dead: Psf(10.0), floor: Psf(40.0), attic: Psf(0.0), roof_live: Psf(20.0), snow: Psf(30.0) };
        let old = Site { snow_edition: SnowEdition::UpTo2016, ..Site::default() };
        assert_eq!(heaviest(&psf, &old), (Psf(10.0 + 30.0 + 22.5), Combination::DeadLiveRoof));
        let new = Site { snow_edition: SnowEdition::From2022, ..Site::default() };
        assert_eq!(heaviest(&psf, &new), (Psf(10.0 + 30.0 + 0.75 * 21.0), Combination::DeadLiveRoof));
        let no_roof = ByKind { roof_live: Psf(0.0), snow: Psf(0.0), ..psf };
        assert_eq!(heaviest(&no_roof, &new), (Psf(50.0), Combination::DeadLive));
    }
}
