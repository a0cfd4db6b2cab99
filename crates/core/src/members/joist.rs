//! One joist on two supports: how far it reaches by each limit, and what may stand on it beside its support.
//!
//! Even load alone. The shorter of the spans governs; which limits count is the caller's to say.

use super::root::root;
use crate::units::{CubicInches, Feet, FootPounds, Inches, InchesToTheFourth, Plf, Pounds, Psi, SquareInches};

/// How far a joist reaches until it bends too hard: `L = sqrt(8 M / w)`.
#[must_use]
pub fn span_in_bending(allowed: Psi, modulus: CubicInches, load: Plf) -> Feet {
    let most: FootPounds = allowed * modulus;
    Feet((8.0 * most.0 / load.0).sqrt())
}

/// How far until it shears at its ends: `w L / 2 = 2/3 Fv b d`. The load within a depth of the support is counted, the
/// heavier side.
#[must_use]
pub fn span_in_shear(allowed: Psi, section: SquareInches, load: Plf) -> Feet {
    let most: Pounds = allowed * section * (2.0 / 3.0);
    most * 2.0 / load
}

/// How far until its ends crush: `w L / 2 = Fc-perp b lb`.
#[must_use]
pub fn span_on_bearing(across_grain: Psi, width: Inches, bearing: Inches, load: Plf) -> Feet {
    let most: Pounds = across_grain * (width * bearing);
    most * 2.0 / load
}

/// How far until it sinks by a part of its span, 360 for `L / 360`: `5 w L^4 / 384 E I = L / part`.
#[must_use]
pub fn span_in_deflection(e: Psi, i: InchesToTheFourth, load: Plf, part: f64) -> Feet {
    let per_inch = load.0 / 12.0;
    Feet(root(384.0 * e.0 * i.0 / (5.0 * part * per_inch), 3) / 12.0)
}

/// Whether a bearing wall that stands square to the joists this far from the wall below needs no design (IRC R502.4, SEEN as
/// quoted): not farther than the joists are deep.
#[must_use]
pub fn may_stand_off(offset: Feet, depth: Feet) -> bool {
    // A hair for what the offset, a sum of coordinates, has been rounded by.
    offset.abs().0 <= depth.0 + 1e-6
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_span_put_back_into_its_formula_is_the_limit_again() {
        // 2x10 at 16 in under 50 psf: 66.7 plf.
        let (w, i, s) = (Plf(200.0 / 3.0), InchesToTheFourth(98.93), CubicInches(21.39));
        let bends = span_in_bending(Psi(1000.0), s, w).0;
        assert!((w.0 * bends * bends / 8.0 - 1000.0 * 21.39 / 12.0).abs() < 1e-9); // lb-ft
        let sinks = span_in_deflection(Psi(1.6e6), i, w, 360.0).0 * 12.0;
        let inches = 5.0 * (w.0 / 12.0) * sinks * sinks * sinks * sinks / (384.0 * 1.6e6 * i.0);
        assert!((inches - sinks / 360.0).abs() < 1e-12);
        assert!((span_in_shear(Psi(180.0), SquareInches(13.875), w).0 - 2.0 * 1665.0 * 3.0 / 200.0).abs() < 1e-9);
    }

    #[test]
    fn a_wall_may_stand_as_far_off_as_the_joists_are_deep_in_inches() {
        let feet = |inches: f64| Feet(inches / 12.0);
        assert!(may_stand_off(feet(9.25), feet(9.25)) && may_stand_off(feet(-9.0), feet(9.25)));
        assert!(!may_stand_off(feet(9.3), feet(9.25)));
    }
}
