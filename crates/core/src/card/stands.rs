//! How much a part that stands uses of what it may carry, on its card: the ratio of each check, or why nobody knows.

use super::{Card, Figure, Work};
use crate::ids::ElementId;
use crate::plan::{Element, Member, Wood};
use crate::stands::{Holds, Stands, stands};
use crate::take_out::limits::brittle;
use crate::units::Inches;
use crate::words::{psf, strength};

impl Work<'_> {
    /// A card with what is known of its strength.
    pub(super) fn with_strength(&self, mut card: Card, part: ElementId) -> Card {
        let Some(found) = stands(self.plan, part) else { return card };
        card.figures.extend(self.figures_of(&found));
        if found.overloaded() {
            card.watch.insert(0, strength::over(&found));
        }
        card
    }

    fn figures_of(&self, found: &Stands) -> Vec<Figure> {
        let (member, wood) = self.member_of(found.part);
        let mut all = vec![strength::used(found)];
        match found.holds {
            Holds::Bends(checked) => {
                let of = format!("{member} {}", strength::of(member, &wood));
                all.extend(self.words.checks("as it stands", &checked, &of));
                all.extend(strength::taken_for(member, &wood));
                let layers = match self.plan.element(found.part) {
                    Some(Element::Field(field)) => field.layers,
                    Some(Element::Roof(roof)) => roof.layers,
                    _ => Vec::new(),
                };
                all.extend(brittle(&layers).map(strength::limited_by));
            }
            Holds::Column(_) => all.extend(strength::taken_for(member, &wood)),
            Holds::Soil(soil, _) | Holds::SoilNotStated(soil) => {
                if let Some((post, along)) = soil.under {
                    let name = self.words.name(ElementId::Post(post));
                    all.push(strength::spread(&name, psf(soil.most), self.words.length(Inches::into(along))));
                }
            }
            Holds::NoFigure(_) => {}
        }
        all
    }

    fn member_of(&self, part: ElementId) -> (Member, Wood) {
        let member = match self.plan.element(part) {
            Some(Element::Beam(it)) => it.member,
            Some(Element::Post(it)) => it.member,
            Some(Element::Field(it)) => it.member,
            Some(Element::Roof(it)) => it.member,
            _ => Member::default(),
        };
        (member, self.plan.wood_of(part))
    }
}
