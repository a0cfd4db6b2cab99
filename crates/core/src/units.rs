//! Quantities: whole ticks for what is entered, typed floats for what is derived.
//!
//! Only the products that physics allows are written. There is no `From<f64>`: a bare number has no unit.

use core::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

use serde::{Deserialize, Serialize};

/// A length on the plan in ticks of 12.5 micrometres: 1/16 in is 127 of them, 1 mm is 80, so both tapes read exactly.
///
/// In a file it is decimal inches with four decimals, read to the nearest tick.
///
/// ```
/// use joistwise_core::units::Ticks;
/// assert_eq!(Ticks::from_feet(12) + Ticks::from_sixteenths(8), Ticks::from_inches(144.5).unwrap());
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(try_from = "f64", into = "f64")]
#[cfg_attr(feature = "schema", schemars(with = "f64"))]
pub struct Ticks(i32);

impl Ticks {
    /// Ticks in an inch.
    pub const PER_INCH: i32 = 2032;
    /// Ticks in a foot.
    pub const PER_FOOT: i32 = 12 * Self::PER_INCH;
    /// No length.
    pub const ZERO: Self = Self(0);
    /// The longest length a plan may hold, 10,000 ft: sums of a few stay far from overflow.
    pub const LONGEST: Self = Self(10_000 * Self::PER_FOOT);

    /// A length of so many ticks.
    #[must_use]
    pub const fn new(ticks: i32) -> Self {
        Self(ticks)
    }

    /// Whole feet.
    #[must_use]
    pub const fn from_feet(feet: i32) -> Self {
        Self(feet * Self::PER_FOOT)
    }

    /// Sixteenths of an inch.
    #[must_use]
    pub const fn from_sixteenths(sixteenths: i32) -> Self {
        Self(sixteenths * 127)
    }

    /// Decimal inches to the nearest tick; `None` if not a number or past [`Ticks::LONGEST`].
    #[must_use]
    pub fn from_inches(inches: f64) -> Option<Self> {
        Self::nearest(inches * f64::from(Self::PER_INCH))
    }

    /// A derived length back on the plan, to the nearest tick; `None` if not a number or past [`Ticks::LONGEST`].
    #[must_use]
    pub fn from_decimal_feet(feet: Feet) -> Option<Self> {
        Self::nearest(feet.0 * f64::from(Self::PER_FOOT))
    }

    fn nearest(ticks: f64) -> Option<Self> {
        let ticks = ticks.round();
        #[expect(clippy::cast_possible_truncation, reason = "checked against LONGEST, which is far inside an i32")]
        (ticks.abs() <= f64::from(Self::LONGEST.0)).then_some(Self(ticks as i32))
    }

    /// The number of ticks.
    #[must_use]
    pub const fn get(self) -> i32 {
        self.0
    }

    /// As decimal inches.
    #[must_use]
    pub fn inches(self) -> f64 {
        f64::from(self.0) / f64::from(Self::PER_INCH)
    }

    /// As decimal feet.
    #[must_use]
    pub fn feet(self) -> Feet {
        Feet(f64::from(self.0) / f64::from(Self::PER_FOOT))
    }

    /// The length without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.abs())
    }
}

impl TryFrom<f64> for Ticks {
    type Error = NotALength;

    fn try_from(inches: f64) -> Result<Self, NotALength> {
        Self::from_inches(inches).ok_or(NotALength(inches))
    }
}

impl From<Ticks> for f64 {
    /// Decimal inches, four decimals: enough to find the tick again.
    fn from(length: Ticks) -> Self {
        (length.inches() * 10_000.0).round() / 10_000.0
    }
}

/// A number of inches that no plan can hold.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[error("{} inches is not a length a plan can hold (10,000 ft at most)", brief(*.0))]
pub struct NotALength(f64);

/// A number without a row of zeros.
fn brief(number: f64) -> String {
    if number.abs() < 1e12 { number.to_string() } else { format!("{number:e}") }
}

impl Add for Ticks {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Sub for Ticks {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Neg for Ticks {
    type Output = Self;
    fn neg(self) -> Self {
        Self(self.0.saturating_neg())
    }
}

macro_rules! quantities { ($($(#[$doc:meta])* $Name:ident)*) => { $(
    $(#[$doc])*
    #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize, Deserialize)]
    #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
    #[serde(transparent)]
    pub struct $Name(
        /// The number, in the unit the type names.
        pub f64,
    );

    impl $Name {
        /// None of it.
        pub const ZERO: Self = Self(0.0);

        /// Without its sign.
        #[must_use]
        pub fn abs(self) -> Self {
            Self(self.0.abs())
        }

        /// In order of size, for sorting.
        #[must_use]
        pub fn total_cmp(&self, other: &Self) -> core::cmp::Ordering {
            self.0.total_cmp(&other.0)
        }

        /// The smaller of two.
        #[must_use]
        pub fn min(self, other: Self) -> Self {
            Self(self.0.min(other.0))
        }

        /// The larger of two.
        #[must_use]
        pub fn max(self, other: Self) -> Self {
            Self(self.0.max(other.0))
        }
    }

    impl From<$Name> for f64 {
        /// The bare number: for printing, where its unit stands beside it.
        fn from(quantity: $Name) -> Self {
            quantity.0
        }
    }

    impl Add for $Name {
        type Output = Self;
        fn add(self, other: Self) -> Self {
            Self(self.0 + other.0)
        }
    }

    impl AddAssign for $Name {
        fn add_assign(&mut self, other: Self) {
            self.0 += other.0;
        }
    }

    impl Sub for $Name {
        type Output = Self;
        fn sub(self, other: Self) -> Self {
            Self(self.0 - other.0)
        }
    }

    impl SubAssign for $Name {
        fn sub_assign(&mut self, other: Self) {
            self.0 -= other.0;
        }
    }

    impl Neg for $Name {
        type Output = Self;
        fn neg(self) -> Self {
            Self(-self.0)
        }
    }

    impl Mul<f64> for $Name {
        type Output = Self;
        fn mul(self, factor: f64) -> Self {
            Self(self.0 * factor)
        }
    }

    impl Div<f64> for $Name {
        type Output = Self;
        fn div(self, divisor: f64) -> Self {
            Self(self.0 / divisor)
        }
    }

    impl Div for $Name {
        type Output = f64;
        fn div(self, other: Self) -> f64 {
            self.0 / other.0
        }
    }

    impl core::iter::Sum for $Name {
        fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
            all.fold(Self::ZERO, Add::add)
        }
    }
)* } }

quantities! {
    /// A derived length in decimal feet.
    Feet
    /// A derived length in decimal inches: deflections, sections, bearing lengths.
    Inches
    /// An area on plan in square feet.
    SquareFeet
    /// An area of a section or of a bearing in square inches.
    SquareInches
    /// A section modulus.
    CubicInches
    /// The slope of a roof against the level: for snow, whose tables go by the angle.
    Degrees
    /// Pounds in a cubic foot.
    Pcf
    /// Pounds on a square foot.
    Psf
    /// Pounds on a foot of line.
    Plf
    /// Pounds of force.
    Pounds
    /// A bending moment.
    FootPounds
    /// Pounds on a square inch: stress and modulus of elasticity.
    Psi
    /// Second moment of area in inches to the fourth.
    InchesToTheFourth
}

macro_rules! products { ($($A:ident * $B:ident = $C:ident)*) => { $(
    impl Mul<$B> for $A {
        type Output = $C;
        fn mul(self, other: $B) -> $C {
            $C(self.0 * other.0)
        }
    }

    impl Div<$B> for $C {
        type Output = $A;
        fn div(self, other: $B) -> $A {
            $A(self.0 / other.0)
        }
    }

    impl Div<$A> for $C {
        type Output = $B;
        fn div(self, other: $A) -> $B {
            $B(self.0 / other.0)
        }
    }
)* } }

products! {
    Pcf * Feet = Psf
    Psf * Feet = Plf
    Plf * Feet = Pounds
    Psf * SquareFeet = Pounds
    Pounds * Feet = FootPounds
    Psi * SquareInches = Pounds
    SquareInches * Inches = CubicInches
    CubicInches * Inches = InchesToTheFourth
}

impl Mul for Feet {
    type Output = SquareFeet;
    fn mul(self, other: Self) -> SquareFeet {
        SquareFeet(self.0 * other.0)
    }
}

impl Mul for Inches {
    type Output = SquareInches;
    fn mul(self, other: Self) -> SquareInches {
        SquareInches(self.0 * other.0)
    }
}

impl Mul<CubicInches> for Psi {
    type Output = FootPounds;
    fn mul(self, other: CubicInches) -> FootPounds {
        FootPounds(self.0 * other.0 / 12.0)
    }
}

impl Div<CubicInches> for FootPounds {
    type Output = Psi;
    fn div(self, modulus: CubicInches) -> Psi {
        Psi(self.0 * 12.0 / modulus.0)
    }
}

impl From<Inches> for Feet {
    fn from(length: Inches) -> Self {
        Self(length.0 / 12.0)
    }
}

impl From<Feet> for Inches {
    fn from(length: Feet) -> Self {
        Self(length.0 * 12.0)
    }
}

impl From<SquareFeet> for SquareInches {
    fn from(area: SquareFeet) -> Self {
        Self(area.0 * 144.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_tapes_read_exactly() {
        assert_eq!(Ticks::from_inches(1.0 / 16.0), Some(Ticks::new(127)));
        assert_eq!(Ticks::from_inches(1.0 / 25.4), Some(Ticks::new(80)));
        assert_eq!(Ticks::from_feet(12).feet(), Feet(12.0));
    }

    #[test]
    fn four_decimals_of_an_inch_find_the_tick_again() {
        for ticks in (-50_000..50_000).chain([24_384 * 40 + 1, 24_384 * 99 - 1]) {
            let length = Ticks::new(ticks);
            assert_eq!(Ticks::try_from(f64::from(length)), Ok(length));
        }
    }

    #[test]
    fn a_psf_times_a_tributary_width_is_a_line_load_in_plf() {
        assert_eq!(Psf(20.0) * Feet(12.0), Plf(240.0));
        assert!(Ticks::from_inches(f64::NAN).is_none());
    }

    #[test]
    fn a_stress_in_psi_on_a_section_in_inches_is_pounds_and_foot_pounds() {
        assert_eq!(Psi(425.0) * (Inches(1.5) * Inches(2.0)), Pounds(1275.0));
        assert_eq!(Psi(1000.0) * CubicInches(12.0), FootPounds(1000.0));
        assert_eq!(FootPounds(1000.0) / CubicInches(12.0), Psi(1000.0));
        assert_eq!(Inches(2.0) * Inches(3.0) * Inches(6.0) / 6.0, CubicInches(6.0));
        assert_eq!(SquareInches::from(Feet::from(Inches(18.0)) * Feet(1.0)), SquareInches(216.0));
    }
}
