//! The longest span of a joist or rafter by the rules that the printed span tables follow.
//!
//! Simple span, even load, dressed size, no length of bearing taken off; bending under live and dead load, deflection under
//! live load alone, no creep. The rules are inferred from the tables of the residential code, which they reproduce to the
//! inch. Shear never governs there and is left out.

use super::adjust::{Conditions, sawn};
use super::legacy::legacy;
use super::lumber::{DesignValues, Grade, Lumber, Species, lumber};
use super::stability::Held;
use crate::loads::Combination;
use crate::members::joist::{span_in_bending, span_in_deflection};
use crate::members::section::Section;
use crate::plan::Member;
use crate::units::{Feet, Inches, Psf};

/// No table prints a longer span, in feet (IRC R502.3.1, R802.5.1).
pub const LONGEST_PRINTED: Feet = Feet(26.0);

/// Which design values a table was computed with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Values {
    /// 2015 IRC and later.
    Current,
    /// 2012 IRC and earlier.
    Legacy,
    /// 2018 IBC: southern pine of today, the others as before.
    Mixed,
}

impl Values {
    /// The row for a member, Fb and E of the table's time in it.
    #[must_use]
    pub fn row(self, species: Species, grade: Grade, member: Member) -> Option<Lumber> {
        let today = lumber(species, grade, member)?;
        if self == Self::Current || (self == Self::Mixed && species == Species::SouthernPine) {
            return Some(today);
        }
        let old = legacy(species, grade, member)?;
        let values = DesignValues { fb: old.fb, e: old.e, ..today.values };
        Some(Lumber { values, source: "span tables up to the 2012 IRC", fb_mark: old.mark, mark: old.mark, ..today })
    }
}

/// One cell of a span table, asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cell {
    /// Design values of this time.
    pub values: Values,
    /// Species group.
    pub species: Species,
    /// Grade.
    pub grade: Grade,
    /// Size.
    pub member: Member,
    /// Middle to middle.
    pub spacing: Inches,
    /// Live load or snow; deflection goes by it alone.
    pub live: Psf,
    /// Dead load.
    pub dead: Psf,
    /// Sets CD.
    pub combination: Combination,
    /// It may sag by this part of the span: 360 for `L / 360`.
    pub part: f64,
}

/// What ends a span.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Governs {
    /// It bends too hard.
    Bending,
    /// It sags too far.
    Deflection,
}

/// How far a member reaches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Longest {
    /// To the last digit.
    pub exact: Feet,
    /// By this.
    pub governs: Governs,
}

impl Longest {
    /// As a table prints it: whole inches, a half down. None over 26 ft, where nothing is printed, or 26 ft.
    #[must_use]
    pub fn printed(&self) -> Option<Inches> {
        (self.exact <= LONGEST_PRINTED).then(|| nearest(self.exact))
    }
}

/// To the nearest inch, a half down: the three cells of the tables that are a half to the last digit were read, and print the
/// inch below (217.5 twice, 277.5).
#[must_use]
pub fn nearest(span: Feet) -> Inches {
    // A hair for what a root rounds.
    Inches((Inches::from(span).0 - 0.5 - 1e-9).ceil())
}

impl Cell {
    /// The longest span; none for a size or grade outside the tables of design values.
    ///
    /// ```
    /// use joistwise_core::loads::Combination;
    /// use joistwise_core::plan::Member;
    /// use joistwise_core::strength::lumber::{Grade, Species};
    /// use joistwise_core::strength::spans::{Cell, Values};
    /// use joistwise_core::units::{Inches, Psf};
    /// let cell = Cell {
    ///     values: Values::Current,
    ///     species: Species::SprucePineFir,
    ///     grade: Grade::Two,
    ///     member: Member::sawn(2, 10),
    ///     spacing: Inches(16.0),
    ///     live: Psf(40.0),
    ///     dead: Psf(10.0),
    ///     combination: Combination::DeadLive,
    ///     part: 360.0,
    /// };
    /// assert_eq!(cell.longest().unwrap().printed(), Some(Inches(185.0)));
    /// ```
    #[must_use]
    pub fn longest(&self) -> Option<Longest> {
        let row = self.values.row(self.species, self.grade, self.member)?;
        // Joists and rafters lie in numbers under a deck that holds their tops.
        let conditions =
            Conditions { alike: 3, spacing: self.spacing, ..Conditions::dry(self.combination, Held::AllAlong) };
        let values = sawn(&row, self.member, &conditions)?.values;
        let section = Section::of(self.member)?;
        let width = Feet::from(self.spacing);
        let bends = span_in_bending(values.fb, section.modulus(), (self.live + self.dead) * width);
        let sags = span_in_deflection(values.e, section.inertia(), self.live * width, self.part);
        let governs = if bends < sags { Governs::Bending } else { Governs::Deflection };
        Some(Longest { exact: bends.min(sags), governs })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::members::joist::span_in_shear;
    use crate::statics::{Load, Piece};
    use crate::strength::check::{Demand, Rule, SagLimits, wood};

    fn floor(species: Species, grade: Grade, depth: u8, inches_apart: f64) -> Cell {
        Cell {
            values: Values::Current,
            species,
            grade,
            member: Member::sawn(2, depth),
            spacing: Inches(inches_apart),
            live: Psf(40.0),
            dead: Psf(20.0),
            combination: Combination::DeadLive,
            part: 360.0,
        }
    }

    /// w L / 2 less the load within a depth of the support; shear alone would reach this much further.
    #[test]
    fn shear_never_ends_a_span_of_the_floor_tables_in_feet() {
        let mut cells = 0;
        for (species, grade) in Species::ALL.iter().flat_map(|it| Grade::ALL.map(|grade| (*it, grade))) {
            for depth in [6, 8, 10, 12] {
                for apart in [12.0, 16.0, 19.2, 24.0] {
                    let cell = floor(species, grade, depth, apart);
                    let row = lumber(species, grade, cell.member).unwrap();
                    let section = Section::of(cell.member).unwrap();
                    let load = (cell.live + cell.dead) * Feet::from(cell.spacing);
                    let shears = span_in_shear(row.values.fv, section.area(), load) + Feet::from(section.depth) * 2.0;
                    assert!(cell.longest().unwrap().exact < shears, "{cell:?}");
                    cells += 1;
                }
            }
        }
        assert_eq!(cells, 256);
    }

    /// The checks of `check`, on the moments and sags of `statics`, at the span of the rule.
    #[test]
    fn a_joist_at_its_longest_span_is_used_up_to_a_billionth_by_what_governs() {
        for (depth, grade) in [(6, Grade::Three), (8, Grade::Two), (10, Grade::One), (12, Grade::SelectStructural)] {
            let cell = floor(Species::HemFir, grade, depth, 16.0);
            let reach = cell.longest().unwrap();
            let row = lumber(cell.species, grade, cell.member).unwrap();
            let dry = Conditions::dry(cell.combination, Held::AllAlong);
            let values = sawn(&row, cell.member, &Conditions { alike: 3, spacing: cell.spacing, ..dry }).unwrap();
            let section = Section::of(cell.member).unwrap();
            let under = |load: Psf| {
                let loads = [Load::uniform(Feet::ZERO, reach.exact, load * Feet::from(cell.spacing))];
                let piece = Piece::new(Feet::ZERO, reach.exact, &[Feet::ZERO, reach.exact]);
                piece.settle(&loads).unwrap().response(&loads, values.values.e, section.inertia()).overall
            };
            let (all, live) = (under(cell.live + cell.dead), under(cell.live));
            let demand = Demand {
                moment: all.sagging.value,
                shear: all.shear.value.abs(),
                live_sag: live.down.value,
                total_sag: all.down.value,
                span: reach.exact,
            };
            let limits = SagLimits { live: cell.part, total: 1.0 };
            let (rule, ratio) = wood(&demand, &[], &section, &values, limits).governing();
            assert!((ratio - 1.0).abs() < 1e-9, "{cell:?}: {ratio}");
            let same = matches!(
                (rule, reach.governs),
                (Rule::Bending, Governs::Bending) | (Rule::LiveSag, Governs::Deflection)
            );
            assert!(same, "{rule:?} {reach:?}");
        }
    }

    #[test]
    fn no_span_is_printed_past_26_ft_or_for_a_timber() {
        let mut cell = floor(Species::HemFir, Grade::SelectStructural, 10, 24.0);
        (cell.live, cell.dead, cell.part) = (Psf(10.0), Psf(5.0), 240.0);
        // 312.07 in: past the last inch that is printed.
        let reach = cell.longest().unwrap();
        assert!((reach.exact.0 * 12.0 - 312.07).abs() < 0.01 && reach.printed().is_none());
        cell.member = Member::sawn(6, 10);
        assert_eq!(cell.longest(), None);
    }

    /// 217.5^3 = 10,289,109.375 = 384 E I / (5 w n) to the last digit: spruce-pine-fir SS 2x8 at 16 in, 20 psf, L / 240.
    #[test]
    fn a_half_inch_goes_down_as_the_tables_print_it() {
        assert_eq!([10.5, 10.51, 11.0].map(|inches| nearest(Feet(inches / 12.0))), [10.0, 11.0, 11.0].map(Inches));
        let mut cell = floor(Species::SprucePineFir, Grade::SelectStructural, 8, 16.0);
        (cell.live, cell.dead, cell.part) = (Psf(20.0), Psf(10.0), 240.0);
        let reach = cell.longest().unwrap();
        assert!((reach.exact.0 * 12.0 - 217.5).abs() < 1e-9 && reach.governs == Governs::Deflection);
        assert_eq!(reach.printed(), Some(Inches(217.0)));
    }
}
