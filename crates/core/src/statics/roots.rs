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

    /// The one sign change between `left` and `right`, by halving with a secant step where it helps, down to
    /// neighbouring numbers.
    fn crossing(&self, mut left: f64, mut right: f64) -> Option<f64> {
        let (mut below, mut above) = (self.at(left), self.at(right));
        if below * above > 0.0 {
            return None;
        }
        for step in 0..200 {
            let half = left + (right - left) / 2.0;
            let secant = left - below * (right - left) / (above - below);
            let middle = if step % 3 != 2 && left < secant && secant < right { secant } else { half };
            if middle <= left || middle >= right {
                break;
            }
            let value = self.at(middle);
            if value * below > 0.0 {
                (left, below) = (middle, value);
            } else if value * above > 0.0 {
                (right, above) = (middle, value);
            } else {
                return Some(middle);
            }
        }
        Some(if below.abs() < above.abs() { left } else { right })
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
