//! Beams of one level: found on what they rest on, solved in the order in which they lean on each other.

use petgraph::algo::tarjan_scc;
use petgraph::graph::{DiGraph, NodeIndex};

use super::around::extent;
use super::bar::{Bar, Bearer, Bed, Burden, Meet, Outcome, Place, Seat, times};
use super::carry::{Claim, Sample};
use super::ends::{End, OpenEnd, STICKS_OUT};
use super::probe::Carried;
use super::seats::{Beams, Seats, Use};
use super::storey::Storey;
use super::strips::EPS;
use super::{BeamTrace, Node, Problem, Reason, Rest};
use crate::geometry::{Frame, Spot};
use crate::loads::Weights;
use crate::order::InOrder as _;
use crate::plan::{Beam, Set, WallEnd};
use crate::statics::Load;
use crate::units::{Feet, Pounds};

/// How near its end a beam still meets another with its end, in feet.
const AT_END: f64 = 0.35 + EPS;
/// A seat this near a bed is part of it, in feet.
const BESIDE_BED: f64 = 0.1 + EPS;

/// Beams of houses commonly span less; past it a beam is a matter of design (common practice).
const COMMON_BEAMS: Feet = Feet(30.0);

/// Solves all beams of a level.
pub(super) fn beams(storey: &mut Storey<'_>) -> Vec<BeamTrace> {
    let bars: Vec<(f64, Bar)> = storey.level.beams.iter().enumerate().map(|(i, it)| bar(storey, i, it)).collect();
    let mut graph: DiGraph<usize, ()> = DiGraph::new();
    let nodes: Vec<NodeIndex> = (0..bars.len()).map(|i| graph.add_node(i)).collect();
    for (i, (_, bar)) in bars.iter().enumerate() {
        for seat in &bar.seats {
            if let (Bearer::Beam(j), Some(a)) = (seat.on, nodes.get(i))
                && let Some(b) = nodes.get(j)
            {
                graph.update_edge(*a, *b, ());
            }
        }
    }
    let mut traces = Vec::new();
    // Tarjan gives first what others lean on; a beam is solved before what it leans on.
    for ring in tarjan_scc(&graph).into_iter().rev() {
        let mut members: Vec<usize> = ring.iter().filter_map(|node| graph.node_weight(*node)).copied().collect();
        members.order();
        let looped = members.len() > 1;
        if looped {
            let ids = members.iter().filter_map(|i| storey.level.beams.get(*i)).map(|beam| beam.id).collect();
            let total =
                members.iter().filter_map(|i| storey.beams.get(*i)).fold(Weights::default(), |s, c| s + c.total);
            if let Some(first) = members.first().and_then(|i| storey.level.beams.get(*i)) {
                storey.find(Spot::from(first.a), Problem::BeamLoop { beams: ids }, Some(total));
            }
        }
        for i in members {
            if let Some((start, bar)) = bars.get(i) {
                traces.extend(solve(storey, i, *start, bar, looped));
            }
        }
    }
    traces.order_by_key(|trace| trace.beam);
    traces
}

/// A beam with all that it rests on; the place of its end `a` along its own frame comes with it.
fn bar(storey: &Storey<'_>, number: usize, beam: &Beam) -> (f64, Bar) {
    let empty = Bar { from: 0.0, to: 0.0, seats: Vec::new(), beds: Vec::new(), joints: beam.joints };
    let Some(frame) = Frame::between(beam.a, beam.b) else { return (0.0, empty) };
    let (start, s) = frame.local(Spot::from(beam.a));
    let (from, s) = (start.0, s.0);
    let to = from + crate::geometry::length(beam.a, beam.b).0;
    let within = extent([beam.a.into(), beam.b.into()]);
    let all = Seats::of(storey.around, &frame, Use::Joists, &within);
    let others = all.beams(Beams::Left);
    let beds: Vec<Bed> = others.under(s, from, to);
    // Its joints are its own: what was seen of the joists over a wall says nothing of a beam there.
    let own = |seat: Seat| Seat { meet: Meet::ByJoints, ..seat };
    let mut seats: Vec<Seat> = others.crossed(s, from, to).into_iter().map(own).collect();
    for seat in all.beams(Beams::Only).crossed(s, from, to) {
        let Bearer::Beam(other) = seat.on else { continue };
        let Some(below) = storey.level.beams.get(other).filter(|_| other != number) else { continue };
        let end_of = |at: f64, from: f64, to: f64| (at - from).abs() < AT_END || (at - to).abs() < AT_END;
        let mine = end_of(seat.at, from, to);
        let its = end_of(seat.along, 0.0, crate::geometry::length(below.a, below.b).0);
        let rests = match (mine, its) {
            (true, false) => true,
            (false, true) | (true, true) => false,
            (false, false) => beam.set == Set::Flush && below.set == Set::Dropped,
        };
        if rests && seats.iter().all(|it| (it.at - seat.at).abs() > AT_END) {
            seats.push(own(seat));
        }
    }
    for end in others.ends_on(s, from, to) {
        if seats.iter().all(|it| (it.at - end.at).abs() > AT_END) {
            seats.push(end);
        }
    }
    for post in others.posts_under(s, from, to) {
        seats.retain(|seat| (seat.at - post.at).abs() > AT_END);
        seats.push(post);
    }
    seats.retain(|seat| beds.iter().all(|bed| seat.at < bed.from - BESIDE_BED || seat.at > bed.to + BESIDE_BED));
    seats.order_by(|a, b| a.at.total_cmp(&b.at));
    (from, Bar { from, to, seats, beds, joints: beam.joints })
}

fn solve(storey: &mut Storey<'_>, number: usize, start: f64, bar: &Bar, looped: bool) -> Option<BeamTrace> {
    let beam = storey.level.beams.get(number)?.clone();
    let node = Node::Beam(beam.id);
    let carrier = storey.beams.get(number)?.clone();
    let line = carrier.line();
    let mut burdens: Vec<Burden> = Vec::with_capacity(line.len() + carrier.points.len());
    for part in &line {
        let shape = vec![super::deck::spread(start + part.start.0, start + part.end.0, 1.0, 1.0)];
        burdens.push(Burden { tag: node, shape, times: times(&part.loads, |plf| plf.0) });
    }
    for point in &carrier.points {
        let shape = vec![Load::Point { at: Feet(start + point.at.0), weight: Pounds(1.0) }];
        burdens.push(Burden { tag: node, shape, times: times(&point.weights, |pounds| pounds.0) });
    }
    let outcome = if looped {
        storey.lose(node, None, carrier.total);
        Outcome::default()
    } else {
        bar.solve(&burdens)
    };
    if storey.carried.is_some()
        && let Some(frame) = Frame::between(beam.a, beam.b)
    {
        let across = frame.local(Spot::from(beam.a)).1;
        let pieces: Vec<Carried> = bar
            .pieces(&burdens)
            .into_iter()
            .map(|piece| Carried {
                level: storey.level.id,
                of: node,
                ..Carried::of(piece, |at| frame.spot(Feet(at), across), |on| storey.node(on))
            })
            .collect();
        storey.carried.iter_mut().for_each(|all| all.extend(pieces.iter().cloned()));
    }
    if !outcome.lost.is_empty() {
        let weights = outcome.lost_weight();
        storey.find(Spot::from(beam.a), Problem::BeamUnsupported { beam: beam.id }, Some(weights));
        storey.lose(node, None, weights);
    }
    let stands = outcome.lost.is_empty();
    for (end, at, point) in [(WallEnd::A, bar.from, beam.a), (WallEnd::B, bar.to, beam.b)] {
        let reach = if stands { STICKS_OUT } else { AT_END };
        let seat = bar.seats.iter().any(|seat| (seat.at - at).abs() <= reach);
        let bed = bar.beds.iter().any(|bed| bed.from - reach <= at && at <= bed.to + reach);
        if !looped && !seat && !bed {
            storey.open_ends.extend(OpenEnd::over(storey.level, End::Beam(beam.id, end), point.into()));
        }
    }
    let mut rests: Vec<(Place, Rest)> = Vec::new();
    for delivery in &outcome.deliveries {
        let (on, weights) = (delivery.on, delivery.weights);
        let at = match delivery.place {
            Place::Seat(seat) => {
                let seat = bar.seats.get(seat)?;
                storey.put_point(on, seat.along, node, weights);
                seat.at
            }
            Place::Bed { bed, from, to } => {
                let bed = bar.beds.get(bed)?;
                let run = (bed.along_at(from), bed.along_at(to));
                if to - from > 1e-9 {
                    storey.put_run(on, run, node, weights);
                } else {
                    storey.put_point(on, run.0, node, weights);
                }
                bed.from
            }
        };
        let to = storey.node(on);
        storey.link(node, None, to, weights);
        let place = match delivery.place {
            Place::Bed { bed, .. } => Place::Bed { bed, from: 0.0, to: 0.0 },
            seat @ Place::Seat(_) => seat,
        };
        match rests.iter_mut().find(|(it, _)| *it == place) {
            Some((_, rest)) => rest.weights += weights,
            None => rests.push((place, Rest { at: Feet(at - start), on: to, weights })),
        }
    }
    for seat in &bar.seats {
        if let Some(below) = storey.carrier(seat.on) {
            let reason = Reason::BeamRestsOn { beam: beam.id, at: Feet(seat.along) };
            below.claim(seat.along - 0.5, seat.along + 0.5, None, reason);
        }
    }
    for bed in &bar.beds {
        lie_along(storey, bed, start, &beam, &carrier.samples, &carrier.claims);
    }
    let span = Feet(outcome.longest_span);
    if span > COMMON_BEAMS {
        storey.find(Spot::from(beam.a), Problem::LongBeam { beam: beam.id, span }, None);
    }
    rests.order_by(|a, b| a.1.at.0.total_cmp(&b.1.at.0));
    Some(BeamTrace {
        level: storey.level.id,
        beam: beam.id,
        length: Feet(carrier.length),
        feeds: carrier.feeds(),
        line,
        points: carrier.points.clone(),
        rests: rests.into_iter().map(|(_, rest)| rest).collect(),
        longest_span: span,
        top: carrier.total,
    })
}

/// A beam that lies along a wall hands on what feeds it: the wall is fed through the beam.
fn lie_along(storey: &mut Storey<'_>, bed: &Bed, start: f64, beam: &Beam, samples: &[Sample], claims: &[Claim]) {
    let same_way = bed.along.0 <= bed.along.1;
    let Some(below) = storey.carrier(bed.on) else { return };
    let run = |from: f64, to: f64| {
        let (lo, hi) = ((start + from).max(bed.from), (start + to).min(bed.to));
        (hi - lo > 1e-9).then(|| {
            let (a, b) = (bed.along_at(lo), bed.along_at(hi));
            (a.min(b), a.max(b), (hi - lo) / (to - from))
        })
    };
    for claim in claims.iter().filter(|claim| claim.origin.is_some()) {
        if let Some((from, to, _)) = run(claim.start, claim.end) {
            below.claim(from, to, claim.origin, Reason::BeamLiesOn { beam: beam.id });
            if matches!(claim.reason, Reason::WallStandsOn { .. }) {
                below.claim(from, to, claim.origin, claim.reason);
            }
        }
    }
    for sample in samples {
        if let Some((from, to, share)) = run(sample.start, sample.end) {
            let (left, right) = if same_way { (sample.left, sample.right) } else { (sample.right, sample.left) };
            let (reaction, through) = (sample.reaction * share, Some(beam.id));
            below.samples.push(Sample { start: from, end: to, left, right, reaction, through, ..*sample });
        }
    }
}
