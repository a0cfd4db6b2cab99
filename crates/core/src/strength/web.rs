//! A steel shape where it is pressed: its web over a seat or under a load, and the plate that spreads it on wood.
//!
//! AISC 360-16, J10.2 and J10.3, allowable strength (Omega 1.50 and 2.00), and the plate of the Manual's Part 14: MEMORY throughout.
//! Fillets are not in the table of shapes: k is taken as the flange alone, the heavier side. Stiffeners, welds and bolts are absent.

use super::steel::{Shape, Steel};
use crate::units::{Inches, Pounds, Psi};

/// Omega of J10.2.
const OMEGA_YIELDING: f64 = 1.5;
/// Omega of J10.3.
const OMEGA_CRIPPLING: f64 = 2.0;
/// Omega of the plate as it bends.
const OMEGA_PLATE: f64 = 1.67;

/// Where along the beam.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// At its end.
    End,
    /// Farther from its ends than it is deep.
    Inner,
}

/// What the web carries on a bearing this long until it yields (J10.2): `Fy tw (2.5 k + lb) / 1.50`, 5 k away from an end.
#[must_use]
pub fn yielding(shape: &Shape, steel: &Steel, bearing: Inches, place: Place) -> Pounds {
    let times = if place == Place::End { 2.5 } else { 5.0 };
    steel.fy * (shape.web * (shape.flange * times + bearing)) / OMEGA_YIELDING
}

/// What it carries until it cripples (J10.3): `0.8 tw^2 (1 + 3 lb / d (tw / tf)^1.5) sqrt(E Fy tf / tw) / 2.00`; half of that near
/// an end, on a bearing over a fifth of the depth with 4 lb / d - 0.2 for 3 lb / d.
#[must_use]
pub fn crippling(shape: &Shape, steel: &Steel, bearing: Inches, place: Place) -> Pounds {
    let thin: f64 = shape.web / shape.flange;
    let long: f64 = bearing / shape.depth;
    let (times, reach) = match place {
        Place::Inner => (0.8, 3.0 * long),
        Place::End if long <= 0.2 => (0.4, 3.0 * long),
        Place::End => (0.4, 4.0 * long - 0.2),
    };
    let stress = Psi((steel.e.0 * steel.fy.0 / thin).sqrt());
    stress * (shape.web * shape.web) * (times * (1.0 + reach * thin * thin.sqrt()) / OMEGA_CRIPPLING)
}

/// A plate under a beam on wood.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plate {
    /// Along the beam.
    pub along: Inches,
    /// Across it: not under its flange.
    pub across: Inches,
    /// Up to the next quarter inch, 1/4 at the least.
    pub thick: Inches,
}

/// The plate that spreads a reaction on wood: `along = R / (Fc-perp across)`, up to the half inch, and not under 3 in; as thick as
/// `n sqrt(2 Omega R / (B N Fy))` with `n = B / 2 - k`.
#[must_use]
pub fn plate(reaction: Pounds, shape: &Shape, fy: Psi, across: Inches, across_grain: Psi) -> Plate {
    let least = Inches(3.0);
    let exact = Inches(reaction.0.max(0.0) / (across_grain.0 * across.0));
    let along = Inches((exact.0 * 2.0 - 1e-9).ceil() / 2.0).max(least);
    let n = (across / 2.0 - shape.flange).max(Inches::ZERO);
    let pressed = reaction.0.max(0.0) / (along.0 * across.0);
    let thick = n.0 * (2.0 * OMEGA_PLATE * pressed / fy.0).sqrt();
    let thick = Inches(((thick * 4.0 - 1e-9).ceil() / 4.0).max(0.25));
    Plate { along, across, thick }
}

#[cfg(test)]
mod tests {
    use super::super::steel::{A36, A992, shape};
    use super::*;

    /// W8X10 (tw 0.17, tf 0.205, d 7.89) of A992 on 4 in. Yielding at an end 50,000 x 0.17 x (0.5125 + 4) / 1.5 = 25,571 lb, inside
    /// 50,000 x 0.17 x 5.025 / 1.5 = 28,475. Crippling: (0.17 / 0.205)^1.5 = 0.82927 x 0.91064 = 0.75516; sqrt(29e6 x 50e3 x 1.20588) =
    /// 1,322,320 psi x 0.0289 = 38,215 lb; at an end 4 / 7.89 = 0.50697: 1 + 1.82788 x 0.75516 = 2.38034, x 0.2 = 18,193 lb; inside 1 +
    /// 1.52091 x 0.75516 = 2.14853, x 0.4 = 32,843 lb.
    #[test]
    fn a_w8x10_on_4_in_cripples_at_18193_lb_at_an_end_and_32843_inside() {
        let beam = shape("W8X10").unwrap();
        let lb = Inches(4.0);
        let near =
            |got: Pounds, by_hand: f64| assert!((got.0 - by_hand).abs() < by_hand * 2e-4, "{got:?} and {by_hand}");
        near(yielding(&beam, &A992, lb, Place::End), 25_571.0);
        near(yielding(&beam, &A992, lb, Place::Inner), 28_475.0);
        near(crippling(&beam, &A992, lb, Place::End), 18_193.0);
        near(crippling(&beam, &A992, lb, Place::Inner), 32_843.0);
    }

    /// 6,000 lb on spruce-pine-fir, 425 psi, under a flange of 3.94 in: 6000 / (425 x 3.94) = 3.583, so 4 in along. n = 1.97 - 0.205 =
    /// 1.765 in, 380.7 psi: 1.765 sqrt(3.34 x 380.7 / 36,000) = 0.332 in, so 1/2 in of A36.
    #[test]
    fn a_plate_under_6000_lb_is_4_in_long_and_half_an_inch_thick() {
        let plate = plate(Pounds(6000.0), &shape("W8X10").unwrap(), A36.fy, Inches(3.94), Psi(425.0));
        assert_eq!((plate.along, plate.thick), (Inches(4.0), Inches(0.5)));
    }

    #[test]
    fn no_web_carries_less_on_a_longer_bearing_in_pounds() {
        for it in super::super::steel::SHAPES {
            for place in [Place::End, Place::Inner] {
                for tenth in 10..100 {
                    let of = |tenth: i32| crippling(&it, &A992, Inches(f64::from(tenth) / 10.0), place);
                    // The two formulas of an end meet at a fifth of the depth.
                    assert!(of(tenth + 1).0 >= of(tenth).0 * 0.9999, "{} {tenth}", it.name);
                }
            }
        }
    }
}
