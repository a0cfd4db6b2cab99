//! A sag that was measured, over the span of what sags: `L / n`.

use serde::Serialize;

use crate::geometry::{Frame, Spot, apart};
use crate::ids::ElementId;
use crate::plan::{Observation, Plan, Saw};
use crate::trace::{LaidAs, Node, Trace};
use crate::units::{Feet, Inches};

/// A beam this near to the place is what sags, in feet; else the joist nearest to it, within its spacing.
const ON_BEAM: f64 = 0.5;
/// Joists farther off than this are not over the place, in feet: the widest usual spacing.
const ON_JOIST: f64 = 2.0;

/// How far something sagged.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Sagged {
    /// What.
    pub what: Node,
    /// By so much.
    pub by: Inches,
    /// Over its longest span.
    pub span: Feet,
    /// The span over the sag: 96 for `L / 96`.
    pub part: f64,
}

/// What a sag that was noted comes to; none for any other observation, for no sag at all, or where nothing is drawn that could sag.
#[must_use]
pub fn sagged(plan: &Plan, trace: &Trace, seen: &Observation) -> Option<Sagged> {
    let Saw::Sag { by } = seen.saw else { return None };
    let by = Inches(by.inches());
    let level = plan.level_of(ElementId::Observation(seen.id))?;
    let at = Spot::from(seen.at);
    let off = |a: Spot, b: Spot| {
        let frame = Frame::from_to(a, b)?;
        let ((start, line), (t, s)) = (frame.local(a), frame.local(at));
        let within = (t - start).0 > -ON_BEAM && (t - start - apart(a, b)).0 < ON_BEAM;
        within.then_some((s - line).abs().0)
    };
    let beams = level.beams.iter().filter_map(|beam| {
        let span = trace.beam(beam.id)?.longest_span;
        Some((off(beam.a.into(), beam.b.into())?, Node::Beam(beam.id), span)).filter(|it| it.0 < ON_BEAM)
    });
    let joists = trace.members.iter().filter(|it| it.level == level.id && it.laid_as != LaidAs::Header);
    let joists = joists.filter(|it| matches!(it.of, Node::Field(_)));
    let joists = joists.filter_map(|it| Some((off(it.a, it.b)?, it.of, it.longest_span))).filter(|it| it.0 < ON_JOIST);
    let nearest = |one: (f64, Node, Feet), other: (f64, Node, Feet)| if other.0 < one.0 { other } else { one };
    let (_, what, span) = beams.reduce(nearest).or_else(|| joists.reduce(nearest))?;
    (by.0 > 0.0 && span.0 > 0.0).then(|| Sagged { what, by, span, part: Inches::from(span) / by })
}
