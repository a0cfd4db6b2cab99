//! The card of a footing: what it brings to the soil, and what the soil is taken to bear.

use super::{Card, Figure, Work};
use crate::ids::FootingId;
use crate::loads::{Weights, heaviest};
use crate::units::Pounds;
use crate::words;

impl Work<'_> {
    pub(super) fn footing(&self, id: FootingId) -> Option<Card> {
        let landings = self.trace.landings.iter().filter(|it| it.on == Some(id));
        let weights = landings.fold(Weights::default(), |sum, it| sum + it.weights);
        let pressure = self.trace.landings.iter().find(|it| it.on == Some(id)).and_then(|it| it.pressure);
        let total: Pounds = heaviest(&weights, self.plan.site()).0;
        let allowed = crate::loads::soil_usual();
        let sentence = pressure.map_or_else(
            || "Nothing drawn stands on it.".to_owned(),
            |psf| format!("It brings {} to the soil: {}.", words::pounds(total), words::psf(psf)),
        );
        let typed = self.plan.site().soil.is_some();
        let soil = Figure {
            label: "Soil is taken to bear".to_owned(),
            value: words::psf(self.plan.site().soil()),
            how: if typed { "typed for this house".to_owned() } else { allowed.source.to_owned() },
        };
        let sure = "Its own weight is left out.".to_owned();
        Some(Card { sentence, sure, figures: vec![soil], ..Card::default() })
    }
}
