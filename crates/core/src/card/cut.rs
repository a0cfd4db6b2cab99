//! The card of a notch or hole in a joist, and the sentences it gives the card of its joists.

use super::{Card, Figure, Work};
use crate::ids::{ElementId, FieldId, JoistCutId};
use crate::members::notch;
use crate::plan::{Element, Material};
use crate::trace::CutLimit;
use crate::units::Inches;
use crate::words::{self, capital};

impl Work<'_> {
    pub(super) fn cut(&self, id: JoistCutId) -> Option<Card> {
        let Element::JoistCut(cut) = self.plan.element(ElementId::JoistCut(id))? else { return None };
        let trace = self.trace.cuts.iter().find(|it| it.cut == id)?;
        let sure = capital(&format!("what is known of it is {}.", words::grade(cut.known)));
        let figures = trace.field.map(|field| self.limits(field)).unwrap_or_default();
        let sentence = match trace.limits.first() {
            None => "It is within the limits of IRC R502.8.1.",
            Some(CutLimit::NoJoist) => "No joist is drawn where it is noted.",
            Some(CutLimit::SizeNotSeen) => "Nobody saw the size of its joist: no limit is known.",
            Some(CutLimit::MakerOnly) => "Nothing is cut out of such a joist but by its maker's rules or a design.",
            Some(_) => "It is past the limits of IRC R502.8.1: have it looked at.",
        };
        let watch = if trace.limits.is_empty() { Vec::new() } else { vec![self.words.cut(trace)] };
        Some(Card { sentence: sentence.to_owned(), sure, figures, watch, ..Card::default() })
    }

    /// What each cut in the joists of a field comes to.
    pub(super) fn cuts_of(&self, field: FieldId) -> Vec<String> {
        self.trace.cuts.iter().filter(|it| it.field == Some(field)).map(|it| self.words.cut(it)).collect()
    }

    /// What the rule allows in joists of a field; nothing where it does not reach.
    fn limits(&self, id: FieldId) -> Vec<Figure> {
        let Some(Element::Field(field)) = self.plan.element(ElementId::Field(id)) else { return Vec::new() };
        if field.member.material != Material::Sawn {
            return Vec::new();
        }
        let most = notch::cuts(Inches(field.member.depth.inches()));
        let figure = |label: &str, inches: Inches, how: &str| Figure {
            label: label.to_owned(),
            value: format!("{:.2} in", inches.0),
            how: format!("{how} (IRC R502.8.1)"),
        };
        vec![
            figure("Deepest notch", most.notch_depth, "a sixth of the depth, in the outer thirds of the span alone"),
            figure("Longest notch", most.notch_length, "a third of the depth"),
            figure("Deepest notch at an end", most.end_notch, "a quarter of the depth"),
            figure("Widest hole", most.hole, "a third of the depth, 2 in from edges and other cuts"),
        ]
    }
}
