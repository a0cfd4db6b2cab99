//! Wood columns: posts, studs and stud packs in plain compression, NDS 3.7.1 and 15.3.
//!
//! Load in the middle, ends held sideways and free to turn (Ke = 1): no wind on the stud, no eccentricity, no bending.

pub use super::section::Section;
use crate::units::{Inches, Pounds, Psi};

/// The most that `le / d` may be in a house that stands (NDS 3.7.1.4, SEEN as quoted).
pub const MOST_SLENDER: f64 = 50.0;
/// The same while it is built (MEMORY).
pub const MOST_SLENDER_WHILE_BUILDING: f64 = 75.0;
/// c of sawn wood (NDS 3.7.1.5, MEMORY).
pub const SAWN: f64 = 0.8;
/// c of glulam and laminated veneer (NDS 3.7.1.5, MEMORY).
pub const GLUED: f64 = 0.9;
/// Euler's stress is this times `E'min / (le / d)^2` (NDS 3.7.1.5, SEEN).
const EULER: f64 = 0.822;

/// Wood in compression along its grain.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wood {
    /// Fc of the species and grade.
    pub fc: Psi,
    /// Emin of the species and grade, with the factors that apply to it.
    pub e_min: Psi,
    /// CD, for the shortest load in the combination.
    pub duration: f64,
    /// CF of compression for the size.
    pub size: f64,
    /// c: [`SAWN`] or [`GLUED`].
    pub c: f64,
}

/// The length over which a column may buckle in each direction; `None` where something holds it all along, as sheathing
/// holds the narrow faces of studs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unbraced {
    /// In the direction of the width.
    pub along_width: Option<Inches>,
    /// In the direction of the depth.
    pub along_depth: Option<Inches>,
}

impl Unbraced {
    /// A post in the open.
    #[must_use]
    pub const fn both(length: Inches) -> Self {
        Self { along_width: Some(length), along_depth: Some(length) }
    }

    /// A stud with boards on its narrow faces: only out of the wall.
    #[must_use]
    pub const fn out_of_the_wall(length: Inches) -> Self {
        Self { along_width: None, along_depth: Some(length) }
    }
}

/// How the plies of a pack are held together (NDS 15.3.3 and 15.3.4 by the schedule).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Joined {
    /// By nails.
    Nailed,
    /// By bolts.
    Bolted,
}

impl Joined {
    /// Kf for buckling in the direction of the plies' thickness, through all of them (NDS 15.3.2, SEEN as quoted).
    #[must_use]
    pub const fn kf(self) -> f64 {
        match self {
            Self::Nailed => 0.6,
            Self::Bolted => 0.75,
        }
    }
}

/// What a column may carry, and by what.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strength {
    /// `le / d` in the direction that governs; 0 for a column held all along.
    pub slenderness: f64,
    /// Fc*: Fc with all factors but Cp.
    pub fc_star: Psi,
    /// FcE in the direction that governs.
    pub buckling: Psi,
    /// Cp in the direction of the width, Kf in it for a pack.
    pub cp_width: f64,
    /// Cp in the direction of the depth.
    pub cp_depth: f64,
    /// The smaller of the two.
    pub cp: f64,
    /// F'c.
    pub fc: Psi,
    /// F'c times the section.
    pub load: Pounds,
}

impl Strength {
    /// Whether it is no more slender than a standing house allows.
    #[must_use]
    pub fn is_stocky_enough(&self) -> bool {
        self.slenderness <= MOST_SLENDER
    }
}

/// The column stability factor as the NDS writes it (eq. 3.7-1, SEEN): `m - sqrt(m^2 - a / c)` with `a = FcE / Fc*` and
/// `m = (1 + a) / 2c`.
#[must_use]
pub fn stability(a: f64, c: f64) -> f64 {
    let middle = (1.0 + a) / (2.0 * c);
    middle - (middle * middle - a / c).max(0.0).sqrt()
}

/// The same as the smaller root of `c x^2 - (1 + a) x + a = 0`, written so that nothing cancels: right also for a stocky
/// column, where the other form subtracts two large numbers.
#[must_use]
pub fn stability_as_root(a: f64, c: f64) -> f64 {
    let sum = 1.0 + a;
    let root = (sum * sum - 4.0 * a * c).max(0.0).sqrt();
    if a.is_infinite() { 1.0 } else { 2.0 * a / (sum + root) }
}

/// FcE: the stress at which a column of `le / d` buckles.
#[must_use]
pub fn buckling_stress(e_min: Psi, slenderness: f64) -> Psi {
    e_min * EULER / (slenderness * slenderness)
}

/// One piece: a post or a stud.
///
/// ```
/// use joistwise_core::members::column::{SAWN, Section, Unbraced, Wood, strength};
/// use joistwise_core::units::{Inches, Psi};
/// let spf = Wood { fc: Psi(1150.0), e_min: Psi(510_000.0), duration: 1.0, size: 1.15, c: SAWN };
/// let post = Section { width: Inches(3.5), depth: Inches(3.5) };
/// let four_by_four = strength(&spf, &post, &Unbraced::both(Inches(108.0)));
/// assert!((four_by_four.load.0 - 4956.48).abs() < 0.005);
/// ```
#[must_use]
pub fn strength(wood: &Wood, section: &Section, unbraced: &Unbraced) -> Strength {
    weaker(wood, section, unbraced, 1.0)
}

/// A pack of 2 to 5 plies of one depth and full length (NDS 15.3). `None` for another number of plies or plies under
/// 1 1/2 in thick (MEMORY): the rule does not reach there.
///
/// Buckling in the direction of the plies' depth takes Cp whole, in the direction of their thickness Kf Cp.
#[must_use]
pub fn pack(wood: &Wood, plies: u8, ply: &Section, unbraced: &Unbraced, joined: Joined) -> Option<Strength> {
    let reaches = (2..=5).contains(&plies) && ply.width >= Inches(1.5);
    let section = ply.plies(plies);
    reaches.then(|| weaker(wood, &section, unbraced, joined.kf()))
}

fn weaker(wood: &Wood, section: &Section, unbraced: &Unbraced, through_plies: f64) -> Strength {
    let fc_star = wood.fc * (wood.duration * wood.size);
    let side = |length: Option<Inches>, of: Inches, kf: f64| match length {
        Some(length) => {
            let slenderness = length / of;
            let buckling = buckling_stress(wood.e_min, slenderness);
            (kf * stability_as_root(buckling / fc_star, wood.c), slenderness, buckling)
        }
        None => (1.0, 0.0, Psi(f64::INFINITY)),
    };
    let by_width = side(unbraced.along_width, section.width, through_plies);
    let by_depth = side(unbraced.along_depth, section.depth, 1.0);
    let (cp, slenderness, buckling) = if by_width.0 < by_depth.0 { by_width } else { by_depth };
    let fc = fc_star * cp;
    let load = fc * section.area();
    Strength { slenderness, fc_star, buckling, cp_width: by_width.0, cp_depth: by_depth.0, cp, fc, load }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SPF: Wood = Wood { fc: Psi(1150.0), e_min: Psi(510_000.0), duration: 1.0, size: 1.15, c: SAWN };

    #[test]
    fn both_forms_of_cp_agree_to_a_billionth_over_every_slenderness() {
        for a in (1..=4000).map(|step| f64::from(step) / 200.0) {
            for c in [SAWN, 0.85, GLUED] {
                let (formula, root) = (stability(a, c), stability_as_root(a, c));
                assert!((formula - root).abs() < 1e-9, "a = {a}, c = {c}: {formula} and {root}");
                assert!(root > 0.0 && root < 1.0);
                let (quadratic, whole) = (c * root * root - (1.0 + a) * root + a, 1.0 + a);
                assert!(quadratic.abs() < 1e-12 * whole, "a = {a}, c = {c}: {quadratic}");
            }
        }
    }

    #[test]
    fn a_column_that_is_held_all_along_carries_its_whole_crushing_strength() {
        let stud = Section { width: Inches(1.5), depth: Inches(3.5) };
        let held = strength(&SPF, &stud, &Unbraced { along_width: None, along_depth: None });
        assert!((held.cp - 1.0).abs() < 1e-12 && (held.load.0 - 1322.5 * 5.25).abs() < 1e-9);
        assert!(held.slenderness.abs() < 1e-12);
    }

    /// By hand: 92 5/8 / 1.5 = 61.75, past 50, where boards on its faces leave 92 5/8 / 3.5 = 26.5.
    #[test]
    fn a_bare_2x4_stud_is_too_slender_and_boards_on_its_faces_make_it_a_column() {
        let stud = Section { width: Inches(1.5), depth: Inches(3.5) };
        let bare = strength(&SPF, &stud, &Unbraced::both(Inches(92.625)));
        assert!(!bare.is_stocky_enough() && (bare.slenderness - 61.75).abs() < 1e-12);
        let sheathed = strength(&SPF, &stud, &Unbraced::out_of_the_wall(Inches(92.625)));
        assert!(sheathed.is_stocky_enough() && sheathed.load > bare.load * 4.0);
    }

    #[test]
    fn a_pack_of_studs_loses_four_tenths_of_cp_through_its_nails_and_a_quarter_through_bolts() {
        let ply = Section { width: Inches(1.5), depth: Inches(5.5) };
        let height = Unbraced::both(Inches(96.0));
        let nailed = pack(&SPF, 3, &ply, &height, Joined::Nailed).unwrap();
        let bolted = pack(&SPF, 3, &ply, &height, Joined::Bolted).unwrap();
        let solid = strength(&SPF, &Section { width: Inches(4.5), depth: Inches(5.5) }, &height);
        assert!((nailed.cp_width / solid.cp_width - 0.6).abs() < 1e-12);
        assert!((bolted.cp_width / solid.cp_width - 0.75).abs() < 1e-12);
        assert!((nailed.cp_depth - solid.cp_depth).abs() < 1e-12);
        assert_eq!(pack(&SPF, 6, &ply, &height, Joined::Nailed), None);
        assert_eq!(pack(&SPF, 1, &ply, &height, Joined::Nailed), None);
    }
}
