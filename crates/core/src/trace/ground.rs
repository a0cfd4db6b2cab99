//! The ground: what the lowest level stands on, and how hard it presses.

use std::collections::BTreeMap;

use super::around::{Around, extent};
use super::down::Falling;
use super::near::{Extent, Near};
use super::strips::EPS;
use super::{Finding, Landing, Node, Problem};
use crate::geometry::{self, Frame, Spot};
use crate::ids::FootingId;
use crate::loads::{Weights, heaviest};
use crate::plan::{Footing, FootingMake, FootingShape, Plan, Point, Side};
use crate::units::{Psf, SquareFeet};

/// Lands everything that comes down from the lowest level.
pub(super) fn land(plan: &Plan, around: &Around<'_>, falling: &Falling, findings: &mut Vec<Finding>) -> Vec<Landing> {
    let level = around.level;
    let mut landings = Vec::new();
    let near = Near::of(level.footings.iter().map(reaches));
    // The first in the list that is under a place.
    let first = |at: Spot, is_under: &dyn Fn(&Footing) -> bool| {
        let mut footings = near.all(&extent([at])).into_iter().filter_map(|i| level.footings.get(i));
        footings.find(|footing| is_under(footing)).map(|footing| footing.id)
    };
    let mut find = |at: Point, problem: Problem, weights: Weights| {
        findings.push(Finding { level: level.id, at: Spot::from(at), problem, weights: Some(weights) });
    };
    for wall in &falling.walls {
        let on = first(middle(wall.a, wall.b), &|footing| under_wall(footing, wall.a, wall.b));
        let inside = around.wall(wall.wall).is_some_and(|it| it.side == Side::Inside);
        if inside && on.is_none() && wall.origin.is_some() {
            find(wall.a, Problem::WallWithoutFooting { wall: wall.wall }, wall.total());
        }
        landings.push(Landing { from: Node::Wall(wall.wall), on, weights: wall.total(), pressure: None });
    }
    for post in &falling.posts {
        // A pad under a post was put there for it, also where a strip runs past.
        let is_pad = |footing: &Footing| matches!(footing.shape, FootingShape::Pad { .. });
        let pad = first(post.at.into(), &|footing| is_pad(footing) && under_post(footing, post.at));
        let on = pad.or_else(|| first(post.at.into(), &|footing| under_post(footing, post.at)));
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
    if plan.site().has_no_soil_figure()
        && let Some(first) = level.walls.first()
    {
        findings.push(Finding {
            level: level.id,
            at: Spot::from(first.a),
            problem: Problem::SoilHasNoFigure,
            weights: None,
        });
    }
    let mut find = |at: Point, problem: Problem, weights: Weights| {
        findings.push(Finding { level: level.id, at: Spot::from(at), problem, weights: Some(weights) });
    };
    let mut on_it: BTreeMap<FootingId, Vec<usize>> = BTreeMap::new();
    for (i, landing) in landings.iter().enumerate() {
        if let Some(footing) = landing.on {
            on_it.entry(footing).or_default().push(i);
        }
    }
    for footing in &level.footings {
        let on_it = on_it.get(&footing.id).map(Vec::as_slice).unwrap_or_default();
        let all = on_it.iter().filter_map(|i| landings.get(*i));
        let total = all.fold(Weights::default(), |sum, it| sum + it.weights);
        let pressure = pressure(plan, footing, total);
        let allowed = plan.site().soil();
        if pressure > allowed {
            let at = match footing.shape {
                FootingShape::Pad { at, .. } => at,
                FootingShape::Strip { a, .. } => a,
            };
            find(at, Problem::SoilOverloaded { footing: footing.id, pressure, allowed }, total);
        }
        for i in on_it {
            if let Some(landing) = landings.get_mut(*i) {
                landing.pressure = Some(pressure);
            }
        }
    }
    landings
}

/// A box in which all is that a footing may be under.
fn reaches(footing: &Footing) -> Extent {
    match footing.shape {
        FootingShape::Pad { at, side } => extent([at.into()]).grown(side.feet().0),
        FootingShape::Strip { a, b, width } => extent([a.into(), b.into()]).grown(width.feet().0 + 2.0 * EPS),
    }
}

fn middle(a: Point, b: Point) -> Spot {
    Spot { x: (a.x.feet() + b.x.feet()) / 2.0, y: (a.y.feet() + b.y.feet()) / 2.0 }
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
    let ((from, line), (t, s)) = (strip.local(Spot::from(start)), strip.local(middle(a, b)));
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
