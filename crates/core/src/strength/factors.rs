//! Factors on the design values of dimension lumber, each with its section of the NDS.
//!
//! One function a factor; a factor outside its table is none. Cb and Cp are in [`crate::members`], CL is in `stability`, the
//! depth and volume factors of glued wood are with their classes.

use serde::{Deserialize, Serialize};

use super::lumber::{Species, is_dimension};
use crate::loads::{Combination, Mark, Sourced};
use crate::plan::Member;
use crate::units::{Inches, Psi};

/// Which design value a factor is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stress {
    /// Fb.
    Bending,
    /// Ft.
    Tension,
    /// Fv.
    Shear,
    /// Fc-perp.
    AcrossGrain,
    /// Fc.
    AlongGrain,
    /// E and Emin.
    Modulus,
}

impl Stress {
    /// All of them.
    pub const ALL: [Self; 6] =
        [Self::Bending, Self::Tension, Self::Shear, Self::AcrossGrain, Self::AlongGrain, Self::Modulus];
}

/// Whether wood stays dry in use.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Moisture {
    /// As in a house.
    #[default]
    Dry,
    /// Over 19 % for long.
    Wet,
}

/// Whether lumber was cut into so that a preservative could enter.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Incising {
    /// It was not.
    #[default]
    Plain,
    /// It was.
    Incised,
}

const fn seen(value: f64, source: &'static str) -> Sourced<f64> {
    Sourced { value, source, mark: Mark::Seen }
}

const fn memory(value: f64, source: &'static str) -> Sourced<f64> {
    Sourced { value, source, mark: Mark::Memory }
}

/// CF of bending, tension or compression along the grain, and 1 for the others. None for a size out of the tables.
#[must_use]
pub fn size(species: Species, stress: Stress, member: Member) -> Option<Sourced<f64>> {
    if !is_dimension(member) {
        return None;
    }
    match stress {
        Stress::Shear | Stress::AcrossGrain | Stress::Modulus => Some(seen(1.0, "NDS 4.3.6: not on this value")),
        _ if species == Species::SouthernPine => Some(memory(size_4b(stress, member), "NDS Supplement Table 4B")),
        _ => Some(seen(size_4a(stress, member)?, "NDS Supplement Table 4A")),
    }
}

fn size_4a(stress: Stress, member: Member) -> Option<f64> {
    let thick = member.nominal_width == 4;
    let factor = match (stress, member.nominal_depth) {
        (Stress::AlongGrain, 2..=4) => 1.15,
        (Stress::AlongGrain, 5 | 6) => 1.1,
        (Stress::AlongGrain, 8) => 1.05,
        (Stress::AlongGrain, 10 | 12) => 1.0,
        (Stress::Bending, 8) if thick => 1.3,
        (Stress::Bending, 10) if thick => 1.2,
        (Stress::Bending, 12) if thick => 1.1,
        (Stress::Bending, 14..) if thick => 1.0,
        (_, 2..=4) => 1.5,
        (_, 5) => 1.4,
        (_, 6) => 1.3,
        (_, 8) => 1.2,
        (_, 10) => 1.1,
        (_, 12) => 1.0,
        (_, 14..) => 0.9,
        _ => return None,
    };
    Some(factor)
}

/// Up to 12 in the size is in the value.
fn size_4b(stress: Stress, member: Member) -> f64 {
    let deep = if member.nominal_depth > 12 { 0.9 } else { 1.0 };
    let thick = stress == Stress::Bending && member.nominal_width == 4 && member.nominal_depth >= 8;
    if thick { 1.1 * deep } else { deep }
}

/// Cfu of bending for lumber on its wide face, by its nominal size.
#[must_use]
pub fn flat_use(member: Member) -> Option<Sourced<f64>> {
    let thick = member.nominal_width == 4;
    let factor = match member.nominal_depth {
        _ if !is_dimension(member) => return None,
        2 | 3 => 1.0,
        4 if thick => 1.0,
        4 => 1.1,
        5 if !thick => 1.1,
        5 | 6 | 8 if thick => 1.05,
        6 | 8 => 1.15,
        10.. if thick => 1.1,
        10.. => 1.2,
        _ => return None,
    };
    Some(seen(factor, "NDS Supplement Table 4A"))
}

/// Cr of bending: so many members side by side, no further apart than 24 in, with a deck or nails that make them act together.
#[must_use]
pub fn repetitive(members: u32, spacing: Inches) -> Sourced<f64> {
    let helps = members >= 3 && spacing <= Inches(24.0);
    seen(if helps { 1.15 } else { 1.0 }, "NDS 4.3.9")
}

/// CD: that of the shortest load in the combination. Not on Fc-perp, E and Emin.
#[must_use]
pub const fn duration(combination: Combination) -> Sourced<f64> {
    match combination {
        Combination::Dead => memory(0.9, "NDS Table 2.3.2: permanent"),
        Combination::DeadLive => memory(1.0, "NDS Table 2.3.2: ten years"),
        Combination::DeadSnow | Combination::DeadLiveSnow => seen(1.15, "NDS Table 2.3.2: two months, snow"),
        Combination::DeadRoofLive | Combination::DeadLiveRoofLive => {
            seen(1.25, "NDS Table 2.3.2: seven days, roof live load")
        }
    }
}

/// CM for wood that is wet in use; `sized` is the design value with CF, of which bending and compression ask.
#[must_use]
pub fn wet(stress: Stress, sized: Psi) -> Sourced<f64> {
    let factor = match stress {
        Stress::Bending if sized <= Psi(1150.0) => 1.0,
        Stress::AlongGrain if sized <= Psi(750.0) => 1.0,
        Stress::Bending => 0.85,
        Stress::Tension => 1.0,
        Stress::Shear => 0.97,
        Stress::AcrossGrain => 0.67,
        Stress::AlongGrain => 0.8,
        Stress::Modulus => 0.9,
    };
    seen(factor, "NDS Supplement Table 4A, wet service")
}

/// Ci for incised lumber.
#[must_use]
pub const fn incised(stress: Stress) -> Sourced<f64> {
    let factor = match stress {
        Stress::Modulus => 0.95,
        Stress::AcrossGrain => 1.0,
        Stress::Bending | Stress::Tension | Stress::Shear | Stress::AlongGrain => 0.8,
    };
    memory(factor, "NDS Table 4.3.8")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_4x10_bends_at_1_2_and_a_2x10_at_1_1_times_its_tabulated_value() {
        let cf = |width, depth| {
            size(Species::HemFir, Stress::Bending, Member::sawn(width, depth)).map(|factor| factor.value)
        };
        assert_eq!((cf(4, 10), cf(2, 10)), (Some(1.2), Some(1.1)));
        assert_eq!((cf(6, 10), cf(2, 14)), (None, Some(0.9)));
        let pine = size(Species::SouthernPine, Stress::Bending, Member::sawn(2, 10)).unwrap();
        assert_eq!((pine.value, pine.mark), (1.0, Mark::Memory));
    }

    #[test]
    fn two_plies_do_not_help_each_other_and_joists_25_in_apart_neither() {
        let helps = |members, inches| repetitive(members, Inches(inches)).value > 1.1;
        assert_eq!([helps(3, 1.5), helps(12, 24.0), helps(2, 1.5), helps(12, 25.0)], [true, true, false, false]);
    }
}
