//! The cards of a roof and of a purlin under one.

use super::workers::from_roofs;
use super::{Card, Figure, Work, built_up};
use crate::ids::{ElementId, PurlinId, RoofId};
use crate::loads::heaviest;
use crate::plan::{Element, RoofForm, RoofFrame};
use crate::trace::{Node, RibKind, RibTrace};
use crate::units::Pounds;
use crate::words::{self, capital};

impl Work<'_> {
    pub(super) fn roof(&self, id: RoofId) -> Option<Card> {
        let Element::Roof(roof) = self.plan.element(ElementId::Roof(id))? else { return None };
        let trace = self.trace.roofs.iter().find(|it| it.roof == id)?;
        let site = self.plan.site();
        let frame = match roof.frame {
            RoofFrame::RidgeBoard if roof.form == RoofForm::Hip => {
                "Rafters on all four sides, hips to the corners: every wall under an eave carries it."
            }
            RoofFrame::RidgeBoard if roof.form == RoofForm::Shed => {
                "One slope of rafters: the walls under its ends, and any under it, carry it."
            }
            RoofFrame::NotSeen => "Framing not seen: taken to go from eave to eave.",
            RoofFrame::RidgeBoard => "Rafters against a ridge board, their feet tied: the eave walls carry it.",
            RoofFrame::RidgeBeam => "Rafters on a ridge beam: it takes half of each, the eave walls the other half.",
            RoofFrame::OverFramed => "Built on the roof under it: its weight rides on the rafters there.",
            RoofFrame::Trusses { .. } => "Trusses: the outside walls at their ends carry them.",
        };
        let dead = crate::loads::roof_dead();
        let rise = roof.rise.inches() / 12.0;
        let mut figures = vec![
            Figure {
                label: "Span".to_owned(),
                value: self.words.length(trace.span),
                how: "eave wall to eave wall".to_owned(),
            },
            Figure {
                label: "Dead load on plan".to_owned(),
                value: words::psf(trace.dead_on_plan),
                how: format!(
                    "on the slope, over its cosine; {}",
                    built_up(roof.dead.is_some(), &roof.layers, dead.source)
                ),
            },
            Figure {
                label: "Roof live load".to_owned(),
                value: words::psf(site.roof_live()),
                how: if site.roof_live.is_some() {
                    "typed for this house".to_owned()
                } else {
                    crate::loads::roof_live().source.to_owned()
                },
            },
            Figure {
                label: "Snow on plan".to_owned(),
                value: words::psf(site.roof_snow(rise)),
                how: words::snow(site, rise),
            },
        ];
        figures.extend(self.reduced_in_rafters(roof.id, roof.spacing.feet()));
        figures.extend(self.thrust(id));
        figures.extend(trace.ribs.iter().filter_map(|rib| self.rib(rib)));
        let sure = capital(&format!("its framing is {}.", words::grade(roof.known)));
        Some(Card { sentence: frame.to_owned(), sure, figures, ..Card::default() })
    }

    /// A ridge beam, hip or purlin: how long, and what rests where.
    pub(super) fn rib(&self, rib: &RibTrace) -> Option<Figure> {
        let total = heaviest(&rib.top, self.plan.site()).0;
        let rests: Vec<String> = rib
            .rests
            .iter()
            .filter(|rest| !matches!(rest.on, Node::Roof(_)))
            .map(|rest| {
                let weight = words::pounds(heaviest(&rest.weights, self.plan.site()).0);
                format!("{weight} on {}", self.words.node(rest.on))
            })
            .collect();
        let (label, how) = match rib.kind {
            RibKind::Ridge => ("Ridge beam", rests.join(", ")),
            RibKind::Hip => ("Hip rafter", rests.join(", ")),
            RibKind::Valley => ("Valley rafter", rests.join(", ")),
            RibKind::Header => ("Header in the roof", rests.join(", ")),
            RibKind::Purlin => return None,
        };
        let value = format!("{} long, {}", self.words.length(rib.length()), words::pounds(total));
        Some(Figure { label: label.to_owned(), value, how })
    }

    pub(super) fn purlin(&self, id: PurlinId) -> Option<Card> {
        let Element::Purlin(purlin) = self.plan.element(ElementId::Purlin(id))? else { return None };
        let rib = self.trace.roofs.iter().flat_map(|roof| &roof.ribs).find(|rib| rib.purlin == Some(id));
        let sure = capital(&format!("what is known of it is {}.", words::grade(purlin.known)));
        let Some(rib) = rib else {
            let sentence = if purlin.feet.is_some() {
                "No roof that is drawn lies over it."
            } else {
                "Nobody saw what holds it: traced as if it were not there."
            };
            return Some(Card { sentence: sentence.to_owned(), sure, ..Card::default() });
        };
        let mut figures = self.widths(&rib.feeds);
        let heavy =
            rib.struts.iter().map(|it| heaviest(&it.weights, self.plan.site()).0).fold(Pounds::ZERO, Pounds::max);
        figures.push(Figure {
            label: "Struts".to_owned(),
            value: format!("{}, at the most {}", rib.struts.len(), words::pounds(heavy)),
            how: format!("no more than {} apart", self.words.length(purlin.spacing.feet())),
        });
        figures.extend(self.reduced(rib.top.roof_live, &from_roofs(&rib.feeds)));
        let mut watch = Vec::new();
        if let Some(strut) = rib.struts.first() {
            figures.push(Figure {
                label: "A strut".to_owned(),
                value: format!("{} long", self.words.length(strut.length())),
                how: format!("{} up over {} level", self.words.length(strut.rise), self.words.length(strut.run)),
            });
            if !strut.is_steep() {
                watch.push("Its struts lie flatter than 45 degrees (IRC R802.4.5).".to_owned());
            }
            if !strut.is_short() {
                watch.push("Its struts are over 8 ft long: they want a stay at half length (IRC R802.4.5).".to_owned());
            }
        }
        if purlin.spacing.feet().0 > 4.0 + 1e-9 {
            watch.push("Struts belong 4 ft apart or closer (IRC R802.4.5).".to_owned());
        }
        let total = words::pounds(heaviest(&rib.top, self.plan.site()).0);
        let sentence = format!("It holds the rafters halfway: {total} go down its struts.");
        Some(Card { sentence, sure, figures, watch, ..Card::default() })
    }
}
