//! The path ladder: rung by rung from the roof, through the chosen part, down to the soil.
//!
//! Each rung names what it is, what arrives there in all, and how. Text only; the trace has done the work.

use crate::card::Rung;
use crate::ids::ElementId;
use crate::loads::{Weights, heaviest};
use crate::plan::{Plan, RoofFrame, Side};
use crate::trace::{Link, Node, Origin, Trace};
use crate::units::{Feet, Plf, Pounds};
use crate::words::{self, Words};

/// The most rungs below the chosen part: a house has few levels, and a ladder must end.
const MOST: usize = 12;

/// What share of a load may be left out of a ladder.
const LITTLE: f64 = 0.005;
/// From what share on a place gets a rung of its own among a few.
const WORTH_A_RUNG: f64 = 0.1;

/// The ladder of a wall, beam or post.
#[must_use]
pub fn ladder(plan: &Plan, trace: &Trace, words: &Words<'_>, part: ElementId) -> Vec<Rung> {
    let Some(node) = node_of(part) else { return Vec::new() };
    let work = Work { plan, trace, words };
    let mut rungs = work.above(node);
    rungs.extend(work.itself(node));
    work.below(node, &mut rungs);
    rungs
}

const fn node_of(part: ElementId) -> Option<Node> {
    match part {
        ElementId::Wall(id) => Some(Node::Wall(id)),
        ElementId::Beam(id) => Some(Node::Beam(id)),
        ElementId::Post(id) => Some(Node::Post(id)),
        ElementId::Purlin(id) => Some(Node::Purlin(id)),
        ElementId::Thing(id) => Some(Node::Thing(id)),
        _ => None,
    }
}

const fn part_of(node: Node) -> Option<ElementId> {
    match node {
        Node::Roof(id) => Some(ElementId::Roof(id)),
        Node::Field(id) => Some(ElementId::Field(id)),
        Node::FloorOpening(id) => Some(ElementId::FloorOpening(id)),
        Node::Wall(id) => Some(ElementId::Wall(id)),
        Node::Beam(id) => Some(ElementId::Beam(id)),
        Node::Post(id) => Some(ElementId::Post(id)),
        Node::Purlin(id) => Some(ElementId::Purlin(id)),
        Node::Thing(id) => Some(ElementId::Thing(id)),
        Node::Footing(id) => Some(ElementId::Footing(id)),
        Node::Ground | Node::Gap => None,
    }
}

struct Work<'a> {
    plan: &'a Plan,
    trace: &'a Trace,
    words: &'a Words<'a>,
}

impl Work<'_> {
    fn heavy(&self, weights: Weights) -> Pounds {
        heaviest(&weights, self.plan.site()).0
    }

    fn rung(&self, node: Node, title: String, figure: String, note: String) -> Rung {
        let role = match node {
            Node::Wall(id) => self.trace.wall(id).and_then(|wall| wall.stretches.iter().map(|it| it.role).min()),
            _ => None,
        };
        Rung { title, figure, note, gap: node == Node::Gap, role, part: part_of(node) }
    }

    /// What comes straight from above, the roof named even if it passes by.
    fn above(&self, node: Node) -> Vec<Rung> {
        let mut rungs = Vec::new();
        let into: Vec<&Link> = self.trace.links.iter().filter(|link| link.to == node).collect();
        if let Node::Wall(id) = node
            && let Some((level, wall)) = self.plan.wall(id)
        {
            for roof in &level.roofs {
                let lands = into.iter().any(|link| link.from == Node::Roof(roof.id));
                if !lands && wall.side == Side::Inside {
                    let note = match roof.frame {
                        RoofFrame::Trusses { .. } => "trusses bear at their ends: goes to the outside walls",
                        RoofFrame::RidgeBoard => "ties hold: goes to the outside walls",
                        RoofFrame::RidgeBeam => "goes to the ridge beam and the eave walls",
                        RoofFrame::OverFramed => "rides on the roof under it",
                        RoofFrame::NotSeen => "framing not seen: taken to go to the outside walls",
                    };
                    rungs.push(self.rung(Node::Roof(roof.id), "Roof".to_owned(), String::new(), note.to_owned()));
                }
            }
        }
        let mut sources: Vec<(Node, Weights, bool)> = Vec::new();
        for link in into {
            match sources.iter_mut().find(|(from, ..)| *from == link.from) {
                Some((_, weights, _)) => *weights += link.weights,
                None => sources.push((link.from, link.weights, link.through.is_some())),
            }
        }
        for (from, weights, near) in sources {
            let total = self.heavy(weights);
            let note = match from {
                Node::Roof(_) | Node::Field(_) => self.width(node, from),
                _ if near => "by way of the joists between".to_owned(),
                Node::Beam(_) | Node::Post(_) => "brings it to one place".to_owned(),
                _ => "stands on it".to_owned(),
            };
            let figure = match from {
                Node::Roof(_) | Node::Field(_) => self.line_from(node, from).unwrap_or_else(|| words::pounds(total)),
                _ => words::pounds(total),
            };
            rungs.push(self.rung(from, self.words.node(from), figure, note));
        }
        rungs
    }

    /// "12' 0\" wide".
    fn width(&self, node: Node, from: Node) -> String {
        let feeds = match node {
            Node::Wall(id) => self.trace.wall(id).map(|wall| wall.feeds.as_slice()),
            Node::Beam(id) => self.trace.beam(id).map(|beam| beam.feeds.as_slice()),
            _ => None,
        };
        let widths = feeds.unwrap_or_default().iter().filter(|feed| feed.from == from && feed.width().0 > 1e-6);
        let (mut least, mut most) = (Feet(f64::INFINITY), Feet::ZERO);
        for feed in widths {
            least = least.min(feed.width());
            most = most.max(feed.width());
        }
        match (most.0 > 0.0, most.0 - least.0 > 0.02) {
            (false, _) => "runs along it".to_owned(),
            (true, false) => format!("{} wide", self.words.length(most)),
            (true, true) => format!("{} to {} wide", self.words.length(least), self.words.length(most)),
        }
    }

    /// The mean line load that one field or roof brings.
    fn line_from(&self, node: Node, from: Node) -> Option<String> {
        let Node::Wall(id) = node else { return None };
        let wall = self.trace.wall(id)?;
        let feeds: Vec<_> = wall.feeds.iter().filter(|feed| feed.from == from).collect();
        let start = feeds.iter().map(|feed| feed.start.0).fold(f64::INFINITY, f64::min);
        let end = feeds.iter().map(|feed| feed.end.0).fold(0.0, f64::max);
        let links = self.trace.links.iter().filter(|link| link.from == from && link.to == node);
        let weights = links.fold(Weights::default(), |sum, link| sum + link.weights);
        (end > start).then(|| words::plf(Plf(self.heavy(weights).0 / (end - start))))
    }

    fn itself(&self, node: Node) -> Option<Rung> {
        let (weights, note) = match node {
            Node::Wall(id) => {
                let wall = self.trace.wall(id)?;
                let own = words::pounds(self.heavy(wall.own));
                (wall.top + wall.own, format!("{} long, with its own {own}", self.words.length(wall.length)))
            }
            Node::Beam(id) => {
                let beam = self.trace.beam(id)?;
                let spans = format!("longest span {}", self.words.length(beam.longest_span));
                (beam.top, if beam.longest_span.0 > 0.0 { spans } else { "lies along a wall".to_owned() })
            }
            Node::Post(id) => (self.trace.post(id)?.top, String::new()),
            _ => return None,
        };
        Some(self.rung(node, self.words.node(node), words::pounds(self.heavy(weights)), note))
    }

    /// Down from the chosen part: where its load goes, level by level, by share.
    fn below(&self, start: Node, rungs: &mut Vec<Rung>) {
        let mut front: Vec<(Node, f64)> = vec![(start, 1.0)];
        let mut seen: Vec<Node> = vec![start];
        while !front.is_empty() && rungs.len() < MOST + 8 {
            let mut next: Vec<(Node, f64)> = Vec::new();
            for (node, share) in &front {
                let out: Vec<&Link> = self.trace.links.iter().filter(|link| link.from == *node).collect();
                let total: f64 = out.iter().map(|link| link.weights.all().0.abs()).sum();
                for link in out {
                    let part = share * link.weights.all().0.abs() / total.max(1e-9);
                    match next.iter_mut().find(|(to, _)| *to == link.to) {
                        Some((_, sum)) => *sum += part,
                        None => next.push((link.to, part)),
                    }
                }
            }
            // Nothing new: the ladder ends. A share under half a percent is not worth a rung.
            next.retain(|(node, share)| *share > LITTLE && !seen.contains(node));
            next.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
            seen.extend(next.iter().map(|(node, _)| *node));
            self.group(&next, rungs);
            front = next;
        }
    }

    /// One rung for each kind of thing that takes over, named one by one while they are few.
    fn group(&self, next: &[(Node, f64)], rungs: &mut Vec<Rung>) {
        for kind in [is_gap, is_wall, is_beam, is_opening, is_post, is_footing, is_ground] {
            let these: Vec<&(Node, f64)> = next.iter().filter(|(node, _)| kind(*node)).collect();
            let (named, these): (Vec<_>, Vec<_>) = if these.len() <= 4 {
                these.into_iter().partition(|(_, share)| *share >= WORTH_A_RUNG)
            } else {
                (Vec::new(), these)
            };
            for (node, share) in named {
                let (figure, note) = self.holds(*node);
                let note = if note.is_empty() { takes(*share) } else { format!("{}; {note}", takes(*share)) };
                rungs.push(self.rung(*node, self.words.node(*node), figure, note));
            }
            let (Some((first, _)), count) = (these.first(), these.len()) else { continue };
            let share: f64 = these.iter().map(|(_, share)| share).sum();
            let part =
                if share > 0.995 { "takes all of it".to_owned() } else { format!("takes {:.0} %", share * 100.0) };
            if count == 1 {
                let (figure, note) = self.holds(*first);
                let note = if note.is_empty() { part } else { format!("{part}; {note}") };
                rungs.push(self.rung(*first, self.words.node(*first), figure, note));
            } else {
                let heaviest = these
                    .iter()
                    .map(|(node, _)| (self.arrives(*node), *node))
                    .fold((Pounds(-1.0), *first), |a, b| if b.0 > a.0 { b } else { a });
                let (figure, note) = self.holds(heaviest.1);
                let names = plural(*first);
                let note = format!(
                    "{part}; the heaviest: {}{}{note}",
                    self.words.node(heaviest.1),
                    if note.is_empty() { "" } else { ", " }
                );
                rungs.push(self.rung(heaviest.1, format!("{count} {names}"), figure, note));
            }
        }
    }

    /// All that arrives at a place.
    fn arrives(&self, node: Node) -> Pounds {
        let weights = match node {
            Node::Wall(id) => self.trace.wall(id).map(|wall| wall.top + wall.own),
            Node::Beam(id) => self.trace.beam(id).map(|beam| beam.top),
            Node::Post(id) => self.trace.post(id).map(|post| post.top),
            Node::Gap => Some(self.trace.ledger.gaps),
            _ => {
                let landings =
                    self.trace.landings.iter().filter(|it| it.on.map_or(Node::Ground, Node::Footing) == node);
                Some(landings.fold(Weights::default(), |sum, it| sum + it.weights))
            }
        };
        self.heavy(weights.unwrap_or_default())
    }

    /// The figure of a place and what to say of it.
    fn holds(&self, node: Node) -> (String, String) {
        let figure = words::pounds(self.arrives(node));
        match node {
            Node::Beam(id) => {
                let span = self.trace.beam(id).map(|beam| beam.longest_span).unwrap_or_default();
                let note =
                    if span.0 > 0.0 { format!("longest span {}", self.words.length(span)) } else { String::new() };
                (figure, note)
            }
            Node::Footing(id) => {
                let pressure = self.trace.landings.iter().find(|it| it.on == Some(id)).and_then(|it| it.pressure);
                let soil = words::thousands(self.plan.site().soil().0);
                let note = pressure.map(|psf| format!("{} of {soil} psf", words::thousands(psf.0))).unwrap_or_default();
                (figure, note)
            }
            Node::Ground => (String::new(), "no footing is drawn".to_owned()),
            Node::Gap => (String::new(), "nothing drawn takes this load".to_owned()),
            _ => (figure, String::new()),
        }
    }
}

fn takes(share: f64) -> String {
    if share > 0.995 { "takes all of it".to_owned() } else { format!("takes {:.0} %", share * 100.0) }
}

const fn is_gap(node: Node) -> bool {
    matches!(node, Node::Gap)
}
const fn is_wall(node: Node) -> bool {
    matches!(node, Node::Wall(_))
}
const fn is_beam(node: Node) -> bool {
    matches!(node, Node::Beam(_))
}
const fn is_opening(node: Node) -> bool {
    matches!(node, Node::FloorOpening(_))
}
const fn is_post(node: Node) -> bool {
    matches!(node, Node::Post(_))
}
const fn is_footing(node: Node) -> bool {
    matches!(node, Node::Footing(_))
}
const fn is_ground(node: Node) -> bool {
    matches!(node, Node::Ground)
}

const fn plural(node: Node) -> &'static str {
    match node {
        Node::Wall(_) => "walls",
        Node::Beam(_) => "beams",
        Node::Post(_) => "posts",
        Node::Footing(_) => "footings",
        Node::FloorOpening(_) => "trimmers",
        Node::Roof(_) => "roofs",
        Node::Purlin(_) => "purlins",
        Node::Thing(_) => "heavy things",
        Node::Field(_) => "fields",
        Node::Ground | Node::Gap => "places",
    }
}

/// What a role or ladder calls the load of an origin.
#[must_use]
pub const fn load_word(origin: Origin) -> &'static str {
    match origin {
        Origin::Roof => "the roof",
        Origin::Floor => "the floor above",
        Origin::Ceiling => "the ceiling",
    }
}
