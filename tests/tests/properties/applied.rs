//! What is put on a house, counted a second time: bodies and areas of the plan by plane geometry, with nothing of the trace's own
//! geometry. The ledger closes also when a weight is never put on; this count shows it.
//!
//! Areas are measured in the sheet's own x and y, in bands from corner to corner and crossing to crossing, whatever way the
//! joists lie: exact but for rounding.

use std::collections::BTreeSet;

use geo::algorithm::line_intersection::{LineIntersection, line_intersection};
use geo::coordinate_position::{CoordPos, CoordinatePosition};
use geo::{Coord, Line, LineString, Polygon, Winding};
use joistwise_core::geometry;
use joistwise_core::loads::{AreaLoads, Weights, deck_dead, live, roof_dead, wall_dead};
use joistwise_core::plan::{
    Gable, JoistField, Level, Make, Meets, Over, Plan, PlanFile, Point, Roof, RoofForm, RoofFrame, Side, Wall,
};
use joistwise_core::trace::{RibKind, Trace};
use joistwise_core::units::{Pounds, Psf, Ticks};

use super::balance::equal;
use super::turn;

/// Corners that are off a rectangle by less than this are on it, in feet: an eighth of an inch, the trace's own rule.
const ON_RECTANGLE: f64 = 1.0 / 96.0;
/// An edge this near another one lies on it, in feet, as in the trace.
const ON_EDGE: f64 = 1e-7;
/// A wall this nearly along the rafters closes the end of a roof, by the sine of the angle between them.
const ALONG: f64 = 0.05;
/// A roof that ends this near a wall is over it, in feet: a sixteenth of an inch.
const OVER: f64 = 1.0 / 192.0;

type Outline = Vec<Coord<f64>>;

/// The area of what lies in the first group of outlines and in none of the others; where outlines of one group lie over each
/// other they cancel.
fn area(groups: &[Vec<Outline>]) -> f64 {
    let mut sides: Vec<(usize, Coord<f64>, Coord<f64>)> = Vec::new();
    for (group, outline) in groups.iter().enumerate().flat_map(|(i, all)| all.iter().map(move |it| (i, it))) {
        for (a, b) in outline.iter().zip(outline.iter().cycle().skip(1)) {
            match a.x.total_cmp(&b.x) {
                core::cmp::Ordering::Less => sides.push((group, *a, *b)),
                core::cmp::Ordering::Greater => sides.push((group, *b, *a)),
                core::cmp::Ordering::Equal => {}
            }
        }
    }
    let at = |(_, a, b): &(usize, Coord<f64>, Coord<f64>), x: f64| a.y + (b.y - a.y) * ((x - a.x) / (b.x - a.x));
    let mut stops: Vec<f64> = sides.iter().flat_map(|it| [it.1.x, it.2.x]).collect();
    for (i, one) in sides.iter().enumerate() {
        for other in sides.iter().skip(i + 1) {
            let (from, to) = (one.1.x.max(other.1.x), one.2.x.min(other.2.x));
            if from < to {
                let (before, after) = (at(one, from) - at(other, from), at(one, to) - at(other, to));
                if before * after < 0.0 {
                    stops.push(from + (to - from) * (before / (before - after)));
                }
            }
        }
    }
    stops.sort_by(f64::total_cmp);
    let mut area = 0.0;
    for pair in stops.windows(2).filter(|pair| pair[0] < pair[1]) {
        let middle = (pair[0] + pair[1]) / 2.0;
        let mut here: Vec<(f64, usize)> =
            sides.iter().filter(|it| it.1.x < middle && middle < it.2.x).map(|it| (at(it, middle), it.0)).collect();
        here.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut inside: BTreeSet<usize> = BTreeSet::new();
        for (n, (y, group)) in here.iter().enumerate() {
            if !inside.remove(group) {
                inside.insert(*group);
            }
            let next = here.get(n + 1).map_or(*y, |it| it.0);
            if inside.len() == 1 && inside.contains(&0) {
                area += (next - y) * (pair[1] - pair[0]);
            }
        }
    }
    area
}

fn outlines(polygons: &[Vec<Point>]) -> Vec<Outline> {
    polygons.iter().map(|corners| corners.iter().map(coord).collect()).collect()
}

/// Areas times psf, lengths times heights times psf, gables, weights of things: level by level, to a part in a billion.
pub(super) fn is_applied(plan: &Plan, trace: &Trace) -> Result<(), String> {
    let mut all = Weights::default();
    let tolerance = 1e-9 * trace.ledger.applied.all().0.max(1.0);
    for level in plan.levels() {
        let mut expected = Weights::default();
        for (number, field) in level.fields.iter().enumerate() {
            let mut groups = vec![outlines(&level.polygons(&field.region))];
            groups.extend(level.fields.iter().skip(number + 1).map(|it| outlines(&level.polygons(&it.region))));
            groups.extend(level.floor_openings.iter().map(|it| outlines(std::slice::from_ref(&it.corners))));
            expected += over(&field_psf(field), area(&groups));
        }
        for (number, roof) in level.roofs.iter().enumerate() {
            expected += roof_weight(plan, level, number, roof);
            expected += dormer_walls(trace, roof);
        }
        for thing in &level.things {
            expected += Weights::only(thing.kind.load(), thing.weighs().unwrap_or_default());
        }
        for wall in &level.walls {
            let psf = wall_dead(wall.side, wall.make, wall.thickness).value;
            let face = level.height_of(wall).feet() * geometry::length(wall.a, wall.b);
            let dead = Pounds(psf.0 * (face.0 + gable(level, wall)));
            expected += Weights { dead, ..Weights::default() };
        }
        all += expected;
        let row = trace.ledger.rows.iter().find(|row| row.level == level.id).ok_or("no row")?;
        equal(&format!("put on {}", level.name), row.own, expected, tolerance)?;
    }
    equal("applied", trace.ledger.applied, all, tolerance)
}

fn over(psf: &AreaLoads, square_feet: f64) -> Weights {
    psf.map(|psf| Pounds(psf.0 * square_feet))
}

fn field_psf(field: &JoistField) -> AreaLoads {
    let dead = field.dead.unwrap_or(deck_dead(field.used_as).value);
    let people = live(field.used_as).value;
    let (floor, attic) = if field.used_as.is_ceiling() { (Psf(0.0), people) } else { (people, Psf(0.0)) };
    AreaLoads { dead, floor, attic, ..AreaLoads::default() }
}

/// The walls of dormers that are framed: a front and two triangles, as light as outside walls.
fn dormer_walls(trace: &Trace, roof: &Roof) -> Weights {
    let ribs = trace.roofs.iter().filter(|it| it.roof == roof.id).flat_map(|it| &it.ribs);
    let headers: Vec<(f64, f64)> = ribs
        .filter(|rib| rib.kind == RibKind::Header)
        .map(|rib| ((rib.a.x.0 + rib.b.x.0) / 2.0, (rib.a.y.0 + rib.b.y.0) / 2.0))
        .collect();
    let mut square_feet = 0.0;
    for opening in &roof.openings {
        // Along the ridge and square to it.
        let (rx, ry) = (f64::from(roof.ridge.parts().0), f64::from(roof.ridge.parts().1));
        let length = (rx * rx + ry * ry).sqrt();
        let local = |x: f64, y: f64| ((x * rx + y * ry) / length, (y * rx - x * ry) / length);
        let (a, b) = (coord(&opening.from), coord(&opening.to));
        let (a, b) = (local(a.x, a.y), local(b.x, b.y));
        let own = |at: &(f64, f64)| {
            let (along, across) = local(at.0, at.1);
            let on = |edge: f64| (across - edge).abs() < 1e-6;
            (along - (a.0 + b.0) / 2.0).abs() < 1e-6 && (on(a.1) || on(b.1))
        };
        let framed = headers.iter().any(own) && opening.over != Over::Glass;
        let (wide, long) = ((a.0 - b.0).abs(), (a.1 - b.1).abs());
        square_feet += if framed { opening.front.feet().0 * (wide + long) } else { 0.0 };
    }
    let psf = wall_dead(Side::Outside, Make::Stud, Ticks::ZERO).value;
    Weights { dead: Pounds(psf.0 * square_feet), ..Weights::default() }
}

/// Dead load follows the slope, all else the plan; a hip's eaves go round its corners.
fn roof_weight(plan: &Plan, level: &Level, number: usize, roof: &Roof) -> Weights {
    let on_slope = roof.dead.unwrap_or(roof_dead().value);
    let factor = |rise: f64| (1.0 + rise * rise).sqrt();
    let site = plan.site();
    let psf = |rise: f64| AreaLoads {
        dead: on_slope * factor(rise),
        roof_live: site.roof_live(),
        snow: site.roof_snow(rise),
        ..AreaLoads::default()
    };
    let rise = roof.rise.inches() / 12.0;
    let valley = valley(level, number);
    let mut polygons = outlines(&level.polygons(&roof.region));
    if let Some(own) = &valley {
        polygons = vec![own.footprint.clone()];
    }
    if roof.frame == RoofFrame::OverFramed {
        return over(&AreaLoads { dead: on_slope * factor(rise), ..AreaLoads::default() }, area(&[polygons]));
    }
    // A wing comes after its main roof, wherever it is drawn.
    let rank = |number: usize, valley: &Option<Valley>| {
        valley.as_ref().map_or((number, 0, number), |it| (number.max(it.main), 1, number))
    };
    let mut later: Vec<Outline> = Vec::new();
    let mut eaves: Vec<Outline> = Vec::new();
    for (other, it) in level.roofs.iter().enumerate() {
        let wing = self::valley(level, other);
        if it.frame != RoofFrame::OverFramed && other != number && rank(other, &wing) > rank(number, &valley) {
            match wing {
                Some(wing) => {
                    eaves.extend((wing.main == number).then_some(wing.under_eaves));
                    later.push(wing.footprint);
                }
                None => later.extend(outlines(&level.polygons(&it.region))),
            }
        }
    }
    // Along its valleys a wing has no eaves.
    eaves.extend(valley.iter().map(|it| it.inside.clone()));
    let left = |whole: &[Outline], less: Option<Outline>| {
        let taken = later.iter().cloned().chain(less).map(|it| vec![it]);
        area(&core::iter::once(whole.to_vec()).chain(taken).collect::<Vec<_>>())
    };
    let local = |at: Coord<f64>| {
        let (rx, ry) = roof.ridge.parts();
        let (rx, ry) = (f64::from(rx), f64::from(ry));
        let length = (rx * rx + ry * ry).sqrt();
        ((at.x * rx + at.y * ry) / length, (at.y * rx - at.x * ry) / length)
    };
    let corners: Vec<(f64, f64)> = polygons.iter().flatten().map(|at| local(*at)).collect();
    let extent = |of: fn(&(f64, f64)) -> f64| {
        corners.iter().map(of).fold((f64::INFINITY, f64::NEG_INFINITY), |(lo, hi), it| (lo.min(it), hi.max(it)))
    };
    let ((s0, s1), (t0, t1)) = (extent(|it| it.0), extent(|it| it.1));
    let out = roof.overhang.feet().0;
    let back = |s: f64, t: f64| {
        let (rx, ry) = roof.ridge.parts();
        let (rx, ry) = (f64::from(rx), f64::from(ry));
        let length = (rx * rx + ry * ry).sqrt();
        Coord { x: (s * rx - t * ry) / length, y: (s * ry + t * rx) / length }
    };
    let rectangle = |s0: f64, s1: f64, t0: f64, t1: f64| vec![back(s0, t0), back(s1, t0), back(s1, t1), back(s0, t1)];
    let boxed = polygons.len() == 1 && corners.len() == 4 && {
        let on =
            |value: f64, (lo, hi): (f64, f64)| (value - lo).abs() < ON_RECTANGLE || (value - hi).abs() < ON_RECTANGLE;
        corners.iter().all(|it| on(it.0, (s0, s1)) && on(it.1, (t0, t1)))
    };
    if roof.form == RoofForm::Hip && boxed {
        return over(&psf(rise), left(&[rectangle(s0 - out, s1 + out, t0 - out, t1 + out)], None));
    }
    let stated = roof.ridge_at.map(|at| local(coord(&at)).1);
    let parts = slopes(roof, (t0, t1), stated);
    let whole = left(&polygons, None);
    let mut weight = Weights::default();
    for (from, to, rise) in &parts {
        let within = whole - left(&polygons, Some(rectangle(s0 - 1.0, s1 + 1.0, *from, *to)));
        weight += over(&psf(*rise), within);
    }
    // What hangs over: each side of the region seen along the rafters, but where another roof is at it.
    let (first, last) = (parts.first().expect("one").2, parts.last().expect("one").2);
    let plain = |corners: &Outline| {
        let mut polygon = Polygon::new(LineString::new(corners.clone()), Vec::new());
        polygon.exterior_mut(LineString::make_ccw_winding);
        polygon
    };
    let taken: Vec<Polygon<f64>> = later.iter().chain(&eaves).map(plain).collect();
    for polygon in polygons.iter().map(plain) {
        for side in polygon.exterior().lines() {
            for piece in clear(side, &taken) {
                let (a, b) = (local(piece.start), local(piece.end));
                // Corners go round to the left, so the side on which t is least runs with s.
                let rise = if a.0 < b.0 { first } else { last };
                weight += over(&psf(rise), (a.0 - b.0).abs() * out);
            }
        }
    }
    weight
}

/// The slopes across a roof, seen along the rafters: where each begins and ends, and how much it rises over a run of one.
fn slopes(roof: &Roof, (t0, t1): (f64, f64), stated: Option<f64>) -> Vec<(f64, f64, f64)> {
    let (rise, middle) = (roof.rise.inches() / 12.0, (t0 + t1) / 2.0);
    let ridge = stated.filter(|t| *t > t0 + 1e-6 && *t < t1 - 1e-6).unwrap_or(middle);
    let (long, short) = ((ridge - t0).max(t1 - ridge), (ridge - t0).min(t1 - ridge));
    let steep = rise * long / short;
    let (near, far) = if ridge - t0 >= t1 - ridge { (rise, steep) } else { (steep, rise) };
    match roof.form {
        RoofForm::Shed => vec![(t0, t1, rise)],
        RoofForm::Gable | RoofForm::Hip => vec![(t0, ridge, near), (ridge, t1, far)],
        RoofForm::Gambrel { lower_run, upper_rise } => {
            let run = lower_run.feet().0.min(0.9 * short);
            let upper = upper_rise.inches() / 12.0 * (long - run);
            vec![
                (t0, t0 + run, rise),
                (t0 + run, ridge, upper / (ridge - t0 - run)),
                (ridge, t1 - run, upper / (t1 - run - ridge)),
                (t1 - run, t1, rise),
            ]
        }
    }
}

/// Square feet of a gable end over the plate: under the slopes of the last roof over it, if the wall closes its end.
fn gable(level: &Level, wall: &Wall) -> f64 {
    if wall.side != Side::Outside || wall.gable == Gable::No {
        return 0.0;
    }
    let (a, b) = (coord(&wall.a), coord(&wall.b));
    let length = ((b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y)).sqrt();
    let way = ((b.x - a.x) / length, (b.y - a.y) / length);
    let middle = Coord { x: (a.x + b.x) / 2.0, y: (a.y + b.y) / 2.0 };
    let sides = [OVER, -OVER].map(|by| Coord { x: middle.x - way.1 * by, y: middle.y + way.0 * by });
    let covers = |corners: &Outline| {
        let polygon = Polygon::new(LineString::new(corners.clone()), Vec::new());
        sides.iter().any(|at| near(&polygon, *at))
    };
    let over = |roof: &&Roof| {
        roof.frame != RoofFrame::OverFramed && outlines(&level.polygons(&roof.region)).iter().any(covers)
    };
    let Some(number) = level.roofs.iter().rposition(|roof| over(&roof)) else { return 0.0 };
    let roof = &level.roofs[number];
    // Rafters lie square to the ridge.
    let (rx, ry) = (f64::from(roof.ridge.parts().0), f64::from(roof.ridge.parts().1));
    let ridge = (rx * rx + ry * ry).sqrt();
    let across = |at: &Coord<f64>| (at.y * rx - at.x * ry) / ridge;
    let sine = (way.0 * rx + way.1 * ry) / ridge;
    if !matches!(roof.form, RoofForm::Gable | RoofForm::Gambrel { .. }) || sine.abs() >= ALONG {
        return 0.0;
    }
    let corners = match valley(level, number) {
        Some(wing) => wing.footprint,
        None => outlines(&level.polygons(&roof.region)).concat(),
    };
    let eaves = corners.iter().map(across).fold((f64::INFINITY, f64::NEG_INFINITY), |it, t| (it.0.min(t), it.1.max(t)));
    let (from, to) = (across(&a).min(across(&b)), across(&a).max(across(&b)));
    let stated = roof.ridge_at.map(|at| across(&coord(&at)));
    let ridge = stated.filter(|t| *t > eaves.0 + 1e-6 && *t < eaves.1 - 1e-6).unwrap_or((eaves.0 + eaves.1) / 2.0);
    let (mut height, mut square_feet) = (0.0, 0.0);
    for (start, end, rise) in slopes(roof, eaves, stated) {
        let rise = if start < ridge - 1e-6 { rise } else { -rise };
        let (lo, hi) = (start.max(from), end.min(to));
        if lo < hi {
            let at = |t: f64| height + rise * (t - start);
            square_feet += (at(lo) + at(hi)) / 2.0 * (hi - lo);
        }
        height += rise * (end - start);
    }
    square_feet * length / (to - from)
}

/// Two gables that meet in valleys, from the plan alone: only where both lie along the sheet, as all that the houses draw.
struct Valley {
    main: usize,
    /// What the wing covers.
    footprint: Outline,
    /// Where the main roof has no eave: along the wing and under its overhang.
    under_eaves: Outline,
    /// The part of the main roof beside the valleys.
    inside: Outline,
}

fn valley(level: &Level, number: usize) -> Option<Valley> {
    let wing = level.roofs.get(number)?;
    if wing.meets.covers() {
        return None;
    }
    (0..level.roofs.len()).filter(|main| *main != number).find_map(|main| meet(level, wing, main))
}

fn meet(level: &Level, wing: &Roof, number: usize) -> Option<Valley> {
    let main = level.roofs.get(number)?;
    let framed = |roof: &Roof| {
        let rafters = [RoofFrame::NotSeen, RoofFrame::RidgeBoard, RoofFrame::RidgeBeam].contains(&roof.frame);
        roof.form == RoofForm::Gable && rafters
    };
    if !framed(wing) || !framed(main) || !main.meets.covers() {
        return None;
    }
    // With x along the main ridge and y square to it, in feet.
    let along_x = match (main.ridge.parts(), wing.ridge.parts()) {
        ((_, 0), (0, _)) => true,
        ((0, _), (_, 0)) => false,
        _ => return None,
    };
    let turned = |at: &Point| {
        let (x, y) = (at.x.feet().0, at.y.feet().0);
        if along_x { (x, y) } else { (y, x) }
    };
    let rectangle = |roof: &Roof| {
        let polygons = level.polygons(&roof.region);
        let [corners] = polygons.as_slice() else { return None };
        let all: Vec<(f64, f64)> = corners.iter().map(turned).collect();
        let extent = |of: fn(&(f64, f64)) -> f64| {
            all.iter().map(of).fold((f64::INFINITY, f64::NEG_INFINITY), |(lo, hi), it| (lo.min(it), hi.max(it)))
        };
        let (x, y) = (extent(|it| it.0), extent(|it| it.1));
        let on = |value: f64, (lo, hi): (f64, f64)| (value - lo).abs() < 0.01 || (value - hi).abs() < 0.01;
        (all.len() == 4 && all.iter().all(|it| on(it.0, x) && on(it.1, y))).then_some((x, y))
    };
    let ((mx, my), (wx, wy)) = (rectangle(main)?, rectangle(wing)?);
    let ridge = |roof: &Roof, (lo, hi): (f64, f64), of: fn((f64, f64)) -> f64| {
        let stated = roof.ridge_at.map(|at| of(turned(&at))).filter(|at| *at > lo + 1e-6 && *at < hi - 1e-6);
        let at = stated.unwrap_or((lo + hi) / 2.0);
        (at, roof.rise.inches() / 12.0 * (at - lo).max(hi - at))
    };
    let (main_ridge, main_height) = ridge(main, my, |it| it.1);
    let (top, height) = ridge(wing, wx, |it| it.0);
    let (eave, far, near, out) = match (wy.0 < my.0 - 0.01, wy.1 > my.1 + 0.01) {
        (true, false) => (my.0, wy.0, wy.1, -1.0),
        (false, true) => (my.1, wy.1, wy.0, 1.0),
        _ => return None,
    };
    let run = (eave - main_ridge).abs();
    let mut inward = run * height / main_height;
    // Within an eighth of an inch of the main ridge they meet it.
    if (inward - run).abs() < 1.0 / 96.0 + 1e-7 {
        inward = run;
    }
    if (near - eave) * out > 0.01 || wx.0 < mx.0 - 0.01 || wx.1 > mx.1 + 0.01 || inward > run {
        return None;
    }
    let apex = (top, eave - out * inward.min(run));
    let back = |(x, y): (f64, f64)| {
        let (x, y) = if along_x { (x, y) } else { (y, x) };
        Coord { x, y }
    };
    let overhang = wing.overhang.feet().0;
    let under = [(wx.0 - overhang, eave), (wx.1 + overhang, eave), (wx.1 + overhang, far), (wx.0 - overhang, far)];
    let footprint = [apex, (wx.0, eave), (wx.0, far), (wx.1, far), (wx.1, eave)];
    let inside = [(wx.0, eave), apex, (wx.1, eave), (wx.1, eave - 2.0 * out * run), (wx.0, eave - 2.0 * out * run)];
    Some(Valley {
        main: number,
        footprint: footprint.map(back).to_vec(),
        under_eaves: under.map(back).to_vec(),
        inside: inside.map(back).to_vec(),
    })
}

/// The pieces of a side that lie clear of some polygons.
fn clear(side: Line<f64>, polygons: &[Polygon<f64>]) -> Vec<Line<f64>> {
    let at = |share: f64| side.start + (side.end - side.start) * share;
    let share = |at: Coord<f64>| {
        let (way, to) = (side.end - side.start, at - side.start);
        (way.x * to.x + way.y * to.y) / (way.x * way.x + way.y * way.y)
    };
    let mut stops = vec![0.0, 1.0];
    for other in polygons.iter().flat_map(|it| it.exterior().lines()) {
        match line_intersection(side, other) {
            Some(LineIntersection::SinglePoint { intersection, .. }) => stops.push(share(intersection)),
            Some(LineIntersection::Collinear { intersection }) => {
                stops.extend([share(intersection.start), share(intersection.end)]);
            }
            None => {}
        }
    }
    stops.sort_by(f64::total_cmp);
    let outside = |at: Coord<f64>| polygons.iter().all(|it| !near(it, at));
    let pieces = stops.windows(2).filter(|pair| pair[1] - pair[0] > 1e-9 && outside(at((pair[0] + pair[1]) / 2.0)));
    pieces.map(|pair| Line::new(at(pair[0]), at(pair[1]))).collect()
}

/// Whether a place is in a polygon or, but for rounding, on its edge.
fn near(polygon: &Polygon<f64>, at: Coord<f64>) -> bool {
    let on = |line: Line<f64>| {
        let (way, to) = (line.end - line.start, at - line.start);
        let length = (way.x * way.x + way.y * way.y).sqrt();
        let (along, off) = ((way.x * to.x + way.y * to.y) / length, (way.x * to.y - way.y * to.x).abs() / length);
        off < ON_EDGE && along > -ON_EDGE && along < length + ON_EDGE
    };
    polygon.coordinate_position(&at) != CoordPos::Outside || polygon.exterior().lines().any(on)
}

fn coord(at: &Point) -> Coord<f64> {
    Coord { x: at.x.feet().0, y: at.y.feet().0 }
}

/// The same house as somebody measured it: each corner off by up to an inch, in sixteenths, and all of it turned. Roofs lie over
/// each other there and meet in no valleys, since this count knows those along the sheet alone. None if it does not hold together.
pub(super) fn measured(plan: &Plan, salt: u32, (m, n): (i32, i32)) -> Option<Plan> {
    let off = |at: Point, way: u32| {
        let mixed = at.x.get().unsigned_abs().wrapping_mul(0x9E37_79B1) ^ at.y.get().unsigned_abs().rotate_left(way);
        let mixed = (mixed ^ salt).wrapping_mul(0x85EB_CA6B);
        Ticks::new((i32::try_from((mixed >> 16) % 33).expect("a few") - 16) * Ticks::PER_INCH / 16)
    };
    let askew = |at: Point| if salt == 0 { at } else { Point::new(at.x + off(at, 7), at.y + off(at, 19)) };
    let (c, s) = (m * m - n * n, 2 * m * n);
    let (cosine, sine) = (f64::from(c) / f64::from(m * m + n * n), f64::from(s) / f64::from(m * m + n * n));
    let point = |at: Point| {
        let at = askew(at);
        let (x, y) = (at.x.inches(), at.y.inches());
        let ticks = |inches: f64| Ticks::from_inches(inches).expect("near");
        Point::new(ticks(x * cosine - y * sine), ticks(x * sine + y * cosine))
    };
    let way = |way: joistwise_core::plan::Way| {
        let (dx, dy) = way.parts();
        joistwise_core::plan::Way::new(dx * c - dy * s, dx * s + dy * c)
    };
    let mut file = PlanFile::from(&turn::moved(plan, point, way)?);
    for level in &mut file.levels {
        // Where roofs touch, a tick of rounding says whether there is an eave between them: they have none.
        let alone = level.roofs.len() == 1;
        for roof in &mut level.roofs {
            roof.meets = Meets::Covers;
            roof.overhang = if alone { roof.overhang } else { Ticks::ZERO };
        }
    }
    Plan::try_from(file).ok()
}

/// The same house with every outside wall a gable end, where a roof makes it one.
pub(super) fn with_gables(plan: &Plan) -> Plan {
    let mut file = PlanFile::from(plan);
    let walls = file.levels.iter_mut().flat_map(|level| &mut level.walls);
    walls.filter(|wall| wall.side == Side::Outside).for_each(|wall| wall.gable = Gable::Stated);
    Plan::try_from(file).expect("as sound as before")
}
