//! Lumber whose stamp nobody read: of each design value the least that No. 2 of the four common groups has at that size.
//!
//! The year of a house is not asked: older tables give southern pine more than today's, which its later tests took back
//! ([`super::legacy`] is to read old tables by, never to size by).

use super::adjust::{Adjusted, Conditions, sawn};
use super::factors::{Stress, size};
use super::lumber::{DesignValues, Grade, Species, lumber};
use crate::loads::Mark;
use crate::plan::{Member, Wood};
use crate::units::Psi;

/// What it is called where it is cited.
pub const SOURCE: &str = "least of No. 2 of the four common groups, NDS Supplement Tables 4A and 4B";

/// One design value and the group that has least of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Least {
    /// Which value.
    pub of: Stress,
    /// With CF in it.
    pub value: Psi,
    /// The group.
    pub species: Species,
}

/// The values that an unstamped member is taken to have, size in, each with its group; none outside the tables.
///
/// ```
/// use joistwise_core::plan::Member;
/// use joistwise_core::strength::factors::Stress;
/// use joistwise_core::strength::lumber::Species;
/// use joistwise_core::strength::unstamped::least;
/// let all = least(Member::sawn(2, 10)).unwrap();
/// let of = |stress| all.iter().find(|it| it.of == stress).map(|it| (it.species, it.value.0)).unwrap();
/// assert_eq!(of(Stress::Bending), (Species::SouthernPine, 800.0));
/// assert_eq!(of(Stress::Modulus), (Species::HemFir, 1_300_000.0));
/// ```
#[must_use]
pub fn least(member: Member) -> Option<Vec<Least>> {
    let mut all = Vec::with_capacity(Stress::ALL.len());
    for of in Stress::ALL {
        let mut least: Option<Least> = None;
        for species in Species::ALL {
            let factor = size(species, of, member)?.value;
            let value = value(&lumber(species, Grade::Two, member)?.values, of) * factor;
            if least.is_none_or(|known| value < known.value) {
                least = Some(Least { of, value, species });
            }
        }
        all.extend(least);
    }
    Some(all)
}

fn value(values: &DesignValues, of: Stress) -> Psi {
    match of {
        Stress::Bending => values.fb,
        Stress::Tension => values.ft,
        Stress::Shear => values.fv,
        Stress::AcrossGrain => values.fc_perp,
        Stress::AlongGrain => values.fc,
        Stress::Modulus => values.e,
    }
}

/// Sawn lumber of a part that stands, by its stamp or without one, wet and incised as it is known to be; the rest of the
/// conditions as given. None as for [`sawn`].
#[must_use]
pub fn standing(wood: &Wood, member: Member, conditions: &Conditions) -> Option<Adjusted> {
    let Wood { stock, moisture, incising } = *wood;
    let conditions = Conditions { moisture, incising, ..*conditions };
    let of = |species, grade| sawn(&lumber(species, grade, member)?, member, &conditions);
    if let Some(stock) = stock {
        return of(stock.species, stock.grade);
    }
    let mut least: Option<Adjusted> = None;
    for species in Species::ALL {
        let one = of(species, Grade::Two)?;
        least = Some(match least {
            None => Adjusted { source: SOURCE, fb_mark: Mark::Memory, mark: Mark::Memory, ..one },
            Some(known) => weaker(known, &one),
        });
    }
    least
}

/// Each value of the weaker; the factors of the one that bends at less.
fn weaker(known: Adjusted, one: &Adjusted) -> Adjusted {
    let (a, b) = (known.values, one.values);
    let values = DesignValues {
        fb: a.fb.min(b.fb),
        ft: a.ft.min(b.ft),
        fv: a.fv.min(b.fv),
        fc_perp: a.fc_perp.min(b.fc_perp),
        fc: a.fc.min(b.fc),
        e: a.e.min(b.e),
        e_min: a.e_min.min(b.e_min),
    };
    let (stability, factors) =
        if b.fb < a.fb { (one.stability, one.factors.clone()) } else { (known.stability, known.factors) };
    Adjusted { values, stability, factors, ..known }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::loads::Combination;
    use crate::plan::Stock;
    use crate::strength::factors::Moisture;
    use crate::strength::stability::Held;

    /// 2x10, by hand from the tables: Fb 900 x 1.1, 850 x 1.1 = 935, 875 x 1.1, 800 of southern pine; Fv 135 of spruce-pine-fir;
    /// Fc-perp 405, E 1,300,000 and Emin 470,000 of hem-fir; Fc 1150 of spruce-pine-fir.
    #[test]
    fn a_2x10_without_a_stamp_has_the_least_of_each_value_in_psi() {
        let dry = Conditions::dry(Combination::DeadLive, Held::AllAlong);
        let got = standing(&Wood::default(), Member::sawn(2, 10), &dry).unwrap().values;
        let want = [800.0, 135.0, 405.0, 1150.0, 1_300_000.0, 470_000.0];
        for (got, want) in [got.fb, got.fv, got.fc_perp, got.fc, got.e, got.e_min].into_iter().zip(want) {
            assert!((got.0 - want).abs() < 1e-9, "{got:?} and {want}");
        }
    }

    /// No stamp of No. 2 or better gives less, at any size.
    #[test]
    fn no_stamp_of_no_2_or_better_is_weaker_than_none_in_psi() {
        let dry = Conditions { alike: 3, ..Conditions::dry(Combination::DeadSnow, Held::AllAlong) };
        for (width, depth) in [(2, 4), (2, 6), (2, 8), (2, 10), (2, 12), (4, 6), (4, 10)] {
            let member = Member::sawn(width, depth);
            let none = standing(&Wood::default(), member, &dry).unwrap().values;
            for species in Species::ALL {
                for grade in [Grade::SelectStructural, Grade::One, Grade::Two] {
                    let wood = Wood::from(Stock { species, grade });
                    let some = standing(&wood, member, &dry).unwrap().values;
                    assert!(none.fb <= some.fb && none.fv <= some.fv && none.e <= some.e && none.fc <= some.fc);
                }
            }
        }
    }

    /// Wet: Fv x 0.97, E x 0.9 (NDS Supplement Table 4A): 135 x 0.97 = 130.95 psi, 1.3e6 x 0.9 = 1.17e6 psi.
    #[test]
    fn a_wet_joist_without_a_stamp_loses_3_percent_of_shear_and_10_of_stiffness() {
        let dry = Conditions::dry(Combination::DeadLive, Held::AllAlong);
        let wood = Wood { moisture: Moisture::Wet, ..Wood::default() };
        let got = standing(&wood, Member::sawn(2, 10), &dry).unwrap().values;
        assert!((got.fv.0 - 130.95).abs() < 1e-9 && (got.e.0 - 1_170_000.0).abs() < 1e-6);
    }
}
