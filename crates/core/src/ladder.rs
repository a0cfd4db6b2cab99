//! The path ladder: rung by rung from the roof, through the chosen part, down to the soil.
//!
//! Each rung names what it is, what arrives there in all, and how. Text only; the trace has done the work.

use crate::card::{Rung, Way};
use crate::geometry::Spot;
use crate::ids::{ElementId, FieldId};
use crate::loads::{Weights, heaviest};
use crate::path::{Path, Reach, Start};
use crate::plan::{Element, FootingShape, Plan, RoofFrame, Side};
use crate::trace::{HeldBy, Link, Node, Origin, Trace};
use crate::units::{Feet, Plf, Pounds};
use crate::words::{self, Words};

/// What share of a load may be left out of a ladder.
const LITTLE: f64 = 0.005;
/// From what share on a place gets a rung of its own among a few.
const WORTH_A_RUNG: f64 = 0.1;

/// The ladder of a path.
#[must_use]
pub fn ladder(plan: &Plan, trace: &Trace, words: &Words<'_>, path: &Path) -> Vec<Rung> {
    let work = Work { plan, trace, words, path };
    let mut rungs = work.further_up();
    rungs.extend(match path.start {
        Start::Part(_) => work.above(path.node),
        Start::Run { .. } | Start::Deck { .. } => work.arriving(),
    });
    rungs.extend(work.itself(path.node));
    rungs.extend(path.joists.iter().map(|joist| work.joist(joist)));
    work.below(&mut rungs);
    rungs
}

/// The part of the plan that a place on a path is, if it is one.
#[must_use]
pub const fn part_of(node: Node) -> Option<ElementId> {
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
        Node::Ground | Node::Here | Node::Gap => None,
    }
}

struct Work<'a> {
    plan: &'a Plan,
    trace: &'a Trace,
    words: &'a Words<'a>,
    path: &'a Path,
}

impl Work<'_> {
    fn heavy(&self, weights: Weights) -> Pounds {
        heaviest(&weights, self.plan.site()).0
    }

    fn rung(&self, way: Way, node: Node, title: String, figure: String, note: String) -> Rung {
        let role = match node {
            Node::Wall(id) => self.trace.wall(id).and_then(|wall| wall.stretches.iter().map(|it| it.role).min()),
            _ => None,
        };
        let part = part_of(node);
        let level = part.and_then(|part| self.plan.level_of(part)).map(|level| level.name.clone()).unwrap_or_default();
        Rung { way, title, level, figure, note, gap: node == Node::Gap, role, part }
    }

    /// What stands above what arrives, the highest first.
    fn further_up(&self) -> Vec<Rung> {
        let up = self.path.up.iter().rev().filter(|it| it.rank > 1 && it.share > LITTLE);
        let note = |it: &Reach| format!("{} of what arrives, from further up", percent(it.share));
        up.map(|it| self.rung(Way::Up, it.node, self.words.node(it.node), self.pounds(it.weights), note(it))).collect()
    }

    /// What comes straight from above onto a stretch.
    fn arriving(&self) -> Vec<Rung> {
        let up = self.path.up.iter().filter(|it| it.rank == 1 && it.share > LITTLE);
        let note = |it: &Reach| match it.share > 0.995 {
            true => "all of what arrives".to_owned(),
            false => format!("{} of what arrives", percent(it.share)),
        };
        up.map(|it| self.rung(Way::Up, it.node, self.words.node(it.node), self.pounds(it.weights), note(it))).collect()
    }

    /// A joist under a weight put down.
    fn joist(&self, joist: &HeldBy) -> Rung {
        let Start::Deck { at, weight, .. } = self.path.start else { return Rung::default() };
        let node = Node::Field(joist.field);
        let title = self.beside(joist, at);
        let shared = self.path.joists.len() > 1;
        let why = if shared { "by the lever rule between the joists beside it" } else { "it stands on this one alone" };
        let note = format!("{}; {why}", takes(joist.share));
        self.rung(Way::Down, node, title, words::pounds(weight * joist.share), note)
    }

    /// "Joist 8 in east of it".
    fn beside(&self, joist: &HeldBy, at: Spot) -> String {
        let what = if self.is_ceiling(joist.field) { "Ceiling joist" } else { "Floor joist" };
        let Some(frame) = crate::geometry::Frame::from_to(joist.a, joist.b) else { return what.to_owned() };
        let ((_, line), (along, across)) = (frame.local(joist.a), frame.local(at));
        let foot = frame.spot(along, line);
        let (east, north) = (foot.x - at.x, foot.y - at.y);
        let off = (line - across).abs();
        if off < Feet(0.02) {
            return format!("{what} right under it");
        }
        let way = match (east.abs() > north.abs(), east > Feet::ZERO, north > Feet::ZERO) {
            (true, true, _) => "east",
            (true, false, _) => "west",
            (false, _, true) => "north",
            (false, _, false) => "south",
        };
        format!("{what} {} {way} of it", self.words.length(off))
    }

    fn is_ceiling(&self, field: FieldId) -> bool {
        let mut fields = self.plan.levels().iter().flat_map(|level| &level.fields);
        fields.any(|it| it.id == field && it.used_as.is_ceiling())
    }

    fn pounds(&self, weights: Weights) -> String {
        words::pounds(self.heavy(weights))
    }

    /// What comes straight from above, the roof named even if it passes by.
    fn above(&self, node: Node) -> Vec<Rung> {
        let mut rungs = Vec::new();
        let into: Vec<&Link> = self.trace.links.iter().filter(|link| link.to == node).collect();
        if let Node::Wall(id) = node
            && let Some((level, wall)) = self.plan.wall(id)
        {
            for roof in &level.roofs {
                // Roof comes down on it by itself, or by way of purlins, joists and walls above.
                let lands = into.iter().any(|link| link.weights.roof_live.0.abs() > 1e-6);
                if !lands && rungs.is_empty() && wall.side == Side::Inside {
                    let note = match roof.frame {
                        RoofFrame::Trusses { .. } => "trusses bear at their ends: goes to the outside walls",
                        RoofFrame::RidgeBoard => "ties hold: goes to the outside walls",
                        RoofFrame::RidgeBeam => "goes to the ridge beam and the eave walls",
                        RoofFrame::OverFramed => "rides on the roof under it",
                        RoofFrame::NotSeen => "framing not seen: taken to go to the outside walls",
                    };
                    rungs.push(self.rung(
                        Way::Up,
                        Node::Roof(roof.id),
                        "Roof".to_owned(),
                        String::new(),
                        note.to_owned(),
                    ));
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
            rungs.push(self.rung(Way::Up, from, self.words.node(from), figure, note));
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
        let (weights, note) = match (self.path.start, node) {
            (Start::Deck { weight, .. }, _) => {
                let title = "What is put down here".to_owned();
                return Some(self.rung(Way::Here, node, title, words::pounds(weight), String::new()));
            }
            (Start::Run { from, to, .. }, _) => {
                let note = format!("from {} to {} of it", self.words.length(from), self.words.length(to));
                (self.path.weights, note)
            }
            (_, Node::Wall(id)) => {
                let wall = self.trace.wall(id)?;
                let own = words::pounds(self.heavy(wall.own));
                (wall.top + wall.own, format!("{} long, with its own {own}", self.words.length(wall.length)))
            }
            (_, Node::Beam(id)) => {
                let beam = self.trace.beam(id)?;
                let spans = format!("longest span {}", self.words.length(beam.longest_span));
                (beam.top, if beam.longest_span.0 > 0.0 { spans } else { "lies along a wall".to_owned() })
            }
            (_, Node::Post(_) | Node::Purlin(_) | Node::Thing(_) | Node::Footing(_)) => {
                (self.path.weights, String::new())
            }
            _ => return None,
        };
        Some(self.rung(Way::Here, node, self.words.node(node), self.pounds(weights), note))
    }

    /// Down from the start: where its load goes, step by step, by share.
    fn below(&self, rungs: &mut Vec<Rung>) {
        let most = self.path.down.iter().map(|it| it.rank).max().unwrap_or(0);
        let gap = self.path.down.iter().filter(|it| it.node == Node::Gap && it.share.abs() > LITTLE);
        let gap: Vec<Reach> = gap.copied().collect();
        self.group(&gap, rungs);
        for rank in 1..=most {
            let here = self.path.down.iter().filter(|it| it.rank == rank && it.node != Node::Gap);
            let here: Vec<Reach> = here.filter(|it| it.share.abs() > LITTLE).copied().collect();
            self.group(&here, rungs);
        }
    }

    /// One rung for each kind of thing that takes over, named one by one while they are few.
    fn group(&self, next: &[Reach], rungs: &mut Vec<Rung>) {
        type Kind = fn(&Work<'_>, Node) -> bool;
        let kinds: [Kind; 8] = [
            |_, node| node == Node::Gap,
            |_, node| matches!(node, Node::Wall(_)),
            |_, node| matches!(node, Node::Beam(_)),
            |_, node| matches!(node, Node::FloorOpening(_)),
            |_, node| matches!(node, Node::Post(_)),
            |work, node| matches!(node, Node::Footing(_)) && work.is_pad(node),
            |work, node| matches!(node, Node::Footing(_)) && !work.is_pad(node),
            |_, node| node == Node::Ground,
        ];
        for kind in kinds {
            let these: Vec<&Reach> = next.iter().filter(|it| kind(self, it.node)).collect();
            let (named, rest): (Vec<&Reach>, Vec<&Reach>) = if these.len() <= 4 {
                these.into_iter().partition(|it| it.share >= WORTH_A_RUNG)
            } else {
                (Vec::new(), these)
            };
            rungs.extend(named.into_iter().map(|it| self.taker(it)));
            match rest.as_slice() {
                [] => {}
                [one] => rungs.push(self.taker(one)),
                [first, ..] => {
                    let share: f64 = rest.iter().map(|it| it.share).sum();
                    let most = rest.iter().fold(*first, |a, b| if b.share > a.share { b } else { a });
                    let (figure, note) = self.holds(most);
                    let note = format!(
                        "{}; the most: {}{}{note}",
                        takes(share),
                        self.words.node(most.node),
                        if note.is_empty() { "" } else { ", " }
                    );
                    let title = format!("{} {}", rest.len(), self.plural(first.node));
                    rungs.push(self.rung(Way::Down, most.node, title, figure, note));
                }
            }
        }
    }

    fn is_pad(&self, node: Node) -> bool {
        let Node::Footing(id) = node else { return false };
        let footing = self.plan.element(ElementId::Footing(id));
        matches!(footing, Some(Element::Footing(it)) if matches!(it.shape, FootingShape::Pad { .. }))
    }

    fn plural(&self, node: Node) -> &'static str {
        match node {
            Node::Wall(_) => "walls",
            Node::Beam(_) => "beams",
            Node::Post(_) => "posts",
            Node::Footing(_) if self.is_pad(node) => "pads",
            Node::Footing(_) => "strip footings",
            Node::FloorOpening(_) => "trimmers",
            Node::Roof(_) => "roofs",
            Node::Purlin(_) => "purlins",
            Node::Thing(_) => "heavy things",
            Node::Field(_) => "fields",
            Node::Ground | Node::Here | Node::Gap => "places",
        }
    }

    /// A place that takes over, with its share.
    fn taker(&self, it: &Reach) -> Rung {
        let (figure, note) = self.holds(it);
        let under = self.path.flows.iter().filter(|flow| flow.to == it.node && self.is_pad(it.node));
        let under: Vec<String> = under.map(|flow| self.words.node(flow.from)).collect();
        let takes = match under.as_slice() {
            [one] => format!("under {one}, {}", takes(it.share)),
            _ => takes(it.share),
        };
        let note = if note.is_empty() { takes } else { format!("{takes}; {note}") };
        self.rung(Way::Down, it.node, self.words.node(it.node), figure, note)
    }

    /// Whether the path is of a whole part, so that all that arrives at a place is of use beside the share.
    const fn is_whole(&self) -> bool {
        matches!(self.path.start, Start::Part(_))
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

    /// The figure of a place and what to say of it: all that arrives there, or what the start alone brings.
    fn holds(&self, it: &Reach) -> (String, String) {
        let figure = if self.is_whole() { words::pounds(self.arrives(it.node)) } else { self.pounds(it.weights) };
        match it.node {
            Node::Beam(id) => {
                let span = self.trace.beam(id).map(|beam| beam.longest_span).unwrap_or_default();
                let note =
                    if span.0 > 0.0 { format!("longest span {}", self.words.length(span)) } else { String::new() };
                (figure, note)
            }
            Node::Footing(id) if self.is_whole() => {
                let pressure = self.trace.landings.iter().find(|it| it.on == Some(id)).and_then(|it| it.pressure);
                let soil = words::thousands(self.plan.site().soil().0);
                let note = pressure.map(|psf| format!("{} of {soil} psf", words::thousands(psf.0))).unwrap_or_default();
                (figure, note)
            }
            Node::Ground => (if self.is_whole() { String::new() } else { figure }, "no footing is drawn".to_owned()),
            Node::Gap => {
                (if self.is_whole() { String::new() } else { figure }, "nothing drawn takes this load".to_owned())
            }
            _ => (figure, String::new()),
        }
    }
}

/// "takes 38 %", to a tenth under a tenth.
fn takes(share: f64) -> String {
    match share {
        _ if share > 0.995 => "takes all of it".to_owned(),
        _ if share < 0.0 => format!("is eased by {}", percent(-share)),
        _ => format!("takes {}", percent(share)),
    }
}

fn percent(share: f64) -> String {
    if share < 0.095 { format!("{:.1} %", share * 100.0) } else { format!("{:.0} %", share * 100.0) }
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
