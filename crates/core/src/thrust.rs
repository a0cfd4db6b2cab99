//! Thrust of a pair of rafters: what the tie between them carries when nothing holds the ridge up.
//!
//! One pair alone, alike on both sides, load even on plan; hips, braces to purlins and a ridge that carries are absent:
//! a ridge beam takes half of each rafter and leaves no thrust.

use crate::units::{Feet, Pounds};

/// Tension in the tie of one pair of rafters: `T = (W / 2) (H / h) (run / H)`.
///
/// `on_one` is the load W on one rafter, `span` the width from plate to plate, so the run is half of it, `rise` the
/// height H from plate to ridge and `raised` how far the tie lies above the plate. `None` where the tie is not below
/// the ridge: nothing but the bending of the rafters would then stop the plates.
///
/// Free body of one rafter: by symmetry the other one pushes it level at the ridge, so the plate pushes up all of W, and
/// W itself acts at half the run. Moments about the ridge: `W run - W run / 2 = T h`, with `h` from ridge down to tie.
///
/// ```
/// use joistwise_core::thrust::tie;
/// use joistwise_core::units::{Feet, Pounds};
/// // 4 in 12 over 24 ft, 960 lb on each rafter: 480 x 12 / 4 at the plate, half as much again a third of the way up.
/// assert_eq!(tie(Pounds(960.0), Feet(24.0), Feet(4.0), Feet(0.0)), Some(Pounds(1440.0)));
/// assert_eq!(tie(Pounds(960.0), Feet(24.0), Feet(4.0), Feet(4.0)), None);
/// ```
#[must_use]
pub fn tie(on_one: Pounds, span: Feet, rise: Feet, raised: Feet) -> Option<Pounds> {
    let below_ridge = rise - raised;
    let run = span / 2.0;
    (below_ridge > Feet::ZERO).then(|| on_one / 2.0 * (run / below_ridge))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tie_a_third_of_the_way_up_carries_half_as_much_again_as_one_at_the_plate() {
        // 1,440 lb at the plate and 2,160 lb at a third of the rise: published for 4 in 12 over 24 ft, 960 lb a rafter.
        let at = |raised| tie(Pounds(960.0), Feet(24.0), Feet(4.0), Feet(raised)).map_or(0.0, |tie| tie.0);
        assert!((at(0.0) - 1440.0).abs() < 1e-9);
        assert!((at(4.0 / 3.0) - 2160.0).abs() < 1e-9);
    }

    #[test]
    fn no_tie_can_lie_at_the_ridge_or_above_it() {
        assert_eq!(tie(Pounds(960.0), Feet(24.0), Feet(0.0), Feet(0.0)), None);
    }
}
