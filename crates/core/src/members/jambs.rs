//! The studs at the sides of an opening: jacks under the header, kings beside it.

use super::bearing;
use crate::loads::{Mark, Sourced};
use crate::units::{Feet, Inches, Pounds, Psi};

/// Fc-perp of the wood taken where nobody said which it is: of the usual framing woods one of the softest.
pub const ACROSS_GRAIN: Sourced<Psi> =
    Sourced { value: Psi(425.0), source: "spruce-pine-fir, NDS Supplement Table 4A", mark: Mark::Memory };
/// How wide a header is taken to lie on its jacks where nobody measured it: two plies.
pub const HEADER_WIDTH: Inches = Inches(3.0);
/// A jack of nominal 2 in lumber.
pub const STUD: Inches = Inches(1.5);

/// What one side of an opening wants.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wanted {
    /// How long the header's end has to lie, `R / (Fc-perp b)`.
    pub bearing: Inches,
    /// The jacks that hold that length; one at the least (IRC R602.7, MEMORY).
    pub jacks: u32,
}

/// What bearing asks for under one end of a header that brings this much.
///
/// ```
/// use joistwise_core::members::jambs::wanted;
/// use joistwise_core::units::Pounds;
/// assert_eq!(wanted(Pounds(1900.0)).jacks, 1); // 1900 / (425 x 3) = 1.49 in
/// assert_eq!(wanted(Pounds(5200.0)).jacks, 3); // 4.08 in
/// ```
#[must_use]
pub fn wanted(reaction: Pounds) -> Wanted {
    let bearing = bearing::length_needed(reaction.max(Pounds::ZERO), HEADER_WIDTH, ACROSS_GRAIN.value);
    Wanted { bearing, jacks: bearing::jacks(bearing, STUD).max(1) }
}

/// The kings that each side of an opening in an outside wall wants, studs 16 in apart (IRC R602.7.5 and its table, MEMORY);
/// none past its last row. Between two rows the longer one counts.
#[must_use]
pub fn kings(header_span: Feet) -> Option<u32> {
    let rows = [(3.0, 1), (4.0, 2), (8.0, 3), (12.0, 5), (16.0, 6)];
    // A hair for what an opening typed in sixteenths has been rounded by.
    rows.into_iter().find(|(reach, _)| header_span.0 <= reach + 1e-6).map(|(_, kings)| kings)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// X41 of the worked examples: 5,200 lb on 3 in of spruce-pine-fir wants 4.078 in, three studs.
    #[test]
    fn a_header_that_brings_5200_lb_lies_on_4_08_in_and_three_jacks() {
        let wanted = wanted(Pounds(5200.0));
        assert!((wanted.bearing.0 - 5200.0 / 1275.0).abs() < 1e-12 && wanted.jacks == 3);
        assert_eq!(super::wanted(Pounds(-10.0)).jacks, 1);
    }

    #[test]
    fn kings_grow_with_the_span_in_feet_and_end_with_the_table() {
        assert_eq!(
            [3.0, 3.5, 6.0, 12.0, 16.0, 16.5].map(|ft| kings(Feet(ft))),
            [Some(1), Some(2), Some(3), Some(5), Some(6), None]
        );
    }
}
