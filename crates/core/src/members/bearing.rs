//! Bearing of wood across its grain: how long a beam's end has to lie on a plate.

use crate::units::{Inches, Pounds, Psi, SquareInches};

/// The least bearing of a joist, beam or girder on wood or metal (IRC R502.6, SEEN as quoted).
pub const LEAST_ON_WOOD: Inches = Inches(1.5);
/// The same on masonry or concrete.
pub const LEAST_ON_MASONRY: Inches = Inches(3.0);
/// Where crushing by 0.02 in matters, not 0.04, this part of Fc-perp is allowed (NDS 4.2.6, SEEN as quoted).
pub const LITTLE_CRUSHING: f64 = 0.73;
/// Over this part of Fc*, wood that stands end to end needs a steel plate between (NDS 3.10.1.3, SEEN as quoted).
pub const END_GRAIN: f64 = 0.75;

/// What a bearing shorter than 6 in gains (NDS eq. 3.10-2: 3/8 in SEEN).
const GAIN: Inches = Inches(0.375);
/// Only a bearing shorter than this gains (NDS 3.10.4, MEMORY).
const SHORT: Inches = Inches(6.0);
/// And only one that keeps this far from the end of the piece that is pressed (NDS 3.10.4, MEMORY).
const FROM_END: Inches = Inches(3.0);

/// The bearing area factor Cb for a bearing of this length, this far from the end of the piece that is pressed.
///
/// ```
/// use joistwise_core::members::bearing::area_factor;
/// use joistwise_core::units::Inches;
/// assert_eq!(area_factor(Inches(4.0), Inches(12.0)), 1.09375);
/// assert_eq!(area_factor(Inches(4.0), Inches(0.0)), 1.0);
/// ```
#[must_use]
pub fn area_factor(length: Inches, to_end: Inches) -> f64 {
    if length > Inches::ZERO && length < SHORT && to_end >= FROM_END { (length + GAIN) / length } else { 1.0 }
}

/// The length that a beam's end needs on a plate, `R / (Fc-perp b)`: Cb is 1, as at the end of the plate, and no factor for
/// the duration of the load applies.
#[must_use]
pub fn length_needed(reaction: Pounds, width: Inches, across_grain: Psi) -> Inches {
    let area: SquareInches = reaction / across_grain;
    Inches(area.0 / width.0)
}

/// How many jack studs of one thickness hold that length.
#[must_use]
pub fn jacks(length: Inches, thickness: Inches) -> u32 {
    let count = (length / thickness - 1e-9).ceil().clamp(0.0, 1000.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 0 and 1000, checked above")]
    let count = count as u32;
    count
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 9,800 lb, 4 1/2 in wide, spruce-pine-fir 425 psi: 9800 / (425 x 4.5) = 5.12 in, so four studs of 1 1/2 in.
    #[test]
    fn a_three_ply_beam_under_9800_lb_stands_on_four_jack_studs() {
        let length = length_needed(Pounds(9800.0), Inches(4.5), Psi(425.0));
        assert!((length.0 - 9800.0 / 1912.5).abs() < 1e-12);
        assert_eq!(jacks(length, Inches(1.5)), 4);
        assert_eq!(jacks(Inches(4.5), Inches(1.5)), 3);
    }

    #[test]
    fn a_bearing_of_6_in_or_one_at_the_end_of_the_plate_gains_nothing() {
        assert!((area_factor(Inches(1.5), Inches(3.0)) - 1.25).abs() < 1e-12);
        assert!((area_factor(Inches(6.0), Inches(12.0)) - 1.0).abs() < 1e-12);
        assert!((area_factor(Inches(1.5), Inches(2.9)) - 1.0).abs() < 1e-12);
    }
}
