//! Rules that decide ties, as laws: whose a place is, what a corner gets, what is too little to be found.

use geo::{Contains, Coord, LineString, Point as Place, Polygon};
use joistwise_core::draft::draft;
use joistwise_core::geometry::Spot;
use joistwise_core::loads::Kind;
use joistwise_core::path::{Start, path};
use joistwise_core::plan::{Plan, PlanFile, Point, RoofForm, Way};
use joistwise_core::trace::{Problem, Role, Trace, WallTrace, trace};
use joistwise_core::units::{Feet, Pounds, Ticks};

/// A load and "nothing found" are never together.
pub(super) fn nothing_found_is_empty(trace: &Trace) -> Result<(), String> {
    for wall in &trace.walls {
        for it in wall.stretches.iter().filter(|it| it.role == Role::NothingFound) {
            let lb = on_stretch_lb(wall, it.start, it.end);
            if lb > 1e-6 {
                return Err(format!(
                    "wall {}: nothing found from {:?} to {:?}, and {lb} lb there",
                    wall.wall.number(),
                    it.start,
                    it.end
                ));
            }
        }
    }
    Ok(())
}

/// All that lands on a stretch, whatever its kind and way; a point right at its end belongs to the neighbour.
fn on_stretch_lb(wall: &WallTrace, start: Feet, end: Feet) -> f64 {
    let of = |get: &dyn Fn(Kind) -> f64| Kind::ALL.iter().map(|kind| get(*kind).abs()).sum::<f64>();
    let line = wall.line.iter().map(|part| {
        let run = (part.end.min(end) - part.start.max(start)).0.max(0.0);
        run * of(&|kind| part.loads.get(kind).0)
    });
    let inside = |at: Feet| at.0 > start.0 + 1e-6 && at.0 < end.0 - 1e-6;
    let points = wall.points.iter().filter(|it| inside(it.at));
    line.sum::<f64>() + points.map(|it| of(&|kind| it.weights.get(kind).0)).sum::<f64>()
}

/// What has nowhere to go is a finding from a pound on; a ring of beams is one whatever it holds.
pub(super) fn no_sliver_is_found(trace: &Trace) -> Result<(), String> {
    let ring = |problem: &Problem| matches!(problem, Problem::BeamLoop { .. });
    let little = trace.path_gaps().filter(|it| !ring(&it.problem)).find(|it| {
        it.weights.is_some_and(|weights| Kind::ALL.iter().map(|kind| weights.get(*kind).0.abs()).sum::<f64>() < 1.0)
    });
    little.map_or(Ok(()), |it| Err(format!("found under a pound: {:?} {:?}", it.problem, it.weights)))
}

/// A weight put down on a deck lies on joists of the last field whose region holds it.
pub(super) fn place_is_its_fields(plan: &Plan, trace: &Trace, at: (f64, f64)) -> Result<(), String> {
    for level in plan.levels() {
        let corners = level.outlines().concat();
        let extent = |of: fn(&Point) -> Ticks| {
            let all = || corners.iter().map(|it| of(it).feet().0);
            (all().fold(f64::INFINITY, f64::min), all().fold(f64::NEG_INFINITY, f64::max))
        };
        let (x, y) = (extent(|it| it.x), extent(|it| it.y));
        if x.0 > x.1 {
            continue;
        }
        let spot = Spot { x: Feet(x.0 + (x.1 - x.0) * at.0), y: Feet(y.0 + (y.1 - y.0) * at.1) };
        let holds = |corners: &[Point]| {
            let ring = corners.iter().map(|it| Coord { x: it.x.feet().0, y: it.y.feet().0 }).collect();
            Polygon::new(LineString::new(ring), Vec::new()).contains(&Place::new(spot.x.0, spot.y.0))
        };
        let owner = level.fields.iter().rev().find(|it| level.polygons(&it.region).iter().any(|it| holds(it)));
        let opened = level.floor_openings.iter().any(|it| holds(&it.corners));
        let Some(owner) = owner.filter(|_| !opened) else { continue };
        let start = Start::Deck { level: level.id, at: spot, weight: Pounds(1000.0) };
        let Some(path) = path(plan, trace, &start) else { return Err(format!("no path from {spot:?}")) };
        if let Some(other) = path.joists.iter().find(|it| it.field != owner.id) {
            return Err(format!("{spot:?} is over field {:?} and lies on {:?}", owner.id, other.field));
        }
    }
    Ok(())
}

/// A hip over a rectangle with posts on its four corners: each two walls that face each other carry the same, whichever was drawn
/// first.
pub(super) fn hip_is_even(size: (i32, i32), roof: (i32, i32, f64), turn: usize) -> Result<(), String> {
    let (rise, overhang, spacing) = roof;
    let inches = |inches: i32| Ticks::new(inches * Ticks::PER_INCH);
    let mut house = draft().outside(30, 20).up().outside(30, 20).roof(Way::X, 0).over(|it| {
        (it.form, it.rise, it.overhang) = (RoofForm::Hip, inches(rise), inches(overhang));
        it.spacing = Ticks::from_inches(spacing).expect("inches");
    });
    for _ in 0..4 {
        house = house.post("", (0, 0));
    }
    let mut file: PlanFile = house.file();
    let corners = [(0, 0), (size.0, 0), size, (0, size.1)].map(|(x, y)| Point::new(inches(x), inches(y)));
    for level in &mut file.levels {
        for (number, wall) in level.walls.iter_mut().enumerate() {
            let side = number + turn;
            (wall.a, wall.b) = (corners[side % 4], corners[(side + 1) % 4]);
        }
        level.posts.iter_mut().zip(corners).for_each(|(post, at)| post.at = at);
    }
    let plan = Plan::try_from(file).map_err(|error| error.to_string())?;
    let trace = trace(&plan);
    for four in trace.walls.chunks(4) {
        for (one, other) in [(0, 2), (1, 3)] {
            let (one, other) = (four[one].top.all().0, four[other].top.all().0);
            if (one - other).abs() > 1e-6 * one.abs().max(1.0) {
                return Err(format!("{one} lb on one side, {other} lb on the other"));
            }
        }
    }
    Ok(())
}
