//! How much may be cut out of a sawn joist or rafter.
//!
//! IRC R502.8.1 and R802.7.1 (SEEN as quoted). Trusses, I-joists, laminated veneer and glulam have the maker's rules
//! alone, and no figure here is theirs.

use crate::units::{Feet, Inches};

/// Limits that follow from the real depth of the joist.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cuts {
    /// Deepest notch, in the outer thirds of the span only.
    pub notch_depth: Inches,
    /// Longest notch.
    pub notch_length: Inches,
    /// Deepest notch at the end.
    pub end_notch: Inches,
    /// Widest hole.
    pub hole: Inches,
    /// From top, bottom, other holes and notches.
    pub hole_to_edge: Inches,
}

/// The limits for a joist of this depth.
///
/// ```
/// use joistwise_core::members::notch::cuts;
/// use joistwise_core::units::Inches;
/// assert_eq!(cuts(Inches(9.0)).hole, Inches(3.0));
/// ```
#[must_use]
pub fn cuts(depth: Inches) -> Cuts {
    Cuts {
        notch_depth: depth / 6.0,
        notch_length: depth / 3.0,
        end_notch: depth / 4.0,
        hole: depth / 3.0,
        hole_to_edge: Inches(2.0),
    }
}

/// Whether a place on a span, measured from either end, is free of notches: the middle third.
#[must_use]
pub fn is_middle_third(at: Feet, span: Feet) -> bool {
    at > span / 3.0 && at < span * (2.0 / 3.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_notch_may_stand_in_the_middle_third_of_12_ft() {
        assert!(!is_middle_third(Feet(3.9), Feet(12.0)));
        assert!(is_middle_third(Feet(4.1), Feet(12.0)) && is_middle_third(Feet(7.9), Feet(12.0)));
        assert!(!is_middle_third(Feet(8.1), Feet(12.0)));
    }
}
