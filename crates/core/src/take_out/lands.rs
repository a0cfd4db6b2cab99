//! What lands on the stretch now: line loads and points by kind, what brings them, and the ends of a simple beam over it.

use serde::Serialize;

use super::Case;
use crate::card::Figure;
use crate::loads::{Kind, LineLoads, Weights};
use crate::order::InOrder as _;
use crate::trace::{LinePart, Node, PointLoad};
use crate::units::Feet;

/// What lands on the stretch.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Lands {
    /// Line load, piece by piece, from end `a` of the line.
    pub line: Vec<LinePart>,
    /// Point loads, from end `a` of the line.
    pub points: Vec<PointLoad>,
    /// What brings it.
    pub from: Vec<(Node, Weights)>,
    /// All of it.
    pub all: Weights,
    /// The ends of a simple beam from one end of the stretch to the other.
    pub ends: SimpleEnds,
    /// In words.
    pub figures: Vec<Figure>,
}

/// End reactions by kind: together all that lands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct SimpleEnds {
    /// At the end nearer to end `a` of the line.
    pub at_from: Weights,
    /// At the other end.
    pub at_to: Weights,
}

/// By statics: of a load at `x` of a span `L` the far end gets `x / L`.
pub(super) fn simple_ends(line: &[LinePart], points: &[PointLoad], (from, to): (Feet, Feet)) -> SimpleEnds {
    let mut ends = SimpleEnds::default();
    let runs = line.iter().map(|part| ((part.start + part.end) / 2.0, part.loads * (part.end - part.start)));
    for (at, weights) in runs.chain(points.iter().map(|point| (point.at, point.weights))) {
        let share = ((at - from) / (to - from)).clamp(0.0, 1.0);
        ends.at_to += weights * share;
        ends.at_from += weights * (1.0 - share);
    }
    ends
}

/// Whether two line loads are the same but for rounding.
fn alike(one: &LineLoads, other: &LineLoads) -> bool {
    let most = one.all().0.abs().max(other.all().0.abs()).max(1.0);
    Kind::ALL.iter().all(|kind| (one.get(*kind) - other.get(*kind)).0.abs() < 1e-9 * most)
}

/// What lands, in figures and words.
pub(super) fn lands(case: &Case<'_>) -> Lands {
    let lands = landing(case);
    Lands { figures: case.words.lands(&lands.line, &lands.points, &lands.ends, case.length()), ..lands }
}

/// What lands, without words.
pub(super) fn landing(case: &Case<'_>) -> Lands {
    let (from, to) = (case.stretch.from, case.stretch.to);
    let trace = &case.before.trace;
    let carried = match case.line.node {
        Node::Beam(id) => trace.beam(id).map(|it| (&it.line, &it.points)),
        Node::Wall(id) => trace.wall(id).map(|it| (&it.line, &it.points)),
        _ => None,
    };
    let Some((parts, points)) = carried else { return Lands::default() };
    let mut line: Vec<LinePart> = Vec::new();
    for part in parts {
        let (start, end) = (part.start.max(from), part.end.min(to));
        match line.last_mut() {
            _ if end <= start => {}
            // One joist's share beside the like of it is one part.
            Some(last) if alike(&last.loads, &part.loads) && start <= last.end => last.end = end,
            _ => line.push(LinePart { start, end, loads: part.loads }),
        }
    }
    let hair = Feet(1e-6);
    let length = case.line.length();
    let here = |at: Feet| at > from - hair && (at < to - hair || (at < to + hair && to > length - hair));
    let mut points: Vec<PointLoad> = points.iter().filter(|point| here(point.at)).copied().collect();
    points.extend(case.on_posts());
    points.order_by(|a, b| a.at.0.total_cmp(&b.at.0));
    let runs = line.iter().map(|part| part.loads * (part.end - part.start));
    let all = runs.chain(points.iter().map(|point| point.weights)).fold(Weights::default(), |sum, one| sum + one);
    let ends = simple_ends(&line, &points, (from, to));
    let mut sources: Vec<(Node, Weights)> = Vec::new();
    for (node, weights) in &case.arrivals {
        match sources.iter_mut().find(|it| it.0 == *node) {
            Some(known) => known.1 += *weights,
            None => sources.push((*node, *weights)),
        }
    }
    Lands { line, points, from: sources, all, ends, figures: Vec::new() }
}
