//! How hard a footing presses the soil: a pad all over, a strip under each post only as far as it spreads one.

use serde::Serialize;

use super::FOOT;
use crate::footing::{LEAST_THICKNESS, spread_along};
use crate::geometry;
use crate::ids::{ElementId, FootingId, PostId};
use crate::loads::{Weights, heaviest};
use crate::plan::{Element, FootingShape, Plan};
use crate::trace::{Node, Trace};
use crate::units::{Inches, Psf, SquareFeet};

/// The pressure under a footing, its own weight left out.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Soil {
    /// Where it is hardest.
    pub most: Psf,
    /// All of it over the whole area.
    pub mean: Psf,
    /// Of a strip: the post that presses hardest, and over what length the strip spreads it.
    pub under: Option<(PostId, Inches)>,
}

/// The pressure under a footing on which anything lands. On a strip a post spreads at 45 degrees through the thickness, as far
/// as plain concrete projects (IRC R403.1.1), and what walls bring is added as if it were even.
#[must_use]
pub fn on_soil(plan: &Plan, trace: &Trace, id: FootingId) -> Option<Soil> {
    let Some(Element::Footing(footing)) = plan.element(ElementId::Footing(id)) else { return None };
    let site = plan.site();
    let on_it = || trace.landings.iter().filter(|it| it.on == Some(id));
    on_it().next()?;
    let press = |weights: &Weights, area: SquareFeet| heaviest(weights, site).0 / area;
    let sum = |posts: Option<bool>| {
        let these = on_it().filter(|it| posts.is_none_or(|posts| matches!(it.from, Node::Post(_)) == posts));
        these.fold(Weights::default(), |sum, it| sum + it.weights)
    };
    let (width, length) = match footing.shape {
        FootingShape::Pad { side, .. } => {
            let mean = press(&sum(None), side.feet() * side.feet());
            return Some(Soil { most: mean, mean, under: None });
        }
        FootingShape::Strip { a, b, width } => (width.feet(), geometry::length(a, b)),
    };
    let area: SquareFeet = length * width;
    let (mean, even) = (press(&sum(None), area), press(&sum(Some(false)), area));
    let thick = footing.thickness.map_or(LEAST_THICKNESS, |it| Inches(it.inches()));
    let along = spread_along(FOOT, thick).min(Inches::from(length));
    let mut soil = Soil { most: mean, mean, under: None };
    for landing in on_it() {
        let Node::Post(post) = landing.from else { continue };
        let here = press(&landing.weights, crate::units::Feet::from(along) * width) + even;
        if here > soil.most {
            soil = Soil { most: here, under: Some((post, along)), ..soil };
        }
    }
    Some(soil)
}
