//! One level while it is traced: what has gathered on each wall, beam and post, and what was found on the way.

use std::collections::BTreeMap;

use super::around::Around;
use super::bar::Bearer;
use super::carry::Carrier;
use super::deck::DeckPoint;
use super::ends::OpenEnd;
use super::probe::Carried;
use super::{Caution, Finding, HeaderTrace, HeldBy, Laid, Node, Origin, Problem, Reason};
use crate::geometry::{self, Spot};
use crate::ids::{FieldId, RoofId};
use crate::loads::Weights;
use crate::plan::{Level, Plan};

/// A post as it fills up.
#[derive(Clone, Debug, Default)]
pub(super) struct PostWork {
    pub(super) from: Vec<(Node, Weights)>,
    pub(super) top: Weights,
    pub(super) cautions: Vec<Caution>,
}

/// What goes from where through which field to where.
pub(super) type Links = BTreeMap<(Node, Option<FieldId>, Node), Weights>;

/// One level in work.
pub(super) struct Storey<'a> {
    pub(super) plan: &'a Plan,
    pub(super) level: &'a Level,
    /// The level by place.
    pub(super) around: &'a Around<'a>,
    pub(super) above: Option<&'a Around<'a>>,
    pub(super) below: Option<&'a Around<'a>>,
    pub(super) walls: Vec<Carrier>,
    pub(super) beams: Vec<Carrier>,
    pub(super) posts: Vec<PostWork>,
    pub(super) headers: Vec<HeaderTrace>,
    pub(super) members: Vec<Laid>,
    pub(super) links: Links,
    pub(super) findings: Vec<Finding>,
    /// What stands on the deck over this level besides what comes from above: struts of its roofs.
    pub(super) drops: Vec<DeckPoint>,
    /// The joists under a weight that is followed.
    pub(super) held: Vec<HeldBy>,
    /// Every joist and beam with what lies on it, if somebody asked for them.
    pub(super) carried: Option<Vec<Carried>>,
    /// Ends of ridges under which nothing is drawn, and what may hold them there.
    pub(super) open_tops: Vec<(Reason, Spot)>,
    /// Ends of beams with nothing drawn under them; once it is traced, those of the levels above too.
    pub(super) open_ends: Vec<OpenEnd>,
    /// Put on here.
    pub(super) own: Weights,
    /// What the roofs of this level handed to walls and posts of the level above.
    pub(super) handed_up: Weights,
    /// What the roofs of the level below handed up to this one.
    pub(super) from_below: Weights,
    /// Lost here.
    pub(super) gaps: Weights,
}

impl<'a> Storey<'a> {
    /// Level `number` of a plan, with all levels by place.
    pub(super) fn new(plan: &'a Plan, number: usize, levels: &'a [Around<'a>]) -> Option<Self> {
        let around = levels.get(number)?;
        let level = around.level;
        let line = |a, b| Carrier::new(geometry::length(a, b).0);
        Some(Self {
            plan,
            level,
            around,
            above: levels.get(number + 1),
            below: number.checked_sub(1).and_then(|below| levels.get(below)),
            walls: level.walls.iter().map(|wall| line(wall.a, wall.b)).collect(),
            beams: level.beams.iter().map(|beam| line(beam.a, beam.b)).collect(),
            posts: vec![PostWork::default(); level.posts.len()],
            headers: Vec::new(),
            members: Vec::new(),
            links: Links::new(),
            findings: Vec::new(),
            drops: Vec::new(),
            held: Vec::new(),
            carried: None,
            open_tops: Vec::new(),
            open_ends: Vec::new(),
            own: Weights::default(),
            handed_up: Weights::default(),
            from_below: Weights::default(),
            gaps: Weights::default(),
        })
    }

    /// The name of a bearer on the path.
    pub(super) fn node(&self, on: Bearer) -> Node {
        let level = self.level;
        match on {
            Bearer::Post(i) => level.posts.get(i).map_or(Node::Gap, |post| Node::Post(post.id)),
            Bearer::Beam(i) => level.beams.get(i).map_or(Node::Gap, |beam| Node::Beam(beam.id)),
            Bearer::Wall(i) => level.walls.get(i).map_or(Node::Gap, |wall| Node::Wall(wall.id)),
            _ => Node::Gap,
        }
    }

    /// The wall or beam that gathers line loads.
    pub(super) fn carrier(&mut self, on: Bearer) -> Option<&mut Carrier> {
        match on {
            Bearer::Beam(i) => self.beams.get_mut(i),
            Bearer::Wall(i) => self.walls.get_mut(i),
            _ => None,
        }
    }

    /// A weight over a run of a wall or beam, or onto a post.
    pub(super) fn put_run(&mut self, on: Bearer, run: (f64, f64), from: Node, weights: Weights) {
        match self.carrier(on) {
            Some(carrier) => carrier.spread(run.0, run.1, from, weights),
            None => self.put_point(on, run.0, from, weights),
        }
    }

    /// A weight at one place of a wall or beam, or onto a post.
    pub(super) fn put_point(&mut self, on: Bearer, at: f64, from: Node, weights: Weights) {
        if let Bearer::Post(i) = on {
            let Some(post) = self.posts.get_mut(i) else { return };
            post.top += weights;
            match post.from.iter_mut().find(|(node, _)| *node == from) {
                Some((_, sum)) => *sum += weights,
                None => post.from.push((from, weights)),
            }
        } else if let Some(carrier) = self.carrier(on) {
            carrier.point(at, from, weights);
        }
    }

    pub(super) fn link(&mut self, from: Node, through: Option<FieldId>, to: Node, weights: Weights) {
        *self.links.entry((from, through, to)).or_default() += weights;
    }

    /// The links that start at one place, in order.
    pub(super) fn links_from(&self, from: Node) -> impl Iterator<Item = (Option<FieldId>, Node, Weights)> {
        // No node comes before this one.
        let first = (from, None, Node::Roof(RoofId::from_number(0)));
        let links = self.links.range(first..).take_while(move |((it, ..), _)| *it == from);
        links.map(|((_, through, to), weights)| (*through, *to, *weights))
    }

    /// A load that has nowhere to go.
    pub(super) fn lose(&mut self, from: Node, through: Option<FieldId>, weights: Weights) {
        self.gaps += weights;
        self.link(from, through, Node::Gap, weights);
    }

    pub(super) fn find(&mut self, at: Spot, problem: Problem, weights: Option<Weights>) {
        self.findings.push(Finding { level: self.level.id, at, problem, weights });
    }

    /// A finding of which one is enough.
    pub(super) fn find_once(&mut self, at: Spot, problem: Problem) {
        if self.findings.iter().all(|finding| finding.problem != problem) {
            self.find(at, problem, None);
        }
    }

    /// What a wall or beam hands on, by the heaviest of what lands on it.
    pub(super) fn origin_of(&self, on: Bearer) -> Option<Origin> {
        let carrier = match on {
            Bearer::Beam(i) => self.beams.get(i)?,
            Bearer::Wall(i) => self.walls.get(i)?,
            _ => return None,
        };
        carrier.claims.iter().filter_map(|claim| claim.origin).min()
    }
}
