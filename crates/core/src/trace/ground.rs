//! The ground: what the lowest level stands on, and how hard it presses.

use super::down::Falling;
use super::strips::EPS;
use super::{Finding, Landing, Node, Problem};
use crate::geometry::{self, Frame, Spot};
use crate::ids::FootingId;
use crate::loads::{Weights, heaviest};
use crate::plan::{Footing, FootingMake, FootingShape, Level, Plan, Point, Side};
use crate::units::{Psf, SquareFeet};

/// Lands everything that comes down from the lowest level.
pub(super) fn land(plan: &Plan, level: &Level, falling: &Falling, findings: &mut Vec<Finding>) -> Vec<Landing> {
    let mut landings = Vec::new();
    let mut find = |at: Point, problem: Problem, weights: Weights| {
        findings.push(Finding { level: level.id, at: Spot::from(at), problem, weights: Some(weights) });
    };
    for wall in &falling.walls {
        let on = level.footings.iter().find(|footing| under_wall(footing, wall.a, wall.b)).map(|footing| footing.id);
        let inside = level.wall(wall.wall).is_some_and(|it| it.side == Side::Inside);
        if inside && on.is_none() && wall.origin.is_some() {
            find(wall.a, Problem::WallWithoutFooting { wall: wall.wall }, wall.total());
        }
        landings.push(Landing { from: Node::Wall(wall.wall), on, weights: wall.total(), pressure: None });
    }
    for post in &falling.posts {
        // A pad under a post was put there for it, also where a strip runs past.
        let under = || level.footings.iter().filter(|footing| under_post(footing, post.at));
        let pad = under().find(|footing| matches!(footing.shape, FootingShape::Pad { .. }));
        let on = pad.or_else(|| under().next()).map(|footing| footing.id);
        let thickened = |id| level.footings.iter().any(|it| it.id == id && it.make == FootingMake::ThickenedSlab);
        if on.is_some_and(thickened) {
            find(post.at, Problem::PostOnThickening { post: post.post }, post.weights);
        }
        if on.is_none() && post.weights.all().0.abs() > 1e-9 {
            find(post.at, Problem::PostWithoutFooting { post: post.post }, post.weights);
        }
        landings.push(Landing { from: Node::Post(post.post), on, weights: post.weights, pressure: None });
    }
    for thing in falling.things.iter().filter(|it| it.weights.all().0 > 0.0) {
        landings.push(Landing { from: Node::Thing(thing.thing), on: None, weights: thing.weights, pressure: None });
    }
    for footing in &level.footings {
        let on_it = || landings.iter().filter(|it| it.on == Some(footing.id));
        let total = on_it().fold(Weights::default(), |sum, it| sum + it.weights);
        let pressure = pressure(plan, footing, total);
        let allowed = plan.site().soil();
        if pressure > allowed {
            let at = match footing.shape {
                FootingShape::Pad { at, .. } => at,
                FootingShape::Strip { a, .. } => a,
            };
            find(at, Problem::SoilOverloaded { footing: footing.id, pressure, allowed }, total);
        }
        set_pressure(&mut landings, footing.id, pressure);
    }
    landings
}

fn set_pressure(landings: &mut [Landing], footing: FootingId, pressure: Psf) {
    for landing in landings.iter_mut().filter(|it| it.on == Some(footing)) {
        landing.pressure = Some(pressure);
    }
}

/// P / A of the heaviest combination (IRC R403.1; the own weight of the footing is left out).
fn pressure(plan: &Plan, footing: &Footing, total: Weights) -> Psf {
    let area: SquareFeet = match footing.shape {
        FootingShape::Pad { side, .. } => side.feet() * side.feet(),
        FootingShape::Strip { a, b, width } => geometry::length(a, b) * width.feet(),
    };
    heaviest(&total, plan.site()).0 / area
}

/// Whether a strip runs under the middle of a wall, along it.
fn under_wall(footing: &Footing, a: Point, b: Point) -> bool {
    let FootingShape::Strip { a: start, b: end, width } = footing.shape else { return false };
    let (Some(own), Some(strip)) = (Frame::between(a, b), Frame::between(start, end)) else { return false };
    let middle = Spot { x: (a.x.feet() + b.x.feet()) / 2.0, y: (a.y.feet() + b.y.feet()) / 2.0 };
    let ((from, line), (t, s)) = (strip.local(Spot::from(start)), strip.local(middle));
    let along = t - from;
    own.squareness(&strip) < 0.05
        && (s - line).abs().0 <= width.feet().0 / 2.0 + EPS
        && along.0 >= -EPS
        && along.0 <= geometry::length(start, end).0 + EPS
}

fn under_post(footing: &Footing, post: Point) -> bool {
    match footing.shape {
        FootingShape::Pad { at, side } => {
            let half = side.get() / 2;
            (post.x - at.x).get().abs() <= half && (post.y - at.y).get().abs() <= half
        }
        FootingShape::Strip { a, b, width } => {
            let Some(strip) = Frame::between(a, b) else { return false };
            let ((from, line), (t, s)) = (strip.local(Spot::from(a)), strip.local(Spot::from(post)));
            let along = t - from;
            (s - line).abs().0 <= width.feet().0 / 2.0 + EPS
                && along.0 >= -EPS
                && along.0 <= geometry::length(a, b).0 + EPS
        }
    }
}
