//! Footings: how large under how much, on what soil; plain concrete.
//!
//! The thickness comes from the projection rule alone: no shear or bending check, no reinforcement, no frost depth. The own
//! weight of a pad is left out unless it is asked for.
//!
//! ```
//! use joistwise_core::footing::Pad;
//! use joistwise_core::units::{Inches, Pounds, Psf};
//! let pad = Pad::under(Pounds(4200.0), Inches(3.5), Psf(1500.0));
//! assert_eq!((pad.side, pad.thickness), (Inches(21.0), Inches(9.0)));
//! ```

use crate::loads::{Mark, Sourced};
use crate::units::{Feet, Inches, Pcf, Plf, Pounds, Psf, SquareFeet, SquareInches};

/// A footing is not thinner than this (IRC R403.1.1, SEEN).
pub const LEAST_THICKNESS: Inches = Inches(6.0);
/// A strip is not narrower than this (IRC R403.1.1, SEEN). The table of 1995 goes below it.
pub const LEAST_STRIP: Inches = Inches(12.0);
/// It projects at least so far beyond the wall, and at most by its thickness (IRC R403.1.1, SEEN).
pub const LEAST_PROJECTION: Inches = Inches(2.0);
/// A pier of the Illinois table is not smaller than this (77 Ill. Adm. Code 870 Table B, SEEN).
pub const LEAST_PIER: SquareInches = SquareInches(144.0);

/// Plain concrete.
#[must_use]
pub const fn concrete() -> Sourced<Pcf> {
    Sourced { value: Pcf(150.0), source: "Building material weights list: concrete", mark: Mark::Seen }
}

/// The area that a load needs on a soil: `A = P / q`.
#[must_use]
pub fn area(load: Pounds, soil: Psf) -> SquareFeet {
    load / soil
}

/// The area with the pad's own weight on the soil as well: `A = P / (q - 150 t)`; `None` where the soil carries no more
/// than the pad. The soil dug out is not counted, the heavier side.
#[must_use]
pub fn area_with_own_weight(load: Pounds, soil: Psf, thickness: Inches, concrete: Pcf) -> Option<SquareFeet> {
    let left = soil - concrete * Feet::from(thickness);
    (left > Psf::ZERO).then(|| load / left)
}

/// The area of a pier by the Illinois table: `144 P / q` to the nearest square inch, 144 at least.
#[must_use]
pub fn pier(load: Pounds, soil: Psf) -> SquareInches {
    SquareInches(SquareInches::from(area(load, soil)).0.round()).max(LEAST_PIER)
}

/// The side of a square of this area.
#[must_use]
pub fn side(area: SquareFeet) -> Inches {
    Inches(SquareInches::from(area).0.sqrt())
}

/// A square pad under the middle of a post.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pad {
    /// What the load needs.
    pub area: SquareFeet,
    /// The side of just that area.
    pub exact: Inches,
    /// The side, up to the next inch.
    pub side: Inches,
    /// Beyond the post or its plate.
    pub projection: Inches,
    /// Not under the projection and not under 6 in (IRC R403.1.1, SEEN; DERIVED for a pad), up to the next inch.
    pub thickness: Inches,
}

impl Pad {
    /// For a load on a post, or a plate under it, of this width.
    #[must_use]
    pub fn under(load: Pounds, post: Inches, soil: Psf) -> Self {
        let area = area(load, soil);
        let exact = side(area);
        let whole = whole_inches(exact).max(whole_inches(post));
        let projection = (whole - post) / 2.0;
        Self { area, exact, side: whole, projection, thickness: thickness(projection) }
    }
}

/// How thick plain concrete is that projects so far: not under the projection, not under 6 in, up to the next inch.
#[must_use]
pub fn thickness(projection: Inches) -> Inches {
    whole_inches(projection).max(LEAST_THICKNESS)
}

/// The side over which a slab spreads a post at 45 degrees, and how hard it presses there: why a slab is no footing.
#[must_use]
pub fn spread_by_slab(load: Pounds, post: Inches, slab: Inches) -> (Inches, Psf) {
    let side = post + slab * 2.0;
    let feet = Feet::from(side);
    (side, load / (feet * feet))
}

/// How far along a strip of plain concrete a post of this width spreads: at 45 degrees through its thickness, as far as the code
/// lets it project (IRC R403.1.1).
#[must_use]
pub fn spread_along(post: Inches, thickness: Inches) -> Inches {
    post + thickness * 2.0
}

/// The width of a strip under a line load, `w / q`, up to the next inch; not under 12 in where the newer code is meant,
/// which is the caller's to say by [`LEAST_STRIP`].
#[must_use]
pub fn strip(load: Plf, soil: Psf) -> Inches {
    whole_inches(Inches::from(load / soil))
}

/// What stands on a strip of the old table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OldWall {
    /// A frame house.
    Frame,
    /// A frame house with a brick veneer, or 8 in hollow block.
    VeneerOrHollow,
    /// 8 in masonry, solid or grouted.
    Solid,
}

/// The line load behind each case of the strip table of 1995; none over three storeys.
///
/// FITTED: the table prints widths, not loads. One load for each case gives all its widths that were seen, rounded up to
/// the inch; it may be off by up to 60 plf without changing any. These are loads of 1995, and newer tables are wider.
#[must_use]
pub const fn old_strip_load(wall: OldWall, storeys: u8) -> Option<Sourced<Plf>> {
    let plf = match (wall, storeys) {
        (OldWall::Frame, 1) => 2000.0,
        (OldWall::Frame, 2) | (OldWall::VeneerOrHollow, 1) => 2330.0,
        (OldWall::Frame, 3) | (OldWall::Solid, 1) => 2700.0,
        (OldWall::VeneerOrHollow, 2) => 3100.0,
        (OldWall::VeneerOrHollow, 3) | (OldWall::Solid, 2) => 3780.0,
        (OldWall::Solid, 3) => 5000.0,
        _ => return None,
    };
    let source = "CABO One and Two Family Dwelling Code (1995), Table 403.1, as quoted";
    Some(Sourced { value: Plf(plf), source, mark: Mark::Fitted })
}

/// Up to the next whole inch; what is over it by no more than sums round is not.
fn whole_inches(length: Inches) -> Inches {
    Inches((length.0 - 1e-9).ceil().max(0.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 10,500 lb on 1,500 psf: 7 sq ft, 31.7 in, so 32; (32 - 5.5) / 2 = 13.25 in beyond a 6x6, so 14 in thick.
    #[test]
    fn a_pad_under_a_six_by_six_is_as_thick_in_inches_as_it_projects() {
        let pad = Pad::under(Pounds(10_500.0), Inches(5.5), Psf(1500.0));
        assert_eq!((pad.side, pad.projection, pad.thickness), (Inches(32.0), Inches(13.25), Inches(14.0)));
        assert!((pad.area.0 - 7.0).abs() < 1e-12 && (pad.exact.0 - 31.749_015_732_775).abs() < 1e-9);
    }

    #[test]
    fn a_light_post_still_gets_6_in_of_concrete_and_a_pad_no_smaller_than_itself() {
        let pad = Pad::under(Pounds(300.0), Inches(3.5), Psf(3000.0));
        assert_eq!((pad.side, pad.projection, pad.thickness), (Inches(4.0), Inches(0.25), Inches(6.0)));
        assert_eq!(Pad::under(Pounds(1.0), Inches(5.5), Psf(3000.0)).side, Inches(6.0));
    }

    #[test]
    fn a_side_of_just_two_feet_is_24_in_and_not_25() {
        assert_eq!(Pad::under(Pounds(6000.0), Inches(3.5), Psf(1500.0)).side, Inches(24.0));
        assert_eq!(strip(Plf(2000.0), Psf(1500.0)), Inches(16.0));
    }

    #[test]
    fn a_pad_that_weighs_as_much_as_its_soil_bears_carries_nothing_in_psf() {
        assert_eq!(area_with_own_weight(Pounds(100.0), Psf(150.0), Inches(12.0), Pcf(150.0)), None);
    }
}
