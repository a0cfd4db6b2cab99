//! The line that is studied: a wall's, or that of a beam on posts, with what of a wall it has.

use super::{AT_END, Away, Stretch};
use crate::geometry::{self, Frame, Spot};
use crate::ids::{BeamId, ElementId, FieldId, LevelId, PostId};
use crate::plan::{Element, Joints, Level, Plan, Point, Wall};
use crate::trace::{Laid, Node, Rest, Trace};
use crate::units::{Feet, Ticks};

/// How near to a beam's line a post stands under it, as the trace has it.
const UNDER: Feet = Feet(0.3);
/// An end this near to a post of the beam is at that post, and so is a new post: nobody sets two side by side.
pub(super) const BESIDE: Feet = Feet(1.0);
/// A study opens on no more than this.
const LIKELY: Feet = Feet(12.0);

/// Where the stretch lies.
#[derive(Clone, Copy, Debug)]
pub(super) struct Line<'a> {
    /// What stands there; a gap where a wall is gone and not put back yet.
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
                let back = level.walls.iter().rfind(|it| (it.a, it.b) == (a, b)).map(of);
                let (node, thickness, joints) = (Node::Gap, Ticks::ZERO, Joints::RunThrough);
                let bare = Self { node, a, b, thickness, joints, wall: None };
                Some((level, Self { wall: None, ..back.unwrap_or(bare) }))
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
        let posts = if let Node::Beam(_) = self.node { self.posts(level) } else { Vec::new() };
        let place = |at: Feet| {
            let off = |post: &Feet| (*post - at).abs();
            let nearest = posts.iter().map(|it| it.1).min_by(|one, other| off(one).0.total_cmp(&off(other).0));
            let at = nearest.filter(|post| off(post) < BESIDE).unwrap_or(at);
            Ticks::from_decimal_feet(at).map_or(at, Ticks::feet)
        };
        (from, to) = (place(from), place(to));
        from = if from < AT_END { Feet::ZERO } else { from };
        to = if length - to < AT_END { length } else { to };
        ((to - from).0 > AT_END.0).then_some((from, to))
    }

    /// The beams that lie in a wall and begin and end within a stretch of it.
    pub(super) fn headers(&self, level: &Level, (from, to): (Feet, Feet)) -> Vec<BeamId> {
        let (Node::Wall(_), Some(own)) = (self.node, Frame::between(self.a, self.b)) else { return Vec::new() };
        let ((start, line), reach) = (own.local(self.a.into()), UNDER.max(self.thickness.feet() / 2.0));
        let within = |at: Point| {
            let (along, across) = own.local(Spot::from(at));
            let along = along - start;
            (across - line).abs() < reach && along > from - UNDER && along < to + UNDER
        };
        level.beams.iter().filter(|it| within(it.a) && within(it.b)).map(|it| it.id).collect()
    }

    /// The posts under a beam that is the line, or those that stand in a wall, from its end `a`.
    pub(super) fn posts(&self, level: &Level) -> Vec<(PostId, Feet)> {
        let Some(own) = Frame::between(self.a, self.b) else { return Vec::new() };
        let reach = match self.node {
            Node::Beam(_) => UNDER,
            Node::Wall(_) => UNDER.max(self.thickness.feet() / 2.0),
            _ => return Vec::new(),
        };
        let (start, line) = own.local(self.a.into());
        let place = |at: Point| {
            let (along, across) = own.local(Spot::from(at));
            ((across - line).abs() < reach).then_some(along - start)
        };
        let all = level.posts.iter().filter_map(|post| Some((post.id, place(post.at)?)));
        all.filter(|it| it.1 > -UNDER && it.1 < self.length() + UNDER).collect()
    }
}

/// What is asked by taking out posts under a beam: the stretch from support to support about the outermost of them, all
/// between them gone; none where no beam rests on them, or one of them holds its end: that one cannot go.
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
    if first - from < BESIDE || to - last < BESIDE {
        return None;
    }
    let at_end = |it: Feet| beam.rests.iter().any(|rest| rest.at == it && !matches!(rest.on, Node::Post(_)));
    let from = if from < BESIDE && at_end(from) { Feet::ZERO } else { from };
    let to = if beam.length - to < BESIDE && at_end(to) { beam.length } else { to };
    Some(Stretch { set: drawn.set, ..Stretch::new(Away::Posts(beam.beam), from, to) })
}

/// What is asked by a beam under the joists of a field: a line square to them through a place, or half way along their longest
/// span.
#[must_use]
pub fn under_joists(plan: &Plan, trace: &Trace, field: FieldId, through: Option<Spot>) -> Option<Stretch> {
    let joists = || trace.members.iter().filter(|it| it.of == Node::Field(field) && it.bears.len() > 1);
    let longest = joists().max_by(|one, other| one.longest_span.0.total_cmp(&other.longest_span.0))?;
    let own = Frame::from_to(longest.a, longest.b)?;
    let spans = |joist: &Laid| -> Vec<(Feet, Feet)> {
        let bears: Vec<Feet> = joist.bears.iter().map(|it| own.local(*it).0).collect();
        let beside = bears.iter().zip(bears.iter().skip(1));
        beside.map(|(one, other)| (one.min(*other), one.max(*other))).collect()
    };
    let (from, to) = spans(longest).into_iter().max_by(|a, b| (a.1 - a.0).0.total_cmp(&(b.1 - b.0).0))?;
    let middle = through.map_or((from + to) / 2.0, |at| own.local(at).0);
    let crossed = joists().filter(|it| spans(it).iter().any(|span| span.0 < middle && middle < span.1));
    let across = crossed.map(|it| own.local(it.a).1);
    let (first, last) =
        across.fold((Feet(f64::INFINITY), Feet(f64::NEG_INFINITY)), |(a, b), it| (a.min(it), b.max(it)));
    let point = |at: Feet| {
        let at = own.spot(middle, at);
        Some(Point::new(Ticks::from_decimal_feet(at.x)?, Ticks::from_decimal_feet(at.y)?))
    };
    // From the west, or where it runs north, from the south.
    let (mut ends, length) = ([point(first)?, point(last)?], last - first);
    let [one, other] = ends;
    let (east, north) = ((other.x - one.x).get(), (other.y - one.y).get());
    let turned = if east.abs() > north.abs() { east < 0 } else { north < 0 };
    if turned {
        ends.reverse();
    }
    let [a, b] = ends;
    let whole = Stretch::new(Away::Nothing { level: longest.level, a, b }, Feet::ZERO, length);
    let from_first = through.map(|at| own.local(at).1 - first);
    let Some(at) = from_first.map(|at| if turned { length - at } else { at }) else { return Some(whole.likely(plan)) };
    Some(Stretch { from: (at - LIKELY / 2.0).max(Feet::ZERO), to: (at + LIKELY / 2.0).min(length), ..whole })
}

impl Stretch {
    /// Its level and the ends of its line; none for what the plan does not hold.
    #[must_use]
    pub fn line(&self, plan: &Plan) -> Option<(LevelId, Point, Point)> {
        Line::of(plan, self.away).map(|(level, line)| (level.id, line.a, line.b))
    }

    /// The part of it that a person would ask for first: between two posts, doors or crossing walls, the longest such part,
    /// and no more than 12 ft of its middle.
    #[must_use]
    pub fn likely(self, plan: &Plan) -> Self {
        let Some((level, a, b)) = self.line(plan) else { return self };
        let (Some(level), Some(own)) = (plan.level(level), Frame::between(a, b)) else { return self };
        let (start, line) = own.local(a.into());
        let mut stops = vec![(self.from, self.from), (self.to, self.to)];
        let place = |at: Point| {
            let (along, across) = own.local(at.into());
            (along - start, across - line)
        };
        stops.extend(level.posts.iter().map(|it| place(it.at)).filter(|it| it.1.abs() < BESIDE).map(|it| (it.0, it.0)));
        for wall in &level.walls {
            let ((at, off), (other_at, other_off)) = (place(wall.a), place(wall.b));
            let half = wall.thickness.feet();
            let crosses = (other_off - off).abs() > half && off.min(other_off) < half && off.max(other_off) > -half;
            if crosses {
                let at = at + (other_at - at) * (-off / (other_off - off)).clamp(0.0, 1.0);
                stops.push((at, at));
            }
        }
        if let Away::Wall(id) = self.away {
            let openings = level.openings_in(id).into_iter();
            stops.extend(openings.map(|it| (it.offset.feet(), (it.offset + it.width).feet())));
        }
        stops.retain(|it| it.1 >= self.from && it.0 <= self.to);
        let middle = (self.from + self.to) / 2.0;
        let off = |it: &(Feet, Feet)| ((it.0 + it.1) / 2.0 - middle).abs();
        let open = |at: Feet| stops.iter().all(|it| at <= it.0 || at >= it.1);
        let parts = stops.iter().map(|it| it.1).filter(|at| open(*at)).filter_map(|from| {
            let ends = stops.iter().map(|it| it.0).filter(|it| *it > from);
            Some((from, ends.reduce(Feet::min)?))
        });
        let better = |one: (Feet, Feet), other: (Feet, Feet)| {
            let longer = (other.1 - other.0) - (one.1 - one.0);
            let nearer = longer.abs() < AT_END && off(&other) < off(&one) - AT_END;
            if longer > AT_END || nearer { other } else { one }
        };
        let Some((from, to)) = parts.reduce(better).filter(|it| it.1 - it.0 > AT_END) else { return self };
        let (half, middle) = ((to - from).min(LIKELY) / 2.0, (from + to) / 2.0);
        Self { from: middle - half, to: middle + half, ..self }
    }
}
