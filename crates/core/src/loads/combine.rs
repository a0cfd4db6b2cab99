//! Allowable-stress combinations of loads that came apart by kind.
//!
//! ASCE 7, section 2.4.1, combinations 1 to 4, as restated for 7-10 and 7-22 (SEEN). Those with wind or earthquake are
//! absent, and rain is none of the kinds.

use core::ops::{Add, Mul};

use serde::{Deserialize, Serialize};

use super::{ByKind, Site};

/// An allowable-stress combination of ASCE 7, section 2.4.1, without wind and earthquake. Of roof live load and snow one
/// acts at a time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Combination {
    /// D.
    Dead,
    /// D + L.
    DeadLive,
    /// D + Lr.
    DeadRoofLive,
    /// D + S.
    DeadSnow,
    /// D + 0.75 L + 0.75 Lr.
    DeadLiveRoofLive,
    /// D + 0.75 L + 0.75 S.
    DeadLiveSnow,
}

impl Combination {
    /// All of them, in the order of the section.
    pub const ALL: [Self; 6] =
        [Self::Dead, Self::DeadLive, Self::DeadRoofLive, Self::DeadSnow, Self::DeadLiveRoofLive, Self::DeadLiveSnow];

    /// How much of each kind is in it. Attic and floor live loads count together, the heavier side; snow takes the factor
    /// of the edition that the ground snow comes from.
    #[must_use]
    pub const fn factors(self, site: &Site) -> ByKind<f64> {
        let (live, roof_live, snow) = match self {
            Self::Dead => (0.0, 0.0, 0.0),
            Self::DeadLive => (1.0, 0.0, 0.0),
            Self::DeadRoofLive => (0.0, 1.0, 0.0),
            Self::DeadSnow => (0.0, 0.0, 1.0),
            Self::DeadLiveRoofLive => (0.75, 0.75, 0.0),
            Self::DeadLiveSnow => (0.75, 0.0, 0.75),
        };
        ByKind { dead: 1.0, floor: live, attic: live, roof_live, snow: snow * site.snow_factor() }
    }

    /// What it comes to.
    #[must_use]
    pub fn of<T>(self, by_kind: &ByKind<T>, site: &Site) -> T
    where
        T: Copy + Add<Output = T> + Mul<f64, Output = T>,
    {
        let by = self.factors(site);
        let live = (by_kind.floor + by_kind.attic) * by.floor;
        by_kind.dead + live + by_kind.roof_live * by.roof_live + by_kind.snow * by.snow
    }
}

/// Every combination of one quantity, in the order of the section.
#[must_use]
pub fn combinations<T>(by_kind: &ByKind<T>, site: &Site) -> [(T, Combination); 6]
where
    T: Copy + Add<Output = T> + Mul<f64, Output = T>,
{
    Combination::ALL.map(|one| (one.of(by_kind, site), one))
}

/// The heaviest allowable-stress combination of one quantity, and which it is: the first of those that come to the same.
#[must_use]
pub fn heaviest<T>(by_kind: &ByKind<T>, site: &Site) -> (T, Combination)
where
    T: Copy + PartialOrd + Add<Output = T> + Mul<f64, Output = T>,
{
    let [mut most, rest @ ..] = combinations(by_kind, site);
    for one in rest {
        if one.0 > most.0 {
            most = one;
        }
    }
    most
}

#[cfg(test)]
mod tests {
    use super::super::SnowEdition;
    use super::*;
    use crate::units::Psf;

    /// ASCE 7-16 and 7-22, section 2.4.1, combinations 1 to 4 by hand: D 10, L 40, Lr 20, S 30 psf.
    #[test]
    fn the_heaviest_combination_in_psf_depends_on_the_snow_edition() {
        let psf = ByKind { dead: Psf(10.0), floor: Psf(40.0), attic: Psf(0.0), roof_live: Psf(20.0), snow: Psf(30.0) };
        let old = Site { snow_edition: SnowEdition::UpTo2016, ..Site::default() };
        assert_eq!(heaviest(&psf, &old), (Psf(10.0 + 30.0 + 22.5), Combination::DeadLiveSnow));
        let new = Site { snow_edition: SnowEdition::From2022, ..Site::default() };
        assert_eq!(heaviest(&psf, &new), (Psf(10.0 + 30.0 + 0.75 * 21.0), Combination::DeadLiveSnow));
        let no_roof = ByKind { roof_live: Psf(0.0), snow: Psf(0.0), ..psf };
        assert_eq!(heaviest(&no_roof, &new), (Psf(50.0), Combination::DeadLive));
    }

    #[test]
    fn strength_level_snow_taken_with_the_old_combinations_is_three_tenths_of_it_too_much_in_psf() {
        let snow = ByKind { snow: Psf(40.0), ..ByKind::default() };
        let taken = |snow_edition| heaviest(&snow, &Site { snow_edition, ..Site::default() });
        assert_eq!(taken(SnowEdition::UpTo2016), (Psf(40.0), Combination::DeadSnow));
        assert_eq!(taken(SnowEdition::From2022), (Psf(28.0), Combination::DeadSnow));
        assert_eq!(taken(SnowEdition::NotStated), (Psf(40.0), Combination::DeadSnow));
    }

    #[test]
    fn people_and_snow_on_a_roof_never_count_together_in_psf() {
        let roof = ByKind { dead: Psf(15.0), roof_live: Psf(20.0), snow: Psf(21.0), ..ByKind::default() };
        assert_eq!(heaviest(&roof, &Site::default()), (Psf(36.0), Combination::DeadSnow));
        assert_eq!(heaviest(&ByKind { snow: Psf(0.0), ..roof }, &Site::default()).1, Combination::DeadRoofLive);
        assert_eq!(heaviest(&ByKind::<Psf>::default(), &Site::default()).1, Combination::Dead);
    }
}
