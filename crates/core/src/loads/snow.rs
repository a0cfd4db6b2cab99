//! Snow on a roof from snow on the ground.
//!
//! Balanced snow alone: drifts, unbalanced and sliding snow and rain on snow are absent.
//!
//! Two editions, two meanings of one figure: ground snow of ASCE 7-05 to 7-16 goes into allowable-stress combinations whole,
//! that of 7-22 is a strength-level figure and goes in with 0.7 (SEEN in a professional journal's note on 7-22). Which it is
//! stands in [`super::SnowEdition`]; to mix them is an error of 30 %.

use serde::{Deserialize, Serialize};

use crate::units::{Degrees, Psf};

/// What snow lies on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Surface {
    /// Nobody said: no reduction for slope, the heavier side.
    #[default]
    NotStated,
    /// Shingles, shakes, tiles, anything that holds snow, or a slope from which it cannot slide off.
    Rough,
    /// Metal, slate or glass with nothing in the way of the snow.
    Slippery,
}

impl Surface {
    /// Whether nobody said.
    #[must_use]
    pub fn is_not_stated(&self) -> bool {
        *self == Self::NotStated
    }
}

/// Of ground snow on a flat roof (ASCE 7 eq. 7.3-1, SEEN).
pub const FLAT: f64 = 0.7;
/// From this angle no snow stays (ASCE 7-05 section 7.4, SEEN).
pub const NONE_FROM: Degrees = Degrees(70.0);
/// Up to these angles all of it stays on a rough surface, for Ct up to 1.0, up to 1.1, and above (ASCE 7 figure 7-2, MEMORY).
pub const ROUGH_UP_TO: [Degrees; 3] = [Degrees(30.0), Degrees(37.5), Degrees(45.0)];
/// The same on a slippery one with nothing in the way (10 degrees SEEN, 5 and 15 MEMORY).
pub const SLIPPERY_UP_TO: [Degrees; 3] = [Degrees(5.0), Degrees(10.0), Degrees(15.0)];
/// The least on low slopes is the ground snow times Is, up to this much ground snow (ASCE 7-05 to 7-16 section 7.3.4, MEMORY).
pub const LEAST_UP_TO: Psf = Psf(20.0);

/// Snow on the plan of a flat roof: `pf = 0.7 Ce Ct Is pg`. ASCE 7-22 has no Is: pass 1.
///
/// ```
/// use joistwise_core::loads::snow::flat;
/// use joistwise_core::units::Psf;
/// assert!((flat(Psf(60.0), 1.2, 1.1, 1.0).0 - 55.44).abs() < 1e-9);
/// ```
#[must_use]
pub fn flat(ground: Psf, exposure: f64, thermal: f64, importance: f64) -> Psf {
    ground * (FLAT * exposure * thermal * importance)
}

/// The slope factor Cs: 1 up to an angle that depends on the surface and on Ct, then straight to 0 at 70 degrees.
///
/// Between the lines of the figure the one for the colder roof is taken, the heavier side.
#[must_use]
pub fn slope_factor(angle: Degrees, thermal: f64, surface: Surface) -> f64 {
    let [warm, cool, cold] = match surface {
        Surface::NotStated => return 1.0,
        Surface::Rough => ROUGH_UP_TO,
        Surface::Slippery => SLIPPERY_UP_TO,
    };
    let whole_up_to = match thermal {
        ct if ct <= 1.0 => warm,
        ct if ct <= 1.1 => cool,
        _ => cold,
    };
    ((NONE_FROM - angle) / (NONE_FROM - whole_up_to)).clamp(0.0, 1.0)
}

/// The least snow on a roof of low slope, ASCE 7-05 to 7-16; a case of its own, without drifts (MEMORY).
#[must_use]
pub fn least_on_low_slopes(ground: Psf, importance: f64) -> Psf {
    ground.min(LEAST_UP_TO) * importance
}

/// The angle of a rise in a run of 1.
///
/// The one angle of the core, because the slope factor goes by it: five halvings by `sqrt` and a series, so that it is the
/// same to the last bit everywhere, which the library's arc tangent is not.
#[must_use]
pub fn angle(rise_per_run: f64) -> Degrees {
    let mut t = rise_per_run.abs();
    for _ in 0..5 {
        // The tangent of half the angle; written so that it holds for an endless rise too.
        t = if t > 1e150 { 1.0 } else { t / (1.0 + (1.0 + t * t).sqrt()) };
    }
    // t is at most tan(90 / 32) = 0.05: eight terms leave less than 1e-22.
    let (square, mut sum) = (t * t, 0.0);
    for odd in [15.0, 13.0, 11.0, 9.0, 7.0, 5.0, 3.0, 1.0_f64] {
        sum = 1.0 / odd - square * sum;
    }
    Degrees(32.0 * t * sum * (180.0 / core::f64::consts::PI))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn near(got: f64, expected: f64) {
        assert!((got - expected).abs() < 1e-12, "{got} is not {expected}");
    }

    #[test]
    fn the_angle_of_a_slope_in_degrees_is_that_of_the_library_within_a_few_last_bits() {
        for rise in (0..=2400).map(|step| f64::from(step) / 100.0) {
            near(angle(rise).0, rise.atan().to_degrees());
        }
        near(angle(1.0).0, 45.0);
        near(angle(3.0_f64.sqrt()).0, 60.0);
        near(angle(f64::INFINITY).0, 90.0);
        near(angle(-1.0).0, 45.0);
    }

    /// ASCE 7-02 and 7-05, by equation (SEEN in an engineers' forum): 26.6 degrees, Ct 1.1, slippery: 1 - 16.6 / 60.
    #[test]
    fn cs_falls_straight_from_one_to_nothing_at_70_degrees() {
        near(slope_factor(Degrees(26.6), 1.1, Surface::Slippery), 1.0 - 16.6 / 60.0);
        near(slope_factor(Degrees(37.5), 1.1, Surface::Rough), 1.0);
        near(slope_factor(Degrees(53.75), 1.1, Surface::Rough), 0.5);
        near(slope_factor(Degrees(69.999_999_999_999), 1.0, Surface::Rough), 0.0);
        near(slope_factor(Degrees(80.0), 1.2, Surface::Slippery), 0.0);
    }

    #[test]
    fn a_roof_between_two_lines_of_the_figure_is_taken_as_the_colder_one() {
        near(slope_factor(Degrees(40.0), 1.05, Surface::Rough), 30.0 / 32.5);
        near(slope_factor(Degrees(40.0), 1.15, Surface::Rough), 1.0);
    }

    #[test]
    fn the_least_snow_on_low_slopes_stops_growing_at_20_psf_of_ground_snow() {
        assert_eq!(least_on_low_slopes(Psf(12.0), 1.0), Psf(12.0));
        assert_eq!(least_on_low_slopes(Psf(50.0), 1.1), Psf(22.0));
    }
}
