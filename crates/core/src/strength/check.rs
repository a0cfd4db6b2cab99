//! Checks of one bending member: what is asked of it beside what it may carry, and the rule that says so.
//!
//! Moments, shears, reactions and deflections come from `statics`; nothing is solved here.

use core::ops::Div;

use serde::Serialize;

use super::adjust::Adjusted;
use crate::members::bearing::area_factor;
use crate::members::section::Section;
use crate::units::{Feet, FootPounds, Inches, Pounds, Psi};

/// What a check goes by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Rule {
    /// fb against F'b.
    Bending,
    /// fv against F'v.
    Shear,
    /// fc-perp against F'c-perp, at the seat that is pressed hardest.
    Crushing,
    /// The sag under live load against its part of the span.
    LiveSag,
    /// The sag under all load against its part of the span.
    TotalSag,
    /// The same of what a notch or hole leaves.
    NetBending,
    /// fv where a notch or hole is.
    NetShear,
    /// Moment on a steel shape, with what yielding, turning over and a thin flange leave of it.
    SteelBending,
    /// Shear in the web of a steel shape.
    SteelShear,
    /// Its web yields over a seat or under a point load.
    WebYielding,
    /// Its web cripples there.
    WebCrippling,
}

impl Rule {
    /// The section that has it.
    #[must_use]
    pub const fn source(self) -> &'static str {
        match self {
            Self::Bending => "NDS 3.3",
            Self::Shear => "NDS 3.4.2",
            Self::Crushing => "NDS 3.10.2",
            Self::LiveSag => "IRC Table R301.7",
            Self::TotalSag => "IBC Table 1604.3",
            Self::NetBending => "NDS 3.2.3, net section, from memory",
            Self::NetShear => "NDS 3.4.3.2, from memory",
            Self::SteelBending => "AISC 360 F2 and F3, allowable strength",
            Self::WebYielding => "AISC 360-16 J10.2, allowable strength, from memory",
            Self::WebCrippling => "AISC 360-16 J10.3, allowable strength, from memory",
            Self::SteelShear => "AISC 360 G2, allowable strength",
        }
    }
}

/// One check.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Check<Q> {
    /// By this rule.
    pub rule: Rule,
    /// What is asked of it.
    pub demand: Q,
    /// What it may carry.
    pub capacity: Q,
}

impl<Q: Copy + Div<Output = f64>> Check<Q> {
    /// The rule, and demand over capacity.
    #[must_use]
    pub fn both(&self) -> (Rule, f64) {
        (self.rule, self.ratio())
    }

    /// Demand over capacity: over 1 it fails.
    #[must_use]
    pub fn ratio(&self) -> f64 {
        self.demand / self.capacity
    }
}

/// What is asked of a member, from statics; every figure without its sign.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Demand {
    /// Greatest bending moment.
    pub moment: FootPounds,
    /// Greatest shear. The load within a depth of a support may have been left out (NDS 3.4.3.1).
    pub shear: Pounds,
    /// Greatest deflection under live load alone.
    pub live_sag: Inches,
    /// Greatest deflection under all load.
    pub total_sag: Inches,
    /// The span that it is judged against.
    pub span: Feet,
}

/// One place that the member rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seat {
    /// What it pushes.
    pub reaction: Pounds,
    /// How long it is.
    pub length: Inches,
    /// From its edge to the near end of the member.
    pub to_end: Inches,
}

/// The parts of the span that a member may sag by: 360 for `L / 360`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SagLimits {
    /// Under live load.
    pub live: f64,
    /// Under all load.
    pub total: f64,
}

impl SagLimits {
    /// Floors: L / 360 live (IRC Table R301.7, SEEN as printed over the span tables), L / 240 in all (IBC Table 1604.3, MEMORY).
    pub const FLOOR: Self = Self { live: 360.0, total: 240.0 };
    /// Ceilings and roofs with a ceiling that is not of plaster: L / 240 live (SEEN likewise), L / 180 in all (MEMORY).
    pub const CEILING: Self = Self { live: 240.0, total: 180.0 };
    /// Rafters without a ceiling: L / 180 live (SEEN likewise), L / 120 in all (MEMORY).
    pub const RAFTER: Self = Self { live: 180.0, total: 120.0 };

    pub(super) fn checks(self, demand: &Demand) -> [Check<Inches>; 2] {
        let span = Inches::from(demand.span);
        let check = |rule, sag, part| Check { rule, demand: sag, capacity: span / part };
        [check(Rule::LiveSag, demand.live_sag, self.live), check(Rule::TotalSag, demand.total_sag, self.total)]
    }
}

/// Sawn, glued and dry wood under a load that stays sags on: the dead load's deflection counts so many times (NDS 3.5.2, MEMORY).
/// The span tables leave it out.
pub const CREEP: f64 = 1.5;
/// The same of wood that is green or wet in use (NDS 3.5.2, MEMORY).
pub const CREEP_WET: f64 = 2.0;

/// Every check of one wood member.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WoodChecks {
    /// `fb = M / S`.
    pub bending: Check<Psi>,
    /// `fv = 3 V / 2 b d`.
    pub shear: Check<Psi>,
    /// `fc-perp = R / b lb`, where a seat's length is known.
    pub crushing: Option<Check<Psi>>,
    /// Live.
    pub live_sag: Check<Inches>,
    /// All.
    pub total_sag: Check<Inches>,
}

impl WoodChecks {
    /// Each rule and its ratio.
    #[must_use]
    pub fn ratios(&self) -> Vec<(Rule, f64)> {
        let stresses = [Some(self.bending), Some(self.shear), self.crushing].into_iter().flatten();
        let sags = [self.live_sag, self.total_sag].into_iter();
        stresses.map(|it| (it.rule, it.ratio())).chain(sags.map(|it| (it.rule, it.ratio()))).collect()
    }

    /// The rule that governs, and its ratio.
    #[must_use]
    pub fn governing(&self) -> (Rule, f64) {
        self.ratios().into_iter().fold((self.bending.rule, self.bending.ratio()), heavier)
    }
}

/// What is no number is worse than any.
pub(super) fn heavier(one: (Rule, f64), other: (Rule, f64)) -> (Rule, f64) {
    if other.1 > one.1 || other.1.is_nan() { other } else { one }
}

/// Checks a wood member of this section, all plies, against its adjusted values.
///
/// ```
/// use joistwise_core::loads::Combination;
/// use joistwise_core::members::section::Section;
/// use joistwise_core::plan::Member;
/// use joistwise_core::strength::adjust::{Conditions, sawn};
/// use joistwise_core::strength::check::{Demand, Rule, SagLimits, Seat, wood};
/// use joistwise_core::strength::lumber::{Grade, Species, lumber};
/// use joistwise_core::strength::stability::Held;
/// use joistwise_core::units::{Feet, FootPounds, Inches, Pounds};
///
/// // 2-2x10 southern pine No. 2 over 6 ft 6 in under 600 plf.
/// let member = Member::plies(2, 2, 10);
/// let row = lumber(Species::SouthernPine, Grade::Two, member).unwrap();
/// let values = sawn(&row, member, &Conditions::dry(Combination::DeadLive, Held::AllAlong)).unwrap();
/// let demand = Demand {
///     moment: FootPounds(3168.75),
///     shear: Pounds(1950.0),
///     live_sag: Inches(0.06),
///     total_sag: Inches(0.08),
///     span: Feet(6.5),
/// };
/// let seat = Seat { reaction: Pounds(1950.0), length: Inches(3.0), to_end: Inches(0.0) };
/// let checks = wood(&demand, &[seat], &Section::of(member).unwrap(), &values, SagLimits::FLOOR);
/// assert_eq!(checks.governing().0, Rule::Bending);
/// assert_eq!(checks.bending.demand.0.round(), 889.0);
/// ```
#[must_use]
pub fn wood(demand: &Demand, seats: &[Seat], section: &Section, adjusted: &Adjusted, limits: SagLimits) -> WoodChecks {
    let values = &adjusted.values;
    let shear = demand.shear / section.area() * 1.5;
    let pressed = seats.iter().filter(|seat| seat.length > Inches::ZERO).map(|seat| Check {
        rule: Rule::Crushing,
        demand: seat.reaction / (section.width * seat.length),
        capacity: values.fc_perp * area_factor(seat.length, seat.to_end),
    });
    let [live_sag, total_sag] = limits.checks(demand);
    WoodChecks {
        bending: Check { rule: Rule::Bending, demand: demand.moment / section.modulus(), capacity: values.fb },
        shear: Check { rule: Rule::Shear, demand: shear, capacity: values.fv },
        crushing: pressed.max_by(|one, other| one.ratio().total_cmp(&other.ratio())),
        live_sag,
        total_sag,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::loads::Combination;
    use crate::plan::Member;
    use crate::statics::{Load, Piece};
    use crate::strength::adjust::{Conditions, sawn};
    use crate::strength::lumber::{Grade, Species, lumber};
    use crate::strength::stability::Held;
    use crate::units::Plf;

    /// 12 ft of 2x10 Douglas fir-larch No. 2 at 16 in under 40 + 10 psf, by statics and by hand: w = 66.667 plf,
    /// M = w L^2 / 8 = 1200 lb-ft, V = 400 lb; fb = 14,400 / 21.391 = 673.2 psi, F'b = 900 x 1.1 x 1.15 = 1138.5;
    /// fv = 1.5 x 400 / 13.875 = 43.24 psi of 180; 400 / (1.5 x 1.5) = 177.8 psi of 625;
    /// live 5 x 4.4444 x 144^4 / (384 x 1.6e6 x 98.932) = 0.15720 in of 0.4.
    #[test]
    fn a_floor_joist_of_12_ft_checked_from_statics_comes_out_as_by_hand() {
        let member = Member::sawn(2, 10);
        let section = Section::of(member).unwrap();
        let row = lumber(Species::DouglasFirLarch, Grade::Two, member).unwrap();
        let alike =
            Conditions { alike: 9, spacing: Inches(16.0), ..Conditions::dry(Combination::DeadLive, Held::AllAlong) };
        let values = sawn(&row, member, &alike).unwrap();
        let span = Piece::new(Feet(0.0), Feet(12.0), &[Feet(0.0), Feet(12.0)]);
        let solve = |plf: f64| {
            let loads = [Load::uniform(Feet(0.0), Feet(12.0), Plf(plf))];
            let contact = span.settle(&loads).unwrap();
            (contact.reactions(&loads)[0], contact.response(&loads, values.values.e, section.inertia()).overall)
        };
        let ((reaction, all), (_, live)) = (solve(200.0 / 3.0), solve(160.0 / 3.0));
        let demand = Demand {
            moment: all.sagging.value,
            shear: all.shear.value.abs(),
            live_sag: live.down.value,
            total_sag: all.down.value,
            span: Feet(12.0),
        };
        let seat = Seat { reaction, length: Inches(1.5), to_end: Inches::ZERO };
        let checks = wood(&demand, &[seat], &section, &values, SagLimits::FLOOR);
        for (got, psi) in [(checks.bending, [673.2, 1138.5]), (checks.shear, [43.24, 180.0])] {
            assert!((got.demand.0 - psi[0]).abs() < 0.05 && (got.capacity.0 - psi[1]).abs() < 1e-9, "{got:?}");
        }
        assert!((checks.crushing.unwrap().ratio() - 177.778 / 625.0).abs() < 1e-5);
        assert!((checks.live_sag.demand.0 - 0.157_20).abs() < 1e-5 && (checks.live_sag.capacity.0 - 0.4).abs() < 1e-12);
        assert!((checks.total_sag.ratio() - 0.157_20 * 1.25 / 0.6).abs() < 1e-4);
        assert_eq!(checks.governing().0, Rule::Bending);
        assert_eq!(checks.ratios().len(), 5);
    }

    #[test]
    fn a_ratio_that_is_no_number_governs_and_is_not_passed_over() {
        let (fine, not_a_number) = ((Rule::Bending, 0.5), (Rule::LiveSag, f64::NAN));
        assert_eq!(heavier(fine, not_a_number).0, Rule::LiveSag);
        assert_eq!(heavier(not_a_number, fine).0, Rule::LiveSag);
        assert_eq!(heavier(fine, (Rule::Shear, 0.6)).0, Rule::Shear);
    }

    #[test]
    fn a_short_seat_away_from_the_end_crushes_at_more() {
        let member = Member::sawn(4, 10);
        let section = Section::of(member).unwrap();
        let row = lumber(Species::SprucePineFir, Grade::Two, member).unwrap();
        let values = sawn(&row, member, &Conditions::dry(Combination::DeadLive, Held::AllAlong)).unwrap();
        let demand = Demand {
            moment: FootPounds(100.0),
            shear: Pounds(100.0),
            live_sag: Inches(0.01),
            total_sag: Inches(0.01),
            span: Feet(8.0),
        };
        let seat = |to_end| Seat { reaction: Pounds(3000.0), length: Inches(1.5), to_end: Inches(to_end) };
        let crushing = |seats: &[Seat]| wood(&demand, seats, &section, &values, SagLimits::FLOOR).crushing.unwrap();
        assert!((crushing(&[seat(12.0)]).capacity.0 - 425.0 * 1.25).abs() < 1e-9);
        // Of two seats the one that is worse off.
        assert!((crushing(&[seat(12.0), seat(0.0)]).capacity.0 - 425.0).abs() < 1e-9);
        assert_eq!(wood(&demand, &[], &section, &values, SagLimits::FLOOR).crushing, None);
    }
}
