//! Openings in a slope, for dormers and glass: the cut rafters hang on a header above and one below, both headers on the
//! trimmers, the doubled rafters at their sides.
//!
//! What stands over an opening weighs on plan as the roof round it. Glass and a shed dormer bring half of it to each
//! header, a gable dormer half to each trimmer, along the opening. The front wall of a dormer stands on the lower header,
//! its side walls, which run out to nothing at the upper one, on the trimmers.

use super::super::bar::Bearer;
use super::super::bar::{Burden, Meet, Seat, times};
use super::super::deck::spread;
use super::super::strips::{Cover, EPS, Length, Line};
use super::super::{LaidAs, Node, Rest, RibKind};
use super::Work;
use super::hand::rib_trace;
use super::shape::{Facet, Section};
use crate::geometry::{Frame, Spot};
use crate::loads::{Weights, wall_dead};
use crate::plan::{Joints, Make, Over, Roof, RoofForm, RoofFrame, Side};
use crate::statics::Load;
use crate::units::{Feet, Pounds, Ticks};

/// An opening keeps this far from ridge, eave and the edges of its roof, in feet.
const CLEAR: f64 = 0.5;

/// An opening in a facet's own view: along the rafters and across them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Dormer {
    pub(super) t: (f64, f64),
    pub(super) s: (f64, f64),
    over: Over,
    /// Height of the front wall over the slope, in feet.
    front: f64,
    /// Whether the slope is low where `t` is least.
    low_first: bool,
}

/// What a trimmer gets of a header or of what stands over an opening.
#[derive(Clone, Debug)]
pub(super) struct OnTrimmer {
    s: f64,
    /// Along the trimmer: one place, or a run with more on one end than on the other, for a weight of one.
    shape: Load,
    pub(super) weights: Weights,
    pub(super) spot: Spot,
}

impl Dormer {
    /// The openings of a roof that are framed.
    pub(super) fn all(
        roof: &Roof,
        frame: &Frame,
        section: &Section,
        region: &[Vec<Spot>],
        taken: &[Vec<Spot>],
    ) -> Vec<Self> {
        let rafters = matches!(roof.frame, RoofFrame::NotSeen | RoofFrame::RidgeBoard | RoofFrame::RidgeBeam);
        if !rafters || !matches!(roof.form, RoofForm::Gable | RoofForm::Shed) {
            return Vec::new();
        }
        let mut all: Vec<Self> = Vec::new();
        for opening in &roof.openings {
            let (a, b) = (frame.local(opening.from.into()), frame.local(opening.to.into()));
            let in_order = |a: Feet, b: Feet| (a.0.min(b.0), a.0.max(b.0));
            let (t, s) = (in_order(a.0, b.0), in_order(a.1, b.1));
            let (near, far) = (section.height(t.0), section.height(t.1));
            let front = if opening.over == Over::Glass { 0.0 } else { opening.front.feet().0 };
            let dormer = Self { t, s, over: opening.over, front, low_first: near < far };
            let crosses = |it: &Self| it.s.0 < s.1 + EPS && it.s.1 > s.0 - EPS;
            // Lines that a header or another opening would cut are no trimmers.
            let beside = |it: &Self| {
                !crosses(it) || ((it.s.0 - s.0).abs() < EPS && (it.s.1 - s.1).abs() < EPS && apart(it.t, t))
            };
            let one_slope = section.ridge.is_none_or(|at| at < t.0 - CLEAR || at > t.1 + CLEAR);
            let sloped = (near - far).abs() > EPS;
            if one_slope && sloped && dormer.is_within(frame, region, taken) && all.iter().all(beside) {
                all.push(dormer);
            }
        }
        all
    }

    /// Whether it lies clear within what the roof covers, and square to the rafters.
    fn is_within(&self, frame: &Frame, region: &[Vec<Spot>], taken: &[Vec<Spot>]) -> bool {
        let wide = self.t.1 - self.t.0 > CLEAR && self.s.1 - self.s.0 > CLEAR;
        let wider = Self { t: (self.t.0 - CLEAR, self.t.1 + CLEAR), s: (self.s.0 - CLEAR, self.s.1 + CLEAR), ..*self };
        let hole = [wider.corners(frame)];
        let left = Cover::of(frame, region, taken).area();
        let rest = Cover::of(frame, region, &[taken, &hole].concat()).area();
        let own = (wider.t.1 - wider.t.0) * (wider.s.1 - wider.s.0);
        wide && (left - rest - own).abs() < 1e-6
    }

    /// Its corners, the first two on the side where `t` is least.
    pub(super) fn corners(&self, frame: &Frame) -> Vec<Spot> {
        let spot = |t: f64, s: f64| frame.spot(Feet(t), Feet(s));
        vec![spot(self.t.0, self.s.0), spot(self.t.0, self.s.1), spot(self.t.1, self.s.1), spot(self.t.1, self.s.0)]
    }

    /// Its headers, from trimmer to trimmer.
    pub(super) fn headers(&self, frame: &Frame) -> [(Spot, Spot); 2] {
        let spot = |t: f64, s: f64| frame.spot(Feet(t), Feet(s));
        [self.t.0, self.t.1].map(|t| (spot(t, self.s.0), spot(t, self.s.1)))
    }

    fn sides(&self) -> (f64, f64) {
        (self.t.1 - self.t.0, self.s.1 - self.s.0)
    }

    /// One side wall: as long as the opening, a triangle.
    fn side_wall(&self) -> Weights {
        wall(self.front / 2.0 * self.sides().0)
    }

    fn front_wall(&self) -> Weights {
        wall(self.front * self.sides().1)
    }

    /// All its walls.
    pub(super) fn walls(&self) -> Weights {
        self.side_wall() * 2.0 + self.front_wall()
    }
}

/// A light outside wall of some square feet.
fn wall(square_feet: f64) -> Weights {
    let psf = wall_dead(Side::Outside, Make::Stud, Ticks::ZERO).value;
    Weights { dead: Pounds(psf.0 * square_feet), ..Weights::default() }
}

fn apart(one: (f64, f64), other: (f64, f64)) -> bool {
    one.1 < other.0 - CLEAR || other.1 < one.0 - CLEAR
}

/// What is on a length of a trimmer, taken from all that is on trimmers.
pub(super) fn taken_by(all: &mut Vec<OnTrimmer>, node: Node, line: &Line, length: &Length) -> Vec<Burden> {
    let on = |it: &OnTrimmer| {
        let (from, to) = match it.shape {
            Load::Point { at, .. } => (at.0, at.0),
            Load::Spread { from, to, .. } => (from.0, to.0),
        };
        line.trimmer && (it.s - line.s).abs() < 1e-6 && length.from < from + EPS && length.to > to - EPS
    };
    let burden = |it: &OnTrimmer| Burden { tag: node, shape: vec![it.shape], times: times(&it.weights, |it| it.0) };
    let burdens = all.iter().filter(|it| on(it)).map(burden).collect();
    all.retain(|it| !on(it));
    burdens
}

impl Work<'_, '_> {
    /// Solves the headers of a facet with what hangs on them and stands over them; gives back what comes to the trimmers.
    pub(super) fn headers(&mut self, facet: &Facet) -> Vec<OnTrimmer> {
        let mut ends: Vec<OnTrimmer> = Vec::new();
        for dormer in &facet.dormers {
            let (long, wide) = dormer.sides();
            let (at, rise) = ((dormer.t.0 + dormer.t.1) / 2.0, facet.section.parts());
            let rise = rise.iter().find(|part| at >= part.0 && at <= part.1).map_or(0.0, |part| part.2);
            let over = self.psf_at(rise).map(|psf| Pounds(psf.0 * long * wide / 2.0));
            let spot = |s: f64| facet.frame.spot(Feet(at), Feet(s));
            let (first, last) = if dormer.low_first { (2.0, 0.0) } else { (0.0, 2.0) };
            for s in [dormer.s.0, dormer.s.1] {
                let mut on = |weights: Weights, first: f64, last: f64| {
                    let shape = spread(dormer.t.0, dormer.t.1, first / long, last / long);
                    ends.push(OnTrimmer { s, shape, weights, spot: spot(s) });
                };
                if dormer.over == Over::GableDormer {
                    on(over, 1.0, 1.0);
                }
                if dormer.front > 0.0 {
                    on(dormer.side_wall(), first, last);
                }
            }
            for (t, (a, b)) in [dormer.t.0, dormer.t.1].into_iter().zip(dormer.headers(&facet.frame)) {
                let low = (t < at) == dormer.low_first;
                let front = if low { dormer.front_wall() } else { Weights::default() };
                let half = if dormer.over == Over::GableDormer { Weights::default() } else { over };
                let mine = |kind: RibKind, from: Spot, to: Spot| kind == RibKind::Header && from == a && to == b;
                let Some(rib) = self.ribs.all.iter_mut().find(|rib| mine(rib.kind, rib.a, rib.b)) else { continue };
                if (front + half).all().0 > 0.0 {
                    rib.carrier.spread(0.0, wide, self.node, front + half);
                }
                let seat = |at: f64| Seat { at, on: Bearer::Arch, along: at, meet: Meet::ByJoints };
                let (bar, outcome) = Self::solve(rib, self.node, vec![seat(0.0), seat(wide)], Joints::RunThrough);
                let mut trace = rib_trace(rib);
                let lost = outcome.lost_weight();
                self.lose_rib(self.node, lost, a);
                for ((seat, weights), s) in
                    bar.seats.iter().zip(Self::per_seat(&bar, &outcome)).zip([dormer.s.0, dormer.s.1])
                {
                    let shape = Load::Point { at: Feet(t), weight: Pounds(1.0) };
                    ends.push(OnTrimmer { s, shape, weights, spot: facet.frame.spot(Feet(t), Feet(s)) });
                    trace.rests.push(Rest { at: Feet(seat.at), on: self.node, weights });
                }
                self.laid(self.node, LaidAs::Header, &trace);
                self.trace.ribs.push(trace);
            }
        }
        ends
    }
}
