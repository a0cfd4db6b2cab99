//! Thrust of a pair of rafters: what the tie between them carries when nothing holds the ridge up, and a leaning strut.
//!
//! One pair alone, alike on both sides, load even on plan; hips, braces to purlins and a ridge that carries are absent:
//! a ridge beam takes half of each rafter and leaves no thrust.

use crate::loads::{Mark, Sourced};
use crate::units::{Feet, Inches, Pounds, Psf};

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

/// How a strut leans: so far to the side for so much height.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lean {
    /// From its foot to its head, on plan.
    pub run: Feet,
    /// From its foot to its head, up.
    pub rise: Feet,
}

/// What a leaning strut carries along itself, and how hard it pushes level at its foot and its head, when so much comes
/// down on it. `None` for one that lies down.
///
/// Free body of the head: the load comes straight down, the strut pushes along itself, and something level holds the rest.
#[must_use]
pub fn strut(down: Pounds, lean: &Lean) -> Option<(Pounds, Pounds)> {
    let slope = lean.run.abs() / lean.rise;
    (lean.rise > Feet::ZERO).then(|| (down * (1.0 + slope * slope).sqrt(), down * slope))
}

/// Dead load of roof and ceiling in [`heel_nails`], FITTED.
const HEEL_DEAD: Psf = Psf(15.0);
/// What one 16d common nail holds in it, FITTED.
const HEEL_NAIL: Pounds = Pounds(162.0);

/// Nails of 16d common that hold the foot of a rafter to its ceiling joist, by ground snow, width of the house, rise in a run
/// of 12 in and rafter spacing: the [`tie`] of one pair under `pg + 15` psf over 162 lb a nail, three at least.
///
/// FITTED and unconfirmed: 15 and 162 were found from a recalled copy of IRC Table R802.5.2(1), of which one cell was read
/// (7 nails for 5 in 12, 16 in, 30 psf, 28 ft). For 30, 50 and 70 psf it gives about five cells in six and is one nail off in
/// the others; the 20 psf column does not follow it. Good for the order of size; a permit takes the printed table.
/// `None` where the table does not reach: snow under 30 or over 70 psf, houses over 36 ft wide, rises under 3 or over 12,
/// rafters over 24 in apart.
///
/// ```
/// use joistwise_core::thrust::heel_nails;
/// use joistwise_core::units::{Feet, Inches, Psf};
/// let nails = heel_nails(Psf(30.0), Feet(28.0), Inches(5.0), Inches(16.0));
/// assert_eq!(nails.map(|nails| nails.value), Some(7));
/// ```
#[must_use]
pub fn heel_nails(ground_snow: Psf, span: Feet, rise_in_12: Inches, spacing: Inches) -> Option<Sourced<u32>> {
    let reaches = (30.0..=70.0).contains(&ground_snow.0)
        && (3.0..=12.0).contains(&rise_in_12.0)
        && span <= Feet(36.0)
        && spacing <= Inches(24.0);
    if !reaches {
        return None;
    }
    let run = span / 2.0;
    let on_one = (ground_snow + HEEL_DEAD) * Feet::from(spacing) * run;
    let pulls = tie(on_one, span, run * (rise_in_12.0 / 12.0), Feet::ZERO)?;
    let nails = (pulls / HEEL_NAIL - 1e-9).ceil().clamp(3.0, 1000.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 3 and 1000, checked above")]
    let value = nails as u32;
    Some(Sourced { value, source: "fitted to a recalled copy of IRC Table R802.5.2(1)", mark: Mark::Fitted })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_strut_at_45_degrees_pushes_its_whole_load_level_in_pounds() {
        let (along, level) = strut(Pounds(1600.0), &Lean { run: Feet(4.0), rise: Feet(4.0) }).unwrap();
        assert!((along.0 - 1600.0 * 2.0_f64.sqrt()).abs() < 1e-9 && (level.0 - 1600.0).abs() < 1e-9);
        let (along, level) = strut(Pounds(1600.0), &Lean { run: Feet(-3.0), rise: Feet(4.0) }).unwrap();
        assert!((along.0 - 2000.0).abs() < 1e-9 && (level.0 - 1200.0).abs() < 1e-9);
        assert_eq!(strut(Pounds(1600.0), &Lean { run: Feet(4.0), rise: Feet(0.0) }), None);
    }

    #[test]
    fn no_nails_are_counted_where_the_fit_does_not_reach() {
        let nails = |snow, wide, rise| heel_nails(Psf(snow), Feet(wide), Inches(rise), Inches(16.0)).map(|it| it.value);
        assert_eq!((nails(20.0, 28.0, 5.0), nails(71.0, 28.0, 5.0)), (None, None));
        assert_eq!((nails(30.0, 37.0, 5.0), nails(30.0, 28.0, 0.0)), (None, None));
        assert_eq!(nails(30.0, 12.0, 12.0), Some(3));
    }

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
