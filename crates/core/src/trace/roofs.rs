//! Roofs: every rafter and truss laid, and what they hand to the walls, beams, purlins and posts that hold them.
//!
//! A rafter is a member on what is under it: the wall at its foot, purlins, low walls up to it, and at its head a ridge
//! beam, a hip or the rafter opposite. Two rafters that lean on each other at a ridge board do not rest there: what comes
//! together at the board goes down their own lengths to their feet, by the lever rule, and the ties hold the feet
//! together. Without anything in between that is one simple span from eave to eave, or, where a valley cuts the pair, from
//! eave to valley: a jack brings each of its ends half of its load, and what comes together at the board goes on by the
//! lever rule. Only so do upright forces alone balance: whatever pushes sideways comes down at the height of the plate.

use crate::geometry::{self, Frame, Position, Spot};
use crate::ids::RoofId;
use crate::loads::{AreaLoads, LineLoads, Weights};
use crate::order::InOrder as _;
use crate::plan::{Level, Point, Roof, RoofFrame};
use crate::units::{Feet, Pounds, Psf};

use super::around::extent;
use super::bar::Bearer;
use super::down::shared;
use super::place;
use super::seats::PARALLEL;
use super::storey::Storey;
use super::strips::Cover;
use super::{Node, Problem, RibTrace, RoofTrace};
use meet::Meetings;
use ribs::{Gathered, Ribs};
use shape::Shape;

mod dormers;
mod hand;
mod lay;
mod meet;
mod ribs;
mod shape;
mod valleys;

/// Lays and solves the roofs of a level; walls and posts of the level above may hold them too.
pub(super) fn roofs<'a>(here: &mut Storey<'a>, mut above: Option<&mut Storey<'a>>) -> Vec<RoofTrace> {
    let level = here.level;
    let mut riders: Vec<Rider> = level.roofs.iter().filter_map(|roof| Rider::of(level, roof)).collect();
    for rider in &riders {
        here.own += rider.weight;
    }
    let mut joined = Joined::of(Meetings::of(level));
    // Wings first: what their valleys gather, the main roof takes on.
    let mut order: Vec<(usize, &Roof)> = level.roofs.iter().enumerate().collect();
    order.order_by_key(|(number, _)| joined.meetings.of_wing(*number).is_none());
    let mut traces = Vec::with_capacity(level.roofs.len());
    for (number, roof) in order {
        traces.push((number, one(here, above.as_deref_mut(), number, roof, &mut riders, &mut joined)));
    }
    joined.close(here);
    traces.order_by_key(|(number, _)| *number);
    for (wing, rib) in joined.ribs {
        if let Some((_, trace)) = traces.get_mut(wing) {
            trace.ribs.push(rib);
        }
    }
    for rider in riders {
        let left = rider.weight - rider.laid;
        if left.all().0 > 1e-6 * rider.weight.all().0.max(1.0) {
            here.find(rider.at, Problem::RoofUnsupported { roof: rider.roof, count: 1 }, Some(left));
        }
        here.lose(Node::Roof(rider.roof), None, left);
    }
    traces.into_iter().map(|(_, trace)| trace).collect()
}

/// What roofs that meet in valleys hand to each other.
#[derive(Default)]
struct Joined {
    meetings: Meetings,
    /// By meeting.
    gathered: Vec<Gathered>,
    /// Valleys as solved, with the number of their wing.
    ribs: Vec<(usize, RibTrace)>,
}

impl Joined {
    fn of(meetings: Meetings) -> Self {
        let gathered = meetings.all.iter().map(Gathered::of).collect();
        Self { meetings, gathered, ribs: Vec::new() }
    }

    /// What no main roof took on, since others cover all of it, is lost.
    fn close(&self, here: &mut Storey<'_>) {
        for (meeting, gathered) in self.meetings.all.iter().zip(&self.gathered) {
            let left = gathered.total();
            if let Some(roof) = here.level.roofs.get(meeting.wing).filter(|_| left.all().0.abs() > 0.0) {
                here.find(meeting.apex, Problem::RoofUnsupported { roof: roof.id, count: 1 }, Some(left));
                here.lose(Node::Roof(roof.id), None, left);
            }
        }
        for roof in self.meetings.not_made.iter().filter_map(|number| here.level.roofs.get(*number)) {
            let at = here.level.polygons(&roof.region).first().and_then(|it| it.first()).copied();
            here.find(at.map(Spot::from).unwrap_or_default(), Problem::ValleyNotMade { roof: roof.id }, None);
        }
    }
}

/// A roof that is built on another one.
struct Rider {
    roof: RoofId,
    polygons: Vec<Vec<Spot>>,
    dead: Psf,
    weight: Weights,
    laid: Weights,
    at: Spot,
}

impl Rider {
    fn of(level: &Level, roof: &Roof) -> Option<Self> {
        if roof.frame != RoofFrame::OverFramed {
            return None;
        }
        let polygons = shape::spots(&level.polygons(&roof.region));
        let cover = Cover::of(&Frame::of(roof.ridge), &polygons, &[]);
        let dead = roof.weighs() * slope_factor(roof.rise.inches() / 12.0);
        let weight = Weights { dead: Pounds(dead.0 * cover.area()), ..Weights::default() };
        let at = polygons.first().and_then(|it| it.first()).copied()?;
        Some(Self { roof: roof.id, polygons, dead, weight, laid: Weights::default(), at })
    }
}

/// Length on the slope for a foot on plan.
fn slope_factor(rise_per_run: f64) -> f64 {
    (1.0 + rise_per_run * rise_per_run).sqrt()
}

/// One roof while it is traced.
struct Work<'w, 'a> {
    here: &'w mut Storey<'a>,
    above: Option<&'w mut Storey<'a>>,
    roof: &'a Roof,
    /// Its place in the level's list.
    number: usize,
    joined: &'w mut Joined,
    node: Node,
    /// On a foot of plan but for dead load and snow, which hang on the slope.
    psf: AreaLoads,
    dead_on_slope: Psf,
    ribs: Ribs,
    trace: RoofTrace,
    unsupported: (usize, Weights, Option<Spot>),
    /// Slivers that stand on nothing, each with its place.
    slivers: Vec<(Weights, Spot)>,
    /// What rafters stand on, and where.
    stands: Vec<(Bearer, f64, Spot)>,
    /// Pairs that lean on each other with no joist along them.
    untied: (usize, Option<Spot>),
    /// A change of slope with nothing under it.
    unheld: Option<Spot>,
    /// The end of a ridge with nothing under the hips that meet there.
    top_not_held: Option<Spot>,
    /// Wings whose valleys meet with nothing under them.
    open_valleys: Vec<(RoofId, Spot)>,
    /// Of the ridge, over the plate.
    ridge_height: f64,
    /// The fields that run along the rafters.
    ties: Vec<&'a [Vec<Point>]>,
}

fn one<'a>(
    here: &mut Storey<'a>,
    above: Option<&mut Storey<'a>>,
    number: usize,
    roof: &'a Roof,
    riders: &mut [Rider],
    joined: &mut Joined,
) -> RoofTrace {
    let rise = roof.rise.inches() / 12.0;
    let dead_on_slope = roof.weighs();
    let trace = RoofTrace {
        level: here.level.id,
        roof: roof.id,
        span: Feet::ZERO,
        thrust: LineLoads::default(),
        dead_on_plan: dead_on_slope * slope_factor(rise),
        ribs: Vec::new(),
    };
    if roof.frame == RoofFrame::OverFramed {
        let at = here.level.polygons(&roof.region).first().and_then(|it| it.first()).copied();
        here.find(at.map(Spot::from).unwrap_or_default(), Problem::RoofOverRoof { roof: roof.id }, None);
        return trace;
    }
    let Some(shape) = Shape::of(here.level, number, &joined.meetings) else { return trace };
    let site = *here.plan.site();
    let psf = AreaLoads { roof_live: site.roof_live(), ..AreaLoads::default() };
    let level = here.level;
    let rafters = Frame::of(roof.ridge.square());
    let ties = level.fields.iter().filter(|field| Frame::of(field.along).squareness(&rafters) < PARALLEL);
    let around = here.around;
    let ties = ties.map(|field| around.polygons(&field.region)).collect();
    let ribs = Ribs::of(here, above.as_deref(), number, roof, &shape, joined);
    let node = Node::Roof(roof.id);
    let mut work = Work {
        here,
        above,
        roof,
        number,
        joined,
        node,
        psf,
        dead_on_slope,
        ribs,
        trace,
        unsupported: Default::default(),
        slivers: Vec::new(),
        stands: Vec::new(),
        untied: Default::default(),
        unheld: None,
        top_not_held: None,
        open_valleys: Vec::new(),
        ridge_height: shape.section.top(),
        ties,
    };
    work.weigh(&shape);
    for facet in &shape.facets {
        work.lay(facet, riders);
    }
    work.hand_on(&shape);
    work.hand_over();
    work.give_slivers();
    work.find(&shape);
    work.trace
}

impl Work<'_, '_> {
    /// Load on a foot of plan where the slope has this rise.
    fn psf_at(&self, rise_per_run: f64) -> AreaLoads {
        let snow = self.here.plan.site().roof_snow(rise_per_run);
        AreaLoads { dead: self.dead_on_slope * slope_factor(rise_per_run), snow, ..self.psf }
    }

    /// Gives slivers to where the nearest neighbour stands.
    fn give_slivers(&mut self) {
        for (weights, at) in core::mem::take(&mut self.slivers) {
            let nearest = place::nearest(&self.stands, at);
            if nearest.is_empty() {
                self.here.lose(self.node, None, weights);
            }
            let weights = shared(weights, &nearest);
            for (on, along) in nearest {
                self.put_point(self.node, on, along, weights);
            }
        }
    }

    /// What is put on, from the areas of the plan.
    fn weigh(&mut self, shape: &Shape) {
        let (mut sum, mut rest) = (Weights::default(), shape.whole.area());
        let parts = shape.section.parts();
        let first = parts.first().map_or(0.0, |part| part.2);
        let eave = self.psf_at(first);
        for (from, to, rise) in parts.iter().copied().skip(1) {
            let area = shape.whole.area_between(from, to);
            // Equal slopes, the usual case, are one area.
            if (slope_factor(rise) - slope_factor(first)).abs() > 1e-12 {
                rest -= area;
                sum += self.psf_at(rise).map(|psf| Pounds(psf.0 * area));
            }
        }
        sum += eave.map(|psf| Pounds(psf.0 * rest));
        let last = self.psf_at(parts.last().map_or(0.0, |part| part.2));
        let (near, far) = shape.whole.ends();
        sum += eave.map(|psf| Pounds(psf.0 * near * shape.overhang));
        sum += last.map(|psf| Pounds(psf.0 * far * shape.overhang));
        sum +=
            shape.facets.iter().flat_map(|facet| &facet.dormers).fold(Weights::default(), |all, it| all + it.walls());
        self.here.own += sum;
    }

    /// What the roof leaves open.
    fn find(&mut self, shape: &Shape) {
        let roof = self.roof.id;
        let top = shape.ridge.map(|(a, b)| Spot { x: (a.x + b.x) / 2.0, y: (a.y + b.y) / 2.0 });
        let top = top.or(self.unsupported.2).unwrap_or_default();
        if let (count, weights, Some(at)) = self.unsupported {
            self.here.find(at, Problem::RoofUnsupported { roof, count }, Some(weights));
        }
        if self.roof.frame == RoofFrame::RidgeBoard && self.roof.is_too_flat_for_a_board() {
            self.here.find(top, Problem::RidgeBoardTooFlat { roof }, None);
        }
        if let (count, Some(at)) = self.untied
            && self.roof.frame == RoofFrame::RidgeBoard
        {
            self.here.find(at, Problem::ThrustNotTied { roof, count }, None);
        }
        if let Some(at) = self.unheld {
            self.here.find(at, Problem::GambrelBreakNotHeld { roof }, None);
        }
        if let Some(at) = self.top_not_held {
            self.here.find(at, Problem::HipTopNotHeld { roof }, None);
        }
        for (wing, at) in core::mem::take(&mut self.open_valleys) {
            self.here.find(at, Problem::ValleyTopNotHeld { roof: wing }, None);
        }
        if shape.openings_left > 0 {
            self.here.find(top, Problem::RoofOpeningNotFramed { roof }, None);
        }
        if shape.not_a_rectangle {
            self.here.find(top, Problem::HipNotOverRectangle { roof }, None);
        }
    }

    /// Whether joists along the rafters tie their feet at a place.
    fn tied_at(&self, at: Spot) -> bool {
        let (x, y) = (crate::units::Ticks::from_decimal_feet(at.x), crate::units::Ticks::from_decimal_feet(at.y));
        let (Some(x), Some(y)) = (x, y) else { return true };
        let at = Point::new(x, y);
        self.ties.iter().copied().flatten().any(|polygon| geometry::position(polygon, at) != Position::Outside)
    }
}

/// Which roofs of a level cover a place.
pub(super) fn over(storey: &Storey<'_>, at: Point) -> Vec<RoofId> {
    let covers = |roof: &&Roof| {
        let polygons = storey.around.polygons(&roof.region);
        polygons.iter().any(|it| geometry::position(it, at) != Position::Outside)
    };
    storey.around.roofs(&extent([at.into()])).filter(covers).map(|roof| roof.id).collect()
}

/// How high the rafters of one roof stand over the plate.
pub(super) struct Heights(Shape);

/// The heights of roof `number` of a level.
pub(super) fn heights(level: &Level, number: usize) -> Option<Heights> {
    Shape::of(level, number, &Meetings::of(level)).map(Heights)
}

impl Heights {
    /// Where a place lies along the rafters.
    pub(super) fn along(&self, at: Spot) -> f64 {
        self.0.frame.local(at).0.0
    }

    /// The height there, in feet.
    pub(super) fn at(&self, along: f64) -> f64 {
        self.0.section.height(along)
    }

    /// Where the slope changes.
    pub(super) fn changes(&self) -> impl Iterator<Item = f64> {
        self.0.section.stops()
    }
}
