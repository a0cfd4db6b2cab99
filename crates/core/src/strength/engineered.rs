//! Generic classes of laminated veneer lumber and glulam, and the sizes they come in.
//!
//! All but one catalogue page is MEMORY, and ranges at that: a beam to talk and budget with. Who builds takes the values of
//! the product bought. Dry use alone.

use crate::loads::{Mark, Sourced};
use crate::members::root::{power, root};
use crate::members::section::Section;
use crate::units::{Feet, Inches, Psi};

/// The lower and the upper end of what makers publish.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// What every maker reaches.
    pub low: Psi,
    /// What the best reaches.
    pub high: Psi,
}

/// An exponent as a whole number over a whole number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Exponent {
    /// Over the line.
    pub over: u32,
    /// Under it.
    pub under: u32,
}

impl Exponent {
    const fn one_over(under: u32) -> Self {
        Self { over: 1, under }
    }

    fn of(self, base: f64) -> f64 {
        power(root(base, self.under), self.over)
    }
}

/// A class of laminated veneer lumber, loaded on its edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lvl {
    /// The class by its apparent modulus, in millions of psi.
    pub name: &'static str,
    /// Bending at 12 in deep.
    pub fb: Range,
    /// Tension along the grain.
    pub ft: Range,
    /// Shear.
    pub fv: Range,
    /// Compression across the grain.
    pub fc_perp: Range,
    /// Compression along the grain.
    pub fc: Range,
    /// Apparent modulus, with what shear adds to a deflection in it.
    pub e: Range,
    /// For stability.
    pub e_min: Range,
    /// The depth factor on Fb is `(12 in / d)` to one of these: reports differ.
    pub depth_exponents: [Exponent; 2],
    /// Where repeated members help each other.
    pub repetitive: Option<f64>,
    /// Title, edition, table.
    pub source: &'static str,
    /// Whether it was read there.
    pub mark: Mark,
}

const fn range(low: f64, high: f64) -> Range {
    Range { low: Psi(low), high: Psi(high) }
}

const fn one(psi: f64) -> Range {
    range(psi, psi)
}

/// 1 / 7.35 and 1 / 9.
const REPORTS: [Exponent; 2] = [Exponent { over: 20, under: 147 }, Exponent::one_over(9)];
const RANGES: &str = "range of evaluation reports";

/// The classes.
pub const LVL: [Lvl; 3] = [
    Lvl {
        name: "LVL 1.9E",
        fb: range(2600.0, 2850.0),
        ft: range(1500.0, 1900.0),
        fv: range(285.0, 290.0),
        fc_perp: range(700.0, 750.0),
        fc: range(2350.0, 2750.0),
        e: one(1_900_000.0),
        e_min: one(966_000.0),
        depth_exponents: REPORTS,
        repetitive: None,
        source: RANGES,
        mark: Mark::Memory,
    },
    Lvl {
        name: "LVL 2.0E",
        fb: range(2600.0, 3100.0),
        ft: range(1750.0, 2100.0),
        fv: range(285.0, 290.0),
        fc_perp: range(700.0, 750.0),
        fc: range(2500.0, 3200.0),
        e: one(2_000_000.0),
        e_min: range(1_016_000.0, 1_060_000.0),
        depth_exponents: REPORTS,
        repetitive: None,
        source: RANGES,
        mark: Mark::Memory,
    },
    Lvl {
        name: "LVL 2.0E (apparent), one public catalogue page",
        fb: one(3100.0),
        ft: one(2100.0),
        fv: one(290.0),
        fc_perp: one(750.0),
        fc: one(3000.0),
        e: one(2_000_000.0),
        e_min: one(1_056_958.0),
        depth_exponents: [Exponent::one_over(8); 2],
        repetitive: Some(1.04),
        source: "one public catalogue page of allowable stresses, whole page",
        mark: Mark::Seen,
    },
];

/// Thickness of one ply (MEMORY).
pub const LVL_PLY: Inches = Inches(1.75);
/// Depths in stock (MEMORY).
pub const LVL_DEPTHS: [Inches; 8] =
    [Inches(7.25), Inches(9.25), Inches(9.5), Inches(11.25), Inches(11.875), Inches(14.0), Inches(16.0), Inches(18.0)];
/// Beyond this no figure is given here: reports go on to 24 in, and so do these classes (MEMORY).
const LVL_DEEPEST: Inches = Inches(24.0);
/// And none under this (MEMORY).
const LVL_LEAST: Inches = Inches(3.5);

impl Lvl {
    /// The depth factor on Fb (CV of NDS 8.3.6): of the exponents the one that gives less. None outside 3 1/2 to 24 in.
    #[must_use]
    pub fn depth_factor(&self, depth: Inches) -> Option<Sourced<f64>> {
        if depth < LVL_LEAST || depth > LVL_DEEPEST {
            return None;
        }
        let [one, other] = self.depth_exponents.map(|exponent| exponent.of(Inches(12.0) / depth));
        Some(Sourced { value: one.min(other), source: "NDS 8.3.6: by the report of the product", mark: self.mark })
    }
}

/// A class of glulam, loaded on its wide faces' edge (x axis).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Glulam {
    /// Stress class or combination.
    pub name: &'static str,
    /// Bending with the tension side of the beam in tension: a simple span.
    pub fb: Psi,
    /// Bending with the compression side in tension: over a support that it runs through, or turned over.
    pub fb_reversed: Psi,
    /// Tension along the grain.
    pub ft: Psi,
    /// Shear.
    pub fv: Psi,
    /// Compression across the grain.
    pub fc_perp: Psi,
    /// Compression along the grain.
    pub fc: Psi,
    /// Apparent modulus.
    pub e: Psi,
    /// For stability.
    pub e_min: Psi,
    /// The volume factor is a root of this degree.
    pub volume_root: u32,
    /// Title, edition, table.
    pub source: &'static str,
    /// Recalled.
    pub mark: Mark,
}

/// The classes; of southern pine none, whose volume factor is a root of degree 20.
pub const GLULAM: [Glulam; 2] = [
    Glulam {
        name: "Glulam stress class 24F-1.8E",
        fb: Psi(2400.0),
        fb_reversed: Psi(1450.0),
        ft: Psi(1100.0),
        fv: Psi(265.0),
        fc_perp: Psi(650.0),
        fc: Psi(1600.0),
        e: Psi(1_800_000.0),
        e_min: Psi(950_000.0),
        volume_root: 10,
        source: "NDS Supplement Table 5A",
        mark: Mark::Memory,
    },
    Glulam {
        name: "Glulam combination 24F-V4 DF/DF",
        fb: Psi(2400.0),
        fb_reversed: Psi(1850.0),
        ft: Psi(1100.0),
        fv: Psi(265.0),
        fc_perp: Psi(650.0),
        fc: Psi(1650.0),
        e: Psi(1_800_000.0),
        e_min: Psi(950_000.0),
        volume_root: 10,
        source: "NDS Supplement Table 5A expanded",
        mark: Mark::Memory,
    },
];

/// Widths in stock (MEMORY).
pub const GLULAM_WIDTHS: [Inches; 5] = [Inches(3.125), Inches(3.5), Inches(5.125), Inches(5.5), Inches(6.75)];
/// Thickness of one lamination, of which depths are made (MEMORY).
pub const LAMINATION: Inches = Inches(1.5);

impl Glulam {
    /// CV (NDS 5.3.6, MEMORY): `(21 ft / L)(12 in / d)(5.125 in / b)` to 1 / 10, never over 1. L is from one point of no
    /// moment to the next.
    #[must_use]
    pub fn volume_factor(&self, length: Feet, section: &Section) -> Sourced<f64> {
        let volume = (Feet(21.0) / length) * (Inches(12.0) / section.depth) * (Inches(5.125) / section.width);
        Sourced { value: root(volume, self.volume_root).min(1.0), source: "NDS 5.3.6", mark: Mark::Memory }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// (12 / 14)^(1 / 8) by logarithms: exp(-0.15415068 / 8) = 0.980916; of 1 / 7.35 and 1 / 9 the former is less.
    #[test]
    fn deep_lvl_bends_at_less_and_shallow_lvl_at_no_more_than_either_report_says() {
        let [ranged, _, page] = LVL;
        assert!((page.depth_factor(Inches(14.0)).unwrap().value - 0.980_916).abs() < 1e-6);
        let (deep, shallow) = (ranged.depth_factor(Inches(16.0)).unwrap(), ranged.depth_factor(Inches(7.25)).unwrap());
        // exp(-0.28768207 / 7.35) and exp(0.50390520 / 9).
        assert!((deep.value - 0.961_616).abs() < 1e-6, "{deep:?}");
        assert!((shallow.value - 1.057_586).abs() < 1e-6, "{shallow:?}");
        assert!((ranged.depth_factor(Inches(12.0)).unwrap().value - 1.0).abs() < 1e-12);
        assert_eq!(ranged.depth_factor(Inches(30.0)), None);
        assert_eq!(ranged.depth_factor(Inches(2.0)), None);
    }

    /// 5 1/8 x 18 in over 24 ft: (21 / 24 x 12 / 18 x 1)^(1 / 10) = 0.583333^0.1 = exp(-0.0538997).
    #[test]
    fn a_5_and_an_eighth_by_18_in_glulam_of_24_ft_loses_5_percent_to_its_volume() {
        let section = Section { width: Inches(5.125), depth: Inches(18.0) };
        let factor = GLULAM[0].volume_factor(Feet(24.0), &section).value;
        assert!((factor - 0.947_527).abs() < 1e-6, "{factor}");
        let small = Section { width: Inches(3.125), depth: Inches(9.0) };
        assert!((GLULAM[0].volume_factor(Feet(12.0), &small).value - 1.0).abs() < 1e-12);
    }
}
