//! Design values with every factor that applies, and the list of those factors for the sheet.
//!
//! Sawn lumber, laminated veneer and glulam each by their own rules. Fc stays without Cp: a column's length is not known
//! here. Wet glued wood is absent.

use super::engineered::{Glulam, Lvl};
use super::factors::{Incising, Moisture, Stress, duration, incised, repetitive, size, wet};
use super::lumber::{DesignValues, Lumber};
use super::stability::{BeamStability, Held, beam_stability};
use crate::loads::{Combination, Mark, Sourced};
use crate::members::column::{GLUED, SAWN, Wood};
use crate::members::section::Section;
use crate::plan::Member;
use crate::units::{Feet, Inches, Psi};

/// What a member meets in use.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conditions {
    /// The loads that are on it together; the shortest of them sets CD.
    pub combination: Combination,
    /// So many members alike side by side, sharing the load: 1 for a beam.
    pub alike: u32,
    /// How far apart they are.
    pub spacing: Inches,
    /// The edge in compression.
    pub held: Held,
    /// Whether it stays dry.
    pub moisture: Moisture,
    /// Whether it was cut for a preservative.
    pub incising: Incising,
    /// Ct, only if somebody states it.
    pub temperature: Option<f64>,
}

impl Conditions {
    /// Dry, plain, at usual temperatures, alone, under this combination.
    #[must_use]
    pub const fn dry(combination: Combination, held: Held) -> Self {
        let (moisture, incising) = (Moisture::Dry, Incising::Plain);
        Self { combination, alike: 1, spacing: Inches::ZERO, held, moisture, incising, temperature: None }
    }
}

/// One factor as it was applied.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Applied {
    /// To which value.
    pub to: Stress,
    /// CF, CD, ...
    pub symbol: &'static str,
    /// With its section and mark.
    pub factor: Sourced<f64>,
}

/// Design values as a check takes them.
#[derive(Clone, Debug, PartialEq)]
pub struct Adjusted {
    /// F'b and the others; Fc without Cp.
    pub values: DesignValues,
    /// What was found of the beam's stability.
    pub stability: BeamStability,
    /// Each factor, in the order of the section.
    pub factors: Vec<Applied>,
    /// Title, edition, table of the values before the factors.
    pub source: &'static str,
    /// Whether Fb was read there.
    pub fb_mark: Mark,
    /// Whether the others were.
    pub mark: Mark,
    /// c of columns: that of sawn or of glued wood.
    pub column_c: f64,
}

impl Adjusted {
    /// The same as a column of [`crate::members::column`] takes it, CD and CF already in Fc.
    ///
    /// ```
    /// use joistwise_core::loads::Combination;
    /// use joistwise_core::members::column::{Section, Unbraced, strength};
    /// use joistwise_core::plan::Member;
    /// use joistwise_core::strength::adjust::{Conditions, sawn};
    /// use joistwise_core::strength::lumber::{Grade, Species, lumber};
    /// use joistwise_core::strength::stability::Held;
    /// use joistwise_core::units::Inches;
    /// let post = Member::sawn(4, 4);
    /// let row = lumber(Species::SprucePineFir, Grade::Two, post).unwrap();
    /// let values = sawn(&row, post, &Conditions::dry(Combination::DeadLive, Held::AllAlong)).unwrap();
    /// let carries = strength(&values.column(), &Section::of(post).unwrap(), &Unbraced::both(Inches(108.0)));
    /// assert!((carries.load.0 - 4956.48).abs() < 0.005);
    /// ```
    #[must_use]
    pub const fn column(&self) -> Wood {
        let (fc, e_min) = (self.values.fc, self.values.e_min);
        Wood { fc, e_min, duration: 1.0, size: 1.0, c: self.column_c }
    }
}

/// The factors collected so far.
#[derive(Default)]
struct Factors(Vec<Applied>);

impl Factors {
    fn apply(&mut self, to: Stress, symbol: &'static str, factor: Sourced<f64>) {
        self.0.push(Applied { to, symbol, factor });
    }

    /// CD on all but Fc-perp, E and Emin; Ct as stated, on all.
    fn usual(&mut self, conditions: &Conditions) {
        for to in Stress::ALL {
            if !matches!(to, Stress::AcrossGrain | Stress::Modulus) {
                self.apply(to, "CD", duration(conditions.combination));
            }
            if let Some(value) = conditions.temperature {
                self.apply(to, "Ct", Sourced { value, source: "NDS 2.3.3, as stated", mark: Mark::Memory });
            }
        }
    }

    fn on(&self, to: Stress, value: Psi) -> Psi {
        let of = self.0.iter().filter(|applied| applied.to == to);
        of.fold(value, |value, applied| value * applied.factor.value)
    }

    fn all(&self, base: &DesignValues) -> DesignValues {
        DesignValues {
            fb: self.on(Stress::Bending, base.fb),
            ft: self.on(Stress::Tension, base.ft),
            fv: self.on(Stress::Shear, base.fv),
            fc_perp: self.on(Stress::AcrossGrain, base.fc_perp),
            fc: self.on(Stress::AlongGrain, base.fc),
            e: self.on(Stress::Modulus, base.e),
            e_min: self.on(Stress::Modulus, base.e_min),
        }
    }
}

const fn stable(found: &BeamStability) -> Sourced<f64> {
    Sourced { value: found.factor, source: "NDS 3.3.3", mark: Mark::Memory }
}

/// Dimension lumber: CF, CM, Ci, CD, Ct, Cr, CL (NDS Table 4.3.1). None for a size out of the tables and for a beam that is too
/// slender.
#[must_use]
pub fn sawn(lumber: &Lumber, member: Member, conditions: &Conditions) -> Option<Adjusted> {
    let (section, base) = (Section::of(member)?, lumber.values);
    let mut factors = Factors::default();
    for to in Stress::ALL {
        let sizes = size(lumber.species, to, member)?;
        if matches!(to, Stress::Bending | Stress::Tension | Stress::AlongGrain) {
            factors.apply(to, "CF", sizes);
        }
        if conditions.moisture == Moisture::Wet {
            let sized = if to == Stress::AlongGrain { base.fc } else { base.fb } * sizes.value;
            factors.apply(to, "CM", wet(to, sized));
        }
        if conditions.incising == Incising::Incised {
            factors.apply(to, "Ci", incised(to));
        }
    }
    factors.usual(conditions);
    factors.apply(Stress::Bending, "Cr", repetitive(conditions.alike, conditions.spacing));
    let before = factors.all(&base);
    let stability = beam_stability(before.fb, before.e_min, &section, conditions.held)?;
    factors.apply(Stress::Bending, "CL", stable(&stability));
    let (values, source) = (factors.all(&base), lumber.source);
    let (fb_mark, mark) = (lumber.fb_mark, lumber.mark);
    Some(Adjusted { values, stability, factors: factors.0, source, fb_mark, mark, column_c: SAWN })
}

/// Laminated veneer: the lower end of each range, the depth factor, CD, Ct, CL. Where the depth factor takes off, the lesser of
/// it and CL applies, else both (NDS 8.3.6, MEMORY). No Cr: it is not the same in all reports.
///
/// None outside its depths, where wet, incised or too slender.
#[must_use]
pub fn lvl(class: &Lvl, section: &Section, conditions: &Conditions) -> Option<Adjusted> {
    let base = DesignValues {
        fb: class.fb.low,
        ft: class.ft.low,
        fv: class.fv.low,
        fc_perp: class.fc_perp.low,
        fc: class.fc.low,
        e: class.e.low,
        e_min: class.e_min.low,
    };
    let deep = class.depth_factor(section.depth)?;
    let glued = Glued { base, source: class.source, mark: class.mark };
    glued.adjust(section, conditions, deep)
}

/// Which way a glulam bends: its bottom has the better laminations.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bends {
    /// Down between supports: the bottom is pulled.
    Sagging,
    /// Up over a support: the top is.
    Hogging,
}

/// Glulam, this long from one point of no moment to the next: CD, Ct, and the lesser of CV and CL (NDS 5.3.6). None where wet,
/// incised or too slender.
#[must_use]
pub fn glulam(
    class: &Glulam,
    section: &Section,
    length: Feet,
    bends: Bends,
    conditions: &Conditions,
) -> Option<Adjusted> {
    let Glulam { ft, fv, fc_perp, fc, e, e_min, source, mark, .. } = *class;
    let fb = match bends {
        Bends::Sagging => class.fb,
        Bends::Hogging => class.fb_reversed,
    };
    let glued = Glued { base: DesignValues { fb, ft, fv, fc_perp, fc, e, e_min }, source, mark };
    glued.adjust(section, conditions, class.volume_factor(length, section))
}

struct Glued {
    base: DesignValues,
    source: &'static str,
    mark: Mark,
}

impl Glued {
    fn adjust(self, section: &Section, conditions: &Conditions, volume: Sourced<f64>) -> Option<Adjusted> {
        if conditions.moisture == Moisture::Wet || conditions.incising == Incising::Incised {
            return None;
        }
        let mut factors = Factors::default();
        factors.usual(conditions);
        let gains = volume.value > 1.0;
        if gains {
            factors.apply(Stress::Bending, "CV", volume);
        }
        let before = factors.all(&self.base);
        let stability = beam_stability(before.fb, before.e_min, section, conditions.held)?;
        if gains || stability.factor < volume.value {
            factors.apply(Stress::Bending, "CL", stable(&stability));
        } else {
            factors.apply(Stress::Bending, "CV", volume);
        }
        let values = factors.all(&self.base);
        let Self { source, mark, .. } = self;
        Some(Adjusted { values, stability, factors: factors.0, source, fb_mark: mark, mark, column_c: GLUED })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::strength::engineered::{GLULAM, LVL};
    use crate::strength::lumber::{Grade, Species, lumber};

    /// 2x8 No. 1 Douglas fir-larch, dead and snow, wet: 1000 x 1.2 x 0.85 x 1.15 = 1173 psi.
    #[test]
    fn a_wet_2x8_under_snow_bends_at_1173_psi() {
        let member = Member::sawn(2, 8);
        let row = lumber(Species::DouglasFirLarch, Grade::One, member).unwrap();
        let conditions =
            Conditions { moisture: Moisture::Wet, ..Conditions::dry(Combination::DeadSnow, Held::AllAlong) };
        let got = sawn(&row, member, &conditions).unwrap();
        assert!((got.values.fb.0 - 1173.0).abs() < 1e-9 && (got.values.fv.0 - 200.79).abs() < 1e-9);
        assert!((got.values.fc_perp.0 - 625.0 * 0.67).abs() < 1e-9);
        let bending = got.factors.iter().filter(|applied| applied.to == Stress::Bending);
        assert_eq!(bending.map(|applied| applied.symbol).collect::<Vec<_>>(), ["CF", "CM", "CD", "Cr", "CL"]);
        // At Fb CF of 1150 psi or less wet wood bends as dry wood.
        let weak = lumber(Species::DouglasFirLarch, Grade::Three, member).unwrap();
        assert!((sawn(&weak, member, &conditions).unwrap().values.fb.0 - 525.0 * 1.2 * 1.15).abs() < 1e-9);
    }

    #[test]
    fn incised_lumber_loses_a_fifth_of_bending_and_a_twentieth_of_stiffness_and_a_hot_place_what_is_stated() {
        let member = Member::sawn(2, 10);
        let row = lumber(Species::HemFir, Grade::Two, member).unwrap();
        let plain = Conditions::dry(Combination::DeadLive, Held::AllAlong);
        let incised = Conditions { incising: Incising::Incised, temperature: Some(0.9), ..plain };
        let (before, after) = (sawn(&row, member, &plain).unwrap(), sawn(&row, member, &incised).unwrap());
        assert!((after.values.fb / before.values.fb - 0.8 * 0.9).abs() < 1e-12);
        assert!((after.values.e / before.values.e - 0.95 * 0.9).abs() < 1e-12);
        assert!((after.values.fc_perp / before.values.fc_perp - 0.9).abs() < 1e-12);
    }

    #[test]
    fn glulam_takes_the_lesser_of_volume_and_stability_and_shallow_lvl_both() {
        let factors = |adjusted: Option<Adjusted>| -> Vec<&str> {
            adjusted.unwrap().factors.iter().filter(|it| it.to == Stress::Bending).map(|it| it.symbol).collect()
        };
        let held = Conditions::dry(Combination::DeadLive, Held::AllAlong);
        let free = Conditions::dry(Combination::DeadLive, Held::Every(Inches(288.0)));
        let beam = Section { width: Inches(5.125), depth: Inches(18.0) };
        assert_eq!(factors(glulam(&GLULAM[0], &beam, Feet(24.0), Bends::Sagging, &held)), ["CD", "CV"]);
        let slender = Section { width: Inches(3.125), depth: Inches(18.0) };
        assert_eq!(factors(glulam(&GLULAM[0], &slender, Feet(24.0), Bends::Hogging, &free)), ["CD", "CL"]);
        let shallow = Section { width: Inches(3.5), depth: Inches(9.25) };
        assert_eq!(factors(lvl(&LVL[0], &shallow, &free)), ["CD", "CV", "CL"]);
        assert_eq!(lvl(&LVL[0], &shallow, &Conditions { moisture: Moisture::Wet, ..held }), None);
    }
}
