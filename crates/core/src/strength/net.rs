//! What a notch or hole leaves of a rectangular section: for bending the net section (NDS 3.2.3), for shear the depth over a
//! notch with the part that splitting takes (NDS 3.4.3.2). MEMORY throughout.
//!
//! Nothing is added for round corners, and nothing taken off for knots beside the cut.

use crate::members::section::Section;
use crate::plan::{Cut, JoistEdge};
use crate::units::{CubicInches, Inches, SquareInches};

/// A hole nearer than this to an edge counts as a notch from that edge: too little is left beside it (ours; the code wants
/// holes 2 in off, IRC R502.8.1).
const SLIVER: Inches = Inches(2.0);

/// What is left of a section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Net {
    /// For bending.
    pub modulus: CubicInches,
    /// For shear: `2/3 F'v` times this may cross it.
    pub shear: SquareInches,
}

/// Which edge is pulled where the cut is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pulled {
    /// The lower one, as in a span.
    Bottom,
    /// The upper one, as over a support that a joist runs over.
    Top,
}

/// What is left where this is cut out; nothing at all of what is cut through.
///
/// ```
/// use joistwise_core::members::section::Section;
/// use joistwise_core::plan::{Cut, JoistEdge, NotchAt};
/// use joistwise_core::strength::net::{Pulled, net};
/// use joistwise_core::units::{Inches, Ticks};
/// let joist = Section { width: Inches(1.5), depth: Inches(5.5) };
/// let inches = |it: i32| Ticks::from_sixteenths(it * 16);
/// let notch = Cut::Notch { depth: inches(2), length: inches(4), place: NotchAt::Span, edge: JoistEdge::Bottom };
/// // 3.5 in are left: 1.5 x 12.25 / 6, and 1.5 x 3.5 x (3.5 / 5.5)^2.
/// let left = net(&joist, &notch, Pulled::Bottom);
/// assert!((left.modulus.0 - 3.0625).abs() < 1e-9 && (left.shear.0 - 2.1260).abs() < 1e-4);
/// ```
#[must_use]
pub fn net(section: &Section, cut: &Cut, pulled: Pulled) -> Net {
    match *cut {
        Cut::Notch { depth, edge, .. } => {
            let splits = matches!((edge, pulled), (JoistEdge::Bottom, Pulled::Bottom) | (JoistEdge::Top, Pulled::Top));
            notched(section, Inches(depth.inches()), splits)
        }
        // Nobody says to which edge it is near: that which is pulled.
        Cut::Hole { diameter, to_edge } if Inches(to_edge.inches()) < SLIVER => {
            notched(section, Inches((diameter + to_edge).inches()), true)
        }
        Cut::Hole { diameter, to_edge } => bored(section, Inches(diameter.inches()), Inches(to_edge.inches())),
    }
}

fn notched(section: &Section, deep: Inches, splits: bool) -> Net {
    let left = Section { depth: (section.depth - deep).max(Inches::ZERO), ..*section };
    let share = left.depth / section.depth;
    // NDS eq. 3.4-3 on the edge that is pulled; on the other the depth that is left, the heavier side of eq. 3.4-5.
    let shear = if splits { left.area() * (share * share) } else { left.area() };
    Net { modulus: left.modulus(), shear }
}

/// The second moment about the middle of what is left, over the farther edge.
fn bored(section: &Section, wide: Inches, to_edge: Inches) -> Net {
    let Section { width: Inches(b), depth: Inches(d) } = *section;
    let hole = wide.0.min(d);
    let left = d - hole;
    if left <= 0.0 {
        return Net { modulus: CubicInches(0.0), shear: SquareInches(0.0) };
    }
    let off = (d / 2.0 - to_edge.0 - hole / 2.0).max(0.0);
    let shift = hole * off / left;
    let inertia = b * (d * d * d - hole * hole * hole) / 12.0 - b * hole * off * off - b * left * shift * shift;
    let modulus = (inertia / (d / 2.0 + shift)).max(0.0);
    Net { modulus: CubicInches(modulus), shear: SquareInches(b * left) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::NotchAt;
    use crate::units::Ticks;

    const JOIST: Section = Section { width: Inches(1.5), depth: Inches(9.25) };

    fn inches(quarters: i32) -> Ticks {
        Ticks::from_sixteenths(quarters * 4)
    }

    /// 3 in in the middle of 9.25: (1.5 / 12) (9.25^3 - 27) / 4.625 = 20.66 in^3 of 21.39; 9.375 sq in of 13.875.
    #[test]
    fn a_3_in_hole_in_the_middle_takes_little_bending_and_a_third_of_shear() {
        let hole = Cut::Hole { diameter: inches(12), to_edge: Ticks::from_sixteenths(50) };
        let left = net(&JOIST, &hole, Pulled::Bottom);
        assert!((left.modulus.0 - 20.661_5).abs() < 1e-3, "{left:?}");
        assert!((left.shear.0 - 9.375).abs() < 1e-9);
    }

    /// Off the middle: to the edge 2 in, so 1.125 in off: shift 3 x 1.125 / 6.25 = 0.54 in; I = 95.557 - 4.5 x 1.265625 - 9.375 x
    /// 0.2916 = 87.128; over 5.165 in 16.869 in^3.
    #[test]
    fn the_same_hole_2_in_from_an_edge_takes_a_fifth_of_bending() {
        let hole = Cut::Hole { diameter: inches(12), to_edge: inches(8) };
        assert!((net(&JOIST, &hole, Pulled::Bottom).modulus.0 - 16.869).abs() < 1e-3);
    }

    /// 1 in from the edge it is a notch of 4 in: 1.5 x 5.25^2 / 6 = 6.891 in^3; 1.5 x 5.25 x (5.25 / 9.25)^2 = 2.537 sq in.
    #[test]
    fn a_hole_1_in_from_an_edge_counts_as_a_notch_of_4_in() {
        let hole = Cut::Hole { diameter: inches(12), to_edge: inches(4) };
        let left = net(&JOIST, &hole, Pulled::Bottom);
        assert!((left.modulus.0 - 6.890_6).abs() < 1e-3 && (left.shear.0 - 2.536_7).abs() < 1e-3);
    }

    #[test]
    fn a_notch_splits_the_edge_that_is_pulled_alone_and_one_through_leaves_nothing() {
        let notch = |quarters| Cut::Notch {
            depth: inches(quarters),
            length: inches(8),
            place: NotchAt::Span,
            edge: JoistEdge::Top,
        };
        let (pressed, pulled) = (net(&JOIST, &notch(8), Pulled::Bottom), net(&JOIST, &notch(8), Pulled::Top));
        assert!((pressed.shear.0 - 1.5 * 7.25).abs() < 1e-9 && pulled.shear < pressed.shear);
        assert!((pressed.modulus.0 - pulled.modulus.0).abs() < 1e-12);
        let through = net(&JOIST, &notch(40), Pulled::Top);
        assert!(through.modulus.0 <= 0.0 && through.shear.0 <= 0.0);
    }
}
