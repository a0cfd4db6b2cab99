//! Fb and E that older span tables were computed with: the 2012 IRC and earlier, and in part the 2018 IBC.
//!
//! MEMORY, and assigned to those tables because they fit: to read an old table by, never to size by.

use super::lumber::Grade::{self, One, SelectStructural, Three, Two};
use super::lumber::Species::{self, DouglasFirLarch, HemFir, SouthernPine, SprucePineFir};
use super::lumber::is_dimension;
use crate::loads::Mark;
use crate::plan::Member;
use crate::units::Psi;

/// One row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Legacy {
    /// Of this species group.
    pub species: Species,
    /// Of this grade.
    pub grade: Grade,
    /// Nominal depth in inches where the row is for one size; none where CF has to be applied.
    pub depth: Option<u8>,
    /// Bending.
    pub fb: Psi,
    /// Modulus of elasticity.
    pub e: Psi,
    /// Recalled.
    pub mark: Mark,
}

const fn all(species: Species, grade: Grade, fb: f64, e: f64) -> Legacy {
    Legacy { species, grade, depth: None, fb: Psi(fb), e: Psi(e), mark: Mark::Memory }
}

const fn pine(grade: Grade, depth: u8, fb: f64, e: f64) -> Legacy {
    Legacy { depth: Some(depth), ..all(SouthernPine, grade, fb, e) }
}

/// Psi: Fb, E. Southern pine as before June 2013, size effect already in.
pub const TABLE: [Legacy; 32] = [
    all(DouglasFirLarch, SelectStructural, 1450.0, 1_900_000.0),
    all(DouglasFirLarch, One, 1000.0, 1_700_000.0),
    all(DouglasFirLarch, Two, 875.0, 1_600_000.0),
    all(DouglasFirLarch, Three, 500.0, 1_400_000.0),
    all(HemFir, SelectStructural, 1400.0, 1_600_000.0),
    all(HemFir, One, 950.0, 1_500_000.0),
    all(HemFir, Two, 850.0, 1_300_000.0),
    all(HemFir, Three, 500.0, 1_200_000.0),
    all(SprucePineFir, SelectStructural, 1250.0, 1_500_000.0),
    all(SprucePineFir, One, 875.0, 1_400_000.0),
    all(SprucePineFir, Two, 875.0, 1_400_000.0),
    all(SprucePineFir, Three, 500.0, 1_200_000.0),
    pine(SelectStructural, 4, 2850.0, 1_800_000.0),
    pine(SelectStructural, 6, 2550.0, 1_800_000.0),
    pine(SelectStructural, 8, 2300.0, 1_800_000.0),
    pine(SelectStructural, 10, 2050.0, 1_800_000.0),
    pine(SelectStructural, 12, 1900.0, 1_800_000.0),
    pine(One, 4, 1850.0, 1_700_000.0),
    pine(One, 6, 1650.0, 1_700_000.0),
    pine(One, 8, 1500.0, 1_700_000.0),
    pine(One, 10, 1300.0, 1_700_000.0),
    pine(One, 12, 1250.0, 1_700_000.0),
    pine(Two, 4, 1500.0, 1_600_000.0),
    pine(Two, 6, 1250.0, 1_600_000.0),
    pine(Two, 8, 1200.0, 1_600_000.0),
    pine(Two, 10, 1050.0, 1_600_000.0),
    pine(Two, 12, 975.0, 1_600_000.0),
    pine(Three, 4, 850.0, 1_400_000.0),
    pine(Three, 6, 750.0, 1_400_000.0),
    pine(Three, 8, 700.0, 1_400_000.0),
    pine(Three, 10, 600.0, 1_400_000.0),
    pine(Three, 12, 575.0, 1_400_000.0),
];

/// The row for a member; none outside the table.
#[must_use]
pub fn legacy(species: Species, grade: Grade, member: Member) -> Option<Legacy> {
    let depth = member.nominal_depth;
    let fits = |row: &&Legacy| row.species == species && row.grade == grade && row.depth.is_none_or(|it| it == depth);
    TABLE.iter().filter(|_| is_dimension(member)).find(fits).copied()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn old_southern_pine_no_2_2x10_bends_at_1050_psi_where_today_it_has_800() {
        let fb = |depth| legacy(SouthernPine, Two, Member::sawn(2, depth)).map(|row| row.fb);
        assert_eq!(fb(10), Some(Psi(1050.0)));
        assert_eq!(fb(14), None);
    }
}
