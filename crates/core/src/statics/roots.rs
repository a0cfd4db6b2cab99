//! Where a polynomial of a segment is nothing: the places of greatest moment and deflection.
//!
//! Only `+ - * / sqrt`, so that the page and the command find the same place to the last bit.

/// A polynomial of the fifth degree at most: its coefficients from the constant up.
#[derive(Clone, Copy, Debug)]
pub(super) struct Polynomial(pub(super) [f64; 6]);

impl Polynomial {
    /// The value at `t`.
    pub(super) fn at(&self, t: f64) -> f64 {
        self.0.iter().rev().fold(0.0, |value, coefficient| value * t + coefficient)
    }

    /// The polynomial whose slope this one is and whose value at 0 is `constant`. What is of the fifth degree loses it.
    pub(super) fn integral(&self, constant: f64) -> Self {
        let [a, b, c, d, e, _] = self.0;
        Self([constant, a, b / 2.0, c / 3.0, d / 4.0, e / 5.0])
    }

    /// The places from `0` to `length` where the value passes through nothing, given `turns`: the places, ascending,
    /// between which it only rises or only falls.
    pub(super) fn crossings(&self, turns: &[f64], length: f64) -> Vec<f64> {
        let lefts = [0.0].into_iter().chain(turns.iter().copied());
        let rights = turns.iter().copied().chain([length]);
        lefts.zip(rights).filter_map(|(left, right)| self.crossing(left, right)).collect()
    }

    /// The polynomial of this one's slope.
    fn derivative(&self) -> Self {
        let [_, b, c, d, e, f] = self.0;
        Self([b, 2.0 * c, 3.0 * d, 4.0 * e, 5.0 * f, 0.0])
    }

    /// The one sign change between `left` and `right`: along the tangent where that stays between the two, else by
    /// halving, until the place no longer moves.
    fn crossing(&self, mut left: f64, mut right: f64) -> Option<f64> {
        let (below, above) = (self.at(left), self.at(right));
        if below * above > 0.0 {
            return None;
        }
        if below.abs() <= 0.0 || above.abs() <= 0.0 {
            return Some(if below.abs() <= 0.0 { left } else { right });
        }
        let slope = self.derivative();
        let mut place = left - below * (right - left) / (above - below);
        for _ in 0..200 {
            if !(left < place && place < right) {
                place = left + (right - left) / 2.0;
            }
            let value = self.at(place);
            if value * below > 0.0 {
                left = place;
            } else {
                right = place;
            }
            let next = place - value / slope.at(place);
            if (next - place).abs() <= f64::EPSILON * right || right - left <= f64::EPSILON * right {
                break;
            }
            place = next;
        }
        Some(place)
    }
}

/// The places strictly between `0` and `length` where `c + b t + a t^2` changes sign, ascending.
///
/// In the form that never takes the difference of two nearly equal numbers: q = -(b + sign(b) root) / 2, then q / a and
/// c / q.
pub(super) fn quadratic(c: f64, b: f64, a: f64, length: f64) -> impl Iterator<Item = f64> {
    let under = b * b - 4.0 * a * c;
    let q = if under < 0.0 { f64::NAN } else { -(b + if b < 0.0 { -under.sqrt() } else { under.sqrt() }) / 2.0 };
    let (one, two) = (q / a, c / q);
    let (first, second) = if one < two { (one, two) } else { (two, one) };
    [first, second].into_iter().filter(move |t| *t > 0.0 && *t < length)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slope_that_flattens_near_its_turn_is_still_found() {
        // (t - 1)^3 (t - 5): falls to its turn, and is nothing at 1 without a tangent to follow.
        let cubed = Polynomial([5.0, -16.0, 18.0, -8.0, 1.0, 0.0]);
        let found = cubed.crossings(&[4.0], 10.0);
        assert!((found[0] - 1.0).abs() < 1e-4 && (found[1] - 5.0).abs() < 1e-14, "{found:?}");
        assert!(cubed.crossings(&[], 0.5).is_empty());
    }

    #[test]
    fn the_two_places_without_shear_come_in_order_and_only_from_within() {
        let within = |c, b, a, length| quadratic(c, b, a, length).collect::<Vec<_>>();
        assert_eq!(within(6.0, -5.0, 1.0, 10.0), [2.0, 3.0]);
        assert_eq!(within(-6.0, 5.0, -1.0, 2.5), [2.0]);
        assert_eq!(within(-6.0, 3.0, 0.0, 10.0), [2.0]);
        assert!(within(1.0, 0.0, 1.0, 10.0).is_empty());
        assert!(within(0.0, 0.0, 0.0, 10.0).is_empty());
    }
}
