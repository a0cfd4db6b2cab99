//! Notches and holes in a piece that is checked: where they lie in it, and what the net section comes to there.

use super::member::{Asked, Checked, Ratio};
use crate::geometry::{Frame, Spot, apart};
use crate::members::section::Section;
use crate::plan::{Cut, Level, NotchAt};
use crate::statics::Load;
use crate::strength::adjust::Adjusted;
use crate::strength::check::Rule;
use crate::strength::net::{Pulled, net};
use crate::trace::{Carried, Laid, LaidAs, Node};
use crate::units::{Feet, FootPounds, Pounds};

/// How far off a joist a cut may be noted and still be in it, in feet, as in the trace.
const BESIDE: f64 = 1.0;
/// A hair for what a place in sixteenths has been rounded by.
const HAIR: f64 = 1e-6;

/// A notch or hole in a piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct CutAt {
    /// Its middle, from the start of the piece.
    pub(crate) at: Feet,
    /// What is cut out.
    pub(crate) cut: Cut,
}

/// The cuts of a level that are in this piece: each is in the joist nearest to it.
pub(crate) fn cuts_in(level: &Level, members: &[Laid], piece: &Carried) -> Vec<CutAt> {
    if level.cuts.is_empty() || !matches!(piece.of, Node::Field(_)) {
        return Vec::new();
    }
    let off = |a: Spot, b: Spot, at: Spot| {
        let frame = Frame::from_to(a, b)?;
        let ((start, line), (t, s)) = (frame.local(a), frame.local(at));
        let (t, off) = (t - start, (s - line).abs().0);
        (off <= BESIDE + HAIR && t.0 >= -HAIR && t.0 <= apart(a, b).0 + HAIR).then_some((t, off))
    };
    let joists = || {
        let of_level = members.iter().filter(|it| it.level == level.id && matches!(it.of, Node::Field(_)));
        of_level.filter(|it| matches!(it.laid_as, LaidAs::Joist | LaidAs::Tail | LaidAs::Trimmer))
    };
    let here = level.cuts.iter().filter_map(|cut| {
        let spot = Spot::from(cut.at);
        let (at, own) = off(piece.a, piece.b, spot)?;
        let nearest = joists().filter_map(|it| off(it.a, it.b, spot)).map(|it| it.1).fold(own, f64::min);
        (own <= nearest + HAIR).then_some(CutAt { at, cut: cut.cut })
    });
    here.collect()
}

impl CutAt {
    /// Where it is checked: its middle and both ends, and the support that a notch at an end lies over.
    pub(super) fn places(&self, supports: &[Feet], length: Feet) -> Vec<Feet> {
        let (long, end) = match self.cut {
            Cut::Notch { length, place, .. } => (length, place == NotchAt::End),
            Cut::Hole { diameter, .. } => (diameter, false),
        };
        let half = long.feet() / 2.0;
        let mut all = vec![self.at - half, self.at, self.at + half];
        let near =
            supports.iter().copied().reduce(|a, b| if (b - self.at).abs() < (a - self.at).abs() { b } else { a });
        all.extend(near.filter(|_| end));
        all.iter().map(|at| at.max(Feet::ZERO).min(length)).collect()
    }
}

/// Shear and moment at a place, by what pushes and weighs to its left; of the shears on both sides of it the greater.
pub(super) fn at(place: Feet, supports: &[Feet], reactions: &[Pounds], loads: &[Load]) -> (Pounds, FootPounds) {
    let (mut before, mut after, mut moment) = (0.0, 0.0, 0.0);
    let mut point = |x: f64, up: f64| {
        let arm = place.0 - x;
        if arm > HAIR {
            before += up;
            moment += up * arm;
        }
        if arm > -HAIR {
            after += up;
        }
    };
    for (x, up) in supports.iter().zip(reactions) {
        point(x.0, up.0);
    }
    for load in loads {
        if let Load::Point { at, weight } = *load {
            point(at.0, -weight.0);
        }
    }
    for load in loads {
        let Load::Spread { from, to, start, end } = *load else { continue };
        let (whole, part) = ((to - from).0, (place.min(to) - from).0);
        if whole <= 0.0 || part <= 0.0 {
            continue;
        }
        let (first, more) = (start.0, (end.0 - start.0) * part / whole);
        let arm = (place - from).0;
        let weight = (first + more / 2.0) * part;
        before -= weight;
        after -= weight;
        moment -= first * part * (arm - part / 2.0) + more * part / 2.0 * (arm - part * 2.0 / 3.0);
    }
    (Pounds(if f64::abs(before) > f64::abs(after) { before } else { after }), FootPounds(moment))
}

/// A piece as checked whole, with the net section at each of its cuts: each cut and at how many places it is checked, in the
/// order of the places that `asked` was solved for.
pub(super) fn with_cuts(
    mut whole: Checked,
    cuts: &[(Cut, usize)],
    asked: &[Asked],
    section: &Section,
    values: impl Fn(&Asked) -> Option<Adjusted>,
) -> Option<Checked> {
    for one in asked {
        let adjusted = values(one)?.values;
        let mut places = one.at.iter();
        for (cut, count) in cuts {
            for (shear, moment) in places.by_ref().take(*count) {
                let pulled = if moment.0 < 0.0 { Pulled::Top } else { Pulled::Bottom };
                let left = net(section, cut, pulled);
                let bends = share(moment.0.abs() * 12.0, adjusted.fb.0 * left.modulus.0);
                let shears = share(shear.0.abs(), adjusted.fv.0 * left.shear.0 * 2.0 / 3.0);
                let under = one.combination;
                whole.bending = worse(whole.bending, Ratio { rule: Rule::NetBending, ratio: bends, under });
                whole.shearing = worse(whole.shearing, Ratio { rule: Rule::NetShear, ratio: shears, under });
            }
        }
    }
    Some(whole)
}

/// Over nothing that is left any load is too much.
fn share(asked: f64, carries: f64) -> f64 {
    if carries > 0.0 { asked / carries } else { f64::INFINITY }
}

fn worse(one: Ratio, other: Ratio) -> Ratio {
    if other.ratio > one.ratio || other.ratio.is_nan() { other } else { one }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::statics::Piece;
    use crate::units::Plf;

    /// 12 ft under 100 plf: at 3 ft V = 600 - 300 = 300 lb, M = 1800 - 450 = 1350 lb-ft; at the support the whole 600 lb.
    #[test]
    fn shear_and_moment_at_3_ft_of_12_are_300_lb_and_1350_lb_ft() {
        let loads = [Load::uniform(Feet::ZERO, Feet(12.0), Plf(100.0))];
        let supports = [Feet::ZERO, Feet(12.0)];
        let piece = Piece::new(Feet::ZERO, Feet(12.0), &supports);
        let reactions = piece.settle(&loads).unwrap().reactions(&loads);
        let (shear, moment) = at(Feet(3.0), &supports, &reactions, &loads);
        assert!((shear.0 - 300.0).abs() < 1e-9 && (moment.0 - 1350.0).abs() < 1e-9);
        assert!((at(Feet::ZERO, &supports, &reactions, &loads).0.0 - 600.0).abs() < 1e-9);
        // A triangle from 0 to 120 plf over 6 ft, one support at its start: at 6 ft -360 lb and -360 x 2 lb-ft besides the push.
        let ramp = [Load::Spread { from: Feet::ZERO, to: Feet(6.0), start: Plf(0.0), end: Plf(120.0) }];
        let (shear, moment) = at(Feet(6.0), &[Feet::ZERO], &[Pounds(0.0)], &ramp);
        assert!((shear.0 + 360.0).abs() < 1e-9 && (moment.0 + 720.0).abs() < 1e-9);
    }
}
