//! A rectangular section, its area, its modulus and its second moment of area.
//!
//! ```
//! use joistwise_core::members::section::Section;
//! use joistwise_core::units::{CubicInches, Inches};
//! let ply = Section { width: Inches(1.5), depth: Inches(9.25) };
//! assert_eq!(ply.plies(2).modulus(), CubicInches(42.78125));
//! ```

use crate::plan::{Material, Member};
use crate::units::{CubicInches, Inches, InchesToTheFourth, SquareInches};

/// A rectangular section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// The narrow face of a stud; across all plies of a pack.
    pub width: Inches,
    /// The wide face.
    pub depth: Inches,
}

impl Section {
    /// The dressed section of sawn lumber, all its plies; `None` for what is no sawn lumber.
    #[must_use]
    pub fn of(member: Member) -> Option<Self> {
        let width = member.width().filter(|_| member.material == Material::Sawn)?;
        Some(Self { width: Inches(width.inches()), depth: Inches(member.depth.inches()) }.plies(member.plies))
    }

    /// So many of it side by side.
    #[must_use]
    pub fn plies(self, count: u8) -> Self {
        Self { width: self.width * f64::from(count), ..self }
    }

    /// `b d`.
    #[must_use]
    pub fn area(&self) -> SquareInches {
        self.width * self.depth
    }

    /// `b d^2 / 6`.
    #[must_use]
    pub fn modulus(&self) -> CubicInches {
        self.area() * self.depth / 6.0
    }

    /// `b d^3 / 12`.
    #[must_use]
    pub fn inertia(&self) -> InchesToTheFourth {
        self.area() * self.depth * self.depth / 12.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_2x10_are_4_and_a_half_in_wide_and_9_and_a_quarter_deep() {
        let section = Section::of(Member::plies(3, 2, 10)).unwrap();
        assert_eq!(section, Section { width: Inches(4.5), depth: Inches(9.25) });
        assert!((section.inertia().0 - 4.5 * 9.25 * 9.25 * 9.25 / 12.0).abs() < 1e-9);
        assert_eq!(Section::of("LVL 11 7/8".parse().unwrap()), None);
        assert_eq!(Section::of(Member::default()), None);
    }
}
