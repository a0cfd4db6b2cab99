//! The trace as text: roles, reasons, loads, path gaps and ledger, for a terminal and for comparing.
//!
//! Figures are rounded to whole pounds and to a tenth of a pound a foot; lengths to the sixteenth of an inch.

use core::fmt::Write as _;

use crate::ids::ElementId;
use crate::loads::{ByKind, Kind, Weights};
use crate::plan::{Level, Plan};
use crate::tape::Tape;
use crate::trace::{Feed, LinePart, Node, PointLoad, RibKind, RibTrace, Trace};
use crate::words::{self, Words};

/// The whole trace, path gaps first, then level by level from the top, then the ground and the ledger.
#[must_use]
pub fn text(plan: &Plan, trace: &Trace) -> String {
    let mut report = Report { words: Words::new(plan, Tape::Feet), plan, trace, out: String::new() };
    report.all();
    report.out
}

struct Report<'a> {
    words: Words<'a>,
    plan: &'a Plan,
    trace: &'a Trace,
    out: String,
}

impl Report<'_> {
    fn line(&mut self, indent: usize, text: &str) {
        // Writing to a String cannot fail.
        let _ = writeln!(self.out, "{:indent$}{text}", "");
    }

    fn all(&mut self) {
        self.line(0, self.plan.name());
        self.line(0, "Preliminary. A licensed engineer and your local code decide. Shore before cutting.");
        let gaps: Vec<String> = self.trace.path_gaps().map(|gap| self.words.finding(gap)).collect();
        self.line(0, &format!("\nPath gaps: {}", if gaps.is_empty() { "none" } else { "" }));
        for gap in gaps {
            self.line(2, &gap);
        }
        let open = self.trace.findings.iter().filter(|finding| !finding.problem.is_path_gap());
        let open: Vec<String> = open.map(|finding| self.words.finding(finding)).collect();
        if !open.is_empty() {
            self.line(0, "\nOpen:");
        }
        for finding in open {
            self.line(2, &finding);
        }
        for level in self.plan.levels().iter().rev() {
            self.level(level);
        }
        self.ground();
        self.ledger();
    }

    fn level(&mut self, level: &Level) {
        self.line(0, &format!("\n{}", level.name));
        for roof in self.trace.roofs.iter().filter(|roof| roof.level == level.id) {
            let span = self.words.length(roof.span);
            let thrust = tenths(&roof.thrust);
            let pushes = if thrust.is_empty() { String::new() } else { format!(", thrust {thrust} plf") };
            self.line(2, &format!("{}: span {span}{pushes}", self.words.node(Node::Roof(roof.roof))));
            roof.ribs.iter().for_each(|rib| self.rib(rib));
        }
        for header in self.trace.headers.iter().filter(|header| header.level == level.id) {
            let (a, b) = (whole(&header.at_a), whole(&header.at_b));
            let name = self.words.name(ElementId::FloorOpening(header.opening));
            self.line(2, &format!("Header of {name}: {:.2} sq ft; ends {a} lb and {b} lb", header.area.0));
        }
        for beam in self.trace.beams.iter().filter(|beam| beam.level == level.id) {
            let name = self.words.node(Node::Beam(beam.beam));
            let span = self.words.length(beam.longest_span);
            self.line(2, &format!("{name}: {} lb, longest span {span}", whole(&beam.top)));
            self.carried(&beam.feeds, &beam.line, &beam.points);
            for rest in &beam.rests {
                let (on, at) = (self.words.node(rest.on), self.words.length(rest.at));
                self.line(6, &format!("to {on} at {at}: {} lb", whole(&rest.weights)));
            }
        }
        for wall in self.trace.walls.iter().filter(|wall| wall.level == level.id) {
            let name = self.words.node(Node::Wall(wall.wall));
            self.line(2, &format!("{name}: {} lb on its top, {} lb of its own", whole(&wall.top), whole(&wall.own)));
            for stretch in &wall.stretches {
                let (from, to) = (self.words.length(stretch.start), self.words.length(stretch.end));
                let role = words::role(stretch.role);
                self.line(4, &format!("[{}] {from} to {to}: {role}", stretch.role.badge()));
                for reason in &stretch.reasons {
                    let known = self.words.known(reason);
                    let known = if known.is_empty() { String::new() } else { format!(" ({known})") };
                    self.line(8, &format!("{}{known}", self.words.reason(reason)));
                }
            }
            self.carried(&wall.feeds, &wall.line, &wall.points);
            for caution in &wall.cautions {
                self.line(6, &format!("watch: {}", self.words.caution(caution)));
            }
        }
        for post in self.trace.posts.iter().filter(|post| post.level == level.id) {
            self.line(2, &format!("{}: {} lb", self.words.node(Node::Post(post.post)), whole(&post.top)));
            for caution in &post.cautions {
                self.line(6, &format!("watch: {}", self.words.caution(caution)));
            }
        }
        for cut in self.trace.cuts.iter().filter(|cut| cut.level == level.id) {
            self.line(2, &self.words.cut(cut));
        }
    }

    /// A ridge beam, hip or valley: how much of it rests where. The struts of purlins are said on what they stand on.
    fn rib(&mut self, rib: &RibTrace) {
        let name = match rib.kind {
            RibKind::Ridge => "Ridge beam",
            RibKind::Hip => "Hip rafter",
            RibKind::Valley => "Valley rafter",
            RibKind::Header => "Header in the roof",
            RibKind::Purlin => return,
        };
        self.line(4, &format!("{name}, {} on plan: {} lb", self.words.length(rib.length()), whole(&rib.top)));
        for rest in &rib.rests {
            let (on, at) = (self.words.node(rest.on), self.words.length(rest.at));
            self.line(6, &format!("to {on} at {at}: {} lb", whole(&rest.weights)));
        }
    }

    fn carried(&mut self, feeds: &[Feed], line: &[LinePart], points: &[PointLoad]) {
        for feed in feeds {
            let (from, to) = (self.words.length(feed.start), self.words.length(feed.end));
            let (width, effective) = (self.words.length(feed.width()), self.words.length(feed.effective));
            let source = self.words.node(feed.from);
            self.line(6, &format!("{from} to {to}: fed {width} wide (effective {effective}) by {source}"));
        }
        for part in line {
            let (from, to) = (self.words.length(part.start), self.words.length(part.end));
            self.line(6, &format!("{from} to {to}: {} plf", tenths(&part.loads)));
        }
        for point in points {
            let (at, from) = (self.words.length(point.at), self.words.node(point.from));
            self.line(6, &format!("at {at}: {} lb from {from}", whole(&point.weights)));
        }
    }

    fn ground(&mut self) {
        self.line(0, "\nGround");
        for landing in &self.trace.landings {
            let on = landing.on.map_or(Node::Ground, Node::Footing);
            let (from, on) = (self.words.node(landing.from), self.words.node(on));
            let pressure = landing.pressure.map(|psf| format!(", {:.0} psf", psf.0)).unwrap_or_default();
            self.line(2, &format!("{from}: {} lb on {on}{pressure}", whole(&landing.weights)));
        }
    }

    fn ledger(&mut self) {
        let ledger = &self.trace.ledger;
        let rows: Vec<String> = ledger
            .rows
            .iter()
            .map(|row| {
                let (own, above) = (whole(&row.own), whole(&row.from_above));
                let (down, gaps) = (whole(&row.down), whole(&row.gaps));
                let level = self.words.level(row.level);
                format!("{level}: put on {own}; from above {above}; handed down {down}; lost in gaps {gaps}")
            })
            .collect();
        let (applied, soil, gaps) = (whole(&ledger.applied), whole(&ledger.soil), whole(&ledger.gaps));
        let closes = if ledger.worst_share_off() < 1e-9 { "closes" } else { "DOES NOT CLOSE" };
        self.line(0, "\nLedger, lb");
        for row in rows {
            self.line(2, &row);
        }
        self.line(2, &format!("In all: applied {applied}; to the ground {soil}; lost in gaps {gaps}; it {closes}"));
    }
}

/// "dead 60.0 + attic live 120.0".
fn tenths<T: Copy + Into<f64>>(loads: &ByKind<T>) -> String {
    parts(loads, |number| format!("{number:.1}"), 0.05)
}

/// "dead 1,440 + attic live 2,880".
fn whole(weights: &Weights) -> String {
    let text = parts(weights, words::thousands, 0.5);
    if text.is_empty() { "0".to_owned() } else { text }
}

fn parts<T: Copy + Into<f64>>(loads: &ByKind<T>, print: impl Fn(f64) -> String, least: f64) -> String {
    let kinds = Kind::ALL.into_iter().map(|kind| (kind, loads.get(kind).into()));
    let kinds = kinds.filter(|(_, number): &(Kind, f64)| number.abs() >= least);
    let parts: Vec<String> = kinds.map(|(kind, number)| format!("{} {}", words::kind(kind), print(number))).collect();
    parts.join(" + ")
}
