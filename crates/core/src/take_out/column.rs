//! A post by its section: what it may carry at its height, beside what comes down on it.
//!
//! Stud packs and sawn posts, held at head and foot alone (NDS 3.7.1, 15.3). The height is that of the level, floor to
//! ceiling: plates and beams that make a post shorter are not taken off. Steel columns and masonry piers are absent: a
//! maker's table or an engineer has those.

use serde::Serialize;

use super::NoFigure;
use crate::loads::{Combination, Mark, Site, Sourced, Weights, combinations};
use crate::members::column::{Joined, SAWN, Strength, Unbraced, Wood, pack, strength};
use crate::members::section::Section;
use crate::plan::{Material, Member, Post, PostKind, Wood as Lumber};
use crate::strength::adjust::Conditions;
use crate::strength::factors::{Incising, Moisture, Stress, duration, incised};
use crate::strength::stability::Held;
use crate::strength::unstamped::standing;
use crate::units::{Inches, Pounds, Psi};

/// Posts and timbers, 5 x 5 in and larger, No. 2: the least of the four species groups.
const TIMBER_FC: Sourced<Psi> = Sourced {
    value: Psi(500.0),
    source: "NDS Supplement Table 4D, least of No. 2 posts and timbers",
    mark: Mark::Memory,
};
/// Emin of the same table, MEMORY: the least that goes with that Fc.
const TIMBER_E_MIN: Psi = Psi(370_000.0);

/// CM of Fc for the same (MEMORY); its E is not less for being wet.
const TIMBER_WET: Sourced<f64> =
    Sourced { value: 0.91, source: "NDS Supplement Table 4D, wet service", mark: Mark::Memory };

/// A post under every combination.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Column {
    /// The height that it may buckle over.
    pub height: Inches,
    /// `le / d`: over 50 no post of a house that stands may be (NDS 3.7.1.4).
    pub slenderness: f64,
    /// Cp.
    pub cp: f64,
    /// What it may carry under the combination that is worst for it.
    pub carries: Pounds,
    /// Asked over that.
    pub ratio: f64,
    /// Under which.
    pub under: Combination,
}

impl Column {
    /// Whether it carries what comes, and is not too slender.
    #[must_use]
    pub fn passes(&self) -> bool {
        self.ratio <= 1.0 + 1e-9 && self.slenderness <= crate::members::column::MOST_SLENDER
    }
}

/// Whether a size is one of the posts and timbers: 5 in and thicker, no more than 2 in deeper than thick.
pub(crate) fn is_timber(member: Member) -> bool {
    let (width, depth) =
        (member.nominal_width.min(member.nominal_depth), member.nominal_width.max(member.nominal_depth));
    width >= 5 && depth - width <= 2
}

/// What a post of this size may carry at this height under a combination; none outside the tables.
pub(super) fn carries(
    member: Member,
    lumber: impl Into<Lumber>,
    height: Inches,
    combination: Combination,
) -> Option<Strength> {
    let lumber = lumber.into();
    let unbraced = Unbraced::both(height);
    if member.plies > 1 {
        let ply = Member { plies: 1, ..member };
        return pack(&wood(&lumber, ply, combination)?, member.plies, &Section::of(ply)?, &unbraced, Joined::Nailed);
    }
    let wood = if is_timber(member) { timber(&lumber, combination) } else { wood(&lumber, member, combination)? };
    Some(strength(&wood, &Section::of(member)?, &unbraced))
}

fn timber(lumber: &Lumber, combination: Combination) -> Wood {
    let incised = |of| if lumber.incising == Incising::Incised { incised(of).value } else { 1.0 };
    let wet = if lumber.moisture == Moisture::Wet { TIMBER_WET.value } else { 1.0 };
    let fc = TIMBER_FC.value * (wet * incised(Stress::AlongGrain));
    let e_min = TIMBER_E_MIN * incised(Stress::Modulus);
    Wood { fc, e_min, duration: duration(combination).value, size: 1.0, c: SAWN }
}

fn wood(lumber: &Lumber, member: Member, combination: Combination) -> Option<Wood> {
    Some(standing(lumber, member, &Conditions::dry(combination, Held::AllAlong))?.column())
}

/// A size under every combination of what comes down on it.
pub(crate) fn column(
    member: Member,
    lumber: impl Into<Lumber>,
    height: Inches,
    top: &Weights,
    site: &Site,
) -> Option<Column> {
    let lumber = lumber.into();
    let mut worst: Option<Column> = None;
    for (load, under) in combinations(top, site) {
        let Strength { slenderness, cp, load: carries, .. } = self::carries(member, lumber, height, under)?;
        let ratio = load / carries;
        if worst.is_none_or(|it| ratio > it.ratio) {
            worst = Some(Column { height, slenderness, cp, carries, ratio, under });
        }
    }
    worst
}

/// A post of the plan likewise, of its own wood, or why there is no figure.
pub(crate) fn of_post(post: &Post, height: Inches, top: &Weights, site: &Site) -> Result<Column, NoFigure> {
    match (post.kind, post.member.material) {
        (PostKind::Pier, _) => Err(NoFigure::Pier),
        (PostKind::Steel, _) | (_, Material::Steel) => Err(NoFigure::SteelColumn),
        (_, Material::NotSeen) => Err(NoFigure::SizeNotSeen),
        _ => column(post.member, post.wood, height, top, site).ok_or(NoFigure::OutsideTables),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::loads::Kind;
    use crate::plan::Stock;

    /// 4x4 spruce-pine-fir No. 2, 84 in: le / d = 24; FcE = 0.822 x 510,000 / 576 = 727.8 psi of Fc* = 1150 x 1.15 = 1322.5: a =
    /// 0.55033, m = 0.96896, Cp = 0.96896 - sqrt(0.93888 - 0.68791) = 0.46799; 618.9 psi x 12.25 = 7582 lb. Over
    /// 15 ft le / d = 51.4: more slender than any post may be.
    #[test]
    fn a_4x4_of_7_ft_carries_7582_lb_and_one_of_15_ft_is_too_slender() {
        let (size, stock, site) = (Member::sawn(4, 4), Stock::default(), Site::default());
        let top = Weights { dead: Pounds(1000.0), ..Weights::only(Kind::Floor, Pounds(4000.0)) };
        let low = column(size, stock, Inches(84.0), &top, &site).unwrap();
        assert!((low.cp - 0.467_99).abs() < 1e-4 && (low.carries.0 - 7582.0).abs() < 2.0, "{low:?}");
        assert!((low.ratio - 5000.0 / low.carries.0).abs() < 1e-12 && low.passes());
        let high = column(size, stock, Inches(180.0), &top, &site).unwrap();
        assert!(high.slenderness > 50.0 && !high.passes());
    }

    #[test]
    fn a_6x6_goes_by_the_table_of_timbers_and_a_6x10_by_none_here() {
        let carries =
            |width, depth| carries(Member::sawn(width, depth), Stock::default(), Inches(96.0), Combination::DeadLive);
        assert!(carries(6, 6).is_some() && carries(6, 8).is_some());
        assert_eq!(carries(6, 10), None);
    }
}
