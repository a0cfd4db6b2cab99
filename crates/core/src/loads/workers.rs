//! People on a roof: the roof live load and what area and slope take off it.
//!
//! Nothing here enters a trace by itself: a trace takes 20 psf unreduced, the heavier side, since the area that counts is
//! that of one member and a trace adds up many.

use super::{Mark, Sourced};
use crate::units::{Inches, Psf, SquareFeet};

/// Before any reduction.
pub const WHOLE: Psf = Psf(20.0);
/// Not less than this, whatever the area and the slope.
pub const LEAST: Psf = Psf(12.0);
/// Up to the first area R1 is 1, from the second on it is 0.6.
pub const AREAS: [SquareFeet; 2] = [SquareFeet(200.0), SquareFeet(600.0)];
/// Up to the first rise in a run of 12 in R2 is 1, from the second on it is 0.6.
pub const RISES: [Inches; 2] = [Inches(4.0), Inches(12.0)];

/// R1, for the area that leans on one member: 1, then `1.2 - 0.001 At`, then 0.6 (ASCE 7 section 4.8.2, MEMORY).
#[must_use]
pub fn r1(area: SquareFeet) -> f64 {
    let [small, large] = AREAS;
    if area <= small {
        1.0
    } else if area < large {
        1.2 - 0.001 * area.0
    } else {
        0.6
    }
}

/// R2, for the rise F in a run of 12 in: 1, then `1.2 - 0.05 F`, then 0.6 (ASCE 7 section 4.8.2, MEMORY).
#[must_use]
pub fn r2(rise_in_12: Inches) -> f64 {
    let [low, steep] = RISES;
    if rise_in_12 <= low {
        1.0
    } else if rise_in_12 < steep {
        1.2 - 0.05 * rise_in_12.0
    } else {
        0.6
    }
}

/// Roof live load on plan, `Lr = 20 R1 R2`, never under 12 psf (ASCE 7 section 4.8.2, MEMORY).
///
/// ```
/// use joistwise_core::loads::workers::reduced;
/// use joistwise_core::units::{Inches, Psf, SquareFeet};
/// assert_eq!(reduced(SquareFeet(120.0), Inches(3.0)), Psf(20.0));
/// assert_eq!(reduced(SquareFeet(900.0), Inches(6.0)), Psf(12.0)); // 20 x 0.6 x 0.9 = 10.8
/// ```
#[must_use]
pub fn reduced(area: SquareFeet, rise_in_12: Inches) -> Psf {
    (WHOLE * (r1(area) * r2(rise_in_12))).max(LEAST)
}

/// Roof live load on plan by the steps of the residential code's table: areas to 200, to 600 and over 600 sq ft; rises
/// under 4, under 12, and 12 in 12 and more.
#[must_use]
pub fn by_table(area: SquareFeet, rise_in_12: Inches) -> Sourced<Psf> {
    let [small, large] = AREAS;
    let [low, steep] = RISES;
    let by_area = if rise_in_12 < low {
        [20.0, 16.0, 12.0]
    } else if rise_in_12 < steep {
        [16.0, 14.0, 12.0]
    } else {
        [12.0; 3]
    };
    let [first, second, third] = by_area;
    let psf = if area <= small {
        first
    } else if area <= large {
        second
    } else {
        third
    };
    Sourced { value: Psf(psf), source: "IRC Table R301.6", mark: Mark::Memory }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn r1_and_r2_have_no_step_where_their_pieces_meet() {
        let small = 1e-9;
        assert!((r1(SquareFeet(200.0 + small)) - 1.0).abs() < 1e-9);
        assert!((r1(SquareFeet(600.0 - small)) - 0.6).abs() < 1e-9);
        assert!((r2(Inches(4.0 + small)) - 1.0).abs() < 1e-9);
        assert!((r2(Inches(12.0 - small)) - 0.6).abs() < 1e-9);
    }

    #[test]
    fn half_way_in_both_leaves_12_8_psf() {
        // 400 sq ft: R1 = 0.8. 8 in 12: R2 = 0.8. 20 x 0.64.
        assert!((reduced(SquareFeet(400.0), Inches(8.0)).0 - 12.8).abs() < 1e-12);
    }
}
