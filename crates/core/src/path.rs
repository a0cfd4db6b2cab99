//! A path on demand: from any wall, stretch, beam, post, purlin, heavy thing or place on a deck up to what arrives there and
//! down to the soil, as data.
//!
//! Down, by statics: a little more is put where the start's own load lies, the house is traced again, and what each link has
//! more of is that link's share. So a stretch, or a place between two supports, has its own path and not the mean of its
//! wall or beam. Up, what lands on the start is known; what stands further up counts by its part in what is handed on.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::geometry::{self, Frame, Spot};
use crate::ids::{ElementId, FieldId, LevelId};
use crate::loads::Weights;
use crate::order::InOrder as _;
use crate::plan::{Element, Plan, Point};
use crate::trace::{HeldBy, LinePart, Link, Node, PointLoad, Probe, Put, Trace, follow};
use crate::units::{Feet, Pounds};

/// A share under this is rounding: the difference of two traces.
const ROUNDING: f64 = 1e-10;
/// What is put on to find a path, as a share of all that is on the house: too little to lift anything off its seat.
const A_LITTLE: f64 = 1.0 / 16_384.0;
/// Half of the run that is looked at around a place, in feet.
const AROUND: Feet = Feet(0.5);

/// Where a path starts.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Start {
    /// A whole part.
    Part(ElementId),
    /// A stretch of a wall or beam, in feet from its end `a`; one place of it if both are one.
    Run {
        /// The wall or beam.
        part: ElementId,
        /// Where it begins.
        from: Feet,
        /// Where it ends.
        to: Feet,
    },
    /// A weight put down on the joists over a level.
    Deck {
        /// The level they lie over.
        level: LevelId,
        /// Where.
        at: Spot,
        /// How much.
        weight: Pounds,
    },
}

/// A place on a path.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Reach {
    /// What.
    pub node: Node,
    /// How many steps from the start: down by the longest way, up by the shortest.
    pub rank: usize,
    /// Down: what share of the start's weight comes here. Up: what share of what arrives at the start comes by here.
    pub share: f64,
    /// The same in pounds of each kind.
    pub weights: Weights,
}

/// What goes from one place on the way down to the next, as a share of the start's weight.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Flow {
    /// From where.
    pub from: Node,
    /// Through the joists of which field, if it does not go straight.
    pub through: Option<FieldId>,
    /// To where.
    pub to: Node,
    /// Under zero where it takes weight off.
    pub share: f64,
}

/// A path.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Path {
    /// Where it starts.
    pub start: Start,
    /// The name of the start on the way.
    pub node: Node,
    /// What goes down from it, of all kinds.
    pub weights: Weights,
    /// What arrives there: nearest first.
    pub up: Vec<Reach>,
    /// Where it goes: path gaps first, then step by step.
    pub down: Vec<Reach>,
    /// From place to place.
    pub flows: Vec<Flow>,
    /// The joists under a weight put down.
    pub joists: Vec<HeldBy>,
}

impl Path {
    /// The share that has nowhere to go.
    #[must_use]
    pub fn gap(&self) -> f64 {
        self.share_of(Node::Gap)
    }

    /// The share of a place on the way down.
    #[must_use]
    pub fn share_of(&self, node: Node) -> f64 {
        self.down.iter().find(|it| it.node == node).map_or(0.0, |it| it.share)
    }

    /// Where it ends: footings, ground, path gaps.
    pub fn ends(&self) -> impl Iterator<Item = &Reach> {
        self.down.iter().filter(|it| matches!(it.node, Node::Footing(_) | Node::Ground | Node::Gap))
    }
}

/// The path of a start; none if the plan does not hold it, or loads do not pass through a part of its kind.
#[must_use]
pub fn path(plan: &Plan, trace: &Trace, start: &Start) -> Option<Path> {
    let little = Pounds((trace.ledger.applied.all().0 * A_LITTLE).max(1.0));
    let (node, weights, mut probe) = match *start {
        Start::Part(part) => whole(plan, trace, part, little)?,
        Start::Run { part, from, to } => run(plan, trace, part, (from.min(to), from.max(to)), little)?,
        Start::Deck { level, at, weight } => {
            plan.level(level)?;
            let mut probe = Probe::on(level);
            probe.puts.push((Put::Deck(at), weight));
            (Node::Here, Weights::only(crate::loads::Kind::Floor, weight), probe)
        }
    };
    let put: Pounds = probe.puts.iter().map(|it| it.1).sum();
    let with = follow(plan, &mut probe);
    let flows = if put.0 > 0.0 { more(trace, &with, node, put) } else { Vec::new() };
    let arrivals = match start {
        Start::Run { .. } => core::mem::take(&mut probe.arrivals),
        _ => arriving(trace, node),
    };
    let down = down(&flows, node, weights);
    Some(Path { start: *start, node, weights, up: up(trace, arrivals), down, flows, joists: probe.held })
}

/// What a wall or beam carries: line load, point loads, and its own weight on each foot.
struct Carried<'a> {
    node: Node,
    level: LevelId,
    length: Feet,
    line: &'a [LinePart],
    points: &'a [PointLoad],
    own: Weights,
}

fn carried(trace: &Trace, part: ElementId) -> Option<Carried<'_>> {
    match part {
        ElementId::Wall(id) => {
            let it = trace.wall(id)?;
            let (line, points) = (it.line.as_slice(), it.points.as_slice());
            Some(Carried { node: Node::Wall(id), level: it.level, length: it.length, line, points, own: it.own })
        }
        ElementId::Beam(id) => {
            let it = trace.beam(id)?;
            let (line, points) = (it.line.as_slice(), it.points.as_slice());
            let own = Weights::default();
            Some(Carried { node: Node::Beam(id), level: it.level, length: it.length, line, points, own })
        }
        _ => None,
    }
}

/// A run of a wall or beam: a little more in the shape of what lies there.
fn run(
    plan: &Plan,
    trace: &Trace,
    part: ElementId,
    (from, to): (Feet, Feet),
    little: Pounds,
) -> Option<(Node, Weights, Probe)> {
    plan.element(part)?;
    let it = carried(trace, part)?;
    let (from, to) = (from.max(Feet::ZERO).min(it.length), to.max(Feet::ZERO).min(it.length));
    let mut shape: Vec<(Feet, Feet, Weights)> = Vec::new();
    let own = LinePart { start: Feet::ZERO, end: it.length, loads: it.own.map(|own| own / it.length) };
    for line in it.line.iter().chain([&own]) {
        let (lo, hi) = (line.start.max(from), line.end.min(to));
        if hi > lo {
            shape.push((lo, hi, line.loads * (hi - lo)));
        }
    }
    let last = it.length - to < Feet(1e-6);
    let place = to - from < Feet(1e-6);
    let here = |at: Feet| at >= from - Feet(1e-6) && (place || last || at < to - Feet(1e-6)) && at <= to + Feet(1e-6);
    shape.extend(it.points.iter().filter(|point| here(point.at)).map(|point| (point.at, point.at, point.weights)));
    let weights = shape.iter().fold(Weights::default(), |sum, one| sum + one.2);
    let mut probe = Probe::on(it.level);
    let whole = weights.all().0;
    if whole > 0.0 && shape.iter().all(|one| one.2.all().0 >= 0.0) {
        let share = |part: Weights| little * (part.all().0 / whole);
        let puts = shape.into_iter().map(|(from, to, part)| (Put::Top(it.node, from, to), share(part)));
        probe.puts.extend(puts.filter(|put| put.1.0 > 0.0));
    } else {
        probe.puts.push((Put::Top(it.node, from, to), little));
    }
    let (lo, hi) = if place { (from - AROUND, to + AROUND) } else { (from, to) };
    probe.watched = Some((it.node, lo.max(Feet::ZERO), hi.min(it.length)));
    Some((it.node, weights, probe))
}

/// A whole part.
fn whole(plan: &Plan, trace: &Trace, part: ElementId, little: Pounds) -> Option<(Node, Weights, Probe)> {
    let level = plan.level_of(part)?.id;
    let mut probe = Probe::on(level);
    match part {
        ElementId::Wall(_) | ElementId::Beam(_) => {
            let length = carried(trace, part)?.length;
            let (node, weights, mut probe) = run(plan, trace, part, (Feet::ZERO, length), little)?;
            probe.watched = None;
            Some((node, weights, probe))
        }
        ElementId::Post(id) => {
            let post = trace.post(id)?;
            probe.puts.push((Put::Top(Node::Post(id), Feet::ZERO, Feet::ZERO), little));
            Some((Node::Post(id), post.top, probe))
        }
        ElementId::Thing(id) => {
            let Element::Thing(thing) = plan.element(part)? else { return None };
            probe.puts.push((Put::Thing(id), little));
            Some((Node::Thing(id), Weights::only(thing.kind.load(), thing.weighs().unwrap_or_default()), probe))
        }
        ElementId::Purlin(id) => {
            let rib = trace.roofs.iter().flat_map(|roof| &roof.ribs).find(|rib| rib.purlin == Some(id))?;
            let all = rib.struts.iter().map(|strut| strut.weights.all().0).sum::<f64>();
            for strut in rib.struts.iter().filter(|_| all > 0.0) {
                let put = match strut.on {
                    Node::Gap => Put::Deck(strut.foot),
                    on => Put::Foot(on, along(plan, on, strut.foot)),
                };
                probe.puts.push((put, little * (strut.weights.all().0 / all)));
            }
            Some((Node::Purlin(id), rib.top, probe))
        }
        ElementId::Footing(id) => {
            let landings = trace.landings.iter().filter(|it| it.on == Some(id));
            Some((Node::Footing(id), landings.fold(Weights::default(), |sum, it| sum + it.weights), probe))
        }
        ElementId::Opening(_)
        | ElementId::Field(_)
        | ElementId::FloorOpening(_)
        | ElementId::Roof(_)
        | ElementId::Observation(_)
        | ElementId::JoistCut(_)
        | ElementId::Board(_) => None,
    }
}

/// How far a place is along a wall or beam, from its end `a`.
fn along(plan: &Plan, on: Node, at: Spot) -> Feet {
    let ends: Option<(Point, Point)> = match on {
        Node::Wall(id) => plan.wall(id).map(|(_, wall)| (wall.a, wall.b)),
        Node::Beam(id) => match plan.element(ElementId::Beam(id)) {
            Some(Element::Beam(beam)) => Some((beam.a, beam.b)),
            _ => None,
        },
        _ => None,
    };
    let Some((a, b)) = ends else { return Feet::ZERO };
    let Some(frame) = Frame::between(a, b) else { return Feet::ZERO };
    let far = frame.local(at).0 - frame.local(a.into()).0;
    far.max(Feet::ZERO).min(geometry::length(a, b))
}

/// What each link has more of, as a share of what was put on. A post on bare ground has no path.
fn more(trace: &Trace, with: &Trace, start: Node, put: Pounds) -> Vec<Flow> {
    let mut flows: BTreeMap<(Node, Option<FieldId>, Node), f64> = BTreeMap::new();
    let mut add = |link: &Link, sign: f64| {
        let from = if link.from == Node::Here { start } else { link.from };
        let to = if matches!((from, link.to), (Node::Post(_), Node::Ground)) { Node::Gap } else { link.to };
        *flows.entry((from, link.through, to)).or_default() += sign * link.weights.all().0;
    };
    with.links.iter().for_each(|link| add(link, 1.0));
    trace.links.iter().for_each(|link| add(link, -1.0));
    let flows = flows.into_iter().map(|((from, through, to), lb)| Flow { from, through, to, share: lb / put.0 });
    flows.filter(|flow| flow.share.abs() > ROUNDING).collect()
}

/// The places of the way down, each with all that comes to it.
fn down(flows: &[Flow], start: Node, weights: Weights) -> Vec<Reach> {
    let mut places: BTreeMap<Node, (usize, f64)> = BTreeMap::new();
    for flow in flows {
        places.entry(flow.to).or_insert((1, 0.0)).1 += flow.share;
    }
    // As many rounds as there are places set every rank; a ring of places, which no trace has, would not go on for ever.
    for _ in 0..places.len() {
        let mut moved = false;
        for flow in flows.iter().filter(|flow| flow.from != start) {
            let Some(before) = places.get(&flow.from).map(|it| it.0) else { continue };
            if let Some(place) = places.get_mut(&flow.to)
                && place.0 <= before
            {
                place.0 = before + 1;
                moved = true;
            }
        }
        if !moved {
            break;
        }
    }
    let reach = |(node, (rank, share)): (Node, (usize, f64))| Reach { node, rank, share, weights: weights * share };
    let mut down: Vec<Reach> = places.into_iter().map(reach).collect();
    down.order_by(|a, b| {
        let key = |it: &Reach| (it.node != Node::Gap, it.rank);
        key(a).cmp(&key(b)).then(b.share.total_cmp(&a.share)).then(a.node.cmp(&b.node))
    });
    down
}

/// What lands straight on a place.
fn arriving(trace: &Trace, node: Node) -> Vec<(Node, Weights)> {
    let mut arrivals: BTreeMap<Node, Weights> = BTreeMap::new();
    for link in trace.links.iter().filter(|link| link.to == node) {
        *arrivals.entry(link.from).or_default() += link.weights;
    }
    arrivals.into_iter().collect()
}

/// What stands above, step by step: each place hands on its sources in the parts in which it got them.
fn up(trace: &Trace, arrivals: Vec<(Node, Weights)>) -> Vec<Reach> {
    let all = arrivals.iter().fold(Weights::default(), |sum, it| sum + it.1).all().0;
    if all <= 0.0 {
        return Vec::new();
    }
    let mut places: BTreeMap<Node, Reach> = BTreeMap::new();
    let mut front: BTreeMap<Node, Weights> = arrivals.into_iter().collect();
    // No house is as high as it has links.
    for rank in 1..=trace.links.len() {
        let mut next: BTreeMap<Node, Weights> = BTreeMap::new();
        for (node, weights) in front {
            let place = places.entry(node).or_insert(Reach { node, rank, share: 0.0, weights: Weights::default() });
            place.weights += weights;
            place.share += weights.all().0 / all;
            let out = trace.links.iter().filter(|link| link.from == node);
            let out = out.map(|link| link.weights.all().0).sum::<f64>();
            if out <= 0.0 {
                continue;
            }
            let part = weights.all().0 / out;
            for link in trace.links.iter().filter(|link| link.to == node && part > ROUNDING) {
                *next.entry(link.from).or_default() += link.weights * part;
            }
        }
        if next.is_empty() {
            break;
        }
        front = next;
    }
    let mut up: Vec<Reach> = places.into_values().filter(|it| it.share.abs() > ROUNDING).collect();
    up.order_by(|a, b| a.rank.cmp(&b.rank).then(b.share.total_cmp(&a.share)).then(a.node.cmp(&b.node)));
    up
}
