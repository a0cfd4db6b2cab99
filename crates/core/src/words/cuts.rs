//! The sentence of a notch or hole in a joist: what it is, where, and which limit it passes.

use super::{Words, cut_word};
use crate::ids::{ElementId, JoistCutId};
use crate::plan::{Cut, Element, JoistCut, JoistEdge, NotchAt};
use crate::trace::{CutLimit, CutTrace};
use crate::units::{Inches, Ticks};

impl Words<'_> {
    /// One sentence for a cut: "Notch 12, 1 1/2 in deep ...: within the limits of IRC R502.8.1."
    #[must_use]
    pub fn cut(&self, trace: &CutTrace) -> String {
        let Some(cut) = self.the_cut(trace.cut) else { return String::new() };
        let verdict = match trace.limits.as_slice() {
            [] => "within the limits of IRC R502.8.1".to_owned(),
            [CutLimit::NoJoist] => "no joist is drawn there".to_owned(),
            [CutLimit::SizeNotSeen, ..] => "nobody saw the size of the joist, so no limit is known".to_owned(),
            [CutLimit::MakerOnly, ..] => {
                "no cut is allowed in such a joist but by its maker's rules or a design (IRC R502.8.2)".to_owned()
            }
            limits => {
                let limits: Vec<String> = limits.iter().map(|limit| self.limit(&cut.cut, limit)).collect();
                format!("past the limits of IRC R502.8.1, {}: have it looked at", limits.join("; "))
            }
        };
        let place = if trace.span.0 > 0.0 {
            format!(", {} from its support in a span of {}", self.length(trace.from), self.length(trace.span))
        } else {
            String::new()
        };
        format!("{}, {}{place}: {verdict}.", self.name(ElementId::JoistCut(trace.cut)), self.size(&cut.cut))
    }

    fn the_cut(&self, id: JoistCutId) -> Option<JoistCut> {
        match self.plan.element(ElementId::JoistCut(id))? {
            Element::JoistCut(cut) => Some(cut),
            _ => None,
        }
    }

    fn size(&self, cut: &Cut) -> String {
        match *cut {
            Cut::Notch { depth, length, place, edge } => {
                let edge = if edge == JoistEdge::Top { "top" } else { "bottom" };
                let end = if place == NotchAt::End { " at its end" } else { "" };
                format!("{} deep and {} long in the {edge} of a joist{end}", self.short(depth), self.short(length))
            }
            Cut::Hole { diameter, to_edge } => {
                format!("{} wide, {} from the nearer edge of a joist", self.short(diameter), self.short(to_edge))
            }
        }
    }

    fn limit(&self, cut: &Cut, limit: &CutLimit) -> String {
        // A limit is never said larger than it is.
        let most =
            |inches: Inches| self.short(Ticks::from_inches((inches.0 * 16.0).floor() / 16.0).unwrap_or_default());
        match *limit {
            CutLimit::NotchTooDeep { most: it } => format!("{} deep at the most, a sixth of the joist", most(it)),
            CutLimit::NotchTooLong { most: it } => {
                format!("{} long at the most, a third of the joist's depth", most(it))
            }
            CutLimit::EndTooDeep { most: it } => format!("{} deep at the most, a quarter of the joist", most(it)),
            CutLimit::HoleTooWide { most: it } => format!("{} wide at the most, a third of the joist", most(it)),
            CutLimit::MiddleThird => "no notch in the middle third of the span".to_owned(),
            CutLimit::BottomOfThick => {
                "no notch but at the ends in the bottom of a joist 4 in thick or thicker".to_owned()
            }
            CutLimit::NearEdge => "2 in from the edges at the least".to_owned(),
            CutLimit::NearCut { other } => {
                let other = self.name(ElementId::JoistCut(other)).to_lowercase();
                format!("2 in from {other} at the least")
            }
            CutLimit::PastSupport => {
                format!(
                    "the {} is past the last support, where the thirds of a span say nothing",
                    cut_word(cut).to_lowercase()
                )
            }
            CutLimit::NoJoist | CutLimit::SizeNotSeen | CutLimit::MakerOnly => String::new(),
        }
    }
}
