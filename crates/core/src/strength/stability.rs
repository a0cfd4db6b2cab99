//! Beam stability, CL: a deep beam whose top is not held turns over sideways before it breaks (NDS 3.3.3).

use crate::members::column::stability_as_root;
use crate::members::section::Section;
use crate::units::{Inches, Psi};

/// The edge in compression: how it is held sideways. Ends are held at both supports in any case.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Held {
    /// By a deck all along it.
    AllAlong,
    /// At places this far apart, which may be the supports alone.
    Every(Inches),
}

/// CL and what it comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BeamStability {
    /// le.
    pub effective: Inches,
    /// RB; 0 where nothing can turn.
    pub slenderness: f64,
    /// FbE.
    pub buckling: Psi,
    /// CL.
    pub factor: f64,
}

/// FbE is this times `E'min / RB^2` (NDS 3.3.3.8, MEMORY).
pub const KBE: f64 = 1.2;
/// RB may be no larger (NDS 3.3.3.7, MEMORY).
pub const MOST_SLENDER: f64 = 50.0;
/// c of the formula (NDS eq. 3.3-6, MEMORY).
const C: f64 = 0.95;

/// le for any load on a single span or a cantilever, the heavier side (NDS Table 3.3.3, footnote 1, MEMORY).
#[must_use]
pub fn effective_length(unbraced: Inches, depth: Inches) -> Inches {
    let ratio = unbraced / depth;
    if ratio < 7.0 {
        unbraced * 2.06
    } else if ratio <= 14.3 {
        unbraced * 1.63 + depth * 3.0
    } else {
        unbraced * 1.84
    }
}

/// CL for `fb_star`, Fb with every factor but CL, CV and Cfu, and E'min. None where the beam is too slender: RB over 50.
///
/// Plies count as one width: who asks knows them to be nailed or bolted to each other.
///
/// ```
/// use joistwise_core::members::section::Section;
/// use joistwise_core::strength::stability::{Held, beam_stability};
/// use joistwise_core::units::{Inches, Psi};
/// let section = Section { width: Inches(1.5), depth: Inches(9.25) };
/// let held = beam_stability(Psi(1000.0), Psi(580_000.0), &section, Held::AllAlong).unwrap();
/// assert_eq!(held.factor, 1.0);
/// ```
#[must_use]
pub fn beam_stability(fb_star: Psi, e_min: Psi, section: &Section, held: Held) -> Option<BeamStability> {
    let unbraced = match held {
        Held::Every(length) if section.depth > section.width => length,
        _ => {
            let buckling = Psi(f64::INFINITY);
            return Some(BeamStability { effective: Inches::ZERO, slenderness: 0.0, buckling, factor: 1.0 });
        }
    };
    let effective = effective_length(unbraced, section.depth);
    let squared = effective * section.depth / (section.width * section.width);
    let buckling = e_min * KBE / squared;
    let factor = stability_as_root(buckling / fb_star, C);
    let slenderness = squared.sqrt();
    (slenderness <= MOST_SLENDER).then_some(BeamStability { effective, slenderness, buckling, factor })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 2x10, 10 ft unheld: lu/d = 12.97, le = 1.63 x 120 + 27.75 = 223.35 in; RB^2 = 223.35 x 9.25 / 2.25 = 918.22;
    /// FbE = 1.2 x 580,000 / 918.22 = 757.99; over 1000: a = 0.75799; (1 + a) / 1.9 = 0.925256;
    /// CL = 0.925256 - sqrt(0.856099 - 0.797883) = 0.683976.
    #[test]
    fn a_2x10_unheld_over_10_ft_keeps_two_thirds_of_its_bending() {
        let section = Section { width: Inches(1.5), depth: Inches(9.25) };
        let got = beam_stability(Psi(1000.0), Psi(580_000.0), &section, Held::Every(Inches(120.0))).unwrap();
        assert!((got.effective.0 - 223.35).abs() < 1e-9);
        assert!((got.buckling.0 - 757.99).abs() < 0.01, "{got:?}");
        assert!((got.factor - 0.683_98).abs() < 1e-4, "{got:?}");
    }

    #[test]
    fn a_square_beam_cannot_turn_and_one_over_rb_50_is_not_answered() {
        let square = Section { width: Inches(3.5), depth: Inches(3.5) };
        let long = Held::Every(Inches(400.0));
        assert!((beam_stability(Psi(1e3), Psi(5e5), &square, long).unwrap().factor - 1.0).abs() < 1e-12);
        let thin = Section { width: Inches(1.5), depth: Inches(11.25) };
        assert_eq!(beam_stability(Psi(1e3), Psi(5e5), &thin, Held::Every(Inches(300.0))), None);
    }

    #[test]
    fn shorter_lengths_between_braces_never_weaken_in_inches() {
        let section = Section { width: Inches(3.0), depth: Inches(11.25) };
        let factor = |inches: i32| {
            let held = Held::Every(Inches(f64::from(inches)));
            beam_stability(Psi(1000.0), Psi(510_000.0), &section, held).unwrap().factor
        };
        for inches in 1..300 {
            let (short, long) = (factor(inches), factor(inches + 1));
            // The table's own steps at lu/d of 7 and 14.3 are under one part in a hundred.
            assert!(long <= short * 1.01 && short <= 1.0, "{inches} in: {short} and {long}");
        }
    }
}
