//! The roof live load as the area and the slope of one member reduce it: beside the figures, which take it whole.

use super::{Figure, Work};
use crate::ids::RoofId;
use crate::loads::workers::{self, LEAST, WHOLE};
use crate::order::InOrder as _;
use crate::plan::{Roof, RoofForm};
use crate::trace::{Feed, LaidAs, Node};
use crate::units::{Feet, Inches, Pounds, SquareFeet};
use crate::words;

impl Work<'_> {
    /// For a member that gets this much roof live load: its area is what that amounts to.
    pub(super) fn reduced(&self, roof_live: Pounds, roofs: &[RoofId]) -> Option<Figure> {
        (roof_live.0 > 0.5).then(|| self.for_area(SquareFeet(roof_live.0 / WHOLE.0), roofs)).flatten()
    }

    /// For a wall: each of its studs is a member, and none has an area that counts.
    pub(super) fn reduced_on_studs(&self, roof_live: Pounds, roofs: &[RoofId]) -> Option<Figure> {
        (roof_live.0 > 0.5).then(|| self.for_area(SquareFeet(0.0), roofs)).flatten()
    }

    /// For the rafters of a roof: the longest span times their spacing.
    pub(super) fn reduced_in_rafters(&self, roof: RoofId, spacing: Feet) -> Option<Figure> {
        let rafters = self.trace.members.iter().filter(|it| it.of == Node::Roof(roof) && it.laid_as == LaidAs::Rafter);
        let span = rafters.map(|it| it.longest_span).fold(Feet::ZERO, Feet::max);
        self.for_area(span * spacing, &[roof])
    }

    /// None where nothing is taken off, or where somebody typed a roof live load for this house. Of several roofs the
    /// flattest counts, the heavier side; of none that is known, all of the house.
    fn for_area(&self, area: SquareFeet, roofs: &[RoofId]) -> Option<Figure> {
        let all = self.plan.levels().iter().flat_map(|level| &level.roofs);
        let these = all.filter(|roof| roofs.is_empty() || roofs.contains(&roof.id));
        let rise = these.map(flattest).reduce(Inches::min)?;
        let reduced = workers::reduced(area, rise);
        let counts = self.plan.site().roof_live.is_none() && reduced.0 < WHOLE.0 - 1e-9;
        let leans = if area.0 > 0.0 { words::square_feet(area) } else { "the area of one stud".to_owned() };
        counts.then(|| Figure {
            label: "Roof live load, reduced".to_owned(),
            value: format!("{} instead of {}", words::psf(reduced), words::psf(WHOLE)),
            how: format!(
                "20 R1 R2, {} at the least: {leans}, R1 = {:.2}; {} in 12, R2 = {:.2} (ASCE 7, 4.8.2, from memory). The other \
                 figures take it whole.",
                words::psf(LEAST),
                workers::r1(area),
                rise.0,
                workers::r2(rise)
            ),
        })
    }
}

/// The roofs that feed a part.
pub(super) fn from_roofs(feeds: &[Feed]) -> Vec<RoofId> {
    let mut roofs: Vec<RoofId> = feeds
        .iter()
        .filter_map(|feed| match feed.from {
            Node::Roof(roof) => Some(roof),
            _ => None,
        })
        .collect();
    roofs.order();
    roofs.dedup();
    roofs
}

/// The flattest slope of a roof, as a rise in 12 in.
fn flattest(roof: &Roof) -> Inches {
    let rise = match roof.form {
        RoofForm::Gambrel { upper_rise, .. } => upper_rise.min(roof.rise),
        RoofForm::Gable | RoofForm::Shed | RoofForm::Hip => roof.rise,
    };
    Inches(rise.inches())
}
