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
        let sentence = pressure.map_or_else(
            || "Nothing drawn stands on it.".to_owned(),
            |psf| format!("It brings {} to the soil: {}.", words::pounds(total), words::psf(psf)),
        );
        let site = self.plan.site();
        let soil = Figure {
            label: "Soil is taken to bear".to_owned(),
            value: words::psf(site.soil()),
            how: words::soil_from(site),
        };
        let sure = "Its own weight is left out.".to_owned();
        Some(Card { sentence, sure, figures: vec![self.total("On it in all", weights), soil], ..Card::default() })
    }
}
