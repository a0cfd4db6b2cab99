//! A weight put on top of what a house carries, to see where it goes: the same trace, with one source more.
//!
//! It is handed on by the same members on the same contact as every other load; who wants its path compares the links with
//! and without it.

use super::bar::{Bearer, Borne};
use super::deck::DeckPoint;
use super::down::{Falling, FallingThing};
use super::ends::OpenEnd;
use super::storey::Storey;
use super::strips::EPS;
use super::{LaidAs, Node};
use crate::geometry::Spot;
use crate::ids::{ElementId, FieldId, LevelId, PostId, ThingId};
use crate::loads::{ByKind, Kind, Weights};
use crate::plan::{Element, Level};
use crate::statics::Load;
use crate::units::{Feet, Pounds};

/// A weight to follow, or several of one level.
#[derive(Clone, Debug)]
pub(crate) struct Probe {
    /// The level of what it is put on.
    pub(crate) level: LevelId,
    /// Where.
    pub(crate) puts: Vec<(Put, Pounds)>,
    /// Weights by kind put on posts of that level, on top of what they carry.
    pub(crate) more: Vec<(PostId, Weights)>,
    /// A run of a wall or beam of which it is asked what lands on it.
    pub(crate) watched: Option<(Node, Feet, Feet)>,
    /// The joists that hold what is put on the deck.
    pub(crate) held: Vec<HeldBy>,
    /// What lands on the watched run, by what brings it.
    pub(crate) arrivals: Vec<(Node, Weights)>,
    /// Every joist and beam with its seats and what lies on it, if somebody asks for them.
    pub(crate) carried: Option<Vec<Carried>>,
    /// The ends under which nothing is drawn, from the top.
    pub(crate) open_ends: Vec<OpenEnd>,
}

/// One piece of a joist or beam, from lap to lap or end to end, with what it rests on and what lies on it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Carried {
    /// The level it lies over.
    pub(crate) level: LevelId,
    /// Its field, beam or roof.
    pub(crate) of: Node,
    /// What it is; none for a beam.
    pub(crate) laid_as: Option<LaidAs>,
    /// One end of the piece.
    pub(crate) a: Spot,
    /// The other end.
    pub(crate) b: Spot,
    /// Its supports, from its end `a`, each with what is there.
    pub(crate) seats: Vec<(Feet, Node)>,
    /// Loads, places from its end `a`: a shape for one unit and the units of each kind.
    pub(crate) loads: Vec<(Load, ByKind<f64>)>,
    /// Whether it rests on what is under it.
    pub(crate) rests: bool,
    /// Feet on the slope for a foot on plan: places and loads are on plan.
    pub(crate) slope: f64,
}

impl Carried {
    pub(super) fn of(borne: Borne, spot: impl Fn(f64) -> Spot, node: impl Fn(Bearer) -> Node) -> Self {
        let start = borne.from;
        let moved = |load: Load| match load {
            Load::Point { at, weight } => Load::Point { at: Feet(at.0 - start), weight },
            Load::Spread { from, to, start: first, end } => {
                Load::Spread { from: Feet(from.0 - start), to: Feet(to.0 - start), start: first, end }
            }
        };
        Self {
            level: LevelId::from_number(0),
            of: Node::Gap,
            laid_as: None,
            a: spot(borne.from),
            b: spot(borne.to),
            seats: borne.holds.into_iter().map(|(at, on)| (Feet(at - start), node(on))).collect(),
            loads: borne.loads.into_iter().map(|(load, times)| (moved(load), times)).collect(),
            rests: borne.rests,
            slope: 1.0,
        }
    }
}

/// Where a weight is put.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Put {
    /// On top of a post, or of a wall or beam over a run from its end `a`; in one place if both ends are one.
    Top(Node, Feet, Feet),
    /// The same, as from something that stands there.
    Foot(Node, Feet),
    /// On the joists over the level.
    Deck(Spot),
    /// On the floor, as a heavy thing stands.
    Thing(ThingId),
}

/// A joist under a weight, with its share.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct HeldBy {
    /// Of which field.
    pub field: FieldId,
    /// One end.
    pub a: Spot,
    /// The other end.
    pub b: Spot,
    /// By the lever rule between the two joists beside the weight.
    pub share: f64,
}

fn dead(weight: Pounds) -> Weights {
    Weights::only(Kind::Dead, weight)
}

fn bearer(level: &Level, node: Node) -> Option<Bearer> {
    match node {
        Node::Wall(id) => level.walls.iter().position(|it| it.id == id).map(Bearer::Wall),
        Node::Beam(id) => level.beams.iter().position(|it| it.id == id).map(Bearer::Beam),
        Node::Post(id) => level.posts.iter().position(|it| it.id == id).map(Bearer::Post),
        _ => None,
    }
}

impl Probe {
    /// Nothing to follow yet.
    pub(crate) fn on(level: LevelId) -> Self {
        Self {
            level,
            puts: Vec::new(),
            more: Vec::new(),
            watched: None,
            held: Vec::new(),
            arrivals: Vec::new(),
            carried: None,
            open_ends: Vec::new(),
        }
    }

    /// Nothing to follow: every joist and beam with what lies on it.
    pub(crate) fn of_members() -> Self {
        Self { carried: Some(Vec::new()), ..Self::on(LevelId::from_number(0)) }
    }

    /// Before the deck is solved: what is put on it.
    pub(super) fn drop_on_deck(&self, level: &Level, points: &mut Vec<DeckPoint>) {
        for (put, weight) in self.puts.iter().filter(|_| level.id == self.level) {
            if let Put::Deck(at) = *put {
                points.push(DeckPoint { tag: Node::Here, at, weights: dead(*weight) });
            }
        }
    }

    /// Before the beams are solved: what is put on walls, beams and posts.
    pub(super) fn press(&mut self, storey: &mut Storey<'_>) {
        if storey.level.id != self.level {
            return;
        }
        self.held.append(&mut storey.held);
        for (post, weights) in &self.more {
            if let Some(on) = bearer(storey.level, Node::Post(*post)) {
                storey.put_point(on, 0.0, Node::Here, *weights);
            }
        }
        for (put, weight) in &self.puts {
            let (node, from, to, stands) = match *put {
                Put::Top(node, from, to) => (node, from.0, to.0, false),
                Put::Foot(node, at) => (node, at.0, at.0, true),
                Put::Deck(_) | Put::Thing(_) => continue,
            };
            let Some(on) = bearer(storey.level, node) else { continue };
            if to - from > EPS {
                storey.put_run(on, (from, to), Node::Here, dead(*weight));
            } else {
                storey.put_point(on, from, Node::Here, dead(*weight));
            }
            if stands {
                storey.link(Node::Here, None, node, dead(*weight));
            }
        }
    }

    /// Once all has landed: what lies on the watched run.
    pub(super) fn read(&mut self, storey: &Storey<'_>) {
        let Some((node, from, to)) = self.watched.filter(|_| storey.level.id == self.level) else { return };
        let carrier = match bearer(storey.level, node) {
            Some(Bearer::Wall(i)) => storey.walls.get(i),
            Some(Bearer::Beam(i)) => storey.beams.get(i),
            _ => None,
        };
        let Some(carrier) = carrier else { return };
        for (source, weights) in carrier.over(from.0, to.0) {
            match self.arrivals.iter_mut().find(|it| it.0 == source) {
                Some((_, sum)) => *sum += weights,
                None => self.arrivals.push((source, weights)),
            }
        }
        self.arrivals.retain(|(source, _)| *source != Node::Here);
    }

    /// What falls to the level below with it.
    pub(super) fn stand(&self, level: &Level, falling: &mut Falling) {
        for (put, weight) in self.puts.iter().filter(|_| level.id == self.level) {
            if let Put::Thing(thing) = *put
                && let Some(Element::Thing(it)) = level.element(ElementId::Thing(thing))
            {
                let corners = it.corners.iter().copied().map(Spot::from).collect();
                falling.things.push(FallingThing { thing, corners, stands: it.stands, weights: dead(*weight) });
            }
        }
    }
}
