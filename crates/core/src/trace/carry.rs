//! What gathers on one wall or beam: line load by place, point loads, claims on its role, what feeds it.

use super::strips::EPS;
use super::{Feed, LinePart, Node, Origin, PointLoad, Reason};
use crate::ids::BeamId;
use crate::loads::{LineLoads, Weights};
use crate::order::InOrder as _;
use crate::units::Feet;

/// The narrowest run a reaction is spread over, in feet: one and a half inches, the face of a joist.
const FACE: f64 = 1.5 / 12.0;

/// A run of a wall for which something is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Claim {
    pub(super) start: f64,
    pub(super) end: f64,
    /// What lands there; none if the reason speaks against.
    pub(super) origin: Option<Origin>,
    pub(super) reason: Reason,
}

/// What one joist or rafter means to one support.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sample {
    pub(super) from: Node,
    pub(super) origin: Origin,
    pub(super) start: f64,
    pub(super) end: f64,
    pub(super) left: f64,
    pub(super) right: f64,
    /// Reaction under one pound on each square foot.
    pub(super) reaction: f64,
    pub(super) through: Option<BeamId>,
}

/// A line load over a run: from, to, and how much.
type Part = (f64, f64, Node, LineLoads);

/// One wall or beam as it fills up.
#[derive(Clone, Debug, Default)]
pub(super) struct Carrier {
    pub(super) length: f64,
    line: Vec<Part>,
    pub(super) points: Vec<PointLoad>,
    pub(super) claims: Vec<Claim>,
    pub(super) samples: Vec<Sample>,
    pub(super) total: Weights,
}

impl Carrier {
    pub(super) fn new(length: f64) -> Self {
        Self { length, ..Self::default() }
    }

    /// Adds a weight over a run; a run too short for it is widened to the face of a joist.
    pub(super) fn spread(&mut self, from: f64, to: f64, source: Node, weights: Weights) {
        let (from, to) = self.run(from, to);
        self.line.push((from, to, source, weights.map(|pounds| pounds / Feet(to - from))));
        self.total += weights;
    }

    /// Adds a point load; those of one source at one place become one.
    pub(super) fn point(&mut self, at: f64, from: Node, weights: Weights) {
        let at = at.clamp(0.0, self.length);
        self.total += weights;
        match self.points.iter_mut().find(|it| it.from == from && (it.at.0 - at).abs() < 1e-6) {
            Some(it) => it.weights += weights,
            None => self.points.push(PointLoad { at: Feet(at), from, weights }),
        }
    }

    /// The run of it that what lies from one place to another takes: never less than the face of a joist.
    fn run(&self, from: f64, to: f64) -> (f64, f64) {
        let (from, to) = (from.min(to).clamp(0.0, self.length), from.max(to).clamp(0.0, self.length));
        let least = FACE.min(self.length);
        if to - from >= least {
            return (from, to);
        }
        let from = ((from + to - least) / 2.0).clamp(0.0, self.length - least);
        (from, from + least)
    }

    /// What is known of a run: over all that a load there is spread over, so that no load lies beside its claim.
    pub(super) fn claim(&mut self, start: f64, end: f64, origin: Option<Origin>, reason: Reason) {
        let (start, end) = self.run(start, end);
        if end - start > EPS {
            self.claims.push(Claim { start, end, origin, reason });
        }
    }

    /// What lies on a run of it, each load with what brings it; a point load at the end of the run belongs to the next.
    pub(super) fn over(&self, from: f64, to: f64) -> Vec<(Node, Weights)> {
        let mut over = Vec::new();
        for (start, end, source, loads) in &self.line {
            let (lo, hi) = (start.max(from), end.min(to));
            if hi - lo > EPS {
                over.push((*source, *loads * Feet(hi - lo)));
            }
        }
        let last = to > self.length - EPS;
        let here = |at: f64| at > from - EPS && (at < to - EPS || last);
        over.extend(self.points.iter().filter(|it| here(it.at.0)).map(|it| (it.from, it.weights)));
        over
    }

    /// Line load in pieces from end `a`, each place once, equal neighbours joined.
    pub(super) fn line(&self) -> Vec<LinePart> {
        // Joists come one after the other: what they bring is in order but for its way, and quick to sort by runs.
        let same = |a: &Part, b: &Part| a.0.total_cmp(&b.0).is_eq() && a.1.total_cmp(&b.1).is_eq();
        let runs: Vec<&[Part]> = self.line.chunk_by(same).collect();
        let ends = || runs.iter().filter_map(|run| run.first()).map(|part| (part.0, part.1));
        let mut stops: Vec<f64> = ends().map(|run| run.0).collect();
        stops.order_by(f64::total_cmp);
        let mut last: Vec<f64> = ends().map(|run| run.1).collect();
        last.order_by(f64::total_cmp);
        stops.append(&mut last);
        stops.order_by(f64::total_cmp);
        stops.dedup_by(|b, a| (*b - *a).abs() < EPS);
        // A part whose end is moved onto a stop a hair away keeps its weight.
        let stop = |at: f64| {
            let after = stops.partition_point(|stop| *stop <= at);
            after.checked_sub(1).and_then(|i| stops.get(i)).copied().unwrap_or(at)
        };
        let moved = ends().zip(&runs).map(|((from, to), run)| (stop(from), stop(to), *run));
        let mut runs: Vec<(f64, f64, &[Part])> = moved.filter(|run| run.1 > run.0).collect();
        runs.order_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
        let mut parts: Vec<Part> = Vec::with_capacity(self.line.len());
        for (start, end, run) in runs {
            parts.extend(run.iter().map(|(from, to, source, loads)| {
                let longer = (to - from) / (end - start);
                (start, end, *source, if (longer - 1.0).abs() > 1e-12 { *loads * longer } else { *loads })
            }));
        }
        let mut line: Vec<LinePart> = Vec::new();
        let mut next = 0;
        let mut over: Vec<&Part> = Vec::new();
        for pair in stops.windows(2) {
            let [start, end] = *pair else { continue };
            let middle = (start + end) / 2.0;
            while let Some(part) = parts.get(next).filter(|part| part.0 < middle) {
                over.push(part);
                next += 1;
            }
            over.retain(|part| part.1 > middle);
            if over.is_empty() {
                continue;
            }
            let loads = over.iter().fold(LineLoads::default(), |sum, part| sum + part.3);
            match line.last_mut() {
                Some(last) if (last.end.0 - start).abs() < EPS && alike(&last.loads, &loads) => last.end = Feet(end),
                _ => line.push(LinePart { start: Feet(start), end: Feet(end), loads }),
            }
        }
        line
    }

    /// The samples in runs of one source and one width.
    pub(super) fn feeds(&self) -> Vec<Feed> {
        // What leans on no length of it, past an end, feeds no run.
        let mut samples: Vec<Sample> = self.samples.iter().filter(|it| it.end - it.start > EPS).copied().collect();
        samples.order_by(|a, b| {
            let key = |it: &Sample| (it.from, it.through);
            key(a).cmp(&key(b)).then(a.start.total_cmp(&b.start)).then(a.left.total_cmp(&b.left))
        });
        let mut feeds: Vec<(Feed, f64)> = Vec::new();
        for sample in samples {
            match feeds.last_mut() {
                Some((feed, reaction))
                    if (feed.from, feed.through) == (sample.from, sample.through)
                        && sample.start <= feed.end.0 + 0.01
                        && (feed.left.0 - sample.left).abs() < 1e-6
                        && (feed.right.0 - sample.right).abs() < 1e-6 =>
                {
                    feed.end = feed.end.max(Feet(sample.end));
                    *reaction += sample.reaction;
                }
                _ => {
                    let feed = Feed {
                        from: sample.from,
                        origin: sample.origin,
                        start: Feet(sample.start),
                        end: Feet(sample.end),
                        left: Feet(sample.left),
                        right: Feet(sample.right),
                        effective: Feet::ZERO,
                        through: sample.through,
                    };
                    feeds.push((feed, sample.reaction));
                }
            }
        }
        feeds
            .into_iter()
            .map(|(feed, reaction)| {
                let run = feed.end.0 - feed.start.0;
                Feed { effective: Feet(reaction / run), ..feed }
            })
            .collect()
    }
}

/// Whether two line loads are equal but for rounding.
fn alike(a: &LineLoads, b: &LineLoads) -> bool {
    let difference = *a - *b;
    let largest = a.all().0.abs().max(1.0);
    crate::loads::Kind::ALL.iter().all(|kind| difference.get(*kind).0.abs() < 1e-9 * largest)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::loads::Kind;
    use crate::units::{Plf, Pounds};

    #[test]
    fn reactions_of_joists_side_by_side_become_one_line_load_in_plf() {
        let mut wall = Carrier::new(12.0);
        for joist in 0..9 {
            let start = f64::from(joist) * 16.0 / 12.0;
            wall.spread(start, start + 16.0 / 12.0, Node::Ground, Weights::only(Kind::Floor, Pounds(400.0)));
        }
        let line = wall.line();
        assert_eq!(line.len(), 1, "{line:?}");
        assert!((line[0].loads.floor.0 - 300.0).abs() < 1e-9 && line[0].end == Feet(12.0));
        wall.spread(3.0, 6.0, Node::Ground, Weights::only(Kind::Dead, Pounds(30.0)));
        let plf: Vec<Plf> = wall.line().iter().map(|part| part.loads.dead).collect();
        assert_eq!(plf, [Plf(0.0), Plf(10.0), Plf(0.0)]);
    }

    #[test]
    fn a_reaction_at_the_very_end_of_a_wall_stays_whole() {
        let mut wall = Carrier::new(10.0);
        wall.spread(10.0, 10.5, Node::Ground, Weights::only(Kind::Dead, Pounds(100.0)));
        let line = wall.line();
        let pounds: f64 = line.iter().map(|part| part.loads.dead.0 * (part.end.0 - part.start.0)).sum();
        assert!((pounds - 100.0).abs() < 1e-9);
    }
}
