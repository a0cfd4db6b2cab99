//! What of the plan is under the pointer, and the handles of what is chosen.

use joistwise_core::geometry::{self, Position, Spot};
use joistwise_core::ids::ElementId;
use joistwise_core::plan::{FootingShape, Level, Plan, Point, WallEnd};
use joistwise_core::snap::grid_point;
use joistwise_core::units::{Feet, Ticks};

use super::body::{Body, bodies};
use super::decks::CUT;
use super::joists::arrows;
use super::members::member_width;
use super::roofs::ridges;
use super::vector::{distance, holds, sides};
use crate::view::{Layer, Screen, View, ViewState};

/// An end of a wall or beam that can be dragged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Handle {
    /// The wall or beam.
    pub element: ElementId,
    /// Which of its ends.
    pub end: WallEnd,
}

/// The part of the level on the sheet that is within reach of a place of the canvas: posts, beams and openings first,
/// then walls, footings and openings of the deck, then joists and roofs by their arrow and ridge. Of one kind the
/// nearest, and of equally near ones the last drawn.
#[must_use]
pub fn part_at(plan: &Plan, state: &ViewState, at: Screen, reach_px: f64) -> Option<ElementId> {
    let level = plan.level(state.level)?;
    let view = &state.view;
    let bodies = bodies(level, &level.outlines(), view);
    let kinds = [
        observations,
        posts,
        cuts,
        beams,
        openings,
        boards,
        walls,
        purlins,
        footings,
        floor_openings,
        things,
        fields,
        roofs,
    ];
    let near = Near { level, view, bodies: &bodies, roof: state.roof, at, reach: reach_px.max(0.0) };
    kinds.into_iter().find_map(|kind| near.nearest(kind(&near)))
}

/// The place of a bare deck under a place of the canvas, to the inch: joists of the level on the sheet lie over it.
#[must_use]
pub fn deck_at(plan: &Plan, state: &ViewState, at: Screen) -> Option<Point> {
    let level = plan.level(state.level)?;
    let at = grid_point(state.view.plan_from_screen(at), Ticks::from_sixteenths(16))?;
    let over = |corners: &[Point]| geometry::position(corners, at) != Position::Outside;
    let covered = level.fields.iter().any(|field| level.polygons(&field.region).iter().any(|it| over(it)));
    let open = level.floor_openings.iter().any(|opening| over(&opening.corners));
    (covered && !open).then_some(at)
}

/// What is needed to say how far each part is from a place.
struct Near<'a> {
    level: &'a Level,
    view: &'a View,
    bodies: &'a [Body],
    roof: Layer,
    at: Screen,
    reach: f64,
}

/// Parts of one kind with their distances in CSS pixels; zero on the part itself.
type Distances = Vec<(ElementId, f64)>;

impl Near<'_> {
    fn nearest(&self, parts: Distances) -> Option<ElementId> {
        let within = parts.into_iter().filter(|(_, off)| *off <= self.reach);
        within.rev().min_by(|a, b| a.1.total_cmp(&b.1)).map(|(part, _)| part)
    }

    fn to(&self, spot: impl Into<Spot>) -> Screen {
        self.view.screen_from_plan(spot.into())
    }

    fn px(&self, feet: Feet) -> f64 {
        feet.0 * self.view.scale
    }

    /// How far outside a line of some thickness the place is.
    fn off(&self, a: Screen, b: Screen, half: f64) -> f64 {
        (distance(self.at, a, b) - half).max(0.0)
    }

    /// How far outside a polygon the place is.
    fn outside(&self, corners: &[Screen]) -> f64 {
        if holds(corners, self.at) {
            return 0.0;
        }
        sides(corners).map(|(a, b)| distance(self.at, a, b)).fold(f64::INFINITY, f64::min)
    }
}

fn observations(near: &Near) -> Distances {
    let all = near.level.observations.iter();
    all.map(|seen| {
        let at = near.to(seen.at);
        let off = near.off(at, at, super::seen::RADIUS);
        // A mark on a wall leaves the wall its share of the reach.
        (ElementId::Observation(seen.id), if off > near.reach * 0.4 { f64::INFINITY } else { off })
    })
    .collect()
}

fn posts(near: &Near) -> Distances {
    let all = near.level.posts.iter();
    all.map(|post| {
        let at = near.to(post.at);
        (ElementId::Post(post.id), near.off(at, at, (near.view.scale * 0.25).max(5.0)))
    })
    .collect()
}

fn beams(near: &Near) -> Distances {
    let all = near.level.beams.iter();
    all.map(|beam| {
        let half = near.px(member_width(&beam.member)).max(5.0) / 2.0;
        // A beam over a wall leaves the wall its share of the reach.
        let off = near.off(near.to(beam.a), near.to(beam.b), half);
        (ElementId::Beam(beam.id), if off > near.reach * 0.6 { f64::INFINITY } else { off })
    })
    .collect()
}

fn openings(near: &Near) -> Distances {
    let all = near.level.openings.iter().filter_map(|opening| {
        let body = near.bodies.iter().find(|body| body.wall == opening.wall)?;
        let from = near.px(opening.offset.feet());
        let to = from + near.px(opening.width.feet());
        let (a, b) = (body.at(from, body.middle()), body.at(to, body.middle()));
        // Only between its jambs: beyond them is wall.
        let along = (near.at - body.a).dot(body.along);
        let between = along >= from && along <= to;
        Some((
            ElementId::Opening(opening.id),
            if between { near.off(a, b, body.thickness() / 2.0) } else { f64::INFINITY },
        ))
    });
    all.collect()
}

fn walls(near: &Near) -> Distances {
    let all = near.bodies.iter();
    all.map(|body| {
        let (a, b) = (body.at(0.0, body.middle()), body.at(body.length, body.middle()));
        (ElementId::Wall(body.wall), near.off(a, b, body.thickness() / 2.0))
    })
    .collect()
}

fn footings(near: &Near) -> Distances {
    let all = near.level.footings.iter();
    all.map(|footing| {
        let off = match footing.shape {
            FootingShape::Pad { at, side } => {
                near.outside(&super::members::square_around(near.to(at), near.px(side.feet())))
            }
            FootingShape::Strip { a, b, width } => near.off(near.to(a), near.to(b), near.px(width.feet()) / 2.0),
        };
        (ElementId::Footing(footing.id), off)
    })
    .collect()
}

fn floor_openings(near: &Near) -> Distances {
    let all = near.level.floor_openings.iter();
    all.map(|opening| {
        let corners: Vec<Screen> = opening.corners.iter().map(|corner| near.to(*corner)).collect();
        (ElementId::FloorOpening(opening.id), near.outside(&corners))
    })
    .collect()
}

fn purlins(near: &Near) -> Distances {
    let all = near.level.purlins.iter().filter(|_| near.roof == Layer::Shown);
    all.map(|purlin| (ElementId::Purlin(purlin.id), near.off(near.to(purlin.a), near.to(purlin.b), 3.0))).collect()
}

fn cuts(near: &Near) -> Distances {
    let all = near.level.cuts.iter();
    all.map(|cut| {
        let at = near.to(cut.at);
        let off = near.off(at, at, CUT);
        // A small mark on bare joists leaves them most of the reach.
        (ElementId::JoistCut(cut.id), if off > near.reach * 0.4 { f64::INFINITY } else { off })
    })
    .collect()
}

fn boards(near: &Near) -> Distances {
    let all = near.level.boards.iter();
    // A board over a wall leaves the wall most of the reach.
    all.map(|board| {
        let off = near.off(near.to(board.a), near.to(board.b), 1.0);
        (ElementId::Board(board.id), if off > near.reach * 0.4 { f64::INFINITY } else { off })
    })
    .collect()
}

fn things(near: &Near) -> Distances {
    let all = near.level.things.iter();
    all.map(|thing| {
        let corners: Vec<Screen> = thing.corners.iter().map(|corner| near.to(*corner)).collect();
        (ElementId::Thing(thing.id), near.outside(&corners))
    })
    .collect()
}

fn fields(near: &Near) -> Distances {
    let all = near.level.fields.iter().flat_map(|field| {
        let arrows = arrows(near.level, field);
        arrows.into_iter().map(|arrow| (ElementId::Field(field.id), near.off(near.to(arrow.a), near.to(arrow.b), 4.0)))
    });
    all.collect()
}

fn roofs(near: &Near) -> Distances {
    let all = near.level.roofs.iter().filter(|_| near.roof == Layer::Shown).flat_map(|roof| {
        let ridges = ridges(near.level, roof);
        ridges.into_iter().map(|(a, b)| (ElementId::Roof(roof.id), near.off(near.to(a), near.to(b), 2.0)))
    });
    all.collect()
}

/// The handles of the chosen wall or beam, with their places on the canvas.
#[must_use]
pub fn handles(plan: &Plan, state: &ViewState) -> Vec<(Screen, Handle)> {
    let Some(level) = plan.level(state.level) else {
        return Vec::new();
    };
    let Some(element) = state.chosen else {
        return Vec::new();
    };
    let ends = match element {
        ElementId::Wall(id) => level.wall(id).map(|wall| (wall.a, wall.b)),
        ElementId::Beam(id) => level.beams.iter().find(|beam| beam.id == id).map(|beam| (beam.a, beam.b)),
        ElementId::Purlin(id) => level.purlins.iter().find(|it| it.id == id).map(|purlin| (purlin.a, purlin.b)),
        ElementId::Board(id) => level.boards.iter().find(|it| it.id == id).map(|board| (board.a, board.b)),
        _ => None,
    };
    let handle = |at, end| (state.view.screen_from_plan(Spot::from(at)), Handle { element, end });
    ends.map(|(a, b)| vec![handle(a, WallEnd::A), handle(b, WallEnd::B)]).unwrap_or_default()
}
