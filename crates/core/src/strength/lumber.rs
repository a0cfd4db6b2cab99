//! Design values of dimension lumber: species, grade and, for southern pine, size.
//!
//! NDS Supplement, Tables 4A and 4B: 2 to 4 in thick, dry, loaded on the narrow face. Timbers (5 in and thicker), decking and
//! machine-graded lumber are absent, so is every grade that the tables here do not hold.

use Grade::{One, SelectStructural, Three, Two};
use Species::{DouglasFirLarch, HemFir, SouthernPine, SprucePineFir};

use serde::{Deserialize, Serialize};

use crate::loads::Mark;
use crate::plan::{Material, Member};
use crate::units::Psi;

/// A species group as grade stamps name it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Species {
    /// DFL.
    DouglasFirLarch,
    /// HF.
    HemFir,
    /// SPF.
    SprucePineFir,
    /// SP.
    SouthernPine,
}

impl Species {
    /// All of them.
    pub const ALL: [Self; 4] = [DouglasFirLarch, HemFir, SprucePineFir, SouthernPine];
}

/// A visual grade.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Grade {
    /// SS.
    SelectStructural,
    /// No. 1.
    One,
    /// No. 2.
    Two,
    /// No. 3.
    Three,
}

impl Grade {
    /// All of them, best first.
    pub const ALL: [Self; 4] = [SelectStructural, One, Two, Three];
}

/// Reference design values, before any factor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DesignValues {
    /// Bending, Fb.
    pub fb: Psi,
    /// Tension along the grain, Ft.
    pub ft: Psi,
    /// Shear, Fv.
    pub fv: Psi,
    /// Compression across the grain, Fc-perp.
    pub fc_perp: Psi,
    /// Compression along the grain, Fc.
    pub fc: Psi,
    /// Modulus of elasticity for deflection, E.
    pub e: Psi,
    /// Modulus of elasticity for stability, Emin.
    pub e_min: Psi,
}

/// One row of a table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lumber {
    /// Of this species group.
    pub species: Species,
    /// Of this grade.
    pub grade: Grade,
    /// Nominal depth in inches where the row is for one size; none where CF has to be applied.
    pub depth: Option<u8>,
    /// What the row says.
    pub values: DesignValues,
    /// Title, edition, table.
    pub source: &'static str,
    /// Whether Fb was read there.
    pub fb_mark: Mark,
    /// Whether the others were.
    pub mark: Mark,
}

const TABLE_4A_SOURCE: &str = "NDS Supplement 2018, Table 4A";
const TABLE_4B_SOURCE: &str = "NDS Supplement 2012 and later, Table 4B (values effective June 1, 2013)";

const fn values([fb, ft, fv, fc_perp, fc, e, e_min]: [f64; 7]) -> DesignValues {
    DesignValues {
        fb: Psi(fb),
        ft: Psi(ft),
        fv: Psi(fv),
        fc_perp: Psi(fc_perp),
        fc: Psi(fc),
        e: Psi(e),
        e_min: Psi(e_min),
    }
}

const fn seen(species: Species, grade: Grade, psi: [f64; 7]) -> Lumber {
    let (source, mark) = (TABLE_4A_SOURCE, Mark::Seen);
    Lumber { species, grade, depth: None, values: values(psi), source, fb_mark: mark, mark }
}

const fn memory_fb(species: Species, grade: Grade, psi: [f64; 7]) -> Lumber {
    Lumber { fb_mark: Mark::Memory, ..seen(species, grade, psi) }
}

/// In psi MEMORY; the same rounded to 0.1 MPa was SEEN.
const fn pine(grade: Grade, depth: u8, psi: [f64; 7]) -> Lumber {
    let (source, mark) = (TABLE_4B_SOURCE, Mark::Memory);
    let depth = Some(depth);
    Lumber { species: SouthernPine, grade, depth, values: values(psi), source, fb_mark: mark, mark }
}

/// Every species but southern pine; CF still to be applied. Psi: Fb, Ft, Fv, Fc-perp, Fc, E, Emin.
///
/// Fb of spruce-pine-fir, select structural: the copy read prints 1150 psi; only 1250 gives the printed spans.
pub const TABLE_4A: [Lumber; 12] = [
    seen(DouglasFirLarch, SelectStructural, [1500.0, 1000.0, 180.0, 625.0, 1700.0, 1_900_000.0, 690_000.0]),
    seen(DouglasFirLarch, One, [1000.0, 675.0, 180.0, 625.0, 1500.0, 1_700_000.0, 620_000.0]),
    seen(DouglasFirLarch, Two, [900.0, 575.0, 180.0, 625.0, 1350.0, 1_600_000.0, 580_000.0]),
    seen(DouglasFirLarch, Three, [525.0, 325.0, 180.0, 625.0, 775.0, 1_400_000.0, 510_000.0]),
    seen(HemFir, SelectStructural, [1400.0, 925.0, 150.0, 405.0, 1500.0, 1_600_000.0, 580_000.0]),
    seen(HemFir, One, [975.0, 625.0, 150.0, 405.0, 1350.0, 1_500_000.0, 550_000.0]),
    seen(HemFir, Two, [850.0, 525.0, 150.0, 405.0, 1300.0, 1_300_000.0, 470_000.0]),
    seen(HemFir, Three, [500.0, 300.0, 150.0, 405.0, 725.0, 1_200_000.0, 440_000.0]),
    memory_fb(SprucePineFir, SelectStructural, [1250.0, 700.0, 135.0, 425.0, 1400.0, 1_500_000.0, 550_000.0]),
    seen(SprucePineFir, One, [875.0, 450.0, 135.0, 425.0, 1150.0, 1_400_000.0, 510_000.0]),
    seen(SprucePineFir, Two, [875.0, 450.0, 135.0, 425.0, 1150.0, 1_400_000.0, 510_000.0]),
    seen(SprucePineFir, Three, [500.0, 250.0, 135.0, 425.0, 650.0, 1_200_000.0, 440_000.0]),
];

/// Southern pine, size effect already in. Psi: Fb, Ft, Fv, Fc-perp, Fc, E, Emin.
pub const TABLE_4B: [Lumber; 20] = [
    pine(SelectStructural, 4, [2350.0, 1650.0, 175.0, 565.0, 1900.0, 1_800_000.0, 660_000.0]),
    pine(SelectStructural, 6, [2100.0, 1450.0, 175.0, 565.0, 1800.0, 1_800_000.0, 660_000.0]),
    pine(SelectStructural, 8, [1950.0, 1350.0, 175.0, 565.0, 1700.0, 1_800_000.0, 660_000.0]),
    pine(SelectStructural, 10, [1700.0, 1150.0, 175.0, 565.0, 1650.0, 1_800_000.0, 660_000.0]),
    pine(SelectStructural, 12, [1600.0, 1100.0, 175.0, 565.0, 1650.0, 1_800_000.0, 660_000.0]),
    pine(One, 4, [1500.0, 1000.0, 175.0, 565.0, 1650.0, 1_600_000.0, 580_000.0]),
    pine(One, 6, [1350.0, 875.0, 175.0, 565.0, 1550.0, 1_600_000.0, 580_000.0]),
    pine(One, 8, [1250.0, 800.0, 175.0, 565.0, 1500.0, 1_600_000.0, 580_000.0]),
    pine(One, 10, [1050.0, 700.0, 175.0, 565.0, 1450.0, 1_600_000.0, 580_000.0]),
    pine(One, 12, [1000.0, 650.0, 175.0, 565.0, 1400.0, 1_600_000.0, 580_000.0]),
    pine(Two, 4, [1100.0, 675.0, 175.0, 565.0, 1450.0, 1_400_000.0, 510_000.0]),
    pine(Two, 6, [1000.0, 600.0, 175.0, 565.0, 1400.0, 1_400_000.0, 510_000.0]),
    pine(Two, 8, [925.0, 550.0, 175.0, 565.0, 1350.0, 1_400_000.0, 510_000.0]),
    pine(Two, 10, [800.0, 475.0, 175.0, 565.0, 1300.0, 1_400_000.0, 510_000.0]),
    pine(Two, 12, [750.0, 450.0, 175.0, 565.0, 1250.0, 1_400_000.0, 510_000.0]),
    pine(Three, 4, [650.0, 400.0, 175.0, 565.0, 850.0, 1_300_000.0, 470_000.0]),
    pine(Three, 6, [575.0, 350.0, 175.0, 565.0, 800.0, 1_300_000.0, 470_000.0]),
    pine(Three, 8, [525.0, 325.0, 175.0, 565.0, 775.0, 1_300_000.0, 470_000.0]),
    pine(Three, 10, [475.0, 275.0, 175.0, 565.0, 750.0, 1_300_000.0, 470_000.0]),
    pine(Three, 12, [450.0, 250.0, 175.0, 565.0, 725.0, 1_300_000.0, 470_000.0]),
];

/// The row for a member; none outside the tables: other than sawn, under 2 or over 4 in thick.
///
/// A southern pine deeper than 12 in has the row of 12 in: its CF is under 1.
#[must_use]
pub fn lumber(species: Species, grade: Grade, member: Member) -> Option<Lumber> {
    if !is_dimension(member) {
        return None;
    }
    let depth = member.nominal_depth.min(12);
    let mut rows = TABLE_4A.iter().chain(&TABLE_4B);
    let fits = |row: &&Lumber| row.species == species && row.grade == grade && row.depth.is_none_or(|it| it == depth);
    rows.find(fits).copied()
}

/// Whether a member is dimension lumber: sawn, 2 to 4 in thick and no narrower.
#[must_use]
pub fn is_dimension(member: Member) -> bool {
    let thin = (2..=4).contains(&member.nominal_width);
    member.material == Material::Sawn && thin && member.nominal_depth >= member.nominal_width
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_is_found_for_every_species_and_grade_of_a_2x10_and_for_no_timber() {
        for species in Species::ALL {
            for grade in Grade::ALL {
                let row = lumber(species, grade, Member::sawn(2, 10)).unwrap();
                assert_eq!((row.species, row.grade), (species, grade));
                assert_eq!(lumber(species, grade, Member::sawn(6, 6)), None);
                assert_eq!(lumber(species, grade, Member::sawn(1, 8)), None);
                assert_eq!(lumber(species, grade, "LVL 9 1/2".parse().unwrap()), None);
            }
        }
    }

    #[test]
    fn southern_pine_has_a_row_of_its_own_for_each_depth_and_that_of_12_in_beyond() {
        let fb = |depth| lumber(SouthernPine, Two, Member::sawn(2, depth)).map(|row| row.values.fb);
        assert_eq!([4, 6, 8, 10, 12].map(fb), [1100.0, 1000.0, 925.0, 800.0, 750.0].map(|psi| Some(Psi(psi))));
        assert_eq!(fb(14), fb(12));
        assert_eq!(fb(5), None);
    }

    #[test]
    fn no_value_is_over_the_modulus_and_emin_is_under_half_of_e_in_psi() {
        for row in TABLE_4A.iter().chain(&TABLE_4B) {
            let DesignValues { fb, fv, e, e_min, .. } = row.values;
            assert!(fb < e && fv < fb && e_min < e * 0.5 && e_min > e * 0.3, "{row:?}");
        }
    }
}
