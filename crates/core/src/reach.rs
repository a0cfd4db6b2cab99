//! How far a member may reach at the most: the longest span that any published table has for its size.
//!
//! Beyond it something must have held the member up when the house was built, whatever the lumber is.

use crate::members::joist::span_in_deflection;
use crate::members::section::Section;
use crate::plan::{Member, Use};
use crate::strength::lumber::{Lumber, TABLE_4A, TABLE_4B};
pub use crate::strength::spans::LONGEST_PRINTED;
use crate::strength::spans::nearest;
use crate::units::{Feet, Psi, Ticks};

/// The stiffest lumber of the tables: Douglas fir-larch, select structural.
const STIFFEST: Psi = stiffest(&TABLE_4B, stiffest(&TABLE_4A, Psi::ZERO));

/// The longest span of any table for joists of this size, this far apart, under this use: the live-load deflection of the
/// stiffest lumber, 5 w L^4 / 384 E I, at L / 360 under rooms (IRC R301.7) and at L / 240 under attics (R802.5.1), and
/// never past the last span a table prints. None where the size is not that of sawn lumber.
#[must_use]
pub fn longest(member: Member, spacing: Ticks, used_as: Use) -> Option<Feet> {
    let section = Section::of(member)?;
    let limit = if matches!(used_as, Use::AtticBare | Use::AtticStorage) { 240.0 } else { 360.0 };
    let load = crate::loads::live(used_as).value * spacing.feet();
    let span = span_in_deflection(STIFFEST, section.inertia(), load, limit);
    // Tables print whole inches.
    Some(Feet::from(nearest(span)).min(LONGEST_PRINTED))
}

/// The largest E of a table, or what is larger already.
const fn stiffest(mut rows: &[Lumber], mut most: Psi) -> Psi {
    while let [row, rest @ ..] = rows {
        if row.values.e.0 > most.0 {
            most = row.values.e;
        }
        rows = rest;
    }
    most
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The longest cell of each table for its size: 2018 IRC, Douglas fir-larch SS. Tables print whole inches, rounded.
    #[test]
    fn no_cell_of_the_span_tables_reaches_further_than_half_an_inch_past_it() {
        for (size, inches_apart, used_as, cell_inches) in [
            // R502.3.1(2), 40 psf (MEMORY).
            ("2x8", 12, Use::Living, 180.0),
            ("2x8", 16, Use::Living, 163.0),
            ("2x10", 16, Use::Living, 208.0),
            ("2x10", 24, Use::Living, 182.0),
            ("2x12", 16, Use::Living, 253.0),
            // R502.3.1(1), 30 psf (MEMORY).
            ("2x6", 16, Use::Sleeping, 136.0),
            ("2x10", 12, Use::Sleeping, 252.0),
            // R802.5.1(2), 20 psf (SEEN).
            ("2x4", 24, Use::AtticStorage, 99.0),
            ("2x8", 24, Use::AtticStorage, 206.0),
            // R802.5.1(1), 10 psf (MEMORY).
            ("2x6", 16, Use::AtticBare, 225.0),
            ("2x8", 24, Use::AtticBare, 259.0),
        ] {
            let member: Member = size.parse().expect("a size");
            let reach = longest(member, Ticks::from_sixteenths(inches_apart * 16), used_as).expect("sawn");
            assert!((reach.0 * 12.0 - cell_inches).abs() <= 0.55, "{size} at {inches_apart} in: {} in", reach.0 * 12.0);
        }
    }

    #[test]
    fn the_stiffest_lumber_of_the_tables_has_1_900_000_psi() {
        assert_eq!(STIFFEST, Psi(1_900_000.0));
    }

    #[test]
    fn a_2x10_under_a_bedroom_reaches_19_ft_at_the_most_and_an_i_joist_is_not_judged() {
        let apart = Ticks::from_sixteenths(16 * 16);
        assert!(longest(Member::sawn(2, 10), apart, Use::Sleeping).is_some_and(|reach| reach < Feet(19.2)));
        assert_eq!(longest("I-joist 9 1/2".parse().expect("a size"), apart, Use::Sleeping), None);
        assert_eq!(longest(Member::default(), apart, Use::Sleeping), None);
    }
}
