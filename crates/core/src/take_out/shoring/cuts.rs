//! Notches and holes in joists on props: what is left of the joist there, in bending and in shear.
//!
//! The net section takes the moment that is there (NDS 3.1.2, MEMORY). In shear a notch counts as if it were on the side in
//! tension at an end: two thirds of F'v b dn, times (dn / d)^2 (NDS 3.4.3.2, MEMORY). A rim of wood over or under a hole
//! bends as one with the rest.

use super::Weakened;
use crate::geometry::{Frame, Spot, apart};
use crate::loads::Combination;
use crate::members::section::Section;
use crate::plan::{Cut, JoistCut};
use crate::statics::{Load, Piece};
use crate::strength::check::Rule;
use crate::take_out::Case;
use crate::take_out::member::{Loads, Ratio, Standing};
use crate::trace::{Carried, Node, load_within};
use crate::units::{Feet, Inches};

/// How far off a joist a cut may be noted and still be in it, as the trace has it.
const BESIDE: Feet = Feet(1.0);

/// The cuts in a piece of a joist, with where along it each is.
pub(super) fn cuts_in<'a>(case: &Case<'a>, piece: &Carried) -> Vec<(&'a JoistCut, Feet)> {
    let Node::Field(field) = piece.of else { return Vec::new() };
    let own = |cut: &&JoistCut| case.before.trace.cuts.iter().any(|it| it.cut == cut.id && it.field == Some(field));
    let nearest = |at: Spot| {
        let all = case.before.carried.iter().filter(|it| it.of == piece.of && it.level == piece.level);
        all.filter_map(|it| off(it, at)).fold(Feet(f64::INFINITY), Feet::min)
    };
    let cuts = case.level.cuts.iter().filter(own);
    cuts.filter_map(|cut| {
        let at = Spot::from(cut.at);
        let here = off(piece, at).filter(|it| *it <= BESIDE && *it <= nearest(at) + Feet(1e-6))?;
        let frame = Frame::from_to(piece.a, piece.b)?;
        let along = frame.local(at).0 - frame.local(piece.a).0;
        (here >= Feet::ZERO).then_some((cut, along))
    })
    .collect()
}

/// How far a place is off the line of a piece that reaches it.
fn off(piece: &Carried, at: Spot) -> Option<Feet> {
    let frame = Frame::from_to(piece.a, piece.b)?;
    let ((start, line), (t, s)) = (frame.local(piece.a), frame.local(at));
    let along = t - start;
    (along.0 > -1e-6 && along <= apart(piece.a, piece.b) + Feet(1e-6)).then(|| (s - line).abs())
}

/// What is left of a section: the depth that shears, its modulus, and whether a corner of a notch splits it.
struct Net {
    shears: Inches,
    modulus: f64,
    notch: bool,
}

fn net(section: &Section, cut: &Cut) -> Net {
    let (b, d) = (section.width.0, section.depth.0);
    match *cut {
        Cut::Notch { depth, .. } => {
            let left = (d - depth.inches()).max(0.0);
            Net { shears: Inches(left), modulus: b * left * left / 6.0, notch: true }
        }
        Cut::Hole { diameter, to_edge } => {
            let (near, hole) = (to_edge.inches().max(0.0), diameter.inches());
            let far = (d - near - hole).max(0.0);
            // Two rectangles about the middle of both.
            let area = near + far;
            let middle = if area > 0.0 { (near * near / 2.0 + far * (d - far / 2.0)) / area } else { d / 2.0 };
            let square = |it: f64| it * it;
            let inertia = near * square(near) / 12.0
                + near * square(middle - near / 2.0)
                + far * square(far) / 12.0
                + far * square(d - far / 2.0 - middle);
            Net { shears: Inches(area), modulus: b * inertia / middle.max(d - middle), notch: false }
        }
    }
}

/// The worst of the cuts of a piece under these loads on these supports; none where it has none or its size is not known.
pub(super) fn weakened(
    case: &Case<'_>,
    cuts: &[(&JoistCut, Feet)],
    standing: &Standing,
    (bar, loads): (&Piece, &Loads),
) -> Option<Weakened> {
    let (section, site) = (standing.section().ok()?, case.plan.site());
    let mut worst: Option<Weakened> = None;
    for combination in Combination::ALL {
        let values = standing.values(&section, combination)?.values;
        let by = combination.factors(site);
        let on = |load: &Load, times: f64| match *load {
            Load::Point { at, weight } => Load::Point { at, weight: weight * times },
            Load::Spread { from, to, start, end } => Load::Spread { from, to, start: start * times, end: end * times },
        };
        let all: Vec<Load> = loads
            .iter()
            .map(|(load, of)| {
                let times = of.dead * by.dead
                    + of.floor * by.floor
                    + of.attic * by.attic
                    + of.roof_live * by.roof_live
                    + of.snow * by.snow;
                on(load, times)
            })
            .collect();
        let Some(contact) = bar.held() else { continue };
        let pushes: Vec<(f64, f64)> =
            contact.supports().zip(contact.reactions(&all)).map(|(at, push)| (at.0, push.0)).collect();
        for (cut, at) in cuts {
            let left = net(&section, &cut.cut);
            let half = match cut.cut {
                Cut::Notch { length, .. } => length.feet() / 2.0,
                Cut::Hole { diameter, .. } => diameter.feet() / 2.0,
            };
            for place in [*at - half, *at, *at + half] {
                let (moment, shear) = there(place.0, &pushes, &all);
                let bends = moment.abs() * 12.0 / (values.fb.0 * left.modulus);
                let thin = if left.notch { left.shears.0 / section.depth.0 } else { 1.0 };
                let allowed = values.fv.0 * section.width.0 * left.shears.0 * (2.0 / 3.0) * thin * thin;
                let shears = shear.abs() / allowed;
                let (rule, ratio) = if shears > bends { (Rule::Shear, shears) } else { (Rule::Bending, bends) };
                // Nothing left of the joist is a failure, however little is asked of it.
                let ratio = if ratio.is_finite() { ratio } else { f64::MAX };
                if worst.is_none_or(|it| ratio > it.worst.ratio) {
                    worst = Some(Weakened { cut: cut.id, worst: Ratio { rule, ratio, under: combination } });
                }
            }
        }
    }
    worst
}

/// Moment and shear at a place: what lies and pushes left of it.
fn there(x: f64, pushes: &[(f64, f64)], loads: &[Load]) -> (f64, f64) {
    let (mut moment, mut shear) = (0.0, 0.0);
    for (at, push) in pushes.iter().filter(|it| it.0 < x) {
        moment += push * (x - at);
        shear += push;
    }
    for load in loads.iter().filter_map(|load| load_within(load, f64::NEG_INFINITY, x, false)) {
        match load {
            Load::Point { at, weight } => {
                moment -= weight.0 * (x - at.0);
                shear -= weight.0;
            }
            Load::Spread { from, to, start, end } => {
                // A rectangle of `start` and a triangle of the rest.
                let (run, more) = (to.0 - from.0, end.0 - start.0);
                moment -= start.0 * run * (x - (from.0 + to.0) / 2.0);
                moment -= more * run / 2.0 * (x - (from.0 + run * 2.0 / 3.0));
                shear -= (start.0 + end.0) / 2.0 * run;
            }
        }
    }
    (moment, shear)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{JoistEdge, NotchAt};
    use crate::units::{Plf, Ticks};

    /// 10 ft under 60 plf: at 4 ft M = 300 x 4 - 60 x 4 x 2 = 720 lb-ft, V = 300 - 240 = 60 lb. Under a line load that grows from 0 to
    /// 60: left push 100 lb; at 5 ft M = 500 - 30 x 5 / 2 x 5 / 3 = 375 lb-ft, V = 100 - 75 = 25 lb.
    #[test]
    fn moment_in_lb_ft_and_shear_in_lb_at_a_place_are_those_of_the_part_left_of_it() {
        let even = [Load::uniform(Feet(0.0), Feet(10.0), Plf(60.0))];
        let (moment, shear) = there(4.0, &[(0.0, 300.0), (10.0, 300.0)], &even);
        assert!((moment - 720.0).abs() < 1e-9 && (shear - 60.0).abs() < 1e-9);
        let grows = [Load::Spread { from: Feet(0.0), to: Feet(10.0), start: Plf(0.0), end: Plf(60.0) }];
        let (moment, shear) = there(5.0, &[(0.0, 100.0), (10.0, 200.0)], &grows);
        assert!((moment - 375.0).abs() < 1e-9 && (shear - 25.0).abs() < 1e-9);
    }

    /// 1.5 x 5.5 in. A notch of 2 3/4 in leaves 1.5 x 2.75^2 / 6 = 1.890625 in^3. A hole of 1.5 in, 2 in from each edge: 1.5 (5.5^3 -
    /// 1.5^3) / (6 x 5.5) = 7.409091 in^3.
    #[test]
    fn what_a_notch_and_a_hole_leave_of_a_2x6_in_cubic_inches() {
        let section = Section { width: Inches(1.5), depth: Inches(5.5) };
        let inches = |it: f64| Ticks::from_inches(it).unwrap();
        let notch = Cut::Notch {
            depth: inches(2.75),
            length: inches(2.0),
            place: NotchAt::default(),
            edge: JoistEdge::default(),
        };
        assert!((net(&section, &notch).modulus - 1.890_625).abs() < 1e-9);
        let hole = Cut::Hole { diameter: inches(1.5), to_edge: inches(2.0) };
        assert!((net(&section, &hole).modulus - 7.409_090_909).abs() < 1e-6);
    }
}
