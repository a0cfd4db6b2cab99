//! The line that is studied: a wall's, or that of a beam on posts, with what of a wall it has.

use super::{AT_END, Away, Stretch};
use crate::geometry::{self, Frame, Spot};
use crate::ids::{ElementId, PostId};
use crate::plan::{Element, Joints, Level, Plan, Point, Wall};
use crate::trace::{Node, Rest, Trace};
use crate::units::{Feet, Ticks};

/// How near to a beam's line a post stands under it, as the trace has it.
const UNDER: Feet = Feet(0.3);
/// An end this near to a post of the beam is at that post: nobody sets two side by side.
const BESIDE: Feet = Feet(1.0);

/// Where the stretch lies.
#[derive(Clone, Copy, Debug)]
pub(super) struct Line<'a> {
    /// What stands there.
    pub(super) node: Node,
    pub(super) a: Point,
    pub(super) b: Point,
    pub(super) thickness: Ticks,
    /// How what is over it meets it, where somebody looked here.
    pub(super) joints: Joints,
    /// The wall; none for a beam, nor for a wall that is gone already.
    pub(super) wall: Option<&'a Wall>,
}

impl<'a> Line<'a> {
    /// None for what the plan does not hold.
    pub(super) fn of(plan: &'a Plan, away: Away) -> Option<(&'a Level, Self)> {
        let of = |wall: &'a Wall| {
            let Wall { a, b, thickness, joints, .. } = *wall;
            Self { node: Node::Wall(wall.id), a, b, thickness, joints, wall: Some(wall) }
        };
        match away {
            Away::Wall(id) => plan.wall(id).map(|(level, wall)| (level, of(wall))),
            Away::Posts(id) => plan.levels().iter().find_map(|level| {
                let beam = level.beams.iter().find(|it| it.id == id)?;
                let (node, thickness, joints) = (Node::Beam(id), Ticks::ZERO, Joints::NotSeen);
                Some((level, Self { node, a: beam.a, b: beam.b, thickness, joints, wall: None }))
            }),
            Away::Nothing { level, a, b } => {
                let level = plan.level(level)?;
                let wall = level.walls.iter().rfind(|it| (it.a, it.b) == (a, b))?;
                Some((level, Self { wall: None, ..of(wall) }))
            }
        }
    }

    pub(super) fn length(&self) -> Feet {
        geometry::length(self.a, self.b)
    }

    /// The ends of a stretch brought within the line, to whole ticks; none if that leaves no length.
    pub(super) fn within(&self, level: &Level, from: Feet, to: Feet) -> Option<(Feet, Feet)> {
        let length = self.length();
        let (mut from, mut to) = (from.max(Feet::ZERO), to.min(length));
        for opening in self.wall.iter().flat_map(|wall| level.openings_in(wall.id)) {
            let (start, end) = (opening.offset.feet(), (opening.offset + opening.width).feet());
            if start < to && end > from {
                (from, to) = (from.min(start).max(Feet::ZERO), to.max(end).min(length));
            }
        }
        let posts = self.posts(level);
        let place = |at: Feet| {
            let beside = posts.iter().map(|it| it.1).filter(|it| (*it - at).abs() < BESIDE);
            let at = beside.fold(at, |best, it| if best == at || (it - at).abs() < (best - at).abs() { it } else { best });
            Ticks::from_decimal_feet(at).map_or(at, Ticks::feet)
        };
        (from, to) = (place(from), place(to));
        from = if from < AT_END { Feet::ZERO } else { from };
        to = if length - to < AT_END { length } else { to };
        ((to - from).0 > AT_END.0).then_some((from, to))
    }

    /// The posts under a beam that is the line, from its end `a`.
    pub(super) fn posts(&self, level: &Level) -> Vec<(PostId, Feet)> {
        let (Node::Beam(_), Some(own)) = (self.node, Frame::between(self.a, self.b)) else { return Vec::new() };
        let (start, line) = own.local(self.a.into());
        let place = |at: Point| {
            let (along, across) = own.local(Spot::from(at));
            ((across - line).abs() < UNDER).then_some(along - start)
        };
        let mut all: Vec<(PostId, Feet)> =
            level.posts.iter().filter_map(|post| Some((post.id, place(post.at)?))).collect();
        all.retain(|it| it.1 > -UNDER && it.1 < self.length() + UNDER);
        all.sort_by(|a, b| a.1.0.total_cmp(&b.1.0));
        all
    }
}

/// What is asked by taking out posts under a beam: the stretch from support to support about the outermost of them, all
/// between them gone; none where no beam rests on them.
#[must_use]
pub fn of_posts(plan: &Plan, trace: &Trace, posts: &[PostId]) -> Option<Stretch> {
    let ours = |rest: &&Rest| matches!(rest.on, Node::Post(id) if posts.contains(&id));
    let beam = trace.beams.iter().find(|it| it.rests.iter().any(|rest| ours(&rest)))?;
    let Some(Element::Beam(drawn)) = plan.element(ElementId::Beam(beam.beam)) else { return None };
    let places = || beam.rests.iter().filter(ours).map(|it| it.at);
    let (first, last) = (places().fold(beam.length, Feet::min), places().fold(Feet::ZERO, Feet::max));
    let stay = || beam.rests.iter().map(|it| it.at);
    let from = stay().filter(|at| *at < first).fold(Feet::ZERO, Feet::max);
    let to = stay().filter(|at| *at > last).fold(beam.length, Feet::min);
    let at_end = |it: Feet| beam.rests.iter().any(|rest| rest.at == it && !matches!(rest.on, Node::Post(_)));
    let from = if from < BESIDE && at_end(from) { Feet::ZERO } else { from };
    let to = if beam.length - to < BESIDE && at_end(to) { beam.length } else { to };
    Some(Stretch { set: drawn.set, ..Stretch::new(Away::Posts(beam.beam), from, to) })
}
