//! The cards of joists and of what stands on them.

use super::{Card, Figure, Work, built_up};
use crate::ids::{ElementId, FieldId, ThingId};
use crate::loads::Kind;
use crate::plan::{Element, Joints, Stands};
use crate::trace::Node;
use crate::units::Feet;
use crate::words::{self, capital};

impl Work<'_> {
    pub(super) fn field(&self, id: FieldId) -> Option<Card> {
        let Element::Field(field) = self.plan.element(ElementId::Field(id))? else { return None };
        let laid: Vec<_> = self.trace.members.iter().filter(|it| it.of == Node::Field(id)).collect();
        let longest = laid.iter().map(|it| it.longest_span).fold(Feet::ZERO, Feet::max);
        let live = crate::loads::live(field.used_as);
        let dead = crate::loads::deck_dead(field.used_as);
        let joints = match field.joints {
            Joints::NotSeen => "nobody looked whether they lap",
            Joints::Lap => "they lap over what they cross",
            Joints::RunThrough => "they run through",
        };
        let figures = vec![
            Figure {
                label: "Longest span".to_owned(),
                value: self.words.length(longest),
                how: "between two supports of one piece".to_owned(),
            },
            Figure { label: "Live load".to_owned(), value: words::psf(live.value), how: live.source.to_owned() },
            Figure {
                label: "Dead load".to_owned(),
                value: words::psf(field.weighs()),
                how: built_up(field.dead.is_some(), &field.layers, dead.source),
            },
        ];
        Some(Card {
            sentence: format!("{} joists under {}; {joints}.", laid.len(), words::used_as(field.used_as)),
            sure: capital(&format!("the way they run is {}.", words::grade(field.known))),
            figures,
            watch: self.cuts_of(id),
            ..Card::default()
        })
    }

    pub(super) fn thing(&self, id: ThingId) -> Option<Card> {
        let Element::Thing(thing) = self.plan.element(ElementId::Thing(id))? else { return None };
        let level = self.plan.level_of(ElementId::Thing(id))?;
        let area = crate::geometry::area(&thing.corners);
        let Some(weight) = thing.weighs() else {
            let sentence = "Nobody said what it weighs, and no usual figure is known: type its weight.".to_owned();
            return Some(Card { sentence, ..Card::default() });
        };
        let usual = thing.kind.usual();
        let how = match (thing.weight, usual) {
            (Some(_), _) => format!("typed for this house; {}", words::grade(thing.known)),
            (None, Some(usual)) => usual.source.to_owned(),
            (None, None) => String::new(),
        };
        let mut figures = vec![Figure { label: "Weight".to_owned(), value: words::pounds(weight), how }];
        let on_area = weight / area;
        let legs = thing.stands == Stands::OnLegs;
        let how = if legs { "though it stands on legs at its corners" } else { "over its whole area" };
        figures.push(Figure {
            label: "On its area".to_owned(),
            value: words::psf(on_area),
            how: format!("{} {how}", words::square_feet(area)),
        });
        let mut watch = Vec::new();
        let below = self.plan.level_below(level.id);
        let middle = thing.corners.first().copied()?;
        let covers = |field: &&crate::plan::JoistField| {
            let polygons = below.map(|it| it.polygons(&field.region)).unwrap_or_default();
            polygons.iter().any(|it| crate::geometry::position(it, middle) != crate::geometry::Position::Outside)
        };
        if let Some(field) = below.and_then(|it| it.fields.iter().rev().find(covers)) {
            let live = crate::loads::live(field.used_as).value;
            if on_area > live {
                watch.push(format!(
                    "{} is more than the {} this floor is taken to be made for: have the joists under it checked, and \
                     doubled where they run along under it.",
                    words::psf(on_area),
                    words::psf(live)
                ));
            }
        }
        let on = if below.is_some() { "the deck under it" } else { "the ground" };
        let weighs = words::pounds(weight);
        let sentence = match thing.kind.load() {
            Kind::Dead => format!("It puts {weighs} on {on} for good: counted as dead load."),
            _ => format!("It puts {weighs} on {on}: counted as live load, on top of people."),
        };
        Some(Card { sentence, figures, watch, ..Card::default() })
    }
}
