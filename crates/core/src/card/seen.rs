//! The card of an observation: what it proves, how it is known, where that is said.

use super::{Card, Figure, Why, Work};
use crate::ids::ElementId;
use crate::loads::Mark;
use crate::observe::proof;
use crate::plan::{Element, Grade};
use crate::stands::sagged;
use crate::words;

impl Work<'_> {
    pub(super) fn observation(&self, id: ElementId) -> Option<Card> {
        let Element::Observation(seen) = self.plan.element(id)? else { return None };
        let proof = proof(&seen.saw);
        let source =
            if proof.mark == Mark::Memory { format!("{}, from memory", proof.source) } else { proof.source.into() };
        let why = Why { text: self.words.saw(&seen.saw), known: words::grade(seen.known).to_owned(), against: false };
        let weight =
            Figure { label: "As proof".to_owned(), value: words::weight(proof.weight).to_owned(), how: source };
        let watch = if seen.known > Grade::Seen {
            vec!["Not looked at by whoever drew this: it makes an answer likelier and settles none.".to_owned()]
        } else {
            Vec::new()
        };
        let comes_to = sagged(self.plan, self.trace, &seen).map(|it| self.words.sagged(&it));
        let said = [seen.day.as_str(), seen.note.as_str()];
        let sure = said.iter().filter(|it| !it.is_empty()).copied().collect::<Vec<_>>().join(": ");
        let sentence = format!("{}.", proof.proves);
        Some(Card {
            sentence,
            sure,
            why: vec![why],
            figures: [weight].into_iter().chain(comes_to).collect(),
            watch,
            ..Card::default()
        })
    }
}
