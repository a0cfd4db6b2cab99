//! The view that shows a whole level in the free part of the canvas.

use joistwise_core::geometry::Spot;
use joistwise_core::ids::LevelId;
use joistwise_core::plan::{FootingShape, Level, Plan, Point, Region};
use joistwise_core::units::Feet;

use crate::view::View;

/// Smallest scale that a fit chooses, in CSS pixels a foot.
const SMALLEST: f64 = 2.0;
/// Largest scale that a fit chooses: a closet does not fill the canvas.
const LARGEST: f64 = 48.0;

/// What the page covers on each side of the canvas, with room for dimensions, in CSS pixels.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Margins {
    /// On the left.
    pub left: f64,
    /// Above.
    pub top: f64,
    /// On the right.
    pub right: f64,
    /// Below.
    pub bottom: f64,
}

/// The view of a canvas of this size that shows all of a level between its margins; the usual view if it is empty.
/// Device pixels are left at one for each CSS pixel.
#[must_use]
pub fn fit(plan: &Plan, level: LevelId, width: f64, height: f64, margins: Margins) -> View {
    let usual = View { width, height, ..View::default() };
    let own = plan.level(level).and_then(extent);
    let Some((low, high)) = own.or_else(|| plan.level_below(level).and_then(extent)) else {
        return usual;
    };
    let wide = (high.x - low.x).0.max(1.0);
    let deep = (high.y - low.y).0.max(1.0);
    let free_width = (width - margins.left - margins.right).max(40.0);
    let free_height = (height - margins.top - margins.bottom).max(40.0);
    let scale = (free_width / wide).min(free_height / deep).clamp(SMALLEST, LARGEST);
    let middle = Spot { x: (low.x + high.x) / 2.0, y: (low.y + high.y) / 2.0 };
    let right = margins.left + free_width / 2.0 - width / 2.0;
    let down = margins.top + free_height / 2.0 - height / 2.0;
    let centre = Spot { x: middle.x - Feet(right / scale), y: middle.y + Feet(down / scale) };
    View { scale, centre, ..usual }
}

/// The lowest and highest place of all that a level holds; none if it is empty.
pub(crate) fn extent(level: &Level) -> Option<(Spot, Spot)> {
    let walls = level.walls.iter().flat_map(|wall| [wall.a, wall.b]);
    let beams = level.beams.iter().flat_map(|beam| [beam.a, beam.b]);
    let posts = level.posts.iter().map(|post| post.at);
    let footings = level.footings.iter().flat_map(|footing| match footing.shape {
        FootingShape::Pad { at, .. } => [at, at],
        FootingShape::Strip { a, b, .. } => [a, b],
    });
    let corners = |region: &Region| match region {
        Region::Outline => Vec::new(),
        Region::Corners(corners) => corners.clone(),
    };
    let fields = level.fields.iter().flat_map(|field| corners(&field.region));
    let roofs = level.roofs.iter().flat_map(|roof| corners(&roof.region));
    let openings = level.floor_openings.iter().flat_map(|opening| opening.corners.clone());
    bounds(walls.chain(beams).chain(posts).chain(footings).chain(fields).chain(roofs).chain(openings))
}

/// The lowest and highest place of some points; none if there are none.
pub(crate) fn bounds(points: impl Iterator<Item = Point>) -> Option<(Spot, Spot)> {
    points.map(Spot::from).fold(None, |all, at| {
        let (low, high) = all.unwrap_or((at, at));
        Some((Spot { x: low.x.min(at.x), y: low.y.min(at.y) }, Spot { x: high.x.max(at.x), y: high.y.max(at.y) }))
    })
}
